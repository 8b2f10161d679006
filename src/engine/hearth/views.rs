//! Owns who sees whom under the dome: floor cells, dome patches and doorway, as one symmetric table of exchange areas.
//!
//! What is stored is A_i F_ij in m2, once for each pair, so reciprocity holds by construction; every factor is read from it.
//! Floor to doorway is the closed form for an upright rectangle, less what the wall beside the doorway hides. Floor to dome is
//! summed slice by slice, made up so that each cell's row is whole. Dome to dome is r_k r_j / sum r with r_k what a patch has left
//! after floor and doorway: exact on a sphere, where every patch sees every other by area alone; for stretched caps and
//! vaults an approximation that keeps rows and reciprocity. The doorway is a black patch.

use super::configuration::element_to_upright;
use super::dome::{Dome, MOUTH_LOW, PATCHES};
use super::fans::{Seen, add_slice};
use super::plan::FloorPlan;
use super::rays::Hit;
use super::shapes::Rect;

/// Slices of a cell's view (64..65536). Against 65536 the usual number is off by 2.5e-3 in the mean square, most beside the wall;
/// a patch's view of the whole floor by 3e-3. Four times as many halve the first twice: see the tests.
pub const SLICES: usize = 128;

/// Points along each side of a whole tile from which its rays start and its doorway factor is averaged.
const POINTS: usize = 4;

/// Points across and up the doorway, for what the wall hides and for what the doorway itself sees.
const DOOR_POINTS: (usize, usize) = (8, 4);

/// Of a cell's points every which is asked what the wall hides (coprime with the points of a row, so that all columns are).
const HIDDEN_STEP: usize = 5;

/// Least share of a patch's claims that it keeps for the rest of the dome. Our choice; only odd doorways meet it.
const LEAST_LEFT: f64 = 0.02;

/// Rays from each point of the doorway's left half.
const DOOR_RAYS: usize = 128;

/// A direction over the floor, with the third coordinate of its place in the sequence, 0..1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ray {
    /// Unit vector, z up.
    pub to: [f64; 3],
    /// Which of the starting points it takes.
    pub pick: f64,
}

/// `count` directions over a flat element, weighted by the cosine, evenly spread (Kronecker sequence on the inverse powers of
/// the root of g^4 = g + 1).
#[must_use]
pub fn directions(count: usize) -> Vec<Ray> {
    (0..count)
        .map(|i| {
            let [u, v, pick] = even_point(i);
            let (s, c) = libm::sincos(2.0 * core::f64::consts::PI * v);
            let across = u.sqrt();
            Ray { to: [across * c, across * s, (1.0 - u).sqrt()], pick }
        })
        .collect()
}

/// The i-th point of an evenly spread sequence in the unit cube.
#[must_use]
pub(super) fn even_point(i: usize) -> [f64; 3] {
    // 1/g, 1/g^2, 1/g^3 with g = 1.22074408460575947536, the real root of g^4 = g + 1.
    const STEPS: [f64; 3] = [0.819_172_513_396_164_4, 0.671_043_606_703_789_3, 0.549_700_477_901_970_3];
    STEPS.map(|step| {
        let v = 0.5 + step * (i as f64 + 1.0);
        v - v.floor()
    })
}

/// Who sees whom. Indices: cells as in the plan, patches as in the dome.
#[derive(Clone, Debug, PartialEq)]
pub struct Views {
    /// Areas of the cells, m2.
    pub cell_m2: Vec<f64>,
    /// Areas of the patches, m2 (the dome's, but for odd doorways: see `share_out_dome`).
    pub patch_m2: Vec<f64>,
    /// Area of the doorway, m2.
    pub door_m2: f64,
    /// Exchange areas of cell and patch, row by row of cells, m2.
    pub cell_patch_m2: Vec<f64>,
    /// Exchange areas of cell and doorway, m2.
    pub cell_door_m2: Vec<f64>,
    /// Exchange areas of patch and patch, row by row (symmetric, with a patch's view of itself), m2.
    pub patch_patch_m2: Vec<f64>,
    /// Exchange areas of patch and doorway, m2.
    pub patch_door_m2: Vec<f64>,
}

impl Views {
    /// The table for a floor and its dome with the usual number of slices.
    #[must_use]
    pub fn new(plan: &FloorPlan, dome: &Dome) -> Self {
        Self::with_slices(plan, dome, SLICES)
    }

    /// The table with a chosen number of slices for each cell.
    #[must_use]
    pub fn with_slices(plan: &FloorPlan, dome: &Dome, slices: usize) -> Self {
        let cells = plan.cells.len();
        let mut views = Self {
            cell_m2: plan.cells.iter().map(|c| c.area_m2).collect(),
            patch_m2: dome.patches.iter().map(|p| p.area_m2).collect(),
            door_m2: dome.door_area_m2,
            cell_patch_m2: vec![0.0; cells * PATCHES],
            cell_door_m2: vec![0.0; cells],
            patch_patch_m2: vec![0.0; PATCHES * PATCHES],
            patch_door_m2: vec![0.0; PATCHES],
        };
        views.look_from_floor(plan, dome, &slice_directions(slices));
        views.look_from_door(dome);
        views.share_out_dome();
        views
    }

    /// View factor from a cell to a patch.
    #[must_use]
    pub fn cell_to_patch(&self, cell: usize, patch: usize) -> f64 {
        self.cell_patch_m2[cell * PATCHES + patch] / self.cell_m2[cell]
    }

    /// View factor from a cell to the doorway.
    #[must_use]
    pub fn cell_to_door(&self, cell: usize) -> f64 {
        self.cell_door_m2[cell] / self.cell_m2[cell]
    }

    /// View factor from a patch to a cell, by reciprocity.
    #[must_use]
    pub fn patch_to_cell(&self, patch: usize, cell: usize) -> f64 {
        self.cell_patch_m2[cell * PATCHES + patch] / self.patch_m2[patch]
    }

    /// View factor from a patch to a patch (itself too).
    #[must_use]
    pub fn patch_to_patch(&self, from: usize, to: usize) -> f64 {
        self.patch_patch_m2[from * PATCHES + to] / self.patch_m2[from]
    }

    /// View factor from a patch to the doorway.
    #[must_use]
    pub fn patch_to_door(&self, patch: usize) -> f64 {
        self.patch_door_m2[patch] / self.patch_m2[patch]
    }

    /// Fills rows of cells: one of each mirrored pair is looked at, the other is its mirror image to the bit.
    fn look_from_floor(&mut self, plan: &FloorPlan, dome: &Dome, slices: &[((f64, f64), f64)]) {
        let points = cell_points(plan);
        for c in 0..plan.cells.len() {
            let twin = plan.twin_of(c);
            if twin.is_some_and(|twin| twin < c) {
                continue;
            }
            let (mut seen, door) = row_from(dome, &points[c], slices);
            let mut mirrored = [0.0; PATCHES];
            for k in 0..PATCHES {
                mirrored[mirror(k)] = seen[k];
            }
            if twin == Some(c) {
                for k in 0..PATCHES {
                    seen[k] = f64::midpoint(seen[k], mirrored[k]);
                }
                mirrored = seen;
            }
            for (row, seen) in [(c, seen), twin.map_or((c, seen), |twin| (twin, mirrored))] {
                let area = self.cell_m2[row];
                self.cell_door_m2[row] = area * door;
                for k in 0..PATCHES {
                    self.cell_patch_m2[row * PATCHES + k] = area * seen[k];
                }
            }
        }
    }

    /// Gives each patch its part of what the doorway sees beyond the floor.
    fn look_from_door(&mut self, dome: &Dome) {
        let rest = (self.door_m2 - self.cell_door_m2.iter().sum::<f64>()).max(0.0);
        let (wide, tall) = DOOR_POINTS;
        let rays = directions(DOOR_RAYS);
        let mut counts = [0.0; PATCHES];
        for (x, z) in door_grid(dome, wide, tall).filter(|&(x, _)| x < 0.0) {
            for ray in &rays {
                if let Some(k) = dome.cast_from_door(x, z, [ray.to[0], ray.to[2], ray.to[1]]) {
                    counts[k] += 0.5;
                    counts[mirror(k)] += 0.5;
                }
            }
        }
        let all = counts.iter().sum::<f64>().max(1.0);
        for k in 0..PATCHES {
            self.patch_door_m2[k] = rest * counts[k] / all;
        }
    }

    /// Dome to dome from what each patch has left. A patch that floor and doorway claim wholly (a very wide and low doorway's
    /// reveal) is made larger until it has a little left.
    fn share_out_dome(&mut self) {
        let left: Vec<f64> = (0..PATCHES)
            .map(|k| {
                let floor: f64 = self.cell_patch_m2.iter().skip(k).step_by(PATCHES).sum();
                let claimed = floor + self.patch_door_m2[k];
                self.patch_m2[k] = self.patch_m2[k].max(claimed * (1.0 + LEAST_LEFT));
                self.patch_m2[k] - claimed
            })
            .collect();
        let all: f64 = left.iter().sum();
        for k in 0..PATCHES {
            for j in 0..PATCHES {
                self.patch_patch_m2[k * PATCHES + j] = left[k] * left[j] / all;
            }
        }
    }
}

/// The mirror image of a patch: sectors run mouth, left front, left rear, rear, right rear, right front.
#[must_use]
pub fn mirror(patch: usize) -> usize {
    const SECTOR: [usize; 6] = [0, 5, 4, 3, 2, 1];
    2 * SECTOR[patch / 2] + patch % 2
}

/// Directions all round, each with the share of the way through a cell's points at which its slice stands.
fn slice_directions(count: usize) -> Vec<((f64, f64), f64)> {
    // The golden section's multiples fill the points evenly, whatever their number.
    let golden = (5.0_f64.sqrt() - 1.0) / 2.0;
    (0..count)
        .map(|i| {
            let (s, c) = libm::sincos((i as f64 + 0.5) / count as f64 * 2.0 * core::f64::consts::PI);
            let pick = golden * i as f64;
            ((c, s), pick - pick.floor())
        })
        .collect()
}

/// View factors of a cell: to the patches, and to the doorway.
///
/// What looks into the way in and past the doorway ends on the reveal, and so on the low patch at the mouth.
fn row_from(dome: &Dome, points: &[(f64, f64)], slices: &[((f64, f64), f64)]) -> ([f64; PATCHES], f64) {
    let mut seen = Seen::default();
    for &(towards, pick) in slices {
        let (x, y) = points[((pick * points.len() as f64) as usize).min(points.len() - 1)];
        add_slice(dome, x, y, towards, 1.0 / slices.len() as f64, &mut seen);
    }
    let door = door_from(dome, points);
    let mut patch = seen.patch;
    if dome.outline.oval {
        patch[MOUTH_LOW] += (seen.way_in - door).max(0.0);
    }
    // The doorway's share is exact; the patches share what it leaves.
    let all: f64 = patch.iter().sum();
    (patch.map(|p| p * (1.0 - door) / all), door)
}

/// Points of each cell, those inside the outline; at least its middle. Equally dense but in what the bed's line has left narrow:
/// a strip too narrow to be a cell, which its neighbour takes, counts there for more than its area.
pub(super) fn cell_points(plan: &FloorPlan) -> Vec<Vec<(f64, f64)>> {
    let mut points = vec![Vec::new(); plan.cells.len()];
    for j in 0..plan.tiles_along {
        for i in 0..plan.tiles_across {
            if let Some(c) = plan.owner_of(i, j) {
                points[c]
                    .extend(tile_points(&plan.tile(i, j), plan.tile_m).filter(|&(x, y)| plan.outline.contains(x, y)));
            }
        }
    }
    for (own, cell) in points.iter_mut().zip(&plan.cells) {
        if own.is_empty() {
            own.push((cell.x_m, cell.y_m));
        }
    }
    points
}

fn tile_points(tile: &Rect, whole_m: f64) -> impl Iterator<Item = (f64, f64)> {
    let tile = *tile;
    // Twice as dense for a tile that the bed's line has left narrow.
    let count = |side: f64| (2.0 * POINTS as f64 * side / whole_m + 0.5).floor().clamp(1.0, POINTS as f64) as usize;
    let (across, along) = (count(tile.x1 - tile.x0), count(tile.y1 - tile.y0));
    (0..across * along).map(move |n| {
        let share = |k: usize, all: usize| (2 * k + 1) as f64 / (2 * all) as f64;
        let (u, v) = (share(n % across, across), share(n / across, along));
        (tile.x0 * (1.0 - u) + tile.x1 * u, tile.y0 * (1.0 - v) + tile.y1 * v)
    })
}

/// Points evenly spread over the doorway.
fn door_grid(dome: &Dome, wide: usize, tall: usize) -> impl Iterator<Item = (f64, f64)> {
    let (half, height) = (dome.half_door_m, dome.door_height_m);
    (0..wide * tall).map(move |n| {
        let (i, k) = (n % wide, n / wide);
        (((2 * i + 1) as f64 / wide as f64 - 1.0) * half, (k as f64 + 0.5) / tall as f64 * height)
    })
}

/// View factor of a cell to the doorway: closed form at each of its points, times the share the wall beside it leaves open.
fn door_from(dome: &Dome, points: &[(f64, f64)]) -> f64 {
    let whole: f64 = points
        .iter()
        .map(|&(x, y)| {
            let ahead = y + dome.outline.half_depth_m;
            element_to_upright(ahead, -dome.half_door_m - x, dome.half_door_m - x, dome.door_height_m)
        })
        .sum();
    // Nothing hides the doorway from straight ahead of it, nor on a rectangle.
    if !dome.outline.oval || points.iter().all(|p| p.0.abs() <= dome.half_door_m) {
        return whole / points.len() as f64;
    }
    let (mut open, mut all) = (0.0, 0.0);
    for &(x, y) in points.iter().step_by(HIDDEN_STEP) {
        let ahead = y + dome.outline.half_depth_m;
        for (qx, qz) in door_grid(dome, DOOR_POINTS.0, DOOR_POINTS.1) {
            let to = [qx - x, -ahead, qz];
            let r2 = to[0] * to[0] + ahead * ahead + qz * qz;
            // Cosines at both ends over distance squared, up to a common factor.
            let weight = qz * ahead / (r2 * r2);
            all += weight;
            if dome.cast([x, y, 0.0], to) == Hit::Door {
                open += weight;
            }
        }
    }
    whole / points.len() as f64 * open / all
}

#[cfg(test)]
mod tests;
