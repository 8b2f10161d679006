//! Owns the geometry under the pictures: dashes, clipping to a polygon, arcs, curves that never overshoot their points.

use hearthload::numerics::order;

use super::ink::Point;

/// A rectangle, CSS px.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rect {
    /// Left edge.
    pub x: f64,
    /// Upper edge.
    pub y: f64,
    /// Width.
    pub w: f64,
    /// Height.
    pub h: f64,
}

impl Rect {
    /// A rectangle by its left, upper edge and size.
    #[must_use]
    pub const fn new(x: f64, y: f64, w: f64, h: f64) -> Self {
        Self { x, y, w, h }
    }

    /// Its corners, clockwise from the upper left.
    #[must_use]
    pub fn corners(self) -> [Point; 4] {
        let (right, foot) = (self.x + self.w, self.y + self.h);
        [(self.x, self.y), (right, self.y), (right, foot), (self.x, foot)]
    }

    /// Right edge.
    #[must_use]
    pub fn right(self) -> f64 {
        self.x + self.w
    }

    /// Lower edge.
    #[must_use]
    pub fn foot(self) -> f64 {
        self.y + self.h
    }
}

/// The smallest rectangle about points.
#[must_use]
pub fn bounds(points: &[Point]) -> Rect {
    let low = |pick: fn(&Point) -> f64| points.iter().map(pick).fold(f64::INFINITY, f64::min);
    let high = |pick: fn(&Point) -> f64| points.iter().map(pick).fold(f64::NEG_INFINITY, f64::max);
    let (x, y) = (low(|p| p.0), low(|p| p.1));
    Rect::new(x, y, high(|p| p.0) - x, high(|p| p.1) - y)
}

/// Cuts a line into dashes; `pattern` is on, off.
#[must_use]
pub fn dashes(points: &[Point], pattern: (f64, f64)) -> Vec<Vec<Point>> {
    let mut found = Vec::new();
    let (mut on, mut left) = (true, pattern.0);
    let mut current: Vec<Point> = points.first().copied().into_iter().collect();
    for pair in points.windows(2) {
        let (mut from, to) = (pair[0], pair[1]);
        let mut rest = distance(from, to);
        while rest > left {
            let share = left / rest;
            from = (from.0 + (to.0 - from.0) * share, from.1 + (to.1 - from.1) * share);
            rest -= left;
            if on {
                current.push(from);
                found.push(std::mem::take(&mut current));
            } else {
                current = vec![from];
            }
            on = !on;
            left = if on { pattern.0 } else { pattern.1 };
        }
        left -= rest;
        if on {
            current.push(to);
        }
    }
    if on && current.len() > 1 {
        found.push(current);
    }
    found
}

/// Length of a straight line.
#[must_use]
pub fn distance(a: Point, b: Point) -> f64 {
    ((a.0 - b.0) * (a.0 - b.0) + (a.1 - b.1) * (a.1 - b.1)).sqrt()
}

/// The parts of a straight line inside a polygon (even-odd rule).
#[must_use]
pub fn clip(from: Point, to: Point, polygon: &[Point]) -> Vec<(Point, Point)> {
    let way = (to.0 - from.0, to.1 - from.1);
    let mut cuts = vec![0.0, 1.0];
    for (index, &a) in polygon.iter().enumerate() {
        let b = polygon[(index + 1) % polygon.len()];
        let side = (b.0 - a.0, b.1 - a.1);
        let cross = way.0 * side.1 - way.1 * side.0;
        if cross.abs() < 1e-9 {
            continue;
        }
        let off = (a.0 - from.0, a.1 - from.1);
        let along = (off.0 * side.1 - off.1 * side.0) / cross;
        let on_side = (off.0 * way.1 - off.1 * way.0) / cross;
        if (0.0..=1.0).contains(&along) && (0.0..=1.0).contains(&on_side) {
            cuts.push(along);
        }
    }
    order::rising(&mut cuts);
    let at = |share: f64| (from.0 + way.0 * share, from.1 + way.1 * share);
    cuts.windows(2)
        .filter(|pair| pair[1] - pair[0] > 1e-6 && inside(at((pair[0] + pair[1]) / 2.0), polygon))
        .map(|pair| (at(pair[0]), at(pair[1])))
        .collect()
}

/// Whether a point lies in a polygon (even-odd rule).
#[must_use]
pub fn inside(at: Point, polygon: &[Point]) -> bool {
    let mut odd = false;
    for (index, &a) in polygon.iter().enumerate() {
        let b = polygon[(index + 1) % polygon.len()];
        if (a.1 > at.1) != (b.1 > at.1) && at.0 < (b.0 - a.0) * (at.1 - a.1) / (b.1 - a.1) + a.0 {
            odd = !odd;
        }
    }
    odd
}

/// The part of a polygon inside a convex clockwise (on screen) one: Sutherland and Hodgman's cutting, edge by edge.
#[must_use]
pub fn within(subject: &[Point], convex: &[Point]) -> Vec<Point> {
    let mut kept = subject.to_vec();
    for (index, &a) in convex.iter().enumerate() {
        let b = convex[(index + 1) % convex.len()];
        let side = |p: Point| (b.0 - a.0) * (p.1 - a.1) - (b.1 - a.1) * (p.0 - a.0);
        let input = std::mem::take(&mut kept);
        for (at, &to) in input.iter().enumerate() {
            let from = input[(at + input.len() - 1) % input.len()];
            let (start, end) = (side(from), side(to));
            if (start >= 0.0) != (end >= 0.0) {
                let share = start / (start - end);
                kept.push((from.0 + (to.0 - from.0) * share, from.1 + (to.1 - from.1) * share));
            }
            if end >= 0.0 {
                kept.push(to);
            }
        }
    }
    kept
}

/// Points along an ellipse from one angle to another, radians, clockwise on screen from the right.
#[must_use]
pub fn arc(centre: Point, radii: Point, from: f64, to: f64) -> Vec<Point> {
    let reach = radii.0.max(radii.1) * (to - from).abs();
    let steps = (reach / 2.0).ceil().clamp(12.0, 720.0) as usize;
    (0..=steps)
        .map(|step| {
            let angle = from + (to - from) * step as f64 / steps as f64;
            (centre.0 + radii.0 * libm::cos(angle), centre.1 + radii.1 * libm::sin(angle))
        })
        .collect()
}

/// Points along a cubic Bezier curve.
#[must_use]
pub fn bezier(a: Point, b: Point, c: Point, d: Point) -> Vec<Point> {
    const STEPS: usize = 24;
    (0..=STEPS)
        .map(|step| {
            let t = step as f64 / STEPS as f64;
            let s = 1.0 - t;
            let mix = |a: f64, b: f64, c: f64, d: f64| {
                s * s * s * a + 3.0 * s * s * t * b + 3.0 * s * t * t * c + t * t * t * d
            };
            (mix(a.0, b.0, c.0, d.0), mix(a.1, b.1, c.1, d.1))
        })
        .collect()
}

/// A smooth line through points that never leaves the range of two neighbours (monotone cubic, Fritsch and Carlson 1980).
#[must_use]
pub fn smooth(points: &[Point]) -> Vec<Point> {
    if points.len() < 3 {
        return points.to_vec();
    }
    const STEPS: usize = 6;
    let slopes = monotone_slopes(points);
    let mut found = vec![points[0]];
    for (index, pair) in points.windows(2).enumerate() {
        let (a, b, run) = (pair[0], pair[1], pair[1].0 - pair[0].0);
        for step in 1..=STEPS {
            let t = step as f64 / STEPS as f64;
            let (t2, t3) = (t * t, t * t * t);
            let y = (2.0 * t3 - 3.0 * t2 + 1.0) * a.1
                + (t3 - 2.0 * t2 + t) * run * slopes[index]
                + (3.0 * t2 - 2.0 * t3) * b.1
                + (t3 - t2) * run * slopes[index + 1];
            found.push((a.0 + run * t, y));
        }
    }
    found
}

fn monotone_slopes(points: &[Point]) -> Vec<f64> {
    let secant: Vec<f64> = points.windows(2).map(|p| (p[1].1 - p[0].1) / (p[1].0 - p[0].0).max(1e-9)).collect();
    let last = secant.len() - 1;
    (0..points.len())
        .map(|index| {
            let (before, after) = (secant[index.saturating_sub(1)], secant[index.min(last)]);
            if before * after <= 0.0 {
                0.0
            } else {
                // The harmonic mean keeps the curve between its points.
                2.0 * before * after / (before + after)
            }
        })
        .collect()
}
