//! Owns the whole engine under evenings nobody would plan: each is played, judged and reported with numbers in reason, and small
//! ones are searched too.

use crate::{
    dice::Dice,
    evening::{evening, small_evening},
    finite::broken_number,
    reason::out_of_reason,
};
use hearthload::ask::floors::{Floors, offer};
use hearthload::ask::in_parts::{InParts, NoPart};
use hearthload::ask::nights::ManyNights;
use hearthload::ask::reach::Reaching;
use hearthload::ask::sure::HowSure;
use hearthload::hearth::build::{Accuracy, DEFAULT_ACCURACY};
use hearthload::numerics::column::{DEFAULT_FINENESS, Fineness};
use hearthload::plan::nights::NIGHTS_ACCURACY;
use hearthload::report::{CarryReport, build::from_trace, text};
use hearthload::scenario::{self, Resolved};
use hearthload::service::judge::judge;
use hearthload::service::night::{Keep, Ready, play};
use hearthload::service::trace::Trace;
use serde_json::Value;
use std::fmt::Debug;

/// A cut so coarse that many nights run; for some ovens it is too coarse, and the engine's own are tried.
const COARSE: Accuracy = Accuracy {
    cell_m: 0.3,
    fineness: Fineness { growth: 2.0, coarsest_m: 0.04, ..DEFAULT_FINENESS },
    busy_step_s: 20.0,
    idle_step_s: 60.0,
    ..DEFAULT_ACCURACY
};
/// What is kept of a night.
const PICTURES: Keep = Keep { picture_every_s: Some(900.0) };
/// The ledger closes to this share of its throughput.
const CLOSES: f64 = 1e-9;
/// Nights of a small evening.
const NIGHTS: u64 = 3;

/// What an answer says that is no number or not in reason.
fn wild(answer: &(impl Debug + serde::Serialize)) -> Option<String> {
    let none = broken_number(&format!("{answer:?}")).map(|before| format!("a number that is none, after {before}"));
    none.or_else(|| out_of_reason(&serde_json::to_value(answer).unwrap_or(Value::Null)))
}

/// Plays a night on a cut and reports it with its pictures.
fn reported(resolved: &Resolved, cut: Accuracy) -> (Trace, CarryReport) {
    let ready = Ready::new(&resolved.scenario, cut);
    let trace = play(&ready, PICTURES);
    let report = from_trace(&resolved.assumed, &ready, &trace, &judge(&ready, &trace), true);
    (trace, report)
}

/// A night out of bytes.
pub(crate) fn solve(bytes: &[u8]) {
    let draft = evening(&mut Dice::new(bytes));
    let Ok(resolved) = scenario::resolve(&draft) else { return };
    let (mut trace, mut report) = reported(&resolved, COARSE);
    if trace.fault.is_some() || wild(&report).is_some() {
        // The cut is coarser than any the engine itself takes. On those what does not settle is told, and nothing else is wild.
        for own in [NIGHTS_ACCURACY, DEFAULT_ACCURACY] {
            (trace, report) = reported(&resolved, own);
            let wild = wild(&report);
            assert!(trace.fault.is_some() || wild.is_none(), "{wild:?}: {draft}");
        }
        if trace.fault.is_some() {
            return;
        }
    }
    let ledger = &trace.ledger;
    let open = ledger.residual_j().abs() / ledger.throughput_j().max(1.0);
    assert!(open <= CLOSES, "the ledger leaves {open:e} open: {draft}");
    let (ordered, begun) = (trace.ordered.iter().sum::<u32>() as usize, trace.bakes.len());
    assert!(ordered >= begun, "{begun} pieces were loaded, {ordered} ordered: {draft}");
    let said = text::carry(&report);
    assert!(!said.contains("NaN") && !said.contains("inf "), "{said}: {draft}");
}

/// A question that searches, about a small evening out of bytes: answered with numbers in reason, or a fault is told.
pub(crate) fn questions(bytes: &[u8]) {
    let mut dice = Dice::new(bytes);
    let which = dice.place(5);
    let picks = [dice.place(256), dice.place(256)];
    let draft = small_evening(&mut dice);
    let Ok(resolved) = scenario::resolve(&draft) else { return };
    let scenario = &resolved.scenario;
    let wrong = match which {
        0 => {
            let report = hearthload::ask::fire(&resolved, None);
            report.fault.is_none().then(|| wild(&report)).flatten()
        }
        1 => some_parts(&ManyNights::new(scenario, NIGHTS, scenario.service.seed), picks),
        2 => some_parts(&Reaching::new(&resolved), picks),
        3 => offer(&[Some(60.0), Some(90.0)], false)
            .ok()
            .and_then(|sizes| some_parts(&Floors::new(scenario, sizes), picks)),
        _ => some_parts(&HowSure::new(scenario), picks),
    };
    assert!(wrong.is_none(), "question {which}, parts {picks:?}: {wrong:?}: {draft}");
}

/// Works out one part of each of the first rounds of a long question; what is wild in them, or in what they add up to.
fn some_parts<Q>(question: &Q, picks: [usize; 2]) -> Option<String>
where
    Q: InParts,
    Q::Part: Debug,
    Q::Report: Debug,
{
    let mut parts = Vec::new();
    for pick in picks {
        let wants = question.wants(&parts);
        let want = wants.get(pick % wants.len().max(1))?;
        match question.work(want) {
            Ok(part) => parts.push(part),
            Err(NoPart::Fault(_)) => return None,
            Err(NoPart::Unwanted) => return Some("a part is wanted and is not".to_owned()),
        }
        let wrong = parts.last().and_then(wild);
        // What there is by now is an answer too; a fault in adding up is told.
        let so_far = question.added_up(&parts).ok().flatten();
        let wrong = wrong.or_else(|| so_far.as_ref().and_then(wild));
        if wrong.is_some() {
            return wrong;
        }
    }
    None
}
