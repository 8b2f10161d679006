//! Owns the whole engine under evenings nobody would plan: each is played, judged and reported with finite numbers in reason.

use crate::{dice::Dice, evening::evening, finite::broken_number};
use hearthload::hearth::build::{Accuracy, DEFAULT_ACCURACY};
use hearthload::numerics::column::{DEFAULT_FINENESS, Fineness};
use hearthload::plan::nights::NIGHTS_ACCURACY;
use hearthload::report::{build::from_trace, text};
use hearthload::scenario;
use hearthload::service::judge::judge;
use hearthload::service::night::{Keep, Ready, play};
use hearthload::service::trace::Trace;

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
/// Nothing in an oven is colder than deep-frozen food or hotter than a flame, degC.
const IN_REASON_C: std::ops::RangeInclusive<f64> = -40.0..=2200.0;

/// A temperature that is not in reason, if there is one.
fn wild(trace: &Trace) -> Option<String> {
    trace.quarters.iter().find_map(|quarter| {
        let all = [quarter.mean_c, quarter.lowest_c, quarter.dome_c];
        let c = all.into_iter().find(|c| !IN_REASON_C.contains(c))?;
        Some(format!("{c} degC at {} s", quarter.at_s))
    })
}

/// A night out of bytes.
pub(crate) fn solve(bytes: &[u8]) {
    let draft = evening(&mut Dice::new(bytes));
    let Ok(resolved) = scenario::resolve(&draft) else { return };
    let mut ready = Ready::new(&resolved.scenario, COARSE);
    let mut trace = play(&ready, PICTURES);
    if trace.fault.is_some() || wild(&trace).is_some() {
        // The cut is coarser than any the engine itself takes. On those what does not settle is told, and nothing else is wild.
        for own in [NIGHTS_ACCURACY, DEFAULT_ACCURACY] {
            ready = Ready::new(&resolved.scenario, own);
            trace = play(&ready, PICTURES);
            let wild = wild(&trace);
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
    let judgement = judge(&ready, &trace);
    let report = from_trace(&resolved.assumed, &ready, &trace, &judgement, true);
    let broken = broken_number(&format!("{report:?}"));
    assert!(broken.is_none(), "a number that is none, after {broken:?}: {draft}");
    let said = text::carry(&report);
    assert!(!said.contains("NaN") && !said.contains("inf "), "{said}: {draft}");
}
