//! The lists that are printed for people and programs: fields, schema, checks.

use crate::run::{json, run};

#[test]
fn every_field_stands_in_the_list_with_its_limits() {
    let listed = json(&run(&["fields", "--json"], "").out);
    let rows = listed.as_array().unwrap();
    let row = rows.iter().find(|row| row["path"] == "oven.door_height_cm").unwrap();
    assert_eq!(row["unit"], "cm");
    assert!(row["min"].as_f64().unwrap() < row["max"].as_f64().unwrap());
    let text = run(&["fields"], "").out;
    for row in rows.iter().filter(|row| row["min"].is_number()) {
        let path = row["path"].as_str().unwrap();
        assert!(text.contains(&format!("`{path}`")), "{path} is missing in the list for people");
    }
}

#[test]
fn the_schema_is_json_of_its_draft() {
    let schema = run(&["schema"], "");
    assert_eq!(schema.code, 0);
    let schema = json(&schema.out);
    assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
    assert!(schema["properties"]["oven"]["properties"].is_object());
}

#[test]
fn the_checks_are_printed_with_their_sources_and_counted() {
    let ran = run(&["proof", "--json"], "");
    let listed = json(&ran.out);
    let checks = listed["checks"].as_array().unwrap();
    let unexplained = checks.iter().filter(|check| check["holds"] == false && check["explained"].is_null()).count();
    assert_eq!(ran.code, u8::from(unexplained > 0 || checks.is_empty()));
    let text = run(&["proof"], "").out;
    let held = checks.iter().filter(|check| check["holds"] == true).count();
    assert!(text.ends_with(&format!("{held} of {} checks hold.\n", checks.len())), "{text}");
    assert!(checks.iter().all(|check| text.contains(check["source"].as_str().unwrap())));
}
