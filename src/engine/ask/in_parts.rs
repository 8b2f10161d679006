//! Owns questions that take long: cut into parts that are worked out anywhere and in any order, and added up at any time.
//!
//! Whoever asks goes round: the parts there are so far go in, an answer from them comes out with what is still wanted; one thing
//! that is wanted goes in, a part comes out. Both are plain JSON nobody else need understand. The whole question in one go is the
//! same round, so an answer in parts is the same answer.

use serde::{Serialize, de::DeserializeOwned};
use serde_json::Value;

use super::{as_json, refusal};
use crate::scenario::Problem;

/// A question in parts.
pub trait InParts {
    /// Something to be worked out.
    type Want: Serialize + DeserializeOwned + Clone + Send + Sync;
    /// What was worked out.
    type Part: Serialize + DeserializeOwned + Clone + Send + Sync;
    /// The answer.
    type Report: Serialize;

    /// What is wanted beside the parts there are; nothing when the answer is whole. Later wants may show only when earlier ones
    /// are met.
    fn wants(&self, parts: &[Self::Part]) -> Vec<Self::Want>;

    /// Works one part out; `None` for what this question never wants.
    fn work(&self, want: &Self::Want) -> Option<Self::Part>;

    /// The answer from the parts there are, in whatever order they came; `None` where they say nothing yet.
    fn report(&self, parts: &[Self::Part]) -> Option<Self::Report>;

    /// The whole answer.
    fn whole(&self) -> Option<Self::Report> {
        let mut parts = Vec::new();
        loop {
            let wants = self.wants(&parts);
            if wants.is_empty() {
                return self.report(&parts);
            }
            let before = parts.len();
            parts.extend(wants.iter().filter_map(|want| self.work(want)));
            if parts.len() == before {
                return self.report(&parts);
            }
        }
    }
}

/// Answers `{"part": WANT}` with `{"part": PART}`; `{"parts": [PART, ...]}` with `{"report": ..., "wants": [WANT, ...], "done":
/// 5, "of": 17}`, where `report` is null while the parts say nothing yet and `of` grows as more becomes known; neither with the
/// whole report.
///
/// # Errors
/// `{"problems": [...]}` where what is sent is not what an earlier answer gave.
pub fn asked<Q: InParts>(request: &Value, question: &Q) -> Result<String, Value> {
    let sent = |name: &str| request.get(name).filter(|value| !value.is_null());
    if let Some(want) = sent("part") {
        let want: Q::Want = read("part", want)?;
        let part = question.work(&want).ok_or_else(|| unknown("part", "a thing this question never wants"))?;
        return Ok(format!(r#"{{"part":{}}}"#, as_json(&part)?));
    }
    let Some(parts) = sent("parts") else {
        return as_json(&question.whole());
    };
    let parts: Vec<Q::Part> = read("parts", parts)?;
    let wants = question.wants(&parts);
    let report = as_json(&question.report(&parts))?;
    let (done, of) = (parts.len(), parts.len() + wants.len());
    Ok(format!(r#"{{"report":{report},"wants":{},"done":{done},"of":{of}}}"#, as_json(&wants)?))
}

fn read<T: DeserializeOwned>(name: &str, sent: &Value) -> Result<T, Value> {
    super::read::from(sent).map_err(|error| unknown(name, &error.to_string()))
}

fn unknown(name: &str, given: &str) -> Value {
    let from = if name == "part" { "wants" } else { "part" };
    refusal(&[Problem {
        field: name.to_owned(),
        given: given.to_owned(),
        allowed: format!("what an earlier answer gave as \"{from}\""),
        unit: String::new(),
        says: format!("\"{name}\" is not what an earlier answer to this question gave as \"{from}\"."),
    }])
}
