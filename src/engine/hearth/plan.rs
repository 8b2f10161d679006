//! Owns the floor's plan: tiles with exact areas, which of them lie under the fire, and how they touch each other.
//!
//! Inside the engine the fire lies on the left (x < 0) or at the rear (y > 0), the doorway in the middle of y = -depth/2
//! and the origin in the floor's middle. A fire on the right is the mirror image of one on the left, so that a mirrored
//! oven gives mirrored answers to the last bit; `mirrored` and `to_user_x` lead back to what the cook sees.

use std::collections::BTreeMap;

use super::shapes::{FloorOutline, Part, Rect, Region};
use crate::scenario::{FireSide, FloorShape, Oven};

/// Usual side of a tile, m (0.05..0.2): a third of a round piece, so that a footprint's mean rests on about nine tiles. Our choice.
pub const CELL_M: f64 = 0.10;

/// Tiles cut to less than this share of a whole one join a neighbour (0..0.5), or their columns would be all edge. Our choice.
const SLIVER_SHARE: f64 = 0.15;

/// One cell of the floor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cell {
    /// Its centroid's place across, m.
    pub x_m: f64,
    /// Its centroid's place along, m (rear positive).
    pub y_m: f64,
    /// Its area, m2.
    pub area_m2: f64,
    /// Whether the fire's bed lies on it.
    pub under_fire: bool,
    /// Its turn in the inflow: 0 at the doorway, 1 at the fire.
    pub march: f64,
}

/// Two cells that touch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Edge {
    /// Index of one cell.
    pub a: usize,
    /// Index of the other (larger).
    pub b: usize,
    /// Length of the edge they share, m.
    pub length_m: f64,
    /// Distance between their centroids, m.
    pub distance_m: f64,
}

/// A floor cut into cells.
#[derive(Clone, Debug, PartialEq)]
pub struct FloorPlan {
    /// The cells, doorway first, left to right.
    pub cells: Vec<Cell>,
    /// Pairs of cells that touch.
    pub edges: Vec<Edge>,
    /// The floor's outline.
    pub outline: FloorOutline,
    /// Floor area, m2.
    pub area_m2: f64,
    /// Area beyond the bed's line, m2.
    pub food_area_m2: f64,
    /// The line food must stay beyond, m: x of it for a fire on the left, y for one at the rear.
    pub bed_limit: f64,
    /// Whether the fire lies at the rear (else on the left).
    pub fire_at_rear: bool,
    /// Whether the cook sees this plan mirrored (a fire on the right).
    pub mirrored: bool,
    /// Tiles across.
    pub tiles_across: usize,
    /// Tiles along.
    pub tiles_along: usize,
    tile_w_m: f64,
    tile_d_m: f64,
    owner: Vec<Option<usize>>,
}

impl FloorPlan {
    /// Cuts an oven's floor into nearly square tiles of about `cell_m`, symmetric about both axes.
    #[must_use]
    pub fn new(oven: &Oven, cell_m: f64) -> Self {
        let outline = outline_of(oven);
        let (w, d) = (2.0 * outline.half_width_m, 2.0 * outline.half_depth_m);
        let count = |length: f64| (length / cell_m + 0.5).floor().max(2.0) as usize;
        let (nx, ny) = (count(w), count(d));
        let mut plan = Self {
            cells: Vec::new(),
            edges: Vec::new(),
            outline,
            area_m2: outline.area_m2(),
            food_area_m2: 0.0,
            bed_limit: 0.0,
            fire_at_rear: oven.fire_side == FireSide::Rear,
            mirrored: oven.fire_side == FireSide::Right,
            tiles_across: nx,
            tiles_along: ny,
            tile_w_m: w / nx as f64,
            tile_d_m: d / ny as f64,
            owner: Vec::new(),
        };
        let homes = plan.lay_cells();
        plan.bed_limit = plan.find_bed_limit(oven.bed_share);
        plan.food_area_m2 = plan.food_region().area_m2();
        plan.mark_bed(&homes, oven.bed_share);
        plan.order_inflow(oven.door_width_m / 2.0);
        plan.edges = plan.find_edges();
        plan
    }

    /// The box of a tile (column `i` from the left, row `j` from the doorway); mirrored tiles have mirrored bits.
    #[must_use]
    pub fn tile(&self, i: usize, j: usize) -> Rect {
        let at = |k: usize, n: usize, size: f64| (2.0 * k as f64 - n as f64) * (size / 2.0);
        Rect {
            x0: at(i, self.tiles_across, self.tile_w_m),
            x1: at(i + 1, self.tiles_across, self.tile_w_m),
            y0: at(j, self.tiles_along, self.tile_d_m),
            y1: at(j + 1, self.tiles_along, self.tile_d_m),
        }
    }

    /// The cell that owns a tile, if the floor reaches into it.
    #[must_use]
    pub fn owner_of(&self, i: usize, j: usize) -> Option<usize> {
        self.owner.get(j * self.tiles_across + i).copied().flatten()
    }

    /// Column and row of the tile at a point, held inside the grid.
    #[must_use]
    pub fn tile_at(&self, x: f64, y: f64) -> (usize, usize) {
        let index = |v: f64, half: f64, size: f64, n: usize| (((v + half) / size).floor().max(0.0) as usize).min(n - 1);
        (
            index(x, self.outline.half_width_m, self.tile_w_m, self.tiles_across),
            index(y, self.outline.half_depth_m, self.tile_d_m, self.tiles_along),
        )
    }

    /// The cell at a point (the nearest one when the point lies off the floor), in the plan's own coordinates.
    #[must_use]
    pub fn cell_at(&self, x: f64, y: f64) -> usize {
        let (i, j) = self.tile_at(x, y);
        self.owner_of(i, j).unwrap_or_else(|| {
            let mut best = (f64::INFINITY, 0);
            for (k, c) in self.cells.iter().enumerate() {
                let d = (c.x_m - x) * (c.x_m - x) + (c.y_m - y) * (c.y_m - y);
                if d < best.0 {
                    best = (d, k);
                }
            }
            best.1
        })
    }

    /// The cell over a probe as the cook places it: `across` -1 left wall .. 1 right wall, `along` 0 doorway .. 1 rear.
    #[must_use]
    pub fn probe_cell(&self, across: f64, along: f64) -> usize {
        let y = (along.clamp(0.0, 1.0) * 2.0 - 1.0) * self.outline.half_depth_m;
        let x = across.clamp(-1.0, 1.0) * self.outline.half_across(y);
        self.cell_at(self.to_user_x(x), y)
    }

    /// From the plan's x to the cook's and back, m.
    #[must_use]
    pub fn to_user_x(&self, x: f64) -> f64 {
        if self.mirrored { -x } else { x }
    }

    /// Where food may lie.
    #[must_use]
    pub fn food_region(&self) -> Region {
        let mut region = Region::whole(self.outline);
        if self.fire_at_rear {
            region.most_y_m = self.bed_limit;
        } else {
            region.least_x_m = self.bed_limit;
        }
        region
    }

    /// Makes the cells; returns each cell's own tile.
    fn lay_cells(&mut self) -> Vec<(usize, usize)> {
        let (nx, ny) = (self.tiles_across, self.tiles_along);
        let whole = self.tile_w_m * self.tile_d_m;
        let parts: Vec<Part> = (0..nx * ny).map(|t| self.outline.part_in(&self.tile(t % nx, t / nx))).collect();
        let mut homes = Vec::new();
        let mut sums: Vec<Part> = Vec::new();
        self.owner = vec![None; nx * ny];
        for t in 0..nx * ny {
            if parts[t].area_m2 >= SLIVER_SHARE * whole {
                self.owner[t] = Some(sums.len());
                sums.push(parts[t]);
                homes.push((t % nx, t / nx));
            }
        }
        let settled = self.owner.clone();
        for t in 0..nx * ny {
            if settled[t].is_none() && parts[t].area_m2 > 0.0 {
                self.owner[t] = self.host(&settled, t % nx, t / nx);
                if let Some(c) = self.owner[t] {
                    sums[c] = sums[c].and(parts[t]);
                }
            }
        }
        self.cells = sums
            .iter()
            .map(|p| Cell {
                x_m: p.moment_x_m3 / p.area_m2,
                y_m: p.moment_y_m3 / p.area_m2,
                area_m2: p.area_m2,
                under_fire: false,
                march: 0.0,
            })
            .collect();
        homes
    }

    /// The whole cell a sliver joins: the one it touches most; between equals the one beside it, not behind it.
    fn host(&self, settled: &[Option<usize>], i: usize, j: usize) -> Option<usize> {
        let nx = self.tiles_across;
        // One step towards the middle, across and along: a sliver at the rim always touches one of these or their corner.
        let inward = |k: usize, n: usize| {
            if 2 * k < n { (k + 1).min(n - 1) } else { k.saturating_sub(1) }
        };
        let (ii, jj) = (inward(i, nx), inward(j, self.tiles_along));
        let across = settled[j * nx + ii].map(|c| (self.upright_edge(i.max(ii), j), c));
        let along = settled[jj * nx + i].map(|c| (self.level_edge(i, j.max(jj)), c));
        match (across, along) {
            (Some(a), Some(b)) => Some(if b.0 > a.0 { b.1 } else { a.1 }),
            (Some(a), None) => Some(a.1),
            (None, Some(b)) => Some(b.1),
            (None, None) => settled[jj * nx + ii],
        }
    }

    /// Length inside the floor of the upright line between tile columns `i - 1` and `i` in row `j`, m.
    fn upright_edge(&self, i: usize, j: usize) -> f64 {
        let t = self.tile(i, j);
        let h = self.outline.half_along(t.x0);
        (t.y1.min(h) - t.y0.max(-h)).max(0.0)
    }

    /// Length inside the floor of the level line between tile rows `j - 1` and `j` in column `i`, m.
    fn level_edge(&self, i: usize, j: usize) -> f64 {
        let t = self.tile(i, j);
        let h = self.outline.half_across(t.y0);
        (t.x1.min(h) - t.x0.max(-h)).max(0.0)
    }

    fn find_edges(&self) -> Vec<Edge> {
        let mut lengths: BTreeMap<(usize, usize), f64> = BTreeMap::new();
        let mut note = |one: Option<usize>, two: Option<usize>, length: f64| {
            if let (Some(a), Some(b)) = (one, two)
                && a != b
                && length > 0.0
            {
                *lengths.entry((a.min(b), a.max(b))).or_insert(0.0) += length;
            }
        };
        for j in 0..self.tiles_along {
            for i in 0..self.tiles_across {
                if i > 0 {
                    note(self.owner_of(i - 1, j), self.owner_of(i, j), self.upright_edge(i, j));
                }
                if j > 0 {
                    note(self.owner_of(i, j - 1), self.owner_of(i, j), self.level_edge(i, j));
                }
            }
        }
        lengths
            .into_iter()
            .map(|((a, b), length_m)| {
                let (p, q) = (&self.cells[a], &self.cells[b]);
                let (dx, dy) = (p.x_m - q.x_m, p.y_m - q.y_m);
                Edge { a, b, length_m, distance_m: (dx * dx + dy * dy).sqrt() }
            })
            .collect()
    }

    /// The line that cuts exactly `share` of the floor off at the fire's wall, by halving.
    fn find_bed_limit(&self, share: f64) -> f64 {
        let (w, d) = (self.outline.half_width_m, self.outline.half_depth_m);
        let target = share.clamp(0.0, 0.9) * self.area_m2;
        let reach = if self.fire_at_rear { d } else { w };
        let (mut near, mut far) = (-reach, reach);
        for _ in 0..60 {
            let mid = (near + far) / 2.0;
            let cut = if self.fire_at_rear {
                Rect { x0: -w, x1: w, y0: -mid, y1: d }
            } else {
                Rect { x0: -w, x1: mid, y0: -d, y1: d }
            };
            if self.outline.part_in(&cut).area_m2 < target { near = mid } else { far = mid }
        }
        let line = (near + far) / 2.0;
        if self.fire_at_rear { -line } else { line }
    }

    /// Puts the bed on the cells nearest the fire's wall, those in the middle of the wall first, until their area is as near
    /// the share as whole groups of mirrored cells allow.
    fn mark_bed(&mut self, homes: &[(usize, usize)], share: f64) {
        let (nx, ny) = (self.tiles_across, self.tiles_along);
        let off_middle = |k: usize, n: usize| (2 * k + 1).abs_diff(n);
        let mut groups: BTreeMap<(usize, usize), Vec<usize>> = BTreeMap::new();
        for (c, &(i, j)) in homes.iter().enumerate() {
            let key = if self.fire_at_rear { (ny - 1 - j, off_middle(i, nx)) } else { (i, off_middle(j, ny)) };
            groups.entry(key).or_default().push(c);
        }
        let target = share * self.area_m2;
        let mut laid = 0.0;
        for group in groups.values() {
            let more: f64 = group.iter().map(|&c| self.cells[c].area_m2).sum();
            if laid > 0.0 && (laid + more - target).abs() >= (laid - target).abs() {
                break;
            }
            for &c in group {
                self.cells[c].under_fire = true;
            }
            laid += more;
        }
    }

    /// Orders the inflow: distance from the doorway as a share of the way from doorway to fire.
    fn order_inflow(&mut self, half_door_m: f64) {
        let (front, limit, rear_fire) = (-self.outline.half_depth_m, self.bed_limit, self.fire_at_rear);
        for c in &mut self.cells {
            let beside = (c.x_m.abs() - half_door_m).max(0.0);
            let ahead = c.y_m - front;
            let from_door = (beside * beside + ahead * ahead).sqrt();
            let to_fire = if rear_fire { limit - c.y_m } else { c.x_m - limit }.max(0.0);
            c.march = if c.under_fire { 1.0 } else { from_door / (from_door + to_fire) };
        }
    }
}

/// The outline of an oven's floor; a round one takes its width for both axes.
#[must_use]
pub fn outline_of(oven: &Oven) -> FloorOutline {
    let half_width_m = oven.width_m / 2.0;
    let half_depth_m = if oven.shape == FloorShape::Round { half_width_m } else { oven.depth_m / 2.0 };
    FloorOutline { oval: oven.shape != FloorShape::Rectangle, half_width_m, half_depth_m }
}

#[cfg(test)]
pub(crate) mod sample;

#[cfg(test)]
mod tests;
