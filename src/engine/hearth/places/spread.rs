//! Owns how a trace spreads sideways: truly, through an even slab, and by the exchange of the plan's tiles.
//!
//! An outline's cold after a time t is the outline smeared by a bell curve of variance 2 a t each way (Carslaw & Jaeger,
//! Conduction of Heat in Solids, 2nd ed., 10.3): for a box a product of error functions, for a disk one integral over strips.
//! Walls send back what would pass them: each point of the reader is seen in its wall's mirror too (the method of images).

use super::{Place, Shows, tiles};
use crate::hearth::plan::FloorPlan;
use crate::numerics::linear::Lu;
use crate::scenario::Footprint;

/// Columns that together make up one trace.
pub const MODES: usize = 4;
/// Lengths over which each column fades: its rate is the stone's diffusivity over their square, m. From half a minute's spread to
/// several hours'. Our choice.
const FADE_LENGTHS_M: [f64; MODES] = [0.003, 0.009, 0.027, 0.08];
/// How many ages the fit is made at.
const AGES: usize = 10;
/// Ages at which the fit is made, as lengths sqrt(a t), m. Our choice, as are the numbers of the method from here on.
const AGES_M: [f64; AGES] = [0.0, 0.002, 0.004, 0.007, 0.011, 0.018, 0.028, 0.043, 0.066, 0.1];
/// Weight of the first age in the fit: a piece just laid must show whole.
const FIRST_WEIGHT: f64 = 4.0;
/// A wall farther than this sends nothing back, m.
const WALL_REACH_M: f64 = 0.2;
/// Outlines farther apart than this do not show at each other, m.
const REACH_M: f64 = 0.06;
/// ... nor do those that never show by more than this share.
const LEAST_SHARE: f64 = 0.002;
/// Points that stand for an outline, along one side of a box.
const SIDE: usize = 5;
/// Widths of the bell curve beyond which it counts as nothing.
const WIDTHS: f64 = 4.0;
/// Nodes of a smeared rim.
const NODES: usize = 33;
/// Strips a disk is summed over.
const STRIPS: usize = 32;

/// Rates at which the columns of a trace fade, 1/s.
#[must_use]
pub fn fade_rates_per_s(diffusivity_m2_s: f64) -> [f64; MODES] {
    FADE_LENGTHS_M.map(|length| diffusivity_m2_s / (length * length))
}

/// For each place the traces that show there: the fitted weights of what the true spread leaves less what the tiles' does.
pub(super) fn shows(plan: &FloorPlan, places: &[Place]) -> Vec<Vec<Shows>> {
    let fit = Fit::new();
    let mut smears: Vec<(Footprint, Smear)> = Vec::new();
    for place in places {
        if smears.iter().all(|(footprint, _)| *footprint != place.footprint) {
            smears.push((place.footprint, Smear::new(&place.footprint)));
        }
    }
    let smear_of = |place: &Place| smears.iter().position(|(footprint, _)| *footprint == place.footprint).unwrap_or(0);
    let which: Vec<usize> = places.iter().map(smear_of).collect();
    let near = near(places);
    // Each pair both ways round: what one's trace leaves at the other.
    let both: Vec<(usize, usize)> = near.iter().flat_map(|&(p, q)| [(p, q), (q, p)]).collect();
    let tiles = tiles::left(plan, places, &both, &AGES_M);
    let mut shows = vec![Vec::new(); places.len()];
    let mut outline = (usize::MAX, Vec::new(), Vec::new());
    for (pair, &(p, q)) in near.iter().enumerate() {
        let (own, source) = (&places[p], &places[q]);
        if outline.0 != p {
            let points = points(own);
            outline = (p, images(plan, &points), points);
        }
        let (_, images, points) = &outline;
        let smear = &smears[which[q]].1;
        let each = 1.0 / points.len() as f64;
        let mut truly = [0.0; AGES];
        if p == q {
            truly = smear.own;
        } else {
            smear.add(source, points, 0, each, &mut truly);
        }
        smear.add(source, images, 1, each, &mut truly);
        // What one outline's trace leaves at another is, area by area, what that one's would leave here.
        let back = own.area_m2 / source.area_m2;
        for (turn, part) in [1.0, back].into_iter().enumerate().take(if p == q { 1 } else { 2 }) {
            let (reader, trace) = both[2 * pair + turn];
            let mut left = [0.0; AGES];
            for (age, left) in left.iter_mut().enumerate() {
                *left = part * truly[age] - tiles[2 * pair + turn][age];
            }
            if left.iter().any(|share| share.abs() > LEAST_SHARE) {
                shows[reader].push((trace, fit.weights(&left)));
            }
        }
    }
    shows
}

/// Pairs of places near enough to show at each other, the later first.
fn near(places: &[Place]) -> Vec<(usize, usize)> {
    let mut near = Vec::new();
    for (p, own) in places.iter().enumerate() {
        near.extend((0..=p).filter(|&q| apart_m(own, &places[q]) <= REACH_M).map(|q| (p, q)));
    }
    near
}

/// Roughly the open way between two outlines, m.
fn apart_m(a: &Place, b: &Place) -> f64 {
    let half = |f: &Footprint| match *f {
        Footprint::Round { diameter_m } => (diameter_m / 2.0, diameter_m / 2.0),
        Footprint::Rectangle { width_m, depth_m } => (width_m / 2.0, depth_m / 2.0),
    };
    let ((ax, ay), (bx, by)) = (half(&a.footprint), half(&b.footprint));
    ((a.x_m - b.x_m).abs() - ax - bx).max((a.y_m - b.y_m).abs() - ay - by)
}

/// Evenly spread points of an outline.
fn points(place: &Place) -> Vec<(f64, f64)> {
    let n = SIDE * SIDE;
    (0..n)
        .map(|i| match place.footprint {
            Footprint::Round { diameter_m } => {
                let r = 0.5 * diameter_m * ((i as f64 + 0.5) / n as f64).sqrt();
                // The golden angle.
                let (s, c) = libm::sincos(2.399_963_229_728_653 * i as f64);
                (place.x_m + r * c, place.y_m + r * s)
            }
            Footprint::Rectangle { width_m, depth_m } => {
                let at = |k: usize| (k as f64 + 0.5) / SIDE as f64 - 0.5;
                (place.x_m + width_m * at(i % SIDE), place.y_m + depth_m * at(i / SIDE))
            }
        })
        .collect()
}

/// The points' mirror images in walls near them.
fn images(plan: &FloorPlan, points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let outline = &plan.outline;
    let mut images = Vec::new();
    for &(x, y) in points {
        if outline.oval {
            let (fx, fy) = outline.rim_foot(x, y);
            if (fx - x) * (fx - x) + (fy - y) * (fy - y) < WALL_REACH_M * WALL_REACH_M {
                images.push((2.0 * fx - x, 2.0 * fy - y));
            }
            continue;
        }
        let (w, d) = (outline.half_width_m.copysign(x), outline.half_depth_m.copysign(y));
        let (beside, behind) = ((w - x).abs() < WALL_REACH_M, (d - y).abs() < WALL_REACH_M);
        if beside {
            images.push((2.0 * w - x, y));
        }
        if behind {
            images.push((x, 2.0 * d - y));
        }
        if beside && behind {
            images.push((2.0 * w - x, 2.0 * d - y));
        }
    }
    images
}

/// Least squares onto the columns' fading.
struct Fit {
    normal: Lu,
    fading: Vec<[f64; MODES]>,
}

impl Fit {
    fn new() -> Self {
        let fading: Vec<[f64; MODES]> =
            AGES_M.iter().map(|age| FADE_LENGTHS_M.map(|length| libm::exp(-(age / length) * (age / length)))).collect();
        let mut matrix = vec![0.0; MODES * MODES];
        for (age, row) in fading.iter().enumerate() {
            for i in 0..MODES {
                for j in 0..MODES {
                    matrix[i * MODES + j] += weight(age) * row[i] * row[j];
                }
            }
        }
        Self { normal: Lu::new(MODES, &matrix), fading }
    }

    fn weights(&self, left: &[f64]) -> [f64; MODES] {
        let mut right = [0.0; MODES];
        for (age, (row, left)) in self.fading.iter().zip(left).enumerate() {
            for (r, fading) in right.iter_mut().zip(row) {
                *r += weight(age) * fading * left;
            }
        }
        let solved = self.normal.solve(&right);
        let mut weights = [0.0; MODES];
        weights.copy_from_slice(&solved);
        weights
    }
}

fn weight(age: usize) -> f64 {
    if age == 0 { FIRST_WEIGHT } else { 1.0 }
}

/// An outline's rim smeared by the bell curve, at one age.
struct Rim {
    from_m: f64,
    per_m: f64,
    /// One more than the nodes: beyond the last there is nothing.
    values: [f64; NODES + 1],
}

impl Rim {
    /// `smeared` gives the value at a distance from the middle; the rim stands at `half_m`.
    fn new(half_m: f64, width_m: f64, smeared: impl Fn(f64) -> f64) -> Self {
        let from_m = (half_m - WIDTHS * width_m).max(0.0);
        let step_m = (half_m + WIDTHS * width_m - from_m) / (NODES - 1) as f64;
        let value = |k: usize| if k + 1 < NODES { smeared(from_m + k as f64 * step_m) } else { 0.0 };
        Self { from_m, per_m: 1.0 / step_m, values: std::array::from_fn(value) }
    }

    fn at(&self, distance_m: f64) -> f64 {
        let place = (distance_m - self.from_m) * self.per_m;
        if place <= 0.0 {
            return self.values[0];
        }
        if place >= (NODES - 1) as f64 {
            return 0.0;
        }
        let k = place as usize;
        let share = place - k as f64;
        self.values[k] + share * (self.values[k + 1] - self.values[k])
    }
}

/// An outline's trace by age, smeared truly.
struct Smear {
    /// For each age but the first: one rim of a disk, or those of a box across and along.
    rims: Vec<(Rim, Option<Rim>)>,
    /// Share left under the outline itself, by age.
    own: [f64; AGES],
}

/// Share of an interval of half length `half_m` left at `x_m` from its middle after smearing by `width_m`.
fn interval(half_m: f64, width_m: f64, x_m: f64) -> f64 {
    let scale = width_m * core::f64::consts::SQRT_2;
    0.5 * (libm::erf((half_m + x_m) / scale) + libm::erf((half_m - x_m) / scale))
}

/// The same for a disk, summed over strips across the line to its middle.
fn disk(radius_m: f64, width_m: f64, r_m: f64) -> f64 {
    let (low, high) = ((r_m - 5.0 * width_m).max(-radius_m), (r_m + 5.0 * width_m).min(radius_m));
    if high <= low {
        return 0.0;
    }
    let strip = (high - low) / STRIPS as f64;
    let norm = strip / (width_m * (2.0 * core::f64::consts::PI).sqrt());
    let mut sum = 0.0;
    for k in 0..STRIPS {
        let x = low + (k as f64 + 0.5) * strip;
        let off = (r_m - x) / width_m;
        let chord = (radius_m * radius_m - x * x).max(0.0).sqrt();
        sum += libm::exp(-0.5 * off * off) * libm::erf(chord / (width_m * core::f64::consts::SQRT_2));
    }
    norm * sum
}

impl Smear {
    fn new(footprint: &Footprint) -> Self {
        let widths = AGES_M[1..].iter().map(|age| age * core::f64::consts::SQRT_2);
        let rims: Vec<(Rim, Option<Rim>)> = match *footprint {
            Footprint::Round { diameter_m } => {
                let radius = 0.5 * diameter_m;
                widths.map(|width| (Rim::new(radius, width, |r| disk(radius, width, r)), None)).collect()
            }
            Footprint::Rectangle { width_m, depth_m } => {
                let rim = |half: f64, width: f64| Rim::new(half, width, |x| interval(half, width, x));
                widths.map(|width| (rim(0.5 * width_m, width), Some(rim(0.5 * depth_m, width)))).collect()
            }
        };
        let mut own = [1.0; AGES];
        for (share, rims) in own[1..].iter_mut().zip(&rims) {
            *share = own_mean(footprint, rims);
        }
        Self { rims, own }
    }

    /// Adds what a trace at `source` leaves at points, each counting `each`, from an age on.
    fn add(&self, source: &Place, points: &[(f64, f64)], from_age: usize, each: f64, sums: &mut [f64; AGES]) {
        for &(x, y) in points {
            let (dx, dy) = ((x - source.x_m).abs(), (y - source.y_m).abs());
            let distance = (dx * dx + dy * dy).sqrt();
            if from_age == 0 {
                let inside = match source.footprint {
                    Footprint::Round { diameter_m } => 2.0 * distance <= diameter_m,
                    Footprint::Rectangle { width_m, depth_m } => 2.0 * dx <= width_m && 2.0 * dy <= depth_m,
                };
                sums[0] += if inside { each } else { 0.0 };
            }
            for (sum, (round, along)) in sums[1..].iter_mut().zip(&self.rims) {
                *sum += each
                    * match along {
                        None => round.at(distance),
                        Some(along) => round.at(dx) * along.at(dy),
                    };
            }
        }
    }
}

/// Mean of a smeared outline over itself.
fn own_mean(footprint: &Footprint, (across, along): &(Rim, Option<Rim>)) -> f64 {
    const STEPS: usize = 128;
    let mean = |rim: &Rim, half: f64, ring: bool| {
        let at = |k: usize| (k as f64 + 0.5) / STEPS as f64;
        (0..STEPS).map(|k| rim.at(half * if ring { at(k).sqrt() } else { at(k) })).sum::<f64>() / STEPS as f64
    };
    match *footprint {
        Footprint::Round { diameter_m } => mean(across, 0.5 * diameter_m, true),
        Footprint::Rectangle { width_m, depth_m } => {
            mean(across, 0.5 * width_m, false) * along.as_ref().map_or(1.0, |rim| mean(rim, 0.5 * depth_m, false))
        }
    }
}
