//! Owns the reading of scenario files, from disk or stdin, no longer than a scenario may be.

use hearthload::scenario::Problem;
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
    match File::open(file) {
        Ok(opened) => Ok(Box::new(opened)),
        Err(error) => Err(unreadable(file, &error.to_string())),
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
