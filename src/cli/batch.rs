//! Owns `hearthload batch`: one request a line in, one answer a line out, in the same order, on all cores.
//!
//! A reader hands each line to whichever worker is free and puts a slip with the promise of its answer into a second queue;
//! the writer redeems the slips in order. Both queues are short, so memory does not grow with the input, and a line is
//! answered as soon as those before it are. When nobody reads the answers any more, all of it ends.

use crate::args::BatchArgs;
use crate::door::{Answer, ask};
use crate::outcome::{Outcome, print};
use crate::{COMPUTED, FAULT, input};
use hearthload::scenario::{self, LARGEST_BYTES};
use serde_json::{Map, Value, json};
use std::collections::BTreeSet;
use std::io::{self, BufRead, BufReader, ErrorKind, Read, Write};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;

/// Longest line: the largest scenario, and room for what stands about it.
const LONGEST_LINE: usize = LARGEST_BYTES + 100_000;

/// The mark of UTF-8.
const BOM: &[u8] = b"\xef\xbb\xbf";

/// Longest earlier answer that is looked at: far more than any report with its map.
const LONGEST_ANSWER: u64 = 32 << 20;

/// How many lines may wait for each worker.
const WAITING_PER_WORKER: usize = 4;

/// One line of the input.
enum Line {
    Text(Vec<u8>),
    TooLong,
}

/// A line and where its answer goes; None stands for "answered earlier".
struct Job {
    line: Line,
    answer: SyncSender<Option<Reply>>,
}

/// An answer as it will be written.
struct Reply {
    text: String,
    is_ok: bool,
}

/// Runs the batch and returns the exit status. A request that is not right is answered and is no failure of the batch.
pub fn run(args: &BatchArgs, stdin: Box<dyn Read + Send>, out: &mut dyn Write, err: &mut dyn Write) -> u8 {
    let earlier = args.resume.as_deref().map_or_else(
        || Ok(Done::default()),
        |file| answered(file).map_err(|error| vec![input::unread_answers(file, &error.to_string())]),
    );
    let opened = earlier.and_then(|done| Ok((done, input::open(&args.file, stdin)?)));
    let (done, requests) = match opened {
        Ok(both) => both,
        Err(problems) => {
            let Outcome { code, err: says, .. } = Outcome::problems(&problems, args.json);
            print(err, &says);
            return code;
        }
    };
    if done.torn {
        print(err, "The last of the earlier answers is broken off: its request is answered again.\n");
        // Whoever appends to that file gets a fresh line.
        print(out, "\n");
    }
    let threads = args.threads.map_or_else(|| thread::available_parallelism().map_or(1, usize::from), usize::from);
    let (slips, reader) = start(requests, done.ids, threads);
    finish(&slips, reader, out, err)
}

/// Starts reader and workers. They are left to themselves: the reader may sit waiting for input when the batch is over.
fn start(
    requests: Box<dyn Read + Send>,
    done: BTreeSet<String>,
    threads: usize,
) -> (Receiver<Receiver<Option<Reply>>>, thread::JoinHandle<io::Result<()>>) {
    let (jobs, queue) = sync_channel::<Job>(threads * WAITING_PER_WORKER);
    let (promise, slips) = sync_channel(threads * WAITING_PER_WORKER);
    let queue = Arc::new(Mutex::new(queue));
    let done = Arc::new(done);
    for _ in 0..threads {
        let (queue, done) = (Arc::clone(&queue), Arc::clone(&done));
        thread::spawn(move || work(&queue, &done));
    }
    let reader = thread::spawn(move || read(BufReader::new(requests), &jobs, &promise));
    (slips, reader)
}

/// Hands on line after line until the input ends or nobody takes them.
fn read(
    mut requests: impl BufRead,
    jobs: &SyncSender<Job>,
    promise: &SyncSender<Receiver<Option<Reply>>>,
) -> io::Result<()> {
    while let Some(line) = next_line(&mut requests)? {
        if matches!(&line, Line::Text(text) if text.trim_ascii().is_empty()) {
            continue;
        }
        let (answer, slip) = sync_channel(1);
        if promise.send(slip).is_err() || jobs.send(Job { line, answer }).is_err() {
            break;
        }
    }
    Ok(())
}

/// The next line without its end; the rest of one that is too long is passed over.
fn next_line(requests: &mut impl BufRead) -> io::Result<Option<Line>> {
    let mut text = Vec::new();
    let read = requests.by_ref().take(LONGEST_LINE as u64 + 1).read_until(b'\n', &mut text)?;
    if read == 0 {
        return Ok(None);
    }
    if text.len() <= LONGEST_LINE || text.ends_with(b"\n") {
        return Ok(Some(Line::Text(text)));
    }
    loop {
        let seen = requests.fill_buf()?;
        let end = seen.iter().position(|&byte| byte == b'\n');
        let used = end.map_or(seen.len(), |at| at + 1);
        let is_over = end.is_some() || seen.is_empty();
        requests.consume(used);
        if is_over {
            return Ok(Some(Line::TooLong));
        }
    }
}

/// Answers lines until there are no more.
fn work(queue: &Mutex<Receiver<Job>>, done: &BTreeSet<String>) {
    loop {
        let job = queue.lock().unwrap_or_else(PoisonError::into_inner).recv();
        let Ok(job) = job else { return };
        // Nobody waits for it when the batch has ended early.
        let _ = job.answer.send(respond(&job.line, done));
    }
}

/// Writes the answers in order, then tells how it went.
fn finish(
    slips: &Receiver<Receiver<Option<Reply>>>,
    reader: thread::JoinHandle<io::Result<()>>,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> u8 {
    let (mut right, mut wrong, mut skipped) = (0_u64, 0_u64, 0_u64);
    for slip in slips {
        let Some(reply) = slip.recv().unwrap_or_else(|_| Some(failed(&Value::Null))) else {
            skipped += 1;
            continue;
        };
        if let Err(error) = out.write_all(reply.text.as_bytes()).and_then(|()| out.flush()) {
            if error.kind() == ErrorKind::BrokenPipe {
                return COMPUTED;
            }
            print(err, &format!("The answers cannot be written: {error}.\n"));
            return FAULT;
        }
        if reply.is_ok { right += 1 } else { wrong += 1 }
    }
    print(err, &format!("{right} answered, {wrong} with problems, {skipped} answered earlier.\n"));
    match reader.join() {
        Ok(Ok(())) => COMPUTED,
        Ok(Err(error)) => {
            print(err, &format!("The requests cannot be read further: {error}.\n"));
            FAULT
        }
        Err(_) => FAULT,
    }
}

/// The answer to one line by itself, a line too.
pub fn answer_line(line: &[u8]) -> String {
    respond(&Line::Text(line.to_vec()), &BTreeSet::new()).map_or_else(String::new, |reply| reply.text)
}

/// The answer to one line; None where it was answered earlier.
fn respond(line: &Line, done: &BTreeSet<String>) -> Option<Reply> {
    let mut request = match request(line) {
        Ok(request) => request,
        Err(says) => return Some(refused(&Value::Null, &json!({ "field": "", "says": says }))),
    };
    let id = request.remove("id").unwrap_or(Value::Null);
    if !id.is_string() && !id.is_number() {
        let says = "Every request needs an id of its own, text or a number.";
        return Some(refused(&Value::Null, &json!({ "field": "id", "says": says })));
    }
    if done.contains(&id.to_string()) {
        return None;
    }
    let answer = catch_unwind(AssertUnwindSafe(|| ask(&Value::Object(request))));
    Some(answer.map_or_else(|_| failed(&id), |answer| reply(&id, answer)))
}

fn request(line: &Line) -> Result<Map<String, Value>, String> {
    let Line::Text(text) = line else {
        return Err(format!("This line is longer than {LONGEST_LINE} bytes."));
    };
    // Some programs begin a file with a mark of its encoding.
    match serde_json::from_slice(text.strip_prefix(BOM).unwrap_or(text)) {
        Ok(Value::Object(request)) => match scenario::doubles(&String::from_utf8_lossy(text)).first() {
            Some(path) => Err(format!("\"{path}\" stands twice in this line. Which one is meant?")),
            None => Ok(request),
        },
        Ok(_) => Err("A request is an object: it begins with a brace.".to_owned()),
        Err(error) => Err(format!("This line is not JSON: {error}.")),
    }
}

fn reply(id: &Value, answer: Answer) -> Reply {
    match answer {
        Answer::Ok(report) => Reply { text: format!("{{\"id\":{id},\"ok\":{report}}}\n"), is_ok: true },
        Answer::Problems(problems) => {
            let first = problems.first();
            let error = json!({
                "field": first.map_or("", |problem| problem.field.as_str()),
                "says": first.map_or("", |problem| problem.says.as_str()),
                "problems": problems,
            });
            refused(id, &error)
        }
        Answer::Fault(says) => refused(id, &json!({ "field": "", "says": says })),
    }
}

fn refused(id: &Value, error: &Value) -> Reply {
    Reply { text: format!("{{\"id\":{id},\"error\":{error}}}\n"), is_ok: false }
}

fn failed(id: &Value) -> Reply {
    refused(id, &json!({ "field": "", "says": "The program failed on this request. Please report it." }))
}

/// Which ids were answered earlier, and whether the last answer is broken off.
#[derive(Default)]
struct Done {
    ids: BTreeSet<String>,
    torn: bool,
}

/// Reads earlier answers; lines that are not answers are passed over.
fn answered(file: &Path) -> io::Result<Done> {
    let mut lines = BufReader::new(std::fs::File::open(file)?);
    let mut done = Done::default();
    let mut line = Vec::new();
    // A line longer than any answer comes in pieces, none of which is one.
    while lines.by_ref().take(LONGEST_ANSWER).read_until(b'\n', &mut line)? > 0 {
        done.torn = !line.ends_with(b"\n");
        let answer: Option<Value> = serde_json::from_slice(&line).ok();
        if let Some(id) = answer.as_ref().and_then(|answer| answer.get("id")).filter(|id| !id.is_null()) {
            done.ids.insert(id.to_string());
        }
        line.clear();
    }
    Ok(done)
}
