//! Owns the verdict: the sentence, its cause, the floor line under the covers, four facts, and how far to trust it.

use super::{facts::facts, use_answer, use_pinned};
use crate::{
    charts::{Picture, canvas::ChartCanvas},
    doors::Strip,
    form::{Desk, shelf::title as title_of},
    state::{Action, Computing},
    words::{fill, print, words},
};
use gloo::timers::callback::Timeout;
use yew::prelude::*;

/// How long an answer must have stood before it is spoken, ms.
const STILL_MS: u32 = 600;

/// The verdict's properties.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
    /// The chosen moment, s.
    #[prop_or_default]
    pub moment_s: Option<f64>,
}

/// What is spoken: the newest verdict, once it has stood still.
#[hook]
pub(crate) fn use_spoken(says: &str) -> String {
    let spoken = use_state(String::new);
    {
        let spoken = spoken.clone();
        use_effect_with(says.to_owned(), move |says| {
            let says = says.clone();
            let wait = Timeout::new(STILL_MS, move || spoken.set(says));
            move || drop(wait)
        });
    }
    (*spoken).clone()
}

/// The verdict.
#[component]
pub(crate) fn Verdict(props: &Props) -> Html {
    let desk = &props.desk;
    let answer = use_answer(desk);
    let before = (*use_pinned(desk)).clone();
    let report = answer.as_ref().as_ref().map(|answer| answer.report.clone());
    let says = report
        .as_ref()
        .map(|report| print(&format!("{} {}", report.verdict.says, report.verdict.because)))
        .unwrap_or_default();
    let spoken = use_spoken(if desk.computing == Computing::Still { &says } else { "" });
    let stands = match (&desk.computing, &report) {
        (Computing::Running, None) => None,
        (Computing::Stopped(_), None) => Some("stopped"),
        (_, None) => Some("mend"),
        (_, Some(report)) if report.verdict.carries => Some("carries"),
        (_, Some(_)) => Some("gives"),
    };
    let running = desk.computing == Computing::Running;
    let title = match &report {
        Some(report) => print(&report.verdict.says),
        None if running => words().running.to_owned(),
        None => words().no_verdict.to_owned(),
    };
    html! {
        <section class={classes!("slab", "verdict", running.then_some("running"))} id="verdict" tabindex="-1" aria-labelledby="verdict-says" data-verdict={stands}
            aria-busy={running.to_string()}>
            <Strip desk={desk.clone()} />
            { done(desk) }
            { pinned(desk) }
            <h1 id="verdict-says">{ title }</h1>
            <p class="because">{ report.as_ref().map(|report| print(&report.verdict.because)).unwrap_or_default() }</p>
            <div class="beam">
                if let Some(answer) = answer.as_ref() {
                    <ChartCanvas picture={Picture::Beam(answer.clone())} titled={false} moment_s={props.moment_s} pinned={before} />
                } else {
                    <div class="line"></div>
                }
            </div>
            <div>{ report.as_ref().map(|report| facts(report, desk.pinned.as_ref().map(|(_, pinned)| &*pinned.report))).unwrap_or_default() }</div>
            <p class="how fed">{ words().fed_typed }{ " " }<a href="#tonight">{ words().fed_tonight }</a>{ "." }</p>
            <p class="estimate"><strong>{ words().estimate }</strong>{ " " }{ words().outrank }</p>
            <p class="for-ears" role="status">{ spoken }</p>
        </section>
    }
}

/// The verdict in a line, in sight while a part of the form is open on a narrow screen. The verdict itself is what is read out.
#[component]
pub(crate) fn NowBar(props: &Props) -> Html {
    let desk = &props.desk;
    let open = desk.open_group.is_some();
    let says = desk.answer.as_ref().map_or(words().no_verdict.to_owned(), |answer| print(&answer.report.verdict.says));
    let state = match (&desk.computing, desk.problems.len()) {
        (Computing::Running, _) => words().running.to_owned(),
        (Computing::Mend, 1) => words().bar_mend_one.to_owned(),
        (Computing::Mend, count) => fill(words().bar_mend_many, &[&count.to_string()]),
        _ => String::new(),
    };
    html! { <p class={classes!("now-bar", open.then_some("open"))} aria-hidden="true"><strong>{ says }</strong>{ " " }{ state }</p> }
}

/// What is pinned, with its sample line and its verdict.
fn pinned(desk: &Desk) -> Html {
    let send = desk.dispatcher();
    let unpin = Callback::from(move |_: MouseEvent| send.dispatch(Action::Pin));
    html! {
        <div>
            if let Some((name, answer)) = &desk.pinned {
                <div class="pin">
                    <svg class="sample" viewBox="0 0 60 8" aria-hidden="true"><path d="M2 4 H58" /></svg>
                    <p>{ fill(words().pinned_is, &[title_of(name)]) }{ " " }{ fill(words().pinned_says, &[&print(&answer.report.verdict.says)]) }</p>
                    <button type="button" class="quiet" onclick={unpin}>{ words().unpin }</button>
                </div>
            }
        </div>
    }
}

/// What was just done, with the way back. It stays until the next change.
pub(crate) fn done(desk: &Desk) -> Html {
    let send = desk.dispatcher();
    let undo = Callback::from(move |_: MouseEvent| send.dispatch(Action::Undo));
    html! {
        <div role="status">
            if let Some(says) = &desk.done {
                <div class="done"><p>{ says }</p><button type="button" onclick={undo}>{ words().undo }</button></div>
            }
        </div>
    }
}
