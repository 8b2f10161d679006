//! Owns the resting of a side of the floor: which side is coolest, and whether leaving it alone for a while helps, played both ways.

use super::from_now::left_over;
use super::sheet::{GUN_WITHIN_K, Side};
use crate::hearth::oven::Hearth;
use crate::hearth::plan::FloorPlan;
use crate::scenario::ClockS;
use crate::service::night::{Keep, Ready, run_until};
use crate::service::orders::Order;
use crate::service::trace::Bake;
use crate::units::time::QUARTER_S;

/// A side is rested for so long, s. Our choice.
pub const REST_S: f64 = QUARTER_S;
/// What came of it is looked at until so long after the rest began, s. Our choice.
const LOOK_S: f64 = 3.0 * QUARTER_S;
/// A rest that makes the coolest load this much warmer is worth saying, K. Our choice.
const WORTH_K: f64 = 2.0;
/// Orders may wait this much longer on average while a side rests, s. Our choice.
const WAIT_MORE_S: f64 = 20.0;

/// Area-weighted centre of the food's floor, m.
fn centre(plan: &FloorPlan) -> [f64; 2] {
    let food = || plan.cells.iter().filter(|cell| !cell.under_fire);
    let weight: f64 = food().map(|cell| cell.area_m2).sum();
    let mean = |at: &dyn Fn(&crate::hearth::plan::Cell) -> f64| {
        food().map(|cell| cell.area_m2 * at(cell)).sum::<f64>() / weight
    };
    [mean(&|cell| cell.x_m), mean(&|cell| cell.y_m)]
}

/// Whether a place of the floor lies on a side, as the cook sees it.
fn is_on(plan: &FloorPlan, side: Side, [centre_x, centre_y]: [f64; 2], x: f64, y: f64) -> bool {
    match side {
        Side::Front => y < centre_y,
        Side::Rear => y >= centre_y,
        Side::Left => (x < centre_x) != plan.mirrored,
        Side::Right => (x < centre_x) == plan.mirrored,
    }
}

/// The side of the food floor that is coolest against the one across from it, and by how much, if a gun could tell.
#[must_use]
pub fn coolest_side(plan: &FloorPlan, face_c: &[f64]) -> Option<(Side, f64)> {
    let middle = centre(plan);
    let mean = |side: Side| {
        let (mut sum, mut area) = (0.0, 0.0);
        for (cell, t) in plan.cells.iter().zip(face_c).filter(|(cell, _)| !cell.under_fire) {
            if is_on(plan, side, middle, cell.x_m, cell.y_m) {
                sum += cell.area_m2 * t;
                area += cell.area_m2;
            }
        }
        if area > 0.0 { sum / area } else { f64::NAN }
    };
    let cooler = |one: Side, other: Side| {
        let by = mean(other) - mean(one);
        if by >= 0.0 { (one, by) } else { (other, -by) }
    };
    let (across, along) = (cooler(Side::Left, Side::Right), cooler(Side::Front, Side::Rear));
    let most = if across.1 >= along.1 { across } else { along };
    (most.1 > GUN_WITHIN_K).then_some(most)
}

/// What became of the loads of three quarter hours.
struct Came {
    missed: usize,
    lowest_c: f64,
    wait_s: f64,
    started: usize,
}

impl Came {
    fn of(bakes: &[Bake]) -> Self {
        Self {
            missed: bakes.iter().filter(|b| !b.in_band).count(),
            lowest_c: bakes.iter().map(|b| b.at_load_c).fold(f64::INFINITY, f64::min),
            wait_s: bakes.iter().map(|b| b.from_s - b.ordered_s).sum::<f64>() / bakes.len().max(1) as f64,
            started: bakes.len(),
        }
    }
}

/// Plays on from an oven's state with a side left alone for a quarter hour and without: whether the loads of the next three
/// quarter hours are better for it, and none the fewer. `left` is what is still to be baked.
#[must_use]
pub fn helps(ready: &Ready, standing: &Hearth<'_>, left: &[Order], side: Side) -> bool {
    let at: ClockS = standing.time_s;
    let soon: Vec<Order> = left.iter().copied().filter(|order| order.at_s < at + LOOK_S).collect();
    if soon.is_empty() {
        return false;
    }
    let plan = &ready.build.plan;
    let middle = centre(plan);
    let resting =
        Ready { spots: ready.spots.without(|spot| is_on(plan, side, middle, spot.x_m, spot.y_m)), ..ready.clone() };
    let played = |first: &Ready| {
        let mut hearth = standing.clone();
        let rested = run_until(first, &mut hearth, soon.clone(), Keep::default(), at + REST_S);
        // What lies on the floor then is taken off and, where it only just went in, loaded again.
        hearth.lay(&[], &ready.laws);
        hearth.open_ledger();
        let open = left_over(ready, &soon, &rested, at + REST_S);
        let after = run_until(ready, &mut hearth, open, Keep::default(), at + LOOK_S);
        Came::of(&[rested.bakes, after.bakes].concat())
    };
    let (with, without) = (played(&resting), played(ready));
    let fewer_missed = with.missed < without.missed;
    let warmer = with.missed == without.missed && with.lowest_c >= without.lowest_c + WORTH_K;
    (fewer_missed || warmer) && with.started >= without.started && with.wait_s <= without.wait_s + WAIT_MORE_S
}
