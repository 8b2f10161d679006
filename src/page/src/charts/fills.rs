//! Owns the fills: patterns stroked inside a polygon, so that nothing is told by colour alone and every backend draws the same.

use super::ink::{Ink, Point};
use super::shapes::{Rect, bounds, clip, inside};
use super::theme::{Colour, Theme};

/// A pattern.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fill {
    /// Heat out of the hearth: solid.
    Hearth,
    /// Heat from the chamber, and smoke: dots with an edge.
    Chamber,
    /// Wood: grain.
    Wood,
    /// Gas: upright bars.
    Gas,
    /// Short of the band: wide slant, no edge.
    Short,
    /// Stone: fine slant with an edge.
    Stone,
    /// Insulation: zigzag with an edge.
    Insulation,
    /// What goes into food: the floor line's colour, solid.
    Food,
    /// Glow from the doorway: solid with an edge.
    Glow,
    /// Loss through the shell: solid with an edge.
    Shell,
}

/// Fills a polygon.
pub fn fill(ink: &mut Ink, theme: &Theme, shape: &[Point], kind: Fill) {
    match kind {
        Fill::Hearth => ink.fill(shape, theme.hearth),
        Fill::Food => ink.fill(shape, theme.soot),
        Fill::Glow => edged(ink, shape, theme.lit, theme.chamber_edge),
        Fill::Shell => edged(ink, shape, theme.shell, theme.smoke),
        Fill::Chamber => {
            ink.fill(shape, theme.chamber);
            dots(ink, shape, theme.chamber_edge);
            ink.outline(shape, theme.chamber_edge, 1.5);
        }
        Fill::Wood => {
            ink.fill(shape, theme.oak);
            grain(ink, shape, theme.oak_grain);
            ink.outline(shape, theme.oak_grain, 1.5);
        }
        Fill::Gas => {
            ink.fill(shape, theme.gas_gap);
            slant(ink, shape, theme.gas, Slant { step: 6.0, width: 3.0, lean: 0.0 });
            ink.outline(shape, theme.gas, 1.5);
        }
        Fill::Short => {
            ink.fill(shape, theme.short_wash);
            slant(ink, shape, theme.short, Slant { step: 8.0, width: 2.2, lean: 1.0 });
        }
        Fill::Stone => {
            ink.fill(shape, theme.inset);
            slant(ink, shape, theme.edge, Slant { step: 8.0, width: 1.0, lean: 1.0 });
            ink.outline(shape, theme.smoke, 1.25);
        }
        Fill::Insulation => {
            ink.fill(shape, theme.inset);
            zigzag(ink, shape, theme.edge);
            ink.outline(shape, theme.smoke, 1.25);
        }
    }
}

/// Fills a rectangle.
pub fn fill_rect(ink: &mut Ink, theme: &Theme, rect: Rect, kind: Fill) {
    if rect.w > 0.0 && rect.h > 0.0 {
        fill(ink, theme, &rect.corners(), kind);
    }
}

fn edged(ink: &mut Ink, shape: &[Point], ground: Colour, edge: Colour) {
    ink.fill(shape, ground);
    ink.outline(shape, edge, 1.5);
}

struct Slant {
    /// Between lines along x.
    step: f64,
    /// Of a line.
    width: f64,
    /// Run over rise: 0 upright, 1 at 45 degrees.
    lean: f64,
}

fn slant(ink: &mut Ink, shape: &[Point], colour: Colour, lines: Slant) {
    let area = bounds(shape);
    let run = area.h * lines.lean;
    // A grid fixed to the sheet, so that shapes side by side match.
    let mut x = (area.x / lines.step).floor() * lines.step + lines.step / 2.0;
    while x < area.right() + run {
        for (from, to) in clip((x, area.y), (x - run, area.foot()), shape) {
            ink.line(from, to, colour, lines.width);
        }
        x += lines.step;
    }
}

fn dots(ink: &mut Ink, shape: &[Point], colour: Colour) {
    const STEP: f64 = 7.0;
    const RADIUS: f64 = 1.0;
    const CLEAR: f64 = 2.2;
    let area = bounds(shape);
    let clear = |at: Point| {
        [(CLEAR, 0.0), (-CLEAR, 0.0), (0.0, CLEAR), (0.0, -CLEAR)]
            .iter()
            .all(|d| inside((at.0 + d.0, at.1 + d.1), shape))
    };
    let mut y = area.y + STEP / 2.0;
    let mut odd = false;
    while y < area.foot() {
        let mut x = area.x + if odd { STEP } else { STEP / 2.0 };
        while x < area.right() {
            if clear((x, y)) {
                ink.disc((x, y), RADIUS, colour);
            }
            x += STEP;
        }
        y += STEP / 2.0;
        odd = !odd;
    }
}

fn grain(ink: &mut Ink, shape: &[Point], colour: Colour) {
    const ROW: f64 = 4.0;
    const DASH: f64 = 15.0;
    const GAP: f64 = 4.0;
    let area = bounds(shape);
    let mut row = 0_u32;
    let mut y = area.y + ROW * 0.6;
    while y < area.foot() - 1.0 {
        let mut x = area.x - f64::from(row * 7 % 19);
        while x < area.right() {
            for (from, to) in clip((x, y), (x + DASH, y), shape) {
                ink.line(from, to, colour, 1.0);
            }
            x += DASH + GAP;
        }
        y += ROW;
        row += 1;
    }
}

fn zigzag(ink: &mut Ink, shape: &[Point], colour: Colour) {
    const ROW: f64 = 10.0;
    const WAVE: f64 = 6.0;
    let area = bounds(shape);
    let mut y = area.y + 3.0;
    while y < area.foot() {
        let mut x = area.x;
        let mut low = false;
        while x < area.right() {
            let (from, to) = if low { (WAVE, 0.0) } else { (0.0, WAVE) };
            for (a, b) in clip((x, y + from), (x + WAVE / 2.0 + 1.5, y + to), shape) {
                ink.line(a, b, colour, 1.0);
            }
            x += WAVE / 2.0 + 1.5;
            low = !low;
        }
        y += ROW;
    }
}

/// Covers as thin plates stacked upwards from `foot`, `each` px a cover (a part cover is a shorter plate).
pub fn plates(ink: &mut Ink, theme: &Theme, column: Rect, covers: f64, each: f64) {
    let gap = (each * 0.33).clamp(0.5, 1.5);
    let mut left = covers;
    let mut foot = column.foot();
    while left > 1e-6 {
        let share = left.min(1.0);
        let wide = column.w * share;
        ink.fill(&Rect::new(column.x, foot - each + gap, wide, each - gap).corners(), theme.plate);
        foot -= each;
        left -= 1.0;
    }
}
