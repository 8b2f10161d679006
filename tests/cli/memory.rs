//! Memory: no question about any oven takes more than a quarter of a gigabyte, and what is handed in is never hoarded.
#![cfg(target_os = "linux")]

use crate::run::json;
use serde_json::{Value, json as made};
use std::io::Write;
use std::process::{Command, Stdio};

/// Most a process may have, KiB: all of it, program and stacks included.
const MOST_KIB: u32 = 256 << 10;

/// Runs the program with so much memory and no more: asking for more ends it with a signal.
fn held_to_it(args: &str, stdin: &[u8]) -> (Option<i32>, String, String) {
    let program = env!("CARGO_BIN_EXE_hearthload");
    let mut child = Command::new("sh")
        .args(["-c", &format!("ulimit -v {MOST_KIB} && MALLOC_ARENA_MAX=1 exec '{program}' {args}")])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut input = child.stdin.take().unwrap();
    let stdin = stdin.to_owned();
    // A program that has read enough closes the pipe.
    let feeding = std::thread::spawn(move || drop(input.write_all(&stdin)));
    let done = child.wait_with_output().unwrap();
    feeding.join().unwrap();
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    (done.status.code(), text(done.stdout), text(done.stderr))
}

/// The largest evening there is: three metres, 5000 covers, 80 dishes, from one midnight to the next.
fn largest() -> Value {
    let dish = |number: u32| {
        made!({ "name": format!("Dish {number}"), "ingredients": [{ "food": "pizza_dough", "grams": 180 }],
            "footprint": { "diameter_cm": 20 }, "known_bake": { "minutes": 3, "floor_c": 320 }, "per_100_covers": 1.25 })
    };
    made!({ "hearthload": 1, "oven": { "width_cm": 300 }, "start": { "floor_c": 120 },
        "service": { "start": "12:00", "end": "24:00", "covers": vec![104; 48] },
        "menu": (0..80).map(dish).collect::<Vec<_>>() })
}

#[test]
fn the_largest_evening_with_its_map_stays_within_a_quarter_of_a_gigabyte() {
    let (code, out, err) = held_to_it("carry - --json --map", largest().to_string().as_bytes());
    assert_eq!((code, err.as_str()), (Some(0), ""));
    assert!(json(&out)["map"]["frames"].as_array().is_some_and(|frames| frames.len() > 100));
}

#[test]
fn many_sizes_of_footprint_stay_within_it_too() {
    for (width_cm, count) in [(120, 24), (300, 5)] {
        let mut draft = largest();
        draft["oven"]["width_cm"] = made!(width_cm);
        draft["service"] = made!({ "start": "18:00", "end": "18:30", "covers": [20, 20] });
        let mut menu = draft["menu"].as_array().unwrap()[..count].to_vec();
        for (number, dish) in menu.iter_mut().enumerate() {
            dish["footprint"]["diameter_cm"] = made!(17.0 + 8.0 * number as f64 / count as f64);
        }
        draft["menu"] = made!(menu);
        let (code, _, err) = held_to_it("carry - --json", draft.to_string().as_bytes());
        assert_eq!((code, err.as_str()), (Some(0), ""), "{count} sizes on {width_cm} cm");
    }
}

#[test]
fn what_is_far_too_large_is_refused_without_being_read_whole() {
    let zeros = vec![b' '; 300 << 20];
    let (code, _, err) = held_to_it("carry - --json", &zeros);
    assert_eq!(code, Some(2));
    assert!(err.contains("a scenario has at most"), "{err}");
    let (code, out, _) =
        held_to_it("batch - --threads 1", &[&zeros[..], b"\n{\"id\":1,\"question\":\"none\"}\n"].concat());
    assert_eq!(code, Some(0));
    assert_eq!(json(out.lines().last().unwrap())["id"], 1);
}

#[test]
fn ten_thousand_ingredients_and_deep_nesting_are_refused_in_words() {
    let mut many = largest();
    many["menu"][0]["ingredients"] = made!(vec![made!({ "food": "onions", "grams": 1 }); 10_000]);
    let deep = format!("{{\"hearthload\":1,\"oven\":{}1{}}}", "[".repeat(400_000), "]".repeat(400_000));
    for text in [many.to_string(), deep] {
        let (code, _, err) = held_to_it("carry - --json", text.as_bytes());
        assert_eq!(code, Some(2), "{}", &err[..err.len().min(500)]);
        assert!(json(&err)["problems"][0]["says"].as_str().is_some_and(|says| says.len() > 10 && says.len() < 1000));
    }
}
