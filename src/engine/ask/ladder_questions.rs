//! Owns the reading of the planner's questions: how many nights, from which seed, and how to run them a part at a time.

use serde_json::{Value, json};

use super::{as_json, refusal};
use crate::plan::nights::{NIGHTS_ACCURACY, NightSummary, fold, one};
use crate::report::nights_build;
use crate::scenario::{Problem, Resolved};
use crate::service::night::Ready;

/// Nights that are run when nobody says how many.
pub const NIGHTS: u64 = 200;
/// Nights that are run at most.
pub const NIGHTS_MOST: u64 = 100_000;

/// Request: `{"question": "nights", "scenario": {...}, "nights": 1000, "seed": 7}` runs them all. With `"from"` and `"count"` it
/// runs a part, adds `"so_far"` (the `nights_run` of the answer before) and answers `{"report": {...}, "nights_run": [...]}`, so
/// that a page can show progress and stop with what it has.
///
/// # Errors
/// `{"problems": [...]}` where the request is not right.
pub fn nights(request: &Value, resolved: &Resolved) -> Result<Value, Value> {
    let number = |name: &str, without: u64| match request.get(name) {
        None | Some(Value::Null) => Ok(without),
        Some(value) => value.as_u64().filter(|&n| name == "seed" || n <= NIGHTS_MOST).ok_or_else(|| wrong(name, value)),
    };
    let (asked, seed) = (number("nights", NIGHTS)?, number("seed", resolved.scenario.service.seed)?);
    let is_part = request.get("from").is_some();
    let (from, count) = (number("from", 0)?, number("count", asked)?);
    let so_far = request.get("so_far").cloned().unwrap_or_else(|| json!([]));
    let mut run: Vec<NightSummary> = serde_json::from_value(so_far).map_err(|_| wrong("so_far", &Value::Null))?;
    let ready = Ready::new(&resolved.scenario, NIGHTS_ACCURACY);
    run.extend((from..(from + count).min(asked)).map(|index| one(&ready, seed, index)));
    let report = nights_build::nights(&resolved.scenario, &fold(run.iter().cloned()), seed, asked as u32);
    if is_part { as_json(&json!({ "report": report, "nights_run": run })) } else { as_json(&report) }
}

fn wrong(name: &str, value: &Value) -> Value {
    let says = match name {
        "so_far" => "\"so_far\" is not what an earlier answer gave as \"nights_run\".".to_owned(),
        _ => format!("\"{name}\" is a whole number from 0 to {NIGHTS_MOST}."),
    };
    refusal(&[Problem {
        field: name.to_owned(),
        given: value.to_string(),
        allowed: format!("0 to {NIGHTS_MOST}"),
        unit: String::new(),
        says,
    }])
}
