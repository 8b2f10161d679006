//! Owns what else the cook's plan has: its cause and margins in words, the evening's end, the way of its feeding into the form, its
//! bad nights, the plan with a reserve, and the first firing of a new or damp oven.

use crate::{
    doors::{done, nights::Nights, progress::Progress},
    figures as said,
    form::Desk,
    parts::notice,
    state::{
        Action,
        asked::{Found, Subject},
        planned,
    },
    words::{act_words, fill, print, words},
};
use hearthload::report::{FireReport, FirstFiring, FirstFiringDay};
use serde_json::json;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// How many rough nights the plan is tried on: enough to tell one in two from one in three.
const ROUGH_NIGHTS: u32 = 40;

/// The view's properties.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
    /// The plan, where there is one.
    pub report: Option<Rc<FireReport>>,
}

fn found(desk: &Desk, subject: Subject) -> Option<Rc<FireReport>> {
    match desk.asked.get(subject)?.found.as_ref()? {
        Found::Fire(report) => Some(report.clone()),
        _ => None,
    }
}

/// The view.
#[component]
pub(crate) fn More(props: &Props) -> Html {
    let (desk, say) = (&props.desk, words());
    html! {
        <div class="cook-more-parts">
            <p><a class="cook-leave" href="#tonight">{ say.cook_back }</a></p>
            if let Some(report) = &props.report { { plan(desk, report) } { nights(desk, report) } { rough(desk) } }
            <First desk={desk.clone()} />
        </div>
    }
}

/// The plan in words: what it rests on, what is left to its limits, coals, gas, the end.
fn plan(desk: &Desk, report: &FireReport) -> Html {
    let say = words();
    let take = planned::feeding(&desk.doc, report).map(|edits| {
        let (send, says) = (desk.dispatcher(), say.more_fed_taken.to_owned());
        let press = Callback::from(move |_: MouseEvent| send.dispatch(Action::Apply(edits.clone(), says.clone())));
        html! { <button type="button" onclick={press}>{ say.more_fed_take }</button> }
    });
    let spread = report.spread_coals.as_ref().map(|spread| {
        let at = said::clock_from_typed(&spread.at);
        fill(say.more_spread, &[&at, &said::minutes(spread.for_min), &said::kg(spread.saves_kg)])
    });
    let gas = report.assist.as_ref().map(|assist| print(&assist.says)).filter(|says| !says.is_empty());
    let evening = report.evening.as_ref().map(|evening| print(&evening.says));
    let lines = [Some(super::sheet::wood(report)), spread, gas, evening];
    html! {
        <section class="slab"><h1>{ say.more_plan }</h1>
            <p><strong>{ print(&report.says) }</strong></p>
            <p>{ print(&report.because) }</p>
            for line in lines.into_iter().flatten() { <p key={line.clone()}>{ line }</p> }
            <p>{ say.more_fed }{ " " }<a href="#menu">{ say.cook_to_menu }</a></p>
            <div class="cook-ways">{ take.unwrap_or_default() }</div>
            { done(desk) }
            <details class="more"><summary>{ say.more_taken }</summary>
                <ul class="plain">for line in report.assumptions.iter() { <li key={line.clone()}>{ print(line) }</li> }</ul>
            </details>
        </section>
    }
}

/// The plan's feeding on bad nights, in parts: some of them say something already.
fn nights(desk: &Desk, report: &FireReport) -> Html {
    let scenario = planned::scenario(&desk.doc, report).map(Rc::new);
    scenario.map_or_else(Html::default, |scenario| {
        html! { <Nights desk={desk.clone()} subject={Subject::PlanNights} about={words().tonight_plan} scenario={Some(scenario)} /> }
    })
}

/// The plan on rough nights.
fn rough(desk: &Desk) -> Html {
    let say = words();
    let act = fill(say.rough_ask, &[&ROUGH_NIGHTS.to_string()]);
    let report = found(desk, Subject::Rough);
    html! {
        <section class="slab"><h2>{ say.rough_title }</h2>
            <p class="how">{ say.rough_how }</p>
            { Progress::of(desk, Subject::Rough, say.rough_running.to_owned(), &act).with(json!({ "rough_nights": ROUGH_NIGHTS }), false).show() }
            <div>{ report.as_ref().and_then(|report| report.rough.as_ref()).map(|rough| notice::warning(&rough.says)).unwrap_or_default() }</div>
        </section>
    }
}

/// The first firing, in as many hours as somebody wishes: refused with the reason where they are too few.
#[component]
fn First(props: &FirstProps) -> Html {
    let (desk, say) = (&props.desk, words());
    let typed = use_state_eq(String::new);
    let hours = crate::number::read(&typed);
    let with = json!({ "first_firing": true, "in_hours": hours });
    let input = {
        let typed = typed.setter();
        Callback::from(move |event: InputEvent| {
            if let Some(input) = event.target().and_then(|it| it.dyn_into::<HtmlInputElement>().ok()) {
                typed.set(input.value());
            }
        })
    };
    let question = desk.asked.get(Subject::FirstFiring);
    let other = question.is_some_and(|question| question.asked_with("in_hours") != with.get("in_hours"));
    let report = found(desk, Subject::FirstFiring);
    html! {
        <section class="slab first-firing"><h2>{ say.first_title }</h2>
            <p class="how">{ say.first_how }</p>
            <div class="field number given count">
                <label for="first-hours">{ say.first_hours }</label>
                <div class="control"><input id="first-hours" inputmode="decimal" autocomplete="off" value={(*typed).clone()} oninput={input} /><span class="unit">{ "h" }</span></div>
            </div>
            { Progress::of(desk, Subject::FirstFiring, say.first_running.to_owned(), say.first_ask).with(with, other).show() }
            <div>{ report.as_ref().map(|report| first(report)).unwrap_or_default() }</div>
        </section>
    }
}

#[derive(Properties, PartialEq)]
struct FirstProps {
    desk: Desk,
}

fn first(report: &FireReport) -> Html {
    let Some(firing) = &report.first_firing else { return html! {} };
    let damp: Vec<&str> =
        report.cautions.iter().filter(|one| one.act == "first_firing").map(|one| one.says.as_str()).collect();
    html! {
        <>
            <p class="because">{ print(&firing.says) }{ " " }{ print(&report.because) }</p>
            { days(firing, report.piece_kg) }
            for line in report.assumptions.iter() { <p class="how" key={line.clone()}>{ print(line) }</p> }
            <div class="notices">{ notice::caution(act_words("first_firing"), &damp) }</div>
        </>
    }
}

fn days(firing: &FirstFiring, piece_kg: f64) -> Html {
    let say = words();
    let row = |day: &FirstFiringDay| {
        [said::degrees(day.hold_c), said::with_unit(day.hours, 0, "h"), said::kg(day.wood_kg), feed(day, piece_kg)]
    };
    html! {
        <div class="same-scroll" tabindex="0" role="region" aria-label={say.first_title}>
            <table class="first-days">
                <thead><tr>for head in say.first_heads.split('|') { <th scope="col" key={head}>{ head }</th> }</tr></thead>
                <tbody>for day in firing.days.iter() {
                    <tr key={day.day}><th scope="row">{ day.day }</th>for cell in row(day) { <td>{ cell }</td> }</tr>
                }</tbody>
            </table>
        </div>
    }
}

fn feed(day: &FirstFiringDay, piece_kg: f64) -> String {
    let say = words();
    let [kindling, mass] = [day.kindling_kg, day.split * piece_kg].map(said::kg);
    let every = said::minutes(day.every_min);
    match day.split {
        split if split <= 0.0 => fill(say.first_kindling, &[&kindling]),
        split if split < 1.0 => fill(say.first_small, &[&kindling, &mass, &every]),
        _ => fill(say.first_feed, &[&kindling, &mass, &every]),
    }
}
