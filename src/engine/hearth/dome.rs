//! Owns the dome's surface: its shape over the floor, its patches and areas, and the doorway's cut in it.
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
pub(super) const TAN_HALF_SECTOR: f64 = 0.577_350_269_189_625_8;

/// Height that parts low from high but at the mouth, as a share of the rise: halves a spherical cap's area (Archimedes).
pub(super) const LOW_SHARE: f64 = 0.5;

/// Steps of the area sums along and up a patch.
const AREA_STEPS: usize = 24;

/// Least share of the dome a patch keeps where the doorway takes all of it: a patch of no area has no temperature. Our choice;
/// only doorways as large as the dome allows meet it.
const LEAST_PATCH_SHARE: f64 = 1e-3;

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

/// A small piece of surface and its area (less than nothing where it is cut out).
struct Piece {
    x: f64,
    y: f64,
    z: f64,
    area: f64,
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
    /// Height that parts low from high at the mouth, m.
    pub mouth_split_m: f64,
    /// Radius of the round cap before stretching, m.
    pub(super) cap_radius_m: f64,
    /// Height of its centre, m (below the floor where the rise is less than the radius).
    pub(super) cap_centre_m: f64,
    /// Stretch across and along.
    pub(super) stretch: (f64, f64),
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
            mouth_split_m: LOW_SHARE * h,
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

    /// The sector over a point of the floor.
    fn sector_at(&self, x: f64, y: f64) -> usize {
        let (u, v) = (x / self.outline.half_width_m, y / self.outline.half_depth_m);
        if u.abs() <= v.abs() * TAN_HALF_SECTOR {
            if v < 0.0 { 0 } else { 3 }
        } else if u < 0.0 {
            if v < 0.0 { 1 } else { 2 }
        } else if v < 0.0 {
            5
        } else {
            4
        }
    }

    /// The patch at a point of the dome.
    #[must_use]
    pub fn patch_at(&self, x: f64, y: f64, z: f64) -> usize {
        let sector = self.sector_at(x, y);
        let split = if sector == 0 { self.mouth_split_m } else { LOW_SHARE * self.rise_m };
        2 * sector + usize::from(z > split)
    }

    /// Sums patch areas: the surface, less the doorway's hole, with the reveal.
    fn measure(&mut self) {
        let mut pieces = if self.outline.oval { self.cap_pieces() } else { self.vault_pieces() };
        pieces.extend(self.hole_pieces());
        self.reveal_m2 = self.measure_reveal();
        self.mouth_split_m = self.halve_mouth(&pieces);
        for p in &pieces {
            let patch = self.patch_at(p.x, p.y, p.z);
            self.patches[patch].area_m2 += p.area;
        }
        self.patches[MOUTH_LOW].area_m2 += self.reveal_m2;
        let least = LEAST_PATCH_SHARE * self.patches.iter().map(|p| p.area_m2.max(0.0)).sum::<f64>();
        for p in &mut self.patches {
            p.area_m2 = p.area_m2.max(least);
        }
        self.area_m2 = self.patches.iter().map(|p| p.area_m2).sum();
    }

    /// Height at which what the doorway leaves of the mouth's sector is halved, so that neither patch is a mere rim round it.
    fn halve_mouth(&self, pieces: &[Piece]) -> f64 {
        let bins = 2 * AREA_STEPS;
        let bin = self.rise_m / bins as f64;
        let mut areas = vec![0.0; bins];
        for p in pieces.iter().filter(|p| self.sector_at(p.x, p.y) == 0) {
            areas[((p.z / bin) as usize).min(bins - 1)] += p.area;
        }
        let half = (areas.iter().sum::<f64>() + self.reveal_m2) / 2.0;
        let mut below = self.reveal_m2;
        let mut k = 0;
        while k + 2 < bins && (below < half || k < 2) {
            below += areas[k];
            k += 1;
        }
        k as f64 * bin
    }

    /// The stretched cap over angle and height (exact sums for the round one, whose band area goes with height).
    fn cap_pieces(&self) -> Vec<Piece> {
        let (sx, sy) = self.stretch;
        let step = core::f64::consts::PI / (3 * AREA_STEPS) as f64;
        let rise = self.rise_m / (2 * AREA_STEPS) as f64;
        let mut pieces = Vec::with_capacity(2 * SECTORS * AREA_STEPS * AREA_STEPS);
        for m in 0..SECTORS * AREA_STEPS {
            // Half a sector back, so that whole steps fill each sector.
            let (s, c) = libm::sincos((m as f64 + 0.5) * step - core::f64::consts::FRAC_PI_6);
            for k in 0..2 * AREA_STEPS {
                let z = (k as f64 + 0.5) * rise;
                let up = z - self.cap_centre_m;
                let across = (self.cap_radius_m * self.cap_radius_m - up * up).max(0.0);
                let ring = across.sqrt();
                let slope = sy * sy * across * s * s + sx * sx * across * c * c;
                let area = (slope + sx * sx * sy * sy * up * up).sqrt() * step * rise;
                // Angle 0 looks at the mouth and turns to the left.
                pieces.push(Piece { x: -ring * s * sx, y: -ring * c * sy, z, area });
            }
        }
        pieces
    }

    /// The vault over angle and depth, and the two half-elliptic end walls over angle and elliptic shells of equal area.
    fn vault_pieces(&self) -> Vec<Piece> {
        let (a, b, h) = (self.outline.half_width_m, self.outline.half_depth_m, self.rise_m);
        let n = 4 * AREA_STEPS;
        let turn = core::f64::consts::PI / n as f64;
        let share = core::f64::consts::PI * a * h / 2.0 / (n * n) as f64;
        let mut pieces = Vec::with_capacity(3 * n * n);
        for m in 0..n {
            let (s, c) = libm::sincos((m as f64 + 0.5) * turn);
            let arc = (a * a * s * s + h * h * c * c).sqrt() * turn;
            for k in 0..n {
                let y = ((2 * k + 1) as f64 / n as f64 - 1.0) * b;
                pieces.push(Piece { x: -a * c, y, z: h * s, area: arc * 2.0 * b / n as f64 });
                let shell = ((k as f64 + 0.5) / n as f64).sqrt();
                pieces.extend([-b, b].map(|y| Piece { x: -a * c * shell, y, z: h * s * shell, area: share }));
            }
        }
        pieces
    }

    /// The dome's area inside the doorway's outline, to be taken off.
    fn hole_pieces(&self) -> Vec<Piece> {
        let n = 2 * AREA_STEPS;
        let (wide, tall) = (2.0 * self.half_door_m / n as f64, self.door_height_m / n as f64);
        let mut pieces = Vec::new();
        for i in 0..n {
            let x = (i as f64 + 0.5) * wide - self.half_door_m;
            for k in 0..n {
                let z = (k as f64 + 0.5) * tall;
                if let Some((y, slant)) = self.front_at(x, z) {
                    pieces.push(Piece { x, y, z, area: -wide * tall * slant });
                }
            }
        }
        pieces
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
        assert!((dome.mouth_split_m - 0.225).abs() < 1e-12);
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
}
