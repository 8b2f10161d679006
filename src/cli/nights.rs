//! Owns `hearthload nights`: many nights, as many as there are by the time somebody stops it.

use crate::args::NightsArgs;
use crate::input::scenario_text;
use crate::outcome::{Outcome, print};
use crate::parts::{threads, worked_out};
use hearthload::ask::nights::ManyNights;
use hearthload::plan::nights::NightSummary;
use hearthload::report::ladder_text;
use hearthload::scenario;
use std::io::{Read, Write};
use std::time::{Duration, Instant};

/// `hearthload nights FILE`.
pub fn nights(args: &NightsArgs, stdin: Box<dyn Read + Send>, err: &mut dyn Write) -> Outcome {
    let resolved = match scenario_text(&args.file, stdin).and_then(|text| scenario::read(&text)) {
        Ok(resolved) => resolved,
        Err(problems) => return Outcome::problems(&problems, args.json),
    };
    let seed = args.seed.unwrap_or(resolved.scenario.service.seed);
    // A moment too far off for a clock is none.
    let until = args.at_most.and_then(|s| Instant::now().checked_add(Duration::from_secs(s)));
    let question = ManyNights::new(&resolved.scenario, u64::from(args.nights), seed);
    let run = |parts: &[Vec<NightSummary>]| parts.iter().map(Vec::len).sum::<usize>();
    let says = |parts: &[Vec<NightSummary>]| {
        let held = parts.iter().flatten().filter(|night| night.held()).count();
        format!("{} of {} nights, {held} held", run(parts), args.nights)
    };
    let worked = worked_out(&question, threads(args.threads), until, err, says);
    if !worked.whole {
        print(err, &format!("Stopped after {} of {} nights.\n", run(&worked.parts), args.nights));
    }
    worked.answer(&question, args.json, |report| {
        if args.json { Outcome::report(report) } else { Outcome::computed(ladder_text::nights(report)) }
    })
}
