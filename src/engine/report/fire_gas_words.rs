//! Owns the sentences about the burner's part of the cook's plan.

use super::fire_types::{FireAssist, InsteadOfGas};
use super::ladder_types::BurnerReport;
use super::reach_build::{self, burner_words};
use super::words::{clock, clock_typed, degrees, duration, kg, kwh, minutes, number};
use crate::plan::assist::{AssistPlan, Instead};
use crate::plan::trial::Bench;
use crate::units::time::{HOUR_S, MINUTE_S};

fn instead(bench: &Bench, way: Instead, would_do: bool) -> InsteadOfGas {
    let what = match way {
        Instead::Feed => "feed earlier and faster, no gas".to_owned(),
        Instead::Spread { at } => format!("spread the coals at {} for a quarter hour", clock(at)),
        Instead::Cap { dish, per_quarter } => format!(
            "at most {} of {} started in a quarter hour",
            number(per_quarter, 0),
            bench.ready.scenario.menu[dish].name
        ),
    };
    InsteadOfGas { what, would_do }
}

/// How long before the rush begins the burner must be on, or after it.
fn lead(lead_s: f64) -> String {
    let long = duration(lead_s.abs());
    if lead_s < 0.0 {
        format!("{long} after the start of the rush")
    } else {
        format!("{long} before the start of the rush")
    }
}

/// The burner's part.
pub(super) fn assist(bench: &Bench, part: &AssistPlan) -> FireAssist {
    let need = part.need.as_ref();
    let least = need.and_then(|n| n.least.as_ref()).or(part.larger.as_ref()).map(reach_build::burner);
    FireAssist {
        needed: need.is_some(),
        on_at: need.map(|n| clock_typed(n.on_at)),
        lead_min: need.map(|n| n.lead_s / MINUTE_S),
        hours: need.map_or(0.0, |n| n.full_s / HOUR_S),
        kwh: need.map_or(0.0, |n| n.kwh),
        kw_delivered_least: least.map(|b| b.kw_delivered),
        kw_rated_least: least.map(|b| b.kw_rated),
        set_c: need.map(|n| n.set_c),
        dead_time_min: need.map(|n| n.dead_s / MINUTE_S),
        least,
        would_spare_wood_kg: part.spares.map(|spares| spares.wood_kg),
        would_burn_kwh: part.spares.map(|spares| spares.kwh),
        underside_most_c: part.underside_c,
        underside_limit_c: part.limit_c,
        probe_in_bed: part.probe_in_bed,
        refused: part.leans_on_gas_alone,
        instead: part.instead.iter().map(|&(way, would_do)| instead(bench, way, would_do)).collect(),
        says: assist_says(bench, part, least.as_ref()),
    }
}

fn assist_says(bench: &Bench, part: &AssistPlan, least: Option<&BurnerReport>) -> String {
    let mut said = Vec::new();
    if part.leans_on_gas_alone {
        said.push("Refused: your feeding leans on gas alone. The burner repays the stone; the fire cooks, and tops need its flame.".to_owned());
    }
    match &part.need {
        None if !part.carries => said.push(match least {
            Some(b) => format!("Not with this burner. The least that would: {}.", burner_words(b)),
            None => "Not even with gas does the evening carry.".to_owned(),
        }),
        None => {
            said.push(
                "No gas is needed: feeding early and fast enough carries the evening; leave the burner off.".to_owned(),
            );
            if let Some(spares) = &part.spares {
                said.push(format!(
                    "On as the scenario has it, it would spare about {} of wood for {} of gas.",
                    kg(spares.wood_kg),
                    kwh(spares.kwh)
                ));
            }
        }
        Some(need) => {
            let ways = part.instead.iter().find(|(_, would_do)| *would_do);
            said.push(format!(
                "Gas is needed: set to {}, on by {}, {}, for the stone lets nothing through for the first {}; {} at \
                 full output, {}.",
                degrees(need.set_c),
                clock(need.on_at),
                lead(need.lead_s),
                minutes((need.dead_s / MINUTE_S).round()),
                duration(need.full_s),
                kwh(need.kwh),
            ));
            if let Some(b) = least {
                said.push(format!("The least burner that carries, fed as suits it best: {}.", burner_words(b)));
            }
            if let Some(&(way, would_do)) = ways {
                said.push(format!("Or without gas: {}.", instead(bench, way, would_do).what));
            }
        }
    }
    let over = part.underside_c > part.limit_c;
    said.push(format!(
        "With the burner on, the stone's underside reaches {}; its limit is {}{}.",
        degrees(part.underside_c),
        degrees(part.limit_c),
        if over { ": beyond it" } else { "" }
    ));
    if part.probe_in_bed {
        said.push(
            "The burner's probe lies under the coal bed and reads the fire, not the floor: move it under the food. This plan \
             takes it as moved."
                .to_owned(),
        );
    }
    said.join(" ")
}
