//! Owns the questions asked in one request and answered in one piece.

use super::{Question, typed};
use serde::de::DeserializeOwned;
use serde_json::{Value, json};
use std::rc::Rc;

/// A request about the scenario, with its other fields.
pub(super) fn request(question: &str, doc: &Value, with: &Value) -> Rc<str> {
    let mut request = json!({ "question": question, "scenario": doc });
    if let (Some(request), Some(with)) = (request.as_object_mut(), with.as_object()) {
        request.extend(with.iter().map(|(name, value)| (name.clone(), value.clone())));
    }
    request.to_string().into()
}

/// The answer to a question's only part.
pub(super) fn read<T: DeserializeOwned>(question: &Question) -> Result<T, String> {
    let answer = question.parts.first().and_then(|part| part.answer.as_ref());
    answer.map_or_else(|| Err(String::new()), |answer| typed(answer))
}
