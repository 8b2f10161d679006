//! Owns the dome's surface: its shape over the floor, its patches and areas, the doorway, and where a ray ends.
//!
//! Over a round floor the dome is a spherical cap; over an oval one the same cap stretched (an ellipsoidal cap); over a
//! rectangle a barrel vault, half an ellipse over the width, between upright walls at doorway and rear. The doorway is an
//! upright rectangle in the plane y = -depth/2. Where the dome slopes away behind it, the way in is roofed and walled by a
//! reveal between that plane and the dome; the reveal counts to the low patch at the mouth.

use super::plan::outline_of;
use super::shapes::FloorOutline;
use crate::scenario::{FireSide, FloorShape, Oven};

/// Sectors around the middle: mouth, left front, left rear, rear, right rear, right front.
pub const SECTORS: usize = 6;

/// Patches: each sector has a low and a high one; patch `2 s` is sector s low, `2 s + 1` high.
pub const PATCHES: usize = 2 * SECTORS;

/// The low patch at the mouth, to which the reveal counts.
pub const MOUTH_LOW: usize = 0;

/// Half a sector's opening, as its tangent (30 degrees).
const TAN_HALF_SECTOR: f64 = 0.577_350_269_189_625_8;

/// Height that parts low from high, as a share of the rise: halves a spherical cap's area (Archimedes).
const LOW_SHARE: f64 = 0.5;

/// Steps of the area sums along and up a patch.
const AREA_STEPS: usize = 24;

/// A piece of the dome.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Patch {
    /// Its area, m2.
    pub area_m2: f64,
    /// Which sector it is, in the cook's words.
    pub name: &'static str,
    /// Whether it is the upper one of its sector.
    pub high: bool,
}

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

/// The dome over a floor.
#[derive(Clone, Debug, PartialEq)]
pub struct Dome {
    /// Its patches: see [`PATCHES`].
    pub patches: Vec<Patch>,
    /// Area without the doorway's hole, with the reveal, m2.
    pub area_m2: f64,
    /// Volume under it, m3.
    pub volume_m3: f64,
    /// Area of the doorway's upright rectangle, m2.
    pub door_area_m2: f64,
    /// Area of the reveal between doorway and dome, m2.
    pub reveal_m2: f64,
    /// Rise above the floor, m.
    pub rise_m: f64,
    /// Half the doorway's width, m.
    pub half_door_m: f64,
    /// The doorway's height, m.
    pub door_height_m: f64,
    /// The floor's outline.
    pub outline: FloorOutline,
    /// Radius of the round cap before stretching, m.
    cap_radius_m: f64,
    /// Height of its centre, m (below the floor where the rise is less than the radius).
    cap_centre_m: f64,
    /// Stretch across and along.
    stretch: (f64, f64),
}

impl Dome {
    /// The dome of an oven.
    #[must_use]
    pub fn new(oven: &Oven) -> Self {
        let outline = outline_of(oven);
        let (a, b, h) = (outline.half_width_m, outline.half_depth_m, oven.dome_rise_m);
        let mean = (a * b).sqrt();
        let cap_radius_m = (mean * mean + h * h) / (2.0 * h);
        let volume_m3 = if oven.shape == FloorShape::Rectangle {
            core::f64::consts::PI * a * h * b
        } else {
            core::f64::consts::PI * h * (3.0 * mean * mean + h * h) / 6.0
        };
        let mut dome = Self {
            patches: names(oven.fire_side).map(|(name, high)| Patch { area_m2: 0.0, name, high }).collect(),
            area_m2: 0.0,
            volume_m3,
            door_area_m2: oven.door_width_m * oven.door_height_m,
            reveal_m2: 0.0,
            rise_m: h,
            half_door_m: oven.door_width_m / 2.0,
            door_height_m: oven.door_height_m,
            outline,
            cap_radius_m,
            cap_centre_m: h - cap_radius_m,
            stretch: (a / mean, b / mean),
        };
        dome.measure();
        dome
    }

    /// Height of the dome over a point of the floor, m.
    #[must_use]
    pub fn height_at(&self, x: f64, y: f64) -> f64 {
        let (sx, sy) = self.stretch;
        if self.outline.oval {
            let (u, v) = (x / sx, y / sy);
            let under = self.cap_radius_m * self.cap_radius_m - u * u - v * v;
            (self.cap_centre_m + under.max(0.0).sqrt()).max(0.0)
        } else {
            let u = x / self.outline.half_width_m;
            self.rise_m * (1.0 - u * u).max(0.0).sqrt()
        }
    }

    /// The patch at a point of the dome.
    #[must_use]
    pub fn patch_at(&self, x: f64, y: f64, z: f64) -> usize {
        let (u, v) = (x / self.outline.half_width_m, y / self.outline.half_depth_m);
        let sector = if u.abs() <= v.abs() * TAN_HALF_SECTOR {
            if v < 0.0 { 0 } else { 3 }
        } else if u < 0.0 {
            if v < 0.0 { 1 } else { 2 }
        } else if v < 0.0 {
            5
        } else {
            4
        };
        2 * sector + usize::from(z > LOW_SHARE * self.rise_m)
    }

    /// Where a ray from a point under the dome ends; `to` need not have length 1.
    #[must_use]
    pub fn cast(&self, from: [f64; 3], to: [f64; 3]) -> Hit {
        let [x, y, z] = from;
        let [dx, dy, dz] = to;
        let to_floor = if dz < 0.0 { -z / dz } else { f64::INFINITY };
        let to_dome = if self.outline.oval { self.way_to_cap(from, to) } else { self.way_to_vault(from, to) };
        if to_floor < to_dome {
            return Hit::Floor(x + to_floor * dx, y + to_floor * dy);
        }
        let (px, py, pz) = (x + to_dome * dx, y + to_dome * dy, z + to_dome * dz);
        if py >= 0.0 || pz > self.door_height_m || px.abs() > self.half_door_m {
            return Hit::Patch(self.patch_at(px, py, pz));
        }
        self.through_reveal(from, to)
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

    /// Sums patch areas, cuts the doorway's hole out and adds the reveal.
    fn measure(&mut self) {
        if self.outline.oval {
            self.measure_cap();
        } else {
            self.measure_vault();
        }
        let hole = self.hole();
        for (patch, area) in hole {
            self.patches[patch].area_m2 = (self.patches[patch].area_m2 - area).max(0.0);
        }
        self.reveal_m2 = self.measure_reveal();
        self.patches[MOUTH_LOW].area_m2 += self.reveal_m2;
        self.area_m2 = self.patches.iter().map(|p| p.area_m2).sum();
    }

    /// The stretched cap by midpoint sums over angle and height (exact for the round one, whose band area goes with height).
    fn measure_cap(&mut self) {
        let (sx, sy) = self.stretch;
        let step = core::f64::consts::PI / (3 * AREA_STEPS) as f64;
        let rise = self.rise_m / (2 * AREA_STEPS) as f64;
        for k in 0..2 * AREA_STEPS {
            let z = (k as f64 + 0.5) * rise;
            let up = z - self.cap_centre_m;
            let across = (self.cap_radius_m * self.cap_radius_m - up * up).max(0.0);
            let ring = across.sqrt();
            for m in 0..SECTORS * AREA_STEPS {
                // Half a sector back, so that whole steps fill each sector.
                let angle = (m as f64 + 0.5) * step - core::f64::consts::FRAC_PI_6;
                let (s, c) = libm::sincos(angle);
                let slope = sy * sy * across * s * s + sx * sx * across * c * c;
                let area = (slope + sx * sx * sy * sy * up * up).sqrt() * step * rise;
                // Angle 0 looks at the mouth and turns to the left.
                let (x, y) = (-ring * s * sx, -ring * c * sy);
                let patch = self.patch_at(x, y, z);
                self.patches[patch].area_m2 += area;
            }
        }
    }

    /// The vault over angle and depth, and the two half-elliptic end walls over width and height.
    fn measure_vault(&mut self) {
        let (a, b, h) = (self.outline.half_width_m, self.outline.half_depth_m, self.rise_m);
        let n = 4 * AREA_STEPS;
        let turn = core::f64::consts::PI / n as f64;
        for m in 0..n {
            let (s, c) = libm::sincos((m as f64 + 0.5) * turn);
            let arc = (a * a * s * s + h * h * c * c).sqrt() * turn;
            for k in 0..n {
                let y = ((2 * k + 1) as f64 / n as f64 - 1.0) * b;
                let patch = self.patch_at(-a * c, y, h * s);
                self.patches[patch].area_m2 += arc * 2.0 * b / n as f64;
                // End walls in elliptic shells: equal shares of the half ellipse's area pi a h / 2.
                let shell = ((k as f64 + 0.5) / n as f64).sqrt();
                let share = core::f64::consts::PI * a * h / 2.0 / (n * n) as f64;
                for end in [-b, b] {
                    let patch = self.patch_at(-a * c * shell, end, h * s * shell);
                    self.patches[patch].area_m2 += share;
                }
            }
        }
    }

    /// The dome's area inside the doorway's outline, patch by patch.
    fn hole(&self) -> Vec<(usize, f64)> {
        let n = 2 * AREA_STEPS;
        let (wide, tall) = (2.0 * self.half_door_m / n as f64, self.door_height_m / n as f64);
        let mut parts = Vec::new();
        for i in 0..n {
            let x = (i as f64 + 0.5) * wide - self.half_door_m;
            for k in 0..n {
                let z = (k as f64 + 0.5) * tall;
                if let Some((y, slant)) = self.front_at(x, z) {
                    parts.push((self.patch_at(x, y, z), wide * tall * slant));
                }
            }
        }
        parts
    }

    /// Where the dome's front stands at this x and height (y), and its area per upright area there.
    fn front_at(&self, x: f64, z: f64) -> Option<(f64, f64)> {
        let (sx, sy) = self.stretch;
        let up = z - self.cap_centre_m;
        if !self.outline.oval {
            return (z <= self.height_at(x, 0.0)).then_some((-self.outline.half_depth_m, 1.0));
        }
        let v2 = self.cap_radius_m * self.cap_radius_m - up * up - x * x / (sx * sx);
        if v2 <= 0.0 {
            return None;
        }
        let y = -v2.sqrt() * sy;
        let (gx, gy) = (x / (sx * sx), y / (sy * sy));
        Some((y, (gx * gx + gy * gy + up * up).sqrt() / gy.abs()))
    }

    /// Side walls and roof between the doorway's plane and the dome, m2.
    fn measure_reveal(&self) -> f64 {
        let n = 2 * AREA_STEPS;
        let (wide, tall) = (2.0 * self.half_door_m / n as f64, self.door_height_m / n as f64);
        let behind =
            |x: f64, z: f64| self.front_at(x, z).map_or(0.0, |(y, _)| (y + self.outline.half_depth_m).max(0.0));
        let mut area = 0.0;
        for k in 0..n {
            area += 2.0 * behind(self.half_door_m, (k as f64 + 0.5) * tall) * tall;
            area += behind((k as f64 + 0.5) * wide - self.half_door_m, self.door_height_m) * wide;
        }
        area
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

fn names(fire: FireSide) -> impl Iterator<Item = (&'static str, bool)> {
    let sectors: [&'static str; SECTORS] = if fire == FireSide::Rear {
        ["mouth", "left front", "left rear", "fire wall", "right rear", "right front"]
    } else {
        ["mouth", "fire side front", "fire side rear", "rear", "far side rear", "far side front"]
    };
    sectors.into_iter().flat_map(|name| [(name, false), (name, true)])
}

#[cfg(test)]
mod tests {
    use super::super::plan::sample;
    use super::*;

    #[test]
    fn a_round_domes_area_is_pi_a2_plus_h2() {
        let mut oven = sample::oven(FloorShape::Round, 1.2, 1.2, 0.45, FireSide::Left);
        (oven.door_width_m, oven.door_height_m) = (1e-9, 1e-9);
        let dome = Dome::new(&oven);
        // Spherical cap: area pi (a^2 + h^2), volume pi h (3 a^2 + h^2) / 6 (any table of solids).
        let area = core::f64::consts::PI * (0.36 + 0.2025);
        assert!((dome.area_m2 - area).abs() < 1e-6, "{} {area}", dome.area_m2);
        assert!((dome.volume_m3 - core::f64::consts::PI * 0.45 * (3.0 * 0.36 + 0.2025) / 6.0).abs() < 1e-12);
        for p in &dome.patches {
            assert!((p.area_m2 - area / 12.0).abs() < 1e-6, "{p:?}");
        }
    }

    #[test]
    fn an_oval_domes_area_agrees_with_half_an_ellipsoid() {
        // Rise equal to the mean radius makes half an ellipsoid; Knud Thomsen's formula (p = 1.6075) is good to 1.1 %.
        let mut oven = sample::oven(FloorShape::DeepOval, 1.0, 1.44, 0.6, FireSide::Left);
        (oven.door_width_m, oven.door_height_m) = (1e-9, 1e-9);
        let dome = Dome::new(&oven);
        let power = |v: f64| libm::pow(v, 1.6075);
        let (ab, ac, bc) = (0.5 * 0.72, 0.5 * 0.6, 0.72 * 0.6);
        let half = 2.0 * core::f64::consts::PI * libm::pow((power(ab) + power(ac) + power(bc)) / 3.0, 1.0 / 1.6075);
        assert!((dome.area_m2 / half - 1.0).abs() < 0.011, "{} {half}", dome.area_m2);
    }

    #[test]
    fn a_half_round_barrel_has_its_textbook_area() {
        // Rise = half width: half a cylinder pi a L plus two half disks pi a^2, less the doorway.
        let dome = Dome::new(&sample::oven(FloorShape::Rectangle, 0.8, 1.2, 0.4, FireSide::Left));
        let area = core::f64::consts::PI * (0.4 * 1.2 + 0.16) - 0.125;
        assert!((dome.area_m2 - area).abs() < 2e-4, "{} {area}", dome.area_m2);
        assert!(dome.reveal_m2.abs() < 1e-12);
    }

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
