//! `loads NAME`: runs one load by itself, for those who count its instructions or time it beside others.

use hearthload_bench::clock::Clock;
use hearthload_bench::column::{Floor, MINUTES};
use hearthload_bench::questions::{NIGHTS, NIGHTS_PLAYED, answered, cadence, day, ladder, nights};
use serde_json::{Value, json};
use std::io::{Write, stdout};
use std::process::ExitCode;

/// Minutes of the column problem whose instructions are counted.
const COUNTED_MINUTES: usize = 10;
/// The column problem is run so many times, and the shortest counts.
const REPEATS: usize = 7;

fn main() -> ExitCode {
    let mut arguments = std::env::args().skip(1);
    let name = arguments.next().unwrap_or_default();
    let count: Option<u32> = arguments.next().and_then(|count| count.parse().ok());
    let told = match name.as_str() {
        "count-column" => Ok(json!({ "left_j": counted_column(Floor::default()) })),
        "count-day" => counted_day(&day()).map(|bytes| json!({ "bytes": bytes })),
        "column" => Ok(column()),
        "queue" => hearthload_bench::queue::queue(),
        "day" => timed(&day(), count.unwrap_or(9)),
        "cadence" => timed(&cadence(), count.unwrap_or(1)),
        "ladder" => timed(&ladder(), count.unwrap_or(1)),
        "nights" => timed(&nights(count.unwrap_or(NIGHTS_PLAYED)), 1),
        "day-request" => read(&day()),
        "nights-request" => read(&nights(NIGHTS)),
        _ => Err(format!("there is no load '{name}'")),
    };
    let (text, code) = match told {
        Ok(told) => (told.to_string(), ExitCode::SUCCESS),
        Err(why) => (why, ExitCode::FAILURE),
    };
    // A reader that has gone away has no use for the rest.
    let _ = writeln!(stdout(), "{text}");
    code
}

/// Kept as a function of its own: callgrind counts what happens between its start and its end.
#[inline(never)]
fn counted_column(mut floor: Floor) -> f64 {
    floor.run(COUNTED_MINUTES);
    floor.left_j
}

/// Likewise.
#[inline(never)]
fn counted_day(request: &str) -> Result<usize, String> {
    answered(request).map(|answer| answer.len())
}

/// The column problem: what it is, what we get and how long that takes.
fn column() -> Value {
    let mut best_s = f64::INFINITY;
    let mut floor = Floor::default();
    for _ in 0..REPEATS {
        floor = Floor::default();
        let began = Clock::start();
        floor.run(MINUTES);
        best_s = best_s.min(began.seconds());
    }
    json!({
        "problem": floor.problem(),
        "minutes": MINUTES,
        "seconds": best_s,
        "node_updates": floor.node_updates(MINUTES),
        "faces_k": floor.faces_k(),
        "left_j": floor.left_j,
    })
}

/// A question, so many times: the shortest and the middle, s.
fn timed(request: &str, times: u32) -> Result<Value, String> {
    let mut all_s = Vec::new();
    for _ in 0..times.max(1) {
        let began = Clock::start();
        answered(request)?;
        all_s.push(began.seconds());
    }
    all_s.sort_by(f64::total_cmp);
    Ok(json!({ "least_s": all_s[0], "median_s": all_s[all_s.len() / 2] }))
}

/// A request as it would be sent.
fn read(request: &str) -> Result<Value, String> {
    serde_json::from_str(request).map_err(|error| error.to_string())
}
