//! Owns the cautions: about people, not about the plan, each beside the act it belongs to, and only those that apply.
//!
//! They name the danger and the act, and leave the last word to local codes and licensed people. Where a rule is named, its
//! source stands in the sentence or beside the row; the others are common practice, no source.

use super::types::Caution;
use super::words::{list, percent};
use crate::matter::wood::SMOKES_ABOVE;
use crate::scenario::{Dish, Scenario};

/// Acts in the order of the working day; cautions are listed in it.
pub const ACTS: [&str; 9] = ["first_firing", "light", "feed", "doorway", "dish", "carrier", "assist", "close", "ash"];

/// Below this morning reading the lining may hold water: water boils at 100 degC at sea level (IAPWS-97).
const DAMP_BELOW_C: f64 = 100.0;

/// What a plan does that a scenario does not tell.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Does {
    /// It burns gas.
    pub gas: bool,
    /// It spreads coals, or offers to.
    pub spreads: bool,
}

/// The cautions for one scenario, in the order of the working day.
#[must_use]
pub fn for_scenario(scenario: &Scenario) -> Vec<Caution> {
    let does = Does { gas: scenario.oven.assist.is_some(), spreads: !scenario.feeding.spread_coals.is_empty() };
    for_plan(scenario, does)
}

/// The cautions for a day's plan: those of the acts it plans.
#[must_use]
pub fn for_plan(scenario: &Scenario, does: Does) -> Vec<Caution> {
    let mut all = always();
    if let Some(says) = unfit_wood(scenario) {
        // Before all others of its act: where few have room, this one is said.
        all.insert(0, caution("feed", &says));
    }
    let mut add = |act: &str, says: &str| all.push(caution(act, says));
    if scenario.start.floor_c < DAMP_BELOW_C {
        add("light", COLD);
    }
    if !scenario.service.wipes.is_empty() {
        add("doorway", WIPE);
    }
    if does.spreads {
        add("feed", SPREAD);
    }
    if let Some(says) = core_check(&scenario.menu) {
        add("dish", &says);
    }
    if !scenario.menu.is_empty() {
        add("dish", HOT_HOLDING);
    }
    if let Some(says) = iron(&scenario.menu) {
        add("carrier", &says);
    }
    if does.gas {
        add("assist", BURNER);
    }
    in_order(all)
}

/// The cautions for the rest of an evening: the fire burns already.
#[must_use]
pub fn for_the_rest(scenario: &Scenario, does: Does) -> Vec<Caution> {
    let mut all = for_plan(scenario, does);
    let is_for_lighting = |says: &str| !says.starts_with("Extraction") && !says.starts_with("A CO alarm");
    all.retain(|caution| caution.act != "light" || !is_for_lighting(&caution.says));
    all
}

/// The cautions for a slow first firing of a new or damp oven: nothing is cooked in it.
#[must_use]
pub fn for_first_firing() -> Vec<Caution> {
    let mut all = always();
    all.push(caution("first_firing", DAMP));
    in_order(all)
}

fn caution(act: &str, says: &str) -> Caution {
    Caution { act: act.to_owned(), says: says.to_owned() }
}

fn always() -> Vec<Caution> {
    ALWAYS.iter().map(|(act, says)| caution(act, says)).collect()
}

fn in_order(mut all: Vec<Caution>) -> Vec<Caution> {
    let place = |caution: &Caution| ACTS.iter().position(|act| *act == caution.act);
    crate::numerics::order::by(&mut all, |a, b| place(a).cmp(&place(b)));
    all
}

/// Those that stand beside a fire whatever the scenario says. The first sentence of each holds danger and act, so that a
/// short form may stop there.
const ALWAYS: [(&str, &str); 11] = [
    (
        "light",
        "Extraction on before the match, never off over live coals. Hood and flue are fitted and swept by licensed people.",
    ),
    (
        "light",
        "A CO alarm that all can hear. Carbon monoxide has no smell; if the alarm sounds, get everybody out into the air and call for help.",
    ),
    ("light", "No spirit, gel, oil or lighter fluid: it flares back. Dry kindling and a match."),
    ("feed", "Clean, dry, untreated wood only. Paint, glue, pallets, laminate and rubbish poison food and air."),
    (
        "feed",
        "Flames at the doorway: stop feeding, do not add air. Stand clear, and feed again when they have drawn back.",
    ),
    // FC 609.5 is New York City's; other fire codes ask other amounts, so the local one comes first.
    (
        "feed",
        "At most a day's wood beside the oven, clear of its heat. Fire codes ask this (NYC FC 609.5 among them); yours comes first.",
    ),
    (
        "doorway",
        "No water on hot stone or into the fire: steam scalds. The floor cracks too. A fire out of hand: the right extinguisher, and the fire brigade.",
    ),
    (
        "doorway",
        "The doorway burns in seconds: sleeves and dry mitts. Its heat wears people out; take turns, and drink water.",
    ),
    ("close", "Opening closed hot doors: stand aside, a hand's width, wait. Air rushes in and flames may leap out."),
    (
        "close",
        "Doors shut on live coals: extraction stays on until they are dead. They make carbon monoxide all night.",
    ),
    (
        "ash",
        "Embers into a lidded metal bin standing on stone or concrete. They live for days: keep it away from all that burns.",
    ),
];

const DAMP: &str = "Damp stone is warmed slowly: steam that cannot get out splits the lining. \
    A new lining, and one after building, rain or weeks of rest, is dried by this schedule and no faster.";

const COLD: &str = "A floor this cold may be damp: warm it slowly, or steam splits the lining. \
    A new lining, and one after building, rain or weeks of rest, is dried by the slow schedule of a first firing.";

const WIPE: &str = "Wipe with a wrung-out cloth on a long handle: the steam scalds. Keep face and arm aside.";

const SPREAD: &str = "Spread coals throw sparks: clear people and cloths away first. Rake slowly, the rear first.";

const HOT_HOLDING: &str =
    "Hot holding by thermometer and local food code. The falling oven does not know how hot the food is.";

const BURNER: &str = "Burner, gas line and flue are for licensed people. \
    Smell gas: no flame, no switch, shut it off, get out and call.";

/// Beside wood that is too wet to burn well; nothing else in a plan costs a house.
fn unfit_wood(scenario: &Scenario) -> Option<String> {
    let meter = scenario.wood.meter_dry_basis;
    (meter > SMOKES_ABOVE + 1e-9).then(|| {
        format!(
            "Wood at {} on the meter is unfit: it smokes, and its tar in the flue catches fire. Burn none over {}; split it, and dry \
             it under cover for a year or two.",
            percent(meter),
            percent(SMOKES_ABOVE)
        )
    })
}

/// Beside poultry, pork and fish.
fn core_check(menu: &[Dish]) -> Option<String> {
    named(menu, |dish| dish.needs_core_check).map(|names| {
        format!(
            "Heat absorbed is not a core temperature: a thermometer in {names}. \
             In the thickest part, every time; the local food code decides when it is safe."
        )
    })
}

/// Beside dishes that stand in something.
fn iron(menu: &[Dish]) -> Option<String> {
    named(menu, |dish| dish.carrier.is_some()).map(|names| {
        format!("Pans and handles burn and look cold: dry mitts. Say \"hot\" when you set one down ({names}).")
    })
}

/// The names of the dishes that are meant, in a row; None where there are none.
fn named(menu: &[Dish], is_meant: impl Fn(&Dish) -> bool) -> Option<String> {
    let names: Vec<&str> = menu.iter().filter(|dish| is_meant(dish)).map(|dish| dish.name.as_str()).collect();
    (!names.is_empty()).then(|| list(&names))
}
