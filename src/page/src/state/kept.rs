//! Owns the scenarios kept in this browser: which there are, which is open, and how they are written down.

use super::draft;
use serde_json::{Value, json};
use std::{collections::BTreeSet, rc::Rc};

/// Version of how the list is written down.
const VERSION: u64 = 1;
/// Numbers beyond this are not given by this program: a billion scenarios are never made.
const LARGEST_ID: u32 = 1_000_000_000;

/// One kept scenario.
#[derive(Clone, Debug, PartialEq)]
pub struct One {
    /// Its number, never used twice.
    pub id: u32,
    /// The scenario, exactly as typed.
    pub doc: Rc<Value>,
}

impl One {
    /// What it is called.
    #[must_use]
    pub fn name(&self) -> &str {
        draft::text(&self.doc, "name")
    }
}

/// All of them; there is always one, and it is open.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept {
    open: u32,
    next: u32,
    list: Vec<One>,
}

impl Kept {
    /// A list of one.
    #[must_use]
    pub fn with(doc: Value) -> Self {
        Self { open: 1, next: 2, list: vec![One { id: 1, doc: Rc::new(doc) }] }
    }

    /// A list of several, the first open; of one empty scenario where there are none.
    #[must_use]
    pub fn of(docs: Vec<Value>) -> Self {
        let list: Vec<_> = (1..).zip(docs).map(|(id, doc)| One { id, doc: Rc::new(doc) }).collect();
        let next = list.len() as u32 + 1;
        if list.is_empty() { Self::with(json!({})) } else { Self { open: 1, next, list } }
    }

    /// Reads what [`Kept::write`] wrote. An entry that is damaged is left out and the others stay; nothing where none is left, or
    /// where a newer program wrote it.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let all: Value = serde_json::from_str(text).ok()?;
        if all.get("kept").and_then(Value::as_u64)? > VERSION {
            return None;
        }
        let one = |entry: &Value| {
            let id = u32::try_from(entry.get("id")?.as_u64()?).ok()?;
            let doc = entry.get("doc").filter(|doc| doc.is_object())?;
            Some(One { id, doc: Rc::new(doc.clone()) })
        };
        let mut list: Vec<One> = all.get("list")?.as_array()?.iter().filter_map(one).collect();
        let ids: BTreeSet<u32> = list.iter().map(|one| one.id).collect();
        if ids.len() < list.len() || ids.last().is_some_and(|&last| last > LARGEST_ID) {
            // A number used twice, or so large that they run out, is nobody's: all are numbered anew, in their order.
            for (id, one) in (1..).zip(&mut list) {
                one.id = id;
            }
        }
        let first = list.first()?.id;
        let open = all.get("open").and_then(Value::as_u64).and_then(|id| u32::try_from(id).ok());
        let open = open.filter(|id| list.iter().any(|one| one.id == *id)).unwrap_or(first);
        let next = list.iter().map(|one| one.id).max()?.checked_add(1)?;
        Some(Self { open, next, list })
    }

    /// Writes it down as JSON text.
    #[must_use]
    pub fn write(&self) -> String {
        let list: Vec<_> = self.list.iter().map(|one| json!({ "id": one.id, "doc": &*one.doc })).collect();
        json!({ "kept": VERSION, "open": self.open, "list": list }).to_string()
    }

    /// All, in the order they came.
    #[must_use]
    pub fn list(&self) -> &[One] {
        &self.list
    }

    /// The number of the open one.
    #[must_use]
    pub fn open_id(&self) -> u32 {
        self.open
    }

    /// The open scenario.
    #[must_use]
    pub fn open_doc(&self) -> Rc<Value> {
        self.list.iter().find(|one| one.id == self.open).map(|one| one.doc.clone()).unwrap_or_default()
    }

    /// Takes up a change of the open scenario.
    pub fn keep(&mut self, doc: Rc<Value>) {
        if let Some(one) = self.list.iter_mut().find(|one| one.id == self.open) {
            one.doc = doc;
        }
    }

    /// Opens another. Says whether it was there and not open already.
    pub fn open(&mut self, id: u32) -> bool {
        let other = id != self.open && self.list.iter().any(|one| one.id == id);
        if other {
            self.open = id;
        }
        other
    }

    /// Adds a scenario behind the others and opens it; one without a name gets `fallback` for one.
    pub fn bring(&mut self, mut doc: Value, fallback: &str) {
        if draft::text(&doc, "name").trim().is_empty() {
            draft::set(&mut doc, "name", Value::from(fallback));
        }
        self.list.push(One { id: self.next, doc: Rc::new(doc) });
        self.open = self.next;
        self.next += 1;
    }

    /// Copies the open scenario under another name and opens the copy.
    pub fn copy(&mut self, name: String) {
        let mut doc = (*self.open_doc()).clone();
        draft::set(&mut doc, "name", Value::from(name));
        self.bring(doc, "");
    }

    /// Takes one away, unless it is the last. Gives its place and itself.
    pub fn forget(&mut self, id: u32) -> Option<(usize, One)> {
        let place = self.list.iter().position(|one| one.id == id)?;
        if self.list.len() == 1 {
            return None;
        }
        let gone = self.list.remove(place);
        if self.open == id {
            self.open = self.list[place.min(self.list.len() - 1)].id;
        }
        Some((place, gone))
    }

    /// Puts one back where it was.
    pub fn put_back(&mut self, place: usize, one: One) {
        self.list.insert(place.min(self.list.len()), one);
    }
}
