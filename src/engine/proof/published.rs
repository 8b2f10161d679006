//! Owns the published measurements of ovens: each figure is read from its table, and stands nowhere else.

use super::{Outside, Status, Table};
use std::sync::LazyLock;

/// The table as it is kept.
const MEASUREMENTS: &str = include_str!("../../../tests/reference/published_oven_measurements.csv");

static TABLE: LazyLock<Table> = LazyLock::new(|| Table::read(MEASUREMENTS));

/// A figure as it was published.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figure {
    /// The number, in the table's unit.
    pub value: f64,
    /// How far it may be off by its own source; NaN where that does not say.
    pub plus_minus: f64,
}

/// The figure of a row; NaN, which no check survives, where there is none.
#[must_use]
pub fn figure(id: &str) -> Figure {
    let row = TABLE.rows_where("id", id).next();
    let n = |column: &str| row.map_or(f64::NAN, |row| row.number(column));
    Figure { value: n("value"), plus_minus: n("plus_minus") }
}

/// A figure with the spread its source gives it as tolerance.
pub fn measured(id: &str, unit: &'static str, status: Status, source: &str) -> Outside {
    let Figure { value, plus_minus } = figure(id);
    Outside::within(value, plus_minus, unit, status, source)
}

/// A figure without a spread: a share of it is the tolerance.
pub fn within_share(id: &str, share: f64, unit: &'static str, status: Status, source: &str) -> Outside {
    Outside::relative(figure(id).value, share, unit, status, source)
}
