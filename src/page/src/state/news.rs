//! Owns what a tab does when others changed what is kept: takes it up where nothing was changed here, keeps both where it was.

use super::{State, draft, tabs::News};
use crate::words::{fill, words};
use serde_json::Value;
use std::rc::Rc;

/// What a run of changes made elsewhere counts as among the steps back: no path of a field, so that they are one step.
const ELSEWHERE: &str = "\u{0}elsewhere";

impl State {
    /// Takes up what was heard of other tabs.
    pub(super) fn take_news(&mut self, news: Vec<News>) {
        for one in news {
            match one {
                News::Came(id, was, doc) => self.came(id, was.as_ref(), doc),
                News::Gone(id, was) => self.gone(id, &was),
                News::Away(id) => self.move_on(id, None),
                News::Aside => self.refused = Some(words().kept_aside.to_owned()),
            }
        }
        // Once more to the storage: what was kept twice is not there yet.
        self.look += 1;
    }

    /// Tells the demonstration's scenarios in another language, those that are as they came: names people gave stay.
    pub(super) fn retell(&mut self, pairs: Vec<(Value, Value)>) {
        for (was, now) in pairs {
            let ids: Vec<u32> = self.kept.list().iter().filter(|one| *one.doc == was).map(|one| one.id).collect();
            let now = Rc::new(now);
            ids.into_iter().for_each(|id| self.kept.take_in(id, now.clone()));
        }
        let doc = self.kept.open_doc();
        if doc != self.doc {
            self.doc = doc;
            self.ask();
        }
    }

    fn came(&mut self, id: u32, was: Option<&Rc<Value>>, doc: Rc<Value>) {
        let here = self.kept.doc(id).cloned();
        let is_open = self.kept.open_id() == id;
        match here {
            Some(here) if here == doc => {}
            Some(here) if Some(&here) != was => {
                let name = fill(words().kept_both_name, &[draft::text(&here, "name")]);
                self.refused = Some(fill(words().kept_both, &[&name]));
                self.move_on(id, Some(name));
                self.kept.take_in(id, doc);
            }
            Some(_) if is_open => {
                self.step(Some(ELSEWHERE.to_owned()));
                self.done = Some(words().kept_came.to_owned());
                // Which dish stands open is told by its place.
                let dishes = |doc: &Value| draft::list(doc, "menu").len();
                self.open_dish = self.open_dish.filter(|_| dishes(&doc) == dishes(&self.doc));
                self.take_up(doc);
            }
            _ => self.kept.take_in(id, doc),
        }
    }

    fn gone(&mut self, id: u32, was: &Rc<Value>) {
        if self.kept.doc(id) == Some(was) {
            let says = fill(words().kept_gone, &[draft::text(was, "name")]);
            self.forget(id, says);
        }
    }

    /// Goes on with a scenario under another number.
    fn move_on(&mut self, id: u32, name: Option<String>) {
        let to = self.kept.move_on(id, name);
        if self.asked_id == id {
            self.asked_id = to;
            self.doc = self.kept.open_doc();
        }
    }
}
