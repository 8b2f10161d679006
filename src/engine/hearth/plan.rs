//! Owns the floor's plan: tiles with exact areas, cut along the bed's line, and how they touch each other.
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

/// A tile line this near the bed's line is the bed's line, m. Our choice.
const LINE_M: f64 = 1e-9;

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
    /// Side of a whole tile, m.
    pub tile_m: f64,
    /// Lines between columns of tiles, left to right, m: evenly apart, and the bed's line where it runs along.
    pub across_m: Vec<f64>,
    /// The same between rows, front to rear.
    pub along_m: Vec<f64>,
    owner: Vec<Option<usize>>,
}

impl FloorPlan {
    /// Cuts an oven's floor into nearly square tiles of about `cell_m`, symmetric about both axes, and along the bed's line.
    #[must_use]
    pub fn new(oven: &Oven, cell_m: f64) -> Self {
        let outline = outline_of(oven);
        let count = |half: f64| (2.0 * half / cell_m + 0.5).floor().max(2.0) as usize;
        let (nx, ny) = (count(outline.half_width_m), count(outline.half_depth_m));
        let fire_at_rear = oven.fire_side == FireSide::Rear;
        let bed_limit = find_bed_limit(&outline, fire_at_rear, oven.bed_share);
        let (beside, before) = if fire_at_rear { (None, Some(bed_limit)) } else { (Some(bed_limit), None) };
        let across_m = lines(nx, outline.half_width_m, beside);
        let along_m = lines(ny, outline.half_depth_m, before);
        let mut plan = Self {
            cells: Vec::new(),
            edges: Vec::new(),
            outline,
            area_m2: outline.area_m2(),
            food_area_m2: 0.0,
            bed_limit,
            fire_at_rear,
            mirrored: oven.fire_side == FireSide::Right,
            tiles_across: across_m.len() - 1,
            tiles_along: along_m.len() - 1,
            tile_m: (4.0 * outline.half_width_m * outline.half_depth_m / (nx * ny) as f64).sqrt(),
            across_m,
            along_m,
            owner: Vec::new(),
        };
        plan.lay_cells();
        plan.food_area_m2 = plan.food_region().area_m2();
        plan.order_inflow(oven.door_width_m / 2.0);
        plan.edges = plan.find_edges();
        plan
    }

    /// The box of a tile (column `i` from the left, row `j` from the doorway); mirrored tiles have mirrored bits.
    #[must_use]
    pub fn tile(&self, i: usize, j: usize) -> Rect {
        Rect { x0: self.across_m[i], x1: self.across_m[i + 1], y0: self.along_m[j], y1: self.along_m[j + 1] }
    }

    /// The bed's middle, m.
    #[must_use]
    pub fn bed_centre(&self) -> (f64, f64) {
        let bed = || self.cells.iter().filter(|c| c.under_fire);
        let area: f64 = bed().map(|c| c.area_m2).sum();
        let middle = |f: fn(&Cell) -> f64| bed().map(|c| c.area_m2 * f(c)).sum::<f64>() / area;
        // A bed at the rear lies across the middle line.
        (if self.fire_at_rear { 0.0 } else { middle(|c| c.x_m) }, middle(|c| c.y_m))
    }

    /// The cell that owns a tile, if the floor reaches into it.
    #[must_use]
    pub fn owner_of(&self, i: usize, j: usize) -> Option<usize> {
        self.owner.get(j * self.tiles_across + i).copied().flatten()
    }

    /// Column and row of the tile at a point, held inside the grid.
    #[must_use]
    pub fn tile_at(&self, x: f64, y: f64) -> (usize, usize) {
        let index = |v: f64, lines: &[f64]| lines[1..lines.len() - 1].partition_point(|&line| line <= v);
        (index(x, &self.across_m), index(y, &self.along_m))
    }

    /// Whether a tile lies under the fire.
    fn in_bed(&self, i: usize, j: usize) -> bool {
        if self.fire_at_rear { self.along_m[j] >= self.bed_limit } else { self.across_m[i + 1] <= self.bed_limit }
    }

    /// The cell that is a cell's mirror image about the oven's middle line, to the bit, if there is one.
    #[must_use]
    pub fn twin_of(&self, cell: usize) -> Option<usize> {
        let own = &self.cells[cell];
        let twin = self.cell_at(-own.x_m, own.y_m);
        let other = &self.cells[twin];
        let alike = |a: f64, b: f64| (a - b).abs() <= 0.0;
        let mirrored = alike(other.x_m, -own.x_m) && alike(other.y_m, own.y_m) && alike(other.area_m2, own.area_m2);
        mirrored.then_some(twin)
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

    /// Where a probe stands as the cook places it: `across` -1 left wall .. 1 right wall, `along` 0 doorway .. 1 rear; m.
    #[must_use]
    pub fn probe_at(&self, across: f64, along: f64) -> (f64, f64) {
        let y = (along.clamp(0.0, 1.0) * 2.0 - 1.0) * self.outline.half_depth_m;
        (self.to_user_x(across.clamp(-1.0, 1.0) * self.outline.half_across(y)), y)
    }

    /// The cell over a probe.
    #[must_use]
    pub fn probe_cell(&self, across: f64, along: f64) -> usize {
        let (x, y) = self.probe_at(across, along);
        self.cell_at(x, y)
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

    /// Makes the cells.
    fn lay_cells(&mut self) {
        let whole = self.tile_m * self.tile_m;
        let (nx, ny) = (self.tiles_across, self.tiles_along);
        let parts: Vec<Part> = (0..nx * ny).map(|t| self.outline.part_in(&self.tile(t % nx, t / nx))).collect();
        let beds: Vec<bool> = (0..nx * ny).map(|t| self.in_bed(t % nx, t / nx)).collect();
        // A bed (or a food's floor) of slivers only keeps its largest.
        let most = |bed: bool| parts.iter().zip(&beds).filter(|p| *p.1 == bed).map(|p| p.0.area_m2).fold(0.0, f64::max);
        let least = [most(false), most(true)].map(|most| most.min(SLIVER_SHARE * whole));
        let mut sums: Vec<(Part, bool)> = Vec::new();
        self.owner = vec![None; nx * ny];
        for t in 0..nx * ny {
            if parts[t].area_m2 > 0.0 && parts[t].area_m2 >= least[usize::from(beds[t])] {
                self.owner[t] = Some(sums.len());
                sums.push((parts[t], beds[t]));
            }
        }
        let settled = self.owner.clone();
        for t in 0..nx * ny {
            if settled[t].is_none() && parts[t].area_m2 > 0.0 {
                let host = self.host(&settled, &beds, t).or_else(|| nearest(&sums, &parts[t], beds[t]));
                self.owner[t] = host;
                if let Some(c) = host {
                    sums[c].0 = sums[c].0.and(parts[t]);
                }
            }
        }
        self.cells = sums
            .iter()
            .map(|&(p, under_fire)| Cell {
                x_m: p.moment_x_m3 / p.area_m2,
                y_m: p.moment_y_m3 / p.area_m2,
                area_m2: p.area_m2,
                under_fire,
                march: 0.0,
            })
            .collect();
    }

    /// The whole cell a sliver joins: of those on its side of the bed's line the one it touches most; between equals the one
    /// towards the middle, and the one beside it before the one behind it.
    fn host(&self, settled: &[Option<usize>], beds: &[bool], t: usize) -> Option<usize> {
        let (nx, ny) = (self.tiles_across, self.tiles_along);
        let (i, j) = (t % nx, t / nx);
        let around = [
            (i + 1 < nx).then(|| (t + 1, self.upright_edge(i + 1, j))),
            (i > 0).then(|| (t - 1, self.upright_edge(i, j))),
            (j + 1 < ny).then(|| (t + nx, self.level_edge(i, j + 1))),
            (j > 0).then(|| (t - nx, self.level_edge(i, j))),
        ];
        let inward = |k: usize, n: usize| if 2 * k + 1 < n { [0, 1] } else { [1, 0] };
        let (across, along) = (inward(i, nx), inward(j, ny).map(|k| k + 2));
        let mut best: Option<(f64, usize)> = None;
        for (tile, length) in [across[0], along[0], across[1], along[1]].into_iter().filter_map(|k| around[k]) {
            if let Some(cell) = settled[tile]
                && beds[tile] == beds[t]
                && length > 0.0
                && best.is_none_or(|(so_far, _)| length > so_far)
            {
                best = Some((length, cell));
            }
        }
        best.map(|(_, cell)| cell)
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

/// Lines that cut a length symmetric about the middle into `count`, and one more at `also` if it lies between two of them.
fn lines(count: usize, half_m: f64, also: Option<f64>) -> Vec<f64> {
    let size = 2.0 * half_m / count as f64;
    let mut lines: Vec<f64> = (0..=count).map(|k| (2.0 * k as f64 - count as f64) * (size / 2.0)).collect();
    if let Some(line) = also
        && line.abs() < half_m
        && lines.iter().all(|other| (other - line).abs() > LINE_M)
    {
        lines.insert(lines.partition_point(|&other| other < line), line);
    }
    lines
}

/// The line that cuts exactly `share` of the floor off at the fire's wall, by halving.
fn find_bed_limit(outline: &FloorOutline, fire_at_rear: bool, share: f64) -> f64 {
    let (w, d) = (outline.half_width_m, outline.half_depth_m);
    let target = share.clamp(0.0, 0.9) * outline.area_m2();
    let reach = if fire_at_rear { d } else { w };
    let (mut near, mut far) = (-reach, reach);
    for _ in 0..60 {
        let mid = f64::midpoint(near, far);
        let cut = if fire_at_rear {
            Rect { x0: -w, x1: w, y0: -mid, y1: d }
        } else {
            Rect { x0: -w, x1: mid, y0: -d, y1: d }
        };
        if outline.part_in(&cut).area_m2 < target { near = mid } else { far = mid }
    }
    let line = f64::midpoint(near, far);
    if fire_at_rear { -line } else { line }
}

/// The cell nearest to a sliver that touches none, on its side of the bed's line.
fn nearest(cells: &[(Part, bool)], sliver: &Part, bed: bool) -> Option<usize> {
    let middle = |p: &Part| (p.moment_x_m3 / p.area_m2, p.moment_y_m3 / p.area_m2);
    let (x, y) = middle(sliver);
    let mut best: Option<(f64, usize)> = None;
    for (c, (part, own)) in cells.iter().enumerate() {
        let (px, py) = middle(part);
        let way = (px - x) * (px - x) + (py - y) * (py - y);
        if *own == bed && best.is_none_or(|(so_far, _)| way < so_far) {
            best = Some((way, c));
        }
    }
    best.map(|(_, c)| c)
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
