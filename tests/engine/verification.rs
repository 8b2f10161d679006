//! The engine against things outside it: every check on the list holds, or says why it does not.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may stop where it likes")]

use hearthload::proof::{Check, Status, Table, checks, published_figure};
use std::collections::BTreeSet;
use std::sync::LazyLock;

/// The list is computed once for all tests.
static CHECKS: LazyLock<Vec<Check>> = LazyLock::new(checks);
/// Misses that may stand with a reason.
const MOST_EXPLAINED: usize = 3;

/// A check as one line.
fn line(check: &Check) -> String {
    format!(
        "{}: {} - expected {} +/- {}, got {} {}",
        check.id, check.what, check.expected, check.tolerance, check.got, check.unit
    )
}

#[test]
fn every_check_holds_or_says_why_not() {
    let missed: Vec<String> = CHECKS.iter().filter(|c| !c.holds && c.explained.is_none()).map(line).collect();
    assert!(missed.is_empty(), "{} of {} missed:\n{}", missed.len(), CHECKS.len(), missed.join("\n"));
    let explained: Vec<String> = CHECKS.iter().filter(|c| c.explained.is_some()).map(line).collect();
    assert!(explained.len() <= MOST_EXPLAINED, "{}", explained.join("\n"));
}

#[test]
fn no_check_can_pass_whatever_the_engine_says() {
    for check in CHECKS.iter() {
        assert!(check.tolerance.is_finite() && check.tolerance >= 0.0, "{}", line(check));
        for side in [-1.0, 1.0] {
            let beyond = check.expected + side * (1.000_001 * check.tolerance + 1e-9 * check.expected.abs().max(1.0));
            assert!(!check.with_got(beyond).holds, "{} holds at {beyond}", line(check));
        }
        assert!(!check.with_got(f64::NAN).holds);
        assert!(check.with_got(check.expected).holds);
        if check.holds {
            assert!(check.explained.is_none(), "{}", line(check));
        }
    }
}

#[test]
fn ids_are_unique_and_sources_are_named() {
    let mut seen = BTreeSet::new();
    for check in CHECKS.iter() {
        assert!(seen.insert(&check.id), "{} twice", check.id);
        assert!(!check.source.is_empty() && !check.what.is_empty() && !check.unit.is_empty(), "{}", check.id);
    }
}

#[test]
fn there_are_enough_of_them_and_enough_are_published() {
    let outside = CHECKS.iter().filter(|c| matches!(c.status, Status::Published | Status::Standard)).count();
    // A consistency says nothing from outside, and is not counted.
    let counted = CHECKS.iter().filter(|c| c.status != Status::Consistency).count();
    assert!(counted >= 120, "{counted} checks");
    assert!(outside >= 40, "{outside} published or standard");
}

/// Rows that go into their checks by way of something else.
const BY_WAY: [(&str, &str); 3] = [
    ("KAWAGOE-wood", "worked out for the two doorways of MOUTH-45x22 and MOUTH-60x25"),
    ("V18-bake", "the known bake from which another, published by itself, is foretold"),
    ("HUGGETT", "the engine's own constant, held against DIETENBERGER"),
];

#[test]
fn what_a_check_expects_of_a_published_figure_is_what_its_row_says() {
    let figures = Table::read(include_str!("../reference/validation/figures.csv"));
    let mut held = 0;
    for row in figures.rows().filter(|row| row.text("role") == "check") {
        let (id, figure) = (row.text("id"), published_figure(row.text("id")));
        if BY_WAY.iter().any(|(by_way, why)| *by_way == id && !why.is_empty()) {
            continue;
        }
        let expects = |check: &&Check| row.text("where").split(' ').any(|of| of == check.id);
        let exact = |check: &Check| (check.expected - figure.value).abs() <= 1e-12 * figure.value.abs();
        let found = CHECKS.iter().filter(expects).find(|check| exact(check));
        let check = found.unwrap_or_else(|| panic!("{id}: no check expects {}", figure.value));
        // Where the source tells how far it may be off, that is the tolerance.
        if figure.plus_minus.is_finite() {
            assert!((check.tolerance - figure.plus_minus).abs() < 1e-12, "{id}: {}", check.tolerance);
        }
        held += 1;
    }
    assert!(held >= 14, "{held}");
}

#[test]
fn every_published_figure_is_a_check_or_said_to_be_something_else() {
    let published = Table::read(include_str!("../reference/published_oven_measurements.csv"));
    let figures = Table::read(include_str!("../reference/validation/figures.csv"));
    let rows: Vec<&str> = figures.rows().map(|row| row.text("id")).collect();
    let wanted: Vec<&str> = published.rows().map(|row| row.text("id")).collect();
    assert_eq!(rows, wanted);
    for row in figures.rows() {
        let place = row.text("where");
        match row.text("role") {
            "check" => {
                for id in place.split(' ') {
                    assert!(CHECKS.iter().any(|check| check.id == id), "{}: no check {id}", row.text("id"));
                }
            }
            "input" | "left out" => assert!(place.len() > 20, "{}: why?", row.text("id")),
            other => panic!("{}: {other}", row.text("id")),
        }
    }
}
