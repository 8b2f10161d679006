//! Owns the guesses at what a number was meant to be: another unit, a slipped point, a share for a percentage, a wrong sign.
//!
//! A guess that is silly is worse than none: it must lie within the field's limits and look like something a person types.

use super::fields::{Field, Kind};
use super::says::quoted;
use crate::units::decimal;
use crate::units::typed::{Unit, celsius_of_fahrenheit};

/// A value this near beyond a limit is meant as it stands and simply too much: no slip of the point is guessed.
const NEARLY: f64 = 1.25;
/// Most decimals of a guess, unless more were typed.
const DECIMALS: i32 = 1;
/// The same where grams were typed for kilograms, or watts for kilowatts.
const DECIMALS_OF_A_THOUSANDTH: i32 = 3;
/// Inch, cm (international yard and pound agreement, 1959).
const INCH_CM: f64 = 2.54;

/// Names of other units people write behind a number, and how it becomes the field's own: a factor, or Fahrenheit.
const OTHER_UNITS: [(Unit, &str, f64); 15] = [
    (Unit::Cm, "mm", 0.1),
    (Unit::Cm, "m", 100.0),
    (Unit::Cm, "in", INCH_CM),
    (Unit::Cm, "\"", INCH_CM),
    (Unit::Kg, "g", 0.001),
    (Unit::Kg, "lb", 0.453_592_37),
    (Unit::Grams, "kg", 1000.0),
    (Unit::Grams, "oz", 28.349_523_125),
    (Unit::Grams, "lb", 453.592_37),
    (Unit::Kw, "w", 0.001),
    (Unit::Minutes, "s", 1.0 / 60.0),
    (Unit::Minutes, "h", 60.0),
    (Unit::Seconds, "min", 60.0),
    (Unit::Hours, "min", 1.0 / 60.0),
    (Unit::Hours, "d", 24.0),
];

/// Names of a field's own unit people write behind a number, in small letters.
const OWN_UNITS: [(Unit, &str); 21] = [
    (Unit::Cm, "cm"),
    (Unit::DegC, "c"),
    (Unit::DegC, "°c"),
    (Unit::DegC, "degc"),
    (Unit::DegC, "°"),
    (Unit::Kelvin, "k"),
    (Unit::Kelvin, "°c"),
    (Unit::Percent, "%"),
    (Unit::Seconds, "s"),
    (Unit::Seconds, "sec"),
    (Unit::Minutes, "min"),
    (Unit::Minutes, "m"),
    (Unit::Minutes, "minutes"),
    (Unit::Hours, "h"),
    (Unit::Kg, "kg"),
    (Unit::Grams, "g"),
    (Unit::GramsPerSecond, "g/s"),
    (Unit::Kw, "kw"),
    (Unit::Pieces, "pieces"),
    (Unit::Covers, "covers"),
    (Unit::Days, "days"),
];

/// Whether a number may stand in a row.
fn fits(row: &Field, value: f64) -> bool {
    matches!(row.kind, Kind::Number { min, max, whole, .. }
        if (min..=max).contains(&value) && !(whole && value.fract() > 0.0))
}

fn unit_of(row: &Field) -> Unit {
    if let Kind::Number { unit, .. } = row.kind { unit } else { Unit::None }
}

/// Whether a number beyond a row's limits would be right in degrees Fahrenheit: then the question is asked.
#[must_use]
pub fn is_fahrenheit(row: &Field, given: f64) -> bool {
    unit_of(row) == Unit::DegC && !fits(row, given) && given > 0.0 && fits(row, celsius_of_fahrenheit(given))
}

/// Whether a number within a row's limits would still be within them if it were degrees Fahrenheit.
#[must_use]
pub fn could_be_fahrenheit(row: &Field, typed: f64) -> bool {
    fits(row, celsius_of_fahrenheit(typed))
}

/// Whether a number has no more decimals than `most`.
fn is_plain(value: f64, most: i32) -> bool {
    let scaled = value * libm::pow(10.0, f64::from(most));
    (scaled - scaled.round()).abs() < 1e-6
}

/// Decimals a number was typed with, six at most.
fn decimals(value: f64) -> i32 {
    (0..6).find(|&most| is_plain(value, most)).unwrap_or(6)
}

/// A guess at a number outside its limits, as the end of a sentence; empty where there is no good one.
#[must_use]
pub fn of_number(row: &Field, given: f64) -> String {
    let Kind::Number { unit, min, max, .. } = row.kind else { return String::new() };
    if is_fahrenheit(row, given) {
        return format!(" Did you mean degF? {given} degF is {} degC.", celsius_of_fahrenheit(given).round());
    }
    let is_near = given > max && given <= max.abs() * NEARLY || given < min && given >= 0.0 && given * NEARLY >= min;
    let slips: &[f64] = match unit {
        Unit::Percent => &[100.0, 0.1, 0.01, -1.0],
        Unit::Kg | Unit::Kw => &[0.001, 10.0, 0.1, 100.0, 0.01, -1.0],
        _ => &[10.0, 0.1, 100.0, 0.01, 1000.0, 0.001, -1.0],
    };
    let thousandth = matches!(unit, Unit::Kg | Unit::Kw);
    let good = |factor: &f64| {
        // Rounded so that a tenth of 41 reads 4.1; nought stays nought under every slip and gets no guess.
        let slip = (given * factor * 1e6).round() / 1e6;
        let most = if thousandth && *factor < 0.01 { DECIMALS_OF_A_THOUSANDTH } else { DECIMALS };
        let looks_typed = slip.abs() > 0.0 && is_plain(slip, most.max(decimals(given)));
        Some(slip).filter(|&slip| looks_typed && fits(row, slip))
    };
    if let Some(slip) = slips.iter().find_map(good).filter(|_| !is_near) {
        return format!(" Did you mean {slip}?");
    }
    let inches = (given * INCH_CM * 10.0).round() / 10.0;
    if unit == Unit::Cm && given > 0.0 && given < min && fits(row, inches) {
        return format!(" Did you mean inches? {given} in is {inches} cm.");
    }
    String::new()
}

/// A hint about a text where a number should stand.
#[must_use]
pub fn of_text(row: &Field, text: &str) -> String {
    let trimmed = text.trim();
    let number = |text: &str| decimal::read(text.trim());
    if number(trimmed).is_some() {
        return format!(" Take the quotes away: {}.", quoted(trimmed));
    }
    let dotted = trimmed.replace(',', ".");
    if number(&dotted).is_some() {
        return format!(" Did you mean {}, without quotes and with a point?", quoted(&dotted));
    }
    parted(&dotted)
        .and_then(|(number, behind)| in_own_unit(row, number, &behind))
        .filter(|&own| fits(row, own))
        .map(|own| format!(" Did you mean {own}, which is that in {}?", unit_of(row).name()))
        .unwrap_or_else(|| " A number stands alone, without letters or quotes.".to_owned())
}

/// A number typed with its unit behind it, the field's own or another, as a number in the field's own: "120cm", "1,2 m", "48 in",
/// "600 °F". Nothing where it is no such thing.
#[must_use]
pub fn with_unit(row: &Field, text: &str) -> Option<f64> {
    let (number, behind) = parted(&text.trim().replace(',', "."))?;
    if OWN_UNITS.iter().any(|&(unit, name)| unit == unit_of(row) && name == behind) {
        return Some(number);
    }
    in_own_unit(row, number, &behind)
}

/// A number and the letters behind it, made small.
fn parted(text: &str) -> Option<(f64, String)> {
    let end = text.find(|letter: char| !matches!(letter, '0'..='9' | '.' | '-' | ' ')).unwrap_or(text.len());
    let (front, back) = text.split_at(end);
    Some((decimal::read(front.trim())?, back.trim().to_ascii_lowercase()))
}

/// A number with another unit behind it, in the field's own.
fn in_own_unit(row: &Field, number: f64, behind: &str) -> Option<f64> {
    let unit = unit_of(row);
    if unit == Unit::DegC && matches!(behind, "f" | "°f" | "degf" | "deg f" | "fahrenheit") {
        return Some(celsius_of_fahrenheit(number).round());
    }
    let (.., factor) = OTHER_UNITS.into_iter().find(|&(of, name, _)| of == unit && name == behind)?;
    Some((number * factor * 1e3).round() / 1e3)
}
