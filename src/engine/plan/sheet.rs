//! Owns the shift sheet: what the cook has on the wall, read off the run of the plan, its advice played before it is given.

use super::caps::{Cap, QuarterCaps, caps};
use super::from_now::left_over;
use super::rest::{coolest_side, helps};
use super::trial::{Bench, Trial};
use crate::hearth::oven::Hearth;
use crate::hearth::plan::FloorPlan;
use crate::numerics::order;
use crate::scenario::ClockS;
use crate::service::night::{Keep, Ready, run_until};
use crate::service::orders::{Order, orders};
use crate::service::trace::Picture;
use crate::units::time::QUARTER_S;

/// A part of the floor as the cook sees it from the doorway.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Left.
    Left,
    /// Right.
    Right,
    /// Near the doorway.
    Front,
    /// Rear.
    Rear,
}

/// Sides that cannot be told apart by a gun, K: its own error on stone. From memory (2-5 K).
pub const GUN_WITHIN_K: f64 = 5.0;
/// A reading this far off the sheet asks for an act, K. Our choice.
pub const ACT_AT_K: f64 = 15.0;

/// A reading to be filled in beside the one expected.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// When.
    pub at: ClockS,
    /// Mean of the food floor the plan expects, degC.
    pub floor_c: f64,
    /// Dome the plan expects, degC.
    pub dome_c: f64,
}

/// A time to leave one side alone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rest {
    /// When it is coolest.
    pub at: ClockS,
    /// Which side.
    pub side: Side,
    /// How much cooler than the other side, K.
    pub cooler_k: f64,
}

/// The sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Caps by dish: what was played and held.
    pub caps: Vec<Cap>,
    /// Caps by quarter hour: those in which anything is started.
    pub quarters: Vec<QuarterCaps>,
    /// Readings by half hour.
    pub readings: Vec<Reading>,
    /// Sides to rest, by time.
    pub rests: Vec<Rest>,
}

/// Readings are written down this often, s.
const READ_EVERY_S: f64 = 1800.0;
/// At most so many rests are named ...
const MOST_RESTS: usize = 3;
/// ... so far apart, s. Our choice.
const APART_S: f64 = 2700.0;

/// Reads the sheet off a plan's run that kept pictures, and plays what it advises.
#[must_use]
pub fn sheet(bench: &Bench, ready: &Ready, trial: &Trial) -> Sheet {
    let (caps, quarters) = caps(bench, trial);
    let mut rests = rests(&ready.build.plan, &trial.trace.pictures);
    rests.retain(|rest| rest_helps(ready, rest));
    Sheet { caps, quarters, readings: readings(trial), rests }
}

/// Whether a side is better left alone then: the evening is played up to that moment, and on from it both ways.
fn rest_helps(ready: &Ready, rest: &Rest) -> bool {
    let mut hearth = Hearth::new(&ready.build, &ready.scenario);
    let all = orders(&ready.scenario);
    let early: Vec<Order> = all.iter().copied().filter(|order| order.at_s < rest.at).collect();
    let trace = run_until(ready, &mut hearth, early, Keep::default(), rest.at);
    hearth.lay(&[], &ready.laws);
    hearth.open_ledger();
    helps(ready, &hearth, &left_over(ready, &all, &trace, rest.at), rest.side)
}

/// The floor and the dome of a run, by half hour.
#[must_use]
pub fn readings(trial: &Trial) -> Vec<Reading> {
    let ends = trial.trace.quarters.iter().map(|q| (q.at_s + QUARTER_S, q));
    // What a gun shows under spread coals, or just after them, says nothing of the floor.
    let spread = |at: f64| trial.cadence.evening.spread.is_some_and(|[from, to]| (from..to + QUARTER_S).contains(&at));
    ends.filter(|(at, _)| *at > trial.cadence.light_at && (at / READ_EVERY_S).fract().abs() < 1e-9 && !spread(*at))
        .map(|(at, q)| Reading { at, floor_c: q.mean_c, dome_c: q.dome_c })
        .collect()
}

fn rests(plan: &FloorPlan, pictures: &[Picture]) -> Vec<Rest> {
    let mut found: Vec<Rest> = pictures
        .iter()
        .filter_map(|p| coolest_side(plan, &p.face_c).map(|(side, cooler_k)| Rest { at: p.at_s, side, cooler_k }))
        .collect();
    order::by(&mut found, |a, b| b.cooler_k.total_cmp(&a.cooler_k).then(a.at.total_cmp(&b.at)));
    // Not twice about the same time.
    let mut kept: Vec<Rest> = Vec::new();
    for rest in found {
        if kept.len() < MOST_RESTS && kept.iter().all(|k| (k.at - rest.at).abs() >= APART_S) {
            kept.push(rest);
        }
    }
    order::by(&mut kept, |a, b| a.at.total_cmp(&b.at));
    kept
}
