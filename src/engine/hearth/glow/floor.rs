//! Owns what flames and coals shine straight onto the floor, in closed form.

use crate::hearth::configuration::element_to_upright;
use crate::hearth::plan::FloorPlan;
use crate::hearth::views::cell_points;

/// A point shines from no lower than this, m: what lies lower still is the bed itself. Our choice.
const LEAST_HEIGHT_M: f64 = 0.001;

/// A quarter of the solid angle of a box symmetric about the foot of a point `z` above it, half sides `x` and `y`; with signs,
/// four of these make up any box (Van Oosterom & Strackee's corner, the textbook's atan(x y / (z r))).
fn corner(x: f64, y: f64, z: f64) -> f64 {
    libm::atan(x * y / (z * (x * x + y * y + z * z).sqrt()))
}

/// Shares of what the points shine evenly all round that fall on each cell.
pub(super) fn from_points(plan: &FloorPlan, points: &[[f64; 3]]) -> Vec<f64> {
    let (nx, ny) = (plan.tiles_across, plan.tiles_along);
    let (across, along) = (&plan.across_m, &plan.along_m);
    let per = 1.0 / (4.0 * core::f64::consts::PI * points.len() as f64);
    let mut tiles = vec![0.0; nx * ny];
    for &[x, y, z] in points {
        let z = z.max(LEAST_HEIGHT_M);
        let row = |j: usize| -> Vec<f64> { across.iter().map(|line| corner(line - x, along[j] - y, z)).collect() };
        let mut before = row(0);
        for j in 0..ny {
            let after = row(j + 1);
            for i in 0..nx {
                tiles[j * nx + i] += per * ((after[i + 1] - after[i]) - (before[i + 1] - before[i]));
            }
            before = after;
        }
    }
    let mut to_cell = vec![0.0; plan.cells.len()];
    for (t, share) in tiles.iter().enumerate() {
        if let Some(cell) = plan.owner_of(t % nx, t / nx) {
            let tile = plan.tile(t % nx, t / nx);
            to_cell[cell] += share * plan.outline.part_in(&tile).area_m2 / tile.area_m2();
        }
    }
    alike_on_both_sides(plan, to_cell)
}

/// Shares of what the bed's flank, `height_m` tall along its line of `length_m`, shines that fall on each cell.
pub(super) fn from_flank(plan: &FloorPlan, height_m: f64, length_m: f64) -> Vec<f64> {
    let half = 0.5 * length_m;
    let seen = |&(x, y): &(f64, f64)| {
        let (ahead, beside) = if plan.fire_at_rear { (plan.bed_limit - y, x) } else { (x - plan.bed_limit, y) };
        element_to_upright(ahead, -half - beside, half - beside, height_m)
    };
    let to_cell = plan.cells.iter().zip(cell_points(plan)).map(|(cell, points)| {
        cell.area_m2 * points.iter().map(seen).sum::<f64>() / (points.len() as f64 * height_m * length_m)
    });
    alike_on_both_sides(plan, to_cell.collect())
}

/// A fire at the rear shines to both sides alike, to the bit.
fn alike_on_both_sides(plan: &FloorPlan, to_cell: Vec<f64>) -> Vec<f64> {
    if !plan.fire_at_rear {
        return to_cell;
    }
    let twin = |cell: usize| plan.twin_of(cell).unwrap_or(cell);
    (0..to_cell.len()).map(|cell| f64::midpoint(to_cell[cell], to_cell[twin(cell)])).collect()
}
