//! Owns the questions that are timed, as the JSON text a front end would send. They are about the demos, so that anybody can ask
//! them again.

use serde_json::{Value, json};

/// A 1.4 m floor with a burner beneath and three dishes, lit at 15:00, open to 24:30.
pub const WIDE: &str = include_str!("../../demo-data/assist.json");
/// A 1.2 m floor with a varied menu.
const FRIDAY: &str = include_str!("../../demo-data/carries.json");
/// The ladder's sizes, cm: eight, each with and without a burner.
pub const SIZES_CM: [u32; 8] = [90, 100, 110, 120, 130, 140, 150, 160];
/// Nights of the target; benchmarks play a share of them.
pub const NIGHTS: u32 = 1000;
/// The share that is played: a fiftieth.
pub const NIGHTS_PLAYED: u32 = 20;

fn about(scenario: &str, mut request: Value) -> String {
    // The demos are read by the project's own tests; one that is no JSON would be answered by a fault, which `answered` stops at.
    request["scenario"] = serde_json::from_str(scenario).unwrap_or_default();
    request.to_string()
}

/// One full day at the default accuracy: from light-up to close on the 1.4 m floor, read, played, judged and written.
#[must_use]
pub fn day() -> String {
    about(WIDE, json!({ "question": "carry" }))
}

/// The cook's plan.
#[must_use]
pub fn cadence() -> String {
    about(FRIDAY, json!({ "question": "fire" }))
}

/// The ladder of 8 x 2 with all that belongs to its answer: nine nights in ten on the smallest that carries, two small ones.
#[must_use]
pub fn ladder() -> String {
    about(FRIDAY, json!({ "question": "floors", "sizes_cm": SIZES_CM }))
}

/// So many rough nights.
#[must_use]
pub fn nights(count: u32) -> String {
    about(FRIDAY, json!({ "question": "nights", "nights": count, "seed": 7 }))
}

/// What the engine answers. A question that is refused would be answered in no time: that is no measurement.
///
/// # Errors
/// The refusal.
pub fn answered(request: &str) -> Result<String, String> {
    let answer = hearthload::ask::answer(request);
    if answer.starts_with(r#"{"ok":{"#) { Ok(answer) } else { Err(answer) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_is_answered_and_what_is_no_scenario_is_not() {
        assert!(answered(&day()).is_ok_and(|answer| answer.contains("\"verdict\"")));
        assert!(answered(&about("{}", json!({ "question": "carry" }))).is_err());
    }

    #[test]
    fn the_day_is_that_of_the_target() {
        let asked: Value = serde_json::from_str(&day()).unwrap();
        assert_eq!(asked["scenario"]["oven"]["width_cm"], 140);
        assert!(asked["scenario"].get("accuracy").is_none(), "at the default accuracy");
    }
}
