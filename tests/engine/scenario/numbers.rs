//! Every numeric field of the table at its limits, just beyond them, at nought, below nought, huge, as no number, and in the
//! wrong unit: what is refused is refused by its own row, in words with the limits; what is taken is exactly what was typed.

use crate::fields::full;
use crate::{put, with};
use hearthload::scenario::{
    self, Field, Problem,
    fields::{Kind, fields},
};
use serde_json::{Value, json};

/// Every row that takes a number, with the JSON pointer and the path of one such field in a full draft.
fn rows() -> impl Iterator<Item = (&'static Field, String, String)> {
    fields()
        .filter(|row| row.limits().is_some() && row.path != "hearthload")
        .map(|row| (row, format!("/{}", row.path.replace("[]", "/0").replace('.', "/")), row.path.replace("[]", "[0]")))
}

/// The problems that the row itself tells about one value; those of rules between fields are left out.
fn told(pointer: &str, path: &str, value: &Value) -> Vec<Problem> {
    let mut draft = full();
    put(&mut draft, pointer, value.clone());
    let found = scenario::resolve(&draft).err().unwrap_or_default();
    found.into_iter().filter(|problem| problem.field == path && problem.says.starts_with("You typed")).collect()
}

/// The guess at the end of a sentence.
fn guess(says: &str) -> Option<f64> {
    says.split_once("Did you mean ")?.1.trim_end_matches('?').parse().ok()
}

#[test]
fn the_table_is_tried_whole() {
    assert!(rows().count() > 70, "{}", rows().count());
}

#[test]
fn limits_are_taken_and_the_next_number_beyond_them_is_not() {
    for (row, pointer, path) in rows() {
        let [min, max] = row.limits().expect("a number");
        for inside in [min, max] {
            let found = told(&pointer, &path, &json!(inside));
            let by_row = found.iter().find(|problem| problem.allowed.contains(&format!("{min} to {max}")));
            assert!(by_row.is_none(), "{path} at {inside}: {by_row:?}");
        }
        for outside in [min.next_down(), max.next_up(), min - 1.0, max + 1.0, -1e308, 1e308, f64::MIN, f64::MAX] {
            let found = told(&pointer, &path, &json!(outside));
            assert_eq!(found.len(), 1, "{path} at {outside}: {found:?}");
            let [problem] = &found[..] else { return };
            let limits = format!("{min} to {max}");
            assert!(problem.allowed.contains(&limits) && problem.says.contains(&limits), "{path}: {problem:?}");
            assert_eq!(problem.unit, row.unit(), "{path}");
            assert!(problem.says.len() < 600, "{path}: {}", problem.says);
            if let Some(guess) = guess(&problem.says) {
                assert!((min..=max).contains(&guess), "{path} at {outside}: {}", problem.says);
                let is_plain = ((guess * 10.0) - (guess * 10.0).round()).abs() < 1e-6;
                // A wrong sign is the one slip that keeps every digit.
                let is_sign = (guess + outside).abs() < 1e-12;
                assert!(is_plain || is_sign, "a silly guess: {}", problem.says);
            }
        }
    }
}

#[test]
fn nought_and_below_nought_are_judged_like_any_other_number() {
    for (row, pointer, path) in rows() {
        let [min, max] = row.limits().expect("a number");
        let whole = matches!(row.kind, Kind::Number { whole: true, .. });
        for value in [0.0, -0.0, -0.5, -1.0, -(max.abs().max(1.0)), 5e-324, 0.5] {
            let is_in = (min..=max).contains(&value) && !(whole && value.fract().abs() > 0.0);
            let found = told(&pointer, &path, &json!(value));
            // At a value the row allows a rule may still object, in a sentence of its own.
            let by_row = found.iter().filter(|problem| problem.allowed.contains(&format!("{min} to {max}"))).count();
            assert_eq!(by_row, usize::from(!is_in), "{path} at {value}: {found:?}");
        }
    }
}

#[test]
fn what_is_no_number_is_asked_for_in_the_rows_own_words() {
    for (row, pointer, path) in rows() {
        for value in [
            json!("NaN"),
            json!("inf"),
            json!("-Infinity"),
            json!(""),
            json!("1e999"),
            json!("many"),
            json!(true),
            json!([]),
            json!({}),
            json!([1]),
        ] {
            let found = told(&pointer, &path, &value);
            assert!(found.len() == 1 && found[0].says.contains(row.label), "{path}: {value} told as {found:?}");
            assert!(!found[0].says.contains("Take the quotes away"), "{path}: {value} told as {found:?}");
        }
        // Null means that nobody gave one, except in a list of numbers, where one is missing.
        let in_list = usize::from(row.path.ends_with("[]"));
        assert_eq!(told(&pointer, &path, &Value::Null).len(), in_list, "{path}");
        // Larger than a double: the file is refused as a whole, with its place.
        let mut draft = full();
        put(&mut draft, &pointer, json!("HERE"));
        let found = scenario::read(&draft.to_string().replace("\"HERE\"", "1e999")).expect_err("no such number");
        assert!(found.len() == 1 && found[0].says.contains("larger than any computer holds"), "{path}: {found:?}");
    }
}

#[test]
fn fahrenheit_beyond_a_celsius_limit_gets_the_question_in_every_field() {
    let mut asked = 0;
    for (row, pointer, path) in rows().filter(|(row, ..)| row.unit() == "degC") {
        let [min, max] = row.limits().expect("a number");
        for share in [0.0, 0.25, 0.5, 0.75, 0.9, 1.0] {
            let celsius = (min + share * (max - min)).round();
            let fahrenheit = celsius * 1.8 + 32.0;
            if fahrenheit <= max {
                continue;
            }
            asked += 1;
            let found = told(&pointer, &path, &json!(fahrenheit));
            let question = format!("Did you mean degF? {fahrenheit} degF is {celsius} degC.");
            assert!(found.len() == 1 && found[0].says.contains(&question), "{path}: {found:?}");
        }
    }
    assert!(asked > 20, "{asked}");
}

#[test]
fn a_draft_in_fahrenheit_is_not_mended_by_halves() {
    // Typed in Fahrenheit throughout: 626 is refused, 64 and 590 would pass as Celsius and be wrong.
    let mut draft = with("/menu/0/known_bake/floor_c", json!(626));
    put(&mut draft, "/menu/0/start_c", json!(64));
    put(&mut draft, "/menu/0/floor_max_c", json!(590));
    let found = scenario::resolve(&draft).expect_err("626");
    let says = &found.iter().find(|problem| problem.field == "menu[0].known_bake.floor_c").expect("the floor").says;
    assert!(says.contains("Did you mean degF? 626 degF is 330 degC."), "{says}");
    assert!(says.contains("look at the other temperatures too: \"Floor, hottest\" 590, \"Goes in at\" 64."), "{says}");
    // Temperatures nobody gave are not asked about.
    let found = scenario::resolve(&with("/menu/0/known_bake/floor_c", json!(626))).expect_err("626");
    assert!(!found[0].says.contains("other temperatures"), "{found:?}");
}

#[test]
fn other_units_behind_a_number_are_understood() {
    for (pointer, typed, hint) in [
        ("/menu/0/known_bake/floor_c", "626 F", "Did you mean 330, which is that in degC?"),
        ("/menu/0/known_bake/floor_c", "626°F", "Did you mean 330, "),
        ("/oven/width_cm", "48 in", "Did you mean 121.92, which is that in cm?"),
        ("/oven/width_cm", "1,2 m", "Did you mean 120, "),
        ("/oven/width_cm", "1200mm", "Did you mean 120, "),
        ("/menu/0/ingredients/0/grams", "0.25 kg", "Did you mean 250, "),
        ("/menu/0/ingredients/0/grams", "9 oz", "Did you mean 255.146, "),
        ("/menu/0/known_bake/minutes", "198 s", "Did you mean 3.3, "),
        // Right in no unit that is known, or far outside: no guess.
        ("/oven/width_cm", "120 hands", "without letters or quotes"),
        ("/oven/width_cm", "48 m", "without letters or quotes"),
    ] {
        let found = scenario::resolve(&with(pointer, json!(typed))).expect_err(typed);
        assert!(found.len() == 1 && found[0].says.contains(hint), "{typed}: {found:?}");
    }
}

#[test]
fn guesses_are_such_as_a_person_types() {
    for (pointer, typed, guess) in [
        ("/menu/0/ingredients/0/grams", json!(9_999_999), None),
        ("/oven/bed_share_percent", json!(9999), None),
        ("/oven/bed_share_percent", json!(55), None),
        ("/oven/bed_share_percent", json!(0.2), Some("Did you mean 20?")),
        ("/oven/width_cm", json!(1.2), Some("Did you mean 120?")),
        ("/oven/width_cm", json!(1200), Some("Did you mean 120?")),
        ("/oven/width_cm", json!(48), Some("Did you mean inches? 48 in is 121.9 cm.")),
        ("/oven/width_cm", json!(301), None),
        ("/oven/door_height_cm", json!(4), Some("Did you mean 40?")),
        ("/menu/0/carrier", json!({"material": "cast_iron", "mass_kg": 2345}), Some("Did you mean 2.345?")),
        ("/service/hands", json!(13), None),
        ("/menu/0/per_100_covers", json!(-35), Some("Did you mean 35?")),
    ] {
        let found = scenario::resolve(&with(pointer, typed.clone())).expect_err("a number beyond its limits");
        let says = &found[0].says;
        match guess {
            Some(guess) => assert!(says.ends_with(guess), "{pointer} {typed}: {says}"),
            None => assert!(!says.contains("Did you mean"), "{pointer} {typed}: {says}"),
        }
    }
}
