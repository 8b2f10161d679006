//! Owns what a reading in mid-service says of the oven: what the plan expects it to show, and how far within the stone is off where
//! its face is.

use crate::hearth::oven::Hearth;
use crate::hearth::plan::{Cell, FloorPlan};
use crate::numerics::field::{BLOCK, Field};
use crate::numerics::modes::Modes;
use crate::scenario::{ClockS, FloorReading};
use crate::service::night::Ready;
use crate::service::trace::Trace;
use crate::units::time::{MINUTE_S, QUARTER_S};

/// What made a reading differ has gone on for at least so long, s: less would be a draught over the face. Our choice.
const LEAST_S: f64 = QUARTER_S;
/// Over the room a floor that reads less than this share of what was expected has cooled as a whole: what it lacks is not the fire of
/// one evening. Our choice.
const OUT_SHARE: f64 = 2.0 / 3.0;
/// No floor is taken to be colder than this over the room, K.
const LEAST_OVER_K: f64 = 1.0;

/// The floor is read where nothing has lain for so long, s: then a gun shows stone and no piece's cold face. Our choice, as it is told
/// the cook.
const BARE_FOR_S: f64 = MINUTE_S;
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

/// The cells of the food floor.
fn food_cells(plan: &FloorPlan) -> Vec<usize> {
    (0..plan.cells.len()).filter(|&i| !plan.cells[i].under_fire).collect()
}

/// Where the floor is read.
#[derive(Clone, Debug, PartialEq)]
pub enum ReadOn {
    /// By gun, on these places of dishes.
    Places(Vec<usize>),
    /// All over the floor that bears food: by probe, and where no place is bare.
    Floor,
}

/// Places of dishes away from the fire, whose stone is hotter than any a dish gets.
fn away_from_fire(ready: &Ready) -> Vec<usize> {
    let (plan, places) = (&ready.build.plan, &ready.build.places);
    let bed: Vec<&Cell> = plan.cells.iter().filter(|cell| cell.under_fire).collect();
    let apart_m = FROM_FIRE_M + 0.5 * plan.tile_m;
    let is_away = |cell: &Cell| {
        let square_m2 = |fire: &&Cell| {
            let (x_m, y_m) = (fire.x_m - cell.x_m, fire.y_m - cell.y_m);
            x_m * x_m + y_m * y_m
        };
        bed.iter().map(square_m2).fold(f64::INFINITY, f64::min) >= apart_m * apart_m
    };
    let away: Vec<bool> = plan.cells.iter().map(is_away).collect();
    dishes_places(ready).into_iter().filter(|&p| places.all[p].cover.iter().all(|c| away[c.0])).collect()
}

/// All places of dishes, each once.
fn dishes_places(ready: &Ready) -> Vec<usize> {
    let places = &ready.build.places;
    (0..places.all.len()).filter(|p| places.by_dish.iter().any(|own| own.contains(p))).collect()
}

/// Where the floor is read after what was baked so far: by gun as the cook is told to, on bare floor away from the fire, and where there
/// is none of that wherever it is bare; a probe stands where it stands.
#[must_use]
pub fn read_on(ready: &Ready, trace: &Trace, at: ClockS) -> ReadOn {
    if depth_m(ready) > 0.0 {
        return ReadOn::Floor;
    }
    let bare = |places: &[usize], for_s: f64| {
        let mut covered = vec![false; ready.build.plan.cells.len()];
        for bake in trace.bakes.iter().filter(|bake| bake.to_s.is_none_or(|to| to > at - for_s)) {
            ready.spots.of(bake.dish)[bake.spot].cover.iter().for_each(|&(i, _)| covered[i] = true);
        }
        let is_bare = |p: &usize| ready.build.places.all[*p].cover.iter().all(|c| !covered[c.0]);
        places.iter().copied().filter(is_bare).collect::<Vec<usize>>()
    };
    let (away, all) = (away_from_fire(ready), dishes_places(ready));
    let sought = [(&away, BARE_FOR_S), (&all, BARE_FOR_S), (&away, 0.0), (&all, 0.0)];
    let found = sought.into_iter().map(|(places, for_s)| bare(places, for_s)).find(|places| !places.is_empty());
    found.map_or(ReadOn::Floor, ReadOn::Places)
}

/// What this kitchen reads there, degC: the mean.
#[must_use]
pub fn shown_c(ready: &Ready, hearth: &Hearth<'_>, on: &ReadOn) -> f64 {
    let depth_m = depth_m(ready);
    match on {
        ReadOn::Places(places) => {
            places.iter().map(|&p| hearth.place_k(p)).sum::<f64>() / places.len() as f64 + hearth.room_c()
        }
        ReadOn::Floor if depth_m <= 0.0 => hearth.food_floor_c(),
        ReadOn::Floor => mean_k(hearth, |i| hearth.floor.at_depth_k(i, depth_m)) + hearth.room_c(),
    }
}

/// Mean over the food floor, K above the room.
fn mean_k(hearth: &Hearth<'_>, at_k: impl Fn(usize) -> f64) -> f64 {
    let (cells, food) = (&hearth.build.plan.cells, food_cells(&hearth.build.plan));
    let area: f64 = food.iter().map(|&i| cells[i].area_m2).sum();
    food.iter().map(|&i| cells[i].area_m2 * at_k(i)).sum::<f64>() / area
}

/// One column that was cold and has taken up an even flow of heat for so long.
fn heated(modes: &Modes, for_s: f64) -> Field<'_> {
    let mut column = Field::new(modes, 1, &[], [0.0; BLOCK]);
    let mut flow_w_m2 = vec![0.0; column.width()];
    flow_w_m2[0] = 1.0;
    column.advance(for_s, &flow_w_m2, 0.0, &[1.0]);
    column
}

/// Sets an oven to a reading. One number does not say what made it, so the likeliest is taken: a fire that has given floor and dome
/// evenly more or less than planned since the match. Heat that comes evenly goes in as far as conduction takes it in that time, so
/// the whole profile differs, in the dome by as much at its face as in the floor; the floor's pattern and the traces of what lay on
/// it stay.
pub fn take(ready: &Ready, hearth: &mut Hearth<'_>, read_c: f64, on: &ReadOn, lit_at: ClockS) -> Differs {
    let (expected_c, room_c, underside) = (shown_c(ready, hearth, on), hearth.room_c(), hearth.build.underside);
    let was_k = [0, underside].map(|node| mean_k(hearth, |i| hearth.floor.at_node_k(i, node)));
    let over_k = (read_c - room_c).max(LEAST_OVER_K);
    let least_k = OUT_SHARE * (expected_c - room_c);
    if over_k < least_k {
        hearth.floor.scale(over_k / least_k);
        hearth.dome.scale(over_k / least_k);
    }
    let since = lit_at.min(hearth.time_s - LEAST_S);
    let for_s = hearth.time_s - since;
    let floor = heated(hearth.build.floor_modes(ready.scenario.oven.assist.is_some()), for_s);
    let lacks_k = over_k + room_c - shown_c(ready, hearth, on);
    let face_k = lacks_k * floor.faces_k()[0] / floor.at_depth_k(0, depth_m(ready));
    let differs = |column: &Field<'_>| -> Vec<f64> {
        let times = face_k / column.faces_k()[0];
        (0..column.grid().nodes()).map(|node| times * column.at_node_k(0, node)).collect()
    };
    hearth.floor.add(&differs(&floor));
    hearth.dome.add(&differs(&heated(&hearth.build.dome_modes, for_s)));
    let is_k = [0, underside].map(|node| mean_k(hearth, |i| hearth.floor.at_node_k(i, node)));
    Differs { read_k: read_c - expected_c, since, face_k: is_k[0] - was_k[0], underside_k: is_k[1] - was_k[1] }
}
