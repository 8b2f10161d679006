//! Owns what fuzzing throws at the program and what must hold whatever comes: one function for each way in.
//!
//! A target takes any bytes and panics where a promise is broken. `guided.rs` drives them with libFuzzer, which follows the
//! branches taken; `replay.rs` throws every input that once broke something at them again, in the ordinary tests.

mod dice;
mod draft;
mod evening;
mod finite;
mod page;
mod reason;
mod seeds;
mod solve;
mod table;

pub use finite::broken_number;
pub use reason::{out_of_reason, temperatures};
pub use seeds::{dictionary, seeds};

/// A way in: its name, what is done with the bytes, and the most processor time one input may take, s.
#[derive(Clone, Copy)]
pub struct Target {
    /// Name, as `tests/fuzz/run` and the counters call it.
    pub name: &'static str,
    /// Takes the bytes; panics where a promise is broken.
    pub run: fn(&[u8]),
    /// Most processor time for one input, s.
    pub most_s: u64,
}

/// Most processor time for what only reads, s.
const READING_S: u64 = 1;
/// Most for a whole night on a coarse cut, s: 5000 covers on a floor of 3 m are a lot of cells and pieces.
const SOLVING_S: u64 = 120;

/// All of them.
pub const TARGETS: [Target; 8] = [
    Target { name: "scenario", run: draft::text, most_s: READING_S },
    Target { name: "draft", run: draft::bent, most_s: READING_S },
    Target { name: "link", run: page::link, most_s: READING_S },
    Target { name: "kept", run: page::kept, most_s: READING_S },
    Target { name: "table", run: table::table, most_s: READING_S },
    Target { name: "batch", run: draft::line, most_s: READING_S },
    Target { name: "solve", run: solve::solve, most_s: SOLVING_S },
    Target { name: "questions", run: solve::questions, most_s: SOLVING_S },
];

/// The target of a name.
#[must_use]
pub fn target(name: &str) -> Option<&'static Target> {
    TARGETS.iter().find(|target| target.name == name)
}
