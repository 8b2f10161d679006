//! Owns the questions that cannot wait, edit after edit: an edit seldom touches the oven, and what was worked out for it stands.

use serde_json::Value;

use super::{as_json, no_question, refusal, sound, wants, with_scenario};
use crate::hearth::build::DEFAULT_ACCURACY;
use crate::report::build::carry;
use crate::service::night::Ready;

/// Those that cannot wait.
const QUESTIONS: [&str; 2] = ["carry", "golden"];
/// Kitchens with more tiles and places than this are not kept, for memory: the largest take some 20 MB. Our choice.
const KEPT_PARTS: usize = 800;

/// Answers the two questions that cannot wait: the live verdict and the golden hashes. The page's own worker knows no others;
/// all that searches over many days is worked out by the program that is fetched when it is first asked.
#[derive(Debug, Default)]
pub struct Live {
    /// The kitchen of the last verdict.
    last: Option<Ready>,
}

impl Live {
    /// Answers one question, as [`answer`](super::answer) would. Never panics on what a user can cause.
    #[must_use]
    pub fn answer(&mut self, request: &str) -> String {
        let request: Value = serde_json::from_str(request).unwrap_or_default();
        let answered = match request.get("question").and_then(Value::as_str) {
            Some("golden") => as_json(&crate::golden::all()),
            Some("carry") => with_scenario(&request, |resolved| {
                let scenario = &resolved.scenario;
                let fresh = || Ready::new(scenario, DEFAULT_ACCURACY);
                let ready = self.last.take().map_or_else(fresh, |last| last.after(scenario));
                let report = carry(resolved, &ready, wants(&request, "map"));
                // Gone before the answer is written, where it is large.
                let parts = ready.build.plan.cells.len() + ready.build.places.all.len();
                self.last = Some(ready).filter(|_| parts <= KEPT_PARTS);
                sound(&report)
            }),
            _ => Err(refusal(&[no_question(&request, &QUESTIONS)])),
        };
        answered.map_or_else(|refusal| refusal.to_string(), |ok| format!(r#"{{"ok":{ok}}}"#))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ask::answer;
    use serde_json::json;

    #[test]
    fn whatever_is_edited_the_answer_is_that_of_a_kitchen_set_up_anew() {
        let mut draft: Value = serde_json::from_str(include_str!("../../../demo-data/small.json")).expect("a demo");
        draft["service"] = json!({ "start": "08:00", "end": "08:30", "covers": [2, 2], "hands": 1 });
        let edits = [
            ("/service/covers", json!([3, 2])),
            ("/wood/meter_percent_dry", json!(22)),
            ("/service/peel_gap_cm", json!(4)),
            ("/oven/width_cm", json!(95)),
            ("/oven/room_c", json!(31)),
            ("/menu/0/footprint/diameter_cm", json!(26)),
            ("/menu/1/known_bake/minutes", json!(7)),
        ];
        let mut live = Live::default();
        let mut answers = Vec::new();
        for (at, to) in [("", Value::Null)].iter().chain(&edits) {
            if let Some((parent, name)) = at.rsplit_once('/') {
                draft.pointer_mut(parent).expect(parent)[name] = to.clone();
            }
            let request = json!({ "question": "carry", "scenario": draft, "map": true }).to_string();
            let said = live.answer(&request);
            assert!(said.starts_with(r#"{"ok":"#), "{at}: {said}");
            assert_eq!(said, answer(&request), "{at}");
            assert!(!answers.contains(&said), "{at} changes nothing");
            answers.push(said);
        }
    }
}
