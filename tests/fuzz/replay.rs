//! Everything that once broke a target is thrown at it again, and the seeds with it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may stop where it likes")]

use hearthload_fuzz::{TARGETS, broken_number, dictionary, seeds};
use std::{fs, path::Path};

const HERE: &str = env!("CARGO_MANIFEST_DIR");

#[test]
fn what_once_broke_something_breaks_nothing_any_more() {
    for target in TARGETS {
        for entry in fs::read_dir(Path::new(HERE).join("found").join(target.name)).into_iter().flatten() {
            (target.run)(&fs::read(entry.unwrap().path()).unwrap());
        }
    }
}

#[test]
fn every_seed_holds_too() {
    for target in TARGETS {
        let all = seeds(target.name);
        assert!(!all.is_empty(), "{}", target.name);
        all.iter().for_each(|seed| (target.run)(seed));
    }
    assert!(dictionary().lines().all(|word| word.len() > 2 && word.starts_with('"') && word.ends_with('"')));
}

/// Fewest inputs in all, and of each target: what only reads is tried in great numbers, a whole night takes its time.
const IN_ALL: u64 = 10_000_000;
const SHARES: [(&str, u64); 8] = [
    ("scenario", 500_000),
    ("draft", 50_000),
    ("link", 500_000),
    ("kept", 1_000_000),
    ("table", 1_000_000),
    ("batch", 1_000_000),
    ("solve", 2_000),
    ("questions", 200),
];

#[test]
fn what_was_tried_adds_up_to_ten_million_and_every_target_had_its_share() {
    let text = fs::read_to_string(Path::new(HERE).join("counters.csv")).unwrap();
    let mut lines = text.lines().filter(|line| !line.starts_with('#'));
    assert_eq!(lines.next(), Some("target,inputs,seconds,branches,seed,date,commit"));
    let mut tried = std::collections::BTreeMap::new();
    for line in lines {
        let [target, inputs, _, branches, _, date, commit] = line.split(',').collect::<Vec<_>>()[..] else {
            panic!("{line}")
        };
        assert!(branches.parse::<u64>().unwrap() > 100 && date.len() == 10 && commit.len() >= 7, "{line}");
        *tried.entry(target).or_insert(0) += inputs.parse::<u64>().unwrap();
    }
    assert!(tried.values().sum::<u64>() >= IN_ALL, "{tried:?}");
    for target in TARGETS {
        let (_, least) = SHARES.iter().find(|(name, _)| *name == target.name).expect("a share for every target");
        assert!(tried.get(target.name).copied().unwrap_or(0) >= *least, "{}: {tried:?}", target.name);
    }
}

#[test]
fn numbers_that_are_none_are_found_and_names_are_not() {
    for broken in ["A { x: NaN }", "[1.0, -inf]", "inf", "Some(NaN)"] {
        assert!(broken_number(broken).is_some(), "{broken}");
    }
    for fine in ["A { name: \"NaN inf\" }", "B { info: 1.0, NaNs: 2 }", "\"a\\\"NaN\"", ""] {
        assert_eq!(broken_number(fine), None, "{fine}");
    }
}
