//! Owns the four facts under the verdict: each a figure with its unit, its name above and its circumstance below; beside what is
//! pinned, its difference from that.

use crate::{
    figures as said,
    units::units,
    words::{fill, words},
};
use hearthload::report::CarryReport;
use yew::prelude::*;

/// A fact.
struct Fact {
    name: &'static str,
    /// The figure, where there is one.
    value: Option<f64>,
    /// How the figure is written.
    write: fn(f64) -> String,
    /// How a difference of it is.
    step: fn(f64) -> String,
    when: String,
}

/// The four.
pub(crate) fn facts(report: &CarryReport, pinned: Option<&CarryReport>) -> Html {
    let all = four(report);
    let old = pinned.map(four);
    html! {
        <dl class="facts">
            for (place, fact) in all.iter().enumerate() {
                <div key={fact.name}>
                    <dt>{ fact.name }</dt>
                    <dd><strong>{ fact.value.map_or_else(|| "–".to_owned(), fact.write) }</strong>
                        { old.as_ref().map(|old| beside(fact, &old[place])).unwrap_or_default() }
                        <span>{ &fact.when }</span></dd>
                </div>
            }
        </dl>
    }
}

fn four(report: &CarryReport) -> [Fact; 4] {
    [lowest(report), waits(report), slowest(report), wood(report)]
}

/// The difference from what is pinned, signed; no arrow and no colour: more is not always better.
fn beside(fact: &Fact, pinned: &Fact) -> Html {
    let (Some(now), Some(then)) = (fact.value, pinned.value) else { return html! {} };
    let was = (fact.write)(then);
    if (fact.write)(now) == was {
        return html! { <span class="pinned">{ words().pinned_same }</span> };
    }
    let sign = if now > then { "+" } else { "" };
    html! { <span class="pinned"><b>{ format!("{sign}{}", (fact.step)(now - then)) }</b>{ " " }<i>{ fill(words().pinned_was, &[&was]) }</i></span> }
}

fn lowest(report: &CarryReport) -> Fact {
    let floor = &report.floor;
    let when = if floor.lowest_dish.is_empty() {
        words().fact_lowest_idle.to_owned()
    } else {
        fill(words().fact_lowest_when, &[&said::clock_from_typed(&floor.lowest_at), &floor.lowest_dish])
    };
    Fact {
        name: words().fact_lowest,
        value: Some(floor.lowest_c),
        write: |at_c| units().degrees(at_c),
        step: |by_k| units().step(by_k),
        when,
    }
}

fn waits(report: &CarryReport) -> Fact {
    let when = fill(words().fact_wait_worst, &[&said::duration(report.waits.worst_s)]);
    Fact { name: words().fact_wait, value: Some(report.waits.p90_s), write: said::duration, step: said::duration, when }
}

/// The dish whose longest bake lies furthest over the one the cook knows.
fn slowest(report: &CarryReport) -> Fact {
    let times = report.dishes.iter().filter_map(|dish| Some((dish.bake_s_worst?, dish)));
    let slowest = times.max_by(|a, b| (a.0 / a.1.bake_s_known).total_cmp(&(b.0 / b.1.bake_s_known)));
    let when = slowest.map_or_else(
        || words().fact_bake_none.to_owned(),
        |(_, dish)| fill(words().fact_bake_of, &[&dish.name, &said::duration(dish.bake_s_known)]),
    );
    Fact {
        name: words().fact_bake,
        value: slowest.map(|slowest| slowest.0),
        write: said::duration,
        step: said::duration,
        when,
    }
}

fn wood(report: &CarryReport) -> Fact {
    let peak = said::kg(report.wood.kg_per_h_peak);
    let when = if report.assist.needed {
        fill(words().fact_wood_gas, &[&peak, &said::kwh(report.assist.kwh)])
    } else {
        fill(words().fact_wood_peak, &[&peak])
    };
    let value = Some(report.wood.kg_light_up + report.wood.kg_service);
    Fact { name: words().fact_wood, value, write: |kg| units().mass(kg), step: |kg| units().mass(kg), when }
}
