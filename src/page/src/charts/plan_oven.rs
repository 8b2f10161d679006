//! Owns the oven in plan: the wall in section, tiles in the colours of the heat ramp, the fire's side, the doorway.

use hearthload::report::{CellShape, FloorMap, Frame};
use hearthload::scenario::{FireSide, FloorShape};

use super::View;
use super::fills::{Fill, fill};
use super::glyphs::log_from_above;
use super::grid::Grid;
use super::ink::{Ink, Point, Type};
use super::kitchen::Kitchen;
use super::plan::{Ramp, SILL_PX};
use super::shapes::{Rect, arc, bounds, clip, inside, within};
use super::theme::{Colour, HEAT_RAMP, on_tile};

use std::f64::consts::PI;

/// The wall is drawn this thick whatever it measures: a true one would leave little room for the floor.
const WALL_PX: f64 = 36.0;
const NARROW_WALL_PX: f64 = 26.0;
/// A tile must be this wide to carry its degrees.
const NUMBER_PX: f64 = 27.0;
/// The fire's bed and the lines between tiles, dark in both themes: the floor is dark there.
const BED: Colour = Colour::hex(0x12_0E_17);
/// Words on the bed.
const ON_BED: Colour = Colour::hex(0xFF_FD_F5);
/// The line that bounds the bed.
const BED_EDGE: Colour = Colour::hex(0xFC_FC_F9);
/// More bare tiles than this carry every other number only.
const MOST_NUMBERS: usize = 26;
/// Distance of the lines between tiles, m.
const TILE_M: f64 = 0.1;

/// The oven's outline on the sheet: metres in, CSS px out; the rear is up.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    shape: FloorShape,
    centre: Point,
    /// Half the floor's width and depth, px.
    half: Point,
    wall: f64,
    half_door: f64,
    fire_side: FireSide,
    bed_from_m: f64,
    /// Pixels in a metre.
    pub px_m: f64,
}

impl Outline {
    /// Fits the oven into a width and a height.
    #[must_use]
    pub fn fitted(kitchen: &Kitchen, room_px: f64, most_px: f64) -> Self {
        let wall = if room_px < 430.0 { NARROW_WALL_PX } else { WALL_PX };
        let half_m = kitchen.half_m();
        let by_width = (room_px - 2.0 * wall - 4.0) / (2.0 * half_m.0).max(0.1);
        let by_height = (most_px - wall - SILL_PX - 4.0) / (2.0 * half_m.1).max(0.1);
        let px_m = by_width.min(by_height).max(10.0);
        let half = (half_m.0 * px_m, half_m.1 * px_m);
        let middle = if by_width <= by_height { room_px / 2.0 } else { half.0 + wall + 14.0 };
        Self {
            shape: kitchen.shape,
            centre: (middle, wall + 2.0 + half.1),
            half,
            wall,
            half_door: (kitchen.door_width_m * px_m / 2.0).min(half.0 * 0.92),
            fire_side: kitchen.fire_side,
            bed_from_m: kitchen.bed_from_m(),
            px_m,
        }
    }

    /// Where a place on the floor stands on the sheet.
    #[must_use]
    pub fn at(&self, x_m: f64, y_m: f64) -> Point {
        (self.centre.0 + x_m * self.px_m, self.centre.1 - y_m * self.px_m)
    }

    /// Height of the whole plan, px.
    #[must_use]
    pub fn height_px(&self) -> f64 {
        self.centre.1 + self.half.1 + SILL_PX
    }

    /// Right end of the plan, px.
    #[must_use]
    pub fn right_px(&self) -> f64 {
        self.centre.0 + self.half.0 + self.wall
    }

    /// The floor as a polygon, clockwise on screen.
    #[must_use]
    pub fn floor(&self) -> Vec<Point> {
        match self.shape {
            FloorShape::Rectangle => Rect::new(
                self.centre.0 - self.half.0,
                self.centre.1 - self.half.1,
                2.0 * self.half.0,
                2.0 * self.half.1,
            )
            .corners()
            .to_vec(),
            FloorShape::Round | FloorShape::DeepOval => arc(self.centre, self.half, 0.0, 2.0 * PI),
        }
    }

    /// The side of the fire's edge on which the bed lies, or the other, as a rectangle that holds all of it.
    fn half_plane(&self, bed: bool) -> Rect {
        let (x, y) = (self.centre.0 - self.half.0 - 2.0, self.centre.1 - self.half.1 - 2.0);
        let (wide, deep) = (2.0 * self.half.0 + 4.0, 2.0 * self.half.1 + 4.0);
        let (side, bed_px) = (self.fire_side, self.bed_from_m * self.px_m);
        let low = match side {
            FireSide::Left => self.centre.0 - bed_px - x,
            FireSide::Right => self.centre.0 + bed_px - x,
            FireSide::Rear => self.centre.1 - bed_px - y,
        };
        // The bed lies at the low end on the left and at the rear, which is up.
        let at_low_end = bed == (side != FireSide::Right);
        match (side == FireSide::Rear, at_low_end) {
            (true, true) => Rect::new(x, y, wide, low),
            (true, false) => Rect::new(x, y + low, wide, deep - low),
            (false, true) => Rect::new(x, y, low, deep),
            (false, false) => Rect::new(x + low, y, wide - low, deep),
        }
    }

    /// The floor that may carry food.
    fn food(&self) -> Vec<Point> {
        within(&self.floor(), &self.half_plane(false).corners())
    }

    /// The wall in section: round the floor from one side of the doorway to the other and back outside.
    fn wall_section(&self) -> Vec<Point> {
        let (x, y) = self.centre;
        let (half_x, half_y) = self.half;
        let outer = (half_x + self.wall, half_y + self.wall);
        if self.shape == FloorShape::Rectangle {
            let (door, wall) = (self.half_door, self.wall);
            return vec![
                (x + door, y + half_y),
                (x + half_x, y + half_y),
                (x + half_x, y - half_y),
                (x - half_x, y - half_y),
                (x - half_x, y + half_y),
                (x - door, y + half_y),
                (x - door, y + half_y + wall),
                (x - outer.0, y + outer.1),
                (x - outer.0, y - outer.1),
                (x + outer.0, y - outer.1),
                (x + outer.0, y + outer.1),
                (x + door, y + half_y + wall),
            ];
        }
        // Both faces end at the doorway's sides: an angle from straight down for each radius.
        let side = |radius: f64| libm::asin((self.half_door / radius).min(0.98));
        let (inner_side, outer_side) = (side(half_x), side(outer.0));
        let mut section = arc(self.centre, self.half, PI / 2.0 - inner_side, PI / 2.0 + inner_side - 2.0 * PI);
        section.extend(arc(self.centre, outer, PI / 2.0 + outer_side - 2.0 * PI, PI / 2.0 - outer_side));
        section
    }
}

/// Draws the wall, the doorway's gap and its sill.
pub fn draw_wall(ink: &mut Ink, view: &View, outline: &Outline) {
    let theme = &view.theme;
    fill(ink, theme, &outline.wall_section(), Fill::Stone);
    let sill = outline.centre.1 + outline.half.1 + SILL_PX - 4.0;
    let (left, right) = (outline.centre.0 - outline.half_door, outline.centre.0 + outline.half_door);
    ink.line((left, sill), (right, sill), theme.soot, 3.0);
    ink.text((outline.centre.0, sill - 11.0), "doorway", Type::value(theme.soot));
}

/// What the tiles are drawn from.
pub struct Tiles<'a> {
    /// The plan.
    pub map: &'a FloorMap,
    /// The moment.
    pub frame: &'a Frame,
    /// The grid of the tiles.
    pub grid: &'a Grid,
    /// The heat ramp as laid.
    pub ramp: Ramp,
    /// Centre and half the reach of each piece that lies there, m.
    pub lying: &'a [(f64, f64, f64, f64)],
}

impl Tiles<'_> {
    fn cells(&self) -> impl Iterator<Item = (&CellShape, f64)> {
        self.map.cells.iter().zip(self.frame.face_c.iter().copied())
    }
}

/// Draws the tiles, the lines between them and the degrees on bare ones.
pub fn draw_tiles(ink: &mut Ink, view: &View, outline: &Outline, tiles: &Tiles) {
    let floor = outline.floor();
    ink.fill(&floor, BED);
    // Cells cut by the wall reach a little further first: they own the slivers beside them.
    for (cell, face_c) in tiles.cells().filter(|(cell, _)| !tiles.grid.whole(cell)) {
        let tile = within(&tile_corners(outline, tiles.grid, cell, 0.5), &floor);
        ink.fill(&tile, HEAT_RAMP[tiles.ramp.step(face_c)]);
    }
    for (cell, face_c) in tiles.cells() {
        // A hair wider than the tile, so that no ground shines through between two of one colour.
        let tile = within(&tile_corners(outline, tiles.grid, cell, 0.015), &floor);
        ink.fill(&tile, HEAT_RAMP[tiles.ramp.step(face_c)]);
    }
    draw_joints(ink, outline, tiles.grid, &floor);
    draw_degrees(ink, view, outline, tiles);
}

/// A cell's tile, wider on each side by a share of itself.
fn tile_corners(outline: &Outline, grid: &Grid, cell: &CellShape, more: f64) -> [Point; 4] {
    let (wide, deep) = (grid.tile_m.0 * outline.px_m, grid.tile_m.1 * outline.px_m);
    let (x_m, y_m) = grid.middle(cell);
    let (x, y) = outline.at(x_m, y_m);
    let (half_x, half_y) = (wide * (0.5 + more), deep * (0.5 + more));
    Rect::new(x - half_x, y - half_y, 2.0 * half_x, 2.0 * half_y).corners()
}

fn draw_joints(ink: &mut Ink, outline: &Outline, grid: &Grid, floor: &[Point]) {
    let area = bounds(floor);
    let (across, along) = grid.joints(TILE_M);
    let upright = across.iter().map(|&x_m| outline.at(x_m, 0.0).0).map(|x| ((x, area.y), (x, area.foot())));
    let level = along.iter().map(|&y_m| outline.at(0.0, y_m).1).map(|y| ((area.x, y), (area.right(), y)));
    for (from, to) in upright.chain(level) {
        for (from, to) in clip(from, to, floor) {
            ink.line(from, to, BED, 0.75);
        }
    }
}

fn draw_degrees(ink: &mut Ink, view: &View, outline: &Outline, tiles: &Tiles) {
    let grid = tiles.grid;
    let every = (NUMBER_PX / (grid.tile_m.0 * outline.px_m)).ceil().max(1.0) as i64;
    let food = outline.food();
    // The whole number must lie on the food floor.
    let clear = |at: Point| {
        [(-14.0, -9.0), (14.0, -9.0), (14.0, 9.0), (-14.0, 9.0)]
            .iter()
            .all(|(dx, dy)| inside((at.0 + dx, at.1 + dy), &food))
    };
    let bare = |cell: &CellShape| {
        let ((column, row), (x_m, y_m)) = (grid.place(cell.x_m, cell.y_m), grid.middle(cell));
        column % every == 0
            && row % every == 0
            && clear(outline.at(x_m, y_m))
            && !covered(x_m, y_m, outline, tiles.lying)
    };
    let mut chosen: Vec<(&CellShape, f64)> = tiles.cells().filter(|(cell, _)| bare(cell)).collect();
    if chosen.len() > MOST_NUMBERS {
        // As on a draughts board: numbers side by side all over the floor would run together.
        chosen.retain(|(cell, _)| {
            let (column, row) = grid.place(cell.x_m, cell.y_m);
            (column / every + row / every) % 2 == 0
        });
    }
    for (cell, face_c) in chosen {
        let (x_m, y_m) = grid.middle(cell);
        let (x, y) = outline.at(x_m, y_m);
        let kind = Type::note(on_tile(tiles.ramp.step(face_c))).middle();
        ink.text((x, y + 4.5), &view.units.bare_degrees(face_c), kind);
    }
}

/// Whether a number at a place would touch a dish.
fn covered(x_m: f64, y_m: f64, outline: &Outline, lying: &[(f64, f64, f64, f64)]) -> bool {
    let (half_x, half_y) = (15.0 / outline.px_m, 9.0 / outline.px_m);
    lying.iter().any(|&(x, y, reach_x, reach_y)| {
        let (dx, dy) = ((x_m - x).abs() - half_x, (y_m - y).abs() - half_y);
        let (dx, dy) = (dx.max(0.0) / reach_x, dy.max(0.0) / reach_y);
        dx * dx + dy * dy < 1.0
    })
}

/// Draws the fire's side: dark, bounded, with logs and its word.
pub fn draw_fire(ink: &mut Ink, view: &View, outline: &Outline, side: FireSide, fire_kw: f64) {
    let floor = outline.floor();
    let bed = within(&floor, &outline.half_plane(true).corners());
    if bed.len() < 3 {
        return;
    }
    ink.fill(&bed, BED);
    let area = bounds(&bed);
    let edge = match side {
        FireSide::Left => ((area.right(), area.y), (area.right(), area.foot())),
        FireSide::Right => ((area.x, area.y), (area.x, area.foot())),
        FireSide::Rear => ((area.x, area.foot()), (area.right(), area.foot())),
    };
    ink.line(edge.0, edge.1, BED_EDGE, 3.0);
    draw_logs(ink, view, area, side);
    draw_fire_words(ink, view, area, side, fire_kw);
}

/// Logs in the bed, as places along it and across it from its open side, shares of its length and depth.
fn draw_logs(ink: &mut Ink, view: &View, area: Rect, side: FireSide) {
    let (deep, long) = if side == FireSide::Rear { (area.h, area.w) } else { (area.w, area.h) };
    let thick = (deep * 0.26).clamp(7.0, 24.0);
    let reach = (long * 0.16).clamp(12.0, 52.0);
    let spot = |along: f64, from_edge: f64| match side {
        FireSide::Left => (area.right() - from_edge, area.y + area.h / 2.0 + along),
        FireSide::Right => (area.x + from_edge, area.y + area.h / 2.0 + along),
        FireSide::Rear => (area.x + area.w / 2.0 + along, area.foot() - from_edge),
    };
    for (along, from_edge, lean) in [(0.02, 0.5, 0.06), (0.2, 0.55, -0.06), (0.14, 0.34, 0.14)] {
        let (along, from_edge) = (along * long, from_edge * deep);
        let ends = (spot(along - reach, from_edge + lean * reach), spot(along + reach, from_edge - lean * reach));
        log_from_above(ink, &view.theme, ends.0, ends.1, thick);
    }
}

fn draw_fire_words(ink: &mut Ink, view: &View, area: Rect, side: FireSide, fire_kw: f64) {
    let kind = Type::value(ON_BED);
    let rate = format!("{}\u{a0}kW", view.units.number(fire_kw, 0));
    let top = area.y + area.h * 0.24;
    // Beside the bed's straight side, where a round floor leaves most room.
    for (row, (text, kind)) in [("fire", kind), (rate.as_str(), Type::note(ON_BED))].into_iter().enumerate() {
        let down = 17.0 * row as f64;
        match side {
            FireSide::Left => ink.text((area.right() - 8.0, top + down), text, kind.end()),
            FireSide::Right => ink.text((area.x + 8.0, top + down), text, kind.start()),
            FireSide::Rear => ink.text((area.x + area.w * 0.24, area.foot() - 28.0 + down), text, kind.middle()),
        }
    }
}
