//! Owns the dishes on the floor plan: black outlines in a white casing, dashed with the sag mark where the spot was too cool.

use hearthload::scenario::Footprint;

use super::View;
use super::axis::fitted;
use super::glyphs::sag_mark_line;
use super::ink::{Ink, Point, Type};
use super::kitchen::Kitchen;
use super::plan::Lying;
use super::plan_oven::Outline;
use super::shapes::{Rect, arc};
use super::theme::Colour;

use std::f64::consts::PI;

/// Lines on the tiles are black in white in both themes: the ramp is the same in both.
const LINE: Colour = Colour::hex(0x12_0E_17);
const CASING: Colour = Colour::hex(0xFF_FD_F5);
/// An outline this wide has room for the sag mark, the name and the time.
const THREE_ROWS_PX: f64 = 66.0;
/// An outline this wide has room for the name and the time.
const TWO_ROWS_PX: f64 = 46.0;

/// Words on which a shortened name must not end.
const SMALL_WORDS: [&str; 10] = ["in", "on", "of", "with", "and", "the", "a", "to", "from", "under"];

/// Draws what lies on the floor, cooler spots last so that they stand out.
pub fn draw_dishes(ink: &mut Ink, view: &View, outline: &Outline, kitchen: &Kitchen, lying: &[Lying]) {
    for piece in lying.iter().rev() {
        let Some(dish) = kitchen.dishes.get(piece.piece.dish) else { continue };
        let centre = outline.at(piece.piece.x_m, piece.piece.y_m);
        let half_m = dish.half_m();
        let half = (half_m.0 * outline.px_m, half_m.1 * outline.px_m);
        let edge = match dish.footprint {
            Footprint::Round { .. } => arc(centre, (half.0 - 2.5, half.1 - 2.5), 0.0, 2.0 * PI),
            Footprint::Rectangle { .. } => {
                let rect =
                    Rect::new(centre.0 - half.0 + 2.5, centre.1 - half.1 + 2.5, 2.0 * half.0 - 5.0, 2.0 * half.1 - 5.0);
                let mut corners = rect.corners().to_vec();
                corners.push(corners[0]);
                corners
            }
        };
        ink.outline(&edge, CASING, 7.0);
        if piece.under() {
            ink.dashed(&edge, LINE, 3.0, (7.0, 4.0));
        } else {
            ink.outline(&edge, LINE, 3.0);
        }
        draw_words(ink, view, piece, centre, half);
    }
}

fn draw_words(ink: &mut Ink, view: &View, piece: &Lying, centre: Point, half: Point) {
    let (wide, tall) = (2.0 * half.0, 2.0 * half.1);
    let name_kind = Type::note(LINE).bold().middle();
    let name = short_name(ink, piece.name, name_kind, wide);
    let time = piece.left_s.map(|left| view.units.countdown(left));
    let with_time = tall >= TWO_ROWS_PX && time.is_some();
    let with_mark = piece.under() && tall >= if with_time { THREE_ROWS_PX } else { 38.0 };
    let rows = 15.0 * f64::from(1 + u8::from(with_time)) + if with_mark { 14.0 } else { 0.0 };
    let mut y = centre.1 - rows / 2.0 + 11.5;
    if with_mark {
        let mark = sag_mark_line((centre.0, y - 7.0), 24.0);
        ink.path(&mark, CASING, 7.0);
        ink.path(&mark, LINE, 3.5);
        y += 14.0;
    }
    ink.cased((centre.0, y), &name, name_kind, CASING, 2.5);
    if let Some(time) = time.filter(|_| with_time) {
        ink.cased((centre.0, y + 15.0), &time, Type::note(LINE).bold().middle(), CASING, 2.5);
    }
}

/// As many of the name's first words as fit inside, else the first; it may run over the outline's edge, where its casing keeps it
/// legible, and is cut short beyond that. An ellipsis stands where anything was left out.
fn short_name(ink: &Ink, name: &str, kind: Type, wide: f64) -> String {
    const EDGE_PX: f64 = 10.0;
    const OVER_PX: f64 = 16.0;
    let words: Vec<&str> = name.split(' ').collect();
    let cut = |text: &str| format!("{}\u{2026}", text.trim_end_matches([',', '-']));
    let inside = |text: &String| ink.width(text, kind) <= wide - EDGE_PX;
    for count in (1..=words.len()).rev() {
        let text = words[..count].join(" ");
        // A name that ends on a small word says less than a shorter one.
        let dangling = count < words.len() && SMALL_WORDS.contains(&words[count - 1]);
        let text = if count < words.len() { cut(&text) } else { text };
        if !dangling && inside(&text) {
            return text;
        }
    }
    let first = words.first().copied().unwrap_or_default();
    // Of a word with hyphens the parts that fit.
    let part = first.match_indices('-').map(|(at, _)| cut(&first[..at])).rfind(inside);
    let first = if words.len() > 1 { cut(first) } else { first.to_owned() };
    let text = part.filter(|_| ink.width(&first, kind) > wide).unwrap_or(first);
    fitted(&|text| ink.width(text, kind), &text, wide + OVER_PX)
}
