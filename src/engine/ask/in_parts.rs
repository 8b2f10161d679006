//! Owns questions that take long: cut into parts that are worked out anywhere and in any order, and added up at any time.
//!
//! Whoever asks goes round: the parts there are so far go in, an answer from them comes out with what is still wanted; one thing
//! that is wanted goes in, a part comes out. Both are plain JSON nobody else need understand. The whole question in one go is the
//! same round, so an answer in parts is the same answer.

use serde::{Serialize, de::DeserializeOwned};
use serde_json::Value;

use super::{as_json, broken, refusal};
use crate::hearth::fault::Fault;
use crate::scenario::Problem;

/// Why there is no part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoPart {
    /// This question never wants such a thing.
    Unwanted,
    /// The computing did not get it right.
    Fault(Fault),
}

impl NoPart {
    /// A part, unless a fault was noted while it was worked out.
    ///
    /// # Errors
    /// The fault.
    pub fn unless<P>(noted: Option<Fault>, part: P) -> Result<P, Self> {
        noted.map_or(Ok(part), |fault| Err(Self::Fault(fault)))
    }
}

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

    /// Works one part out.
    ///
    /// # Errors
    /// Why there is none.
    fn work(&self, want: &Self::Want) -> Result<Self::Part, NoPart>;

    /// What went wrong while parts were added up.
    fn fault(&self) -> Option<Fault> {
        None
    }

    /// The answer from the parts there are, in whatever order they came; `None` where they say nothing yet.
    fn report(&self, parts: &[Self::Part]) -> Option<Self::Report>;

    /// The answer from the parts there are, unless adding them up went wrong.
    ///
    /// # Errors
    /// The fault.
    fn added_up(&self, parts: &[Self::Part]) -> Result<Option<Self::Report>, Fault> {
        let report = self.report(parts);
        self.fault().map_or(Ok(report), Err)
    }

    /// The whole answer.
    ///
    /// # Errors
    /// The fault, where the computing of any part went wrong.
    fn whole(&self) -> Result<Option<Self::Report>, Fault> {
        let mut parts = Vec::new();
        loop {
            let wants = self.wants(&parts);
            let before = parts.len();
            for want in &wants {
                match self.work(want) {
                    Ok(part) => parts.push(part),
                    Err(NoPart::Fault(fault)) => return Err(fault),
                    Err(NoPart::Unwanted) => {}
                }
            }
            if parts.len() == before {
                return self.added_up(&parts);
            }
        }
    }
}

/// Answers `{"part": WANT}` with `{"part": PART}`; `{"parts": [PART, ...]}` with `{"report": ..., "wants": [WANT, ...], "done":
/// 5, "of": 17}`, where `report` is null while the parts say nothing yet and `of` grows as more becomes known; neither with the
/// whole report.
///
/// # Errors
/// `{"problems": [...]}` where what is sent is not what an earlier answer gave; `{"fault": "..."}` where the computing went wrong.
pub fn asked<Q: InParts>(request: &Value, question: &Q) -> Result<String, Value> {
    let sent = |name: &str| request.get(name).filter(|value| !value.is_null());
    if let Some(want) = sent("part") {
        let want: Q::Want = read("part", want)?;
        let part = question.work(&want).map_err(|why| match why {
            NoPart::Unwanted => unknown("part", "a thing this question never wants"),
            NoPart::Fault(fault) => broken(&fault),
        })?;
        return Ok(format!(r#"{{"part":{}}}"#, as_json(&part)?));
    }
    let Some(parts) = sent("parts") else {
        return as_json(&question.whole().map_err(|fault| broken(&fault))?);
    };
    let parts: Vec<Q::Part> = read("parts", parts)?;
    let wants = question.wants(&parts);
    let report = as_json(&question.added_up(&parts).map_err(|fault| broken(&fault))?)?;
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
