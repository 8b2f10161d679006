//! Owns what a reading in mid-service says of the oven: what the plan expects it to show, and how far within the stone is off where
//! its face is.

use crate::hearth::oven::Hearth;
use crate::hearth::plan::FloorPlan;
use crate::numerics::field::{BLOCK, Field};
use crate::numerics::modes::Modes;
use crate::scenario::{ClockS, FloorReading};
use crate::service::night::Ready;
use crate::units::time::QUARTER_S;

/// What made a reading differ has gone on for at least so long, s: less would be a draught over the face. Our choice.
const LEAST_S: f64 = QUARTER_S;
/// Over the room a floor that reads less than this share of what was expected has cooled as a whole: what it lacks is not the fire of
/// one evening. Our choice.
const OUT_SHARE: f64 = 2.0 / 3.0;
/// No floor is taken to be colder than this over the room, K.
const LEAST_OVER_K: f64 = 1.0;

/// A gun is kept this far from the fire's bed, m: stone beside it reads the fire. Our choice.
pub const FROM_FIRE_M: f64 = 0.15;

/// How far in from the doorway the middle of the floor that bears food lies, m.
#[must_use]
pub fn middle_in_m(plan: &FloorPlan) -> f64 {
    let food = || plan.cells.iter().filter(|cell| !cell.under_fire);
    let area: f64 = food().map(|cell| cell.area_m2).sum();
    food().map(|cell| cell.area_m2 * cell.y_m).sum::<f64>() / area + plan.outline.half_depth_m
}

/// How the oven is taken to differ from the plan's.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Differs {
    /// What was read over what was expected, K.
    pub read_k: f64,
    /// Since when floor and dome are taken to have had more heat than planned, or less: evenly.
    pub since: ClockS,
    /// The floor's and the dome's faces over the plan's, K.
    pub face_k: f64,
    /// The underside of the floor's stone over the plan's, K.
    pub underside_k: f64,
}

/// How deep the kitchen reads, m; none by gun.
fn depth_m(ready: &Ready) -> f64 {
    match ready.scenario.oven.reading {
        FloorReading::Gun => 0.0,
        FloorReading::Probe { depth_m } => depth_m,
    }
}

/// Mean of the food floor as this kitchen reads it, degC.
#[must_use]
pub fn shown_c(ready: &Ready, hearth: &Hearth<'_>) -> f64 {
    let depth_m = depth_m(ready);
    if depth_m <= 0.0 {
        return hearth.food_floor_c();
    }
    let cells = &ready.build.plan.cells;
    let food = || (0..cells.len()).filter(|&i| !cells[i].under_fire);
    let area: f64 = food().map(|i| cells[i].area_m2).sum();
    food().map(|i| cells[i].area_m2 * hearth.floor.at_depth_k(i, depth_m)).sum::<f64>() / area + hearth.room_c()
}

/// One column that was cold and has taken up an even flow of heat for so long.
fn heated(modes: &Modes, for_s: f64) -> Field<'_> {
    let mut column = Field::new(modes, 1, &[], [0.0; BLOCK]);
    let mut flow_w_m2 = vec![0.0; column.width()];
    flow_w_m2[0] = 1.0;
    column.advance(for_s, &flow_w_m2, 0.0, &[1.0]);
    column
}

/// Mean of the food floor at a node, K above the room.
fn mean_at_node_k(hearth: &Hearth<'_>, node: usize) -> f64 {
    let cells = &hearth.build.plan.cells;
    let food = || (0..cells.len()).filter(|&i| !cells[i].under_fire);
    let area: f64 = food().map(|i| cells[i].area_m2).sum();
    food().map(|i| cells[i].area_m2 * hearth.floor.at_node_k(i, node)).sum::<f64>() / area
}

/// Sets an oven to a reading. One number does not say what made it, so the likeliest is taken: a fire that has given floor and dome
/// evenly more or less than planned since the match. Heat that comes evenly goes in as far as conduction takes it in that time, so
/// the whole profile differs, in the dome by as much at its face as in the floor; the floor's pattern and the traces of what lay on
/// it stay.
pub fn take(ready: &Ready, hearth: &mut Hearth<'_>, read_c: f64, lit_at: ClockS) -> Differs {
    let (expected_c, room_c, underside) = (shown_c(ready, hearth), hearth.room_c(), hearth.build.underside);
    let was_k = [0, underside].map(|node| mean_at_node_k(hearth, node));
    let over_k = (read_c - room_c).max(LEAST_OVER_K);
    let least_k = OUT_SHARE * (expected_c - room_c);
    if over_k < least_k {
        hearth.floor.scale(over_k / least_k);
        hearth.dome.scale(over_k / least_k);
    }
    let since = lit_at.min(hearth.time_s - LEAST_S);
    let for_s = hearth.time_s - since;
    let floor = heated(hearth.build.floor_modes(ready.scenario.oven.assist.is_some()), for_s);
    let lacks_k = over_k + room_c - shown_c(ready, hearth);
    let face_k = lacks_k * floor.faces_k()[0] / floor.at_depth_k(0, depth_m(ready));
    let differs = |column: &Field<'_>| -> Vec<f64> {
        let times = face_k / column.faces_k()[0];
        (0..column.grid().nodes()).map(|node| times * column.at_node_k(0, node)).collect()
    };
    hearth.floor.add(&differs(&floor));
    hearth.dome.add(&differs(&heated(&hearth.build.dome_modes, for_s)));
    let is_k = [0, underside].map(|node| mean_at_node_k(hearth, node));
    Differs { read_k: read_c - expected_c, since, face_k: is_k[0] - was_k[0], underside_k: is_k[1] - was_k[1] }
}
