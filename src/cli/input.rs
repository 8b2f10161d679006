//! Owns the reading of scenario files, from disk or stdin, no longer than a scenario may be.

use hearthload::scenario::{LARGEST_BYTES, Problem};
use std::fs::File;
use std::io::Read;
use std::path::Path;

/// Opens a file, or stdin where it is called "-".
///
/// # Errors
/// A problem in words when it cannot be opened.
pub fn open(file: &Path, stdin: Box<dyn Read + Send>) -> Result<Box<dyn Read + Send>, Vec<Problem>> {
    if file.as_os_str() == "-" {
        return Ok(stdin);
    }
    let opened = File::open(file).map_err(|error| unreadable(file, &error.to_string()))?;
    // A folder opens like a file and is refused with the first read, when a batch has begun.
    if opened.metadata().is_ok_and(|of| of.is_dir()) {
        return Err(unreadable(file, "it is a folder"));
    }
    Ok(Box::new(opened))
}

/// Reads a scenario's text. What is longer than any scenario is cut just past the limit, which the engine then names.
///
/// # Errors
/// A problem in words when it cannot be read or is not text.
pub fn scenario_text(file: &Path, stdin: Box<dyn Read + Send>) -> Result<String, Vec<Problem>> {
    let mut bytes = Vec::new();
    open(file, stdin)?
        .take(LARGEST_BYTES as u64 + 1)
        .read_to_end(&mut bytes)
        .map_err(|error| unreadable(file, &error.to_string()))?;
    if bytes.len() > LARGEST_BYTES {
        // A cut may fall inside a letter; only the length matters from here on.
        return Ok(String::from_utf8_lossy(&bytes).into_owned());
    }
    String::from_utf8(bytes).map_err(|_| unreadable(file, "it is not text in UTF-8"))
}

/// What is wrong with a file of earlier answers.
#[must_use]
pub fn unread_answers(file: &Path, why: &str) -> Problem {
    let name = file.display().to_string();
    Problem {
        field: "--resume".to_owned(),
        says: format!("{name} cannot be read: {why}. Leave --resume out where there are no earlier answers yet."),
        given: name,
        allowed: "a file of this command's earlier answers".to_owned(),
        unit: String::new(),
    }
}

fn unreadable(file: &Path, why: &str) -> Vec<Problem> {
    let name = file.display().to_string();
    vec![Problem {
        field: String::new(),
        says: format!("{name} cannot be read: {why}."),
        given: name,
        allowed: "a scenario file, or - for stdin".to_owned(),
        unit: String::new(),
    }]
}
