//! Owns the sentences about what is wrong: what was typed, what is allowed, in which unit, and a guess where there is a good one.

use super::fields::{Field, Kind};
use super::types::Problem;
use super::{clock, fields};
use crate::units::decimal;
use crate::units::typed::{Unit, celsius_of_fahrenheit};
use serde_json::Value;

/// Longest piece of the user's own text quoted back, in characters.
const QUOTED: usize = 60;

/// The user's own text, cut where it is long.
#[must_use]
pub fn quoted(text: &str) -> String {
    if text.chars().count() <= QUOTED {
        return text.to_owned();
    }
    text.chars().take(QUOTED).chain("...".chars()).collect()
}

/// A problem with a row's value, its limits told by the row.
#[must_use]
pub fn with_row(row: &Field, path: &str, given: &str, says: String) -> Problem {
    Problem { field: path.to_owned(), given: quoted(given), allowed: allowed(row), unit: row.unit().to_owned(), says }
}

/// What a row allows, in words.
#[must_use]
pub fn allowed(row: &Field) -> String {
    match row.kind {
        Kind::Group => format!("fields in braces: {}", names(row)),
        Kind::List { least, most } => format!("a list of {least} to {most}"),
        Kind::Number { min, max, whole: false, .. } => format!("{min} to {max}"),
        Kind::Number { min, max, whole: true, .. } => format!("a whole number, {min} to {max}"),
        Kind::Text { most } => format!("text in quotes, at most {most} letters"),
        Kind::Choice(words) => words.join(", "),
        Kind::Clock => "a time \"HH:MM\", \"00:00\" to \"47:59\"".to_owned(),
        Kind::Key(table) => super::keys::all(table).join(", "),
    }
}

fn names(row: &Field) -> String {
    fields::children(row.path).map(Field::key_name).collect::<Vec<_>>().join(", ")
}

fn with_unit(text: &str, unit: &str) -> String {
    if unit.is_empty() { text.to_owned() } else { format!("{text} {unit}") }
}

/// A required field is not there.
#[must_use]
pub fn missing(row: &Field, path: &str) -> Problem {
    let says = format!("\"{path}\" is missing. {} Give {}.", row.note, article(row));
    with_row(row, path, "nothing", says)
}

fn article(row: &Field) -> String {
    match row.kind {
        Kind::Number { .. } => with_unit(&allowed(row), row.unit()),
        Kind::Choice(_) => format!("one of {}", allowed(row)),
        Kind::Key(_) => "a name from the list".to_owned(),
        _ => allowed(row),
    }
}

/// The value is of the wrong sort.
#[must_use]
pub fn wrong_sort(row: &Field, path: &str, given: &Value) -> Problem {
    let typed = quoted(&given.to_string());
    let hint = match (row.kind, given) {
        (Kind::Number { .. }, Value::String(text)) => number_hint(text),
        (Kind::Clock, Value::Number(number)) => guess_clock(&number.to_string()),
        (Kind::Clock, Value::String(text)) => guess_clock(text),
        (Kind::Text { .. } | Kind::Key(_) | Kind::Choice(_), Value::Number(_)) => " Put it in quotes.".to_owned(),
        (Kind::List { .. }, Value::Object(_)) => " Put it in square brackets.".to_owned(),
        _ => String::new(),
    };
    with_row(row, path, &typed, format!("You typed {typed}. {} needs {}.{hint}", row.label, article(row)))
}

fn guess_clock(text: &str) -> String {
    clock::guess(text).map_or_else(String::new, |time| format!(" Did you mean \"{time}\"?"))
}

fn number_hint(text: &str) -> String {
    let trimmed = text.trim();
    if decimal::read(trimmed).is_some() {
        return format!(" Take the quotes away: {}.", quoted(trimmed));
    }
    let dotted = trimmed.replace(',', ".");
    if decimal::read(&dotted).is_some() {
        return format!(" Did you mean {}, without quotes and with a point?", quoted(&dotted));
    }
    " A number stands without quotes and without its unit.".to_owned()
}

/// The number lies outside its limits.
#[must_use]
pub fn out_of_range(row: &Field, path: &str, given: f64) -> Problem {
    let [min, max] = row.limits().unwrap_or_default();
    let limits = with_unit(&format!("{min} to {max}"), row.unit());
    let typed = format!("{given}");
    let shown = with_unit(&quoted(&typed), row.unit());
    let frame = row.frame.replace("{}", &limits);
    with_row(row, path, &typed, format!("You typed {shown}. {frame}{}", guess_number(row, given)))
}

/// The number should be whole.
#[must_use]
pub fn not_whole(row: &Field, path: &str, given: f64) -> Problem {
    let typed = format!("{given}");
    with_row(row, path, &typed, format!("You typed {}. {} needs {}.", quoted(&typed), row.label, article(row)))
}

/// A guess at a slip: Fahrenheit, a share for a percentage, grams for kilograms, a slipped point, a wrong sign.
fn guess_number(row: &Field, given: f64) -> String {
    let Kind::Number { unit, min, max, whole } = row.kind else { return String::new() };
    let fits = |value: f64| (min..=max).contains(&value) && !(whole && value.fract() > 0.0);
    let celsius = celsius_of_fahrenheit(given);
    if unit == Unit::DegC && given > max && fits(celsius) {
        return format!(" Did you mean degF? {given} degF is {} degC.", celsius.round());
    }
    let slips: &[f64] = match unit {
        Unit::Percent => &[100.0, 0.1, 0.01, -1.0],
        Unit::Kg | Unit::Kw => &[0.001, 10.0, 0.1, 100.0, 0.01, -1.0],
        _ => &[10.0, 0.1, 100.0, 0.01, 1000.0, 0.001, -1.0],
    };
    // Rounded so that a tenth of 41 reads 4.1; nought stays nought under every slip and gets no guess.
    let slipped = |factor: &f64| (given * factor * 1e6).round() / 1e6;
    let found = slips.iter().map(slipped).find(|&slip| fits(slip) && slip.abs() > 0.0);
    found.map_or_else(String::new, |slip| format!(" Did you mean {slip}?"))
}

/// The word is none of those allowed.
#[must_use]
pub fn not_among(row: &Field, path: &str, given: &str, words: &[&str]) -> Problem {
    let guess = nearest(given, words.iter().copied());
    let guess = guess.map_or_else(String::new, |word| format!(" Did you mean \"{word}\"?"));
    let list = if words.len() <= 8 { format!("It is one of {}.", words.join(", ")) } else { String::new() };
    let says = format!("You typed \"{}\". {} knows no such word. {list}{guess}", quoted(given), row.label);
    with_row(row, path, given, says.replace("  ", " ").trim_end().to_owned())
}

/// There is no such field.
#[must_use]
pub fn unknown(parent: &str, path: &str, key: &str) -> Problem {
    let names: Vec<&str> = fields::children(parent).map(Field::key_name).collect();
    let guess = nearest(key, names.iter().copied()).map(str::to_owned).or_else(|| elsewhere(key));
    let guess = guess.map_or_else(String::new, |name| format!(" Did you mean \"{name}\"?"));
    Problem {
        field: path.to_owned(),
        given: quoted(key),
        allowed: names.join(", "),
        unit: String::new(),
        says: format!("There is no field \"{}\" here.{guess}", quoted(key)),
    }
}

fn elsewhere(key: &str) -> Option<String> {
    fields().find(|row| row.key_name() == key).map(|row| row.path.to_owned())
}

/// The nearest known word, if one is near: the same without its unit, or few letters away.
#[must_use]
pub fn nearest<'a>(typed: &str, known: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let typed: String = typed.chars().take(QUOTED).collect::<String>().to_lowercase().replace([' ', '-'], "_");
    let limit = (typed.chars().count() / 3).max(2);
    let mut best: Option<(usize, &str)> = None;
    for word in known {
        let stem = word.strip_prefix(typed.as_str()).is_some_and(|rest| rest.starts_with('_'));
        let far = if stem { 1 } else { distance(&typed, word) };
        if far <= limit && best.is_none_or(|(least, _)| far < least) {
            best = Some((far, word));
        }
    }
    best.map(|(_, word)| word)
}

/// The nearest of names people gave themselves, capitals and spaces aside.
#[must_use]
pub fn nearest_name<'a>(typed: &str, known: &[&'a str]) -> Option<&'a str> {
    let folded: Vec<String> = known.iter().map(|name| name.to_lowercase().replace([' ', '-'], "_")).collect();
    let found = nearest(typed, folded.iter().map(String::as_str))?;
    folded.iter().position(|name| name == found).map(|index| known[index])
}

/// Letters to add, drop, change or swap between neighbours to get from one word to another (optimal string alignment).
fn distance(from: &str, to: &str) -> usize {
    let (a, b): (Vec<char>, Vec<char>) = (from.chars().collect(), to.chars().collect());
    let mut before: Vec<usize> = vec![0; b.len() + 1];
    let mut last: Vec<usize> = (0..=b.len()).collect();
    for i in 1..=a.len() {
        let mut row = vec![i; b.len() + 1];
        for j in 1..=b.len() {
            let change = last[j - 1] + usize::from(a[i - 1] != b[j - 1]);
            row[j] = change.min(last[j] + 1).min(row[j - 1] + 1);
            if i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] {
                row[j] = row[j].min(before[j - 2] + 1);
            }
        }
        before = last;
        last = row;
    }
    last[b.len()]
}
