//! Owns the doors of the engine: one question in as JSON text, one answer out as JSON text. The page and the batches use these.
//!
//! Request: `{"question": "carry", "scenario": {...}, "map": true}`. Answer: `{"ok": {...}}`, or `{"problems": [...]}` when the
//! scenario is not right, or `{"fault": "..."}` when the computing itself failed. `fire` takes a reading or a first firing too
//! (see `fire_question`); `reach`, `floors`, `sure` and `nights` can be asked in parts (see [`in_parts`]).

mod fire_question;
pub mod floors;
pub mod in_parts;
mod live;
pub mod nights;
pub mod reach;
pub mod read;
pub mod sure;

use serde_json::{Value, json};

use reach::Reaching;
use sure::HowSure;

use crate::hearth::build::DEFAULT_ACCURACY;
use crate::hearth::fault::Fault;
use crate::plan::fire::FirePlan;
use crate::plan::from_now::Now;
use crate::report::{CarryReport, FireReport, fault_words};
use crate::scenario::{Problem, Resolved, nearest_name, quoted, resolve};
use crate::service::night::Ready;

/// Version of the questions and answers; page and worker must agree on it.
pub const PROTOCOL: u32 = 1;

/// Every question there is.
pub const QUESTIONS: [&str; 8] = ["carry", "fire", "reach", "floors", "sure", "nights", "proof", "golden"];
/// Answers one question. Never panics on what a user can cause.
#[must_use]
pub fn answer(request: &str) -> String {
    let asked: Option<Value> = serde_json::from_str(request).ok();
    if asked.is_some_and(|asked| asked.get("question").and_then(Value::as_str) == Some("proof")) {
        return json!({ "ok": { "checks": crate::proof::checks() } }).to_string();
    }
    answer_without_checks(request)
}

/// As [`answer`], but for the question "proof": the outside checks and their tables weigh a quarter of the whole engine, so
/// the page fetches them in a program of their own, when somebody asks.
#[must_use]
pub fn answer_without_checks(request: &str) -> String {
    let request: Value = match serde_json::from_str(request) {
        Ok(value) => value,
        Err(error) => return json!({ "fault": format!("The request is not JSON: {error}.") }).to_string(),
    };
    let answered = match request.get("question").and_then(Value::as_str) {
        Some("golden") => as_json(&crate::golden::all()),
        Some("carry") => with_scenario(&request, |resolved| sound(&carry(resolved, wants(&request, "map")))),
        Some("fire") => with_scenario(&request, |resolved| fire_question::asked(&request, resolved)),
        Some("reach") => with_scenario(&request, |resolved| in_parts::asked(&request, &Reaching::new(resolved))),
        Some("floors") => with_scenario(&request, |resolved| floors::asked(&request, &resolved.scenario)),
        Some("sure") => {
            with_scenario(&request, |resolved| in_parts::asked(&request, &HowSure::new(&resolved.scenario)))
        }
        Some("nights") => with_scenario(&request, |resolved| nights::asked(&request, resolved)),
        _ => Err(refusal(&[no_question(&request, &QUESTIONS)])),
    };
    match answered {
        Ok(ok) => format!(r#"{{"ok":{ok}}}"#),
        Err(refusal) => refusal.to_string(),
    }
}

/// Whether this oven carries this menu. `map` asks for the floor's pictures too.
#[must_use]
pub fn carry(resolved: &Resolved, map: bool) -> CarryReport {
    let ready = Ready::new(&resolved.scenario, DEFAULT_ACCURACY);
    crate::report::build::carry(resolved, &ready, map)
}

/// The cook's plan; `now` asks for the rest of the evening too.
#[must_use]
pub fn fire(resolved: &Resolved, now: Option<&Now>) -> FireReport {
    fire_on_rough_nights(resolved, now, 0)
}

/// As [`fire`], tried on so many rough nights too.
#[must_use]
pub fn fire_on_rough_nights(resolved: &Resolved, now: Option<&Now>, nights: u32) -> FireReport {
    let mut plan = crate::plan::fire::plan(&resolved.scenario, now);
    if let Some(plan) = plan.as_mut().filter(|_| nights > 0) {
        plan.try_rough_nights(nights);
    }
    fire_report(resolved, plan.as_ref())
}

/// What a plan says, or its fault.
#[must_use]
pub fn fire_report(resolved: &Resolved, plan: Option<&FirePlan>) -> FireReport {
    match plan.and_then(FirePlan::fault) {
        Some(fault) => crate::report::fire_build::faulted(resolved, &fault),
        None => crate::report::fire_build::fire(resolved, plan),
    }
}

/// The slow schedule of a new or damp oven; fewer hours than it takes are refused.
#[must_use]
pub fn first_firing(resolved: &Resolved, in_hours: Option<f64>) -> FireReport {
    let ready = Ready::new(&resolved.scenario, DEFAULT_ACCURACY);
    let schedule = crate::plan::first_firing::schedule(&ready, in_hours);
    match ready.noted.first() {
        Some(fault) => crate::report::fire_build::faulted(resolved, &fault),
        None => crate::report::fire_build::first_firing(resolved, &schedule),
    }
}

pub use fire_question::{Typed, read_hours, read_now};
pub use live::Live;

/// Whether a request sets a flag.
fn wants(request: &Value, flag: &str) -> bool {
    request.get(flag).and_then(Value::as_bool).unwrap_or(false)
}

/// Resolves the request's scenario and answers about it, or says what is wrong with it.
fn with_scenario(request: &Value, answer: impl FnOnce(&Resolved) -> Result<String, Value>) -> Result<String, Value> {
    let draft = request.get("scenario").unwrap_or(&Value::Null);
    match resolve(draft) {
        Ok(resolved) => answer(&resolved),
        Err(problems) => Err(refusal(&problems)),
    }
}

/// The request names no question, or none of those there are.
fn no_question(request: &Value, known: &[&str]) -> Problem {
    let asked = request.get("question").unwrap_or(&Value::Null);
    let given = quoted(&asked.as_str().map_or_else(|| asked.to_string(), str::to_owned));
    let allowed = known.join(", ");
    let says = if asked.is_null() {
        format!("Name a question, one of {allowed}.")
    } else {
        let guess = nearest_name(&given, known).map_or_else(String::new, |name| format!(" Did you mean \"{name}\"?"));
        format!("There is no question \"{given}\" here. It is one of {allowed}.{guess}")
    };
    let given = if asked.is_null() { "nothing".to_owned() } else { given };
    Problem { field: "question".to_owned(), given, allowed, unit: String::new(), says }
}

/// A report, unless the computing went wrong: a wrong number is never shown as a right one.
fn sound(report: &CarryReport) -> Result<String, Value> {
    match &report.fault {
        Some(fault) => Err(json!({ "fault": fault })),
        None => as_json(report),
    }
}

/// The computing went wrong: time, place and what was left, in words.
fn broken(fault: &Fault) -> Value {
    json!({ "fault": fault_words::fault(fault) })
}

fn refusal(problems: &[Problem]) -> Value {
    json!({ "problems": problems })
}

/// A report as JSON text; straight, not by way of a tree of values, which would make the page's program larger.
fn as_json(report: &impl serde::Serialize) -> Result<String, Value> {
    serde_json::to_string(report)
        .map_err(|error| json!({ "fault": format!("The answer could not be written: {error}.") }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hearth::fault::by_hand::{losing, showing};

    /// Half an hour of a demo's guests; little to search, and all questions have something to play.
    fn draft() -> Value {
        let mut draft: Value = serde_json::from_str(include_str!("../../demo-data/small.json")).expect("a demo");
        draft["service"] = json!({ "start": "08:00", "end": "08:30", "covers": [2, 2], "hands": 1 });
        draft["promise"] = json!({});
        draft["planning"] = json!({ "floor_smallest_cm": 90, "floor_largest_cm": 90 });
        draft
    }

    fn answered(question: &str, more: &Value) -> Value {
        let mut request = json!({ "question": question, "scenario": draft(), "nights": 1 });
        more.as_object().into_iter().flatten().for_each(|(name, value)| request[name] = value.clone());
        serde_json::from_str(&answer_without_checks(&request.to_string())).expect("JSON")
    }

    /// Every question, whole or in parts; whether it plays a service.
    fn questions() -> [(&'static str, Value, bool); 10] {
        [
            ("carry", json!({}), true),
            ("fire", json!({}), true),
            ("fire", json!({ "first_firing": true }), false),
            ("reach", json!({}), true),
            ("floors", json!({}), true),
            ("nights", json!({}), true),
            ("nights", json!({ "from": 0, "count": 1 }), true),
            ("nights", json!({ "part": { "from": 0, "count": 5 } }), true),
            ("sure", json!({}), true),
            ("sure", json!({ "part": { "from": 0 } }), true),
        ]
    }

    fn is_refused(question: &str, refused: &Value, left: &str) {
        let says = refused["fault"].as_str().unwrap_or_else(|| panic!("{question}: {refused}"));
        assert!(
            says.contains(left) && says.contains("failed at ") && refused.get("ok").is_none(),
            "{question}: {says}"
        );
    }

    #[test]
    fn a_ledger_that_does_not_close_is_a_fault_and_no_answer() {
        let sound = losing(0.0, || answered("carry", &json!({})));
        assert!(sound["ok"]["verdict"].is_object(), "{sound}");
        // A joule of a day's heat is a hundred times what rounding leaves.
        for (question, more, _) in questions() {
            is_refused(question, &losing(1e3, || answered(question, &more)), "the heat ledger leaves 1000 J open");
        }
    }

    #[test]
    fn stone_shown_colder_than_all_that_touched_it_is_a_fault_and_no_answer() {
        for (question, more, plays) in questions() {
            if plays {
                is_refused(question, &showing(-80.0, || answered(question, &more)), "stone came out at \u{2212}80");
            }
        }
    }
}
