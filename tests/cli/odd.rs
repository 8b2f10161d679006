//! Everything a hostile hand may give the terminal beside a right scenario: every option that takes a value, odd files, odd streams,
//! odd text. Each is computed or refused in words, with status 0 or 2.

use crate::run::{Ran, demos, json, run};
use serde_json::{Value, json as made};
use std::io::Write;

/// The least evening: one quarter, one cover, a small oven.
fn least() -> Value {
    made!({ "hearthload": 1, "oven": { "width_cm": 60 }, "service": { "start": "18:00", "end": "18:15", "covers": [1] },
        "menu": [{ "name": "Leek round", "ingredients": [{ "food": "pizza_dough", "grams": 100 }],
            "footprint": { "diameter_cm": 15 }, "known_bake": { "minutes": 3.3, "floor_c": 330 } }],
        "planning": { "floor_smallest_cm": 60, "floor_largest_cm": 60, "floor_step_cm": 10 } })
}

/// Values no option should take, whatever it is.
const NONE: [&str; 10] = ["NaN", "inf", "-inf", "1e308", "-1e308", "", " ", "many", "0x10", "99999999999999999999999"];

/// Each option that takes a value: what stands before it, what it takes beside the odd ones, what is refused besides.
const VALUES: [(&str, &str, &[&str], &[&str]); 15] = [
    ("carry", "--csv", &["dishes"], &["0", "-1"]),
    ("fire --at 18:05", "--floor", &["285", "2e1"], &["-0", "0", "19.999", "700.001", "-285", "285 F", "285C"]),
    ("fire --floor 285", "--at", &["18:05"], &["0", "-1", "25:00", "18:99", "6pm"]),
    ("fire --at 18:05 --floor 285", "--fed", &["18:04", "18:01,18:03"], &["-1", "25:00", "18:04,"]),
    ("fire --at 18:05 --floor 285", "--skipped", &["18:04", "18:01,18:03"], &["-1", "18:10", "18:04,"]),
    ("fire", "--rough", &["0"], &["-1", "1001", "1.5"]),
    ("fire --first-firing", "--in-hours", &["6"], &["-1", "0", "-0", "0.999", "1000.001", "6 h"]),
    ("floors", "--sizes", &["60"], &["0", "-0", "49.999", "300.001", "-60", "60,", "24 in", "60;70"]),
    ("floors --sizes 60", "--threads", &["1"], &["0", "-1", "1025", "1.5"]),
    ("nights", "--nights", &["1"], &["0", "-1", "100001", "1.5"]),
    ("nights --nights 1", "--seed", &["0", "18446744073709551615"], &["-1", "18446744073709551616", "1.5"]),
    ("nights --nights 1", "--at-most", &["18446744073709551615"], &["0", "-1", "1.5"]),
    ("nights --nights 1", "--threads", &["1"], &["0", "-1", "1025"]),
    ("batch", "--threads", &["1", "1024"], &["0", "-1", "1025"]),
    ("batch", "--resume", &["/dev/null"], &[]),
];

/// Runs a command on the least evening; a batch on a request about it.
fn tried(before: &str, option: &str, value: &str) -> Ran {
    let mut words = before.split(' ');
    let command = words.next().unwrap();
    let set = format!("{option}={value}");
    let args: Vec<&str> = [command, "-"].into_iter().chain(words).chain([set.as_str()]).collect();
    let stdin = if command == "batch" { "{\"id\":1,\"question\":\"none\"}".to_owned() } else { least().to_string() };
    run(&args, &stdin)
}

#[test]
fn every_option_takes_what_it_should_and_refuses_the_rest_in_words() {
    for (before, option, takes, refuses) in VALUES {
        for value in takes {
            let ran = tried(before, option, value);
            assert_eq!(ran.code, 0, "{before} {option} {value}: {}", ran.err);
        }
        if option == "--resume" {
            continue;
        }
        for value in NONE.iter().chain(refuses) {
            let ran = tried(before, option, value);
            assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{before} {option} {value:?}: {}", ran.err);
            assert!(ran.err.len() > 20 && !ran.err.contains("report"), "{before} {option} {value}: {}", ran.err);
        }
    }
}

#[test]
fn no_option_is_left_out_above() {
    for command in ["carry", "fire", "floors", "nights", "schema", "fields", "proof", "golden", "batch"] {
        let help = run(&[command, "--help"], "").out;
        let with_value = help.lines().filter_map(|line| line.trim().split_once(" <")).map(|(name, _)| name);
        for option in with_value.filter(|name| name.starts_with("--")) {
            let is_tried = VALUES.iter().any(|(before, tried, ..)| before.starts_with(command) && *tried == option);
            assert!(is_tried, "{command} {option}");
        }
    }
}

#[test]
fn a_floor_read_in_fahrenheit_is_asked_about() {
    let ran = tried("fire --at 18:05", "--floor", "752");
    assert!(ran.code == 2 && ran.err.contains("Did you mean degF? 752 degF is 400 degC."), "{}", ran.err);
}

/// What an editor, a mail program or an enemy makes of a right file.
#[test]
fn files_as_other_programs_write_them() {
    let right = &demos()[0].1;
    let answer = run(&["carry", "-", "--json"], right).out;
    let crlf = right.replace('\n', "\r\n");
    for same in [crlf.clone(), format!("\u{feff}{right}"), format!("\u{feff}{crlf}"), format!("\n\n\t {right}\r\n\r\n")]
    {
        assert_eq!(run(&["carry", "-", "--json"], &same).out, answer);
    }
    let doubled = right.replacen("\"oven\": {", "\"oven\": {\"width_cm\": 90, ", 1);
    for (broken, says) in [
        (doubled.as_str(), "stands twice"),
        ("", "not JSON"),
        ("\u{feff}", "not JSON"),
        ("\u{0}", "not JSON"),
        ("{\"hearthload\": 1e999}", "larger than any computer holds"),
        ("{\"hearthload\": 2}", "written for format 2"),
        ("{\"hearthload\": 1.5}", "written for format 1.5"),
        ("[]", "begins with a brace"),
    ] {
        let ran = run(&["carry", "-"], broken);
        assert!(ran.code == 2 && ran.err.contains(says), "{broken:?}: {}", ran.err);
    }
    // An older or a negative version was never written by this program.
    for version in ["0", "-1", "-0.0", "5e-324", "\"1\"", "true", "[1]"] {
        let ran = run(&["carry", "-"], &right.replacen("\"hearthload\": 1", &format!("\"hearthload\": {version}"), 1));
        assert_eq!(ran.code, 2, "{version}: {}", ran.err);
    }
}

#[test]
fn numbers_as_nobody_writes_them_are_the_numbers_they_are() {
    let right = least().to_string();
    let answer = run(&["carry", "-", "--json"], &right).out;
    for same in
        ["60.0", "6e1", "0.6E+2", "600000000000000000000e-19", "60.00000000000000000000000000000000000000000001"]
    {
        let text = right.replacen("\"width_cm\":60", &format!("\"width_cm\":{same}"), 1);
        assert_eq!(run(&["carry", "-", "--json"], &text).out, answer, "{same}");
    }
    for broken in ["060", "+60", ".6e2", "60.", "6_0", "NaN", "1e-999999999999", "-0", "-0.0", "1e308"] {
        let text = right.replacen("\"width_cm\":60", &format!("\"width_cm\":{broken}"), 1);
        assert_eq!(run(&["carry", "-", "--json"], &text).code, 2, "{broken}");
    }
}

#[test]
fn names_in_every_script_are_kept_and_what_cannot_be_seen_steers_no_terminal() {
    let named = |name: &str| {
        let mut draft = least();
        draft["name"] = made!(name);
        draft["menu"][0]["name"] = made!(name);
        draft.to_string()
    };
    for name in
        ["Pâte à l’ancienne", "炉の夜", "Ύδωρ", "פרח", "🔥🥖", "a\u{308}", "=1+1", "'; DROP", "<b>", "%s%n", "\\u0000"]
    {
        let ran = run(&["carry", "-", "--json"], &named(name));
        assert_eq!(ran.code, 0, "{name}: {}", ran.err);
        assert_eq!(json(&ran.out)["dishes"][0]["name"], name);
        let table = run(&["carry", "-", "--csv", "dishes"], &named(name)).out;
        assert!(!table.lines().skip(1).any(|line| line.starts_with(['=', '+', '@'])), "{table}");
    }
    for name in ["\u{1b}[2J", "a\u{7}", "\u{202e}gnp.exe", "\u{0}", "\u{9b}31m", "\u{feff}x", "a\u{2028}b"] {
        for json in [&["carry", "-"][..], &["carry", "-", "--json"]] {
            let ran = run(json, &named(name));
            assert_eq!(ran.code, 2, "{name:?}");
            let steers = |c: char| c.is_control() && c != '\n' || "\u{202e}\u{feff}\u{2028}".contains(c);
            assert!(!ran.err.chars().any(steers), "{name:?}: {:?}", ran.err);
        }
    }
}

/// A stream that takes so many bytes and then says what a system says.
struct Breaks(usize, std::io::ErrorKind);

impl Write for Breaks {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        if self.0 == 0 {
            return Err(self.1.into());
        }
        let taken = bytes.len().min(self.0);
        self.0 -= taken;
        Ok(taken)
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

#[test]
fn a_full_disk_is_told_and_a_closed_pipe_is_none() {
    let wrote = |command: &[&str], kind: std::io::ErrorKind, room: usize| {
        let args = ["hearthload"].iter().chain(command).map(std::ffi::OsString::from);
        let mut err = Vec::new();
        let stdin = Box::new(std::io::Cursor::new(least().to_string()));
        let code = hearthload_cli::run(args, stdin, &mut Breaks(room, kind), &mut err);
        (code, String::from_utf8(err).unwrap())
    };
    for command in [&["carry", "-", "--json"][..], &["fields"], &["golden"]] {
        for room in [0, 7] {
            assert_eq!(wrote(command, std::io::ErrorKind::BrokenPipe, room), (0, String::new()));
            let (code, says) = wrote(command, std::io::ErrorKind::StorageFull, room);
            assert!(code == 1 && says.contains("cannot be written"), "{says}");
        }
    }
}

#[test]
fn folders_links_and_missing_files_are_told() {
    let folder = std::env::temp_dir().join(format!("hearthload-odd-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let path = |name: &str| folder.join(name).to_string_lossy().into_owned();
    std::fs::write(path("right.json"), least().to_string()).unwrap();
    std::fs::write(path("utf16.json"), [0xff, 0xfe, b'{', 0]).unwrap();
    #[cfg(unix)]
    {
        std::os::unix::fs::symlink(path("right.json"), path("link.json")).unwrap();
        std::os::unix::fs::symlink(path("loop.json"), path("loop.json")).unwrap();
        assert_eq!(run(&["carry", &path("link.json")], "").code, 0);
        assert_eq!(run(&["carry", &path("loop.json")], "").code, 2);
    }
    for name in ["", "missing.json", "utf16.json", "right.json/x"] {
        let ran = run(&["carry", &path(name)], "");
        assert!(ran.code == 2 && ran.err.contains("cannot be read"), "{name}: {}", ran.err);
    }
    // A batch says so before it begins, of its requests and of its earlier answers.
    for name in ["", "missing.json", "right.json/x"] {
        let file = path(name);
        for args in [&["batch", &file][..], &["batch", "-", "--resume", &file]] {
            let ran = run(args, "{\"id\":1,\"question\":\"none\"}");
            assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{args:?}: {}", ran.err);
            assert!(ran.err.contains(&format!("{file} cannot be read")), "{args:?}: {}", ran.err);
            assert_eq!(ran.err.contains("Leave --resume out"), args.len() > 2, "{args:?}: {}", ran.err);
        }
    }
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn a_batch_takes_lines_as_other_programs_write_them() {
    let input = "\u{feff}{\"id\":1,\"question\":\"golden\"}\r\n\r\n  \n{\"id\":2,\"id\":3,\"question\":\"golden\"}\r\n{\"id\":4,\"question\":\"golden\"}";
    let ran = run(&["batch"], input);
    let answers: Vec<Value> = ran.out.lines().map(json).collect();
    assert_eq!(answers.len(), 3, "{}", ran.out);
    assert!(answers[0]["ok"].is_object() && answers[2]["ok"].is_object());
    assert!(answers[1]["error"]["says"].as_str().unwrap().contains("\"id\" stands twice"), "{}", answers[1]);
}

#[test]
fn answers_torn_in_the_middle_are_asked_for_again() {
    let input = (0..4).map(|id| format!("{{\"id\":{id},\"question\":\"golden\"}}\n")).collect::<String>();
    let whole = run(&["batch"], &input).out;
    let lines: Vec<&str> = whole.split_inclusive('\n').collect();
    let file = std::env::temp_dir().join(format!("hearthload-torn-{}", std::process::id()));
    // Torn once and gone on, torn again, rubbish between, a line without an end that is longer than any answer.
    let torn = format!(
        "{}\n{}{}\n\u{0}\n[1]\n{{\"id\":null}}\n{}",
        &lines[0][..20],
        lines[1],
        &lines[2][..40],
        "x".repeat(1 << 20)
    );
    std::fs::write(&file, torn).unwrap();
    let ran = run(&["batch", "--resume", &file.to_string_lossy()], &input);
    std::fs::remove_file(&file).unwrap();
    assert_eq!(ran.out, format!("\n{}{}{}", lines[0], lines[2], lines[3]));
}
