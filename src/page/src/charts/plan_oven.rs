//! Owns the oven in plan: the wall in section, tiles in the colours of the heat ramp, the fire's side, the doorway.

use hearthload::report::{FloorMap, Frame};
use hearthload::scenario::{FireSide, FloorShape};

use super::View;
use super::fills::{Fill, fill};
use super::glyphs::log_from_above;
use super::ink::{Ink, Point, Type};
use super::kitchen::Kitchen;
use super::plan::{Ramp, SILL_PX};
use super::shapes::{Rect, arc, bounds, inside, within};
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
    /// Pixels in a metre.
    pub px_m: f64,
}

impl Outline {
    /// Fits the oven into a width and a height.
    #[must_use]
    pub fn fitted(kitchen: &Kitchen, room_px: f64, most_px: f64) -> Self {
        let wall = if room_px < 430.0 { NARROW_WALL_PX } else { WALL_PX };
        let by_width = (room_px - 2.0 * wall - 4.0) / kitchen.width_m.max(0.1);
        let by_height = (most_px - wall - SILL_PX - 4.0) / kitchen.depth_m.max(0.1);
        let px_m = by_width.min(by_height).max(10.0);
        let half = (kitchen.width_m * px_m / 2.0, kitchen.depth_m * px_m / 2.0);
        let middle = if by_width <= by_height { room_px / 2.0 } else { half.0 + wall + 14.0 };
        let half_door = (kitchen.door_width_m * px_m / 2.0).min(half.0 * 0.92);
        Self { shape: kitchen.shape, centre: (middle, wall + 2.0 + half.1), half, wall, half_door, px_m }
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

/// Draws the tiles, the lines between them and the degrees on bare ones.
pub fn draw_tiles(
    ink: &mut Ink,
    view: &View,
    outline: &Outline,
    map: &FloorMap,
    frame: &Frame,
    ramp: Ramp,
    lying: &[(f64, f64, f64, f64)],
) {
    let floor = outline.floor();
    ink.fill(&floor, BED);
    for (cell, &face_c) in map.cells.iter().zip(&frame.face_c).filter(|(cell, _)| !cell.under_fire) {
        let tile = within(&tile_corners(outline, map, cell.x_m, cell.y_m, 0.4), &floor);
        ink.fill(&tile, HEAT_RAMP[ramp.step(face_c)]);
    }
    draw_joints(ink, outline, map, &floor);
    draw_degrees(ink, view, outline, map, frame, ramp, lying);
}

fn tile_corners(outline: &Outline, map: &FloorMap, x_m: f64, y_m: f64, bleed_px: f64) -> [Point; 4] {
    let side = map.cell_m * outline.px_m;
    let (x, y) = outline.at(x_m, y_m);
    // A hair wider than the tile, so that no ground shines through between two of one colour.
    Rect::new(x - side / 2.0 - bleed_px, y - side / 2.0 - bleed_px, side + 2.0 * bleed_px, side + 2.0 * bleed_px)
        .corners()
}

fn draw_joints(ink: &mut Ink, outline: &Outline, map: &FloorMap, floor: &[Point]) {
    let step = (TILE_M / map.cell_m).round().max(1.0) * map.cell_m;
    let Some(first) = map.cells.first() else { return };
    let area = bounds(floor);
    // Lines run along the cells' sides.
    let (x0, y0) = outline.at(first.x_m - map.cell_m / 2.0, first.y_m - map.cell_m / 2.0);
    let px = step * outline.px_m;
    let mut x = x0 - ((x0 - area.x) / px).floor() * px;
    while x < area.right() {
        for (from, to) in super::shapes::clip((x, area.y), (x, area.foot()), floor) {
            ink.line(from, to, BED, 0.75);
        }
        x += px;
    }
    let mut y = y0 - ((y0 - area.y) / px).floor() * px;
    while y < area.foot() {
        for (from, to) in super::shapes::clip((area.x, y), (area.right(), y), floor) {
            ink.line(from, to, BED, 0.75);
        }
        y += px;
    }
}

fn draw_degrees(
    ink: &mut Ink,
    view: &View,
    outline: &Outline,
    map: &FloorMap,
    frame: &Frame,
    ramp: Ramp,
    lying: &[(f64, f64, f64, f64)],
) {
    let side = map.cell_m * outline.px_m;
    let every = (NUMBER_PX / side).ceil().max(1.0);
    let floor = outline.floor();
    // The whole number must lie on the floor.
    let clear = |x_m: f64, y_m: f64| {
        let (x, y) = outline.at(x_m, y_m);
        [(-14.0, -8.0), (14.0, -8.0), (14.0, 8.0), (-14.0, 8.0)].iter().all(|(dx, dy)| inside((x + dx, y + dy), &floor))
    };
    // Small cells stand for tiles: one in so many columns and rows.
    let on_grid = |at_m: f64| ((at_m / map.cell_m).floor() / every).fract().abs() < 1e-6;
    let bare = |at: usize| {
        let cell = &map.cells[at];
        !cell.under_fire
            && clear(cell.x_m, cell.y_m)
            && on_grid(cell.x_m)
            && on_grid(cell.y_m)
            && !covered(cell.x_m, cell.y_m, outline, lying)
    };
    let mut tiles: Vec<usize> = (0..map.cells.len().min(frame.face_c.len())).filter(|&at| bare(at)).collect();
    if tiles.len() > MOST_NUMBERS {
        // As on a draughts board: numbers side by side all over the floor would run together.
        let tile = |at_m: f64| (at_m / map.cell_m / every).floor();
        tiles.retain(|&at| (tile(map.cells[at].x_m) + tile(map.cells[at].y_m)).rem_euclid(2.0) < 0.5);
    }
    for at in tiles {
        let (cell, face_c) = (&map.cells[at], frame.face_c[at]);
        let (x, y) = outline.at(cell.x_m, cell.y_m);
        let kind = Type::note(on_tile(ramp.step(face_c))).middle();
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
pub fn draw_fire(ink: &mut Ink, view: &View, outline: &Outline, map: &FloorMap, side: FireSide, fire_kw: f64) {
    let floor = outline.floor();
    let bed: Vec<_> = map.cells.iter().filter(|cell| cell.under_fire).collect();
    if bed.is_empty() {
        return;
    }
    for cell in &bed {
        let tile = within(&tile_corners(outline, map, cell.x_m, cell.y_m, 0.4), &floor);
        ink.fill(&tile, BED);
    }
    let corners: Vec<Point> = bed.iter().flat_map(|cell| tile_corners(outline, map, cell.x_m, cell.y_m, 0.0)).collect();
    let area = bounds(&corners);
    let edge = match side {
        FireSide::Left => ((area.right(), area.y - 400.0), (area.right(), area.foot() + 400.0)),
        FireSide::Right => ((area.x, area.y - 400.0), (area.x, area.foot() + 400.0)),
        FireSide::Rear => ((area.x - 400.0, area.foot()), (area.right() + 400.0, area.foot())),
    };
    for (from, to) in super::shapes::clip(edge.0, edge.1, &floor) {
        ink.line(from, to, BED_EDGE, 3.0);
    }
    draw_logs(ink, view, area, side, fire_kw);
}

fn draw_logs(ink: &mut Ink, view: &View, area: Rect, side: FireSide, fire_kw: f64) {
    let upright = side != FireSide::Rear;
    let (short, long) = if upright { (area.w, area.h) } else { (area.h, area.w) };
    let middle = (area.x + area.w / 2.0, area.y + area.h / 2.0);
    // The bed of a round floor is a segment: its deepest part lies towards the floor's middle.
    let toward = match side {
        FireSide::Left => (short * 0.1, 0.0),
        FireSide::Right => (-short * 0.1, 0.0),
        FireSide::Rear => (0.0, short * 0.1),
    };
    let thick = (short * 0.3).clamp(8.0, 24.0);
    let reach = (long * 0.16).clamp(12.0, 52.0);
    let spot = |along: f64, across: f64| {
        if upright {
            (middle.0 + toward.0 + across, middle.1 + along)
        } else {
            (middle.0 + along, middle.1 + toward.1 + across)
        }
    };
    for (along, across, lean) in
        [(0.02 * long, -0.06 * short, 0.06), (0.22 * long, -0.1 * short, -0.06), (0.16 * long, 0.08 * short, 0.16)]
    {
        log_from_above(
            ink,
            &view.theme,
            spot(along - reach, across - lean * reach),
            spot(along + reach, across + lean * reach),
            thick,
        );
    }
    let kind = Type::value(ON_BED);
    let rate = format!("{}\u{a0}kW", view.units.number(fire_kw, 0));
    let rows = [("fire", kind), (rate.as_str(), Type::note(ON_BED))];
    for (row, (text, kind)) in rows.into_iter().enumerate() {
        let down = 17.0 * row as f64;
        // Beside the bed's straight side, where a round floor leaves most room.
        match side {
            FireSide::Left => ink.text((area.right() - 8.0, middle.1 - 0.3 * long + down), text, kind.end()),
            FireSide::Right => ink.text((area.x + 8.0, middle.1 - 0.3 * long + down), text, kind.start()),
            FireSide::Rear => ink.text((middle.0 - 0.3 * long, area.foot() - 26.0 + down), text, kind.middle()),
        }
    }
}
