//! Owns the bad nights: how many of many nights hold, when they break, what gives, how the wood swings; while they are still
//! being played too.

use super::{Found, progress::Progress};
use crate::{
    charts::{Nights as Drawn, Picture, WoodSpread, canvas::ChartCanvas},
    figures as said,
    form::Desk,
    parts::notice,
    state::asked::Subject,
    words::{fill, print, translate::tr, words},
};
use hearthload::{
    report::{NightsReport, nights_build::resource_name},
    scenario::Scenario,
    units::time::QUARTER_S,
};
use serde_json::{Value, json};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::HtmlSelectElement;
use yew::prelude::*;

/// How many nights are offered. The first is asked for where nobody chooses: enough to tell nine in ten from eight.
const OFFERED: [u32; 4] = [200, 60, 500, 1000];

/// What the panel is made of.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
    /// Whose nights.
    pub subject: Subject,
    /// What is looked at, as it stands in the finding.
    pub about: AttrValue,
    /// The scenario asked about, where it is not the page's own.
    #[prop_or_default]
    pub scenario: Option<Rc<Value>>,
}

/// The panel.
#[component]
pub(crate) fn Nights(props: &Props) -> Html {
    let (desk, say) = (&props.desk, words());
    let wished = use_state_eq(|| OFFERED[0]);
    let mut with = json!({ "nights": *wished, "about": &*props.about });
    if let Some(scenario) = &props.scenario {
        with["scenario"] = (**scenario).clone();
    }
    let question = desk.asked.get(props.subject);
    let other = question.is_some_and(|question| question.asked_with("about") != with.get("about"));
    let report = question.and_then(|question| match &question.found {
        Some(Found::Nights(report)) => Some(report.clone()),
        _ => None,
    });
    let about = question.and_then(|question| question.asked_with("about")).and_then(Value::as_str).unwrap_or_default();
    let says = report.as_ref().map_or_else(
        || say.nights_begin.to_owned(),
        |report| fill(say.nights_run, &[&report.nights.to_string(), &report.asked.to_string()]),
    );
    // Another floor's plan is its own: the evening on the table says nothing of it.
    let own = desk.answer.as_ref().filter(|_| props.scenario.is_none());
    let planned = own.map(|answer| answer.report.wood.kg_light_up + answer.report.wood.kg_service);
    let act = fill(say.nights_ask, &[&wished.to_string()]);
    html! {
        <section class="slab nights" aria-labelledby="nights-title">
            <h2 id="nights-title">{ say.nights_title }</h2>
            <p class="how">{ say.nights_how }</p>
            { choose(&wished) }
            { Progress::of(desk, props.subject, says, &act).with(with, other).show() }
            if let (Some(report), Some(answer)) = (report.filter(|report| report.nights > 0), &desk.answer) {
                <ChartCanvas picture={Picture::Nights(Rc::new(drawn(&report, &answer.scenario, about)))} />
                <ChartCanvas picture={Picture::WoodSpread(Rc::new(wood(&report, planned)))} />
                { own.filter(|_| !question.is_some_and(|question| question.shows_old(&desk.doc))).map(|own| against(own.report.verdict.carries, &report)).unwrap_or_default() }
                { spread(&report) }
                { gave(&report) }
            }
        </section>
    }
}

fn choose(wished: &UseStateHandle<u32>) -> Html {
    let change = {
        let wished = wished.setter();
        Callback::from(move |event: Event| {
            let select = event.target().and_then(|it| it.dyn_into::<HtmlSelectElement>().ok());
            if let Some(nights) = select.and_then(|select| select.value().parse().ok()) {
                wished.set(nights);
            }
        })
    };
    html! {
        <div class="field pick given count">
            <label for="nights-count">{ words().nights_count }</label>
            <div class="control"><select id="nights-count" onchange={change}>
                for count in OFFERED { <option key={count} value={count.to_string()} selected={**wished == count}>{ count }</option> }
            </select></div>
        </div>
    }
}

/// The nights as the picture wants them.
fn drawn(report: &NightsReport, scenario: &Scenario, about: &str) -> Drawn {
    let from_s = (scenario.service.start / QUARTER_S).floor() * QUARTER_S;
    let last = report.breaks_at.iter().map(|at| at.at_s + QUARTER_S).fold(scenario.service.end, f64::max);
    let quarters = ((last - from_s) / QUARTER_S).ceil().max(1.0) as usize;
    let mut broken_by_quarter = vec![0; quarters];
    for at in &report.breaks_at {
        let quarter = (((at.at_s - from_s) / QUARTER_S).max(0.0) as usize).min(quarters - 1);
        broken_by_quarter[quarter] += at.nights;
    }
    Drawn {
        from_s,
        to_s: from_s + QUARTER_S * quarters as f64,
        broken_by_quarter,
        run: report.nights,
        asked: report.asked,
        held: (report.holds_fraction * f64::from(report.nights)).round() as u32,
        share_error: report.holds_error,
        what: about.to_owned(),
    }
}

/// How the wood swings, as the picture wants it.
const fn wood(report: &NightsReport, planned_kg: Option<f64>) -> WoodSpread {
    let [p10_kg, p50_kg, p90_kg] = [report.wood_kg.p10, report.wood_kg.p50, report.wood_kg.p90];
    WoodSpread { p10_kg, p50_kg, p90_kg, planned_kg }
}

/// How the verdict on the one evening and the nights belong together.
fn against(carries: bool, report: &NightsReport) -> Html {
    /// From this share on nobody wonders at a verdict that carries.
    const MOST: f64 = 0.9;
    let say = words();
    let held = (report.holds_fraction * f64::from(report.nights)).round();
    let [held, nights] = [said::number(held, 0), report.nights.to_string()];
    let nights_say = if carries && report.holds_fraction < MOST { say.nights_against } else { say.nights_agree };
    let verdict = if carries { say.nights_carries } else { say.nights_gives };
    html! { <p class="against">{ verdict }{ " " }{ fill(nights_say, &[&held, &nights]) }</p> }
}

/// How the wood swings.
fn spread(report: &NightsReport) -> Html {
    let (say, wood) = (words(), &report.wood_kg);
    html! {
        <dl class="facts three">
            <div><dt>{ say.nights_wood }</dt><dd><strong>{ said::kg(wood.p50) }</strong>
                <span>{ fill(say.nights_wood_how, &[&said::kg(wood.p10), &said::kg(wood.p90)]) }</span></dd></div>
            <div><dt>{ say.nights_wait }</dt><dd><strong>{ said::duration(report.wait_p90_s) }</strong><span>{ say.nights_wait_how }</span></dd></div>
            <div><dt>{ say.nights_lowest }</dt><dd><strong>{ report.lowest_p10_c.map_or_else(|| "–".to_owned(), said::degrees) }</strong><span>{ say.nights_lowest_how }</span></dd></div>
        </dl>
    }
}

/// What gave first, and when it breaks most.
fn gave(report: &NightsReport) -> Html {
    let say = words();
    let Some(worst) = report.breaks_at.iter().max_by_key(|at| at.nights) else { return html! {} };
    let gave: Vec<String> = report
        .gave_first
        .iter()
        .map(|gave| fill(say.nights_gave_one, &[&tr(resource_name(&gave.what)), &said::percent(gave.fraction)]))
        .collect();
    let mut says = fill(say.nights_worst, &[&said::clock_from_typed(&worst.quarter_hour), &gave.join(", ")]);
    if let Some(dish) = report.gave_on.first() {
        says += &fill(say.nights_dish, &[&dish.what]);
    }
    html! {
        <>
            { notice::warning(&says) }
            <details class="more"><summary>{ say.nights_chances }</summary>
                <ul class="plain">for chance in report.chances.iter() { <li key={chance.clone()}>{ print(chance) }</li> }</ul>
            </details>
        </>
    }
}
