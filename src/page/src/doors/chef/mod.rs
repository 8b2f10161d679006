//! Owns the chef's door, does this oven carry this menu: the verdict with its four facts, what gives first, and the pictures with
//! what stands beside them.

mod assumed;
mod facts;
mod figures;
mod moment;
pub(crate) mod verdict;
mod ways;

use super::{nights::Nights, notices, sure::sure};
use crate::{
    charts::{Answer, Kitchen, Picture, canvas::ChartCanvas},
    figures as said,
    form::{Desk, Form},
    state::{Answered, asked::Subject},
    words::{fill, print, words},
};
use std::rc::Rc;
use verdict::{NowBar, Verdict};
use yew::prelude::*;

/// The chef's door.
#[component]
pub(crate) fn Chef(props: &super::Props) -> Html {
    let desk = &props.desk;
    // The chosen moment is one for all pictures of time.
    let moment = use_state(|| None::<f64>);
    html! {
        <main class="chef">
            <Verdict desk={desk.clone()} moment_s={*moment} />
            <NowBar desk={desk.clone()} />
            <Form desk={desk.clone()} />
            <Pictures desk={desk.clone()} {moment} />
        </main>
    }
}

/// The pictures' properties.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
    /// The chosen moment, s; none until one is chosen.
    pub moment: UseStateHandle<Option<f64>>,
}

/// The last good answer with the outlines its pictures need.
#[hook]
pub(crate) fn use_answer(desk: &Desk) -> Rc<Option<Answer>> {
    use_memo(desk.answer.clone(), |answer| answer.as_ref().map(drawn))
}

/// The pinned answer with its outlines.
#[hook]
fn use_pinned(desk: &Desk) -> Rc<Option<Answer>> {
    use_memo(desk.pinned.clone(), |pinned| pinned.as_ref().map(|(_, answer)| drawn(answer)))
}

fn drawn(answer: &Answered) -> Answer {
    Answer { report: answer.report.clone(), kitchen: Rc::new(Kitchen::of(&answer.scenario)) }
}

/// Everything below the verdict.
#[component]
pub(crate) fn Pictures(props: &Props) -> Html {
    let desk = &props.desk;
    let answer = use_answer(desk);
    let pinned = use_pinned(desk);
    let pinned = pinned.as_ref();
    let moment = &props.moment;
    let Some(answer) = answer.as_ref() else {
        return html! { <div class="pictures" id="pictures" tabindex="-1"></div> };
    };
    let at_s = moment.unwrap_or_else(|| answer.telling_moment()).clamp(answer.kitchen.start_s, answer.end_s());
    let choose = {
        let moment = moment.clone();
        Callback::from(move |at_s: f64| moment.set(Some(at_s)))
    };
    let report = &answer.report;
    html! {
        <div class="pictures" id="pictures" tabindex="-1">
            <div class="pair">
                <section class="slab gives" aria-label={words().first_gives}><ChartCanvas picture={Picture::Gives(answer.clone())} pinned={pinned.clone()} /></section>
                <section class="slab" aria-label={words().ways_title}><ways::Ways desk={desk.clone()} /></section>
            </div>
            <section class="slab" aria-labelledby="warnings-title">
                <h2 id="warnings-title">{ words().warnings }</h2>
                { notices::warnings(report) }
            </section>
            <section class="slab"><ChartCanvas picture={Picture::Heat(answer.clone())} pinned={pinned.clone()} />{ figures::dishes(report) }</section>
            <section class="slab"><ChartCanvas picture={Picture::Floor(answer.clone())} moment_s={at_s} on_moment={choose.clone()} pinned={pinned.clone()} /><p class="how">{ print(&report.floor.probe_says) }</p></section>
            <section class="slab"><moment::Plan answer={answer.clone()} {at_s} on_moment={choose} /></section>
            <section class="slab"><ChartCanvas picture={Picture::Ledger(answer.clone())} pinned={pinned.clone()} /></section>
            <section class="slab"><ChartCanvas picture={Picture::Wood(answer.clone())} pinned={pinned.clone()} /><p class="how">{ fill(words().at_doorway, &[&said::with_unit(report.doorway_kw_m2, 1, "kW/m²")]) }</p></section>
            <section class="slab" aria-labelledby="care-title"><h2 id="care-title">{ words().cautions }</h2>{ notices::cautions(report) }</section>
            <Nights desk={desk.clone()} subject={Subject::Nights} about={words().this_oven} />
            { sure(desk, Subject::Sure, None) }
            <section class="slab"><assumed::Assumptions desk={desk.clone()} /></section>
        </div>
    }
}
