//! Four hundred scenarios broken at random: each is computed or refused in words, none makes the program fall over.

use crate::run::{demos, json, run};
use hearthload::report::CarryReport;
use rand::rngs::Xoshiro256PlusPlus;
use rand::{RngExt, SeedableRng};
use serde_json::{Map, Value, json as made};
use std::io::Write;
use std::process::{Command, Stdio};

/// How many are tried.
const TRIED: u32 = 400;
/// Every so many of them the program itself is run too, as a process.
const BY_PROCESS: u32 = 40;

/// What a slip of the hand or a hostile file may put in place of a value.
fn odd_value(rng: &mut Xoshiro256PlusPlus) -> Value {
    let odd = [
        Value::Null,
        made!(true),
        made!(""),
        made!("25:30"),
        made!("99:99"),
        made!("=1+1\u{1b}[2J"),
        made!(-1),
        made!(0),
        made!(1e-300),
        made!(1e308),
        made!(9_007_199_254_740_993_u64),
        made!([]),
        made!({}),
        made!([[[1]]]),
        made!("x".repeat(5000)),
    ];
    odd[rng.random_range(0..odd.len())].clone()
}

/// Changes one value somewhere in the tree; `path` leads there afterwards, as the field table writes paths.
fn bend(value: &mut Value, path: &mut String, rng: &mut Xoshiro256PlusPlus) {
    let goes_on = rng.random_range(0..8) > 0;
    match value {
        Value::Object(map) if goes_on && !map.is_empty() => bend_object(map, path, rng),
        Value::Array(items) if goes_on && !items.is_empty() => {
            let at = rng.random_range(0..items.len());
            match rng.random_range(0..10) {
                0 => drop(items.remove(at)),
                1 => items.push(items[at].clone()),
                _ => {
                    *path += &format!("[{at}]");
                    bend(&mut items[at], path, rng);
                }
            }
        }
        Value::Number(number) if rng.random_range(0..2) == 0 => {
            let factors = [-1.0, 0.0, 0.1, 0.5, 2.0, 10.0, 1e6];
            *value = made!(number.as_f64().unwrap_or(1.0) * factors[rng.random_range(0..factors.len())]);
        }
        _ => *value = odd_value(rng),
    }
}

fn bend_object(map: &mut Map<String, Value>, path: &mut String, rng: &mut Xoshiro256PlusPlus) {
    let keys: Vec<String> = map.keys().cloned().collect();
    let key = &keys[rng.random_range(0..keys.len())];
    let what = rng.random_range(0..12);
    let name = if what == 1 { format!("{key}x") } else { key.clone() };
    *path += &if path.is_empty() { name.clone() } else { format!(".{name}") };
    match what {
        0 => drop(map.remove(key)),
        1 => drop(map.insert(name, made!(1))),
        _ => bend(map.get_mut(key).unwrap(), path, rng),
    }
}

/// Breaks the text itself.
fn tear(text: &str, rng: &mut Xoshiro256PlusPlus) -> String {
    let letters: Vec<char> = text.chars().collect();
    let (a, b) = (rng.random_range(0..letters.len()), rng.random_range(0..letters.len()));
    let (from, to) = (a.min(b), a.max(b));
    let kept = |range: &[char]| range.iter().collect::<String>();
    match rng.random_range(0..4) {
        0 => kept(&letters[..from]),
        1 => kept(&letters[..from]) + &kept(&letters[to..]),
        2 => kept(&letters[..from]) + "\u{0}\u{feff}é{[" + &kept(&letters[from..]),
        _ => kept(&letters[..to]) + &kept(&letters[from..]),
    }
}

/// Exit status of the program itself on a scenario, and what it says on stderr.
fn process(text: &str) -> (i32, String) {
    let mut started = Command::new(env!("CARGO_BIN_EXE_hearthload"))
        .args(["carry", "-", "--json"])
        .stdin(Stdio::piped())
        .stdout(Stdio::null())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    started.stdin.take().unwrap().write_all(text.as_bytes()).unwrap();
    let ended = started.wait_with_output().unwrap();
    (ended.status.code().unwrap(), String::from_utf8(ended.stderr).unwrap())
}

/// Words that only a program that fell over says.
fn fell_over(says: &str) -> bool {
    ["panicked at", "RUST_BACKTRACE", "stack backtrace", "unwrap()", "The program failed"]
        .iter()
        .any(|word| says.contains(word))
}

/// Whether a problem tells of what was bent: it names the field, one that it lies in or that lies in it; or its sentence says that
/// field's label, where a rule ties it to the one named.
fn names(problem: &Value, bent: &str) -> bool {
    let (field, says) = (problem["field"].as_str().unwrap(), problem["says"].as_str().unwrap());
    let lies_in = |inner: &str, outer: &str| {
        inner.strip_prefix(outer).is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
    };
    let key = bent.rsplit('.').next().unwrap();
    let label = hearthload::scenario::fields().find(|row| row.key_name() == key.split('[').next().unwrap());
    let is_said =
        || label.is_some_and(|row| says.to_lowercase().contains(&row.label.to_lowercase())) || says.contains(key);
    bent.is_empty() || lies_in(field, bent) || lies_in(bent, field) || is_said()
}

#[test]
fn whatever_is_broken_it_is_computed_or_refused_in_words() {
    let demos = demos();
    let mut rng = Xoshiro256PlusPlus::seed_from_u64(20);
    let (mut computed, mut refused) = (0, 0);
    let mut unnamed = Vec::new();
    for tried in 0..TRIED {
        let demo = &demos[rng.random_range(0..demos.len())].1;
        let mut bent = Vec::new();
        let text = if tried % 5 == 0 {
            tear(demo, &mut rng)
        } else {
            let mut draft = json(demo);
            for _ in 0..rng.random_range(1..4) {
                let mut path = String::new();
                bend(&mut draft, &mut path, &mut rng);
                bent.push(path);
            }
            draft.to_string()
        };
        let ran = run(&["carry", "-", "--json"], &text);
        if tried % BY_PROCESS == 0 {
            let (code, says) = process(&text);
            assert_eq!((code, says.as_str()), (i32::from(ran.code), ran.err.as_str()), "{text}");
        }
        assert!(!fell_over(&ran.err) && !fell_over(&ran.out), "{} on {text}", ran.err);
        match ran.code {
            0 => {
                computed += 1;
                // The page reads it back into the same type: no number may have got lost as null.
                let report: Result<CarryReport, _> = serde_json::from_str(&ran.out);
                assert!(report.is_ok_and(|report| !report.verdict.says.is_empty()), "{text}");
            }
            2 => {
                refused += 1;
                let problems = json(&ran.err);
                let problems = problems["problems"].as_array().unwrap();
                assert!(
                    !problems.is_empty() && problems.iter().all(|p| p["says"].as_str().unwrap().len() > 10),
                    "{text}"
                );
                // A whole draft that became something else has no field to name.
                let is_named = bent.is_empty() || problems.iter().any(|p| bent.iter().any(|bent| names(p, bent)));
                if !is_named {
                    unnamed.push(format!("{bent:?} broken, {problems:?} told"));
                }
            }
            other => panic!("status {other}, {}, on {text}", ran.err),
        }
    }
    assert!(unnamed.is_empty(), "{}", unnamed.join("\n"));
    assert!(
        computed > 10 && refused > 200,
        "{computed} computed, {refused} refused: the slips are too hard or too soft"
    );
}
