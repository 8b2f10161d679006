//! Owns the whole page: what it knows, the worker that computes for it, and what is kept between visits.

use crate::{
    answers::{NowBar, Pictures, Verdict},
    form::Form,
    golden::WORKER,
    head::Head,
    sharing::use_links,
    state::{Action, Computing, State, kept::Kept},
    storage,
    trust::Trust,
    words::words,
    worker::{
        Answer,
        client::{Client, Heard},
    },
};
use gloo::{events::EventListener, timers::callback::Timeout};
use hearthload::report::words::clock;
use serde_json::{Value, json};
use std::rc::Rc;
use yew::prelude::*;

/// How long the form must be still before its question goes out, ms.
const STILL_MS: u32 = 60;
/// How long before it is kept, ms.
const KEEP_MS: u32 = 400;

/// The scenarios a first visit finds: all invented.
const DEMO: &[&str] = &[
    include_str!("../../../demo-data/carries.json"),
    include_str!("../../../demo-data/surprise.json"),
    include_str!("../../../demo-data/assist.json"),
    include_str!("../../../demo-data/small.json"),
];

/// What the page opens on: what was kept, else the demonstration.
fn first() -> State {
    let demo = || Kept::of(DEMO.iter().filter_map(|text| serde_json::from_str::<Value>(text).ok()).collect());
    State::new(storage::load().unwrap_or_else(demo))
}

/// A worker whose answers become actions.
#[hook]
fn use_worker(desk: &UseReducerHandle<State>) -> Rc<Client> {
    let send = desk.dispatcher();
    use_memo((), move |()| {
        Client::new(WORKER, move |heard| {
            send.dispatch(match heard {
                Heard::Answer { run, text } => match serde_json::from_str(&text) {
                    Ok(answer) => Action::Heard(run, answer),
                    Err(error) => Action::Heard(run, Answer::Fault(error.to_string())),
                },
                Heard::Lost(why) => Action::Lost(why),
            });
        })
    })
}

/// Asks whenever the scenario has changed and stood still.
#[hook]
fn use_asking(desk: &UseReducerHandle<State>) {
    let client = use_worker(desk);
    let running = desk.computing == Computing::Running;
    let doc = desk.doc.clone();
    use_effect_with((desk.run, running), move |(run, running)| {
        let run = *run;
        let wait = running.then(|| {
            // The first question of a visit need not wait for more typing.
            Timeout::new(if run == 1 { 0 } else { STILL_MS }, move || {
                client.ask(run, "carry", json!({ "question": "carry", "scenario": &*doc, "map": true }).to_string());
            })
        });
        move || drop(wait)
    });
}

/// Keeps the scenarios; gives when they were last kept, nothing where they cannot be.
#[hook]
fn use_keeping(desk: &UseReducerHandle<State>) -> Option<AttrValue> {
    let saved = use_state(|| None::<AttrValue>);
    {
        let saved = saved.clone();
        use_effect_with(desk.kept.clone(), move |kept| {
            let keep = {
                let kept = kept.clone();
                move || {
                    let now = js_sys::Date::new_0();
                    let at_s = f64::from(now.get_hours() * 3600 + now.get_minutes() * 60);
                    saved.set(storage::save(&kept).then(|| clock(at_s).into()));
                }
            };
            let soon = Timeout::new(KEEP_MS, keep.clone());
            let leaving = EventListener::new(&gloo::utils::window(), "pagehide", move |_| keep());
            move || drop((soon, leaving))
        });
    }
    (*saved).clone()
}

/// The page.
#[component]
pub fn App() -> Html {
    let desk = use_reducer(first);
    use_asking(&desk);
    let saved = use_keeping(&desk);
    use_links(desk.dispatcher());
    html! {
        <>
            <Head desk={desk.clone()} {saved} />
            <main class="chef">
                <Verdict desk={desk.clone()} />
                <NowBar desk={desk.clone()} />
                <Form desk={desk.clone()} />
                <Pictures desk={desk.clone()} />
            </main>
            <Trust />
            <footer class="foot"><p>{ words().computed }</p></footer>
        </>
    }
}

/// Puts the page in place of the line that said it was starting.
pub fn start() {
    if let Some(boot) = gloo::utils::document().get_element_by_id("boot") {
        boot.remove();
    }
    yew::Renderer::<App>::new().render();
}
