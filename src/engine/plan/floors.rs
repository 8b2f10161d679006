//! Owns the ladder of floors: every size on offer with and without a burner, the smallest that carries, and the smallest that
//! carries nine nights in ten.

use super::burner::burner_for;
use super::feeding_rule::{Rhythm, fed, heat_up, pace};
use super::nights::{NIGHTS_ACCURACY, NightSummary, Nights, fold, one, wilson};
use super::reach::SEARCH_ACCURACY;
use super::rung::{Rung, rung};
use super::week::leak_of;
use crate::hearth::fault::{Fault, Noted};
use crate::scenario::{Oven, Scenario};
use crate::service::night::Ready;

/// How doorway, dome and burner go with the floor, in words.
pub const SCALING: &str = "Dome rise, doorway width and doorway height keep the proportion they have in this scenario, within \
    what the fields allow; layers, the fire's share of the floor and the wood stay. The burner is the one on offer, under every \
    floor.";

/// Nights a floor is tried on before it is said to carry nine in ten.
pub const TRIAL_NIGHTS: u32 = 60;
/// Paces of service the nights are tried at, over the laziest. Our choice.
const MORE_WOOD: [f64; 5] = [1.0, 1.2, 1.45, 1.75, 2.1];
/// Nine nights in ten.
const NINE_IN_TEN: f64 = 0.9;
/// Limits of the fields that scale, m: dome rise, doorway width, doorway height.
const RISE_M: [f64; 2] = [0.2, 1.5];
const DOOR_WIDTH_M: [f64; 2] = [0.2, 1.5];
const DOOR_HEIGHT_M: [f64; 2] = [0.1, 0.6];

/// The same where doorway and dome are kept, in words.
pub const AS_GIVEN: &str = "Dome rise and doorway stay as this scenario has them under every floor; layers, the fire's share of \
    the floor and the wood too. The burner is the one on offer.";

/// What is offered beside the scenario's smallest, largest and step.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Offer {
    /// Widths, m, in the place of smallest, largest and step; none where the scenario's are taken.
    pub sizes_m: Vec<f64>,
    /// Doorway and dome stay as given.
    pub keeps_doorway: bool,
}

/// A rung's place on the ladder.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Width of the floor, m.
    pub floor_m: f64,
    /// With a burner.
    pub assist: bool,
}

/// The places of a ladder, in order.
#[must_use]
pub fn places(scenario: &Scenario, offer: &Offer) -> Vec<Place> {
    let planning = &scenario.planning;
    let mut sizes_m = offer.sizes_m.clone();
    let mut n = 0.0;
    while offer.sizes_m.is_empty()
        && planning.floor_smallest_m + n * planning.floor_step_m <= planning.floor_largest_m + 1e-9
    {
        sizes_m.push(planning.floor_smallest_m + n * planning.floor_step_m);
        n += 1.0;
    }
    crate::numerics::order::rising(&mut sizes_m);
    sizes_m.dedup();
    sizes_m.into_iter().flat_map(|floor_m| [false, true].map(|assist| Place { floor_m, assist })).collect()
}

/// The scenario with another floor.
#[must_use]
pub fn at_place(scenario: &Scenario, offer: &Offer, place: Place) -> Scenario {
    let mut other = scenario.clone();
    let times = place.floor_m / scenario.oven.width_m;
    let within = |value: f64, limits: [f64; 2]| value.clamp(limits[0], limits[1]);
    let was: &Oven = &scenario.oven;
    let oven = &mut other.oven;
    oven.width_m = place.floor_m;
    oven.depth_m = was.depth_m * times;
    if offer.keeps_doorway {
        oven.door_width_m = was.door_width_m.min(0.9 * place.floor_m);
    } else {
        oven.dome_rise_m = within(was.dome_rise_m * times, RISE_M);
        oven.door_width_m = within(was.door_width_m * times, DOOR_WIDTH_M);
        oven.door_height_m = within(was.door_height_m * times, DOOR_HEIGHT_M).min(0.9 * oven.dome_rise_m);
    }
    oven.assist = place.assist.then(|| match &was.assist {
        Some(assist) => crate::scenario::Assist { rated_w: scenario.planning.assist_rated_w, ..assist.clone() },
        None => burner_for(scenario, scenario.planning.assist_rated_w),
    });
    other
}

/// Whether every ordered dish finds at least one spot on this floor.
#[must_use]
pub fn dishes_fit(ready: &Ready) -> bool {
    ready.scenario.menu.iter().zip(&ready.spots.fit).all(|(dish, &fit)| fit > 0 || dish.per_100_covers <= 0.0)
}

/// Works one rung out; `None` where a dish does not fit the floor.
///
/// # Errors
/// What the computing did not get right.
pub fn rung_at(scenario: &Scenario, offer: &Offer, place: Place) -> Result<Option<Rung>, Fault> {
    let ready = Ready::new(&at_place(scenario, offer, place), SEARCH_ACCURACY);
    let rung = dishes_fit(&ready).then(|| rung(&ready, leak_of(scenario, &ready.noted)));
    ready.noted.first().map_or(Ok(rung), Err)
}

/// The nights of a floor if it carries nine in ten even at the lower end of the fraction's interval, fed at the laziest pace or
/// somewhat above it: the laziest holds the evening as planned, and leaves nothing for a worse one.
///
/// # Errors
/// What the computing did not get right.
pub fn nine_in_ten(
    scenario: &Scenario,
    offer: &Offer,
    place: Place,
    rhythm: &Rhythm,
    cleanest_kg_h: f64,
) -> Result<Option<Nights>, Fault> {
    let ready = Ready::new(&at_place(scenario, offer, place), NIGHTS_ACCURACY);
    let nights = MORE_WOOD.into_iter().find_map(|more| {
        let serve_kg_h = (more * rhythm.serve_kg_h).min(cleanest_kg_h);
        nine_at(&fed(&ready, &Rhythm { serve_kg_h, ..*rhythm }), scenario.service.seed)
    });
    ready.noted.first().map_or(Ok(nights), Err)
}

fn nine_at(ready: &Ready, seed: u64) -> Option<Nights> {
    let mut run: Vec<NightSummary> = Vec::new();
    for index in 0..TRIAL_NIGHTS {
        run.push(one(ready, seed, u64::from(index)));
        let broken = run.iter().filter(|n| !n.held()).count() as u32;
        if wilson(TRIAL_NIGHTS - broken, TRIAL_NIGHTS)[0] < NINE_IN_TEN {
            return None;
        }
    }
    Some(fold(run))
}

/// Two small floors in the place of one.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct TwoSmall {
    /// Size of each, m.
    pub floor_m: f64,
    /// Wood of a week for both, kg.
    pub wood_kg_week: f64,
    /// Heat up the hood from both, at their worst, W.
    pub hood_w: f64,
}

/// The smallest floor, below a size, of which two carry the evening: half the covers and half the hands (rounded up) each.
///
/// # Errors
/// What the computing did not get right.
pub fn two_small(scenario: &Scenario, offer: &Offer, below_m: f64) -> Result<Option<TwoSmall>, Fault> {
    let noted = Noted::default();
    let sizes = places(scenario, offer).into_iter().filter(|p| !p.assist && p.floor_m < below_m - 1e-9);
    let half = |place: &Place| {
        let mut ready = Ready::new(&at_place(scenario, offer, *place), SEARCH_ACCURACY);
        ready.noted = noted.clone();
        ready.with(|s| {
            s.service.covers.iter_mut().for_each(|c| *c *= 0.5);
            s.service.batches.iter_mut().for_each(|b| b.pieces = b.pieces.div_ceil(2));
            s.service.hands = s.service.hands.div_ceil(2);
        })
    };
    let carries = |ready: &Ready| {
        let heating = heat_up(ready);
        dishes_fit(ready) && pace(ready, &heating, 0.5 * heating.cleanest_kg_h, false).breach.is_none()
    };
    let found = sizes.map(|place| (place, half(&place))).find(|(_, ready)| carries(ready));
    let two = found.map(|(place, ready)| {
        let each = rung(&ready, leak_of(scenario, &noted));
        let (wood_kg_week, hood_w) = (2.0 * each.week.wood_kg, 2.0 * each.house.hood_w);
        TwoSmall { floor_m: place.floor_m, wood_kg_week, hood_w }
    });
    noted.first().map_or(Ok(two), Err)
}
