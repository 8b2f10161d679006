//! Owns the filling of the answer about reach: changes in words and as edits of the draft.

use super::build;
use super::build::gives;
use super::ladder_types::*;
use super::rung_edits::phase;
use super::types::Gives;
use super::words;
use crate::plan::burner::{LeastBurner, Sought};
use crate::plan::ways::{Reach, Step, Way};
use crate::scenario::{Resolved, Scenario, clock};
use crate::service::night::Ready;
use crate::units::time::{HOUR_S, MINUTE_S};
use serde_json::{Value, json};

/// Fields that are typed in kW.
const KW_W: f64 = 1000.0;

/// Reports a scenario and its reach; `is_whole` once every change was searched.
#[must_use]
pub fn reach(resolved: &Resolved, ready: &Ready, found: &Reach, is_whole: bool) -> ReachReport {
    let mut carry = build::carry(resolved, ready, false);
    let burner = match found.burner {
        Some(Sought::Least(least)) => Some(burner(&least)),
        _ => None,
    };
    if let Some(sought) = found.burner {
        carry.assist.needed = !matches!(sought, Sought::WoodCarries | Sought::WoodFed { .. });
        carry.assist.kw_rated_least = burner.map(|b| b.kw_rated);
        carry.assist.kw_delivered_least = burner.map(|b| b.kw_delivered);
        carry.assist.lead_min = burner.map(|b| b.lead_min);
    }
    let scenario = &resolved.scenario;
    let reached = Reached {
        planned_covers: found.planned,
        most_covers: found.most_covers,
        gives_first: found.gives.map_or(Gives::None, gives),
        ways_out: found.ways.iter().map(|way| way_out(scenario, way)).collect(),
        no_gain: if is_whole {
            found.vain.iter().map(|step| one_change(scenario, *step)).collect()
        } else {
            Vec::new()
        },
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
        burner,
        burner_says: found.burner.map_or_else(String::new, |sought| burner_says(sought, burner.as_ref())),
        reach_says: says(scenario, found, is_whole),
    };
    ReachReport { carry, reached }
}

/// The least burner as data.
pub(super) fn burner(least: &LeastBurner) -> BurnerReport {
    BurnerReport {
        kw_rated: least.rated_w / KW_W,
        kw_delivered: least.delivered_w / KW_W,
        set_c: least.set_c,
        lead_min: least.lead_s / MINUTE_S,
        dead_time_min: least.dead_s / MINUTE_S,
        hours: least.full_s / HOUR_S,
        kwh: least.kwh,
        underside_most_c: least.underside_c,
        underside_limit_c: least.limit_c,
    }
}

/// The least burner in words.
pub(super) fn burner_words(b: &BurnerReport) -> String {
    format!(
        "{} on its plate ({} into the stone), set to {}, on {} (the stone lets nothing through for the \
         first {}), {} at full output, {}; the stone's underside reaches {} of the {} it bears",
        words::kw(b.kw_rated),
        words::kw(b.kw_delivered),
        words::degrees(b.set_c),
        lead(b.lead_min * MINUTE_S),
        words::minutes(b.dead_time_min.round()),
        words::duration(b.hours * HOUR_S),
        words::kwh(b.kwh),
        words::degrees(b.underside_most_c),
        words::degrees(b.underside_limit_c),
    )
}

/// How long before the first order a burner is on, or after it.
fn lead(lead_s: f64) -> String {
    let long = words::duration(lead_s.abs());
    if lead_s < 0.0 { format!("{long} after the first order") } else { format!("{long} before the first order") }
}

fn burner_says(sought: Sought, found: Option<&BurnerReport>) -> String {
    match (sought, found) {
        (Sought::WoodCarries, _) => {
            "No burner is needed: wood alone carries this evening, lit and fed as the fire plan says.".to_owned()
        }
        (Sought::WoodFed { light_at, every_s, pieces }, _) => {
            let [light_up, to_rush, rush, tail] = every_s.map(|every_s| words::minutes(every_s / MINUTE_S));
            format!(
                "No burner is needed: wood alone carries this evening, lit at {} and fed {} every {light_up} in the light-up, every \
                 {to_rush} to the rush, every {rush} in it and every {tail} after it.",
                words::clock(light_at),
                words::count(pieces, "piece", "pieces"),
            )
        }
        (_, Some(b)) => {
            format!("The least burner that carries this evening: {}. Look at the ways out first.", burner_words(b))
        }
        _ => "No burner that was tried carries this evening; look at the ways out.".to_owned(),
    }
}

fn says(scenario: &Scenario, found: &Reach, is_whole: bool) -> String {
    let covers = |n: f64| words::count(n, "cover", "covers");
    // Nothing gave: then it is the search that ended, and no floor.
    let beyond = found.gives.map_or_else(
        || "; nothing gives up to there, and more than three times the evening is not tried".to_owned(),
        |r| format!("; beyond that {} gives first", gives(r).name()),
    );
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
            let said = |way: &Way| way.steps.first().map_or_else(String::new, |step| inside(scenario, *step));
            let words = |way: &Way| format!("{}, {} more", said(way), covers(way.gained));
            let most =
                found.ways.iter().reduce(|a, b| if b.gained > a.gained { b } else { a }).filter(|most| *most != way);
            let most = most.map_or_else(String::new, |most| format!(" What gains most: {}.", words(most)));
            let least =
                if way.suffices || found.most_covers >= found.planned { "" } else { ", which is not enough alone" };
            format!("{first} What costs least: {}{least}.{most}", words(way))
        }
        None => format!("{first} None of the single changes tried carries more."),
    }
}

/// A sentence within another.
pub(super) fn lower(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| format!("{}{}", first.to_ascii_lowercase(), letters.as_str()))
}

fn way_out(scenario: &Scenario, way: &Way) -> WayOut {
    WayOut {
        change: change(scenario, &way.steps),
        covers_gained: way.gained,
        most_covers: way.most_covers,
        suffices: way.suffices,
        loses_money: way.loses.filter(|_| way.steps.iter().all(|step| is_priced(scenario, *step))),
        asks: asks(&way.steps),
        edits: way.steps.iter().flat_map(|step| edits(&way.after, *step)).collect(),
    }
}

/// Whether money says what a change loses.
fn is_priced(scenario: &Scenario, step: Step) -> bool {
    match step {
        Step::Leave(_) | Step::Hand => true,
        _ => scenario.planning.wood_price_kg.is_some() || scenario.menu.iter().any(|dish| dish.margin_each.is_some()),
    }
}

/// What the largest of some changes asks of whom.
fn asks(steps: &[Step]) -> String {
    let largest = steps.iter().copied().reduce(|a, b| if b.size() > a.size() { b } else { a });
    match largest {
        Some(Step::FeedSooner | Step::FeedLater | Step::AsPlanned) => "the cook can do it tonight",
        Some(Step::BurnerEarlier | Step::BurnerHotter) => "a turn of the burner's knob, and gas",
        Some(Step::HotCarrier(_)) => "a habit at the pass",
        Some(Step::Seat(_)) => "a longer interval between parties: some guests come later",
        Some(Step::Cap(..)) => "some of its orders wait for the next quarter hour",
        Some(Step::Hand) => "a wage",
        Some(Step::Leave(_)) => "the menu without it",
        None => "",
    }
    .to_owned()
}

fn change(scenario: &Scenario, steps: &[Step]) -> String {
    let within =
        |place: usize, step: Step| if place == 0 { one_change(scenario, step) } else { inside(scenario, step) };
    let said: Vec<String> = steps.iter().enumerate().map(|(place, step)| within(place, *step)).collect();
    match said.split_first() {
        Some((first, rest)) if !rest.is_empty() => {
            format!("{first}, and {}", rest.join(", and "))
        }
        Some((first, _)) => first.clone(),
        None => String::new(),
    }
}

/// A single change within a sentence: a dish keeps its capital.
pub(super) fn inside(scenario: &Scenario, step: Step) -> String {
    let text = one_change(scenario, step);
    if matches!(step, Step::Leave(_)) { text } else { lower(&text) }
}

/// A single change in words.
pub(super) fn one_change(scenario: &Scenario, step: Step) -> String {
    let name = |dish: usize| scenario.menu[dish].name.as_str();
    match step {
        Step::Leave(dish) => format!("{} leaves the hearth", name(dish)),
        Step::Cap(dish, most) => format!("Start at most {most} of {} in a quarter hour", name(dish)),
        Step::HotCarrier(dish) => format!("The pans of {} go back in within a minute", name(dish)),
        Step::FeedSooner => "Feed a quarter more often".to_owned(),
        Step::FeedLater => "Feed a fifth less often".to_owned(),
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
