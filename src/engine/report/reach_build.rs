//! Owns the filling of the answer about reach: changes in words and as edits of the draft.

use super::build;
use super::build::gives;
use super::ladder_types::*;
use super::rung_edits::phase;
use super::types::Gives;
use super::words;
use crate::plan::ways::{Reach, Step, Way};
use crate::scenario::{Resolved, Scenario, clock};
use crate::service::night::Ready;
use crate::units::time::MINUTE_S;
use serde_json::{Value, json};

/// Fields that are typed in kW.
const KW_W: f64 = 1000.0;

/// Reports a scenario and its reach; `is_whole` once every change was searched.
#[must_use]
pub fn reach(resolved: &Resolved, ready: &Ready, found: &Reach, is_whole: bool) -> ReachReport {
    let mut carry = build::carry(resolved, ready, false);
    if found.burner_sought {
        carry.assist.needed = true;
        carry.assist.kw_rated_least = found.burner.map(|b| b.rated_w / KW_W);
        carry.assist.kw_delivered_least = found.burner.map(|b| b.delivered_w / KW_W);
        carry.assist.lead_min = found.burner.map(|b| b.lead_s / MINUTE_S);
    }
    let scenario = &resolved.scenario;
    let reached = Reached {
        planned_covers: found.planned,
        most_covers: found.most_covers,
        gives_first: found.gives.map_or(Gives::None, gives),
        ways_out: found.ways.iter().map(|way| way_out(scenario, way)).collect(),
        best_two: found.two.as_ref().map(|way| way_out(scenario, way)),
        earns: found
            .earns
            .iter()
            .map(|e| DishEarns {
                dish: scenario.menu[e.dish].name.clone(),
                per_hearth_min: e.by_hearth_min,
                per_mj: e.by_mj,
            })
            .collect(),
        reach_says: says(scenario, found, is_whole),
    };
    ReachReport { carry, reached }
}

fn says(scenario: &Scenario, found: &Reach, is_whole: bool) -> String {
    let covers = |n: f64| words::count(n, "cover", "covers");
    let beyond = found.gives.map_or_else(String::new, |r| format!("; beyond that {} gives first", gives(r).name()));
    let first = if found.most_covers > 0.0 {
        let planned = covers(found.planned);
        format!("This kitchen carries {} at this mix ({planned} planned){beyond}.", covers(found.most_covers))
    } else {
        let why = found.gives.map_or_else(String::new, |r| format!(": {} gives", gives(r).name()));
        format!("No evening of this mix carries as it is fed and manned{why}.")
    };
    match found.ways.first() {
        _ if !is_whole => format!("{first} Ways out are being looked for."),
        Some(way) => {
            let change = change(scenario, &way.steps);
            format!("{first} What helps most: {}, {} more.", lower(&change), covers(way.gained))
        }
        None => format!("{first} None of the single changes tried carries more."),
    }
}

fn lower(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| format!("{}{}", first.to_ascii_lowercase(), letters.as_str()))
}

fn way_out(scenario: &Scenario, way: &Way) -> WayOut {
    WayOut {
        change: change(scenario, &way.steps),
        covers_gained: way.gained,
        most_covers: way.most_covers,
        edits: way.steps.iter().flat_map(|step| edits(&way.after, *step)).collect(),
    }
}

fn change(scenario: &Scenario, steps: &[Step]) -> String {
    let said: Vec<String> = steps.iter().map(|step| one_change(scenario, *step)).collect();
    match said.split_first() {
        Some((first, rest)) if !rest.is_empty() => {
            let rest: Vec<String> = rest.iter().map(|text| lower(text)).collect();
            format!("{first}, and {}", rest.join(", and "))
        }
        Some((first, _)) => first.clone(),
        None => String::new(),
    }
}

fn one_change(scenario: &Scenario, step: Step) -> String {
    let name = |dish: usize| scenario.menu[dish].name.as_str();
    match step {
        Step::Leave(dish) => format!("{} leaves the hearth", name(dish)),
        Step::Cap(dish, most) => format!("Start at most {most} of {} in a quarter hour", name(dish)),
        Step::HotCarrier(dish) => format!("The pans of {} go back in within a minute", name(dish)),
        Step::FeedSooner => "Feed a fifth more often".to_owned(),
        Step::FeedLater => "Feed a quarter less often".to_owned(),
        Step::Seat(most) => {
            format!(
                "Seat at most {} in a quarter hour of this evening, the others later",
                words::count(most, "cover", "covers")
            )
        }
        Step::AsPlanned => "Light and feed as the fire plan says".to_owned(),
        Step::Hand => "One more pair of hands".to_owned(),
        Step::BurnerEarlier => "Switch the burner on 45 min earlier".to_owned(),
        Step::BurnerHotter => "Set the burner 20 K higher".to_owned(),
    }
}

/// The change as values of the draft, read off the scenario after it.
fn edits(after: &Scenario, step: Step) -> Vec<Edit> {
    let dish = |dish: usize, field: &str| format!("menu[{dish}].{field}");
    let (path, value) = match step {
        Step::Leave(d) => (dish(d, "per_100_covers"), json!(0)),
        Step::Cap(d, most) => (dish(d, "cap_per_quarter"), json!(most)),
        Step::HotCarrier(d) => {
            let out_s = after.menu[d].carrier.as_ref().map_or(MINUTE_S, |c| c.out_s);
            (dish(d, "carrier.out_min"), json!(out_s / MINUTE_S))
        }
        Step::FeedSooner | Step::FeedLater | Step::AsPlanned => {
            let phases: Vec<Value> = after.feeding.phases.iter().map(phase).collect();
            ("feeding.phases".to_owned(), Value::Array(phases))
        }
        Step::Seat(_) => ("service.covers".to_owned(), json!(after.service.covers)),
        Step::Hand => ("service.hands".to_owned(), json!(after.service.hands)),
        Step::BurnerEarlier => {
            let on_at = after.oven.assist.as_ref().map_or(0.0, |a| a.on_at);
            ("oven.assist.on_at".to_owned(), json!(clock::write(on_at)))
        }
        Step::BurnerHotter => {
            ("oven.assist.set_c".to_owned(), json!(after.oven.assist.as_ref().map_or(0.0, |a| a.set_c)))
        }
    };
    let mut edits = vec![Edit { path, value }];
    if step == Step::AsPlanned {
        let lit = json!(clock::write(after.feeding.light_at));
        edits.push(Edit { path: "feeding.light_at".to_owned(), value: lit });
    }
    edits
}
