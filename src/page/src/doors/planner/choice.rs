//! Owns which rung of the ladder is looked at, and the ladder as the picture wants it.

use crate::charts::ladder::{Held, Ladder, Rung};
use hearthload::{
    report::{FloorsReport, RungReport},
    scenario::Scenario,
};

const METRE_CM: f64 = 100.0;
const MILLIMETRES: f64 = 10.0;

/// A rung of the ladder, told by what it is: its place changes while others are still worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Choice {
    floor_mm: u32,
    /// With the burner.
    pub assist: bool,
}

impl Choice {
    /// The choice of a rung.
    pub fn of(rung: &RungReport) -> Self {
        Self { floor_mm: (rung.floor_cm * MILLIMETRES).round() as u32, assist: rung.assist }
    }

    /// Its rung.
    pub fn rung(self, report: &FloorsReport) -> Option<&RungReport> {
        report.rungs.iter().find(|rung| Self::of(rung) == self)
    }
}

/// Whether every floor on offer is worked out: only then is one of them the smallest.
pub(crate) fn is_whole(report: &FloorsReport) -> bool {
    report.rungs.len() >= report.of as usize
}

/// The smallest that carries, on wood alone or with the burner.
pub(crate) fn smallest(report: &FloorsReport, assist: bool) -> Option<&RungReport> {
    report.rungs.iter().find(|rung| rung.carries && rung.assist == assist).filter(|_| is_whole(report))
}

/// The smallest for the evening as planned: on wood, else with gas.
pub(crate) fn planned(report: &FloorsReport) -> Option<&RungReport> {
    smallest(report, false).or_else(|| smallest(report, true))
}

/// The smallest that holds nine nights in ten.
pub(crate) fn nine(report: &FloorsReport) -> Option<&RungReport> {
    report.smallest_nine_in_ten.as_ref().and_then(|name| report.rungs.get(name.index))
}

/// The rung that is looked at: the one picked, else the one to buy.
pub(crate) fn chosen(report: &FloorsReport, picked: Option<Choice>) -> Option<Choice> {
    picked
        .filter(|choice| choice.rung(report).is_some_and(|rung| !rung.too_small))
        .or_else(|| nine(report).or_else(|| planned(report)).map(Choice::of))
}

/// What a rung holds, in pieces ordered in the busiest hour: so the ladder's post and the verdict are one measure.
pub(crate) fn held(report: &FloorsReport, rung: &RungReport) -> Held {
    match rung {
        RungReport { too_small: true, .. } => Held::TooSmall,
        rung if rung.covers_times > 0.0 => Held::Most(rung.covers_times * report.asks_per_h),
        _ => Held::Nothing,
    }
}

/// The ladder as the picture wants it.
pub(crate) fn ladder(report: &FloorsReport, scenario: &Scenario, chosen: Option<Choice>) -> Ladder {
    let deep = scenario.oven.depth_m / scenario.oven.width_m;
    let mut widths: Vec<f64> =
        hearthload::plan::floors::places(scenario, &Default::default()).iter().map(|place| place.floor_m).collect();
    widths.dedup();
    if is_whole(report) {
        // The answer may be to an older scenario, with other floors on offer.
        widths = report.rungs.iter().map(|rung| rung.floor_cm / METRE_CM).collect();
        widths.dedup();
    }
    let of = |width_m: f64, assist: bool| {
        let at = |rung: &&RungReport| rung.assist == assist && (rung.floor_cm / METRE_CM - width_m).abs() < 1e-3;
        report.rungs.iter().find(at).map_or(Held::Awaited, |rung| held(report, rung))
    };
    let place = |rung: Option<&RungReport>| {
        let width_m = rung?.floor_cm / METRE_CM;
        widths.iter().position(|width| (width - width_m).abs() < 1e-3)
    };
    Ladder {
        shape: scenario.oven.shape,
        fire_side: scenario.oven.fire_side,
        asks: report.asks_per_h,
        unit: "pieces an hour".to_owned(),
        smallest_on_wood: place(smallest(report, false)),
        smallest_with_gas: place(smallest(report, true)),
        nine_in_ten: place(nine(report)),
        chosen: place(chosen.and_then(|choice| choice.rung(report))),
        rungs: widths
            .iter()
            .map(|&width_m| Rung {
                width_m,
                depth_m: width_m * deep,
                bed_share: scenario.oven.bed_share,
                on_wood: of(width_m, false),
                with_gas: of(width_m, true),
            })
            .collect(),
    }
}
