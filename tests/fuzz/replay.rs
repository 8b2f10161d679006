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

#[test]
fn numbers_that_are_none_are_found_and_names_are_not() {
    for broken in ["A { x: NaN }", "[1.0, -inf]", "inf", "Some(NaN)"] {
        assert!(broken_number(broken).is_some(), "{broken}");
    }
    for fine in ["A { name: \"NaN inf\" }", "B { info: 1.0, NaNs: 2 }", "\"a\\\"NaN\"", ""] {
        assert_eq!(broken_number(fine), None, "{fine}");
    }
}
