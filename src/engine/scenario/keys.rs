//! Owns the one look forward in the engine: the names that `matter`'s tables go by, which foods want a thermometer, and how much
//! water they hold, so that a name nobody knows or a loss no dish can have is a problem of the scenario and not a failure later.
//! It is the only file of this stage that may look forward.

use super::fields::Table;
use crate::matter::{food, stone, wood};

/// Every name in a table of properties, in the table's order.
#[must_use]
pub fn all(table: Table) -> Vec<&'static str> {
    match table {
        Table::Food => food::all().iter().map(|food| food.key).collect(),
        Table::Layer => stones(|kind| kind != stone::Kind::Carrier),
        Table::Carrier => stones(|kind| matches!(kind, stone::Kind::Carrier | stone::Kind::Floor)),
        Table::Species => wood::all().iter().map(|species| species.key).collect(),
    }
}

fn stones(wanted: impl Fn(stone::Kind) -> bool) -> Vec<&'static str> {
    stone::all().iter().filter(|material| wanted(material.kind)).map(|material| material.key).collect()
}

/// Least effusivity of what a face may be, W s^0.5/(m2 K), at a working oven's heat. Insulating brick has about 400, fibre and wool
/// 50 to 150: they take up no heat to speak of, and nobody can bake on them. Our choice between the two.
const FACE_EFFUSIVITY: f64 = 200.0;
/// The heat it is looked at, degC.
const FACE_AT_C: f64 = 300.0;

/// Whether a material can face the fire: it takes up heat. True for names that nobody knows, which are a problem of their own.
#[must_use]
pub fn can_face_fire(key: &str) -> bool {
    stone::find(key).is_none_or(|material| material.effusivity(FACE_AT_C) >= FACE_EFFUSIVITY)
}

/// Whether a thermometer caution belongs beside a dish with this food: poultry, pork, fish and the like.
#[must_use]
pub fn needs_core_check(key: &str) -> bool {
    food::find(key).is_some_and(|food| food.core_check)
}

/// Share of a food's mass that is water, 0..1: no dish can bake off more than it holds.
#[must_use]
pub fn water_share(key: &str) -> Option<f64> {
    food::find(key).map(|food| food.composition.water)
}
