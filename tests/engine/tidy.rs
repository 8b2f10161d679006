//! The rules of the house that a compiler does not know: stages look one way, files say what they own and stay short, the
//! engine stays free of the web, nothing is left lying about.

use std::fs;
use std::path::{Path, PathBuf};

/// The stages in the order of the flow; the first three lie below all others. A stage uses only what stands before it.
const STAGES: [&str; 12] = [
    "units", "sources", "numerics", "scenario", "matter", "demand", "hearth", "service", "plan", "sure", "proof",
    "report",
];

/// Edges against the flow that were agreed on, each with its reason.
const AGREED: [(&str, &str); 1] = [
    // The names a file may use are the rows of the tables; a second list of them would go stale.
    ("src/engine/scenario/keys.rs", "matter"),
];

/// Longer files that were agreed on, each with its reason.
const AGREED_LONG: [&str; 4] = [
    // One list of words; nothing happens in it.
    "src/page/src/words.rs",
    // One list of plain fields; nothing happens in it.
    "src/engine/scenario/types.rs",
    // To be split.
    "src/engine/report/build.rs",
    "tests/page/kit/mod.rs",
];

/// Longest source file, lines.
const LONGEST_FILE: usize = 420;

/// Crates that would tie the engine to a browser, a clock, a network or threads.
const NOT_IN_ENGINE: [&str; 12] = [
    "yew",
    "gloo",
    "web-sys",
    "js-sys",
    "wasm-bindgen",
    "plotters",
    "tokio",
    "rayon",
    "clap",
    "chrono",
    "reqwest",
    "getrandom",
];

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// Every file below a folder with one of these endings, in order of name.
fn files(folder: &Path, endings: &[&str]) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut folders = vec![folder.to_owned()];
    while let Some(next) = folders.pop() {
        for entry in fs::read_dir(&next).into_iter().flatten().flatten() {
            let path = entry.path();
            let name = entry.file_name().to_string_lossy().into_owned();
            if path.is_dir() && !matches!(name.as_str(), "target" | "node_modules" | "dist" | ".git") {
                folders.push(path);
            } else if endings.iter().any(|ending| name.ends_with(ending)) {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}

fn rust_files() -> Vec<PathBuf> {
    let mut all = files(&root().join("src"), &[".rs"]);
    all.extend(files(&root().join("tests"), &[".rs"]));
    assert!(all.len() > 20, "the sources were not found");
    all
}

fn shown(path: &Path) -> String {
    path.strip_prefix(root()).unwrap_or(path).display().to_string()
}

/// A line without its comment.
fn code(line: &str) -> &str {
    line.split("//").next().unwrap_or("")
}

/// Which stages a line of code reaches for by `crate::`.
fn reached(line: &str) -> impl Iterator<Item = &'static str> + '_ {
    let paths = line.match_indices("crate::").map(|(at, found)| &line[at + found.len()..]);
    let names: Vec<&str> = paths
        .flat_map(|path| {
            path.trim_start_matches('{').split(['{', ',', '}']).take(if path.starts_with('{') { 99 } else { 1 })
        })
        .map(|path| path.trim().split([':', ';', ' ', '(', ')', '<', '>', '&']).next().unwrap_or(""))
        .collect();
    STAGES.into_iter().filter(move |stage| names.contains(stage))
}

#[test]
fn a_stage_uses_only_what_stands_before_it() {
    let mut wrong = Vec::new();
    for (place, stage) in STAGES.iter().enumerate() {
        for file in files(&root().join("src/engine").join(stage), &[".rs"]) {
            let text = fs::read_to_string(&file).unwrap();
            for (number, line) in text.lines().enumerate() {
                for used in reached(code(line)) {
                    let is_later = STAGES.iter().position(|other| *other == used).is_some_and(|other| other > place);
                    if is_later && !AGREED.contains(&(shown(&file).as_str(), used)) {
                        wrong.push(format!("{}:{} uses {used}", shown(&file), number + 1));
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "backward use:\n{}", wrong.join("\n"));
}

#[test]
fn the_finder_of_backward_use_finds_it() {
    let found = |line| reached(code(line)).collect::<Vec<_>>();
    assert_eq!(found("use crate::report::Caution;"), ["report"]);
    assert_eq!(found("use crate::{matter::stone, plan};"), ["matter", "plan"]);
    assert_eq!(found("    let x = f(crate::service::night(), crate::hearth::Plan);"), ["hearth", "service"]);
    assert_eq!(found("// use crate::report::Caution;"), [""; 0]);
    assert_eq!(found("use crate::reports::X;"), [""; 0]);
}

#[test]
fn every_stage_is_known_and_stands_in_order() {
    let lib = fs::read_to_string(root().join("src/engine/lib.rs")).unwrap();
    let declared: Vec<&str> = lib
        .lines()
        .filter_map(|line| line.strip_prefix("pub mod ")?.strip_suffix(';'))
        .filter(|name| !matches!(*name, "golden" | "ask"))
        .collect();
    assert_eq!(declared, STAGES);
}

#[test]
fn every_file_says_what_it_owns_and_stays_short() {
    let mut wrong = Vec::new();
    for file in rust_files() {
        let text = fs::read_to_string(&file).unwrap();
        let first = text.lines().next().unwrap_or("");
        if !first.starts_with("//! ") {
            wrong.push(format!("{} does not open with a sentence on what it owns", shown(&file)));
        }
        let lines = text.lines().count();
        if lines >= LONGEST_FILE && !AGREED_LONG.contains(&shown(&file).as_str()) {
            wrong.push(format!("{} has {lines} lines", shown(&file)));
        }
        let name = file.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        if ["util", "utils", "helper", "helpers", "misc", "common"].contains(&name.as_str()) {
            wrong.push(format!("{} has a name that says nothing", shown(&file)));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn nothing_is_unsafe_ignored_or_left_unfinished() {
    let mut wrong = Vec::new();
    // Split in two, so that this file does not find itself.
    let forbidden = [
        ["un", "safe "],
        ["#[ign", "ore"],
        ["to", "do!("],
        ["unimple", "mented!("],
        ["d", "bg!("],
        ["std::time::Inst", "ant"],
        ["System", "Time"],
    ]
    .map(|halves| halves.concat());
    for file in rust_files() {
        // The command line and the page may look at the clock; the engine and its tests may not.
        let is_engine = shown(&file).contains("engine");
        let text = fs::read_to_string(&file).unwrap();
        for word in &forbidden {
            let is_clock = word.contains("Inst") || word.contains("Time");
            if (is_engine || !is_clock) && text.lines().any(|line| code(line).contains(word.as_str())) {
                wrong.push(format!("{}: {word}", shown(&file)));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_engine_knows_nothing_of_page_clock_or_threads() {
    let manifest = fs::read_to_string(root().join("Cargo.toml")).unwrap();
    let from = manifest.find("[dependencies]").unwrap();
    let dependencies = manifest[from..].split("\n[").next().unwrap_or("");
    let names: Vec<&str> =
        dependencies.lines().filter_map(|line| line.split(['=', '.']).next()).map(str::trim).collect();
    assert!(names.contains(&"libm"), "the engine's dependencies were not found");
    for name in NOT_IN_ENGINE {
        assert!(!names.iter().any(|dependency| dependency.starts_with(name)), "{name} in the engine");
    }
    for file in files(&root().join("src/engine"), &[".rs"]) {
        let text = fs::read_to_string(&file).unwrap();
        for word in ["std::fs", "std::thread", "std::net", "std::env", "println!", "HashMap", "HashSet"] {
            assert!(!text.lines().any(|line| code(line).contains(word)), "{}: {word}", shown(&file));
        }
    }
}

#[test]
fn nothing_tells_of_the_place_it_was_made_in() {
    // Split in two, so that this file does not find itself.
    let forbidden = [["/wo", "rk/"], ["shared/", "design"], ["lang", "uage model"], ["as an ", "AI"], ["chat", "bot"]]
        .map(|halves| halves.concat());
    let mut all = Vec::new();
    for folder in ["src", "tests", "www", "demo-data", ".ci", ".cargo"] {
        all.extend(files(
            &root().join(folder),
            &[".rs", ".md", ".toml", ".css", ".js", ".mjs", ".json", ".html", ".py", ".csv"],
        ));
    }
    for name in ["README.md", "DEVELOPERS.md", "Cargo.toml", "Trunk.toml", "deny.toml", "clippy.toml"] {
        all.push(root().join(name));
    }
    let mut wrong = Vec::new();
    for file in all {
        let Ok(text) = fs::read_to_string(&file) else { continue };
        for word in &forbidden {
            if text.contains(word.as_str()) {
                wrong.push(format!("{}: {word}", shown(&file)));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
