//! Owns the question about floors, in parts: one floor at a time, then the nights on those that carry, then two small ones.

use serde::{Deserialize, Serialize};

use serde_json::Value;

use super::in_parts::{self, InParts, NoPart};
use super::refusal;
use crate::plan::feeding_rule::Rhythm;
use crate::plan::floors::{Offer, Place, TwoSmall, nine_in_ten, places, rung_at, two_small};
use crate::plan::nights::Nights;
use crate::report::floors_build::{self, Ladder};
use crate::report::{FloorsReport, RungReport};
use crate::scenario::{Problem, Scenario};

/// Paces a rung is fed at lie between these, kg/h, and so does what is asked about it.
const PACE_KG_H: [f64; 2] = [0.01, 100.0];

/// A floor on offer is as wide as this, cm: the limits of `oven.width_cm`.
const SIZE_CM: [f64; 2] = [50.0, 300.0];
/// So many sizes at most.
const SIZES_MOST: usize = 40;
const CM_M: f64 = 0.01;

/// Request: `{"question": "floors", "scenario": {...}, "sizes_cm": [90, 105], "keep_doorway": true}`, whole or in parts; without
/// sizes the scenario's `planning` says which floors are on offer, and doorway and dome scale with the floor unless they are kept.
///
/// # Errors
/// `{"problems": [...]}` where the request is not right.
pub fn asked(request: &Value, scenario: &Scenario) -> Result<String, Value> {
    let typed = request.get("sizes_cm").and_then(Value::as_array).map_or(&[][..], Vec::as_slice);
    let sizes: Vec<Option<f64>> = typed.iter().map(Value::as_f64).collect();
    let offer = offer(&sizes, super::wants(request, "keep_doorway")).map_err(|problem| refusal(&[problem]))?;
    in_parts::asked(request, &Floors::new(scenario, offer))
}

/// What is offered: widths in cm, `None` for what is no number.
///
/// # Errors
/// What is wrong with the widths.
pub fn offer(sizes_cm: &[Option<f64>], keeps_doorway: bool) -> Result<Offer, Problem> {
    let fit = |size: &Option<f64>| size.filter(|cm| (SIZE_CM[0]..=SIZE_CM[1]).contains(cm)).map(|cm| CM_M * cm);
    let sizes_m: Option<Vec<f64>> = sizes_cm.iter().map(fit).collect();
    sizes_m.filter(|sizes_m| sizes_m.len() <= SIZES_MOST).map(|sizes_m| Offer { sizes_m, keeps_doorway }).ok_or_else(
        || {
            let allowed = format!("{} to {}, at most {SIZES_MOST} of them", SIZE_CM[0], SIZE_CM[1]);
            Problem {
                field: "sizes_cm".to_owned(),
                given: format!("{} sizes", sizes_cm.len()),
                says: format!("Floors on offer are widths in cm, {allowed}."),
                allowed,
                unit: "cm".to_owned(),
            }
        },
    )
}

/// Every floor on offer.
pub struct Floors<'s> {
    scenario: &'s Scenario,
    offer: Offer,
    places: Vec<Place>,
}

/// Something to be worked out.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Want {
    /// One floor, by its place.
    Floor(usize),
    /// The nights on a floor that carries, fed as it was.
    Nights(Fed),
    /// The smallest of two floors, under this size, m.
    TwoUnderM(f64),
}

/// How a floor was fed.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fed {
    place: usize,
    rhythm: Rhythm,
    cleanest_kg_h: f64,
}

/// What was worked out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Part {
    /// One floor, and how it was fed where it carries.
    Floor {
        /// Its place.
        place: usize,
        /// The floor.
        rung: Box<RungReport>,
        /// How it was fed; none where a dish does not fit.
        fed: Option<Fed>,
    },
    /// The nights on a floor; none where fewer than nine in ten held.
    Nights {
        /// Its place.
        place: usize,
        /// The nights.
        nights: Option<Nights>,
    },
    /// Two small ones, if any do.
    Two {
        /// They.
        two: Option<TwoSmall>,
    },
}

impl<'s> Floors<'s> {
    /// The floors on offer.
    #[must_use]
    pub fn new(scenario: &'s Scenario, offer: Offer) -> Self {
        Self { scenario, places: places(scenario, &offer), offer }
    }

    /// How many floors there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.places.len()
    }

    fn ladder(&self, parts: &[Part]) -> Ladder {
        let mut rungs: Vec<(usize, &RungReport)> = Vec::new();
        let mut ladder = Ladder { of: self.places.len(), keeps_doorway: self.offer.keeps_doorway, ..Ladder::default() };
        for part in parts {
            match part {
                Part::Floor { place, rung, .. } if !rungs.iter().any(|(known, _)| known == place) => {
                    rungs.push((*place, rung));
                }
                Part::Two { two } => ladder.two_small = *two,
                _ => {}
            }
        }
        crate::numerics::order::by(&mut rungs, |a, b| a.0.cmp(&b.0));
        let held = |place: usize| nights_on(parts, place).flatten().map(|nights| (place, nights.clone()));
        if rungs.len() >= self.places.len() {
            ladder.nine_in_ten = (0..self.places.len()).find_map(held);
        }
        ladder.rungs = rungs.into_iter().map(|(_, rung)| rung.clone()).collect();
        floors_build::leave_burners_off(&mut ladder.rungs);
        ladder
    }

    /// The next floor whose nights are to be run: the smallest that carries, until one holds.
    fn next_nights(&self, parts: &[Part]) -> Option<Want> {
        let fed = |place: usize| {
            parts.iter().find_map(|part| match part {
                Part::Floor { place: at, rung, fed } if *at == place && rung.carries => *fed,
                _ => None,
            })
        };
        for place in 0..self.places.len() {
            let Some(fed) = fed(place) else { continue };
            match nights_on(parts, place) {
                None => return Some(Want::Nights(fed)),
                Some(Some(_)) => return None,
                Some(None) => {}
            }
        }
        None
    }
}

/// The nights on a floor, if they were run, and if they held.
fn nights_on(parts: &[Part], place: usize) -> Option<Option<&Nights>> {
    parts.iter().find_map(|part| match part {
        Part::Nights { place: at, nights } if *at == place => Some(nights.as_ref()),
        _ => None,
    })
}

impl InParts for Floors<'_> {
    type Want = Want;
    type Part = Part;
    type Report = FloorsReport;

    fn wants(&self, parts: &[Part]) -> Vec<Want> {
        let has = |place: usize| parts.iter().any(|part| matches!(part, Part::Floor { place: at, .. } if *at == place));
        // The largest first, since they take longest.
        let floors: Vec<Want> = (0..self.places.len()).rev().filter(|&place| !has(place)).map(Want::Floor).collect();
        if !floors.is_empty() {
            return floors;
        }
        let mut wants: Vec<Want> = self.next_nights(parts).into_iter().collect();
        if !parts.iter().any(|part| matches!(part, Part::Two { .. })) {
            let smallest = self.ladder(parts).smallest();
            let under_m = smallest.and_then(|place| self.places.get(place)).map(|place| place.floor_m);
            let largest_m = self.places.last().map_or(0.0, |place| place.floor_m);
            wants.push(Want::TwoUnderM(under_m.unwrap_or(largest_m + 1.0)));
        }
        wants
    }

    fn work(&self, want: &Want) -> Result<Part, NoPart> {
        match want {
            Want::Floor(place) => {
                let at = *self.places.get(*place).ok_or(NoPart::Unwanted)?;
                let Some(rung) = rung_at(self.scenario, &self.offer, at).map_err(NoPart::Fault)? else {
                    let rung = Box::new(floors_build::too_small(at));
                    return Ok(Part::Floor { place: *place, rung, fed: None });
                };
                let fed = Fed { place: *place, rhythm: rung.rhythm, cleanest_kg_h: rung.heating.cleanest_kg_h };
                let rung = Box::new(floors_build::rung(self.scenario, at, &rung));
                Ok(Part::Floor { place: *place, rung, fed: Some(fed) })
            }
            Want::Nights(fed) => {
                let at = *self.places.get(fed.place).ok_or(NoPart::Unwanted)?;
                let paces = [fed.rhythm.heat_kg_h, fed.rhythm.serve_kg_h, fed.cleanest_kg_h];
                let is_one = paces.iter().all(|pace| (PACE_KG_H[0]..=PACE_KG_H[1]).contains(pace));
                if !is_one || !(0.0..self.scenario.service.end).contains(&fed.rhythm.light_at) {
                    return Err(NoPart::Unwanted);
                }
                let nights = nine_in_ten(self.scenario, &self.offer, at, &fed.rhythm, fed.cleanest_kg_h)
                    .map_err(NoPart::Fault)?;
                Ok(Part::Nights { place: fed.place, nights })
            }
            Want::TwoUnderM(under_m) => {
                two_small(self.scenario, &self.offer, *under_m).map(|two| Part::Two { two }).map_err(NoPart::Fault)
            }
        }
    }

    fn report(&self, parts: &[Part]) -> Option<FloorsReport> {
        (!parts.is_empty()).then(|| floors_build::floors(self.scenario, self.ladder(parts)))
    }
}
