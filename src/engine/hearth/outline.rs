//! Owns how an outline set down on the floor covers cells, and whether two outlines get in each other's way.

use super::plan::FloorPlan;
use super::shapes::{Rect, disk_in_rect_m2};
use crate::scenario::Footprint;

/// Two outlines that touch within this length do not get in each other's way, m (rounding of coordinates only).
const TOUCH_M: f64 = 1e-9;

/// The smallest upright box around an outline at a place.
#[must_use]
pub fn bounds(footprint: &Footprint, x: f64, y: f64) -> Rect {
    match *footprint {
        Footprint::Round { diameter_m } => Rect::around(x, y, diameter_m, diameter_m),
        Footprint::Rectangle { width_m, depth_m } => Rect::around(x, y, width_m, depth_m),
    }
}

/// Cells under an outline set down at (x, y) in the plan's coordinates, with the area each gives, m2, in rising order of cells.
///
/// Areas are exact (disk and box overlaps in closed form). Where the outline lies wholly on the floor they add up to its
/// area; a part beyond the wall is left out tile by tile, and no cell gives more than it has.
#[must_use]
pub fn cover(plan: &FloorPlan, footprint: &Footprint, x: f64, y: f64) -> Vec<(usize, f64)> {
    let reach = bounds(footprint, x, y);
    let (i0, j0) = plan.tile_at(reach.x0, reach.y0);
    let (i1, j1) = plan.tile_at(reach.x1, reach.y1);
    let mut under: Vec<(usize, f64)> = Vec::new();
    for j in j0..=j1 {
        for i in i0..=i1 {
            let Some(cell) = plan.owner_of(i, j) else { continue };
            let tile = plan.tile(i, j);
            let area = match *footprint {
                Footprint::Round { diameter_m } => disk_in_rect_m2(diameter_m / 2.0, x, y, &tile),
                Footprint::Rectangle { .. } => reach.common(&tile).area_m2(),
            };
            if area <= 0.0 {
                continue;
            }
            match under.iter_mut().find(|(c, _)| *c == cell) {
                Some(entry) => entry.1 += area,
                None => under.push((cell, area)),
            }
        }
    }
    for (cell, area) in &mut under {
        *area = area.min(plan.cells[*cell].area_m2);
    }
    crate::numerics::order::by(&mut under, |a, b| a.0.cmp(&b.0));
    under
}

/// Whether two outlines stand nearer than `gap_m` to each other.
#[must_use]
pub fn overlaps(a: &Footprint, xa: f64, ya: f64, b: &Footprint, xb: f64, yb: f64, gap_m: f64) -> bool {
    clearance_m(a, xa, ya, b, xb, yb) < gap_m - TOUCH_M
}

/// The open way between two outlines, m; zero or less where they overlap.
#[must_use]
pub fn clearance_m(a: &Footprint, xa: f64, ya: f64, b: &Footprint, xb: f64, yb: f64) -> f64 {
    let (box_a, round_a) = core_of(a);
    let (box_b, round_b) = core_of(b);
    let dx = (xa - xb).abs() - box_a.0 - box_b.0;
    let dy = (ya - yb).abs() - box_a.1 - box_b.1;
    let apart = if dx <= 0.0 && dy <= 0.0 {
        dx.max(dy)
    } else {
        let (ox, oy) = (dx.max(0.0), dy.max(0.0));
        (ox * ox + oy * oy).sqrt()
    };
    apart - round_a - round_b
}

/// Every outline is a box (half sides) grown by a radius: a disk is a point grown, a rectangle a box not grown.
fn core_of(footprint: &Footprint) -> ((f64, f64), f64) {
    match *footprint {
        Footprint::Round { diameter_m } => ((0.0, 0.0), diameter_m / 2.0),
        Footprint::Rectangle { width_m, depth_m } => ((width_m / 2.0, depth_m / 2.0), 0.0),
    }
}

#[cfg(test)]
mod tests {
    use super::super::plan::{CELL_M, sample};
    use super::*;
    use crate::demand::area_m2;
    use crate::scenario::{FireSide, FloorShape};

    const ROUND: Footprint = Footprint::Round { diameter_m: 0.33 };
    const BOX: Footprint = Footprint::Rectangle { width_m: 0.3, depth_m: 0.2 };

    #[test]
    fn covered_areas_add_up_to_the_outline() {
        for oven in sample::all() {
            let plan = FloorPlan::new(&oven, CELL_M);
            for footprint in [ROUND, BOX] {
                for (x, y) in [(0.1, 0.0), (0.07, -0.23), (-0.013, 0.11)] {
                    let under = cover(&plan, &footprint, x, y);
                    let sum: f64 = under.iter().map(|&(_, a)| a).sum();
                    assert!((sum - area_m2(&footprint)).abs() < 1e-12, "{sum}");
                    // The covered centroid is the outline's own, within the coarseness of a cell.
                    let cx: f64 = under.iter().map(|&(c, a)| a * plan.cells[c].x_m).sum::<f64>() / sum;
                    assert!((cx - x).abs() < 0.02, "{cx} {x}");
                }
            }
        }
    }

    #[test]
    fn a_piece_against_the_wall_covers_slivers_too() {
        let plan = FloorPlan::new(&sample::oven(FloorShape::Round, 1.4, 1.4, 0.45, FireSide::Left), CELL_M);
        // A disk touching the wall at 45 degrees: it lies on the floor, and so does all of its area.
        let r = (0.7 - 0.165) * core::f64::consts::FRAC_1_SQRT_2;
        let sum: f64 = cover(&plan, &ROUND, r, r).iter().map(|&(_, a)| a).sum();
        assert!((sum - area_m2(&ROUND)).abs() < 1e-12, "{sum}");
    }

    #[test]
    fn outlines_keep_their_gap() {
        assert!(!overlaps(&ROUND, 0.0, 0.0, &ROUND, 0.35, 0.0, 0.02));
        assert!(overlaps(&ROUND, 0.0, 0.0, &ROUND, 0.349, 0.0, 0.02));
        // Corner to corner 3-4-5: boxes 0.3 x 0.2 set 0.33 and 0.24 apart leave 0.03 by 0.04, that is 0.05 m.
        assert!((clearance_m(&BOX, 0.0, 0.0, &BOX, 0.33, 0.24) - 0.05).abs() < 1e-12);
        assert!(overlaps(&BOX, 0.0, 0.0, &ROUND, 0.3, 0.0, 0.0));
        assert!(!overlaps(&BOX, 0.0, 0.0, &ROUND, 0.32, 0.0, 0.0));
        assert!(overlaps(&BOX, 0.0, 0.0, &BOX, 0.1, 0.05, 0.0));
    }
}
