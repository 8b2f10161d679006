//! Owns the series the pictures read out of a report: the limiting dish, its coolest spots, where each dish finds a spot.

use hearthload::units::time::QUARTER_S;
use std::rc::Rc;

use hearthload::report::{CarryReport, CellShape, DishReport, FloorMap, Frame, Gives, Placement};
use hearthload::scenario::Footprint;

use super::grid::Grid;
use super::kitchen::{DishShape, Kitchen};

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

    /// The end of the pictures of time: the last order, or the last load of a queue that outlives it (two hours at most),
    /// seconds since midnight.
    #[must_use]
    pub fn end_s(&self) -> f64 {
        const QUEUE_S: f64 = 7200.0;
        let end = self.kitchen.end_s.max(self.kitchen.start_s + QUARTER_S);
        let placements = self.report.map.as_ref().map_or(&[][..], |map| &map.placements);
        let last = placements.iter().map(|load| load.from_s).fold(end, f64::max).min(end + QUEUE_S);
        self.kitchen.start_s + ((last - self.kitchen.start_s) / QUARTER_S).ceil() * QUARTER_S
    }

    /// Times of the quarter hours of the service, with the end.
    #[must_use]
    pub fn quarters(&self) -> Vec<f64> {
        let (start, end) = (self.kitchen.start_s, self.end_s());
        let steps = ((end - start) / QUARTER_S).round() as usize;
        (0..=steps).map(|step| start + step as f64 * QUARTER_S).collect()
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
        let service = self.kitchen.start_s..=self.end_s();
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
        let service = self.kitchen.start_s..=self.end_s();
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

    /// Whether the floor is what breaks: only then does the line sag. A few loads on cool spots within the promise do not bend it.
    #[must_use]
    pub fn floor_gives(&self) -> bool {
        let verdict = &self.report.verdict;
        let of_floor =
            |broke: &hearthload::report::Broke| matches!(broke.promise.as_str(), "share_in_band" | "bake_slower_max");
        let too_cool = self.coolest_margin().is_some_and(|margin| margin < 0.0);
        !verdict.carries
            && too_cool
            && (verdict.gives_first == Gives::FloorHeat || verdict.all_broke.iter().any(of_floor))
    }

    /// The coolest reading against the foot of the limiting band, K; negative under it.
    #[must_use]
    pub fn coolest_margin(&self) -> Option<f64> {
        let least = self.band(self.limiting()?)[0];
        self.coolest().iter().map(|reading| reading.at_c - least).min_by(f64::total_cmp)
    }

    /// The hottest spot under the limiting dish at loading, where it lies over the dish's band.
    #[must_use]
    pub fn over_hot(&self) -> Option<Reading> {
        let dish = self.limiting()?;
        let hottest = self.loads(dish).max_by(|a, b| a.at_load_c.total_cmp(&b.at_load_c))?;
        (hottest.at_load_c > self.band(dish)[1]).then_some(Reading { at_s: hottest.from_s, at_c: hottest.at_load_c })
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

    /// Where a dish finds a spot in its band, by quarter hour: as its pieces found it where some were laid, else the best spot
    /// of the whole floor.
    #[must_use]
    pub fn finds(&self, dish: usize) -> Vec<SpotFind> {
        let (Some(map), Some(shape)) = (self.map(), self.kitchen.dishes.get(dish)) else { return Vec::new() };
        let spots = spots(map, &self.kitchen, shape);
        let band = self.band(dish);
        let find = |at_s: f64| {
            let quarter = at_s..at_s + QUARTER_S;
            let laid = self
                .loads(dish)
                .filter(|load| quarter.contains(&load.from_s))
                .map(|load| off_band(load.at_load_c, band));
            let frame = self.frame(at_s)?;
            let best = || {
                spots
                    .iter()
                    .map(|spot| off_band(spot_mean(frame, spot), band))
                    .min_by(|a, b| a.abs().total_cmp(&b.abs()))
            };
            Some(SpotFind { at_s, off_k: laid.max_by(|a, b| a.abs().total_cmp(&b.abs())).or_else(best)? })
        };
        self.quarters().into_iter().filter_map(find).collect()
    }
}

/// How far a temperature lies under a band, K; negative over it, 0 within.
fn off_band(at_c: f64, band_c: [f64; 2]) -> f64 {
    if at_c < band_c[0] {
        band_c[0] - at_c
    } else if at_c > band_c[1] {
        band_c[1] - at_c
    } else {
        0.0
    }
}

fn spot_mean(frame: &Frame, spot: &[usize]) -> f64 {
    spot.iter().filter_map(|&cell| frame.face_c.get(cell)).sum::<f64>() / spot.len() as f64
}

/// The cells under a dish centred on each cell, one for each point of a grid laid over its outline; only where all of them may
/// carry food.
fn spots(map: &FloorMap, kitchen: &Kitchen, shape: &DishShape) -> Vec<Vec<usize>> {
    let (half_x, half_y) = shape.half_m();
    let round = matches!(shape.footprint, Footprint::Round { .. });
    const POINTS: [f64; 5] = [-0.9, -0.45, 0.0, 0.45, 0.9];
    let points: Vec<(f64, f64)> = POINTS
        .iter()
        .flat_map(|&x| POINTS.iter().map(move |&y| (x, y)))
        .filter(|(x, y)| !round || x * x + y * y <= 1.0)
        .map(|(x, y)| (x * half_x, y * half_y))
        .collect();
    let grid = Grid::of(kitchen, map);
    let cell_at = |x_m: f64, y_m: f64| grid.cell_at(x_m, y_m).filter(|&cell| !map.cells[cell].under_fire);
    let under = |centre: &CellShape| {
        let (x_m, y_m) = grid.middle(centre);
        points.iter().map(|(x, y)| cell_at(x_m + x, y_m + y)).collect::<Option<Vec<usize>>>()
    };
    map.cells.iter().filter(|cell| !cell.under_fire).filter_map(under).collect()
}
