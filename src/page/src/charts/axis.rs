//! Owns the axes: time to the right, values up, few ticks, thirteen-pixel words.

use super::View;
use super::ink::{Align, Ink, Type};
use hearthload::units::time::HOUR_S;

/// Time running to the right.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TimeScale {
    /// Left end, px.
    pub left: f64,
    /// Right end, px.
    pub right: f64,
    /// Time at the left end, s.
    pub from_s: f64,
    /// Time at the right end, s.
    pub to_s: f64,
}

impl TimeScale {
    /// Where a time stands, px.
    #[must_use]
    pub fn x(&self, at_s: f64) -> f64 {
        self.left + (at_s - self.from_s) / (self.to_s - self.from_s).max(1.0) * (self.right - self.left)
    }

    /// The time at a place, within the ends, to the minute.
    #[must_use]
    pub fn at(&self, x: f64) -> f64 {
        let share = ((x - self.left) / (self.right - self.left).max(1.0)).clamp(0.0, 1.0);
        ((self.from_s + share * (self.to_s - self.from_s)) / 60.0).round() * 60.0
    }

    /// Ticks and clock times under `y`; as many as fit.
    pub fn ticks(&self, ink: &mut Ink, view: &View, y: f64) {
        self.ticks_sized(ink, view, y, 13.0);
    }

    /// Ticks and clock times in a size of words.
    pub fn ticks_sized(&self, ink: &mut Ink, view: &View, y: f64, size: f64) {
        let theme = &view.theme;
        let kind = Type::note(theme.smoke).sized(size);
        // Larger words stand further apart.
        let word_px = ink.width("00:00", kind);
        // Those at the ends lie inwards, half a word nearer to their neighbours.
        let label_px = (word_px + 14.0).max(word_px * 1.5 + 6.0) + (size - 13.0) * 6.0;
        let step = [900.0, 1800.0, HOUR_S, 2.0 * HOUR_S, 3.0 * HOUR_S, 6.0 * HOUR_S]
            .into_iter()
            .find(|step| {
                step / (self.to_s - self.from_s).max(1.0) * (self.right - self.left) >= label_px && *step >= 1800.0
            })
            .unwrap_or(6.0 * HOUR_S);
        // Counted from the start, so that its own time is written.
        let mut at = self.from_s;
        while at <= self.to_s + 1.0 {
            let x = self.x(at);
            ink.line((x, y), (x, y + 6.0), theme.edge, 1.5);
            let text = view.units.axis_clock(at);
            let half = ink.width(&text, kind) / 2.0;
            let (align, place) = if x - half < 0.0 {
                (Align::Start, x.max(0.0))
            } else if x + half > view.width_px {
                (Align::End, x.min(view.width_px))
            } else {
                (Align::Middle, x)
            };
            ink.text((place, y + 8.0 + size), &text, Type { align, ..kind });
            at += step;
        }
    }

    /// Hair lines at the full hours.
    pub fn grid(&self, ink: &mut Ink, view: &View, top: f64, foot: f64) {
        let mut at = (self.from_s / HOUR_S).ceil() * HOUR_S;
        while at <= self.to_s {
            ink.line((self.x(at), top), (self.x(at), foot), view.theme.hair, 1.0);
            at += HOUR_S;
        }
    }

    /// The chosen moment as an upright line, where there is one within the axis.
    pub fn moment(&self, ink: &mut Ink, view: &View, top: f64, foot: f64) {
        if let Some(at) = view.moment_s.filter(|at| (self.from_s..=self.to_s).contains(at)) {
            ink.line((self.x(at), top), (self.x(at), foot), view.theme.press, 2.0);
        }
    }
}

/// Values going up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ValueScale {
    /// Upper end, px.
    pub top: f64,
    /// Lower end, px.
    pub foot: f64,
    /// Value at the lower end.
    pub low: f64,
    /// Value at the upper end.
    pub high: f64,
}

impl ValueScale {
    /// Where a value stands, px.
    #[must_use]
    pub fn y(&self, value: f64) -> f64 {
        self.foot - (value - self.low) / (self.high - self.low).max(1e-9) * (self.foot - self.top)
    }
}

/// A step of 1, 2 or 5 times a power of ten that divides `range` into at most `most` parts.
#[must_use]
pub fn round_step(range: f64, most: f64) -> f64 {
    let mut step = 1e-3;
    while step * most < range && step < 1e9 {
        step *= 2.0;
        if step * most >= range {
            break;
        }
        step *= 2.5;
        if step * most >= range {
            break;
        }
        step *= 2.0;
    }
    step
}

/// Breaks a text at its spaces into lines no wider than `room` by a measure; a single word is never broken.
#[must_use]
pub fn wrapped(width: &dyn Fn(&str) -> f64, text: &str, room: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    // Behind a hyphen too a line may end.
    let words = text.split(' ').flat_map(|word| {
        let mut parts = word.split_inclusive('-');
        let first = parts.next().map(|part| (" ", part));
        first.into_iter().chain(parts.map(|part| ("", part)))
    });
    for (space, word) in words {
        let joined = lines.last().map(|line| format!("{line}{space}{word}"));
        match (joined, lines.last_mut()) {
            (Some(joined), Some(line)) if width(&joined) <= room => *line = joined,
            _ => lines.push(fitted(width, word, room)),
        }
    }
    lines
}

/// A text cut to a room by a measure, with an ellipsis where it was cut.
#[must_use]
pub fn fitted(width: &dyn Fn(&str) -> f64, text: &str, room: f64) -> String {
    let mut kept = text.to_owned();
    let mut signs = text.chars().count();
    while width(&kept) > room && signs > 2 {
        signs -= 1;
        let shorter: String = text.chars().take(signs).collect();
        kept = format!("{}\u{2026}", shorter.trim_end_matches([' ', ',', '\u{a0}']));
    }
    kept
}
