//! Several tabs over one storage: whatever each of them does, and whoever comes late, nothing typed in any of them is lost.

use hearthload_page::state::{
    Action, State, draft,
    entry::key,
    kept::Kept,
    tabs::{Met, Store, Tabs},
};
use serde_json::{Value, json};
use std::{
    cell::{Cell, RefCell},
    collections::BTreeMap,
    rc::Rc,
};
use yew::Reducible;

/// A storage that several tabs share, and that may be full: then it holds so many bytes and no more, keys and all.
#[derive(Clone, Default)]
struct Shared {
    all: Rc<RefCell<BTreeMap<String, String>>>,
    holds: Rc<Cell<Option<usize>>>,
}

impl Shared {
    fn bytes(&self) -> usize {
        self.all.borrow().iter().map(|(key, text)| key.len() + text.len()).sum()
    }
}

impl Store for Shared {
    fn keys(&self) -> Vec<String> {
        self.all.borrow().keys().cloned().collect()
    }

    fn get(&self, key: &str) -> Option<String> {
        self.all.borrow().get(key).cloned()
    }

    fn set(&mut self, key: &str, text: &str) -> bool {
        let before = self.all.borrow_mut().insert(key.to_owned(), text.to_owned());
        let fits = self.holds.get().is_none_or(|most| self.bytes() <= most);
        if !fits {
            match before {
                Some(before) => drop(self.all.borrow_mut().insert(key.to_owned(), before)),
                None => self.remove(key),
            }
        }
        fits
    }

    fn remove(&mut self, key: &str) {
        self.all.borrow_mut().remove(key);
    }
}

/// A tab: what the page knows, and its side of the storage.
struct Tab {
    state: Rc<State>,
    tabs: Tabs,
    store: Shared,
}

impl Tab {
    /// Opened as the page opens: on what is kept, else on one scenario.
    fn open(name: &str, store: &Shared) -> Self {
        let (mut tabs, mut store) = (Tabs::new(name.to_owned()), store.clone());
        let (list, news, last) = tabs.open(&mut store);
        let kept = Kept::found(list, None).unwrap_or_else(|| Kept::with(doc("A", 120)).beyond(last));
        let mut tab = Self { state: Rc::new(State::opened(kept, news)), tabs, store };
        tab.look();
        tab
    }

    fn meet(&mut self) -> Met {
        self.tabs.meet(self.state.kept.list(), &mut self.store)
    }

    /// What the page does after each change and each time it hears of another tab.
    fn look(&mut self) -> bool {
        for _ in 0..5 {
            let met = self.meet();
            if met.news.is_empty() {
                return met.kept;
            }
            self.state = self.state.clone().reduce(Action::News(met.news));
        }
        unreachable!("a tab that never comes to rest")
    }

    fn act(&mut self, action: Action) {
        self.late(action);
        self.look();
    }

    /// Something happens in a tab that has not yet heard of the others.
    fn late(&mut self, action: Action) {
        self.state = self.state.clone().reduce(action);
    }

    fn width(&self) -> &Value {
        draft::get(&self.state.doc, "oven.width_cm").unwrap()
    }

    /// Names and widths of all it shows.
    fn all(&self) -> Vec<(String, Value)> {
        let one =
            |doc: &Value| (draft::text(doc, "name").to_owned(), draft::get(doc, "oven.width_cm").cloned().unwrap());
        self.state.kept.list().iter().map(|it| one(&it.doc)).collect()
    }
}

fn doc(name: &str, width: u32) -> Value {
    json!({ "hearthload": 1, "name": name, "oven": { "width_cm": width } })
}

fn width(to: u32) -> Action {
    Action::Set("oven.width_cm".to_owned(), Some(json!(to)))
}

fn listed(all: &[(&str, u32)]) -> Vec<(String, Value)> {
    all.iter().map(|(name, width)| ((*name).to_owned(), json!(width))).collect()
}

/// Two tabs over one storage with two scenarios: the first stands on A, the second on B.
fn two_tabs() -> (Tab, Tab) {
    let store = Shared::default();
    let mut a = Tab::open("a", &store);
    a.act(Action::Bring(doc("B", 100), String::new()));
    let mut b = Tab::open("b", &store);
    b.act(Action::Open(2));
    (a, b)
}

#[test]
fn a_change_is_kept_at_once_and_comes_to_the_other_tab() {
    let store = Shared::default();
    let (mut a, mut b) = (Tab::open("a", &store), Tab::open("b", &store));
    a.act(width(130));
    b.look();
    assert_eq!((a.width(), b.width()), (&json!(130), &json!(130)));
    assert!(b.state.done.is_some() && b.state.refused.is_none());
    // And back, and what another tab did can be taken back like one's own.
    for number in [1, 14, 140] {
        a.act(width(number));
        b.look();
    }
    b.act(Action::Undo);
    a.look();
    assert_eq!(a.all(), listed(&[("A", 120)]), "all that was typed elsewhere is one step");
    assert_eq!(Tab::open("c", &store).all(), a.all());
}

#[test]
fn edits_of_different_scenarios_do_not_touch_each_other() {
    let store = Shared::default();
    let mut a = Tab::open("a", &store);
    a.act(Action::Bring(doc("B", 100), String::new()));
    let mut b = Tab::open("b", &store);
    b.act(Action::Open(1));
    // Neither has heard of the other yet.
    a.late(width(101));
    b.late(width(121));
    a.look();
    b.look();
    a.look();
    for tab in [&a, &b, &Tab::open("c", &store)] {
        assert_eq!(tab.all(), listed(&[("A", 121), ("B", 101)]));
    }
}

#[test]
fn edits_of_one_scenario_at_once_are_both_kept_under_two_names() {
    let store = Shared::default();
    let (mut a, mut b) = (Tab::open("a", &store), Tab::open("b", &store));
    a.act(width(130));
    b.late(width(140));
    b.look();
    a.look();
    let both = listed(&[("A", 130), ("A (second tab)", 140)]);
    for tab in [&a, &b, &Tab::open("c", &store)] {
        assert_eq!(tab.all(), both);
    }
    assert!(b.state.refused.as_ref().is_some_and(|says| says.contains("A (second tab)")), "{:?}", b.state.refused);
    assert_eq!((a.width(), b.width()), (&json!(130), &json!(140)), "each goes on with its own");
    // What is typed next goes where it belongs.
    b.act(width(141));
    a.act(width(131));
    b.look();
    assert_eq!(b.all(), listed(&[("A", 131), ("A (second tab)", 141)]));
    assert_eq!(a.state.run, 3, "the first tab is asked about its own changes only");
}

#[test]
fn a_change_written_over_unseen_is_not_lost() {
    let store = Shared::default();
    let (mut a, mut b) = (Tab::open("a", &store), Tab::open("b", &store));
    // Storage may reach another process late: b writes before it has seen what a wrote.
    let before = store.get(&key(1)).unwrap();
    a.act(width(130));
    let written = store.get(&key(1)).unwrap();
    store.clone().set(&key(1), &before);
    b.act(width(140));
    assert_ne!(store.get(&key(1)).unwrap(), written);
    a.look();
    b.look();
    for tab in [&a, &b] {
        assert_eq!(tab.all(), listed(&[("A", 140), ("A (second tab)", 130)]));
    }
    let mut c = Tab::open("c", &store);
    assert_eq!(c.all(), b.all());
    assert!(c.look() && a.look() && b.look(), "and all come to rest");
}

#[test]
fn what_is_taken_away_in_one_tab_while_it_is_changed_in_another_stays() {
    let (mut a, mut b) = two_tabs();
    // Taken away first, changed by one who has not heard: it is there again.
    a.act(Action::Forget(2, String::new()));
    b.late(width(101));
    b.look();
    a.look();
    assert_eq!((a.all(), b.all()), (listed(&[("A", 120), ("B", 101)]), listed(&[("A", 120), ("B", 101)])));
    // Changed first, taken away by one who has not heard: it is there again too.
    b.act(width(102));
    a.late(Action::Forget(2, String::new()));
    a.look();
    b.look();
    assert_eq!((a.all(), b.all()), (listed(&[("A", 120), ("B", 102)]), listed(&[("A", 120), ("B", 102)])));
}

#[test]
fn what_is_taken_away_by_one_who_had_not_seen_the_last_change_stays() {
    let (mut a, mut b) = two_tabs();
    let store = a.store.clone();
    // Storage may reach another process late: a takes away what it last saw, b's change lies over it for a moment.
    let before = store.get(&key(2)).unwrap();
    b.act(width(101));
    store.clone().set(&key(2), &before);
    a.act(Action::Forget(2, String::new()));
    b.look();
    a.look();
    assert_eq!((a.all(), b.all()), (listed(&[("A", 120), ("B", 101)]), listed(&[("A", 120), ("B", 101)])));
    // What is gone with everybody's knowledge leaves nothing behind for long.
    b.act(Action::Forget(2, String::new()));
    a.look();
    assert_eq!(a.all(), listed(&[("A", 120)]));
    drop(Tab::open("c", &store));
    assert_eq!(store.keys(), [key(1)]);
}

#[test]
fn what_is_taken_away_in_one_tab_goes_from_the_other_and_can_be_had_back_in_both() {
    let (mut a, mut b) = two_tabs();
    a.act(Action::Forget(2, String::new()));
    b.look();
    assert_eq!(b.all(), listed(&[("A", 120)]));
    assert!(b.state.done.as_ref().is_some_and(|says| says.contains('B')), "{:?}", b.state.done);
    b.act(Action::Undo);
    a.look();
    // Had back twice it is still one.
    a.act(Action::Undo);
    b.look();
    assert_eq!((a.all(), b.all()), (listed(&[("A", 120), ("B", 100)]), listed(&[("A", 120), ("B", 100)])));
    assert_eq!(b.state.kept.open_id(), 2);
}

#[test]
fn scenarios_made_in_two_tabs_at_once_are_both_there() {
    let store = Shared::default();
    let (mut a, mut b) = (Tab::open("a", &store), Tab::open("b", &store));
    a.late(Action::Bring(doc("B", 100), String::new()));
    b.late(Action::Bring(doc("C", 110), String::new()));
    a.look();
    b.look();
    a.look();
    let all = listed(&[("A", 120), ("B", 100), ("C (second tab)", 110)]);
    assert_eq!((a.all(), b.all()), (all.clone(), all));
    assert_eq!((a.width(), b.width()), (&json!(100), &json!(110)));
}

#[test]
fn what_is_torn_is_set_aside_and_what_is_shown_is_written_again() {
    let store = Shared::default();
    let mut a = Tab::open("a", &store);
    a.act(Action::Bring(doc("B", 100), String::new()));
    store.clone().set(&key(1), "torn");
    a.look();
    assert_eq!(store.get("hearthload.aside.1").as_deref(), Some("torn"));
    assert!(a.state.refused.as_ref().is_some_and(|says| says.contains("set aside")));
    assert_eq!(Tab::open("b", &store).all(), listed(&[("A", 120), ("B", 100)]));
    // Torn between visits: the others open, and nothing is written over.
    store.clone().set(&key(2), "{\"one\":1,");
    let b = Tab::open("b", &store);
    assert_eq!(b.all(), listed(&[("A", 120)]));
    assert_eq!(store.get("hearthload.aside.2").as_deref(), Some("{\"one\":1,"));
    assert!(b.state.refused.is_some());
    // All of it torn: the page opens on its first scenario.
    for number in [1, 2] {
        store.clone().set(&key(number), "?");
    }
    assert_eq!(Tab::open("c", &store).all(), listed(&[("A", 120)]));
    assert_eq!(store.keys().iter().filter(|key| key.starts_with("hearthload.aside.")).count(), 4);
}

#[test]
fn a_newer_programs_scenario_is_left_alone() {
    let store = Shared::default();
    let newer = r#"{"one":2,"whatever":"it holds"}"#;
    let mut a = Tab::open("a", &store);
    store.clone().set(&key(1), newer);
    a.act(width(130));
    assert_eq!(store.get(&key(1)).as_deref(), Some(newer));
    assert_eq!(a.all(), listed(&[("A", 130)]));
    assert_eq!(Tab::open("b", &store).all(), listed(&[("A", 130)]), "ours is kept under another number");
    let alone = Shared::default();
    alone.clone().set(&key(1), newer);
    let c = Tab::open("c", &alone);
    assert_eq!((c.all().len(), alone.get(&key(1)).as_deref()), (1, Some(newer)));
}

#[test]
fn with_no_room_left_nothing_is_lost_and_all_is_kept_once_there_is_some() {
    let store = Shared::default();
    let (mut a, mut b) = (Tab::open("a", &store), Tab::open("b", &store));
    store.holds.set(Some(store.bytes()));
    a.late(Action::Set("name".to_owned(), Some(json!("A longer name"))));
    assert!(!a.look(), "it says so");
    b.look();
    assert_eq!((a.all(), b.all()), (listed(&[("A longer name", 120)]), listed(&[("A", 120)])));
    // Torn as well, and no room to set it aside: it is not thrown away either.
    let torn = "x".repeat(store.get(&key(1)).unwrap().len());
    store.clone().set(&key(1), &torn);
    assert!(!a.look() && !a.look());
    assert_eq!(store.get(&key(1)).as_ref(), Some(&torn));
    store.holds.set(None);
    assert!(a.look());
    b.look();
    assert_eq!((a.all(), b.all()), (listed(&[("A longer name", 120)]), listed(&[("A longer name", 120)])));
    assert_eq!(store.get("hearthload.aside.1"), Some(torn));
}

#[test]
fn a_storage_emptied_by_hand_is_written_again() {
    let store = Shared::default();
    let mut a = Tab::open("a", &store);
    store.all.borrow_mut().clear();
    a.act(width(130));
    assert_eq!(Tab::open("b", &store).all(), listed(&[("A", 130)]));
}

#[test]
fn the_list_of_an_earlier_version_is_taken_over_once() {
    let store = Shared::default();
    let old = json!({ "kept": 1, "open": 2, "list": [
        { "id": 1, "doc": doc("Old", 90) }, { "id": 2, "doc": doc("Older", 80) },
    ] });
    store.clone().set("hearthload.kept", &Value::from(old.to_string()).to_string());
    let all = listed(&[("Old", 90), ("Older", 80)]);
    assert_eq!(Tab::open("a", &store).all(), all);
    assert_eq!(store.get("hearthload.kept"), None, "it lies there the new way now");
    assert_eq!(Tab::open("b", &store).all(), all);
    // One that is damaged in part is set aside as well.
    let torn =
        Value::from(old.to_string().replace("{\"hearthload\":1,\"name\":\"Older\"", "7,\"x\":{\"name\":\"Older\""));
    let other = Shared::default();
    other.clone().set("hearthload.kept", &torn.to_string());
    let tab = Tab::open("c", &other);
    assert_eq!(tab.all(), listed(&[("Old", 90)]));
    assert_eq!(other.get("hearthload.aside.1"), Some(torn.to_string()));
    assert!(tab.state.refused.is_some());
}
