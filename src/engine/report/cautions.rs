//! Owns the cautions: about people, not about the plan, each beside the act it belongs to, and only those that apply.
//!
//! They name the danger and the act, and leave the last word to local codes and licensed people. Where a rule is named, its
//! source stands in the sentence or beside the row; the others are common practice, no source.

use super::types::Caution;
use super::words::list;
use crate::scenario::{Dish, Scenario};

/// Acts in the order of the working day; cautions are listed in it.
pub const ACTS: [&str; 9] = ["first_firing", "light", "feed", "doorway", "dish", "carrier", "assist", "close", "ash"];

/// Below this morning reading the lining may hold water: water boils at 100 degC at sea level (IAPWS-97).
const DAMP_BELOW_C: f64 = 100.0;

/// The cautions for one scenario, in the order of the working day.
#[must_use]
pub fn for_scenario(scenario: &Scenario) -> Vec<Caution> {
    let mut all = Vec::new();
    let mut add = |act: &str, says: &str| {
        all.push(Caution { act: act.to_owned(), says: says.to_owned() });
    };
    if scenario.start.floor_c < DAMP_BELOW_C {
        add("first_firing", DAMP);
    }
    for (act, says) in ALWAYS {
        add(act, says);
    }
    if !scenario.service.wipes.is_empty() {
        add("doorway", WIPE);
    }
    if !scenario.feeding.spread_coals.is_empty() {
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
    if scenario.oven.assist.is_some() {
        add("assist", BURNER);
    }
    all.sort_by_key(|caution| ACTS.iter().position(|act| *act == caution.act));
    all
}

/// The cautions for a slow first firing of a new or damp oven.
#[must_use]
pub fn for_first_firing(scenario: &Scenario) -> Vec<Caution> {
    let mut all = for_scenario(scenario);
    if !all.iter().any(|caution| caution.says == DAMP) {
        all.insert(0, Caution { act: "first_firing".to_owned(), says: DAMP.to_owned() });
    }
    all
}

/// Those that stand beside a fire whatever the scenario says. The first sentence of each holds danger and act, so that a
/// short form may stop there.
const ALWAYS: [(&str, &str); 11] = [
    (
        "light",
        "Extraction on before the match, and never off while coals live. Hood and flue are fitted and swept by licensed people.",
    ),
    (
        "light",
        "A CO alarm everyone can hear: carbon monoxide has no smell. If it sounds, get all out into the air and call for help.",
    ),
    ("light", "No spirit, gel, oil or lighter fluid: it flares back at the hand. Dry kindling and a match."),
    ("feed", "Clean, dry, untreated wood only: paint, glue, pallets, laminate and rubbish poison food and air."),
    ("feed", "Flames at the doorway: stop feeding, do not add air, stand clear. Feed again when they have drawn back."),
    // FC 609.5 is New York City's; other fire codes ask other amounts, so the local one comes first.
    (
        "feed",
        "At most one day's wood beside the oven, clear of its heat. Fire codes ask this (NYC FC 609.5 among them); yours comes first.",
    ),
    (
        "doorway",
        "No water on hot stone or into the fire: steam scalds and the floor cracks. A fire out of hand: the right extinguisher, and the fire brigade.",
    ),
    (
        "doorway",
        "The doorway burns in seconds and wears people out: long sleeves, dry mitts, turns of work, water to drink.",
    ),
    ("close", "Opening closed hot doors: stand aside, open a hand's width and wait, for flames may leap out."),
    ("close", "Doors shut on live coals make carbon monoxide all night: extraction stays on until they are dead."),
    (
        "ash",
        "Embers live for days: rake them into a lidded metal bin standing on stone or concrete, away from all that burns.",
    ),
];

const DAMP: &str = "A cold floor may be damp, and steam can split a damp or new lining: warm it slowly before any real fire. \
    After building, rain or weeks of rest keep to the slow schedule.";

const WIPE: &str = "Wipe with a wrung-out cloth on a long handle, face and arm aside: the steam scalds.";

const SPREAD: &str =
    "Spread coals throw sparks and heat at the doorway: clear people and cloths away first, rake slowly, rear first.";

const HOT_HOLDING: &str =
    "Food held hot on the falling oven: a thermometer, and the local food code says how hot and how long.";

const BURNER: &str = "Burner, gas line and flue are fitted and serviced by licensed people. \
    Smell gas: no flame, no switch, shut it off, get out and call.";

/// Beside poultry, pork and fish.
fn core_check(menu: &[Dish]) -> Option<String> {
    named(menu, |dish| dish.needs_core_check).map(|names| {
        format!(
            "Heat absorbed is not a core temperature: a thermometer in the thickest part of every {names}. \
             The local food code decides when it is safe."
        )
    })
}

/// Beside dishes that stand in something.
fn iron(menu: &[Dish]) -> Option<String> {
    named(menu, |dish| dish.carrier.is_some()).map(|names| {
        format!("Pans and handles ({names}) burn and look cold: dry mitts, and say \"hot\" when you set one down.")
    })
}

/// The names of the dishes that are meant, in a row; None where there are none.
fn named(menu: &[Dish], is_meant: impl Fn(&Dish) -> bool) -> Option<String> {
    let names: Vec<&str> = menu.iter().filter(|dish| is_meant(dish)).map(|dish| dish.name.as_str()).collect();
    (!names.is_empty()).then(|| list(&names))
}
