//! Owns what a command leaves behind: a status, the answer, the complaint; and how both reach their streams.

use crate::{BAD_SCENARIO, COMPUTED, FAULT};
use hearthload::scenario::Problem;
use serde::Serialize;
use serde_json::{Value, json};
use std::fmt::Write as _;
use std::io::{ErrorKind, Write};

/// What a command leaves behind.
pub struct Outcome {
    /// Exit status.
    pub code: u8,
    /// For stdout.
    pub out: String,
    /// For stderr.
    pub err: String,
}

impl Outcome {
    /// Computed: text or JSON for stdout.
    pub fn computed(out: String) -> Self {
        Self { code: COMPUTED, out, err: String::new() }
    }

    /// Computed, as JSON for reading by eye and program alike.
    pub fn json(value: &Value) -> Self {
        Self::computed(pretty(value))
    }

    /// Computed: a report as JSON, its fields in the order of its type.
    pub fn report(report: &impl Serialize) -> Self {
        match serde_json::to_string_pretty(report) {
            Ok(text) => Self::computed(text + "\n"),
            Err(error) => Self::fault(&format!("The report could not be written: {error}."), true),
        }
    }

    /// The scenario is not right.
    pub fn problems(problems: &[Problem], as_json: bool) -> Self {
        let err = if as_json { pretty(&json!({ "problems": problems })) } else { problem_lines(problems) };
        Self { code: BAD_SCENARIO, out: String::new(), err }
    }

    /// The program is at fault.
    pub fn fault(says: &str, as_json: bool) -> Self {
        let err = if as_json { pretty(&json!({ "fault": says })) } else { format!("{says}\n") };
        Self { code: FAULT, out: String::new(), err }
    }
}

fn pretty(value: &Value) -> String {
    format!("{value:#}\n")
}

/// One line for each problem: the field, then the sentence.
fn problem_lines(problems: &[Problem]) -> String {
    let count = problems.len();
    let head = if count == 1 { "One thing to mend:".to_owned() } else { format!("{count} things to mend:") };
    let mut lines = format!("{head}\n");
    for problem in problems {
        // Writing to a string cannot fail.
        let _ = match problem.field.as_str() {
            "" => writeln!(lines, "  {}", harmless(&problem.says)),
            field => writeln!(lines, "  {}: {}", harmless(field), harmless(&problem.says)),
        };
    }
    lines
}

/// What was typed may hold characters that steer a terminal: they become spaces.
fn harmless(text: &str) -> String {
    text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect()
}

/// Writes to a stream at once. A reader that went away is no fault.
///
/// # Errors
/// What the system says of a full disk and the like.
pub fn written(stream: &mut dyn Write, text: &str) -> std::io::Result<()> {
    match stream.write_all(text.as_bytes()).and_then(|()| stream.flush()) {
        Err(error) if error.kind() == ErrorKind::BrokenPipe => Ok(()),
        done => done,
    }
}

/// The same for what is said beside the answer. Says whether all was well.
pub fn print(stream: &mut dyn Write, text: &str) -> bool {
    written(stream, text).is_ok()
}
