//! What a scenario may say, and what is said back: defaults, problems, rules, schema, field list, and anything at all thrown at it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may stop where it likes")]

mod fields;
mod letters;
mod numbers;
mod problems;
mod reads;
mod rules;
#[cfg(not(target_arch = "wasm32"))]
mod thrown;
mod written;

use serde_json::{Value, json};

/// The least a scenario has to say.
pub fn least() -> Value {
    json!({
        "hearthload": 1,
        "oven": {"width_cm": 120},
        "service": {"start": "18:00", "end": "19:00", "covers": [8, 12, 12, 8]},
        "menu": [dish("Leek round")]
    })
}

/// The least a dish has to say.
pub fn dish(name: &str) -> Value {
    json!({
        "name": name,
        "ingredients": [{"food": "pizza_dough", "grams": 250}, {"food": "onions", "grams": 60}],
        "footprint": {"diameter_cm": 28},
        "known_bake": {"minutes": 3.3, "floor_c": 330}
    })
}

/// The least scenario with one value put somewhere, by JSON pointer; groups on the way are made.
pub fn with(pointer: &str, value: Value) -> Value {
    let mut draft = least();
    put(&mut draft, pointer, value);
    draft
}

/// Puts a value into a draft by JSON pointer.
pub fn put(draft: &mut Value, pointer: &str, value: Value) {
    let mut place = draft;
    for key in pointer.trim_start_matches('/').split('/') {
        place = match key.parse::<usize>() {
            Ok(index) => &mut place[index],
            Err(_) => &mut place[key],
        };
    }
    *place = value;
}

/// The demo scenarios, name and text.
pub const DEMOS: [(&str, &str); 4] = [
    ("carries", include_str!("../../../demo-data/carries.json")),
    ("surprise", include_str!("../../../demo-data/surprise.json")),
    ("assist", include_str!("../../../demo-data/assist.json")),
    ("small", include_str!("../../../demo-data/small.json")),
];
