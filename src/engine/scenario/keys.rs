//! Owns the one look forward in the engine: the names of foods, materials and species that `matter` knows. Names only, no numbers.

use super::fields::Table;

/// Every name in a table of properties; empty where any name is taken.
#[must_use]
pub fn all(table: Table) -> Vec<&'static str> {
    match table {
        Table::Food | Table::Material | Table::Species => Vec::new(),
    }
}

/// Whether a food is poultry, pork or fish, so that a thermometer caution belongs beside its dish.
#[must_use]
pub fn needs_core_check(food: &str) -> bool {
    const WATCHED: &[&str] = &[
        "chicken", "duck", "turkey", "poultry", "pork", "sausage", "bacon", "fish", "salmon",
    ];
    WATCHED.iter().any(|word| food.contains(word))
}
