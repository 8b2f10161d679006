//! What is kept in the browser, and what comes from files: a damaged part never takes the rest with it.

use hearthload_page::{
    files::taken,
    state::{
        Action,
        draft::{self, get, insert, set, shift, take},
        kept::Kept,
    },
};
use serde_json::{Value, json};

#[test]
fn what_is_written_is_read_back() {
    let mut kept = Kept::of(vec![json!({ "name": "A" }), json!({ "name": "B" })]);
    kept.bring(json!({ "x": [1, { "y": 0.1 }] }), "from a file");
    let back = Kept::read(&kept.write()).unwrap();
    assert_eq!(back, kept);
    assert_eq!(back.list()[2].name(), "from a file");
    assert_eq!(back.open_id(), 3);
}

#[test]
fn a_damaged_entry_is_left_out_and_the_others_stay() {
    let text = r#"{"kept":1,"open":2,"list":[{"id":1,"doc":{"name":"A"}},{"id":2,"doc":"torn"},{"doc":{}},{"id":7,"doc":{}}]}"#;
    let kept = Kept::read(text).unwrap();
    assert_eq!(kept.list().iter().map(|one| one.id).collect::<Vec<_>>(), [1, 7]);
    assert_eq!(kept.open_id(), 1, "the open one was torn: the first is opened");
}

#[test]
fn numbers_used_twice_or_nearly_used_up_are_given_anew() {
    for ids in [[4, 4], [1, u32::MAX - 1], [u32::MAX, 2]] {
        let list: Vec<Value> =
            ids.iter().zip(["A", "B"]).map(|(id, name)| json!({ "id": id, "doc": { "name": name } })).collect();
        let mut kept = Kept::read(&json!({ "kept": 1, "open": ids[1], "list": list }).to_string()).unwrap();
        kept.bring(json!({}), "C");
        kept.copy("D".to_owned());
        assert_eq!(
            kept.list().iter().map(|one| (one.id, one.name())).collect::<Vec<_>>(),
            [(1, "A"), (2, "B"), (3, "C"), (4, "D")]
        );
        assert_eq!(kept.open_id(), 4);
    }
}

#[test]
fn what_is_no_list_or_a_newer_one_is_not_read() {
    for text in
        ["", "{", "[]", "null", r#"{"kept":2,"open":1,"list":[{"id":1,"doc":{}}]}"#, r#"{"kept":1,"open":1,"list":[]}"#]
    {
        assert_eq!(Kept::read(text), None, "{text}");
    }
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
