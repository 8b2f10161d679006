//! Owns who sees whom under the dome: floor cells, dome patches and doorway, as one symmetric table of exchange areas.
//!
//! What is stored is A_i F_ij in m2, once for each pair, so reciprocity holds by construction; every factor is read from it.
//! Floor to doorway is the closed form for an upright rectangle, less what the wall beside the doorway hides. Floor to dome is
//! cast by rays, made up so that each cell's row is whole. Dome to dome is r_k r_j / sum r with r_k what a patch has left
//! after floor and doorway: exact on a sphere, where every patch sees every other by area alone; for stretched caps and
//! vaults an approximation that keeps rows and reciprocity. The doorway is a black patch.

use super::configuration::element_to_upright;
use super::dome::{Dome, Hit, MOUTH_LOW, PATCHES};
use super::plan::FloorPlan;
use super::shapes::Rect;

/// Rays from each pair of mirrored cells (100..100000): about 1e-3 of a factor. Measured against 65536 rays in the tests.
pub const RAYS: usize = 1024;

/// Points along each side of a tile from which its rays start and its doorway factor is averaged.
const POINTS: usize = 4;

/// Points across and up the doorway, for what the wall hides and for what the doorway itself sees.
const DOOR_POINTS: (usize, usize) = (8, 4);

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
fn even_point(i: usize) -> [f64; 3] {
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
    /// Areas of the patches, m2.
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
    /// The table for a floor and its dome with the usual number of rays.
    #[must_use]
    pub fn new(plan: &FloorPlan, dome: &Dome) -> Self {
        Self::with_rays(plan, dome, RAYS)
    }

    /// The table with a chosen number of rays from each pair of mirrored cells.
    #[must_use]
    pub fn with_rays(plan: &FloorPlan, dome: &Dome, rays: usize) -> Self {
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
        views.look_from_floor(plan, dome, &directions(rays));
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

    /// Fills rows of cells: one of each mirrored pair is cast, the other is its mirror image to the bit.
    fn look_from_floor(&mut self, plan: &FloorPlan, dome: &Dome, rays: &[Ray]) {
        let points = cell_points(plan);
        for (c, cell) in plan.cells.iter().enumerate() {
            let twin = plan.cell_at(-cell.x_m, cell.y_m);
            if twin < c {
                continue;
            }
            let mut seen = row_from(dome, &points[c], rays);
            let mut mirrored = [0.0; PATCHES];
            for k in 0..PATCHES {
                mirrored[mirror(k)] = seen[k];
            }
            if twin == c {
                for k in 0..PATCHES {
                    seen[k] = (seen[k] + mirrored[k]) / 2.0;
                }
                mirrored = seen;
            }
            let door = points[c].iter().map(|&(x, y)| point_to_door(dome, x, y)).sum::<f64>() / points[c].len() as f64;
            for (row, seen) in [(c, &seen), (twin, &mirrored)] {
                let area = self.cell_m2[row];
                self.cell_door_m2[row] = area * door;
                for k in 0..PATCHES {
                    self.cell_patch_m2[row * PATCHES + k] = area * (1.0 - door) * seen[k];
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
        let all: f64 = counts.iter().sum();
        for k in 0..PATCHES {
            self.patch_door_m2[k] = rest * counts[k] / all;
        }
    }

    /// Dome to dome from what each patch has left.
    fn share_out_dome(&mut self) {
        let left: Vec<f64> = (0..PATCHES)
            .map(|k| {
                let floor: f64 = self.cell_patch_m2.iter().skip(k).step_by(PATCHES).sum();
                (self.patch_m2[k] - floor - self.patch_door_m2[k]).max(0.0)
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

/// Shares of a cell's rays that end on each patch, those out of the doorway left aside.
fn row_from(dome: &Dome, points: &[(f64, f64)], rays: &[Ray]) -> [f64; PATCHES] {
    let mut counts = [0_usize; PATCHES];
    let mut all = 0_usize;
    for ray in rays {
        let (x, y) = points[((ray.pick * points.len() as f64) as usize).min(points.len() - 1)];
        if let Hit::Patch(k) = dome.cast([x, y, 0.0], ray.to) {
            counts[k] += 1;
            all += 1;
        }
    }
    if all == 0 {
        counts[MOUTH_LOW] = 1;
        all = 1;
    }
    counts.map(|n| n as f64 / all as f64)
}

/// Evenly spread points of each cell, those inside the outline.
pub(super) fn cell_points(plan: &FloorPlan) -> Vec<Vec<(f64, f64)>> {
    let mut points = vec![Vec::new(); plan.cells.len()];
    for j in 0..plan.tiles_along {
        for i in 0..plan.tiles_across {
            if let Some(c) = plan.owner_of(i, j) {
                points[c].extend(tile_points(&plan.tile(i, j)).filter(|&(x, y)| plan.outline.contains(x, y)));
            }
        }
    }
    points
}

fn tile_points(tile: &Rect) -> impl Iterator<Item = (f64, f64)> {
    let tile = *tile;
    (0..POINTS * POINTS).map(move |n| {
        let share = |k: usize| (2 * k + 1) as f64 / (2 * POINTS) as f64;
        let (u, v) = (share(n % POINTS), share(n / POINTS));
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

/// From a floor point to the doorway: closed form, times the share that the wall beside the doorway does not hide.
fn point_to_door(dome: &Dome, x: f64, y: f64) -> f64 {
    let ahead = y + dome.outline.half_depth_m;
    let whole = element_to_upright(ahead, -dome.half_door_m - x, dome.half_door_m - x, dome.door_height_m);
    if x.abs() <= dome.half_door_m || !dome.outline.oval {
        return whole;
    }
    let (mut open, mut all) = (0.0, 0.0);
    for (qx, qz) in door_grid(dome, DOOR_POINTS.0, DOOR_POINTS.1) {
        let to = [qx - x, -ahead, qz];
        let r2 = to[0] * to[0] + ahead * ahead + qz * qz;
        // Cosines at both ends over distance squared, up to a common factor.
        let weight = qz / (r2 * r2);
        all += weight;
        if dome.cast([x, y, 0.0], to) == Hit::Door {
            open += weight;
        }
    }
    whole * open / all
}

#[cfg(test)]
mod tests {
    use super::super::plan::{CELL_M, sample};
    use super::*;

    /// Every row of the table adds up to its surface's area, and cells to the floor.
    fn assert_whole(v: &Views) {
        for c in 0..v.cell_m2.len() {
            let row: f64 = (0..PATCHES).map(|k| v.cell_to_patch(c, k)).sum::<f64>() + v.cell_to_door(c);
            assert!((row - 1.0).abs() < 1e-14, "cell {c}: {row}");
        }
        let mut from_door = v.cell_door_m2.iter().sum::<f64>();
        for k in 0..PATCHES {
            let floor: f64 = (0..v.cell_m2.len()).map(|c| v.patch_to_cell(k, c)).sum();
            let dome: f64 = (0..PATCHES).map(|j| v.patch_to_patch(k, j)).sum();
            let row = floor + dome + v.patch_to_door(k);
            assert!((row - 1.0).abs() < 1e-13, "patch {k}: {row}");
            assert!(dome > 0.0);
            from_door += v.patch_door_m2[k];
        }
        assert!((from_door / v.door_m2 - 1.0).abs() < 1e-13);
    }

    #[test]
    fn rows_are_whole_and_no_share_is_negative() {
        for oven in sample::all() {
            let v = Views::new(&FloorPlan::new(&oven, CELL_M), &Dome::new(&oven));
            assert_whole(&v);
            let all = v.cell_patch_m2.iter().chain(&v.cell_door_m2).chain(&v.patch_patch_m2).chain(&v.patch_door_m2);
            assert!(all.into_iter().all(|&s| s >= 0.0));
        }
    }
}
