//! Owns the sentences about what is wrong: what was typed, what is allowed, in which unit, and a guess where there is a good one.

use super::fields::{Field, Kind};
use super::types::Problem;
use super::{clock, fields, guess, letters};
use serde_json::Value;

/// Longest piece of the user's own text quoted back, in characters.
const QUOTED: usize = 60;

/// The user's own text, cut where it is long; letters that hide or turn others about are named instead of repeated.
#[must_use]
pub fn quoted(text: &str) -> String {
    let mut shown = String::new();
    for (count, letter) in text.chars().enumerate() {
        if count == QUOTED {
            shown.push_str("...");
            break;
        }
        if letters::misleads(letter) { shown.push_str(&letters::name(letter)) } else { shown.push(letter) }
    }
    shown
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

/// What people call the field at a path; the path itself where it is none.
#[must_use]
pub fn label_at(path: &str) -> &str {
    fields::field(&fields::pattern_of(path)).map_or(path, |row| row.label)
}

/// A required field is not there.
#[must_use]
pub fn missing(row: &Field, path: &str) -> Problem {
    let says = format!("\"{}\" is missing. {} Give {}.", row.label, row.note, article(row));
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
        (Kind::Number { .. }, Value::String(text)) => guess::of_text(row, text),
        (Kind::Clock, Value::Number(_)) => guess_clock(&given.to_string()),
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

/// The number lies outside its limits.
#[must_use]
pub fn out_of_range(row: &Field, path: &str, given: f64) -> Problem {
    let [min, max] = row.limits().unwrap_or_default();
    let limits = with_unit(&format!("{min} to {max}"), row.unit());
    let typed = format!("{given}");
    let shown = with_unit(&quoted(&typed), row.unit());
    let frame = row.frame.replace("{}", &limits);
    with_row(row, path, &typed, format!("You typed {shown}. {frame}{}", guess::of_number(row, given)))
}

/// A text holds a letter nobody can see, or one that turns others about.
#[must_use]
pub fn misleading(row: &Field, path: &str, text: &str, letter: char) -> Problem {
    let says =
        format!("{} holds {}, a sign that cannot be seen. Type it again without.", row.label, letters::name(letter));
    with_row(row, path, text, says)
}

/// The number should be whole.
#[must_use]
pub fn not_whole(row: &Field, path: &str, given: f64) -> Problem {
    let typed = format!("{given}");
    with_row(row, path, &typed, format!("You typed {}. {} needs {}.", quoted(&typed), row.label, article(row)))
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
    let typed: String = typed.chars().take(QUOTED).collect::<String>().to_ascii_lowercase().replace([' ', '-'], "_");
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
    let folded: Vec<String> = known.iter().map(|name| name.to_ascii_lowercase().replace([' ', '-'], "_")).collect();
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
