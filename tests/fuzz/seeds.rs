//! Owns what fuzzing starts from: for each target a few inputs that go deep, and the words that its formats are made of.

use crate::draft::DEMOS;
use hearthload::scenario;
use serde_json::{Value, json};

/// Inputs to begin with.
#[must_use]
pub fn seeds(target: &str) -> Vec<Vec<u8>> {
    match target {
        "scenario" => {
            [least().to_string()].into_iter().chain(DEMOS.map(str::to_owned)).map(String::into_bytes).collect()
        }
        "link" => (0..4).flat_map(|kind| [link(kind, &least()), link(kind, &json!({ "hearthload": 1 }))]).collect(),
        "kept" => {
            let list = [(1, least()), (7, json!({}))].map(|(id, doc)| json!({ "id": id, "doc": doc }));
            let kept = json!({ "kept": 1, "open": 7, "list": list }).to_string();
            let one = json!({ "one": 1, "marks": { "a": 1, "b": 2 }, "doc": least() }).to_string();
            [one, kept, least().to_string(), "17,5".to_owned(), "19h30".to_owned()].map(String::into_bytes).into()
        }
        "table" => [
            include_bytes!("../../src/engine/matter/data/food.csv").as_slice(),
            include_bytes!("../../src/engine/matter/data/stone.csv"),
            include_bytes!("../../src/engine/matter/data/wood.csv"),
        ]
        .map(|table| table[table.len().saturating_sub(1500)..].to_vec())
        .into(),
        "batch" => ["carry", "fire", "reach", "floors", "sure", "nights"]
            .map(|question| json!({ "id": 1, "question": question, "scenario": { "hearthload": 1, "oven": {} } }))
            .map(|line| line.to_string().into_bytes())
            .into(),
        // Choices: any bytes are as good as others.
        _ => (1..=8_u8)
            .map(|step| (0..200_u8).map(|at| at.wrapping_mul(step.wrapping_mul(37)).wrapping_add(step)).collect())
            .collect(),
    }
}

/// A draft with no more than what must be said.
fn least() -> Value {
    json!({ "hearthload": 1, "oven": { "width_cm": 120 },
        "service": { "start": "18:00", "end": "18:30", "covers": [8, 12] },
        "menu": [{ "name": "Leek round", "ingredients": [{ "food": "pizza_dough", "grams": 250 }],
            "footprint": { "diameter_cm": 28 }, "known_bake": { "minutes": 3.3, "floor_c": 330 } }] })
}

fn link(kind: u8, doc: &Value) -> Vec<u8> {
    let whole = hearthload_page::share::fragment(&hearthload_page::route::Place::default(), doc);
    let inside = match kind {
        0 => whole,
        1 => whole.split("scenario=1.").last().unwrap_or_default().to_owned(),
        _ => doc.to_string(),
    };
    [vec![kind], inside.into_bytes()].concat()
}

/// The words of the formats, as libFuzzer wants them: one quoted word a line.
#[must_use]
pub fn dictionary() -> String {
    let fields = scenario::fields().map(|row| format!("\"\\\"{}\\\":\"\n", row.key_name()));
    let marks = [
        "#scenario=1.",
        "25:30",
        "null",
        "1e308",
        "-1e-308",
        "\\\\u202e",
        "\\\\u0000",
        "[]",
        "{}",
        "\\\"kept\\\":",
        "\\\"one\\\":",
        "\\\"marks\\\":",
        "\\\"doc\\\":",
        "\\\"list\\\":",
    ];
    fields.chain(marks.into_iter().map(|mark| format!("\"{mark}\"\n"))).collect()
}
