//! Owns the talk between page and worker: JSON text with a protocol version and a run number, one answer for one question.

pub mod client;
pub mod pool;
pub mod serve;

use hearthload::scenario::Problem;
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;

/// Number of a question. Answers carry it back, so that a late answer to an old question can be told from the one awaited.
pub type Run = u32;

/// The run number of the worker's first message, by which it says that it is up and which protocol it speaks.
pub const READY: Run = 0;

/// What the page sends.
#[derive(Debug, Serialize, Deserialize)]
pub struct Asked {
    /// Version of the talk.
    pub protocol: u32,
    /// Which question this is.
    pub run: Run,
    /// The engine's request, JSON text as it is: what the user typed is not read twice on its way.
    pub request: String,
}

/// What the worker sends back.
#[derive(Debug, Deserialize)]
pub struct Told<'a> {
    /// Version of the talk.
    pub protocol: u32,
    /// Which question this answers.
    pub run: Run,
    /// The engine's answer.
    #[serde(borrow)]
    pub answer: &'a RawValue,
}

/// The engine's answer, read.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Answer<T> {
    /// What was asked for.
    Ok(T),
    /// The scenario is not right.
    Problems(Vec<Problem>),
    /// The computing failed.
    Fault(String),
}

/// Writes the worker's message around an answer that is JSON text already.
#[must_use]
pub fn tell(run: Run, answer: &str) -> String {
    format!(r#"{{"protocol":{},"run":{run},"answer":{answer}}}"#, hearthload::ask::PROTOCOL)
}
