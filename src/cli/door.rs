//! Owns the way to the engine: one question through its JSON door, the answer sorted into what it can be.

use hearthload::scenario::Problem;
use serde_json::Value;

/// What a question can come back as.
pub enum Answer {
    /// The report.
    Ok(Value),
    /// The scenario is not right.
    Problems(Vec<Problem>),
    /// The computing failed.
    Fault(String),
}

/// Asks one question.
pub fn ask(request: &Value) -> Answer {
    sorted(&hearthload::ask::answer(&request.to_string()))
}

fn sorted(answer: &str) -> Answer {
    let Ok(Value::Object(mut answer)) = serde_json::from_str(answer) else {
        return Answer::Fault("The engine's answer could not be read.".to_owned());
    };
    if let Some(report) = answer.remove("ok") {
        return Answer::Ok(report);
    }
    match answer.remove("problems").map(serde_json::from_value) {
        Some(Ok(problems)) => Answer::Problems(problems),
        _ => Answer::Fault(
            answer.get("fault").and_then(Value::as_str).unwrap_or("The engine gave no answer.").to_owned(),
        ),
    }
}
