//! Owns where rays under the dome end, and where its surface stands: the geometry behind every view factor.

use super::dome::{Dome, MOUTH_LOW, TAN_HALF_SECTOR};

/// Where a ray ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Hit {
    /// On the floor, at x and y.
    Floor(f64, f64),
    /// On a patch of the dome.
    Patch(usize),
    /// Out through the doorway.
    Door,
}

impl Dome {
    /// Where a ray from a point under the dome ends; `to` need not have length 1.
    #[must_use]
    pub fn cast(&self, from: [f64; 3], to: [f64; 3]) -> Hit {
        let [x, y, z] = from;
        let [dx, dy, dz] = to;
        let to_floor = if dz < 0.0 { -z / dz } else { f64::INFINITY };
        let to_dome = self.way_to_dome(from, to);
        if to_floor < to_dome {
            return Hit::Floor(x + to_floor * dx, y + to_floor * dy);
        }
        let end = [x + to_dome * dx, y + to_dome * dy, z + to_dome * dz];
        if self.is_way_in(end) {
            self.through_reveal(from, to)
        } else {
            Hit::Patch(self.patch_at(end[0], end[1], end[2]))
        }
    }

    /// Where a ray from the doorway's plane (at `x`, height `z`) into the oven ends on the dome; none when on the floor.
    #[must_use]
    pub fn cast_from_door(&self, x: f64, z: f64, to: [f64; 3]) -> Option<usize> {
        let from = [x, -self.outline.half_depth_m, z];
        if self.outline.oval {
            let (sx, sy) = self.stretch;
            let p = [x / sx, from[1] / sy, z - self.cap_centre_m];
            let d = [to[0] / sx, to[1] / sy, to[2]];
            let (a, b, c) = (dot(d, d), dot(p, d), dot(p, p) - self.cap_radius_m * self.cap_radius_m);
            let square = b * b - a * c;
            // The ray enters the dome's space at the nearer root; outside the way in it has met the reveal before.
            let way = ((-b - square.max(0.0).sqrt()) / a).max(0.0);
            let (px, pz) = (x + way * to[0], z + way * to[2]);
            if pz < 0.0 {
                return None;
            }
            if square <= 0.0 || px.abs() > self.half_door_m || pz > self.door_height_m {
                return Some(MOUTH_LOW);
            }
        }
        match self.cast(from, to) {
            Hit::Patch(k) => Some(k),
            Hit::Floor(..) => None,
            Hit::Door => Some(MOUTH_LOW),
        }
    }

    /// Whether a point of the dome lies in the hole of the way in.
    #[must_use]
    pub fn is_way_in(&self, [x, y, z]: [f64; 3]) -> bool {
        y < 0.0 && z <= self.door_height_m && x.abs() <= self.half_door_m
    }

    /// The point of the dome (or its hole) a ray reaches.
    pub(super) fn end_of(&self, from: [f64; 3], to: [f64; 3]) -> [f64; 3] {
        let way = self.way_to_dome(from, to);
        [from[0] + way * to[0], from[1] + way * to[1], from[2] + way * to[2]]
    }

    /// A ray that enters the way in: out by the doorway, or onto the reveal.
    fn through_reveal(&self, from: [f64; 3], to: [f64; 3]) -> Hit {
        let way = (-self.outline.half_depth_m - from[1]) / to[1];
        let (x, z) = (from[0] + way * to[0], from[2] + way * to[2]);
        if to[1] < 0.0 && x.abs() <= self.half_door_m && (0.0..=self.door_height_m).contains(&z) {
            Hit::Door
        } else {
            Hit::Patch(MOUTH_LOW)
        }
    }

    fn way_to_dome(&self, from: [f64; 3], to: [f64; 3]) -> f64 {
        if self.outline.oval { self.way_to_cap(from, to) } else { self.way_to_vault(from, to) }
    }

    /// Way along a ray to the stretched cap: a quadratic in the unstretched space.
    fn way_to_cap(&self, from: [f64; 3], to: [f64; 3]) -> f64 {
        let (sx, sy) = self.stretch;
        let p = [from[0] / sx, from[1] / sy, from[2] - self.cap_centre_m];
        let d = [to[0] / sx, to[1] / sy, to[2]];
        farther_root(dot(d, d), dot(p, d), dot(p, p) - self.cap_radius_m * self.cap_radius_m)
    }

    /// Way along a ray to the barrel vault or one of its end walls.
    fn way_to_vault(&self, from: [f64; 3], to: [f64; 3]) -> f64 {
        let (a, b, h) = (self.outline.half_width_m, self.outline.half_depth_m, self.rise_m);
        let p = [from[0] / a, 0.0, from[2] / h];
        let d = [to[0] / a, 0.0, to[2] / h];
        let vault = farther_root(dot(d, d), dot(p, d), dot(p, p) - 1.0);
        let wall = if to[1] > 0.0 {
            (b - from[1]) / to[1]
        } else if to[1] < 0.0 {
            (-b - from[1]) / to[1]
        } else {
            f64::INFINITY
        };
        vault.min(wall)
    }

    /// Upright planes n x + m y = k that part the sectors.
    pub(super) fn sector_lines(&self) -> [(f64, f64, f64); 3] {
        let (n, m) = (1.0 / self.outline.half_width_m, TAN_HALF_SECTOR / self.outline.half_depth_m);
        [(n, m, 0.0), (n, -m, 0.0), (0.0, 1.0, 0.0)]
    }

    /// Heights of the dome's surface over a point, the lower one below the floor unless the dome bulges; negative for none.
    pub(super) fn heights_over(&self, x: f64, y: f64) -> [f64; 2] {
        const NONE: f64 = -1.0;
        if self.outline.oval {
            let (u, v) = (x / self.stretch.0, y / self.stretch.1);
            let under = self.cap_radius_m * self.cap_radius_m - u * u - v * v;
            if under < 0.0 {
                return [NONE, NONE];
            }
            [self.cap_centre_m + under.sqrt(), self.cap_centre_m - under.sqrt()]
        } else if x.abs() > self.outline.half_width_m || y.abs() > self.outline.half_depth_m {
            [NONE, NONE]
        } else {
            [self.height_at(x, y), NONE]
        }
    }

    /// Ways from a floor point towards (c, s) to where the dome stands at height `z` (an end wall too); negative for none.
    pub(super) fn ways_to_level(&self, x: f64, y: f64, (c, s): (f64, f64), z: f64) -> [f64; 3] {
        const NONE: f64 = -1.0;
        if self.outline.oval {
            let (sx, sy) = self.stretch;
            let up = z - self.cap_centre_m;
            let (p, d) = ([x / sx, y / sy, 0.0], [c / sx, s / sy, 0.0]);
            let (a, b, k) = (dot(d, d), dot(p, d), dot(p, p) + up * up - self.cap_radius_m * self.cap_radius_m);
            let square = b * b - a * k;
            if square < 0.0 {
                return [NONE; 3];
            }
            [(-b - square.sqrt()) / a, (-b + square.sqrt()) / a, NONE]
        } else {
            let u = z / self.rise_m;
            let half = self.outline.half_width_m * (1.0 - u * u).max(0.0).sqrt();
            let beside = |target: f64| if c.abs() > 0.0 { (target - x) / c } else { NONE };
            let wall = if s > 0.0 { self.outline.half_depth_m } else { -self.outline.half_depth_m };
            let ahead = if s.abs() > 0.0 { (wall - y) / s } else { NONE };
            [beside(half), beside(-half), ahead]
        }
    }
}

/// The farther root of a t^2 + 2 b t + c = 0: the way out of a convex body that holds the ray's start.
fn farther_root(a: f64, b: f64, c: f64) -> f64 {
    let root = (b * b - a * c).max(0.0).sqrt();
    // Of the two equal forms the one that does not subtract near numbers.
    if b <= 0.0 { (root - b) / a } else { (-c / (root + b)).max(0.0) }
}

fn dot(p: [f64; 3], q: [f64; 3]) -> f64 {
    p[0] * q[0] + p[1] * q[1] + p[2] * q[2]
}

#[cfg(test)]
mod tests {
    use super::super::plan::sample;
    use super::*;

    #[test]
    fn rays_end_where_the_surface_is() {
        for oven in sample::all() {
            let dome = Dome::new(&oven);
            // Straight up: the height there; level to the doorway: out; down: the floor.
            assert_eq!(
                dome.cast([0.1, 0.05, 0.0], [0.0, 0.0, 1.0]),
                Hit::Patch(dome.patch_at(0.1, 0.05, dome.height_at(0.1, 0.05)))
            );
            assert_eq!(dome.cast([0.1, 0.05, 0.1], [0.0, -1.0, 0.01]), Hit::Door);
            assert_eq!(dome.cast([0.1, 0.05, 0.1], [0.0, 0.0, -1.0]), Hit::Floor(0.1, 0.05));
            assert_eq!(dome.cast([0.0, 0.0, 0.1], [0.0, 1.0, 0.01]), Hit::Patch(6));
            assert_eq!(dome.cast([0.0, 0.0, 0.1], [-1.0, 0.1, 0.01]), Hit::Patch(4));
        }
    }
}
