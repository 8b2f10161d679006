//! A long question that somebody stops with Ctrl-C answers with what it has.
#![cfg(unix)]

use serde_json::Value;
use std::io::{BufRead as _, BufReader, Read as _};
use std::process::{Command, Stdio};

#[test]
fn nights_that_are_interrupted_answer_with_those_that_were_run() {
    let mut nights = Command::new(env!("CARGO_BIN_EXE_hearthload"))
        .args(["nights", concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo-data/small.json")])
        .args(["--nights", "100000", "--threads", "1", "--json"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut says = BufReader::new(nights.stderr.take().unwrap());
    let mut line = String::new();
    says.read_line(&mut line).unwrap();
    assert!(line.contains("of 100000 nights"), "{line}");
    assert!(Command::new("kill").args(["-INT", &nights.id().to_string()]).status().unwrap().success());
    let (mut answer, mut rest) = (String::new(), String::new());
    nights.stdout.take().unwrap().read_to_string(&mut answer).unwrap();
    says.read_to_string(&mut rest).unwrap();
    assert_eq!(nights.wait().unwrap().code(), Some(0), "{rest}");
    let report: Value = serde_json::from_str(&answer).unwrap();
    let run = report["nights"].as_u64().unwrap();
    assert!((5..100_000).contains(&run) && report["asked"] == 100_000, "{run}");
    assert!(rest.contains(&format!("Stopped after {run} of 100000 nights.")), "{rest}");
}
