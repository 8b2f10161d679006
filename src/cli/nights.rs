//! Owns `hearthload nights`: many nights on all cores. A night is a function of seed and index alone, and nights are added up in
//! the order of their index, so the answer does not know how many threads there were.

use crate::args::NightsArgs;
use crate::input::scenario_text;
use crate::outcome::{Outcome, print};
use hearthload::plan::nights::{NIGHTS_ACCURACY, NightSummary, fold, one};
use hearthload::report::{ladder_text, nights_build};
use hearthload::scenario;
use hearthload::service::night::Ready;
use std::io::{Read, Write};
use std::sync::atomic::{AtomicU32, Ordering};
use std::sync::mpsc::{Sender, channel};
use std::thread;
use std::time::{Duration, Instant};

/// Progress is said this often.
const SAY_EVERY: Duration = Duration::from_secs(2);

/// `hearthload nights FILE`.
pub fn nights(args: &NightsArgs, stdin: Box<dyn Read + Send>, err: &mut dyn Write) -> Outcome {
    let resolved = match scenario_text(&args.file, stdin).and_then(|text| scenario::read(&text)) {
        Ok(resolved) => resolved,
        Err(problems) => return Outcome::problems(&problems, args.json),
    };
    let seed = args.seed.unwrap_or(resolved.scenario.service.seed);
    let ready = Ready::new(&resolved.scenario, NIGHTS_ACCURACY);
    let threads = args.threads.map_or_else(|| thread::available_parallelism().map_or(1, usize::from), usize::from);
    let until = args.at_most.map(|s| Instant::now() + Duration::from_secs(s));
    let run = Run { ready: &ready, seed, nights: args.nights, until, next: AtomicU32::new(0) };
    let summaries = run.all(threads, err);
    if (summaries.len() as u32) < args.nights {
        print(err, &format!("Stopped after {} of {} nights.\n", summaries.len(), args.nights));
    }
    let report = nights_build::nights(&resolved.scenario, &fold(summaries), seed, args.nights);
    if args.json { Outcome::report(&report) } else { Outcome::computed(ladder_text::nights(&report)) }
}

/// Nights being run.
struct Run<'a> {
    ready: &'a Ready,
    seed: u64,
    nights: u32,
    until: Option<Instant>,
    next: AtomicU32,
}

impl Run<'_> {
    fn all(&self, threads: usize, err: &mut dyn Write) -> Vec<NightSummary> {
        let (sender, nights) = channel();
        thread::scope(|scope| {
            for _ in 0..threads {
                let sender = sender.clone();
                scope.spawn(move || self.work(&sender));
            }
            drop(sender);
            let mut done = Vec::new();
            let mut said = Instant::now();
            for night in nights {
                done.push(night);
                if said.elapsed() >= SAY_EVERY {
                    said = Instant::now();
                    print(err, &format!("{} of {} nights\n", done.len(), self.nights));
                }
            }
            done
        })
    }

    /// Takes night after night until all are taken, time is up, or nobody listens.
    fn work(&self, sender: &Sender<NightSummary>) {
        loop {
            let index = self.next.fetch_add(1, Ordering::Relaxed);
            let is_late = self.until.is_some_and(|until| Instant::now() >= until);
            if index >= self.nights || is_late || sender.send(one(self.ready, self.seed, u64::from(index))).is_err() {
                return;
            }
        }
    }
}
