//! Owns the scenarios kept in this browser, as one tab shows them: which there are, and which is open.

use super::draft;
use hearthload::numerics::order;
use serde_json::{Value, json};
use std::rc::Rc;

/// Numbers beyond this are not given by this program: a billion scenarios are never made.
pub const LARGEST_ID: u32 = 1_000_000_000;

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

    /// Those of a store, in the order of their numbers, which are all different; `open` stands open, or else the first. Nothing
    /// where there are none.
    #[must_use]
    pub fn found(mut list: Vec<One>, open: Option<u32>) -> Option<Self> {
        order::by(&mut list, |a, b| a.id.cmp(&b.id));
        let (first, last) = (list.first()?.id, list.last()?.id);
        let open = open.filter(|id| list.iter().any(|one| one.id == *id)).unwrap_or(first);
        Some(Self { open, next: last + 1, list })
    }

    /// The same under numbers beyond `last`: those up to there are taken.
    #[must_use]
    pub fn beyond(mut self, last: u32) -> Self {
        self.list.iter_mut().for_each(|one| one.id += last);
        Self { open: self.open + last, next: self.next + last, ..self }
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

    /// A scenario by its number.
    #[must_use]
    pub fn doc(&self, id: u32) -> Option<&Rc<Value>> {
        self.list.iter().find(|one| one.id == id).map(|one| &one.doc)
    }

    /// Takes up a scenario as another tab has it, in place of what stands under that number here.
    pub fn take_in(&mut self, id: u32, doc: Rc<Value>) {
        match self.list.iter_mut().find(|one| one.id == id) {
            Some(one) => one.doc = doc,
            None => {
                let place = self.list.iter().filter(|one| one.id < id).count();
                self.list.insert(place, One { id, doc });
            }
        }
        self.next = self.next.max(id + 1);
    }

    /// Gives a scenario another number, and another name where one is given: its own is taken. Gives the new number.
    pub fn move_on(&mut self, id: u32, name: Option<String>) -> u32 {
        let Some(place) = self.list.iter().position(|one| one.id == id) else { return id };
        let mut doc = self.list.remove(place).doc;
        if let Some(name) = name {
            draft::set(Rc::make_mut(&mut doc), "name", Value::from(name));
        }
        let to = self.next;
        self.list.push(One { id: to, doc });
        self.next += 1;
        if self.open == id {
            self.open = to;
        }
        to
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

    /// Puts one back where it was, unless another tab has done so already.
    pub fn put_back(&mut self, place: usize, one: One) {
        if self.doc(one.id).is_some() {
            return;
        }
        self.list.insert(place.min(self.list.len()), one);
    }
}
