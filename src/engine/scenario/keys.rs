//! Owns the one look forward in the engine: the names that `matter`'s tables go by, so that a name nobody knows is a problem of
//! the scenario and not a failure later. It hands on names and no numbers, and is the only file of this stage that may do so.

use super::fields::Table;
use crate::matter::{stone, wood};

/// Every name in a table of properties, in the table's order; empty where any name is taken.
#[must_use]
pub fn all(table: Table) -> Vec<&'static str> {
    match table {
        Table::Food => Vec::new(),
        Table::Layer => stones(|kind| kind != stone::Kind::Carrier),
        Table::Carrier => stones(|kind| matches!(kind, stone::Kind::Carrier | stone::Kind::Floor)),
        Table::Species => wood::all().iter().map(|species| species.key).collect(),
    }
}

fn stones(wanted: impl Fn(stone::Kind) -> bool) -> Vec<&'static str> {
    stone::all().iter().filter(|material| wanted(material.kind)).map(|material| material.key).collect()
}

/// Whether a food is poultry, pork or fish, so that a thermometer caution belongs beside its dish.
#[must_use]
pub fn needs_core_check(food: &str) -> bool {
    const WATCHED: &[&str] = &["chicken", "duck", "turkey", "poultry", "pork", "sausage", "bacon", "fish", "salmon"];
    WATCHED.iter().any(|word| food.contains(word))
}
