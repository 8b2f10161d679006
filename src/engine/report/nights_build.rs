//! Owns the filling of the answer about many nights.

use super::ladder_types::*;
use super::types::Gives;
use super::words;
use crate::plan::nights::{LATE_MEAN_S, MIX_SPREAD, MOISTURE_SPREAD, Nights, PIECE_SPREAD};
use crate::scenario::Scenario;

/// Reports nights that were run.
#[must_use]
pub fn nights(scenario: &Scenario, found: &Nights, seed: u64, asked: u32) -> NightsReport {
    let run = f64::from(found.run.max(1));
    let between = found.interval();
    NightsReport {
        name: scenario.name.clone(),
        nights: found.run,
        asked,
        seed,
        holds_fraction: found.holds_fraction(),
        holds_error: 0.5 * (between[1] - between[0]),
        holds_between: between,
        wait_p90_s: found.wait_p90_s,
        wood_kg: Spread { p10: found.wood_kg[0], p50: found.wood_kg[1], p90: found.wood_kg[2] },
        lowest_p10_c: found.lowest_p10_c,
        breaks_at: found
            .breaks
            .iter()
            .map(|&(at_s, nights)| BreaksAt {
                quarter_hour: words::clock_typed(at_s),
                at_s,
                fraction: f64::from(nights) / run,
                nights,
            })
            .collect(),
        gave_first: shares(&found.gave, run),
        gave_on: shares(&found.on, run),
        broke_first: shares(&found.broke, run),
        chances: chances(),
        says: says(found, between),
    }
}

fn shares(counted: &[(String, u32)], run: f64) -> Vec<GaveFirst> {
    counted.iter().map(|(what, nights)| GaveFirst { what: what.clone(), fraction: f64::from(*nights) / run }).collect()
}

/// What is random, each with its spread.
fn chances() -> Vec<String> {
    vec![
        "Parties come at random: a Poisson number in each quarter hour, of random size, each guest choosing by the mix.".into(),
        format!("A dish's share of the orders moves by {} from night to night (no source).", words::percent(MIX_SPREAD)),
        format!(
            "What the meter shows moves by {} points from basket to basket (from memory).",
            words::number(100.0 * MOISTURE_SPREAD, 0)
        ),
        format!("A piece weighs {} more or less than the mean (common practice, no source).", words::percent(PIECE_SPREAD)),
        format!("Wood goes in {} late on average (common practice, no source).", words::duration(LATE_MEAN_S)),
    ]
}

fn says(found: &Nights, between: [f64; 2]) -> String {
    if found.run == 0 {
        return "No night was run.".to_owned();
    }
    let mut says = format!(
        "{} of {} nights keep every promise: {}, give or take what so few nights can tell ({} to {}).",
        found.held,
        found.run,
        words::percent(found.holds_fraction()),
        words::percent(between[0]),
        words::percent(between[1])
    );
    if let Some((at_s, nights)) = found.breaks.iter().max_by(|a, b| a.1.cmp(&b.1).then(b.0.total_cmp(&a.0))) {
        says += &format!(
            " Most often it breaks about {} ({})",
            words::clock(*at_s),
            words::count(f64::from(*nights), "night", "nights")
        );
        if let Some((what, _)) = found.gave.first() {
            says += &format!("; {} gives first most often", resource_name(what));
        }
        if let Some((dish, _)) = found.on.first() {
            says += &format!(", most of all on {dish}");
        }
        says.push('.');
        if found.holds_fraction() < 0.9 {
            says += match found.broke.first().map(|(promise, _)| promise.as_str()) {
                Some("share_in_band") => {
                    " What breaks is loads on spots too cold after a run of guests: more wood before the rush, \
                     a cap on the dish, or fewer seated at once would steady it."
                }
                Some("wait_p90_s" | "queue_gone_by") => {
                    " What breaks is the wait: fewer seated at once, or a dish off the hearth, would steady it."
                }
                Some("fire_limits") => " What breaks is the fire: feed less at a time.",
                Some("bake_slower_max") => {
                    " What breaks is bakes grown slow: more wood before the rush would steady it."
                }
                _ => "",
            };
        }
    }
    says
}

/// The kitchen's name of a resource's key.
#[must_use]
pub fn resource_name(key: &str) -> &'static str {
    let all =
        [Gives::FloorHeat, Gives::TopHeat, Gives::FloorSpace, Gives::Hands, Gives::Fire, Gives::DoorwayAir, Gives::Cap];
    all.into_iter().find(|g| g.key() == key).unwrap_or(Gives::None).name()
}
