//! Owns `hearthload fire`: the cook's plan, with a word now and then while it is searched for.

use crate::args::FireArgs;
use crate::input::scenario_text;
use crate::outcome::{Outcome, print};
use crate::parts::{INTERRUPTED, SAY_EVERY, is_stopped, listen_for_stop};
use hearthload::ask;
use hearthload::hearth::fault::Noted;
use hearthload::plan::fire::plan_noting;
use hearthload::plan::from_now::Now;
use hearthload::report::{FireReport, fire_text};
use hearthload::scenario::{self, Resolved};
use std::io::{Read, Write};
use std::sync::mpsc::{RecvTimeoutError, Sender, channel};
use std::thread;
use std::time::{Duration, Instant};

/// Ctrl-C is looked for this often.
const LOOK_EVERY: Duration = Duration::from_millis(50);

/// `hearthload fire FILE`.
pub fn fire(args: &FireArgs, stdin: Box<dyn Read + Send>, err: &mut dyn Write) -> Outcome {
    let resolved = match scenario_text(&args.file, stdin).and_then(|text| scenario::read(&text)) {
        Ok(resolved) => resolved,
        Err(problems) => return Outcome::problems(&problems, args.json),
    };
    let report = if args.first_firing {
        match ask::read_hours(args.in_hours) {
            Ok(in_hours) => Some(ask::first_firing(&resolved, in_hours)),
            Err(problem) => return Outcome::problems(&[problem], args.json),
        }
    } else {
        let [fed, skipped] = [&args.fed, &args.skipped]
            .map(|times| times.iter().map(|time| time.trim().to_owned()).collect::<Vec<String>>());
        let typed = ask::Typed { at: args.at.as_deref(), floor_c: args.floor, fed: &fed, skipped: &skipped };
        match ask::read_now(&resolved, &typed) {
            Ok(now) => searched(resolved, now, args.rough, err),
            Err(problems) => return Outcome::problems(&problems, args.json),
        }
    };
    match report {
        None => Outcome { code: INTERRUPTED, out: String::new(), err: "Stopped: there is no plan yet.\n".to_owned() },
        Some(FireReport { fault: Some(fault), .. }) => Outcome::fault(&fault, args.json),
        Some(report) if args.json => Outcome::report(&report),
        Some(report) => Outcome::computed(fire_text::fire(&report)),
    }
}

/// Searches beside, says how many days were tried so far, and stops with what there is when somebody presses Ctrl-C: the plan where
/// only its rough nights are missing, else nothing.
fn searched(resolved: Resolved, now: Option<Now>, rough: u32, err: &mut dyn Write) -> Option<FireReport> {
    listen_for_stop();
    let noted = Noted::default();
    let (sender, reports) = channel();
    let nights = if now.is_some() { 0 } else { rough };
    let watched = noted.clone();
    // Its end is not waited for: a search that was stopped ends with the program.
    let search = thread::spawn(move || search(&resolved, now.as_ref(), nights, &watched, &sender));
    let (mut report, mut said) = (None, Instant::now());
    loop {
        match reports.recv_timeout(LOOK_EVERY) {
            Ok(found) => report = Some(found),
            // Whatever ended the search early is to be seen as it was.
            Err(RecvTimeoutError::Disconnected) => {
                if let Err(panic) = search.join() {
                    std::panic::resume_unwind(panic);
                }
                return report;
            }
            Err(RecvTimeoutError::Timeout) if is_stopped() => {
                if report.is_some() {
                    print(err, "Stopped: not all rough nights were tried on this plan.\n");
                }
                return report;
            }
            Err(RecvTimeoutError::Timeout) => {}
        }
        if said.elapsed() >= SAY_EVERY {
            said = Instant::now();
            let there_is = if report.is_some() { "there is a plan, " } else { "" };
            print(err, &format!("{there_is}{} days tried\n", noted.days()));
        }
    }
}

/// Sends the plan, and again once it was tried on rough nights, where that is asked.
fn search(resolved: &Resolved, now: Option<&Now>, nights: u32, noted: &Noted, sender: &Sender<FireReport>) {
    let mut plan = plan_noting(&resolved.scenario, now, noted);
    // Nobody listens any more: then nothing more is wanted.
    if sender.send(ask::fire_report(resolved, plan.as_ref())).is_err() {
        return;
    }
    if let Some(plan) = plan.as_mut().filter(|_| nights > 0) {
        plan.try_rough_nights(nights);
        let _ = sender.send(ask::fire_report(resolved, Some(plan)));
    }
}
