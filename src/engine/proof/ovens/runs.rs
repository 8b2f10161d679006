//! Owns the runs that whole-oven checks look at: an oven fed by the hour and watched, with or without a service.

use crate::hearth::build::Build;
use crate::hearth::oven::Hearth;
use crate::matter::wood::Fuel;
use crate::scenario::{self, Scenario};
use crate::service::fuel_plan::{Act, calendar};

/// The measured oven as a scenario.
const MEASURED: &str = include_str!("../../../../tests/reference/validation/falciano-2022/scenario.json");
/// Longest step of a run without food, s.
const STEP_S: f64 = 15.0;

/// The oven that stands for the measured one; none if the file no longer reads, which the checks then show as numbers missing.
pub fn measured() -> Option<Scenario> {
    scenario::read(MEASURED).ok().map(|resolved| resolved.scenario)
}

/// Rise of a dome over the width of its floor: a common shape. Common practice, no source.
const RISE_BY_WIDTH: f64 = 0.38;

/// The same oven on a hearth of another width, its dome of the same shape.
#[must_use]
pub fn of_width(scenario: &Scenario, width_m: f64) -> Scenario {
    let mut other = scenario.clone();
    let oven = &mut other.oven;
    (oven.width_m, oven.depth_m, oven.dome_rise_m) = (width_m, width_m, RISE_BY_WIDTH * width_m);
    other
}

/// Feeds piece by piece so that a mass goes in each hour, from ten minutes after the match until a time.
pub fn feed(scenario: &mut Scenario, kg_per_h: f64, until_s: f64) {
    let piece_kg = Fuel::new(&scenario.wood).piece_mass_kg;
    let from = scenario.feeding.light_at + 600.0;
    scenario.feeding.phases.truncate(1);
    if let Some(phase) = scenario.feeding.phases.first_mut() {
        (phase.from, phase.to, phase.pieces) = (from, until_s, 1.0);
        phase.every_s = 3600.0 * piece_kg / kg_per_h;
    }
}

/// Runs an oven with nothing on its floor until a time; `look` is called after every step with the step's length.
pub fn watch<'b>(
    build: &'b Build,
    scenario: &Scenario,
    until_s: f64,
    mut look: impl FnMut(&Hearth<'b>, f64),
) -> Hearth<'b> {
    let mut hearth = Hearth::new(build, scenario);
    let mut acts = calendar(scenario);
    acts.reverse();
    while hearth.time_s < until_s - 1e-6 {
        while let Some((at, act)) = acts.last().copied()
            && at <= hearth.time_s + 1e-9
        {
            acts.pop();
            match act {
                Act::Kindle(kg) => hearth.fire.kindle(kg),
                Act::Feed(pieces) => {
                    hearth.fire.feed(scenario.wood.piece_diameter_m, pieces * scenario.wood.piece_length_m);
                }
                Act::Spread => hearth.fire.spread(true),
                Act::Gather => hearth.fire.spread(false),
                Act::Wipe(kg) => hearth.wipe(kg),
            }
        }
        let next = acts.last().map_or(until_s, |act| act.0.min(until_s));
        let most = STEP_S.min(build.stable_step_s(false, hearth.hottest_k(), hearth.hottest_k()));
        let step_s = most.min((next - hearth.time_s).max(0.25));
        hearth.step(step_s, &mut [], &[]);
        look(&hearth, step_s);
    }
    hearth
}

/// Mean of the dome's upper patches, where a vault is measured, degC.
pub fn vault_c(hearth: &Hearth<'_>) -> f64 {
    let (mut sum, mut area) = (0.0, 0.0);
    for (patch, over_k) in hearth.build.dome.patches.iter().zip(hearth.dome.faces_k()) {
        if patch.high {
            sum += patch.area_m2 * over_k;
            area += patch.area_m2;
        }
    }
    sum / area + hearth.room_c()
}

/// A mean that is weighted by time.
#[derive(Clone, Copy, Debug, Default)]
pub struct Mean {
    sum: f64,
    span_s: f64,
}

impl Mean {
    /// Takes in a value that held for a span.
    pub fn add(&mut self, value: f64, span_s: f64) {
        self.sum += value * span_s;
        self.span_s += span_s;
    }

    /// The mean; NaN of nothing.
    pub fn value(self) -> f64 {
        self.sum / self.span_s
    }
}

/// The argument between two at which a rising function reaches a value, by halving a few times.
pub fn reaches(mut low: f64, mut high: f64, value: f64, f: impl Fn(f64) -> f64) -> f64 {
    for _ in 0..9 {
        let middle = 0.5 * (low + high);
        if f(middle) < value {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}
