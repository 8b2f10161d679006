//! Owns which units people read and type: chosen once, remembered, and put on at the edge. The scenario keeps its own.

use crate::charts::{
    Units,
    words::{Gas, NBSP},
};
use crate::number;
use hearthload::{
    scenario::{self, Field},
    units::{decimal, time::DAY_S, trade},
};
use serde_json::{Value, json};
use std::cell::Cell;

thread_local! {
    /// The units in use: one page has one reader.
    static CHOSEN: Cell<Units> = Cell::new(Units::default());
}

/// The units in use.
#[must_use]
pub fn units() -> Units {
    CHOSEN.get()
}

/// Takes other units into use; what is shown already changes when it is drawn again.
pub fn choose(units: Units) {
    CHOSEN.set(units);
}

/// Units as they are kept.
#[must_use]
pub fn write(units: Units) -> Value {
    let gas = match units.gas {
        Gas::KilowattHours => "kWh",
        Gas::CubicMetres => "m3",
        Gas::Therms => "therms",
    };
    json!({
        "fahrenheit": units.fahrenheit, "pounds": units.pounds, "inches": units.inches, "btu": units.btu, "gas": gas,
        "twelve_hours": units.twelve_hours, "comma": units.comma,
    })
}

/// Reads what [`write`] wrote; what is missing is metric.
#[must_use]
pub fn read(kept: &Value) -> Units {
    let on = |name: &str| kept.get(name).and_then(Value::as_bool).unwrap_or(false);
    Units {
        fahrenheit: on("fahrenheit"),
        pounds: on("pounds"),
        inches: on("inches"),
        btu: on("btu"),
        gas: match kept.get("gas").and_then(Value::as_str) {
            Some("m3") => Gas::CubicMetres,
            Some("therms") => Gas::Therms,
            _ => Gas::KilowattHours,
        },
        twelve_hours: on("twelve_hours"),
        comma: on("comma"),
    }
}

/// How a number in one unit is read in another: factor, added, decimals more, the other's name.
struct Turn(f64, f64, i32, &'static str);

/// The reader's unit for one of the scenario's, where it is another.
fn turn(unit: &str, units: Units) -> Option<Turn> {
    let kwh = trade::KILOWATT_HOUR_J;
    Some(match unit {
        "°C" | "degC" if units.fahrenheit => Turn(1.8, 32.0, 0, "°F"),
        "K" if units.fahrenheit => Turn(1.8, 0.0, 0, "°F"),
        // A step of the thermometer, as kitchens say it.
        "K" => Turn(1.0, 0.0, 0, "°C"),
        "kg" if units.pounds => Turn(1.0 / trade::POUND_KG, 0.0, 0, "lb"),
        "kg/h" if units.pounds => Turn(1.0 / trade::POUND_KG, 0.0, 0, "lb/h"),
        "kg/s" if units.pounds => Turn(1.0 / trade::POUND_KG, 0.0, 0, "lb/s"),
        "g" if units.pounds => Turn(0.001 / trade::OUNCE_KG, 0.0, 1, "oz"),
        "money/kg" if units.pounds => Turn(trade::POUND_KG, 0.0, 0, "money/lb"),
        "money/kWh" if units.gas == Gas::CubicMetres => Turn(trade::METHANE_NET_J_M3 / kwh, 0.0, 0, "money/m³"),
        "money/kWh" if units.gas == Gas::Therms => Turn(trade::THERM_J / kwh, 0.0, 0, "money/therm"),
        "m" if units.inches => Turn(1.0 / trade::FOOT_M, 0.0, 0, "ft"),
        "cm" if units.inches => Turn(trade::CENTIMETRE_M / trade::INCH_M, 0.0, 1, "in"),
        "kW/m²" if units.btu => {
            Turn(trade::KILOWATT_W / trade::BTU_PER_HOUR_W * trade::FOOT_M * trade::FOOT_M, 0.0, -1, "Btu/h·ft²")
        }
        "kW" if units.btu => Turn(trade::KILOWATT_W / trade::BTU_PER_HOUR_W, 0.0, -2, "Btu/h"),
        "kWh" if units.gas == Gas::CubicMetres => Turn(kwh / trade::METHANE_NET_J_M3, 0.0, 0, "m³"),
        "kWh" if units.gas == Gas::Therms => Turn(kwh / trade::THERM_J, 0.0, 1, "therms"),
        _ => return None,
    })
}

/// A field's number as it is shown, with its unit's name: the scenario's where the reader's is the same.
#[must_use]
pub fn shown(text: &str, unit: &str) -> String {
    let units = units();
    let turned = match (decimal::read(text), turn(unit, units)) {
        (Some(number), Some(Turn(factor, more, ..))) => plain(number * factor + more),
        _ => text.to_owned(),
    };
    if units.comma && decimal::read(&turned).is_some() { turned.replace('.', ",") } else { turned }
}

/// A clock field's time as the reader writes it; the night after midnight is marked where the clock begins again.
#[must_use]
pub fn clock_shown(text: &str) -> String {
    let at = hearthload::report::words::clock_seconds(text).filter(|_| units().twelve_hours);
    at.map_or_else(
        || text.to_owned(),
        |at_s| format!("{}{}", units().clock(at_s), if at_s < DAY_S { "" } else { " +1" }),
    )
}

/// Four figures that count, without trailing noughts.
#[must_use]
pub fn plain(number: f64) -> String {
    let whole = format!("{:.0}", number.abs()).len();
    let text = format!("{number:.*}", 4_usize.saturating_sub(whole));
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// What was typed into a field, in the scenario's unit.
#[must_use]
pub fn meant(typed: Option<Value>, unit: &str) -> Option<Value> {
    match (typed.as_ref().and_then(Value::as_f64), turn(unit, units())) {
        // A millionth is far below what any field means, and keeps a number that was typed from growing a tail.
        (Some(number), Some(Turn(factor, more, ..))) => {
            let turned = ((number - more) / factor * 1e6).round() / 1e6;
            // A number too large to turn stays as it was typed: it is told as wrong, and not lost.
            if turned.is_finite() { Some(Value::from(turned)) } else { typed }
        }
        _ => typed,
    }
}

/// What was typed into a number's field, in the scenario's unit: a bare number in the reader's, or one with its unit behind it.
#[must_use]
pub fn typed_into(row: &Field, text: &str) -> Option<Value> {
    let typed = number::typed(text);
    let said = typed.as_ref().and_then(Value::as_str).and_then(|text| {
        let bare = |name: &str| number::read(text.trim().strip_suffix(name)?);
        // Inches before the engine's own reading, which knows fewer names; then any unit that it knows.
        let own = bare(name(row.unit())).and_then(|number| meant(number::typed(&number.to_string()), row.unit()));
        own.or_else(|| number::typed(&scenario::with_unit(row, text)?.to_string()))
    });
    said.or_else(|| meant(typed, row.unit()))
}

/// The name of a field's unit, as the reader has it.
#[must_use]
pub fn name(unit: &str) -> &str {
    turn(unit, units()).map_or_else(|| number::unit(unit), |turn| turn.3)
}

/// A sentence in the reader's units: every number with its unit, ranges and clock times among them.
#[must_use]
pub fn said(text: &str) -> String {
    let units = units();
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(start) = rest.find(|sign: char| sign.is_ascii_digit()) {
        let (before, from) = rest.split_at(start);
        out.push_str(before);
        let number = number_at(from);
        let after = &from[number.len()..];
        let in_a_word = before.ends_with(|sign: char| sign.is_ascii_alphabetic()) || is_of_a_code(before, after);
        let (written, taken) = if in_a_word { (number.to_owned(), 0) } else { turned(number, after, units) };
        out.push_str(&written);
        rest = &after[taken..];
    }
    out + rest
}

/// Whether a number is part of a code's name, "FC 609.5": behind capitals alone and before no unit.
fn is_of_a_code(before: &str, after: &str) -> bool {
    let word = before.strip_suffix([' ', NBSP]).and_then(|before| before.rsplit([' ', NBSP, '(']).next());
    let capitals = |word: &str| word.len() > 1 && word.chars().all(|sign| sign.is_ascii_uppercase());
    word.is_some_and(capitals) && !after.starts_with(NBSP)
}

/// The digits at the beginning, with a point between them.
fn number_at(text: &str) -> &str {
    let mut end = text.find(|sign: char| !sign.is_ascii_digit()).unwrap_or(text.len());
    if text[end..].starts_with('.') {
        let part = text[end + 1..].find(|sign: char| !sign.is_ascii_digit()).unwrap_or(text.len() - end - 1);
        if part > 0 {
            end += 1 + part;
        }
    }
    &text[..end]
}

/// The unit a text begins with, behind one space, and how long both are.
fn unit_at(text: &str) -> Option<(&str, usize)> {
    let space = text.chars().next().filter(|sign| *sign == NBSP || *sign == ' ')?;
    let word = &text[space.len_utf8()..];
    // kW/m² and kg/h are other units than kW and kg.
    let end = word.find(|sign: char| !sign.is_ascii_alphabetic() && !"°/²³".contains(sign)).unwrap_or(word.len());
    (end > 0).then(|| (&word[..end], space.len_utf8() + end))
}

/// A number in the reader's unit; how much of what follows belongs to it.
fn turned(number: &str, after: &str, units: Units) -> (String, usize) {
    if let Some(clock) = clock_at(number, after).filter(|_| units.twelve_hours) {
        return (units.clock(clock), 3);
    }
    let decimals = number.split_once('.').map_or(0, |(_, part)| part.len());
    let write = |Turn(factor, more, extra, _): &Turn| {
        let value = decimal::read(number).unwrap_or(0.0) * factor + more;
        let digits = decimals as i32 + extra;
        // Fewer decimals than none: whole hundreds.
        if digits < 0 { units.number((value / 100.0).round() * 100.0, 0) } else { units.number(value, digits as usize) }
    };
    // "300 to 350 °C": the first number has the second's unit.
    let range = after.strip_prefix(" to ").or_else(|| after.strip_prefix(" bis ")).or_else(|| after.strip_prefix('–'));
    if let Some(second) = range {
        let digits = number_at(second);
        let unit = unit_at(&second[digits.len()..]).and_then(|(unit, _)| turn(unit, units));
        if let Some(turn) = unit.filter(|_| !digits.is_empty()) {
            return (write(&turn), 0);
        }
    }
    if let Some((unit, length)) = unit_at(after)
        && let Some(turn) = turn(unit, units)
    {
        return (format!("{}{NBSP}{}", write(&turn), turn.3), length);
    }
    (if units.comma { number.replace('.', ",") } else { number.to_owned() }, 0)
}

/// Seconds since midnight where "18" and ":05" are a time.
fn clock_at(hours: &str, after: &str) -> Option<f64> {
    let minutes = after.strip_prefix(':')?.get(..2)?;
    let longer = after[3..].starts_with(|sign: char| sign.is_ascii_digit() || sign == ':');
    hearthload::report::words::clock_seconds(&format!("{hours}:{minutes}")).filter(|_| !longer)
}
