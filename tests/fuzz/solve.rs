//! Owns the whole engine under evenings nobody would plan: each is played, judged and reported with finite numbers in reason.

use crate::{dice::Dice, evening::evening, finite::broken_number};
use hearthload::hearth::build::{Accuracy, DEFAULT_ACCURACY};
use hearthload::numerics::column::{DEFAULT_FINENESS, Fineness};
use hearthload::report::{build::from_trace, text};
use hearthload::scenario;
use hearthload::service::judge::judge;
use hearthload::service::night::{Keep, Ready, play};

/// A cut so coarse that many nights run; what must hold holds on every cut.
const COARSE: Accuracy = Accuracy {
    cell_m: 0.3,
    fineness: Fineness { growth: 2.0, coarsest_m: 0.04, ..DEFAULT_FINENESS },
    busy_step_s: 20.0,
    idle_step_s: 60.0,
    ..DEFAULT_ACCURACY
};
/// The ledger closes to this share of its throughput.
const CLOSES: f64 = 1e-9;
/// Nothing in an oven is colder than deep-frozen food or hotter than a flame, degC.
const IN_REASON_C: std::ops::RangeInclusive<f64> = -40.0..=2200.0;

/// A night out of bytes.
pub(crate) fn solve(bytes: &[u8]) {
    let draft = evening(&mut Dice::new(bytes));
    let Ok(resolved) = scenario::resolve(&draft) else { return };
    let ready = Ready::new(&resolved.scenario, COARSE);
    let trace = play(&ready, Keep { picture_every_s: Some(900.0) });
    let ledger = &trace.ledger;
    let open = ledger.residual_j().abs() / ledger.throughput_j().max(1.0);
    assert!(open <= CLOSES, "the ledger leaves {open:e} open: {draft}");
    for quarter in &trace.quarters {
        for c in [quarter.mean_c, quarter.lowest_c, quarter.dome_c] {
            assert!(IN_REASON_C.contains(&c), "{c} degC at {} s: {draft}", quarter.at_s);
        }
    }
    let (ordered, begun) = (trace.ordered.iter().sum::<u32>() as usize, trace.bakes.len());
    assert!(ordered >= begun, "{begun} pieces were loaded, {ordered} ordered: {draft}");
    let judgement = judge(&ready, &trace);
    let report = from_trace(&resolved.assumed, &ready, &trace, &judgement, true);
    let broken = broken_number(&format!("{report:?}"));
    assert!(broken.is_none(), "a number that is none, after {broken:?}: {draft}");
    let said = text::carry(&report);
    assert!(!said.contains("NaN") && !said.contains("inf "), "{said}: {draft}");
}
