//! Owns the doors of the engine: one question in as JSON text, one answer out as JSON text. The page and the batches use these.
//!
//! Request: `{"question": "carry", "scenario": {...}, "map": true}`. Answer: `{"ok": {...}}`, or `{"problems": [...]}` when the
//! scenario is not right, or `{"fault": "..."}` when the computing itself failed.

use serde_json::{Value, json};

/// Version of the questions and answers; page and worker must agree on it.
pub const PROTOCOL: u32 = 1;

/// Answers one question. Never panics on what a user can cause.
#[must_use]
pub fn answer(request: &str) -> String {
    let request: Value = match serde_json::from_str(request) {
        Ok(value) => value,
        Err(error) => return json!({ "fault": format!("The request is not JSON: {error}.") }).to_string(),
    };
    let answer = match request.get("question").and_then(Value::as_str) {
        Some("golden") => json!({ "ok": { "draws": crate::golden::draws() } }),
        other => json!({ "fault": format!("There is no question {other:?}.") }),
    };
    answer.to_string()
}
