//! Owns the spots: where on the floor a dish may lie, which are free, and which one the cook takes.

use crate::hearth::outline::overlaps;
use crate::hearth::oven::{Hearth, Lying};
use crate::hearth::places::Places;
use crate::scenario::{Dish, Footprint, SpotRule};

/// A gun shows tenths of a degree: readings are rounded to this before spots are compared, K.
const READING_K: f64 = 0.1;

/// A place where a dish may lie.
#[derive(Clone, Debug, PartialEq)]
pub struct Spot {
    /// Centre across, m, in the plan's own orientation.
    pub x_m: f64,
    /// Centre along, m.
    pub y_m: f64,
    /// The oven's place there.
    pub place: usize,
    /// Cells it covers, with the area on each, m2.
    pub cover: Vec<(usize, f64)>,
}

/// What is taken of the floor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taken {
    /// Outline.
    pub footprint: Footprint,
    /// Centre across, m.
    pub x_m: f64,
    /// Centre along, m.
    pub y_m: f64,
}

/// The spots of each dish of a menu.
#[derive(Clone, Debug, PartialEq)]
pub struct Spots {
    by_dish: Vec<Vec<Spot>>,
    /// How many of each dish fit at once.
    pub fit: Vec<usize>,
    gap_m: f64,
}

impl Spots {
    /// Each dish's places as its spots; `gap_m` is kept between pieces.
    #[must_use]
    pub fn new(places: &Places, gap_m: f64) -> Self {
        let spot = |&place: &usize| {
            let own = &places.all[place];
            Spot { x_m: own.x_m, y_m: own.y_m, place, cover: own.cover.clone() }
        };
        let by_dish = places.by_dish.iter().map(|own| own.iter().map(spot).collect()).collect();
        Self { by_dish, fit: places.fit.clone(), gap_m }
    }

    /// The same but for spots a cook leaves alone; a dish of which none would be left keeps all of its own.
    #[must_use]
    pub fn without(&self, leave: impl Fn(&Spot) -> bool) -> Self {
        let left = |own: &Vec<Spot>| {
            let some: Vec<Spot> = own.iter().filter(|spot| !leave(spot)).cloned().collect();
            if some.is_empty() { own.clone() } else { some }
        };
        Self { by_dish: self.by_dish.iter().map(left).collect(), ..self.clone() }
    }

    /// Spots of a dish.
    #[must_use]
    pub fn of(&self, dish: usize) -> &[Spot] {
        &self.by_dish[dish]
    }

    /// Spots of a dish on which nothing lies, nor comes to lie.
    fn free(&self, dish: usize, footprint: &Footprint, taken: &[Taken]) -> Vec<usize> {
        let clear = |spot: &Spot| {
            taken.iter().all(|t| !overlaps(footprint, spot.x_m, spot.y_m, &t.footprint, t.x_m, t.y_m, self.gap_m))
        };
        self.by_dish[dish].iter().enumerate().filter(|(_, spot)| clear(spot)).map(|(index, _)| index).collect()
    }

    /// Looks for a spot. The hearth is read as a gun would show it; `rested_since_s` is when each cell was last covered, `taken` what
    /// lies or is about to, asked for only where that has changed.
    #[must_use]
    pub fn look(
        &self,
        want: &Want<'_>,
        hearth: &Hearth<'_>,
        rested_since_s: &[f64],
        taken: impl Fn() -> Vec<Taken>,
        seen: &mut Seen,
    ) -> Found {
        seen.free.resize(self.by_dish.len(), None);
        seen.shown_c.resize(hearth.build.places.all.len(), f64::NAN);
        let free = seen.free[want.dish].get_or_insert_with(|| self.free(want.dish, &want.spec.footprint, &taken()));
        let dish = want.spec;
        let mut found = Found { any_free: !free.is_empty(), ..Found::default() };
        let mut best: Option<(f64, usize)> = None;
        let mut last_resort: Option<(f64, usize)> = None;
        for &index in free.iter() {
            let spot = &self.by_dish[want.dish][index];
            let shown_c = &mut seen.shown_c[spot.place];
            if shown_c.is_nan() {
                *shown_c = hearth.place_k(spot.place) + hearth.room_c();
            }
            let reading = (*shown_c / READING_K).round() * READING_K;
            let outside = (dish.floor_min_c - reading).max(reading - dish.floor_max_c);
            if last_resort.is_none_or(|(so_far, _)| outside < so_far) {
                last_resort = Some((outside, index));
            }
            found.hottest_c = Some(found.hottest_c.map_or(reading, |c: f64| c.max(reading)));
            if outside > 0.0 {
                continue;
            }
            let score = match want.rule {
                SpotRule::Hottest => reading,
                SpotRule::LongestRested => {
                    -spot.cover.iter().map(|&(i, _)| rested_since_s[i]).fold(f64::NEG_INFINITY, f64::max)
                }
            };
            if best.is_none_or(|(so_far, _)| score > so_far) {
                best = Some((score, index));
            }
        }
        found.in_band = best.map(|(_, index)| index);
        found.nearest = last_resort.map(|(_, index)| index);
        found
    }
}

/// What is known of a floor without looking again.
#[derive(Clone, Debug, Default)]
pub struct Seen {
    /// Each dish's free spots; none where what lies or is about to has changed.
    free: Vec<Option<Vec<usize>>>,
    /// What a gun shows of each place, degC; no number where it has not been asked for.
    shown_c: Vec<f64>,
}

impl Seen {
    /// Something was laid, or taken up.
    pub fn moved(&mut self) {
        self.free.fill(None);
    }

    /// The oven is another moment's.
    pub fn later(&mut self) {
        self.shown_c.fill(f64::NAN);
    }
}

/// What is looked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Want<'a> {
    /// Index of the dish.
    pub dish: usize,
    /// The dish.
    pub spec: &'a Dish,
    /// The cook's rule.
    pub rule: SpotRule,
}

/// What was found.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Found {
    /// The spot to take within the dish's floor band.
    pub in_band: Option<usize>,
    /// The free spot nearest to the band.
    pub nearest: Option<usize>,
    /// Whether any spot was free.
    pub any_free: bool,
    /// The hottest reading of a free spot, degC.
    pub hottest_c: Option<f64>,
}

/// A new piece on a spot.
#[must_use]
pub fn lay(dish: usize, spot: &Spot) -> Lying {
    let area_m2 = spot.cover.iter().map(|c| c.1).sum();
    Lying { dish, place: spot.place, cover: spot.cover.clone(), area_m2, base_j: 0.0, top_j: 0.0, gave_w_m2: None }
}
