//! Owns the plan's feeding as a scenario has it: what puts the cook's plan in the place of the feeding that was typed.

use super::draft;
use hearthload::report::{FireReport, words::clock_seconds};
use serde_json::{Value, json};

/// The fields to set and what to; nothing where there is no plan, or where it needs gas, whose hours are more than a feeding.
#[must_use]
pub fn feeding(doc: &Value, report: &FireReport) -> Option<Vec<(String, Value)>> {
    let light_at = report.light_at.as_deref().filter(|_| report.no_plan.is_none())?;
    if report.assist.as_ref().is_some_and(|assist| assist.needed) {
        return None;
    }
    let fed = report.phases.iter().filter(|phase| phase.feeds > 0);
    let phases: Vec<Value> = fed
        .map(
            |phase| json!({ "from": phase.from, "to": phase.to, "every_min": phase.every_min, "pieces": phase.pieces }),
        )
        .collect();
    let mut all = vec![
        ("feeding.light_at".to_owned(), json!(light_at)),
        ("feeding.phases".to_owned(), Value::from(phases)),
        ("feeding.spread_coals".to_owned(), json!([])),
    ];
    // The floor is read before the match, also where that is struck earlier than was typed.
    let read_at = clock_seconds(draft::text(doc, "start.read_at"));
    if read_at.zip(clock_seconds(light_at)).is_some_and(|(read, light)| read > light) {
        all.push(("start.read_at".to_owned(), json!(light_at)));
    }
    Some(all)
}

/// The scenario with the plan's feeding.
#[must_use]
pub fn scenario(doc: &Value, report: &FireReport) -> Option<Value> {
    let mut doc = doc.clone();
    feeding(&doc, report)?.into_iter().for_each(|(path, value)| draft::set(&mut doc, &path, value));
    Some(doc)
}
