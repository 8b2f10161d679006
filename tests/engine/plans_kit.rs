//! A small oven for plans, the demos, and a report's own words as feeding.
#![allow(dead_code, reason = "each test file uses its part")]

use hearthload::report::FireReport;
use hearthload::scenario::{Resolved, resolve};
use serde_json::{Value, json};

/// A small oven, one dish, one hour.
pub fn small() -> Value {
    json!({
        "hearthload": 1, "name": "A small oven",
        "oven": {"shape": "round", "width_cm": 90, "reading": "gun", "fire_side": "left", "bed_share_percent": 20},
        "wood": {"species": "beech", "meter_percent_dry": 15, "piece_diameter_cm": 7, "piece_length_cm": 28},
        "start": {"read_at": "15:30", "floor_c": 170},
        "menu": [{
            "name": "Leek round",
            "ingredients": [{"food": "pizza_dough", "grams": 230}, {"food": "tomato_sauce", "grams": 60}],
            "footprint": {"shape": "round", "diameter_cm": 26},
            "known_bake": {"minutes": 4, "floor_c": 310, "flame": "low", "seen": "together"},
            "floor_min_c": 260, "floor_max_c": 400, "per_100_covers": 100
        }],
        "service": {"start": "18:00", "end": "19:00", "covers": [3, 6, 6, 3], "hands": 1}
    })
}

pub fn with(mut draft: Value, change: impl FnOnce(&mut Value)) -> Resolved {
    change(&mut draft);
    resolve(&draft).expect("a draft without problems")
}

pub fn kg(report: &FireReport) -> f64 {
    report.wood_kg.as_ref().map_or(f64::NAN, |wood| wood.day)
}

pub fn demo(name: &str) -> Value {
    let path = format!("{}/demo-data/{name}.json", env!("CARGO_MANIFEST_DIR"));
    serde_json::from_str(&std::fs::read_to_string(path).expect("a demo")).expect("JSON")
}

/// The report's own words as the feeding of its scenario.
pub fn fed_as_planned(mut draft: Value, report: &FireReport) -> Resolved {
    let phases: Vec<Value> = report
        .phases
        .iter()
        .map(|p| json!({"from": p.from, "to": p.to, "every_min": p.every_min, "pieces": p.pieces}))
        .collect();
    draft["feeding"]["light_at"] = json!(report.light_at);
    draft["feeding"]["phases"] = json!(phases);
    if report.assist.as_ref().is_some_and(|assist| !assist.needed) {
        draft["oven"]["assist"] = Value::Null;
    }
    resolve(&draft).expect("a draft without problems")
}
