//! Owns what a point of the floor sees of the dome, upright slice by upright slice, each slice summed without error.
//!
//! In an upright half plane through the point the cosine-weighted view grows with q = sin^2 of the angle from the zenith:
//! q = s^2 / (s^2 + z^2) for a dome point at distance s and height z. Patch borders cut the slice at known places, so a slice
//! is exact and only the turning of the slice round the point is summed by steps.

use super::dome::{Dome, LOW_SHARE, PATCHES};

/// Shares of a point's view: the patches outside the way in, and the way in.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Seen {
    /// Share of each patch.
    pub patch: [f64; PATCHES],
    /// Share of the hole the way in makes in the dome.
    pub way_in: f64,
}

/// Most borders one slice can meet: five upright lines at two heights, three levels at two distances and a wall.
const MOST_CUTS: usize = 19;

/// Adds one slice's view, from a floor point towards (`c`, `s`) with weight `weight`.
pub(super) fn add_slice(dome: &Dome, x: f64, y: f64, (c, s): (f64, f64), weight: f64, seen: &mut Seen) {
    let mut cuts = Cuts { q: [0.0; MOST_CUTS], count: 0 };
    let ahead = Slice { dome, x, y, c, s };
    for line in dome.sector_lines() {
        cuts.at_line(&ahead, line);
    }
    cuts.at_level(&ahead, LOW_SHARE * dome.rise_m);
    if y < 0.0 || s < 0.0 {
        for side in [-dome.half_door_m, dome.half_door_m] {
            cuts.at_line(&ahead, (1.0, 0.0, side));
        }
        cuts.at_level(&ahead, dome.door_height_m);
        cuts.at_level(&ahead, dome.mouth_split_m);
    }
    cuts.sort();
    let mut from = 0.0;
    for to in cuts.q[..cuts.count].iter().copied().chain([1.0]) {
        let share = to - from;
        if share > 0.0 {
            let q = f64::midpoint(from, to);
            let across = q.sqrt();
            let p = dome.end_of([x, y, 0.0], [across * c, across * s, (1.0 - q).sqrt()]);
            if dome.is_way_in(p) {
                seen.way_in += weight * share;
            } else {
                seen.patch[dome.patch_at(p[0], p[1], p[2])] += weight * share;
            }
            from = to;
        }
    }
}

/// A half plane through a floor point, towards (c, s).
struct Slice<'a> {
    dome: &'a Dome,
    x: f64,
    y: f64,
    c: f64,
    s: f64,
}

struct Cuts {
    q: [f64; MOST_CUTS],
    count: usize,
}

impl Cuts {
    fn note(&mut self, s: f64, z: f64) {
        if s > 0.0 && s.is_finite() && z >= 0.0 && self.count < MOST_CUTS {
            self.q[self.count] = s * s / (s * s + z * z);
            self.count += 1;
        }
    }

    /// Where the slice crosses the upright plane n x + m y = k.
    fn at_line(&mut self, ahead: &Slice<'_>, (n, m, k): (f64, f64, f64)) {
        let along = n * ahead.c + m * ahead.s;
        if along.abs() > 0.0 {
            let way = (k - n * ahead.x - m * ahead.y) / along;
            if way > 0.0 {
                for z in ahead.dome.heights_over(ahead.x + way * ahead.c, ahead.y + way * ahead.s) {
                    self.note(way, z);
                }
            }
        }
    }

    /// Where the slice's dome line passes a height.
    fn at_level(&mut self, ahead: &Slice<'_>, z: f64) {
        for way in ahead.dome.ways_to_level(ahead.x, ahead.y, (ahead.c, ahead.s), z) {
            self.note(way, z);
        }
    }

    /// By insertion: there are about eight.
    fn sort(&mut self) {
        for i in 1..self.count {
            let v = self.q[i];
            let mut k = i;
            while k > 0 && self.q[k - 1] > v {
                self.q[k] = self.q[k - 1];
                k -= 1;
            }
            self.q[k] = v;
        }
    }
}
