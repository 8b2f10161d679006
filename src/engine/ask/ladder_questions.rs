//! Owns the reading of the planner's questions: how many nights, from which seed, a part at a time; which floors.

use serde_json::{Value, json};

use super::{as_json, refusal};
use crate::plan::floors;
use crate::plan::nights::{NIGHTS_ACCURACY, NightSummary, fold, one};
use crate::plan::rung::Rung;
use crate::report::sure_build::{self, SureReport};
use crate::report::{FloorsReport, floors_build, nights_build};
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

/// How sure the answer about an evening is; its draws come from the scenario's seed.
#[must_use]
pub fn sure(resolved: &Resolved) -> SureReport {
    sure_build::sure(&crate::sure::sure(&resolved.scenario, resolved.scenario.service.seed))
}

/// Every floor on offer, one after the other.
#[must_use]
pub fn floors(resolved: &Resolved) -> FloorsReport {
    let scenario = &resolved.scenario;
    let tried = floors::places(scenario).into_iter().map(|place| (place, floors::rung_at(scenario, place)));
    floors_of(resolved, tried.collect())
}

/// The ladder of rungs that were worked out anywhere, in any order; `None` stands for a floor a dish does not fit.
#[must_use]
pub fn floors_of(resolved: &Resolved, tried: Vec<(floors::Place, Option<Rung>)>) -> FloorsReport {
    let too_small: Vec<floors::Place> =
        tried.iter().filter(|(_, rung)| rung.is_none()).map(|(place, _)| *place).collect();
    let rungs = tried.into_iter().filter_map(|(place, rung)| rung.map(|rung| (place, rung))).collect();
    let scenario = &resolved.scenario;
    let ladder = floors::ladder(scenario, rungs, scenario.service.seed);
    floors_build::floors(scenario, &ladder, &too_small)
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
