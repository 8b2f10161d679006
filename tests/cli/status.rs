//! Status and streams: 0 with the answer on stdout, 2 with the complaint on stderr, a closed pipe is no fault.

use crate::run::{json, run};
use std::io::{Read, Write};
use std::process::{Command, Stdio};

#[test]
fn help_and_version_are_answers() {
    for args in [&["--help"][..], &["--version"], &["batch", "--help"]] {
        let ran = run(args, "");
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{args:?}");
        assert!(ran.out.contains("hearthload"), "{}", ran.out);
    }
}

#[test]
fn a_command_that_does_not_exist_is_refused() {
    for args in [&["cary"][..], &[], &["batch", "--threads", "0"]] {
        let ran = run(args, "");
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{args:?}");
        assert!(!ran.err.is_empty());
    }
}

#[test]
fn the_golden_hash_is_the_kept_one() {
    let kept = std::fs::read_to_string(crate::run::repository("tests/reference/golden.txt")).unwrap();
    let answer = json(&run(&["golden", "--json"], "").out);
    for (name, hash) in kept.lines().filter_map(|line| line.split_once(' ')) {
        assert_eq!(answer["ok"][name], hash, "{name}");
    }
}

/// The program itself, as a process.
fn program() -> Command {
    Command::new(env!("CARGO_BIN_EXE_hearthload"))
}

#[test]
fn a_reader_that_goes_away_is_no_fault() {
    let mut child =
        program().arg("batch").stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::null()).spawn().unwrap();
    let mut requests = child.stdin.take().unwrap();
    let mut answers = child.stdout.take().unwrap();
    let request = b"{\"id\":1,\"question\":\"nothing\"}\n";
    requests.write_all(request).unwrap();
    let mut first = [0_u8; 1];
    answers.read_exact(&mut first).unwrap();
    drop(answers);
    // Goes on asking until the program has noticed that nobody listens.
    while requests.write_all(request).is_ok() {}
    assert_eq!(child.wait().unwrap().code(), Some(0));
}

#[test]
fn the_process_hands_on_status_and_streams() {
    let good = program().arg("golden").output().unwrap();
    assert_eq!((good.status.code(), good.stderr.len()), (Some(0), 0));
    let bad = program().arg("no-such-command").output().unwrap();
    assert_eq!((bad.status.code(), bad.stdout.len()), (Some(2), 0));
}
