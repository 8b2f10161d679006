//! Owns the asking for many nights, some at a time, and their adding up in the order of their numbers, whoever played them.

use super::{Question, plain, typed};
use hearthload::{
    ask::nights::NIGHTS,
    plan::nights::{NightSummary, fold as add_up},
    report::{NightsReport, nights_build},
    scenario::Scenario,
};
use serde_json::{Value, json};
use std::rc::Rc;

/// Nights in one request: about a second's work, so that progress is seen and a stop loses little.
const AT_ONCE: u64 = 10;

fn number(with: &Value, name: &str, without: u64) -> u64 {
    with.get(name).and_then(Value::as_u64).unwrap_or(without)
}

/// The requests: `nights` and `seed` may be wished for.
pub(super) fn requests(doc: &Value, with: &Value, scenario: &Scenario) -> Vec<Rc<str>> {
    let (nights, seed) = (number(with, "nights", NIGHTS), number(with, "seed", scenario.service.seed));
    let one = |from: u64| {
        let mut with = with.clone();
        for (name, value) in [("nights", nights), ("seed", seed), ("from", from), ("count", AT_ONCE)] {
            with[name] = json!(value);
        }
        plain::request("nights", doc, &with)
    };
    (0..nights.div_ceil(AT_ONCE)).map(|part| one(part * AT_ONCE)).collect()
}

/// The nights run so far, added up.
pub(super) fn fold(question: &Question) -> Result<NightsReport, String> {
    let mut run: Vec<NightSummary> = Vec::new();
    for answer in question.parts.iter().filter_map(|part| part.answer.as_ref()) {
        run.extend(typed::<Vec<NightSummary>>(answer.get("nights_run").unwrap_or(&Value::Null))?);
    }
    let (with, scenario) = (&question.with, &question.scenario);
    let (nights, seed) = (number(with, "nights", NIGHTS), number(with, "seed", scenario.service.seed));
    Ok(nights_build::nights(scenario, &add_up(run), seed, nights as u32))
}
