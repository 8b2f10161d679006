//! Owns the question about many nights: how many, from which seed, and its parts.

use serde::{Deserialize, Serialize};
use serde_json::{Value, json};

use super::in_parts::{self, InParts, NoPart};
use super::{as_json, broken, read, refusal};
use crate::hearth::fault::Fault;
use crate::plan::nights::{NIGHTS_ACCURACY, NightSummary, fold, one};
use crate::report::{NightsReport, nights_build};
use crate::scenario::{Problem, Resolved, Scenario};
use crate::service::night::Ready;

/// Nights that are run when nobody says how many.
pub const NIGHTS: u64 = 200;
/// Nights that are run at most.
pub const NIGHTS_MOST: u64 = 100_000;
/// Nights of one part.
const A_PART: u64 = 5;

/// Request: `{"question": "nights", "scenario": {...}, "nights": 1000, "seed": 7}`, whole or in parts. A plainer way serves who
/// goes through them in order: with `"from"` and `"count"` it runs those, adds `"so_far"` (the `nights_run` of the answer before)
/// and answers `{"report": {...}, "nights_run": [...]}`.
///
/// # Errors
/// `{"problems": [...]}` where the request is not right; `{"fault": "..."}` where the computing went wrong.
pub fn asked(request: &Value, resolved: &Resolved) -> Result<String, Value> {
    let number = |name: &str, without: u64| match request.get(name) {
        None | Some(Value::Null) => Ok(without),
        Some(value) => value.as_u64().filter(|&n| name == "seed" || n <= NIGHTS_MOST).ok_or_else(|| wrong(name, value)),
    };
    let (asked, seed) = (number("nights", NIGHTS)?, number("seed", resolved.scenario.service.seed)?);
    let question = ManyNights::new(&resolved.scenario, asked, seed);
    if request.get("from").is_none() {
        return in_parts::asked(request, &question);
    }
    let (from, count) = (number("from", 0)?, number("count", asked)?);
    let so_far = request.get("so_far").cloned().unwrap_or_else(|| json!([]));
    let mut run: Vec<NightSummary> = read::from(&so_far).map_err(|_| wrong("so_far", &Value::Null))?;
    run.extend(question.run(from, count).map_err(|fault| broken(&fault))?);
    Ok(format!(r#"{{"report":{},"nights_run":{}}}"#, as_json(&question.report_of(&run))?, as_json(&run)?))
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

/// Many nights of one scenario.
pub struct ManyNights {
    ready: Ready,
    asked: u64,
    seed: u64,
}

/// Nights to be run.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stretch {
    /// The first.
    from: u64,
    /// How many.
    count: u64,
}

impl ManyNights {
    /// So many nights of a scenario from a seed.
    #[must_use]
    pub fn new(scenario: &Scenario, asked: u64, seed: u64) -> Self {
        Self { ready: Ready::new(scenario, NIGHTS_ACCURACY), asked, seed }
    }

    fn run(&self, from: u64, count: u64) -> Result<Vec<NightSummary>, Fault> {
        let end = from.saturating_add(count).min(self.asked);
        let ready = self.ready.afresh();
        let nights = (from..end).map(|index| one(&ready, self.seed, index)).collect();
        ready.noted.first().map_or(Ok(nights), Err)
    }

    fn report_of(&self, run: &[NightSummary]) -> NightsReport {
        nights_build::nights(&self.ready.scenario, &fold(run.iter().cloned()), self.seed, self.asked as u32)
    }
}

impl InParts for ManyNights {
    type Want = Stretch;
    type Part = Vec<NightSummary>;
    type Report = NightsReport;

    fn wants(&self, parts: &[Self::Part]) -> Vec<Stretch> {
        let run: std::collections::BTreeSet<u64> = parts.iter().flatten().map(|night| night.index).collect();
        let stretches = (0..self.asked.div_ceil(A_PART)).map(|part| part * A_PART);
        stretches.filter(|from| !run.contains(from)).map(|from| Stretch { from, count: A_PART }).collect()
    }

    fn work(&self, want: &Stretch) -> Result<Self::Part, NoPart> {
        if want.count > A_PART || want.from >= self.asked {
            return Err(NoPart::Unwanted);
        }
        self.run(want.from, want.count).map_err(NoPart::Fault)
    }

    fn report(&self, parts: &[Self::Part]) -> Option<NightsReport> {
        Some(self.report_of(&parts.iter().flatten().cloned().collect::<Vec<_>>()))
    }
}
