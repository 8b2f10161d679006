//! Owns the places where pieces may lie, and how the trace a piece leaves in the floor's warmth shows at each of them.
//!
//! Tiles of the floor are coarse: one that a piece covers in part is cold under it and warm beside it. Conduction is linear, so
//! the cold a piece leaves under its own outline can be followed by itself: sideways it spreads like heat in an even slab. What
//! a gun would show at a place is then the tiles' mean and, for each trace nearby, what the true spread leaves there less what
//! the tiles' own exchange would. That difference fades with the trace's age; it is fitted by a few columns that fade
//! exponentially (`MODES`), worked out once for each pair of places.

mod spread;
mod tiles;

use super::outline::cover;
use super::packing::pack;
use super::plan::FloorPlan;
use crate::demand::area_m2;
use crate::numerics::order;
use crate::scenario::{Assist, Dish, Footprint};

pub use spread::{MODES, fade_rates_per_s};

/// Diameter that stands for a probe, m. Our choice.
const PROBE_M: f64 = 0.02;

/// A probe is read from the tiles within this many tiles' width about it. Our choice.
const PROBE_TILES: f64 = 2.0;

/// Cells under an outline lie in line if their places spread by less than this, m4. Our choice.
const SPREAD_M4: f64 = 1e-8;

/// Most places of a menu: where there would be more, dishes lie on fewer of the larger dishes' places. Our choice, for memory.
const MOST_PLACES: usize = 1200;

/// A place where a piece may lie.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// The outline that lies there.
    pub footprint: Footprint,
    /// Centre across, m, in the plan's own orientation.
    pub x_m: f64,
    /// Centre along, m.
    pub y_m: f64,
    /// Cells it covers, with the area on each, m2.
    pub cover: Vec<(usize, f64)>,
    /// The area covered, m2.
    pub area_m2: f64,
    /// What each of these cells weighs in the mean under the outline; a slope over the floor is read right.
    pub reads: Vec<(usize, f64)>,
}

impl Place {
    /// An outline set down on the floor.
    #[must_use]
    pub fn new(plan: &FloorPlan, footprint: Footprint, x_m: f64, y_m: f64) -> Self {
        let cover = cover(plan, &footprint, x_m, y_m);
        let area_m2 = cover.iter().map(|c| c.1).sum();
        let reads = weights(plan, &cover, area_m2, x_m, y_m);
        Self { footprint, x_m, y_m, cover, area_m2, reads }
    }

    /// A probe in the stone, read from the tiles around it on its side of the bed's line.
    fn probe(plan: &FloorPlan, (x_m, y_m): (f64, f64)) -> Self {
        let mut place = Self::new(plan, Footprint::Round { diameter_m: PROBE_M }, x_m, y_m);
        let diameter_m = PROBE_TILES * plan.tile_m;
        let in_bed = |cell: usize| plan.cells[cell].under_fire;
        let mut around = cover(plan, &Footprint::Round { diameter_m }, x_m, y_m);
        around.retain(|&(cell, _)| in_bed(cell) == in_bed(plan.cell_at(x_m, y_m)));
        let area_m2 = around.iter().map(|c| c.1).sum();
        place.reads = weights(plan, &around, area_m2, x_m, y_m);
        place
    }

    /// Mean of a field under it.
    #[must_use]
    pub fn mean(&self, field: &[f64]) -> f64 {
        self.reads.iter().map(|&(i, weight)| weight * field[i]).sum()
    }
}

/// Weights of the cells under an outline, near their shares of its area, that read a slope over the floor as its middle has it:
/// w = share (1 + b dx + c dy), by least squares. Where the cells lie in line the shares themselves.
fn weights(plan: &FloorPlan, cover: &[(usize, f64)], area_m2: f64, x_m: f64, y_m: f64) -> Vec<(usize, f64)> {
    let off = |i: usize| (plan.cells[i].x_m - x_m, plan.cells[i].y_m - y_m);
    let mean =
        |f: &dyn Fn(f64, f64) -> f64| cover.iter().map(|&(i, a)| a * f(off(i).0, off(i).1)).sum::<f64>() / area_m2;
    let (mx, my) = (mean(&|x, _| x), mean(&|_, y| y));
    let (xx, xy, yy) =
        (mean(&|x, _| (x - mx) * (x - mx)), mean(&|x, y| (x - mx) * (y - my)), mean(&|_, y| (y - my) * (y - my)));
    let det = xx * yy - xy * xy;
    let (b, c) = if det > SPREAD_M4 { ((xy * my - yy * mx) / det, (xy * mx - xx * my) / det) } else { (0.0, 0.0) };
    let weight = |&(i, a): &(usize, f64)| (i, a / area_m2 * (1.0 + b * (off(i).0 - mx) + c * (off(i).1 - my)));
    cover.iter().map(weight).collect()
}

/// A trace at one place as it shows at another: the weight of each of its columns.
pub type Shows = (usize, [f64; MODES]);

/// All places of a menu.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Places {
    /// Each place once, however many dishes use it.
    pub all: Vec<Place>,
    /// Indices of each dish's places.
    pub by_dish: Vec<Vec<usize>>,
    /// How many of each dish fit at once.
    pub fit: Vec<usize>,
    /// Where the burner's probe stands, if there is one.
    pub probe: Option<usize>,
    /// For each place, the traces that show there.
    pub shows: Vec<Vec<Shows>>,
}

impl Places {
    /// Packs each dish's outlines; a dish may also lie in the middle of a place of any larger dish, so that mixed menus keep to
    /// one grid where they can.
    #[must_use]
    pub fn new(plan: &FloorPlan, menu: &[Dish], gap_m: f64, probe: Option<&Assist>) -> Self {
        let region = plan.food_region();
        let mut packed: Vec<Vec<(f64, f64)>> = Vec::new();
        for (d, dish) in menu.iter().enumerate() {
            let same = menu[..d].iter().position(|other| other.footprint == dish.footprint);
            packed.push(same.map_or_else(|| pack(&region, &dish.footprint, gap_m), |same| packed[same].clone()));
        }
        let mut places = Self { fit: packed.iter().map(Vec::len).collect(), ..Self::default() };
        let kinds = kinds(menu);
        let larger = larger_few(menu, &kinds, &places.fit);
        // A ladder's larger floors may have more places than a scenario's own is let have: then each outline lies on every second,
        // or third, of its own.
        let every = kinds.iter().map(|&kind| places.fit[kind]).sum::<usize>().div_ceil(MOST_PLACES).max(1);
        for (d, dish) in menu.iter().enumerate() {
            let mut spots: Vec<(f64, f64)> = packed[d].iter().copied().step_by(every).collect();
            larger[d].iter().for_each(|&other| spots.extend(packed[other].iter().copied()));
            order::by(&mut spots, |a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
            spots.dedup();
            let own = spots.into_iter().map(|(x, y)| places.find_or_add(plan, dish.footprint, x, y)).collect();
            places.by_dish.push(own);
        }
        if let Some(assist) = probe {
            places.probe = Some(places.all.len());
            places.all.push(Place::probe(plan, plan.probe_at(assist.probe_across, assist.probe_along)));
        }
        places.shows = spread::shows(plan, &places.all);
        places
    }

    fn find_or_add(&mut self, plan: &FloorPlan, footprint: Footprint, x_m: f64, y_m: f64) -> usize {
        let new = Place::new(plan, footprint, x_m, y_m);
        self.all.iter().position(|place| *place == new).unwrap_or_else(|| {
            self.all.push(new);
            self.all.len() - 1
        })
    }
}

/// One dish of each outline, the smallest first.
fn kinds(menu: &[Dish]) -> Vec<usize> {
    let mut kinds: Vec<usize> = Vec::new();
    for (d, dish) in menu.iter().enumerate() {
        if kinds.iter().all(|&kind| menu[kind].footprint != dish.footprint) {
            kinds.push(d);
        }
    }
    order::by(&mut kinds, |&a, &b| area_m2(&menu[a].footprint).total_cmp(&area_m2(&menu[b].footprint)));
    kinds
}

/// For each dish one of each larger outline, in whose places it may lie too: the nearest in size where all were too many.
fn larger_few(menu: &[Dish], kinds: &[usize], fit: &[usize]) -> Vec<Vec<usize>> {
    let larger = |dish: &Dish| -> Vec<usize> {
        let others = kinds.iter().copied().filter(|&kind| menu[kind].footprint != dish.footprint);
        others.filter(|&kind| fits_inside(&dish.footprint, &menu[kind].footprint)).collect()
    };
    let count = |most: usize| -> usize {
        let of =
            |&kind: &usize| fit[kind] + larger(&menu[kind]).iter().take(most).map(|&other| fit[other]).sum::<usize>();
        kinds.iter().map(of).sum()
    };
    let most = (0..=kinds.len()).rev().find(|&most| count(most) <= MOST_PLACES).unwrap_or(0);
    menu.iter().map(|dish| larger(dish).into_iter().take(most).collect()).collect()
}

fn fits_inside(inner: &Footprint, outer: &Footprint) -> bool {
    let size = |f: &Footprint| match *f {
        Footprint::Round { diameter_m } => (diameter_m, diameter_m),
        Footprint::Rectangle { width_m, depth_m } => (width_m, depth_m),
    };
    let (a, b) = (size(inner), size(outer));
    let round_outside = matches!(outer, Footprint::Round { .. });
    if round_outside && matches!(inner, Footprint::Rectangle { .. }) {
        return (a.0 * a.0 + a.1 * a.1).sqrt() <= b.0;
    }
    a.0 <= b.0 && a.1 <= b.1
}
