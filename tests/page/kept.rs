//! What is kept in the browser, and what comes from files: a damaged part never takes the rest with it.

use hearthload_page::{
    files::taken,
    state::{
        Action,
        draft::{self, get, insert, set, shift, take},
        entry::{Entry, Lies, Marks, gone, id, key, listed},
        kept::{Kept, One},
    },
};
use serde_json::{Value, json};
use std::rc::Rc;

#[test]
fn what_is_written_is_read_back() {
    let (marks, first) = Marks::default().with("a");
    let (marks, second) = marks.with("b");
    assert!(second > first);
    let entry = Entry { doc: Rc::new(json!({ "x": [1, { "y": 0.1 }], "name": "\u{202e}é" })), marks };
    assert_eq!(Entry::read(&entry.write()), Lies::Sound(entry));
}

#[test]
fn torn_texts_and_those_of_newer_programs_are_told_apart() {
    for torn in ["", "{", "[]", "null", "{}", r#"{"one":1}"#, r#"{"one":1,"doc":[]}"#, r#"{"one":"1","doc":{}}"#] {
        assert_eq!(Entry::read(torn), Lies::Torn, "{torn}");
    }
    assert_eq!(Entry::read(r#"{"one":2,"doc":{}}"#), Lies::Newer);
    let marks = Marks::default().with("a").0;
    assert_eq!(Entry::read(&gone(&marks)), Lies::Gone(marks));
    // A damaged mark takes nothing with it.
    let Lies::Sound(entry) = Entry::read(r#"{"one":1,"marks":{"a":-1,"b":7},"doc":{}}"#) else { unreachable!() };
    assert_eq!((entry.marks.of("a"), entry.marks.of("b")), (None, Some(7)));
}

#[test]
fn marks_do_not_grow_without_end_and_the_newest_stay() {
    let mut marks = Marks::default();
    for tab in 0..100 {
        marks = marks.with(&tab.to_string()).0;
    }
    assert_eq!((marks.of("99"), marks.of("0")), (Some(100), None));
}

#[test]
fn keys_name_a_number_in_one_way_only() {
    assert_eq!(id(&key(7)), Some(7));
    for other in ["hearthload.one.", "hearthload.one.07", "hearthload.one.+7", "hearthload.one.4294967295", "x"] {
        assert_eq!(id(other), None, "{other}");
    }
}

#[test]
fn the_list_of_an_earlier_version_is_read_and_says_what_it_lacks() {
    let list = |text: &str| listed(&Value::from(text).to_string());
    let whole = r#"{"kept":1,"open":2,"list":[{"id":1,"doc":{"name":"A"}},{"id":2,"doc":{}}]}"#;
    assert_eq!(list(whole), Some((vec![json!({ "name": "A" }), json!({})], true)));
    let torn = r#"{"kept":1,"open":2,"list":[{"id":1,"doc":{"name":"A"}},{"id":2,"doc":"torn"},7]}"#;
    assert_eq!(list(torn), Some((vec![json!({ "name": "A" })], false)));
    for none in ["", "{", "[]", "null", r#"{"kept":2,"list":[]}"#, r#"{"kept":1}"#] {
        assert_eq!(list(none), None, "{none}");
    }
    assert_eq!(listed("torn"), None);
}

#[test]
fn numbers_are_given_once() {
    let one = |id, name: &str| One { id, doc: Rc::new(json!({ "name": name })) };
    let mut kept = Kept::found(vec![one(9, "B"), one(4, "A")], Some(9)).unwrap();
    kept.bring(json!({}), "C");
    kept.copy("D".to_owned());
    let names: Vec<_> = kept.list().iter().map(|one| (one.id, one.name())).collect();
    assert_eq!(names, [(4, "A"), (9, "B"), (10, "C"), (11, "D")]);
    assert_eq!(kept.open_id(), 11);
    assert_eq!(Kept::found(vec![one(4, "A")], Some(7)).unwrap().open_id(), 4);
    assert_eq!(Kept::found(Vec::new(), None), None);
    assert_eq!(Kept::with(json!({})).beyond(20).list()[0].id, 21);
}

#[test]
fn files_are_brought_in_or_refused_in_words() {
    assert!(matches!(taken("a.json", "\u{feff}{\"hearthload\": 1}"), Action::Bring(_, name) if name == "a"));
    // A scenario with problems is still a scenario: they are shown where they stand.
    assert!(matches!(taken("a.json", r#"{"hearthload": 1, "oven": "?"}"#), Action::Bring(..)));
    for text in ["", "{\"hearthload\": 1", "[1]", "{}", r#"{"hearthload": "one"}"#, r#"{"hearthload": 2}"#] {
        assert!(matches!(taken("a.json", text), Action::Refuse(says) if says.contains("a.json")), "{text}");
    }
}

#[test]
fn paths_reach_what_they_name_and_nothing_else() {
    let mut doc = json!({ "menu": [{ "a": 1 }, { "a": 2 }], "other": true });
    assert_eq!(get(&doc, "menu[1].a"), Some(&json!(2)));
    for missing in ["menu[2].a", "menu[x]", "menu.a", "nothing.at[0].all", "other.a"] {
        assert_eq!(get(&doc, missing), None, "{missing}");
    }
    set(&mut doc, "oven.assist.rated_kw", json!(9));
    set(&mut doc, "menu[2].a", json!(3));
    // A place beyond the end of a list cannot be meant.
    set(&mut doc, "menu[9].a", json!(9));
    insert(&mut doc, "menu", 0, json!({ "a": 0 }));
    shift(&mut doc, "menu", 3, 1);
    assert_eq!(take(&mut doc, "menu[0].a"), Some(json!(0)));
    assert_eq!(take(&mut doc, "menu[8]"), None);
    let expected = json!({
        "menu": [{}, { "a": 3 }, { "a": 1 }, { "a": 2 }], "other": true, "oven": { "assist": { "rated_kw": 9 } },
    });
    assert_eq!(doc, expected);
    assert!(draft::list(&doc, "other").is_empty());
    assert_eq!(draft::text(&Value::Null, "name"), "");
}
