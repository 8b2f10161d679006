//! Owns how the tabs of one browser share what is kept: a tab writes what was changed in it and takes up what was changed in
//! others; what two of them changed at once is kept twice. What cannot be read is set aside, never written over.
//!
//! For each scenario a tab compares three things: what it shows, what it last knew the storage to hold, and what that holds now.

use super::{
    entry::{self, Entry, Lies, Marks},
    kept::One,
};
use serde_json::Value;
use std::{
    collections::{BTreeMap, BTreeSet},
    rc::Rc,
};

/// Where all scenarios lay in earlier versions.
const LIST: &str = "hearthload.kept";
/// What the keys of all that could not be read begin with; a number follows.
const ASIDE: &str = "hearthload.aside.";
/// Most texts that are set aside: beyond, what cannot be read stays where it is.
const MOST_ASIDE: u32 = 1000;

/// Where entries lie: the browser's storage, or a test's.
pub trait Store {
    /// All keys there are.
    fn keys(&self) -> Vec<String>;
    /// What lies under a key.
    fn get(&self, key: &str) -> Option<String>;
    /// Puts a text under a key. Says whether it was taken.
    fn set(&mut self, key: &str, text: &str) -> bool;
    /// Takes away what lies under a key.
    fn remove(&mut self, key: &str);
}

/// What a tab hears of others.
#[derive(Clone, Debug, PartialEq)]
pub enum News {
    /// A scenario was made or changed elsewhere: its number, as the tab knew it until now, as it is there. Where the tab shows
    /// something else than it knew, both are kept.
    Came(u32, Option<Rc<Value>>, Rc<Value>),
    /// A scenario was taken away elsewhere: its number, and as the tab knew it until now.
    Gone(u32, Rc<Value>),
    /// A newer program's scenario has this number: what the tab shows under it needs another.
    Away(u32),
    /// Something that could not be read was set aside.
    Aside,
}

/// What came of a meeting with the storage.
#[derive(Clone, Debug, PartialEq)]
pub struct Met {
    /// Whether all the tab shows is kept.
    pub kept: bool,
    /// What the tab is to take up.
    pub news: Vec<News>,
}

/// What the storage was last known to hold of a scenario.
#[derive(Debug)]
struct Known {
    text: String,
    entry: Entry,
    /// This tab's own last mark on it.
    own: Option<u64>,
}

/// One tab's side of the storage.
#[derive(Debug)]
pub struct Tabs {
    me: String,
    known: BTreeMap<u32, Known>,
    /// Whether a list of an earlier version lies there, which goes once all of it is kept the new way.
    listed: bool,
}

impl Tabs {
    /// A tab with a name no other has.
    #[must_use]
    pub fn new(me: String) -> Self {
        Self { me, known: BTreeMap::new(), listed: false }
    }

    /// All that is kept, on a first look; what else is to be told; and the largest number taken by anybody.
    pub fn open(&mut self, store: &mut impl Store) -> (Vec<One>, Vec<News>, u32) {
        let mut news = self.meet(&[], store).news;
        // Whoever is open has long heard of what was taken away before.
        for key in ids(store).into_iter().map(entry::key) {
            if store.get(&key).is_some_and(|text| matches!(Entry::read(&text), Lies::Gone(_))) {
                store.remove(&key);
            }
        }
        let mut list: Vec<One> =
            self.known.iter().map(|(id, known)| One { id: *id, doc: known.entry.doc.clone() }).collect();
        news.retain(|one| matches!(one, News::Aside));
        let mut last = ids(store).last().copied().unwrap_or(0);
        if let Some(text) = store.get(LIST) {
            let (docs, whole) = entry::listed(&text).unwrap_or_default();
            if (!whole || docs.is_empty()) && set_aside(LIST, &text, store) {
                news.push(News::Aside);
            }
            self.listed = whole;
            for doc in docs {
                if list.iter().all(|one| *one.doc != doc) {
                    last += 1;
                    list.push(One { id: last, doc: Rc::new(doc) });
                }
            }
        }
        (list, news, last)
    }

    /// Brings a tab that shows `list` and the storage together.
    pub fn meet(&mut self, list: &[One], store: &mut impl Store) -> Met {
        let mut met = Met { kept: true, news: Vec::new() };
        let there = ids(store);
        if there.is_empty() {
            // Emptied by hand, or never written: all that is shown is written.
            self.known.clear();
        }
        let mut all = there;
        all.extend(self.known.keys());
        all.extend(list.iter().map(|one| one.id));
        for id in all {
            let mine = list.iter().find(|one| one.id == id).map(|one| &one.doc);
            self.meet_one(id, mine, store, &mut met);
        }
        if self.listed && met.kept {
            store.remove(LIST);
            self.listed = false;
        }
        met
    }

    fn meet_one(&mut self, id: u32, mine: Option<&Rc<Value>>, store: &mut impl Store, met: &mut Met) {
        let known = self.known.get(&id);
        let changed = mine != known.map(|known| &known.entry.doc);
        let text = store.get(&entry::key(id));
        if text.as_deref() == known.map(|known| known.text.as_str()) {
            if changed {
                let marks = known.map(|known| known.entry.marks.clone()).unwrap_or_default();
                met.kept &= self.write(id, mine, &marks, store);
            }
            return;
        }
        match text.as_deref().map_or_else(|| Lies::Gone(Marks::default()), Entry::read) {
            Lies::Sound(there) => self.take_up(id, mine, text.unwrap_or_default(), there, met),
            Lies::Gone(marks) => {
                // Without a word of who took it away nobody is asked what they had seen.
                let unseen = text.is_some() && self.unseen(id, &marks);
                self.known.remove(&id);
                match mine {
                    Some(_) if changed || unseen => met.kept &= self.write(id, mine, &marks, store),
                    Some(was) => met.news.push(News::Gone(id, was.clone())),
                    None => {}
                }
            }
            Lies::Torn => {
                if set_aside(&entry::key(id), text.as_deref().unwrap_or_default(), store) {
                    met.news.push(News::Aside);
                    self.known.remove(&id);
                    met.kept &= mine.is_none() || self.write(id, mine, &Marks::default(), store);
                } else {
                    met.kept &= mine.is_none();
                }
            }
            Lies::Newer => {
                self.known.remove(&id);
                if mine.is_some() {
                    met.kept = false;
                    met.news.push(News::Away(id));
                }
            }
        }
    }

    /// Whether one who left these marks had not seen what this tab wrote last.
    fn unseen(&self, id: u32, marks: &Marks) -> bool {
        let own = self.known.get(&id).and_then(|known| known.own);
        own.is_some_and(|own| marks.of(&self.me).is_none_or(|seen| seen < own))
    }

    /// Another tab wrote this one.
    fn take_up(&mut self, id: u32, mine: Option<&Rc<Value>>, text: String, there: Entry, met: &mut Met) {
        // Written over what this tab had written, by one that had not seen it: what this tab shows is nowhere else.
        let unseen = self.unseen(id, &there.marks);
        let known = self.known.remove(&id);
        let own = known.as_ref().and_then(|known| known.own);
        if mine != Some(&there.doc) {
            let was = known.filter(|_| !unseen).map(|known| known.entry.doc);
            met.news.push(News::Came(id, was, there.doc.clone()));
        }
        self.known.insert(id, Known { text, entry: there, own: own.filter(|_| !unseen) });
    }

    /// Writes a scenario over what bears these marks, or that it was taken away. Says whether it is kept.
    fn write(&mut self, id: u32, mine: Option<&Rc<Value>>, marks: &Marks, store: &mut impl Store) -> bool {
        let (marks, mark) = marks.with(&self.me);
        let Some(doc) = mine else {
            self.known.remove(&id);
            // Where there is no room for the word that it is gone, it goes without.
            if !store.set(&entry::key(id), &entry::gone(&marks)) {
                store.remove(&entry::key(id));
            }
            return true;
        };
        let entry = Entry { doc: doc.clone(), marks };
        let text = entry.write();
        let taken = store.set(&entry::key(id), &text);
        if taken {
            self.known.insert(id, Known { text, entry, own: Some(mark) });
        }
        taken
    }
}

/// The numbers of all scenarios in a store.
fn ids(store: &impl Store) -> BTreeSet<u32> {
    store.keys().iter().filter_map(|key| entry::id(key)).collect()
}

/// Moves what lies under a key out of the way. Says whether it did: a full storage may have no room for the longer key.
fn set_aside(key: &str, text: &str, store: &mut impl Store) -> bool {
    let free = (1..=MOST_ASIDE).map(|number| format!("{ASIDE}{number}")).find(|aside| store.get(aside).is_none());
    let Some(aside) = free else { return false };
    // First out, then in: there is never room for both in a full one.
    store.remove(key);
    let moved = store.set(&aside, text);
    if !moved {
        store.set(key, text);
    }
    moved
}
