//! A long question that somebody stops with Ctrl-C answers with what it has.
#![cfg(unix)]

use serde_json::Value;
use std::io::{BufRead as _, BufReader, Read as _};
use std::process::{Command, Stdio};

/// Starts a question about a demo, interrupts it once it says a line with `word` in it, and gives that line, its status, its answer
/// and what else it said.
fn interrupted(args: &[&str], word: &str) -> (String, Option<i32>, String, String) {
    let mut asked = Command::new(env!("CARGO_BIN_EXE_hearthload"))
        .args(args)
        .current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo-data"))
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut says = BufReader::new(asked.stderr.take().unwrap());
    let mut line = String::new();
    while !line.contains(word) {
        line.clear();
        assert!(says.read_line(&mut line).unwrap() > 0, "{args:?} says nothing of {word}");
    }
    assert!(Command::new("kill").args(["-INT", &asked.id().to_string()]).status().unwrap().success());
    let (mut answer, mut rest) = (String::new(), String::new());
    asked.stdout.take().unwrap().read_to_string(&mut answer).unwrap();
    says.read_to_string(&mut rest).unwrap();
    (line, asked.wait().unwrap().code(), answer, rest)
}

#[test]
fn nights_that_are_interrupted_answer_with_those_that_were_run() {
    let args = ["nights", "small.json", "--nights", "100000", "--threads", "1", "--json"];
    let (_, code, answer, rest) = interrupted(&args, "of 100000 nights");
    assert_eq!(code, Some(0), "{rest}");
    let report: Value = serde_json::from_str(&answer).unwrap();
    let run = report["nights"].as_u64().unwrap();
    assert!((5..100_000).contains(&run) && report["asked"] == 100_000, "{run}");
    assert!(rest.contains(&format!("Stopped after {run} of 100000 nights.")), "{rest}");
}

#[test]
fn a_plan_interrupted_among_its_rough_nights_is_the_plan() {
    let (line, code, answer, rest) =
        interrupted(&["fire", "small.json", "--rough", "1000", "--json"], "there is a plan");
    assert!(line.contains(" days tried"), "{line}");
    assert!(code == Some(0) && rest.contains("not all rough nights"), "{code:?} {rest}");
    let report: Value = serde_json::from_str(&answer).unwrap();
    assert!(report["light_at"].is_string() && report["rough"].is_null(), "{answer}");
}

#[test]
fn checks_that_are_interrupted_are_those_that_were_made() {
    let (_, code, answer, rest) = interrupted(&["proof"], "topics done");
    assert!(code == Some(1) && rest.contains("Stopped after "), "{code:?} {rest}");
    assert!(answer.contains(" checks hold."), "{answer}");
}
