//! Owns the planner's verdict: which floor to buy and why, four facts about it, how far the ladder has come.

use super::choice::{self, Choice};
use crate::{
    charts::ladder::Held,
    doors::{Strip, done, progress::Progress, use_spoken},
    figures as said,
    form::Desk,
    state::{asked::Subject, draft},
    units::units,
    words::{fill, print, words},
};
use hearthload::report::{FloorsReport, RungReport};
use serde_json::Value;
use std::rc::Rc;
use yew::prelude::*;

/// The verdict's properties.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
    /// The ladder as far as it is worked out.
    pub report: Option<Rc<FloorsReport>>,
    /// The rung that is looked at.
    pub chosen: Option<Choice>,
}

/// How a floor is named: "130 cm".
pub(crate) fn size(rung: &RungReport) -> String {
    said::with_unit(rung.floor_cm, 0, "cm")
}

/// A floor with how it is heated.
pub(crate) fn named(rung: &RungReport) -> String {
    fill(if rung.assist { words().floor_with_gas } else { words().floor_on_wood }, &[&size(rung)])
}

/// The verdict.
#[component]
pub(crate) fn Verdict(props: &Props) -> Html {
    let (desk, say) = (&props.desk, words());
    let question = desk.asked.get(Subject::Floors);
    let running = question.is_some_and(|question| question.is_running());
    let whole =
        props.report.as_ref().filter(|report| choice::is_whole(report) && (!running || !report.rungs.is_empty()));
    let whole = whole.filter(|report| report.smallest.is_some() || !running);
    let (title, because) = match whole {
        Some(report) => (verdict(report), because(report, running)),
        None if running => (say.floors_running.to_owned(), String::new()),
        None => (say.no_verdict.to_owned(), String::new()),
    };
    let stands = whole.map(|report| if report.smallest.is_some() { "carries" } else { "gives" });
    let spoken = use_spoken(&if whole.is_some() { format!("{title} {because}") } else { String::new() });
    let chosen = props.report.as_ref().and_then(|report| props.chosen?.rung(report));
    let so_far = props.report.as_ref().map_or((0, 0), |report| (report.rungs.len(), report.of));
    html! {
        <section class={classes!("slab", "verdict", running.then_some("running"))} id="verdict" tabindex="-1" aria-labelledby="verdict-says" data-verdict={stands}
            aria-busy={running.to_string()}>
            <Strip desk={desk.clone()} />
            { done(desk) }
            <h1 id="verdict-says">{ title }</h1>
            <p class="because">{ because }</p>
            { Progress::of(desk, Subject::Floors, so_far_words(so_far, whole.is_some()), say.floors_ask).show() }
            <div>{ chosen.map(|rung| facts(desk, rung)).unwrap_or_default() }</div>
            <p class="estimate"><strong>{ say.estimate }</strong>{ " " }{ say.floors_outrank }</p>
            <p class="for-ears" role="status">{ spoken }</p>
        </section>
    }
}

fn so_far_words((rungs, of): (usize, u32), whole: bool) -> String {
    match (rungs, whole) {
        (_, true) => words().floors_nights.to_owned(),
        (0, _) => words().floors_begin.to_owned(),
        (rungs, _) => fill(words().floors_so_far, &[&rungs.to_string(), &of.to_string()]),
    }
}

/// The sentence.
fn verdict(report: &FloorsReport) -> String {
    let say = words();
    match (choice::nine(report), choice::planned(report)) {
        (Some(nine), _) => fill(say.floors_nine_title, &[&named(nine)]),
        (None, Some(planned)) => fill(say.floors_smallest_title, &[&named(planned)]),
        (None, None) => say.floors_none.to_owned(),
    }
}

/// Its cause: the margin; what a burner would change; what bad nights and growth ask for.
fn because(report: &FloorsReport, running: bool) -> String {
    let say = words();
    let pieces = |value: f64| said::number(value, 0);
    let Some(planned) = choice::planned(report) else {
        let last = report.rungs.iter().rev().find(|rung| !rung.too_small);
        return last.map_or_else(
            || say.floors_none_fit.to_owned(),
            |rung| fill(say.floors_none_why, &[&named(rung), &print(rung.gives_first.name())]),
        );
    };
    let mut says = Vec::new();
    let nine = choice::nine(report);
    if let Held::Most(most) = choice::held(report, planned) {
        let (most, asks, spare) = (pieces(most), pieces(report.asks_per_h), said::percent(planned.covers_times - 1.0));
        says.push(match nine {
            Some(nine) if Choice::of(nine) != Choice::of(planned) => {
                fill(say.floors_planned, &[&named(planned), &most, &asks, &spare])
            }
            _ => fill(say.floors_holds, &[&most, &asks, &spare]),
        });
    }
    let gas = choice::smallest(report, true).filter(|gas| gas.floor_cm < planned.floor_cm - 1e-6);
    if planned.assist {
        says.push(say.floors_gas_only.to_owned());
    } else if let Some(gas) = gas {
        says.push(fill(say.floors_gas_smaller, &[&size(gas)]));
    }
    match nine {
        Some(_) => {}
        None if running => says.push(say.floors_nine_awaited.to_owned()),
        None => says.push(say.floors_nine_none.to_owned()),
    }
    let grown = report.smallest_grown.as_ref().and_then(|name| report.rungs.get(name.index));
    let bought = nine.unwrap_or(planned);
    if let Some(grown) = grown.filter(|grown| Choice::of(grown) != Choice::of(bought)) {
        says.push(fill(say.floors_grown, &[&named(grown)]));
    }
    says.join(" ")
}

/// Wood and gas of a week in the reader's own money, where the prices it needs are given. Worked out here, so that a price can be
/// typed without trying every floor again.
pub(crate) fn money(desk: &Desk, rung: &RungReport) -> Option<f64> {
    let price = |path: &str| draft::get(&desk.doc, path).and_then(Value::as_f64).filter(|price| *price >= 0.0);
    let wood = price("planning.wood_price_kg")? * rung.wood_kg_week;
    let gas = if rung.gas_kwh_week > 0.0 { price("planning.gas_price_kwh")? * rung.gas_kwh_week } else { 0.0 };
    Some(wood + gas)
}

/// Money, without a currency: it is the reader's own.
pub(crate) fn money_words(value: f64) -> String {
    units().number(value, if value < 100.0 { 2 } else { 0 })
}

fn facts(desk: &Desk, rung: &RungReport) -> Html {
    let say = words();
    let dash = || "–".to_owned();
    let gas = if rung.gas_kwh_week > 0.0 {
        fill(say.fact_week_gas, &[&said::kwh(rung.gas_kwh_week)])
    } else {
        say.fact_week_no_gas.to_owned()
    };
    let paid = money(desk, rung)
        .map_or_else(|| say.fact_week_price.to_owned(), |value| fill(say.fact_week_money, &[&money_words(value)]));
    let all = [
        (say.fact_week, said::with_unit(rung.wood_kg_week, 0, "kg"), format!("{gas}; {paid}")),
        (
            say.fact_light,
            rung.light_up_min.map_or_else(dash, said::minutes),
            if rung.light_up_min.is_some() {
                fill(say.fact_light_at, &[&said::clock_from_typed(&rung.light_at)])
            } else {
                say.fact_light_never.to_owned()
            },
        ),
        (say.fact_idle, said::with_unit(rung.idle_kw, 1, "kW"), say.fact_idle_how.to_owned()),
        (
            say.fact_lowest,
            rung.lowest_c.map_or_else(dash, said::degrees),
            fill(say.fact_feed, &[&said::with_unit(rung.feed_kg_h, 1, "kg")]),
        ),
    ];
    html! {
        <>
            <h2 class="facts-of">{ fill(say.facts_of, &[&named(rung)]) }</h2>
            <dl class="facts">
                for (name, value, when) in all {
                    <div key={name}><dt>{ name }</dt><dd><strong>{ value }</strong><span>{ when }</span></dd></div>
                }
            </dl>
        </>
    }
}
