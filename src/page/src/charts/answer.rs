//! Owns the series the pictures read out of a report: the limiting dish, its coolest spots, where each dish finds a spot.

use std::rc::Rc;

use hearthload::report::{CarryReport, DishReport, FloorMap, Frame, Placement};
use hearthload::scenario::Footprint;

use super::kitchen::Kitchen;

/// A quarter hour, s.
pub const QUARTER_S: f64 = 900.0;

/// A report together with the outlines it is drawn with.
#[derive(Clone, Debug)]
pub struct Answer {
    /// What was computed.
    pub report: Rc<CarryReport>,
    /// What it was computed for.
    pub kitchen: Rc<Kitchen>,
}

impl PartialEq for Answer {
    /// The same answer, not merely an equal one: reports are large and never change.
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.report, &other.report) && Rc::ptr_eq(&self.kitchen, &other.kitchen)
    }
}

/// A temperature at a time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Seconds since midnight.
    pub at_s: f64,
    /// Temperature, degC.
    pub at_c: f64,
}

/// Where a dish finds a spot: the best spot's distance from its band at one time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpotFind {
    /// Seconds since midnight.
    pub at_s: f64,
    /// 0 when a spot is in the band; else how far the best one is from it, K (negative: all spots are above the band).
    pub off_k: f64,
}

impl Answer {
    /// The dish that decides: the one a promise broke on, else the one loaded on the coolest spot, else the one that asks most.
    #[must_use]
    pub fn limiting(&self) -> Option<usize> {
        let by_name = |name: &str| self.report.dishes.iter().position(|dish| dish.name == name);
        let broke = self.report.verdict.broke.as_ref().and_then(|broke| by_name(&broke.dish));
        broke
            .or_else(|| self.tightest())
            .or_else(|| by_name(&self.report.floor.lowest_dish))
            .or_else(|| (0..self.report.dishes.len()).max_by(|&a, &b| self.band(a)[0].total_cmp(&self.band(b)[0])))
    }

    /// The dish whose coolest loading lay lowest against its own band.
    fn tightest(&self) -> Option<usize> {
        let margin =
            |dish: usize| self.loads(dish).map(|load| load.at_load_c - self.band(dish)[0]).min_by(f64::total_cmp);
        (0..self.report.dishes.len())
            .filter_map(|dish| Some((dish, margin(dish)?)))
            .min_by(|a, b| a.1.total_cmp(&b.1))
            .map(|(dish, _)| dish)
    }

    /// A dish's report.
    #[must_use]
    pub fn dish(&self, index: usize) -> Option<&DishReport> {
        self.report.dishes.get(index)
    }

    /// A dish's floor band, degC.
    #[must_use]
    pub fn band(&self, index: usize) -> [f64; 2] {
        self.dish(index).map_or([0.0, 0.0], |dish| dish.floor_band_c)
    }

    /// The floor plan through the service, where it was computed.
    #[must_use]
    pub fn map(&self) -> Option<&FloorMap> {
        self.report.map.as_ref().filter(|map| !map.frames.is_empty() && !map.cells.is_empty())
    }

    fn loads(&self, dish: usize) -> impl Iterator<Item = &Placement> {
        let placements = self.report.map.as_ref().map_or(&[][..], |map| &map.placements);
        placements.iter().filter(move |placement| placement.dish == dish)
    }

    /// Times of the quarter hours of the service, with the end.
    #[must_use]
    pub fn quarters(&self) -> Vec<f64> {
        let (start, end) = (self.kitchen.start_s, self.kitchen.end_s.max(self.kitchen.start_s + QUARTER_S));
        let steps = ((end - start) / QUARTER_S).ceil() as usize;
        (0..=steps).map(|step| (start + step as f64 * QUARTER_S).min(end)).collect()
    }

    /// The coolest spot under the limiting dish at loading, by quarter hour; the coolest spot of all dishes where no map was
    /// computed. A quarter in which nothing was loaded is left out.
    #[must_use]
    pub fn coolest(&self) -> Vec<Reading> {
        let limiting = self.limiting();
        let from_loads: Vec<Reading> = match limiting {
            Some(dish) => self.quarters().iter().filter_map(|&at_s| self.coolest_in(dish, at_s)).collect(),
            None => Vec::new(),
        };
        if from_loads.len() > 1 {
            return from_loads;
        }
        let service = self.kitchen.start_s..=self.kitchen.end_s;
        let quarters = self.report.floor.by_quarter_hour.iter().filter(|quarter| service.contains(&quarter.at_s));
        quarters.map(|quarter| Reading { at_s: quarter.at_s, at_c: quarter.lowest_c }).collect()
    }

    fn coolest_in(&self, dish: usize, from_s: f64) -> Option<Reading> {
        let quarter = from_s..from_s + QUARTER_S;
        let loads = self.loads(dish).filter(|load| quarter.contains(&load.from_s));
        let coolest = loads.min_by(|a, b| a.at_load_c.total_cmp(&b.at_load_c))?;
        Some(Reading { at_s: coolest.from_s, at_c: coolest.at_load_c })
    }

    /// Mean of the floor that may carry food through the service.
    #[must_use]
    pub fn mean(&self) -> Vec<Reading> {
        let service = self.kitchen.start_s..=self.kitchen.end_s;
        let quarters = self.report.floor.by_quarter_hour.iter().filter(|quarter| service.contains(&quarter.at_s));
        quarters.map(|quarter| Reading { at_s: quarter.at_s, at_c: quarter.mean_c }).collect()
    }

    /// The stretch in which the coolest used spot lies under the limiting band: from, to, by straight lines between readings.
    #[must_use]
    pub fn under(&self) -> Option<(f64, f64)> {
        let least = self.band(self.limiting()?)[0];
        let readings = self.coolest();
        let first = readings.iter().position(|reading| reading.at_c < least)?;
        let last = readings.iter().rposition(|reading| reading.at_c < least)?;
        let crossing = |inner: Reading, outer: Option<&Reading>| {
            outer.map_or(inner.at_s, |outer| {
                inner.at_s + (outer.at_s - inner.at_s) * (least - inner.at_c) / (outer.at_c - inner.at_c)
            })
        };
        let from = crossing(readings[first], first.checked_sub(1).and_then(|before| readings.get(before)));
        Some((from, crossing(readings[last], readings.get(last + 1))))
    }

    /// The frame nearest to a moment.
    #[must_use]
    pub fn frame(&self, at_s: f64) -> Option<&Frame> {
        let frames = &self.map()?.frames;
        frames.iter().min_by(|a, b| (a.at_s - at_s).abs().total_cmp(&(b.at_s - at_s).abs()))
    }

    /// What lies on the floor at a moment.
    #[must_use]
    pub fn lying(&self, at_s: f64) -> Vec<&Placement> {
        let Some(map) = self.report.map.as_ref() else { return Vec::new() };
        let here = |piece: &&Placement| piece.from_s <= at_s && piece.to_s.is_none_or(|until| until > at_s);
        map.placements.iter().filter(here).collect()
    }

    /// The moment looked at when none was chosen: the coolest loading, else the middle of the service.
    #[must_use]
    pub fn telling_moment(&self) -> f64 {
        let coolest = self.coolest().into_iter().min_by(|a, b| a.at_c.total_cmp(&b.at_c));
        coolest.map_or((self.kitchen.start_s + self.kitchen.end_s) / 2.0, |reading| reading.at_s)
    }

    /// Where a dish finds a spot in its band, by quarter hour: over every place where its outline lies on food floor.
    #[must_use]
    pub fn finds(&self, dish: usize) -> Vec<SpotFind> {
        let (Some(map), Some(shape)) = (self.map(), self.kitchen.dishes.get(dish)) else { return Vec::new() };
        let spots = candidate_spots(map, shape.footprint);
        let band = self.band(dish);
        let find = |at_s: f64| {
            let frame = self.frame(at_s)?;
            let off = |spot: &Vec<usize>| {
                let mean = spot.iter().map(|&cell| frame.face_c[cell]).sum::<f64>() / spot.len() as f64;
                if mean < band[0] {
                    band[0] - mean
                } else if mean > band[1] {
                    band[1] - mean
                } else {
                    0.0
                }
            };
            let off_k = spots.iter().map(off).min_by(|a, b| a.abs().total_cmp(&b.abs()))?;
            Some(SpotFind { at_s, off_k })
        };
        self.quarters().into_iter().filter_map(find).collect()
    }
}

/// The cells under a footprint centred on each cell, where it lies wholly on floor that may carry food.
fn candidate_spots(map: &FloorMap, footprint: Footprint) -> Vec<Vec<usize>> {
    let (half_x, half_y) = match footprint {
        Footprint::Round { diameter_m } => (diameter_m / 2.0, diameter_m / 2.0),
        Footprint::Rectangle { width_m, depth_m } => (width_m / 2.0, depth_m / 2.0),
    };
    let cell_area = map.cell_m * map.cell_m;
    let full = |index: usize| !map.cells[index].under_fire && map.cells[index].area_m2 > 0.5 * cell_area;
    let covers = |centre: usize, cell: usize| {
        let (dx, dy) = (map.cells[cell].x_m - map.cells[centre].x_m, map.cells[cell].y_m - map.cells[centre].y_m);
        match footprint {
            Footprint::Round { .. } => dx * dx + dy * dy <= half_x * half_x,
            Footprint::Rectangle { .. } => dx.abs() <= half_x && dy.abs() <= half_y,
        }
    };
    let needed = |spot: &[usize]| {
        let area = if matches!(footprint, Footprint::Round { .. }) {
            std::f64::consts::PI * half_x * half_y
        } else {
            4.0 * half_x * half_y
        };
        spot.len() as f64 * cell_area > 0.75 * area
    };
    let under = |centre: usize| (0..map.cells.len()).filter(|&cell| covers(centre, cell)).collect::<Vec<_>>();
    (0..map.cells.len())
        .filter(|&cell| full(cell))
        .map(under)
        .filter(|spot| !spot.is_empty() && spot.iter().all(|&cell| full(cell)) && needed(spot))
        .collect()
}
