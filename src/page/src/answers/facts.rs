//! Owns the four facts under the verdict: each a figure with its unit, its name above and its circumstance below.

use crate::words::{fill, words};
use hearthload::report::{CarryReport, words as said};
use yew::prelude::*;

/// A fact: its name, its figure, its circumstance.
type Fact = (&'static str, String, String);

/// The four.
pub(crate) fn facts(report: &CarryReport) -> Html {
    let all = [lowest(report), waits(report), slowest(report), wood(report)];
    html! {
        <dl class="facts">
            for (name, figure, when) in all {
                <div key={name}><dt>{ name }</dt><dd><strong>{ figure }</strong><span>{ when }</span></dd></div>
            }
        </dl>
    }
}

fn lowest(report: &CarryReport) -> Fact {
    let floor = &report.floor;
    let when = if floor.lowest_dish.is_empty() {
        words().fact_lowest_idle.to_owned()
    } else {
        fill(words().fact_lowest_when, &[&said::clock_from_typed(&floor.lowest_at), &floor.lowest_dish])
    };
    (words().fact_lowest, said::degrees(floor.lowest_c), when)
}

fn waits(report: &CarryReport) -> Fact {
    let worst = fill(words().fact_wait_worst, &[&said::duration(report.waits.worst_s)]);
    (words().fact_wait, said::duration(report.waits.p90_s), worst)
}

/// The dish whose longest bake lies furthest over the one the cook knows.
fn slowest(report: &CarryReport) -> Fact {
    let times = report.dishes.iter().filter_map(|dish| Some((dish.bake_s_worst?, dish)));
    let slowest = times.max_by(|a, b| (a.0 / a.1.bake_s_known).total_cmp(&(b.0 / b.1.bake_s_known)));
    match slowest {
        Some((worst_s, dish)) => (
            words().fact_bake,
            said::duration(worst_s),
            fill(words().fact_bake_of, &[&dish.name, &said::duration(dish.bake_s_known)]),
        ),
        None => (words().fact_bake, "–".to_owned(), words().fact_bake_none.to_owned()),
    }
}

fn wood(report: &CarryReport) -> Fact {
    let peak = said::kg(report.wood.kg_per_h_peak);
    let when = if report.assist.needed {
        fill(words().fact_wood_gas, &[&peak, &said::kwh(report.assist.kwh)])
    } else {
        fill(words().fact_wood_peak, &[&peak])
    };
    (words().fact_wood, said::kg(report.wood.kg_light_up + report.wood.kg_service), when)
}
