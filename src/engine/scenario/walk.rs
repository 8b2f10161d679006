//! Owns the walk over a draft: every value against its row of the field table, then the defaults for what is missing.

use super::fields::{self, Fallback, Field, Kind};
use super::types::{Assumed, Problem};
use super::values::{Leaf, Values};
use super::{clock, guess, keys, letters};
use super::{rules, says};
use crate::units::typed::Unit;
use serde_json::{Map, Value};

/// Most problems told at once; beyond them one line says that there are more.
const MOST_PROBLEMS: usize = 200;

/// A text that may be this long is more than a name: it may have lines.
const LONG_TEXT: usize = 1000;

/// Most other temperatures named beside one that was typed in Fahrenheit.
const MOST_NAMED: usize = 6;

/// What a walk found.
#[derive(Debug, Default)]
pub struct Walked {
    /// The values that are fit.
    pub values: Values,
    /// Defaults taken.
    pub assumed: Vec<Assumed>,
    /// Everything wrong.
    pub problems: Vec<Problem>,
    left_out: usize,
    /// Place of the first problem that looks like Fahrenheit in a field of degrees Celsius.
    fahrenheit: Option<usize>,
    /// Whether values now come from defaults and no longer from the draft.
    filling: bool,
    missing: Vec<(String, &'static Field)>,
}

/// Walks a whole draft: each value by its row, the defaults, the rules between fields.
#[must_use]
pub fn walk(draft: &Map<String, Value>) -> Walked {
    let mut walked = Walked::default();
    walked.object(draft, "", "");
    walked.fill();
    for problem in rules::check(&walked.values) {
        walked.problem(problem);
    }
    walked.ask_after_fahrenheit();
    walked.close();
    walked
}

impl Walked {
    /// Notes a problem.
    pub fn problem(&mut self, problem: Problem) {
        if self.problems.len() < MOST_PROBLEMS {
            self.problems.push(problem);
        } else {
            self.left_out += 1;
        }
    }

    /// Where one temperature looks like Fahrenheit the others that were given may be too, though they are within their limits:
    /// mending only what is refused would leave them wrong without a word.
    fn ask_after_fahrenheit(&mut self) {
        let Some(first) = self.fahrenheit else { return };
        let others: Vec<String> = self
            .values
            .given_numbers()
            .filter(|&(path, typed)| {
                fields::field(&fields::pattern_of(path))
                    .is_some_and(|row| row.unit() == Unit::DegC.name() && guess::could_be_fahrenheit(row, typed))
            })
            .map(|(path, typed)| format!("\"{}\" {typed}", says::label_at(path)))
            .collect();
        if let Some(problem) = self.problems.get_mut(first).filter(|_| !others.is_empty()) {
            let more = others.len().saturating_sub(MOST_NAMED);
            let named = others[..others.len() - more].join(", ");
            let more = if more > 0 { format!(" and {more} more") } else { String::new() };
            problem.says += &format!(" If so, look at the other temperatures too: {named}{more}.");
        }
    }

    fn close(&mut self) {
        if self.left_out > 0 {
            let says = format!("There are {} more problems; mend these first.", self.left_out);
            self.problems.push(Problem {
                field: String::new(),
                given: String::new(),
                allowed: String::new(),
                unit: String::new(),
                says,
            });
        }
    }

    fn object(&mut self, object: &Map<String, Value>, path: &str, pattern: &str) {
        let rows: Vec<&'static Field> = fields::children(pattern).collect();
        for key in object.keys().filter(|key| !rows.iter().any(|row| row.key_name() == *key)) {
            if self.problems.len() < MOST_PROBLEMS {
                self.problems.push(says::unknown(pattern, &join(path, &says::quoted(key)), key));
            } else {
                self.left_out += 1;
            }
        }
        for row in rows {
            let path = join(path, row.key_name());
            match object.get(row.key_name()) {
                Some(Value::Null) | None => self.absent(row, path),
                Some(value) => {
                    if !self.filling {
                        self.values.note_given(&path);
                    }
                    self.value(row, &path, value);
                }
            }
        }
    }

    fn absent(&mut self, row: &'static Field, path: String) {
        match (row.kind, row.fallback) {
            // A group that must be there is asked for field by field.
            (Kind::Group, Fallback::Required) => self.value(row, &path, &Value::Object(Map::new())),
            _ => self.missing.push((path, row)),
        }
    }

    fn value(&mut self, row: &'static Field, path: &str, value: &Value) {
        match (row.kind, value) {
            (Kind::Group, Value::Object(object)) => {
                self.values.put(path, Leaf::Group);
                self.object(object, path, row.path);
            }
            (Kind::List { least, most }, Value::Array(items)) => self.list(row, path, items, least, most),
            (Kind::Number { .. }, Value::Number(number)) => self.number(row, path, number.as_f64().unwrap_or(f64::NAN)),
            (Kind::Text { most }, Value::String(text)) => self.text(row, path, text, most),
            (Kind::Choice(words), Value::String(text)) => self.word(row, path, text, words),
            (Kind::Key(table), Value::String(text)) => self.word(row, path, text, &keys::all(table)),
            (Kind::Clock, Value::String(text)) => match clock::read(text) {
                Some(seconds) => self.values.put(path, Leaf::Number(seconds)),
                None => self.problem(says::wrong_sort(row, path, value)),
            },
            _ => self.problem(says::wrong_sort(row, path, value)),
        }
    }

    fn list(&mut self, row: &Field, path: &str, items: &[Value], least: usize, most: usize) {
        if items.len() < least || items.len() > most {
            let given = format!("{} items", items.len());
            let says = format!("{} has {given}; {least} to {most} are allowed.", row.label);
            self.problem(says::with_row(row, path, &given, says));
        }
        let Some(item_row) = fields::field(&format!("{}[]", row.path)) else {
            return;
        };
        for (index, item) in items.iter().take(most).enumerate() {
            self.value(item_row, &format!("{path}[{index}]"), item);
        }
        if (least..=most).contains(&items.len()) {
            self.values.put(path, Leaf::Count(items.len()));
        }
    }

    fn number(&mut self, row: &Field, path: &str, given: f64) {
        let Kind::Number { min, max, whole, .. } = row.kind else {
            return;
        };
        if !(min..=max).contains(&given) {
            if guess::is_fahrenheit(row, given) && self.fahrenheit.is_none() && self.problems.len() < MOST_PROBLEMS {
                self.fahrenheit = Some(self.problems.len());
            }
            self.problem(says::out_of_range(row, path, given));
        } else if whole && given.fract() > 0.0 {
            self.problem(says::not_whole(row, path, given));
        } else {
            self.values.put(path, Leaf::Number(given));
        }
    }

    fn text(&mut self, row: &Field, path: &str, text: &str, most: usize) {
        let letters = text.chars().count();
        let misleads = if most >= LONG_TEXT { letters::misleads_in_note } else { letters::misleads };
        if text.trim().is_empty() {
            self.problem(says::with_row(row, path, text, format!("{} is empty.", row.label)));
        } else if letters > most {
            let says = format!("{} has {letters} letters; at most {most} are allowed.", row.label);
            self.problem(says::with_row(row, path, text, says));
        } else if let Some(letter) = text.trim().chars().find(|&letter| misleads(letter)) {
            self.problem(says::misleading(row, path, text, letter));
        } else {
            self.values.put(path, Leaf::Text(text.trim().to_owned()));
        }
    }

    fn word(&mut self, row: &Field, path: &str, text: &str, words: &[&str]) {
        if words.is_empty() || words.contains(&text) {
            self.values.put(path, Leaf::Text(text.to_owned()));
        } else {
            self.problem(says::not_among(row, path, text, words));
        }
    }

    /// Fills in what nobody gave. A default made from other fields waits until they are there.
    fn fill(&mut self) {
        let mut waiting = std::mem::take(&mut self.missing);
        self.filling = true;
        let mut moved = true;
        while moved {
            moved = false;
            for (path, row) in std::mem::take(&mut waiting) {
                if self.fall_back(row, &path) {
                    moved = true;
                } else {
                    waiting.push((path, row));
                }
            }
            // Rows inside a default that was itself filled in.
            waiting.append(&mut self.missing);
        }
    }

    /// Applies one row's fallback; false where it has to wait.
    fn fall_back(&mut self, row: &'static Field, path: &str) -> bool {
        let value = match row.fallback {
            Fallback::Required => {
                self.problem(says::missing(row, path));
                return true;
            }
            Fallback::Optional => return true,
            Fallback::Empty => {
                self.values.put(path, Leaf::Count(0));
                return true;
            }
            Fallback::Fixed(typed) => serde_json::from_str(typed).ok(),
            Fallback::Made { make, .. } => {
                let parent = path.rfind('.').map_or("", |dot| &path[..dot]);
                make(&self.values, parent)
            }
        };
        let Some(value) = value else { return false };
        self.value(row, path, &value);
        let typed = match &value {
            Value::String(text) => text.clone(),
            other => other.to_string(),
        };
        self.assumed.push(Assumed {
            field: path.to_owned(),
            value: typed,
            unit: row.unit().to_owned(),
            source: row.source.to_owned(),
        });
        true
    }
}

fn join(path: &str, key: &str) -> String {
    if path.is_empty() { key.to_owned() } else { format!("{path}.{key}") }
}
