//! Owns how the doors write a figure: as the engine says it, in the reader's units.

use crate::units::{self, said};
use hearthload::report::words as engine;
pub(crate) use hearthload::report::words::clock_seconds;

/// A number with a fixed count of decimals.
pub(crate) fn number(value: f64, decimals: usize) -> String {
    said(&engine::number(value, decimals))
}

/// A number and its unit.
pub(crate) fn with_unit(value: f64, decimals: usize, unit: &str) -> String {
    said(&engine::with_unit(value, decimals, unit))
}

/// A number whose unit stands elsewhere, at the head of its column.
pub(crate) fn bare(value: f64, decimals: usize, unit: &str) -> String {
    let whole = with_unit(value, decimals, unit);
    whole.split(crate::charts::words::NBSP).next().unwrap_or_default().to_owned()
}

/// The head of a column, its units the reader's.
pub(crate) fn head(text: &str) -> String {
    text.split(' ').map(units::name).collect::<Vec<_>>().join(" ")
}

/// A temperature.
pub(crate) fn degrees(value_c: f64) -> String {
    said(&engine::degrees(value_c))
}

/// A mass.
pub(crate) fn kg(value_kg: f64) -> String {
    said(&engine::kg(value_kg))
}

/// Heat of one piece.
pub(crate) fn kj(value_kj: f64) -> String {
    said(&engine::kj(value_kj))
}

/// Gas.
pub(crate) fn kwh(value_kwh: f64) -> String {
    said(&engine::kwh(value_kwh))
}

/// A share.
pub(crate) fn percent(share: f64) -> String {
    said(&engine::percent(share))
}

/// A duration.
pub(crate) fn duration(value_s: f64) -> String {
    said(&engine::duration(value_s))
}

/// Minutes.
pub(crate) fn minutes(value_min: f64) -> String {
    said(&engine::minutes(value_min))
}

/// A clock time, from seconds since midnight.
pub(crate) fn clock(at_s: f64) -> String {
    said(&engine::clock(at_s))
}

/// A clock time, from the form files have.
pub(crate) fn clock_from_typed(typed: &str) -> String {
    said(&engine::clock_from_typed(typed))
}

/// A count with its noun.
pub(crate) fn count(value: f64, one: &str, many: &str) -> String {
    engine::count(value, one, many)
}

/// Names in a row.
pub(crate) fn list(names: &[String]) -> String {
    crate::charts::words::list(names)
}
