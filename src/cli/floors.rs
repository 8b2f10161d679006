//! Owns `hearthload floors`: every floor on offer, on all cores; the answer does not know how many there were.

use crate::args::FloorsArgs;
use crate::input::scenario_text;
use crate::outcome::{Outcome, print};
use hearthload::ask::ladder_questions::floors_of;
use hearthload::plan::floors::{Place, places, rung_at};
use hearthload::plan::rung::Rung;
use hearthload::report::ladder_text;
use hearthload::scenario::{self, Scenario};
use std::io::{Read, Write};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc::channel;
use std::thread;

/// `hearthload floors FILE`.
pub fn floors(args: &FloorsArgs, stdin: Box<dyn Read + Send>, err: &mut dyn Write) -> Outcome {
    let resolved = match scenario_text(&args.file, stdin).and_then(|text| scenario::read(&text)) {
        Ok(resolved) => resolved,
        Err(problems) => return Outcome::problems(&problems, args.json),
    };
    let threads = args.threads.map_or_else(|| thread::available_parallelism().map_or(1, usize::from), usize::from);
    let rungs = all(&resolved.scenario, threads, err);
    let report = floors_of(&resolved, rungs);
    if args.json { Outcome::report(&report) } else { Outcome::computed(ladder_text::floors(&report)) }
}

/// The rungs of all places, largest first, since those take longest; the ladder puts them in order.
fn all(scenario: &Scenario, threads: usize, err: &mut dyn Write) -> Vec<(Place, Option<Rung>)> {
    let places: Vec<Place> = places(scenario).into_iter().rev().collect();
    let (next, places) = (&AtomicUsize::new(0), &places);
    let (sender, rungs) = channel();
    thread::scope(|scope| {
        for _ in 0..threads.min(places.len()) {
            let sender = sender.clone();
            scope.spawn(move || {
                while let Some(place) = places.get(next.fetch_add(1, Ordering::Relaxed)) {
                    if sender.send((*place, rung_at(scenario, *place))).is_err() {
                        return;
                    }
                }
            });
        }
        drop(sender);
        let mut done = Vec::new();
        for rung in rungs {
            done.push(rung);
            print(err, &format!("{} of {} floors\n", done.len(), places.len()));
        }
        done
    })
}
