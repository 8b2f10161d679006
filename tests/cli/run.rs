//! Runs the command line in this process and keeps what came out.

use std::ffi::OsString;
use std::io::Cursor;

/// What one command left behind.
pub struct Ran {
    pub code: u8,
    pub out: String,
    pub err: String,
}

/// Runs `hearthload` with arguments and something on stdin.
pub fn run(args: &[&str], stdin: &str) -> Ran {
    let all = ["hearthload"].iter().chain(args).map(OsString::from);
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let code = hearthload_cli::run(all, Box::new(Cursor::new(stdin.to_owned())), &mut out, &mut err);
    Ran { code, out: String::from_utf8(out).unwrap(), err: String::from_utf8(err).unwrap() }
}

/// JSON out of text.
pub fn json(text: &str) -> serde_json::Value {
    serde_json::from_str(text).unwrap_or_else(|error| panic!("{error} in {text}"))
}

/// A file of this repository.
pub fn repository(path: &str) -> std::path::PathBuf {
    std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").join(path)
}

/// The scenarios that come with the program: file name and text.
pub fn demos() -> Vec<(String, String)> {
    let mut demos: Vec<(String, String)> = std::fs::read_dir(repository("demo-data"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|e| e == "json") && !path.to_string_lossy().contains("schema"))
        .map(|path| (path.file_name().unwrap().to_string_lossy().into_owned(), std::fs::read_to_string(&path).unwrap()))
        .collect();
    demos.sort();
    assert!(demos.len() >= 4, "the demo scenarios were not found");
    demos
}
