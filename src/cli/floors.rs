//! Owns `hearthload floors`: every floor on offer.

use crate::args::FloorsArgs;
use crate::input::scenario_text;
use crate::outcome::{Outcome, print};
use crate::parts::{threads, worked_out};
use hearthload::ask::floors::{Floors, Part, offer};
use hearthload::report::ladder_text;
use hearthload::scenario;
use std::io::{Read, Write};

/// `hearthload floors FILE`.
pub fn floors(args: &FloorsArgs, stdin: Box<dyn Read + Send>, err: &mut dyn Write) -> Outcome {
    let resolved = match scenario_text(&args.file, stdin).and_then(|text| scenario::read(&text)) {
        Ok(resolved) => resolved,
        Err(problems) => return Outcome::problems(&problems, args.json),
    };
    let sizes: Vec<Option<f64>> = args.sizes.iter().map(|size| Some(*size)).collect();
    let question = match offer(&sizes, args.keep_doorway) {
        Ok(offer) => Floors::new(&resolved.scenario, offer),
        Err(problem) => return Outcome::problems(&[problem], args.json),
    };
    let of = question.count();
    let says = |parts: &[Part]| {
        let done = parts.iter().filter(|part| matches!(part, Part::Floor { .. })).count();
        if done < of { format!("{done} of {of} floors") } else { "rough nights on the floors that carry".to_owned() }
    };
    let worked = worked_out(&question, threads(args.threads), None, err, says);
    if !worked.whole {
        print(err, "Stopped with what there is.\n");
    }
    worked.answer(&question, args.json, |report| {
        if args.json { Outcome::report(report) } else { Outcome::computed(ladder_text::floors(report)) }
    })
}
