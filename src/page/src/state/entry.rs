//! Owns how one scenario is written down in the browser's storage, with the marks of the tabs that changed it; and how all lay in
//! one list in earlier versions.

use super::{draft, kept::LARGEST_ID};
use serde_json::{Value, json};
use std::{collections::BTreeMap, rc::Rc};

/// Version of how a scenario is written down.
const VERSION: u64 = 1;
/// Version of the list that held all of them.
const LIST_VERSION: u64 = 1;
/// What the key of each begins with; its number follows.
const ONE: &str = "hearthload.one.";
/// Most tabs whose marks are kept on one scenario: far more than stand open together.
const MOST_MARKS: usize = 16;

/// The key under which a scenario lies.
#[must_use]
pub fn key(id: u32) -> String {
    format!("{ONE}{id}")
}

/// The number of the scenario that lies under a key, where one does.
#[must_use]
pub fn id(of: &str) -> Option<u32> {
    let id = of.strip_prefix(ONE)?.parse().ok().filter(|id| *id <= LARGEST_ID)?;
    // "+7" and "007" are nobody's.
    (key(id) == of).then_some(id)
}

/// The last mark of each tab that changed a scenario, by the tab's name. A new mark is larger than all others.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Marks(BTreeMap<String, u64>);

impl Marks {
    /// A tab's last mark.
    #[must_use]
    pub fn of(&self, tab: &str) -> Option<u64> {
        self.0.get(tab).copied()
    }

    fn json(&self) -> Value {
        Value::Object(self.0.iter().map(|(tab, mark)| (tab.clone(), Value::from(*mark))).collect())
    }

    /// The same with a new mark of a tab's. Gives the mark too.
    #[must_use]
    pub fn with(&self, tab: &str) -> (Self, u64) {
        let mut marks = self.0.clone();
        let mark = marks.values().max().map_or(1, |last| last.saturating_add(1));
        marks.insert(tab.to_owned(), mark);
        while marks.len() > MOST_MARKS {
            let oldest = marks.iter().min_by_key(|(_, mark)| **mark).map(|(tab, _)| tab.clone());
            oldest.map(|tab| marks.remove(&tab));
        }
        (Self(marks), mark)
    }
}

/// What lies in the place of a scenario that was taken away.
#[must_use]
pub fn gone(marks: &Marks) -> String {
    json!({ "one": VERSION, "marks": marks.json(), "gone": true }).to_string()
}

/// One scenario as it lies in the storage.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// The scenario, exactly as typed.
    pub doc: Rc<Value>,
    /// Who changed it.
    pub marks: Marks,
}

/// What a text in the storage is.
#[derive(Clone, Debug, PartialEq)]
pub enum Lies {
    /// A scenario.
    Sound(Entry),
    /// The place of one that was taken away, with the marks of those who had seen it.
    Gone(Marks),
    /// A newer program's: not ours to touch.
    Newer,
    /// Nothing that can be read.
    Torn,
}

impl Entry {
    /// Reads what [`Entry::write`] wrote.
    #[must_use]
    pub fn read(text: &str) -> Lies {
        let Ok(mut all) = serde_json::from_str::<Value>(text) else { return Lies::Torn };
        match all.get("one").and_then(Value::as_u64) {
            Some(version) if version > VERSION => return Lies::Newer,
            Some(_) => {}
            None => return Lies::Torn,
        }
        let mut marks = BTreeMap::new();
        if let Some(Value::Object(of)) = all.get("marks") {
            // A mark that is damaged is no mark.
            marks.extend(of.iter().filter_map(|(tab, mark)| Some((tab.clone(), mark.as_u64()?))));
        }
        if all.get("gone").and_then(Value::as_bool) == Some(true) {
            return Lies::Gone(Marks(marks));
        }
        match all["doc"].take() {
            doc @ Value::Object(_) => Lies::Sound(Self { doc: Rc::new(doc), marks: Marks(marks) }),
            _ => Lies::Torn,
        }
    }

    /// Writes it down as JSON text.
    #[must_use]
    pub fn write(&self) -> String {
        json!({ "one": VERSION, "marks": self.marks.json(), "doc": &*self.doc }).to_string()
    }
}

/// Reads the list of an earlier version: the scenarios in it, and whether that is all there is. Nothing where it is no such list.
#[must_use]
pub fn listed(text: &str) -> Option<(Vec<Value>, bool)> {
    // It was written as a text within a text.
    let text: String = serde_json::from_str(text).ok()?;
    let mut all: Value = serde_json::from_str(&text).ok()?;
    if all.get("kept").and_then(Value::as_u64)? > LIST_VERSION {
        return None;
    }
    let Value::Array(list) = all["list"].take() else { return None };
    let count = list.len();
    let docs: Vec<Value> = list
        .into_iter()
        .map(|mut one| draft::take(&mut one, "doc").unwrap_or_default())
        .filter(Value::is_object)
        .collect();
    let whole = docs.len() == count;
    Some((docs, whole))
}
