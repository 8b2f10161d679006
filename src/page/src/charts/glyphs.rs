//! Owns the small drawings: dishes from the side, logs, the sag mark, arrow heads.

use super::fills::{Fill, fill};
use super::ink::{Ink, Point};
use super::kitchen::Side;
use super::shapes::{Rect, arc, bezier};
use super::theme::Theme;

use std::f64::consts::PI;

/// A dish seen from the side, standing on `foot` (its middle), `width` px across; returns its height.
pub fn dish(ink: &mut Ink, theme: &Theme, foot: Point, width: f64, side: Side) -> f64 {
    let (x, y) = foot;
    let half = width / 2.0;
    match side {
        Side::Flat => {
            let mut loaf = arc((x, y - 1.0), (half, 6.0), PI, 2.0 * PI);
            loaf.extend([(x + half, y), (x - half, y)]);
            ink.fill(&loaf, theme.soot);
            7.0
        }
        Side::Pan => {
            let (wall, bowl) = (half * 0.72, 9.0);
            ink.fill(
                &[(x - wall, y - bowl), (x + wall, y - bowl), (x + wall * 0.8, y), (x - wall * 0.8, y)],
                theme.soot,
            );
            ink.path(&[(x + wall - 1.0, y - bowl + 1.5), (x + half * 1.12, y - bowl - 3.0)], theme.soot, 3.0);
            13.0
        }
        Side::Tin => {
            let wall = (half * 0.55).max(6.0);
            ink.fill(
                &[(x - wall, y - 13.0), (x + wall, y - 13.0), (x + wall * 0.78, y), (x - wall * 0.78, y)],
                theme.soot,
            );
            13.0
        }
        Side::Clay => {
            let wall = half * 0.9;
            ink.fill(
                &[(x - wall, y - 7.0), (x + wall, y - 7.0), (x + wall * 0.78, y), (x - wall * 0.78, y)],
                theme.soot,
            );
            let mut lid = arc((x, y - 8.5), (wall * 0.82, 6.5), PI, 2.0 * PI);
            lid.push((x - wall * 0.82, y - 8.5));
            ink.fill(&lid, theme.soot);
            15.0
        }
    }
}

/// A log lying on `place`'s foot, its sawn end to the right.
pub fn log(ink: &mut Ink, theme: &Theme, place: Rect) {
    let radius = place.h / 2.0;
    let middle = place.y + radius;
    let end = (place.right() - radius, middle);
    let mut body = arc((place.x + radius, middle), (radius, radius), PI * 0.5, PI * 1.5);
    body.extend(arc(end, (radius, radius), PI * 1.5, PI * 2.5));
    fill(ink, theme, &body, Fill::Wood);
    ink.disc(end, radius - 0.5, theme.oak_end);
    ink.ring(end, radius - 0.5, theme.oak_grain, 1.25);
    if radius > 5.0 {
        ink.ring(end, radius * 0.45, theme.oak_grain, 1.0);
    }
}

/// A log seen from above, as a bar from one end to the other.
pub fn log_from_above(ink: &mut Ink, theme: &Theme, from: Point, to: Point, thick: f64) {
    let length = super::shapes::distance(from, to).max(1e-6);
    let along = ((to.0 - from.0) / length, (to.1 - from.1) / length);
    let across = (-along.1 * thick / 2.0, along.0 * thick / 2.0);
    let body = [
        (from.0 + across.0, from.1 + across.1),
        (to.0 + across.0, to.1 + across.1),
        (to.0 - across.0, to.1 - across.1),
        (from.0 - across.0, from.1 - across.1),
    ];
    ink.fill(&body, theme.oak);
    let inset = |point: Point, by: f64| (point.0 + along.0 * by, point.1 + along.1 * by);
    ink.line(inset(from, length * 0.12), inset(to, -length * 0.12), theme.oak_grain, 1.5);
    ink.outline(&body, theme.oak_end, 1.5);
}

/// The sag mark: a line that gives in its middle; `at` is its middle, at the line.
#[must_use]
pub fn sag_mark_line(at: Point, width: f64) -> Vec<Point> {
    let (x, y) = at;
    let (half, deep) = (width / 2.0, width * 0.36);
    let (hip, hold) = (half * 0.6, half * 0.22);
    let mut line = vec![(x - half, y)];
    line.extend(bezier((x - hip, y), (x - hip + hold, y), (x - hold * 1.4, y + deep), (x, y + deep)));
    line.extend(bezier((x, y + deep), (x + hold * 1.4, y + deep), (x + hip - hold, y), (x + hip, y)));
    line.push((x + half, y));
    line
}
