//! Owns the evening strip on a phone: it runs down the page, a row for each feed, the floor beside the rows.

use super::View;
use super::evening::{Evening, Piece, PieceState};
use super::glyphs;
use super::ink::{Ink, Point, Type};
use super::shapes::{Rect, smooth};

const ROW_PX: f64 = 54.0;
const HEAD_PX: f64 = 34.0;
const LOG_X: f64 = 84.0;
const LOG: (f64, f64) = (46.0, 18.0);
/// Left end of the floor's temperatures.
const FLOOR_X: f64 = 168.0;

/// Height of the strip.
pub fn height_px(evening: &Evening) -> f64 {
    HEAD_PX + ROW_PX * evening.pieces.len() as f64 + 6.0
}

/// Draws the strip.
pub fn draw(evening: &Evening, ink: &mut Ink, view: &View) {
    let theme = &view.theme;
    let foot = height_px(evening) - 4.0;
    let (left, right) = (FLOOR_X, view.width_px - 6.0);
    let values = evening.values(0.0, 1.0);
    let x = |at_c: f64| left + (at_c - values.low) / (values.high - values.low).max(1e-9) * (right - left);
    let least = x(evening.band_c[0]);
    ink.fill(
        &Rect::new(least, HEAD_PX - 8.0, (x(evening.band_c[1]).min(right) - least).max(0.0), foot - HEAD_PX + 8.0)
            .corners(),
        theme.zone,
    );
    ink.line((least, HEAD_PX - 8.0), (least, foot), theme.zone_edge, 1.5);
    let size = evening.words_px();
    ink.text(
        (least, HEAD_PX - 14.0),
        &view.units.degrees(evening.band_c[0]),
        Type::note(theme.smoke).sized(size).middle(),
    );
    for (row, piece) in evening.pieces.iter().enumerate() {
        draw_row(ink, view, piece, HEAD_PX + ROW_PX * row as f64, size);
    }
    let y = |at_s: f64| y_of(evening, at_s);
    let line = |readings: &[super::answer::Reading]| -> Vec<Point> {
        // Smooth along time: down the page, so the axes change places on the way.
        let turned: Vec<Point> =
            readings.iter().filter_map(|reading| Some((y(reading.at_s)?, x(reading.at_c)))).collect();
        smooth(&turned).into_iter().map(|(down, across)| (across, down)).collect()
    };
    ink.dotted(&line(&evening.floor_old), theme.smoke, 2.0);
    ink.dashed(&line(&evening.floor_planned), theme.hearth, 4.0, (11.0, 6.0));
    if let (Some(reading), Some(down)) = (evening.reading, evening.reading.and_then(|reading| y(reading.at_s))) {
        let at = (x(reading.at_c), down);
        ink.disc(at, 9.0, theme.soot);
        ink.disc(at, 5.0, theme.slab);
        ink.cased(
            (at.0 + 14.0, at.1 + size * 0.35),
            &view.units.bare_degrees(reading.at_c),
            Type::note(theme.soot).bold().sized(size),
            theme.slab,
            2.0,
        );
    }
}

fn draw_row(ink: &mut Ink, view: &View, piece: &Piece, top: f64, size: f64) {
    let theme = &view.theme;
    let middle = top + ROW_PX / 2.0;
    ink.text((0.0, middle + size * 0.35), &view.units.clock(piece.at_s), Type::note(theme.soot).bold().sized(size));
    for count in 0..piece.count.clamp(1, 2) {
        let lift = f64::from(count) * (LOG.1 + 2.0) - if piece.count > 1 { LOG.1 / 2.0 } else { 0.0 };
        let place = Rect::new(LOG_X, middle - LOG.1 / 2.0 - lift, LOG.0, LOG.1);
        match piece.state {
            PieceState::Fed => ink.fill(&place.corners(), theme.smoke),
            PieceState::Next | PieceState::ToCome => glyphs::log(ink, theme, place),
        }
    }
    if piece.state == PieceState::Next {
        ink.outline(
            &Rect::new(LOG_X - 5.0, middle - LOG.1 / 2.0 - 5.0, LOG.0 + 10.0, LOG.1 + 10.0).corners(),
            theme.soot,
            3.0,
        );
    }
    ink.line((0.0, top + ROW_PX), (view.width_px, top + ROW_PX), theme.hair, 1.0);
}

/// Where a time stands: rows are evenly apart, time between two rows runs evenly.
fn y_of(evening: &Evening, at_s: f64) -> Option<f64> {
    let row = |index: usize| HEAD_PX + ROW_PX * (index as f64 + 0.5);
    let after = evening.pieces.iter().position(|piece| piece.at_s >= at_s);
    match after {
        Some(0) => (evening.pieces[0].at_s - at_s < 1.0).then(|| row(0)),
        Some(index) => {
            let (from, to) = (evening.pieces[index - 1].at_s, evening.pieces[index].at_s);
            Some(row(index - 1) + (at_s - from) / (to - from).max(1.0) * ROW_PX)
        }
        None => None,
    }
}
