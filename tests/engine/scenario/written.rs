//! The schema and the field list that are kept in the repository are those the table makes.
//!
//! `HEARTHLOAD_WRITE=1 cargo test --test scenario` writes them anew.

use crate::{DEMOS, least};
use hearthload::scenario;
use serde_json::Value;

const SCHEMA: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/demo-data/scenario.schema.json");
const README: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/demo-data/README.md");
const MARK: &str = "<!-- From here on made from the field table. -->\n\n";

fn kept_in_step(path: &str, now: &str) {
    if std::env::var_os("HEARTHLOAD_WRITE").is_some() {
        std::fs::write(path, now).expect(path);
    }
    let kept = std::fs::read_to_string(path).expect(path);
    assert!(kept == now, "{path} is behind the field table: run with HEARTHLOAD_WRITE=1");
}

#[test]
fn the_schema_on_file_is_current() {
    let now = serde_json::to_string_pretty(&scenario::schema()).expect("JSON") + "\n";
    kept_in_step(SCHEMA, &now);
}

#[test]
fn the_field_list_on_file_is_current() {
    let kept = std::fs::read_to_string(README).expect(README);
    let head = kept.split(MARK).next().unwrap_or("");
    kept_in_step(README, &format!("{head}{MARK}{}", scenario::field_list_markdown()));
}

#[cfg(not(target_arch = "wasm32"))]
#[test]
fn the_schema_takes_the_demos_and_refuses_what_the_reader_refuses() {
    let schema = jsonschema::validator_for(&scenario::schema()).expect("a schema by its own rules");
    let takes = |draft: &Value| schema.is_valid(draft);
    for (name, text) in DEMOS {
        let draft: Value = serde_json::from_str(text).expect(name);
        let found: Vec<String> = schema.iter_errors(&draft).map(|error| error.to_string()).collect();
        assert!(found.is_empty(), "{name}: {found:?}");
    }
    assert!(takes(&least()));
    for (pointer, value) in [
        ("/oven/width_cm", serde_json::json!(4)),
        ("/oven/widht_cm", serde_json::json!(120)),
        ("/service/start", serde_json::json!("48:00")),
        ("/service/start", serde_json::json!("7 pm")),
        ("/wood/species", serde_json::json!("plastic")),
        ("/menu/0/name", Value::Null),
        ("/service/hands", serde_json::json!(1.5)),
    ] {
        let draft = crate::with(pointer, value);
        assert!(!takes(&draft) && scenario::resolve(&draft).is_err(), "{pointer}");
    }
}
