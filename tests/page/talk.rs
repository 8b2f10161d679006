//! Page and worker understand each other, and say so when they do not.

use hearthload::ask::PROTOCOL;
use hearthload_page::worker::{Answer, Asked, Told, serve::reply};
use serde_json::Value;

fn ask(protocol: u32, request: &str) -> String {
    serde_json::to_string(&Asked { protocol, run: 7, request: request.to_owned() }).unwrap()
}

fn hear(message: &str) -> (u32, Answer<Value>) {
    let text = reply(message, &mut hearthload::ask::answer);
    let told: Told<'_> = serde_json::from_str(&text).unwrap();
    assert_eq!(told.protocol, PROTOCOL);
    (told.run, serde_json::from_str(told.answer.get()).unwrap())
}

#[test]
fn an_answer_carries_the_run_of_its_question() {
    let (run, answer) = hear(&ask(PROTOCOL, r#"{"question":"golden"}"#));
    assert_eq!(run, 7);
    // The hash itself is checked against tests/reference/golden.txt elsewhere.
    assert!(matches!(answer, Answer::Ok(Value::Object(hashes)) if hashes.contains_key("draws")));
}

#[test]
fn a_worker_of_another_version_refuses() {
    let (run, answer) = hear(&ask(PROTOCOL + 1, r#"{"question":"golden"}"#));
    assert_eq!(run, 7);
    assert!(matches!(answer, Answer::Fault(says) if says.contains("protocol")));
}

#[test]
fn noise_is_a_fault_and_no_panic() {
    assert!(matches!(hear("{").1, Answer::Fault(_)));
    assert!(matches!(hear(&ask(PROTOCOL, "{")).1, Answer::Fault(_)));
}
