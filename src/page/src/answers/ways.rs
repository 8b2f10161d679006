//! Owns the ways out: what would carry more, found by a worker of its own so that the verdict never waits for a search.

use crate::{
    form::Desk,
    golden::WORKER,
    state::{Action, Computing, draft},
    words::{fill, print, words},
    worker::{
        Answer,
        client::{Client, Heard},
    },
};
use gloo::timers::callback::Timeout;
use hearthload::report::{WayOut, words as said};
use serde::Deserialize;
use serde_json::{Value, json};
use std::rc::Rc;
use yew::prelude::*;

/// How long an answer that does not carry must stand before the search begins by itself, ms.
const STILL_MS: u32 = 900;

/// How long a search may take before its worker counts as lost, ms.
const PATIENCE_MS: u32 = 300_000;

/// The ways out's properties.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
}

/// What is shown of a search: reading the whole report a second time would make the program larger by a twentieth.
#[derive(Deserialize, PartialEq)]
struct Reach {
    reach_says: String,
    ways_out: Vec<WayOut>,
    best_two: Option<WayOut>,
}

/// How the search stands.
#[derive(Clone, PartialEq)]
enum Stage {
    Idle,
    Running,
    /// Found, for this scenario.
    Found(Rc<Value>, Rc<Reach>),
    Failed(String),
}

fn read(text: &str) -> Result<Reach, String> {
    match serde_json::from_str::<Answer<Box<Reach>>>(text) {
        Ok(Answer::Ok(report)) => Ok(*report),
        Ok(Answer::Fault(why)) => Err(why),
        // The verdict's own worker shows the same problems at their fields.
        Ok(Answer::Problems(_)) => Err(String::new()),
        Err(error) => Err(error.to_string()),
    }
}

/// The search: its stage, the way to start it, the way to stop it.
#[hook]
fn use_search(desk: &Desk) -> (UseStateHandle<Stage>, Callback<()>, Callback<()>) {
    let stage = use_state(|| Stage::Idle);
    let client = use_mut_ref(|| None::<Client>);
    let stop = {
        let (client, stage) = (client.clone(), stage.clone());
        Callback::from(move |()| {
            if let Some(client) = client.borrow_mut().take() {
                client.stop();
            }
            if *stage == Stage::Running {
                stage.set(Stage::Idle);
            }
        })
    };
    let start = {
        let (client, stage, doc, stop) = (client.clone(), stage.clone(), desk.doc.clone(), stop.clone());
        Callback::from(move |()| {
            stop.emit(());
            let (told, asked) = (stage.clone(), doc.clone());
            let fresh = Client::new(WORKER, move |heard| {
                told.set(match heard {
                    Heard::Answer { text, .. } => {
                        read(&text).map_or_else(Stage::Failed, |report| Stage::Found(asked.clone(), Rc::new(report)))
                    }
                    Heard::Lost(why) => Stage::Failed(why),
                });
            })
            .patient(PATIENCE_MS);
            fresh.ask(1, "reach", json!({ "question": "reach", "scenario": &*doc }).to_string());
            *client.borrow_mut() = Some(fresh);
            stage.set(Stage::Running);
        })
    };
    {
        // Another scenario makes what is being tried worthless; what was found stays to be read.
        let stop = stop.clone();
        use_effect_with(desk.doc.clone(), move |_| move || stop.emit(()));
    }
    (stage, start, stop)
}

/// The ways out.
#[component]
pub(crate) fn Ways(props: &Props) -> Html {
    let desk = &props.desk;
    let (stage, start, stop) = use_search(desk);
    let gives =
        desk.computing == Computing::Still && desk.answer.as_ref().is_some_and(|answer| !answer.report.verdict.carries);
    {
        let (start, idle) = (start.clone(), *stage == Stage::Idle);
        use_effect_with((desk.run, gives, idle), move |(_, gives, idle)| {
            let wait = (*gives && *idle).then(|| Timeout::new(STILL_MS, move || start.emit(())));
            move || drop(wait)
        });
    }
    let press = start.reform(|_: MouseEvent| ());
    let halt = stop.reform(|_: MouseEvent| ());
    let look = |says: &'static str| html! { <div class="acts"><button type="button" onclick={press.clone()} disabled={desk.computing != Computing::Still}>{ says }</button></div> };
    let body = match &*stage {
        Stage::Idle => html! { <><p class="how">{ words().ways_idle }</p>{ look(words().ways_look) }</> },
        Stage::Running => html! {
            <><div class="trying"></div><p role="status">{ words().ways_running }</p>
                <div class="acts"><button type="button" onclick={halt}>{ words().pause }</button></div></>
        },
        Stage::Failed(why) => {
            html! { <><p class="why">{ fill(words().ways_failed, &[why]) }</p>{ look(words().again) }</> }
        }
        Stage::Found(doc, report) => html! {
            <>{ found(desk, report) }
                <div>{ if **doc != *desk.doc { html! { <><p class="how">{ words().ways_old }</p>{ look(words().ways_again) }</> } } else { html! {} } }</div></>
        },
    };
    html! { <div class="ways"><h2>{ words().ways_title }</h2>{ body }</div> }
}

fn found(desk: &Desk, report: &Reach) -> Html {
    let most = report.ways_out.iter().chain(&report.best_two).map(|way| way.covers_gained).fold(1.0, f64::max);
    html! {
        <>
            <p class="how">{ print(&report.reach_says) }</p>
            <ol class="way-list">
                for way in report.ways_out.iter() { <li key={way.change.clone()}>{ row(desk, way, most) }</li> }
            </ol>
            <div>
                if let Some(two) = &report.best_two {
                    <h3>{ words().ways_two }</h3>
                    <ol class="way-list two"><li>{ row(desk, two, most) }</li></ol>
                }
            </div>
            <p class="how">{ if report.ways_out.is_empty() { words().ways_none } else { words().ways_how } }</p>
        </>
    }
}

fn row(desk: &Desk, way: &WayOut, most: f64) -> Html {
    let taken = way.edits.iter().all(|edit| draft::get(&desk.doc, &edit.path) == Some(&edit.value));
    let edits: Vec<(String, Value)> = way.edits.iter().map(|edit| (edit.path.clone(), edit.value.clone())).collect();
    let (send, says) = (desk.dispatcher(), fill(words().way_taken, &[&way.change]));
    let press = Callback::from(move |_: MouseEvent| send.dispatch(Action::Apply(edits.clone(), says.clone())));
    html! {
        <>
            <div class="way">
                <strong>{ print(&way.change) }</strong>
                <svg viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true"><rect width={(way.covers_gained.max(0.0) / most * 100.0).to_string()} height="8" /></svg>
                <span>{ fill(words().way_most, &[&said::number(way.most_covers, 0)]) }</span>
            </div>
            <strong class="gain">{ format!("+{}", said::number(way.covers_gained, 0)) }</strong>
            <div>{ if taken {
                html! { <span class="now">{ words().way_in }</span> }
            } else {
                html! { <button type="button" onclick={press} aria-label={format!("{}: {}", words().way_try, way.change)}>{ words().way_try }</button> }
            } }</div>
        </>
    }
}
