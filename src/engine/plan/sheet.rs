//! Owns the shift sheet: what the cook has on the wall, read off the run of the plan.

use super::trial::Trial;
use crate::hearth::plan::FloorPlan;
use crate::numerics::order;
use crate::scenario::ClockS;
use crate::service::night::Ready;
use crate::service::trace::{Picture, Trace};
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

/// The most of a dish the plan was run with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cap {
    /// Index of the dish.
    pub dish: usize,
    /// Pieces started in its busiest quarter hour.
    pub pieces: u32,
    /// Which quarter hour.
    pub at: ClockS,
}

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

/// Pieces started in one quarter hour of the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct QuarterCaps {
    /// Its start.
    pub at: ClockS,
    /// Pieces of each dish, in the order of the caps.
    pub pieces: Vec<u32>,
}

/// The sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Caps by dish.
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

/// Reads the sheet off a plan's run that kept pictures.
#[must_use]
pub fn sheet(ready: &Ready, trial: &Trial) -> Sheet {
    let caps = caps(ready, &trial.trace);
    Sheet {
        quarters: quarters(&caps, &trial.trace),
        caps,
        readings: readings(trial),
        rests: rests(&ready.build.plan, &trial.trace.pictures),
    }
}

fn caps(ready: &Ready, trace: &Trace) -> Vec<Cap> {
    (0..ready.scenario.menu.len())
        .filter_map(|dish| {
            let mut best: Option<Cap> = None;
            for quarter in &trace.quarters {
                let inside = |t: f64| (quarter.at_s..quarter.at_s + QUARTER_S).contains(&t);
                let pieces = trace.bakes.iter().filter(|b| b.dish == dish && inside(b.from_s)).count() as u32;
                if pieces > best.map_or(0, |b| b.pieces) {
                    best = Some(Cap { dish, pieces, at: quarter.at_s });
                }
            }
            best
        })
        .collect()
}

fn quarters(caps: &[Cap], trace: &Trace) -> Vec<QuarterCaps> {
    let started = |dish: usize, at: f64| {
        trace.bakes.iter().filter(|b| b.dish == dish && (at..at + QUARTER_S).contains(&b.from_s)).count() as u32
    };
    let all = trace.quarters.iter().map(|quarter| QuarterCaps {
        at: quarter.at_s,
        pieces: caps.iter().map(|cap| started(cap.dish, quarter.at_s)).collect(),
    });
    all.filter(|quarter| quarter.pieces.iter().any(|&pieces| pieces > 0)).collect()
}

/// The floor and the dome of a run, by half hour.
#[must_use]
pub fn readings(trial: &Trial) -> Vec<Reading> {
    let ends = trial.trace.quarters.iter().map(|q| (q.at_s + QUARTER_S, q));
    ends.filter(|(at, _)| *at > trial.cadence.light_at && (at / READ_EVERY_S).fract().abs() < 1e-9)
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

/// The side of the food floor that is coolest against the one across from it, and by how much, if a gun could tell.
#[must_use]
pub fn coolest_side(plan: &FloorPlan, face_c: &[f64]) -> Option<(Side, f64)> {
    let food = || plan.cells.iter().zip(face_c).filter(|(cell, _)| !cell.under_fire);
    let weight: f64 = food().map(|(cell, _)| cell.area_m2).sum();
    let centre_x = food().map(|(cell, _)| cell.area_m2 * cell.x_m).sum::<f64>() / weight;
    let centre_y = food().map(|(cell, _)| cell.area_m2 * cell.y_m).sum::<f64>() / weight;
    let mean = |on: &dyn Fn(f64, f64) -> bool| {
        let (mut sum, mut area) = (0.0, 0.0);
        for (cell, t) in food().filter(|(cell, _)| on(cell.x_m, cell.y_m)) {
            sum += cell.area_m2 * t;
            area += cell.area_m2;
        }
        if area > 0.0 { sum / area } else { f64::NAN }
    };
    let across = mean(&|x, _| x < centre_x) - mean(&|x, _| x >= centre_x);
    let along = mean(&|_, y| y < centre_y) - mean(&|_, y| y >= centre_y);
    let (low_x, high_x) = if plan.mirrored { (Side::Right, Side::Left) } else { (Side::Left, Side::Right) };
    let (side, cooler_k) = if across.abs() >= along.abs() {
        (if across < 0.0 { low_x } else { high_x }, across.abs())
    } else {
        (if along < 0.0 { Side::Front } else { Side::Rear }, along.abs())
    };
    (cooler_k > GUN_WITHIN_K).then_some((side, cooler_k))
}
