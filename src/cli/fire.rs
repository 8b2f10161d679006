//! Owns `hearthload fire`: the cook's plan.

use crate::args::FireArgs;
use crate::input::scenario_text;
use crate::outcome::Outcome;
use hearthload::ask;
use hearthload::report::fire_text;
use hearthload::scenario;
use std::io::Read;

/// `hearthload fire FILE`.
pub fn fire(args: &FireArgs, stdin: Box<dyn Read + Send>) -> Outcome {
    let resolved = match scenario_text(&args.file, stdin).and_then(|text| scenario::read(&text)) {
        Ok(resolved) => resolved,
        Err(problems) => return Outcome::problems(&problems, args.json),
    };
    let report = if args.first_firing {
        match ask::read_hours(args.in_hours) {
            Ok(in_hours) => ask::first_firing(&resolved, in_hours),
            Err(problem) => return Outcome::problems(&[problem], args.json),
        }
    } else {
        let fed: Vec<String> = args.fed.iter().map(|time| time.trim().to_owned()).collect();
        match ask::read_now(&resolved, args.at.as_deref(), args.floor, &fed) {
            Ok(now) => ask::fire_on_rough_nights(&resolved, now.as_ref(), if now.is_some() { 0 } else { args.rough }),
            Err(problems) => return Outcome::problems(&problems, args.json),
        }
    };
    if let Some(fault) = &report.fault {
        return Outcome::fault(fault, args.json);
    }
    if args.json { Outcome::report(&report) } else { Outcome::computed(fire_text::fire(&report)) }
}
