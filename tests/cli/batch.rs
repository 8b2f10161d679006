//! Batches: order kept, bad lines answered, earlier answers skipped, memory bounded, the same bytes on any number of threads.

use crate::run::{json, run};
use std::fs;
use std::io::{Read, Write};
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

/// A file of our own in the system's temporary folder, removed when dropped.
struct Scratch(PathBuf);

impl Scratch {
    fn with(name: &str, text: &str) -> Self {
        let path = std::env::temp_dir().join(format!("hearthload-{}-{name}", std::process::id()));
        fs::write(&path, text).unwrap();
        Self(path)
    }

    fn path(&self) -> &str {
        self.0.to_str().unwrap()
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        let _ = fs::remove_file(&self.0);
    }
}

/// Requests of two kinds, some of them wrong.
fn requests(count: usize) -> String {
    (0..count)
        .map(|i| match i % 4 {
            0 => format!("{{\"id\":{i},\"question\":\"golden\"}}\n"),
            1 => format!("{{\"id\":\"a{i}\",\"question\":\"none such\"}}\n"),
            2 => "this is not JSON\n".to_owned(),
            _ => format!("{{\"id\":\"a{i}\",\"question\":\"carry\",\"scenario\":{{\"hearthload\":1}}}}\n"),
        })
        .collect()
}

#[test]
fn one_line_in_one_line_out_in_the_same_order() {
    let ran = run(&["batch"], &requests(40));
    assert_eq!(ran.code, 0);
    let answers: Vec<_> = ran.out.lines().map(json).collect();
    assert_eq!(answers.len(), 40);
    for (i, answer) in answers.iter().enumerate() {
        match i % 4 {
            0 => assert!(answer["id"] == i && answer["ok"].is_object(), "{answer}"),
            2 => assert!(answer["id"].is_null() && answer["error"]["says"].as_str().unwrap().contains("not JSON")),
            1 => assert!(
                answer["error"]["field"] == "question"
                    && answer["error"]["problems"][0]["given"] == "none such"
                    && answer["error"]["says"]
                        .as_str()
                        .unwrap()
                        .contains("no question \"none such\" here. It is one of carry, fire"),
                "{answer}"
            ),
            _ => assert!(answer["id"] == format!("a{i}") && answer["error"]["says"].is_string(), "{answer}"),
        }
    }
    assert!(ran.err.contains("10 answered, 30 with problems, 0 answered earlier."), "{}", ran.err);
}

#[test]
fn the_bytes_do_not_depend_on_the_threads() {
    let input = requests(24);
    let one = run(&["batch", "--threads", "1"], &input).out;
    for threads in ["2", "7"] {
        assert_eq!(run(&["batch", "--threads", threads], &input).out, one);
    }
}

#[test]
fn what_was_answered_earlier_is_skipped_and_a_torn_answer_is_not() {
    let input = (0..6).map(|i| format!("{{\"id\":{i},\"question\":\"golden\"}}\n")).collect::<String>();
    let whole = run(&["batch"], &input).out;
    let lines: Vec<&str> = whole.split_inclusive('\n').collect();
    let some = Scratch::with("some", &lines[..3].concat());
    assert_eq!(run(&["batch", "--resume", some.path()], &input).out, lines[3..].concat());

    let torn = Scratch::with("torn", &format!("{}{}", lines[..3].concat(), &lines[3][..9]));
    let ran = run(&["batch", "--resume", torn.path()], &input);
    assert_eq!(ran.out, format!("\n{}", lines[3..].concat()));
    assert!(ran.err.contains("broken off"));

    let none = run(&["batch", "--resume", "/no/such/file"], &input);
    assert_eq!((none.code, none.out.as_str()), (2, ""));
}

#[test]
fn a_request_without_an_id_or_far_too_long_is_refused_and_the_next_is_answered() {
    let long = "x".repeat(1_200_000);
    let input = format!(
        "{{\"question\":\"golden\"}}\n{{\"id\":1,\"x\":\"{long}\"}}\n[1]\n\n{{\"id\":2,\"question\":\"golden\"}}"
    );
    let answers: Vec<_> = run(&["batch"], &input).out.lines().map(json).collect();
    assert_eq!(answers.len(), 4);
    assert_eq!(answers[0]["error"]["field"], "id");
    assert!(answers[1]["error"]["says"].as_str().unwrap().contains("longer than"));
    assert!(answers[2]["error"]["says"].as_str().unwrap().contains("object"));
    assert!(answers[3]["ok"].is_object());
}

#[test]
fn requests_are_read_from_a_file_too() {
    let file = Scratch::with("requests", "{\"id\":\"x\",\"question\":\"golden\"}\n");
    assert_eq!(json(&run(&["batch", file.path()], "").out)["id"], "x");
    assert_eq!(run(&["batch", "/no/such/file"], "").code, 2);
}

/// Endless requests, counting how many bytes were taken.
struct Endless {
    taken: Arc<AtomicUsize>,
    rest: Vec<u8>,
}

impl Read for Endless {
    fn read(&mut self, into: &mut [u8]) -> std::io::Result<usize> {
        if self.rest.is_empty() {
            self.rest = b"{\"id\":1,\"question\":\"none such\"}\n".to_vec();
        }
        let many = into.len().min(self.rest.len());
        into[..many].copy_from_slice(&self.rest[..many]);
        self.rest.drain(..many);
        self.taken.fetch_add(many, Ordering::SeqCst);
        Ok(many)
    }
}

/// A reader of answers that goes away after the tenth.
struct TakesTen(usize);

impl Write for TakesTen {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        self.0 += 1;
        if self.0 > 10 { Err(std::io::ErrorKind::BrokenPipe.into()) } else { Ok(bytes.len()) }
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

#[test]
fn endless_requests_are_not_hoarded_and_end_when_nobody_listens() {
    let taken = Arc::new(AtomicUsize::new(0));
    let endless = Endless { taken: Arc::clone(&taken), rest: Vec::new() };
    let args = ["hearthload", "batch", "--threads", "2"].map(std::ffi::OsString::from);
    let code = hearthload_cli::run(args, Box::new(endless), &mut TakesTen(0), &mut std::io::sink());
    assert_eq!(code, 0);
    // Two queues of four lines for each worker, one line in each hand, the ten that were written, and the reader's buffer.
    let lines = taken.load(Ordering::SeqCst) / 33;
    assert!(lines < 2 * 2 * 4 + 2 + 2 + 11 + 8192 / 33 + 1, "{lines} lines were taken in");
}
