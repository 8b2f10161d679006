//! Owns how many outlines really fit on the floor and where: lattices first, then a relaxation that tries to squeeze in more.
//!
//! Disks: with centres kept a radius from walls and bed, N disks fit exactly where N points can keep one diameter and a gap
//! apart. The best of many hexagonal and square lattices is a first answer; then one more point is dropped in and all are
//! pushed apart (overlaps as springs, damped motion after Bitzek et al. 2006, "FIRE") from starts that never change, until no
//! start succeeds. Rectangles stand in rows or in columns, whichever holds more, the rows placed by dynamic programming.

use super::relax::{Start, relax};
use super::shapes::Region;
use crate::scenario::Footprint;

/// Rounding left to a point at the edge of where it may be, m.
const EDGE_M: f64 = 1e-9;

/// Work one packing may spend on squeezing, in pairs of pieces looked at (a pair takes about a nanosecond and a half).
const SQUEEZE_PAIRS: usize = 1_000_000;

/// What holding one disk off straight and round walls costs, and off an oval one, in pairs.
const WALL_PAIRS: (usize, usize) = (6, 25);

/// Starts tried for one piece more: this many and two for each piece (few pieces have few ways to settle).
const STARTS: usize = 8;

/// Steps down the floor at which a row of rectangles may begin.
const ROW_STEPS: usize = 400;

/// Places for as many outlines as fit in the region with `gap_m` between them (none is kept to walls and bed), in the plan's
/// coordinates, sorted from the doorway to the rear and then left to right. Deterministic; a few milliseconds at most.
#[must_use]
pub fn pack(region: &Region, footprint: &Footprint, gap_m: f64) -> Vec<(f64, f64)> {
    let gap = gap_m.max(0.0);
    let mut places = match *footprint {
        Footprint::Round { diameter_m } => pack_disks(&Inner::new(region, diameter_m / 2.0), diameter_m + gap),
        Footprint::Rectangle { width_m, depth_m } => pack_boxes(region, width_m, depth_m, gap),
    };
    crate::numerics::order::by(&mut places, |p, q| p.1.total_cmp(&q.1).then(p.0.total_cmp(&q.0)));
    places
}

/// Where the middle of a disk may be: the region less a radius along every wall.
#[derive(Clone, Copy, Debug)]
pub(super) struct Inner {
    region: Region,
    radius: f64,
    round: bool,
}

impl Inner {
    pub(super) fn new(region: &Region, radius: f64) -> Self {
        let o = region.outline;
        let round = o.oval && (o.half_width_m - o.half_depth_m).abs() < EDGE_M;
        Self { region: *region, radius, round }
    }

    /// Box around it: left, right, front, rear (inside out where no disk fits).
    pub(super) fn bounds(&self) -> [f64; 4] {
        let b = self.region.bounds();
        [b.x0 + self.radius, b.x1 - self.radius, b.y0 + self.radius, b.y1 - self.radius]
    }

    /// The move that brings a point back inside (zero when it is).
    pub(super) fn push(&self, x: f64, y: f64) -> (f64, f64) {
        let [x0, x1, y0, y1] = self.bounds();
        let mut to = ((x0 - x).max(0.0) - (x - x1).max(0.0), (y0 - y).max(0.0) - (y - y1).max(0.0));
        let o = &self.region.outline;
        if self.round {
            let off = (x * x + y * y).sqrt();
            let beyond = off - (o.half_width_m - self.radius);
            if beyond > 0.0 {
                to = (to.0 - x / off * beyond, to.1 - y / off * beyond);
            }
        } else if o.oval && !self.surely_inside(x, y) {
            let (fx, fy) = o.rim_foot(x, y);
            let (dx, dy) = (fx - x, fy - y);
            let way = (dx * dx + dy * dy).sqrt();
            let inside = o.contains(x, y);
            if way > 0.0 && (!inside || way < self.radius) {
                let by = if inside { way - self.radius } else { way + self.radius };
                to = (to.0 + dx / way * by, to.1 + dy / way * by);
            }
        }
        to
    }

    /// Inside the outline shrunk until a disk fits everywhere in what was taken off: no nearest rim point is needed.
    fn surely_inside(&self, x: f64, y: f64) -> bool {
        let o = &self.region.outline;
        let (u, v) = (x / o.half_width_m, y / o.half_depth_m);
        let s = 1.0 - self.radius / o.half_width_m.min(o.half_depth_m);
        s > 0.0 && u * u + v * v <= s * s
    }

    /// Work of one step of `n` disks, in pairs.
    pub(super) fn step_pairs(&self, n: usize) -> usize {
        let wall = if self.region.outline.oval && !self.round { WALL_PAIRS.1 } else { WALL_PAIRS.0 };
        n * (n + 2 * wall) / 2
    }

    pub(super) fn contains(&self, x: f64, y: f64) -> bool {
        let (dx, dy) = self.push(x, y);
        dx.abs() <= EDGE_M && dy.abs() <= EDGE_M
    }

    /// The most points a convex region can hold a distance `d` apart (Oler 1961): 2/sqrt3 A/d^2 + P/(2 d) + 1.
    pub(super) fn most(&self, d: f64) -> usize {
        let (area, rim) = self.area_and_rim();
        (2.0 / 3.0_f64.sqrt() * area / (d * d) + rim / (2.0 * d) + 1.0 + 1e-6).floor() as usize
    }

    /// Area and rim length from chords, a little more than the truth (the count's bound must not fall short).
    fn area_and_rim(&self) -> (f64, f64) {
        let [x0, x1, y0, y1] = self.bounds();
        if x1 < x0 || y1 < y0 {
            return (0.0, 0.0);
        }
        let o = &self.region.outline;
        let (a, b) = (o.half_width_m - self.radius, o.half_depth_m - self.radius);
        let chord = |y: f64| {
            if !o.oval {
                return x1 - x0;
            }
            // Inside the ellipse with shortened axes' bounding oval; never narrower than the true parallel curve's chord.
            let u = (y / b).clamp(-1.0, 1.0);
            let half = a * (1.0 - u * u).sqrt() + if self.round { 0.0 } else { 0.02 * a };
            (half.min(x1) - (-half).max(x0)).max(0.0)
        };
        let n = 64;
        let step = (y1 - y0) / f64::from(n);
        let (mut area, mut rim) = (0.0, chord(y0) + chord(y1));
        for k in 0..n {
            let (lower, upper) = (chord(y0 + f64::from(k) * step), chord(y0 + f64::from(k + 1) * step));
            area += lower.max(upper) * step;
            let lean = (upper - lower) / 2.0;
            rim += 2.0 * (lean * lean + step * step).sqrt() + lean.abs();
        }
        (area, rim)
    }
}

fn pack_disks(inner: &Inner, d: f64) -> Vec<(f64, f64)> {
    let [x0, x1, y0, y1] = inner.bounds();
    if d <= 0.0 || x1 < x0 - EDGE_M || y1 < y0 - EDGE_M {
        return Vec::new();
    }
    let mut best = best_lattice(inner, d);
    let most = inner.most(d);
    let mut pairs = SQUEEZE_PAIRS;
    while best.len() < most {
        let Some(more) = squeeze(inner, d, &best, &mut pairs) else {
            break;
        };
        best = more;
    }
    best
}

/// One more than `best`, if any of the fixed starts leads there.
fn squeeze(inner: &Inner, d: f64, best: &[(f64, f64)], pairs: &mut usize) -> Option<Vec<(f64, f64)>> {
    let wanted = best.len() + 1;
    for turn in 0..STARTS + 2 * wanted {
        let start = match turn % 4 {
            0 => Start::Mirrored(turn),
            1 => Start::Added(best, turn),
            _ => Start::Spread(turn),
        };
        if let Some(found) = relax(inner, d, wanted, &start, pairs) {
            return Some(found);
        }
        if *pairs == 0 {
            break;
        }
    }
    None
}

/// The best of hexagonal and square lattices over turns and offsets; between equals the earlier, and mirrored ones come first.
fn best_lattice(inner: &Inner, d: f64) -> Vec<(f64, f64)> {
    let mut best = Vec::new();
    let root = 3.0_f64.sqrt() / 2.0;
    for step in 0..12 {
        // Quarter turn first: rows along the walls both ways are mirrored about the oven's middle line.
        let angle = [0, 6, 3, 9, 1, 2, 4, 5, 7, 8, 10, 11][step] as f64 * core::f64::consts::PI / 12.0;
        let (s, c) = libm::sincos(angle);
        for (lean, rise) in [(0.5, root), (0.0, 1.0)] {
            let (e, f) = ((d * c, d * s), (d * (lean * c - rise * s), d * (lean * s + rise * c)));
            for k in 0..36 {
                let (u, v) = ([0.0, 3.0, 1.0, 2.0, 4.0, 5.0][k % 6] / 6.0, [0.0, 3.0, 1.0, 2.0, 4.0, 5.0][k / 6] / 6.0);
                let found = lattice(inner, e, f, (u * e.0 + v * f.0, u * e.1 + v * f.1));
                if found.len() > best.len() {
                    best = found;
                }
            }
        }
    }
    best
}

/// Points of one lattice (steps `e` and `f`, one point at `from`) inside.
fn lattice(inner: &Inner, e: (f64, f64), f: (f64, f64), from: (f64, f64)) -> Vec<(f64, f64)> {
    let [x0, x1, y0, y1] = inner.bounds();
    let det = e.0 * f.1 - e.1 * f.0;
    let coordinates = |x: f64, y: f64| {
        let (x, y) = (x - from.0, y - from.1);
        ((x * f.1 - y * f.0) / det, (y * e.0 - x * e.1) / det)
    };
    let corners = [(x0, y0), (x1, y0), (x0, y1), (x1, y1)].map(|(x, y)| coordinates(x, y));
    let range = |pick: fn(&(f64, f64)) -> f64| {
        let low = corners.iter().map(pick).fold(f64::INFINITY, f64::min).floor() as i64;
        let high = corners.iter().map(pick).fold(f64::NEG_INFINITY, f64::max).ceil() as i64;
        low..=high
    };
    let mut found = Vec::new();
    for n in range(|c| c.1) {
        for m in range(|c| c.0) {
            let (m, n) = (m as f64, n as f64);
            let (x, y) = (from.0 + m * e.0 + n * f.0, from.1 + m * e.1 + n * f.1);
            if x >= x0 - EDGE_M && x <= x1 + EDGE_M && y >= y0 - EDGE_M && y <= y1 + EDGE_M && inner.contains(x, y) {
                found.push((x, y));
            }
        }
    }
    found
}

fn pack_boxes(region: &Region, width: f64, depth: f64, gap: f64) -> Vec<(f64, f64)> {
    let b = region.bounds();
    let rows = best_rows((b.y0, b.y1), depth, width, gap, |y| {
        let half = region.outline.half_across(y).min(region.outline.half_across(y + depth));
        ((-half).max(b.x0), half.min(b.x1))
    });
    let columns = best_rows((b.x0, b.x1), width, depth, gap, |x| {
        let half = region.outline.half_along(x).min(region.outline.half_along(x + width));
        ((-half).max(b.y0), half.min(b.y1))
    });
    if columns.len() > rows.len() { columns.into_iter().map(|(along, across)| (across, along)).collect() } else { rows }
}

/// Rows `thick` deep within `span`, pieces `long` within the chord each row has: the row starts that hold most pieces
/// (dynamic programming over [`ROW_STEPS`] starts), each row centred in its chord. Gives (middle in the row, middle of the row).
fn best_rows(span: (f64, f64), thick: f64, long: f64, gap: f64, chord: impl Fn(f64) -> (f64, f64)) -> Vec<(f64, f64)> {
    let room = span.1 - span.0 - thick;
    if room < -EDGE_M || thick <= 0.0 || long <= 0.0 {
        return Vec::new();
    }
    let room = room.max(0.0);
    // Starts every whole fraction of the room, and those that follow a row begun at the front wall without slack.
    let mut starts: Vec<f64> = (0..=ROW_STEPS).map(|k| span.0 + room * k as f64 / ROW_STEPS as f64).collect();
    let pitch = thick + gap;
    let stacked = (room / pitch + EDGE_M).floor() as usize;
    starts.extend((0..=stacked).flat_map(|k| [span.0 + k as f64 * pitch, span.0 + room - k as f64 * pitch]));
    crate::numerics::order::rising(&mut starts);
    let count = |y: f64| {
        let (low, high) = chord(y);
        ((high - low + gap + EDGE_M) / (long + gap)).floor().max(0.0) as usize
    };
    // held[k]: most pieces in rows that begin at starts[k] or before; from[k]: the row that achieves it, if one begins here.
    let mut held = vec![0_usize; starts.len()];
    let mut begins = vec![false; starts.len()];
    let before = |k: usize| starts[..k].partition_point(|&s| s <= starts[k] - pitch + EDGE_M);
    for k in 0..starts.len() {
        let idle = if k > 0 { held[k - 1] } else { 0 };
        let n = before(k);
        let used = count(starts[k]) + if n > 0 { held[n - 1] } else { 0 };
        begins[k] = used > idle;
        held[k] = used.max(idle);
    }
    let mut places = Vec::new();
    let mut k = starts.len();
    while k > 0 {
        if !begins[k - 1] {
            k -= 1;
            continue;
        }
        let y = starts[k - 1];
        let (low, high) = chord(y);
        let n = count(y);
        for m in 0..n {
            let off = (2.0 * m as f64 - (n - 1) as f64) * (long + gap) / 2.0;
            places.push(((low + high) / 2.0 + off, y + thick / 2.0));
        }
        k = before(k - 1);
    }
    places
}

#[cfg(test)]
mod tests;
