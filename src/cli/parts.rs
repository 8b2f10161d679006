//! Owns the working out of a long question on all cores: its parts, progress on stderr, and a stop with what there is by then.
//!
//! Parts are added up by what they are and not by when they came, so the answer does not know how many threads there were.

use crate::outcome::{Outcome, print};
use hearthload::ask::in_parts::{InParts, NoPart};
use hearthload::hearth::fault::{Fault, Noted};
use hearthload::report::fault_words;
use std::collections::VecDeque;
use std::io::Write;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::channel;
use std::sync::{Mutex, PoisonError};
use std::thread;
use std::time::{Duration, Instant};

/// Progress is said this often.
pub const SAY_EVERY: Duration = Duration::from_secs(2);
/// What a shell calls a program that was interrupted.
pub const INTERRUPTED: u8 = 130;

/// Set by the first Ctrl-C; the second ends the program at once.
static STOP: AtomicBool = AtomicBool::new(false);

/// Listens for Ctrl-C: the first asks for what there is, the second ends the program at once.
pub fn listen_for_stop() {
    // A second question of one process finds the handler there already.
    let _ = ctrlc::set_handler(|| {
        if STOP.swap(true, Ordering::Relaxed) {
            std::process::exit(INTERRUPTED.into());
        }
    });
}

/// Whether somebody pressed Ctrl-C.
pub fn is_stopped() -> bool {
    STOP.load(Ordering::Relaxed)
}

/// How many to work on at once: as asked for, or all cores.
pub fn threads(asked: Option<u16>) -> usize {
    asked.map_or_else(|| thread::available_parallelism().map_or(1, usize::from), usize::from)
}

/// What was worked out.
pub struct Worked<P> {
    /// The parts.
    pub parts: Vec<P>,
    /// Whether that is all of them.
    pub whole: bool,
    /// What the computing of a part did not get right.
    fault: Option<Fault>,
}

impl<P> Worked<P> {
    /// The answer as far as it has come, printed by `print`; the fault where there is one, for then no answer may be shown.
    pub fn answer<Q: InParts<Part = P>>(
        &self,
        question: &Q,
        as_json: bool,
        print: impl FnOnce(&Q::Report) -> Outcome,
    ) -> Outcome {
        match self.fault.map_or_else(|| question.added_up(&self.parts), Err) {
            Err(fault) => Outcome::fault(&fault_words::fault(&fault), as_json),
            Ok(Some(report)) => print(&report),
            Ok(None) => Outcome::computed(String::new()),
        }
    }
}

/// Works a question out until it is whole, `until` is past, or somebody presses Ctrl-C. `says` puts the progress in words.
pub fn worked_out<Q: InParts + Sync>(
    question: &Q,
    threads: usize,
    until: Option<Instant>,
    err: &mut dyn Write,
    says: impl Fn(&[Q::Part]) -> String,
) -> Worked<Q::Part> {
    listen_for_stop();
    let is_over = || is_stopped() || until.is_some_and(|until| Instant::now() >= until);
    let mut parts = Vec::new();
    let mut said = Instant::now();
    loop {
        let wants = question.wants(&parts);
        let before = parts.len();
        if wants.is_empty() {
            return Worked { parts, whole: true, fault: None };
        }
        let fault = round(question, wants, threads, &is_over, |part| {
            parts.push(part);
            if said.elapsed() >= SAY_EVERY {
                said = Instant::now();
                print(err, &format!("{}\n", says(&parts)));
            }
        });
        if is_over() || fault.is_some() || parts.len() == before {
            let whole = question.wants(&parts).is_empty();
            return Worked { parts, whole, fault };
        }
    }
}

/// Works out what is wanted now, part by part as they come; stops at the first fault.
fn round<Q: InParts + Sync>(
    question: &Q,
    wants: Vec<Q::Want>,
    threads: usize,
    is_over: &(impl Fn() -> bool + Sync),
    mut take: impl FnMut(Q::Part),
) -> Option<Fault> {
    let fault = Noted::default();
    let threads = threads.min(wants.len());
    let wants = &Mutex::new(VecDeque::from(wants));
    let (sender, parts) = channel();
    thread::scope(|scope| {
        for _ in 0..threads {
            let (sender, fault) = (sender.clone(), fault.clone());
            scope.spawn(move || {
                while !is_over() && fault.first().is_none() {
                    let next = wants.lock().unwrap_or_else(PoisonError::into_inner).pop_front();
                    let Some(want) = next else { return };
                    match question.work(&want) {
                        Ok(part) => {
                            if sender.send(part).is_err() {
                                return;
                            }
                        }
                        Err(NoPart::Fault(found)) => fault.note(Some(found)),
                        Err(NoPart::Unwanted) => return,
                    }
                }
            });
        }
        drop(sender);
        parts.iter().for_each(&mut take);
    });
    fault.first()
}
