//! Owns where the fire's radiation goes: shares of a flame's and of a bed's glow to floor cells, dome patches and doorway.
//!
//! What falls straight on the floor is worked out in closed form, so that cells of any size get what is theirs; what goes
//! elsewhere is counted with rays.

mod floor;

use self::floor::{from_flank, from_points};
use super::dome::{Dome, PATCHES};
use super::plan::FloorPlan;
use super::rays::Hit;
use super::shapes::Rect;
use super::views::{Ray, directions, even_point, mirror};
use crate::numerics::order;

/// Height of a coal bed's top over the floor when gathered, m (0.05..0.12). Common practice, no source.
pub const BED_HEIGHT_M: f64 = 0.08;

/// A flame shorter than this is taken to be this tall, m: below it the coal bed is the fire. Our choice.
const LEAST_FLAME_M: f64 = 0.03;

/// Flames end this share of the dome's height below it, so that they shine from the gas and not from the brick. Our choice.
const UNDER_DOME: f64 = 0.95;

/// Points a flame shines from straight onto the floor (in closed form), and its bed's: enough that no cell tells them apart.
const FLAME_POINTS: usize = 64;

/// Rays for one flame's shine elsewhere.
const FLAME_RAYS: usize = 2048;

/// Points of which those inside the bed stand for it.
const BED_POINTS: usize = 512;

/// Rays for one bed.
const BED_RAYS: usize = 1024;

/// Where a source's radiation first falls; all shares add up to 1.
#[derive(Clone, Debug, PartialEq)]
pub struct Source {
    /// Shares to the floor's cells.
    pub to_cell: Vec<f64>,
    /// Shares to the dome's patches.
    pub to_patch: Vec<f64>,
    /// Share out of the doorway.
    pub to_door: f64,
}

/// Counts of the rays that end on the dome or go out of the doorway, made shares at the end.
struct Tally<'a> {
    plan: &'a FloorPlan,
    dome: &'a Dome,
    to_patch: Vec<f64>,
    to_door: f64,
}

impl<'a> Tally<'a> {
    fn new(plan: &'a FloorPlan, dome: &'a Dome) -> Self {
        Self { plan, dome, to_patch: vec![0.0; PATCHES], to_door: 0.0 }
    }

    /// Casts a ray and, for a fire at the rear, its mirror image.
    fn cast(&mut self, from: [f64; 3], to: [f64; 3]) {
        match self.dome.cast(from, to) {
            Hit::Door => self.to_door += 1.0,
            Hit::Patch(k) if self.plan.fire_at_rear => {
                self.to_patch[k] += 0.5;
                self.to_patch[mirror(k)] += 0.5;
            }
            Hit::Patch(k) => self.to_patch[k] += 1.0,
            Hit::Floor(..) => {}
        }
    }

    /// Shares out what the floor leaves.
    fn beside(self, to_cell: Vec<f64>) -> Source {
        let rest = 1.0 - to_cell.iter().sum::<f64>();
        let all = (self.to_patch.iter().sum::<f64>() + self.to_door).max(1.0);
        let to_patch = self.to_patch.iter().map(|n| rest * n / all).collect();
        Source { to_cell, to_patch, to_door: rest * self.to_door / all }
    }
}

impl Source {
    /// This source and another, of which `share` comes from the other.
    fn blend(&self, other: &Self, share: f64) -> Self {
        let mix = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| (1.0 - share) * a + share * b).collect();
        Self {
            to_cell: mix(&self.to_cell, &other.to_cell),
            to_patch: mix(&self.to_patch, &other.to_patch),
            to_door: (1.0 - share) * self.to_door + share * other.to_door,
        }
    }
}

/// A flame `height_m` tall over the bed, and `spread_m` of radius where it runs along under the dome (0: it does not).
///
/// The flame is optically thin: points along its axis shine alike in all directions. The axis stands over the bed's inner
/// half; its tip bends under the dome where it meets it. The part under the dome shines from a disk, in proportion to its
/// radius over the flame's whole length.
#[must_use]
pub fn flame_source(plan: &FloorPlan, dome: &Dome, height_m: f64, spread_m: f64) -> Source {
    let points = bed_points(plan, false);
    let rise = height_m.max(LEAST_FLAME_M);
    let spread = spread_m.max(0.0);
    let flat_share = spread / (spread + rise);
    let heart = plan.bed_centre();
    let place = |[w, p, q]: [f64; 3]| {
        if w < flat_share {
            let (s, c) = libm::sincos(2.0 * core::f64::consts::PI * q);
            let r = spread * p.sqrt();
            let (x, y) = pull_inside(plan, heart.0 + r * c, heart.1 + r * s);
            [x, y, UNDER_DOME * dome.height_at(x, y)]
        } else {
            let (bx, by) = points[((p * points.len() as f64) as usize).min(points.len() - 1)];
            // Flames draw together above the bed: half way to its middle.
            let (x, y) = (f64::midpoint(bx, heart.0), f64::midpoint(by, heart.1));
            [x, y, (q * rise).min(UNDER_DOME * dome.height_at(x, y))]
        }
    };
    let mut tally = Tally::new(plan, dome);
    for i in 0..FLAME_RAYS {
        let [u, v, w, p, q] = even_draw(i);
        tally.cast(place([w, p, q]), sphere_direction(u, v));
    }
    let shining: Vec<[f64; 3]> = (0..FLAME_POINTS).map(|i| place(even_point(i))).collect();
    tally.beside(from_points(plan, &shining))
}

/// The glow of the coals: from the top of a gathered bed and its flank towards the food, or from a layer over the whole floor.
///
/// A gathered bed's top shines upwards by the cosine; its flank, [`BED_HEIGHT_M`] tall along the bed's line, half onto the
/// floor. Coals spread out lie on every cell, shine upwards only, and what they give downwards is contact, not counted here.
#[must_use]
pub fn bed_source(plan: &FloorPlan, dome: &Dome, spread_over_floor: bool) -> Source {
    let points = bed_points(plan, spread_over_floor);
    let (mut top, mut flank) = (Tally::new(plan, dome), Tally::new(plan, dome));
    for (i, ray) in directions(BED_RAYS).iter().enumerate() {
        let [.., p, q] = even_draw(i);
        let (x, y) = points[((p * points.len() as f64) as usize).min(points.len() - 1)];
        let z = if spread_over_floor { 0.0 } else { BED_HEIGHT_M.min(UNDER_DOME * dome.height_at(x, y)) };
        top.cast([x, y, z], ray.to);
        if !spread_over_floor {
            let (from, to) = flank_ray(plan, dome, q, p, ray);
            flank.cast(from, to);
        }
    }
    let top = top.beside(vec![0.0; plan.cells.len()]);
    if spread_over_floor {
        return top;
    }
    let flank_m2 = BED_HEIGHT_M * line_length(plan);
    let share = flank_m2 / (flank_m2 + plan.area_m2 - plan.food_area_m2);
    top.blend(&flank.beside(from_flank(plan, BED_HEIGHT_M, line_length(plan))), share)
}

/// A ray from the bed's flank: `along` its line, `up` its height, turned to face the food.
fn flank_ray(plan: &FloorPlan, dome: &Dome, along: f64, up: f64, ray: &Ray) -> ([f64; 3], [f64; 3]) {
    let half = line_length(plan) / 2.0;
    let place = (2.0 * along - 1.0) * half;
    let (x, y, to) = if plan.fire_at_rear {
        (place, plan.bed_limit, [ray.to[0], -ray.to[2], ray.to[1]])
    } else {
        (plan.bed_limit, place, [ray.to[2], ray.to[0], ray.to[1]])
    };
    ([x, y, (up * BED_HEIGHT_M).min(UNDER_DOME * dome.height_at(x, y))], to)
}

/// Length of the bed's line inside the floor, m.
fn line_length(plan: &FloorPlan) -> f64 {
    2.0 * if plan.fire_at_rear {
        plan.outline.half_across(plan.bed_limit)
    } else {
        plan.outline.half_along(plan.bed_limit)
    }
}

/// Evenly spread points of the bed (or of the whole floor), the same however the floor is cut.
fn bed_points(plan: &FloorPlan, whole_floor: bool) -> Vec<(f64, f64)> {
    let (w, d) = (plan.outline.half_width_m, plan.outline.half_depth_m);
    let mut within = Rect { x0: -w, x1: w, y0: -d, y1: d };
    if !whole_floor && plan.fire_at_rear {
        within.y0 = plan.bed_limit;
    } else if !whole_floor {
        within.x1 = plan.bed_limit;
    }
    let place = |[u, v, _]: [f64; 3]| (within.x0 * (1.0 - u) + within.x1 * u, within.y0 * (1.0 - v) + within.y1 * v);
    let mut points: Vec<(f64, f64)> =
        (0..BED_POINTS).map(|i| place(even_point(i))).filter(|&(x, y)| plan.outline.contains(x, y)).collect();
    // From the doorway to the rear, so that an even draw of one of them is even over the bed.
    order::by(&mut points, |a, b| a.1.total_cmp(&b.1));
    points
}

/// A point beyond the wall drawn back along the way to the middle.
fn pull_inside(plan: &FloorPlan, x: f64, y: f64) -> (f64, f64) {
    let (u, v) = (x / plan.outline.half_width_m, y / plan.outline.half_depth_m);
    let off = if plan.outline.oval { (u * u + v * v).sqrt() } else { u.abs().max(v.abs()) };
    let back = if off > UNDER_DOME { UNDER_DOME / off } else { 1.0 };
    (x * back, y * back)
}

/// A direction evenly over the whole sphere.
fn sphere_direction(u: f64, v: f64) -> [f64; 3] {
    let z = 1.0 - 2.0 * u;
    let across = (1.0 - z * z).max(0.0).sqrt();
    let (s, c) = libm::sincos(2.0 * core::f64::consts::PI * v);
    [across * c, across * s, z]
}

/// The i-th of evenly spread draws of five numbers (Kronecker sequence on the roots of 2, 3, 5, 7, 11).
fn even_draw(i: usize) -> [f64; 5] {
    [2.0_f64, 3.0, 5.0, 7.0, 11.0].map(|prime| {
        let v = prime.sqrt() * (i as f64 + 0.5);
        v - v.floor()
    })
}

#[cfg(test)]
mod tests {
    use super::super::plan::{CELL_M, sample};
    use super::*;
    use crate::scenario::{FireSide, FloorShape};

    fn sum(s: &Source) -> f64 {
        s.to_cell.iter().chain(&s.to_patch).sum::<f64>() + s.to_door
    }

    #[test]
    fn every_share_is_counted_once() {
        for oven in sample::all() {
            let (plan, dome) = (FloorPlan::new(&oven, CELL_M), Dome::new(&oven));
            for source in [
                flame_source(&plan, &dome, 0.0, 0.0),
                flame_source(&plan, &dome, 0.3, 0.0),
                flame_source(&plan, &dome, 0.9, 0.4),
                bed_source(&plan, &dome, false),
                bed_source(&plan, &dome, true),
            ] {
                assert!((sum(&source) - 1.0).abs() < 1e-12, "{}", sum(&source));
                assert!(source.to_cell.iter().chain(&source.to_patch).all(|&v| v >= 0.0));
            }
        }
    }

    #[test]
    fn a_low_flame_shines_half_on_the_floor_and_a_spread_one_less_at_the_bed() {
        let oven = sample::oven(FloorShape::Round, 1.4, 1.4, 0.45, FireSide::Left);
        let (plan, dome) = (FloorPlan::new(&oven, CELL_M), Dome::new(&oven));
        let floor = |s: &Source| s.to_cell.iter().sum::<f64>();
        let bed =
            |s: &Source| s.to_cell.iter().zip(&plan.cells).filter(|(_, c)| c.under_fire).map(|(v, _)| v).sum::<f64>();
        let (low, high) = (flame_source(&plan, &dome, 0.0, 0.0), flame_source(&plan, &dome, 0.5, 0.5));
        // A point on a plane sends half of what it shines to the plane.
        assert!((floor(&low) - 0.5).abs() < 0.03, "{}", floor(&low));
        assert!(bed(&high) < 0.6 * bed(&low), "{} {}", bed(&high), bed(&low));
    }

    #[test]
    fn the_fire_side_gets_more_than_the_far_side() {
        for side in [FireSide::Left, FireSide::Right] {
            let oven = sample::oven(FloorShape::Round, 1.4, 1.4, 0.45, side);
            let (plan, dome) = (FloorPlan::new(&oven, CELL_M), Dome::new(&oven));
            for s in [flame_source(&plan, &dome, 0.25, 0.0), bed_source(&plan, &dome, false)] {
                let (fire, far) = (s.to_patch[2..6].iter().sum::<f64>(), s.to_patch[8..12].iter().sum::<f64>());
                assert!(fire > 1.5 * far, "{fire} {far}");
            }
        }
    }

    #[test]
    fn coals_spread_out_light_the_dome_as_the_floor_would() {
        // A cosine source over the whole floor is the floor: its shares are the view factors weighted by area.
        let oven = sample::oven(FloorShape::Round, 1.4, 1.4, 0.45, FireSide::Rear);
        let (plan, dome) = (FloorPlan::new(&oven, CELL_M), Dome::new(&oven));
        let views = super::super::views::Views::new(&plan, &dome);
        let spread = bed_source(&plan, &dome, true);
        assert!(spread.to_cell.iter().all(|&v| v == 0.0));
        for k in 0..PATCHES {
            let seen: f64 = views.cell_patch_m2.iter().skip(k).step_by(PATCHES).sum::<f64>() / plan.area_m2;
            assert!((spread.to_patch[k] - seen).abs() < 0.012, "{k} {} {seen}", spread.to_patch[k]);
        }
    }

    #[test]
    fn a_fire_at_the_rear_shines_alike_to_both_sides() {
        for oven in sample::all().iter().filter(|o| o.fire_side == FireSide::Rear) {
            let (plan, dome) = (FloorPlan::new(oven, CELL_M), Dome::new(oven));
            for s in [flame_source(&plan, &dome, 0.4, 0.2), bed_source(&plan, &dome, false)] {
                for k in 0..PATCHES {
                    assert_eq!(s.to_patch[k].to_bits(), s.to_patch[mirror(k)].to_bits());
                }
                for (c, cell) in plan.cells.iter().enumerate() {
                    assert_eq!(s.to_cell[c].to_bits(), s.to_cell[plan.cell_at(-cell.x_m, cell.y_m)].to_bits());
                }
            }
        }
    }
}
