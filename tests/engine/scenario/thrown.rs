//! Anything at all thrown at the reader: it answers with a scenario or with problems, never with a panic, and a scenario is whole.

use crate::DEMOS;
use hearthload::scenario::{self, Problem, Resolved};
use proptest::prelude::*;
use serde_json::{Value, json};

/// A whole answer: finite numbers and kept limits, or problems that say something.
fn answer(result: Result<Resolved, Vec<Problem>>) {
    match result {
        Ok(resolved) => {
            let oven = &resolved.scenario.oven;
            assert!(oven.door_height_m < oven.dome_rise_m && oven.width_m.is_finite());
            assert!(resolved.scenario.service.start < resolved.scenario.service.end);
            for dish in &resolved.scenario.menu {
                assert!(
                    dish.floor_min_c < dish.floor_max_c && dish.start_c < dish.end_c && !dish.ingredients.is_empty()
                );
            }
        }
        Err(problems) => {
            assert!(!problems.is_empty() && problems.len() <= 300);
            assert!(problems.iter().all(|problem| !problem.says.is_empty() && problem.says.len() < 4000));
        }
    }
}

/// Every place in a draft, as JSON pointers.
fn places(value: &Value, here: &str, all: &mut Vec<String>) {
    all.push(here.to_owned());
    match value {
        Value::Object(object) => object.iter().for_each(|(key, value)| places(value, &format!("{here}/{key}"), all)),
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(index, value)| places(value, &format!("{here}/{index}"), all));
        }
        _ => {}
    }
}

fn anything() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::Bool),
        any::<f64>().prop_map(|number| json!(number)),
        any::<i64>().prop_map(|number| json!(number)),
        (-100.0..1000.0_f64).prop_map(|number| json!((number * 10.0).round() / 10.0)),
        (0_u32..60, 0_u32..70).prop_map(|(hours, minutes)| json!(format!("{hours:02}:{minutes:02}"))),
        "\\PC{0,12}".prop_map(Value::String),
        prop::sample::select(vec!["round", "rectangle", "probe", "floor", "oak", "pizza_dough", "cast_iron", "rear"])
            .prop_map(|word| json!(word)),
    ];
    leaf.prop_recursive(3, 24, 6, |inner| {
        let key = prop_oneof![
            prop::sample::select(scenario::fields().map(scenario::Field::key_name).collect::<Vec<_>>())
                .prop_map(str::to_owned),
            "\\PC{0,8}",
        ];
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..6).prop_map(Value::Array),
            prop::collection::vec((key, inner), 0..6).prop_map(|pairs| Value::Object(pairs.into_iter().collect())),
        ]
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 3000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn demos_with_some_places_changed(
        demo in 0..4_usize,
        changes in prop::collection::vec((any::<prop::sample::Index>(), prop::option::of(anything())), 1..5),
    ) {
        let mut draft: Value = serde_json::from_str(DEMOS[demo].1).expect("a demo");
        for (index, value) in changes {
            let mut all = Vec::new();
            places(&draft, "", &mut all);
            let pointer = index.get(&all).clone();
            match (value, pointer.rsplit_once('/')) {
                // Nothing to put: take the field out.
                (None, Some((parent, key))) => {
                    if let Some(object) = draft.pointer_mut(parent).and_then(Value::as_object_mut) {
                        object.remove(key);
                    }
                }
                (value, _) => {
                    if let Some(place) = draft.pointer_mut(&pointer) {
                        *place = value.unwrap_or(Value::Null);
                    }
                }
            }
        }
        answer(scenario::resolve(&draft));
        answer(scenario::read(&draft.to_string()));
    }

    #[test]
    fn any_json(draft in anything()) {
        answer(scenario::resolve(&draft));
        let mut headed = draft;
        if let Some(object) = headed.as_object_mut() {
            object.insert("hearthload".to_owned(), json!(1));
        }
        answer(scenario::resolve(&headed));
    }

    #[test]
    fn demos_as_text_with_bytes_changed(
        demo in 0..4_usize,
        changes in prop::collection::vec((any::<prop::sample::Index>(), "\\PC{0,3}"), 1..4),
    ) {
        let mut letters: Vec<String> = DEMOS[demo].1.chars().map(String::from).collect();
        for (index, put) in changes {
            *index.get_mut(letters.as_mut_slice()) = put;
        }
        answer(scenario::read(&letters.concat()));
    }

    #[test]
    fn any_text(text in "\\PC{0,200}") {
        answer(scenario::read(&text));
    }
}
