//! Owns the rules between fields: what no single row can tell. A rule is silent where one of its values is missing or unfit.

mod day;
mod fits;
mod menu;
mod oven;

use super::says;
use super::types::Problem;
use super::values::Values;
use super::{clock, fields};

/// Everything the rules find, in the order of the form.
#[must_use]
pub fn check(v: &Values) -> Vec<Problem> {
    let mut found = Found { v, problems: Vec::new() };
    // A rule that lacks a value stops itself with `None`; that is no problem of its own.
    let _: [Option<()>; 8] = [
        oven::shape_and_doorway(&mut found),
        oven::faces(&mut found),
        oven::layers_and_probes(&mut found),
        oven::burner(&mut found),
        oven::wood_and_morning(&mut found),
        menu::menu(&mut found),
        day::service(&mut found),
        day::plans(&mut found),
    ];
    day::feeding(&mut found);
    found.problems
}

/// The values under check and what was found so far.
struct Found<'a> {
    v: &'a Values,
    problems: Vec<Problem>,
}

impl Found<'_> {
    /// Notes a problem with a field against what is allowed there.
    fn say(&mut self, path: &str, allowed: impl Into<String>, says: impl Into<String>) {
        let unit = fields::field(&fields::pattern_of(path)).map_or("", fields::Field::unit);
        self.problems.push(Problem {
            field: path.to_owned(),
            given: says::quoted(&self.typed(path)),
            allowed: allowed.into(),
            unit: unit.to_owned(),
            says: says.into(),
        });
    }

    /// Notes a problem where the first number must be below the second.
    fn below(&mut self, path: &str, other: &str, frame: &str) -> Option<()> {
        let (low, high) = (self.v.number(path)?, self.v.number(other)?);
        if low >= high {
            let says = frame.replace("{a}", &self.shown(path)).replace("{b}", &self.shown(other));
            self.say(path, format!("less than {}", self.shown(other)), says);
        }
        Some(())
    }

    /// A value as typed; nothing where there is none.
    fn typed(&self, path: &str) -> String {
        let clock = fields::field(&fields::pattern_of(path)).is_some_and(|row| matches!(row.kind, fields::Kind::Clock));
        match (self.v.number(path), self.v.text(path)) {
            (Some(seconds), _) if clock => clock::write(seconds),
            (Some(number), _) => number.to_string(),
            (None, Some(text)) => text.to_owned(),
            _ => self.v.count(path).map_or_else(|| "nothing".to_owned(), |count| format!("{count} items")),
        }
    }

    /// A value with its unit, marked where it was assumed.
    fn shown(&self, path: &str) -> String {
        let row = fields::field(&fields::pattern_of(path));
        let unit = row.filter(|row| row.limits().is_some()).map_or("", fields::Field::unit);
        let space = if unit.is_empty() { "" } else { " " };
        let assumed = if self.v.given(path) { "" } else { " (assumed)" };
        format!("{}{space}{unit}{assumed}", self.typed(path))
    }

    /// A dish's name for a sentence, or which of the menu it is where it has none yet.
    fn dish(&self, path: &str) -> String {
        let place = path.trim_start_matches("menu[").trim_end_matches(']').parse::<usize>();
        let place = || place.map_or_else(|_| path.to_owned(), |place| format!("Dish {}", place + 1));
        self.v.text(&format!("{path}.name")).map_or_else(place, says::quoted)
    }
}
