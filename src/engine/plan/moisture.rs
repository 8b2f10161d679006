//! Owns what wetter wood changes in a plan: its rhythm, its match and its wood, all by one method.

use super::cadence::Cadence;
use super::trial::{Bench, Leans, Player};
use crate::hearth::build::fuel;

/// Meter readings the plan is worked out for besides the scenario's own, share of dry mass.
pub const WETTER: [f64; 2] = [0.20, 0.25];
/// Intervals for wetter wood are searched between these shares of the plan's, ...
const MOST_FACTOR: f64 = 1.05;
const LEAST_FACTOR: f64 = 0.6;
/// ... in such strides, then to within this.
const STRIDE: f64 = 0.07;
const WITHIN: f64 = 0.03;
/// The match is moved forward by at most this for wetter wood, s.
const EARLIEST_S: f64 = 3.0 * 3600.0;
/// The match is struck this much earlier where wetter wood wants it, s.
const EARLIER_S: f64 = 1800.0;

/// The plan at another reading of the meter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moisture {
    /// Water over dry mass, share.
    pub meter: f64,
    /// Wood of the day over the plan's; `None` where no feeding was found to carry.
    pub times: Option<f64>,
    /// How much earlier the match is struck, s.
    pub earlier_s: f64,
    /// Intervals over the plan's.
    pub factor: f64,
}

/// The plan for the scenario's meter reading and others, all by the same method: the plan's intervals by the largest factor that
/// holds on the coarse oven, pieces counted evenly so that whole pieces do not hide the difference. From the driest on, each is
/// looked for no slower and lit no later than the one before: wetter wood never comes out as needing less.
#[must_use]
pub fn moistures(rough: &Bench, cadence: &Cadence) -> Vec<Moisture> {
    let own = rough.ready.scenario.wood.meter_dry_basis;
    let is_own = |meter: f64| (meter - own).abs() < 1e-9;
    let mut meters: Vec<f64> = WETTER.into_iter().filter(|meter| !is_own(*meter)).collect();
    meters.push(own);
    crate::numerics::order::rising(&mut meters);
    let mut found: Vec<Option<Wood>> = Vec::new();
    let mut bound = Some(Wood { kg: 0.0, factor: MOST_FACTOR, lit: cadence.clone() });
    for &meter in &meters {
        // What does not carry with drier wood is not looked for with wetter.
        let next = bound.as_ref().and_then(|drier| wood_at(rough, cadence, meter, drier));
        bound.clone_from(&next);
        found.push(next);
    }
    let own_kg = meters
        .iter()
        .zip(&found)
        .find(|(meter, _)| is_own(**meter))
        .and_then(|(_, wood)| wood.as_ref().map(|wood| wood.kg));
    let rows = meters.iter().zip(&found).map(|(&meter, wood)| {
        let plain = Moisture { meter, times: Some(1.0), earlier_s: 0.0, factor: 1.0 };
        match (wood, own_kg) {
            _ if is_own(meter) => plain,
            (Some(wood), Some(own_kg)) => Moisture {
                times: Some(if meter < own { (wood.kg / own_kg).min(1.0) } else { (wood.kg / own_kg).max(1.0) }),
                earlier_s: cadence.light_at - wood.lit.light_at,
                factor: wood.factor,
                ..plain
            },
            _ => Moisture { times: None, ..plain },
        }
    });
    rows.collect()
}

/// A day's wood at a reading of the meter.
#[derive(Clone, Debug)]
struct Wood {
    kg: f64,
    factor: f64,
    /// The plan with its match where it has to be.
    lit: Cadence,
}

/// The rhythm for another reading of the meter, no slower than with the drier wood and lit no later.
fn wood_at(rough: &Bench, cadence: &Cadence, meter: f64, drier: &Wood) -> Option<Wood> {
    let mut bench = rough.with(|s| s.wood.meter_dry_basis = meter);
    bench.ready.build.fuel = fuel(&bench.ready.scenario);
    let player = Player::new(&bench);
    let mut lit = drier.lit.clone();
    // Wetter wood may want an earlier match.
    loop {
        if let Some(factor) = slowest(&player, &lit, drier.factor) {
            let kg = lit.slower(factor).pieces_evenly() * bench.piece_kg() + bench.ready.scenario.feeding.kindling_kg;
            return Some(Wood { kg: kg.max(drier.kg), factor, lit });
        }
        let earlier = (lit.light_at - EARLIER_S).max(bench.evening.earliest_light);
        if earlier >= lit.light_at || cadence.light_at - earlier > EARLIEST_S {
            return None;
        }
        lit.light_at = earlier;
    }
}

/// The largest factor on a rhythm's intervals that holds, up to `most`: down from there by strides, then halved.
fn slowest(player: &Player<'_>, cadence: &Cadence, most: f64) -> Option<f64> {
    let leans = |factor: f64| player.try_out(&cadence.slower(factor)).leans();
    let (mut factor, mut bad) = (most, most + STRIDE);
    loop {
        match leans(factor) {
            Leans::Holds => break,
            // Slower still is not looked at: drier wood was found not to bear it.
            Leans::Hot => return None,
            Leans::Cold => bad = factor,
        }
        factor -= STRIDE;
        if factor < LEAST_FACTOR {
            return None;
        }
    }
    while bad - factor > WITHIN && bad <= most {
        let middle = 0.5 * (factor + bad);
        if leans(middle) == Leans::Holds { factor = middle } else { bad = middle }
    }
    Some(factor)
}
