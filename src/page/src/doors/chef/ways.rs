//! Owns the ways out: what would carry more, searched beside the verdict, which never waits for it; each taken with one press.

use crate::{
    doors::progress::Progress,
    figures as said,
    form::Desk,
    state::{
        Action, Computing,
        asked::{Found, Subject},
        draft,
    },
    words::{fill, print, words},
};
use gloo::timers::callback::Timeout;
use hearthload::report::{Reached, WayOut};
use serde_json::Value;
use yew::prelude::*;

/// How long an answer that does not carry must stand before the search begins by itself, ms.
const STILL_MS: u32 = 900;

/// The ways out's properties.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
}

/// Begins the search by itself where the evening does not carry and was never searched.
#[hook]
fn use_search(desk: &Desk) {
    let gives =
        desk.computing == Computing::Still && desk.answer.as_ref().is_some_and(|answer| !answer.report.verdict.carries);
    let wanted = gives && desk.asked.get(Subject::Reach).is_none();
    let send = desk.dispatcher();
    use_effect_with((desk.run, wanted), move |(_, wanted)| {
        let wait =
            wanted.then(|| Timeout::new(STILL_MS, move || send.dispatch(Action::Ask(Subject::Reach, Value::Null))));
        move || drop(wait)
    });
}

/// The ways out.
#[component]
pub(crate) fn Ways(props: &Props) -> Html {
    let desk = &props.desk;
    use_search(desk);
    let say = words();
    let question = desk.asked.get(Subject::Reach);
    let reach = question.and_then(|question| match &question.found {
        Some(Found::Reach(reach)) => Some(reach.clone()),
        _ => None,
    });
    let says = fill(say.ways_running, &[&said::percent(question.map_or(0.0, |question| question.share()))]);
    html! {
        <div class="ways">
            <h2>{ say.ways_title }</h2>
            <p class="how">{ if question.is_none() { say.ways_idle } else { "" } }</p>
            { Progress::of(desk, Subject::Reach, says, say.ways_look).show() }
            <div>{ reach.as_ref().map(|reach| found(desk, reach)).unwrap_or_default() }</div>
        </div>
    }
}

fn found(desk: &Desk, reach: &Reached) -> Html {
    let say = words();
    let most = reach.ways_out.iter().chain(&reach.best_two).map(|way| way.covers_gained).fold(1.0, f64::max);
    html! {
        <>
            <p class="how">{ print(&reach.reach_says) }</p>
            <ol class="way-list">
                for way in reach.ways_out.iter() { <li key={way.change.clone()}>{ row(desk, way, most, [say.way_enough, say.way_short]) }</li> }
            </ol>
            <div>
                if let Some(two) = &reach.best_two {
                    <h3>{ words().ways_two }</h3>
                    <ol class="way-list two"><li>{ row(desk, two, most, [say.way_two_enough, say.way_two_short]) }</li></ol>
                }
            </div>
            <p class="how">{ if reach.ways_out.is_empty() { words().ways_none } else { words().ways_how } }</p>
        </>
    }
}

/// One way, marked by one of two words: whether it is enough for the evening as planned.
fn row(desk: &Desk, way: &WayOut, most: f64, [enough, short]: [&'static str; 2]) -> Html {
    let taken = way.edits.iter().all(|edit| draft::get(&desk.doc, &edit.path) == Some(&edit.value));
    let edits: Vec<(String, Value)> = way.edits.iter().map(|edit| (edit.path.clone(), edit.value.clone())).collect();
    let (send, says) = (desk.dispatcher(), fill(words().way_taken, &[&print(&way.change)]));
    let press = Callback::from(move |_: MouseEvent| send.dispatch(Action::Apply(edits.clone(), says.clone())));
    html! {
        <>
            <div class="way">
                <strong>{ print(&way.change) }</strong>
                <svg viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true"><rect width={(way.covers_gained.max(0.0) / most * 100.0).to_string()} height="8" /></svg>
                <span>{ fill(words().way_most, &[&said::number(way.most_covers, 0)]) }{ ": " }<b class={classes!("enough", (!way.suffices).then_some("short"))}>{ if way.suffices { enough } else { short } }</b></span>
            </div>
            <strong class="gain">{ format!("+{}", said::number(way.covers_gained, 0)) }</strong>
            <div>{ if taken {
                html! { <span class="now">{ words().way_in }</span> }
            } else {
                html! { <button type="button" onclick={press} aria-label={format!("{}: {}", words().way_try, print(&way.change))}>{ words().way_try }</button> }
            } }</div>
        </>
    }
}
