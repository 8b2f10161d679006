//! Owns the values read off a draft so far, by concrete path, as typed; the ones with problems are simply not there.

use super::{
    fields::{self, Kind},
    keys,
};
use std::collections::BTreeMap;

/// One value that passed its row's own check.
#[derive(Clone, Debug, PartialEq)]
pub enum Leaf {
    /// A number in the unit it was typed in; a clock time in seconds.
    Number(f64),
    /// A text, a choice or a name out of a table.
    Text(String),
    /// How many items a list has.
    Count(usize),
    /// A group that is there.
    Group,
}

/// All of them.
#[derive(Clone, Debug, Default)]
pub struct Values {
    leaves: BTreeMap<String, Leaf>,
    given: std::collections::BTreeSet<String>,
}

impl Values {
    /// Keeps a value.
    pub(super) fn put(&mut self, path: &str, leaf: Leaf) {
        self.leaves.insert(path.to_owned(), leaf);
    }

    /// Notes that the draft itself names this path, whether or not its value was fit.
    pub(super) fn note_given(&mut self, path: &str) {
        self.given.insert(path.to_owned());
    }

    /// Whether the draft itself names this path with anything but null.
    #[must_use]
    pub fn given(&self, path: &str) -> bool {
        self.given.contains(path)
    }

    /// Every number that the draft itself gives, by path, as typed; clock times in seconds.
    pub fn given_numbers(&self) -> impl Iterator<Item = (&str, f64)> {
        self.leaves.iter().filter_map(|(path, leaf)| match leaf {
            Leaf::Number(number) if self.given.contains(path) => Some((path.as_str(), *number)),
            _ => None,
        })
    }

    /// A number as typed, or a clock time in seconds.
    #[must_use]
    pub fn number(&self, path: &str) -> Option<f64> {
        match self.leaves.get(path) {
            Some(Leaf::Number(number)) => Some(*number),
            _ => None,
        }
    }

    /// A number in SI.
    #[must_use]
    pub fn si(&self, path: &str) -> Option<f64> {
        let typed = self.number(path)?;
        match fields::field(&fields::pattern_of(path))?.kind {
            Kind::Number { unit, .. } => Some(unit.to_si(typed)),
            _ => Some(typed),
        }
    }

    /// A text.
    #[must_use]
    pub fn text(&self, path: &str) -> Option<&str> {
        match self.leaves.get(path) {
            Some(Leaf::Text(text)) => Some(text),
            _ => None,
        }
    }

    /// How many items a list has.
    #[must_use]
    pub fn count(&self, path: &str) -> Option<usize> {
        match self.leaves.get(path) {
            Some(Leaf::Count(count)) => Some(*count),
            _ => None,
        }
    }

    /// Whether a group is there.
    #[must_use]
    pub fn group(&self, path: &str) -> bool {
        self.leaves.contains_key(path)
    }

    /// Share of a dish's mass that is water, from its ingredients; `None` while one of them is missing or unfit.
    #[must_use]
    pub fn water_share(&self, dish: &str) -> Option<f64> {
        let list = format!("{dish}.ingredients");
        let (mut water, mut mass) = (0.0, 0.0);
        for item in 0..self.count(&list)? {
            let grams = self.number(&format!("{list}[{item}].grams"))?;
            water += grams * keys::water_share(self.text(&format!("{list}[{item}].food"))?)?;
            mass += grams;
        }
        (mass > 0.0).then(|| water / mass)
    }

    /// Concrete paths of a list's items.
    pub fn items(&self, path: &str) -> impl Iterator<Item = String> + use<> {
        let path = path.to_owned();
        (0..self.count(&path).unwrap_or(0)).map(move |index| format!("{path}[{index}]"))
    }
}
