//! Owns the plane figures of a floor: exact areas of a disk or ellipse inside boxes, chords, and the region left to the food.

/// Area and first moments of a plane part.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Part {
    /// Area, m2.
    pub area_m2: f64,
    /// Area times the centroid's x, m3.
    pub moment_x_m3: f64,
    /// Area times the centroid's y, m3.
    pub moment_y_m3: f64,
}

impl Part {
    /// The sum of two parts.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self {
            area_m2: self.area_m2 + other.area_m2,
            moment_x_m3: self.moment_x_m3 + other.moment_x_m3,
            moment_y_m3: self.moment_y_m3 + other.moment_y_m3,
        }
    }

    fn scaled(self, sx: f64, sy: f64) -> Self {
        Self {
            area_m2: self.area_m2 * sx * sy,
            moment_x_m3: self.moment_x_m3 * sx * sy * sx,
            moment_y_m3: self.moment_y_m3 * sx * sy * sy,
        }
    }
}

/// A box with its sides along the axes, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rect {
    /// Left side.
    pub x0: f64,
    /// Right side.
    pub x1: f64,
    /// Front side.
    pub y0: f64,
    /// Rear side.
    pub y1: f64,
}

impl Rect {
    /// A box of the given full width and depth around a middle.
    #[must_use]
    pub fn around(x: f64, y: f64, width: f64, depth: f64) -> Self {
        Self { x0: x - width / 2.0, x1: x + width / 2.0, y0: y - depth / 2.0, y1: y + depth / 2.0 }
    }

    /// Its area, m2 (zero when turned inside out).
    #[must_use]
    pub fn area_m2(&self) -> f64 {
        (self.x1 - self.x0).max(0.0) * (self.y1 - self.y0).max(0.0)
    }

    /// The part common to two boxes.
    #[must_use]
    pub fn common(&self, other: &Self) -> Self {
        Self {
            x0: self.x0.max(other.x0),
            x1: self.x1.min(other.x1),
            y0: self.y0.max(other.y0),
            y1: self.y1.min(other.y1),
        }
    }

    fn part(&self) -> Part {
        let area = self.area_m2();
        Part {
            area_m2: area,
            moment_x_m3: area * (self.x0 + self.x1) / 2.0,
            moment_y_m3: area * (self.y0 + self.y1) / 2.0,
        }
    }
}

/// The unit disk's part in a box of the first quadrant (0 <= x0 <= x1, 0 <= y0 <= y1), by elementary integrals.
fn quadrant(x0: f64, x1: f64, y0: f64, y1: f64) -> Part {
    if x0 * x0 + y0 * y0 >= 1.0 || x1 <= x0 || y1 <= y0 {
        return Part::default();
    }
    // The arc leaves the box's floor at x_end and its ceiling at x_mid.
    let x_end = x1.min((1.0 - y0 * y0).max(0.0).sqrt());
    let x_ceiling = if y1 < 1.0 { (1.0 - y1 * y1).sqrt() } else { 0.0 };
    let x_mid = x_ceiling.max(x0).min(x_end);
    let under_arc = |x: f64| {
        let x = x.min(1.0);
        (x * (1.0 - x * x).max(0.0).sqrt() + libm::asin(x)) / 2.0
    };
    let cubed_chord = |x: f64| {
        let s = (1.0 - x * x).max(0.0);
        s * s.sqrt()
    };
    let arc = x_end - x_mid;
    let arc_x = (x_end * x_end - x_mid * x_mid) / 2.0;
    Part {
        area_m2: (y1 - y0) * (x_mid - x0) + (under_arc(x_end) - under_arc(x_mid) - y0 * arc).max(0.0),
        moment_x_m3: (y1 - y0) * (x_mid * x_mid - x0 * x0) / 2.0 + (cubed_chord(x_mid) - cubed_chord(x_end)) / 3.0
            - y0 * arc_x,
        moment_y_m3: (y1 * y1 - y0 * y0) * (x_mid - x0) / 2.0
            + ((1.0 - y0 * y0) * arc - (x_end * x_end * x_end - x_mid * x_mid * x_mid) / 3.0) / 2.0,
    }
}

/// The part of the unit disk around the origin that lies in a box: the box is cut at the axes, so mirrored boxes give equal bits.
#[must_use]
pub fn unit_disk_in(b: &Rect) -> Part {
    let half = |y0: f64, y1: f64, up: f64| {
        let right = quadrant(b.x0.max(0.0), b.x1.max(0.0), y0, y1);
        let left = quadrant((-b.x1).max(0.0), (-b.x0).max(0.0), y0, y1);
        Part {
            area_m2: left.area_m2 + right.area_m2,
            moment_x_m3: right.moment_x_m3 - left.moment_x_m3,
            moment_y_m3: up * (left.moment_y_m3 + right.moment_y_m3),
        }
    };
    half(b.y0.max(0.0), b.y1.max(0.0), 1.0).and(half((-b.y1).max(0.0), (-b.y0).max(0.0), -1.0))
}

/// Exact area common to a disk and a box, m2.
#[must_use]
pub fn disk_in_rect_m2(radius_m: f64, x: f64, y: f64, b: &Rect) -> f64 {
    if radius_m <= 0.0 {
        return 0.0;
    }
    let unit = Rect {
        x0: (b.x0 - x) / radius_m,
        x1: (b.x1 - x) / radius_m,
        y0: (b.y0 - y) / radius_m,
        y1: (b.y1 - y) / radius_m,
    };
    unit_disk_in(&unit).area_m2 * radius_m * radius_m
}

/// The floor's outline: an ellipse (a circle when both halves are equal) or a rectangle around the origin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FloorOutline {
    /// True for circle and oval, false for the rectangle.
    pub oval: bool,
    /// Half the width, m.
    pub half_width_m: f64,
    /// Half the depth, m.
    pub half_depth_m: f64,
}

impl FloorOutline {
    /// Its area, m2.
    #[must_use]
    pub fn area_m2(&self) -> f64 {
        let box_quarter = self.half_width_m * self.half_depth_m;
        if self.oval { core::f64::consts::PI * box_quarter } else { 4.0 * box_quarter }
    }

    /// Whether a point lies inside or on it.
    #[must_use]
    pub fn contains(&self, x: f64, y: f64) -> bool {
        let (u, v) = (x / self.half_width_m, y / self.half_depth_m);
        if self.oval { u * u + v * v <= 1.0 } else { u.abs() <= 1.0 && v.abs() <= 1.0 }
    }

    /// Half the chord across (along x) at this y, m; zero outside.
    #[must_use]
    pub fn half_across(&self, y: f64) -> f64 {
        half_chord(self.oval, y / self.half_depth_m) * self.half_width_m
    }

    /// Half the chord along (along y) at this x, m; zero outside.
    #[must_use]
    pub fn half_along(&self, x: f64) -> f64 {
        half_chord(self.oval, x / self.half_width_m) * self.half_depth_m
    }

    /// The outline's part inside a box, exactly.
    #[must_use]
    pub fn part_in(&self, b: &Rect) -> Part {
        let (w, d) = (self.half_width_m, self.half_depth_m);
        if self.oval {
            unit_disk_in(&Rect { x0: b.x0 / w, x1: b.x1 / w, y0: b.y0 / d, y1: b.y1 / d }).scaled(w, d)
        } else {
            b.common(&Rect { x0: -w, x1: w, y0: -d, y1: d }).part()
        }
    }

    /// The nearest point of an oval's rim to (x, y), m: the foot of the normal, found by walking along the centres of
    /// curvature (square roots only; six steps leave under 1e-9 of the size for ovals up to 1:2).
    #[must_use]
    pub fn rim_foot(&self, x: f64, y: f64) -> (f64, f64) {
        let (a, b) = (self.half_width_m, self.half_depth_m);
        let (px, py) = (x.abs(), y.abs());
        let (mut tx, mut ty) = (core::f64::consts::FRAC_1_SQRT_2, core::f64::consts::FRAC_1_SQRT_2);
        for _ in 0..6 {
            let ex = (a * a - b * b) * tx * tx * tx / a;
            let ey = (b * b - a * a) * ty * ty * ty / b;
            let (rx, ry) = (a * tx - ex, b * ty - ey);
            let (qx, qy) = (px - ex, py - ey);
            let r = (rx * rx + ry * ry).sqrt();
            let q = (qx * qx + qy * qy).sqrt();
            if q <= 0.0 {
                break;
            }
            tx = ((qx * r / q + ex) / a).clamp(0.0, 1.0);
            ty = ((qy * r / q + ey) / b).clamp(0.0, 1.0);
            let t = (tx * tx + ty * ty).sqrt();
            tx /= t;
            ty /= t;
        }
        (if x < 0.0 { -a * tx } else { a * tx }, if y < 0.0 { -b * ty } else { b * ty })
    }
}

fn half_chord(oval: bool, u: f64) -> f64 {
    if u.abs() > 1.0 {
        0.0
    } else if oval {
        (1.0 - u * u).sqrt()
    } else {
        1.0
    }
}

/// Where food may lie: the outline without the fire's bed. Inside, the fire lies on the left or at the rear.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Region {
    /// The floor's outline.
    pub outline: FloorOutline,
    /// Leftmost x food may reach, m (minus infinity without a bed on the left).
    pub least_x_m: f64,
    /// Rearmost y food may reach, m (infinity without a bed at the rear).
    pub most_y_m: f64,
}

impl Region {
    /// The whole outline, with no fire in it.
    #[must_use]
    pub fn whole(outline: FloorOutline) -> Self {
        Self { outline, least_x_m: f64::NEG_INFINITY, most_y_m: f64::INFINITY }
    }

    /// The box around it.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        let (w, d) = (self.outline.half_width_m, self.outline.half_depth_m);
        Rect { x0: self.least_x_m.max(-w), x1: w, y0: -d, y1: self.most_y_m.min(d) }
    }

    /// Its area, m2.
    #[must_use]
    pub fn area_m2(&self) -> f64 {
        self.outline.part_in(&self.bounds()).area_m2
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Area and moments by a fine midpoint sum: a method of its own against the closed integrals.
    fn by_sum(b: &Rect) -> Part {
        let n = 1500;
        let (dx, dy) = ((b.x1 - b.x0) / f64::from(n), (b.y1 - b.y0) / f64::from(n));
        let mut p = Part::default();
        for i in 0..n {
            for j in 0..n {
                let (x, y) = (b.x0 + (f64::from(i) + 0.5) * dx, b.y0 + (f64::from(j) + 0.5) * dy);
                if x * x + y * y < 1.0 {
                    p = p.and(Part { area_m2: dx * dy, moment_x_m3: x * dx * dy, moment_y_m3: y * dx * dy });
                }
            }
        }
        p
    }

    #[test]
    fn disk_in_box_agrees_with_a_midpoint_sum() {
        for b in [
            Rect { x0: -0.3, x1: 0.9, y0: 0.2, y1: 1.4 },
            Rect { x0: 0.5, x1: 0.9, y0: 0.5, y1: 0.9 },
            Rect { x0: -2.0, x1: 0.1, y0: -0.8, y1: -0.1 },
            Rect { x0: 0.6, x1: 0.9, y0: -0.3, y1: 0.4 },
        ] {
            let (exact, sum) = (unit_disk_in(&b), by_sum(&b));
            assert!((exact.area_m2 - sum.area_m2).abs() < 3e-4, "{b:?} {exact:?} {sum:?}");
            assert!((exact.moment_x_m3 - sum.moment_x_m3).abs() < 3e-4, "{b:?} {exact:?} {sum:?}");
            assert!((exact.moment_y_m3 - sum.moment_y_m3).abs() < 3e-4, "{b:?} {exact:?} {sum:?}");
        }
    }

    #[test]
    fn whole_disk_is_pi() {
        let all = unit_disk_in(&Rect { x0: -3.0, x1: 3.0, y0: -3.0, y1: 3.0 });
        assert!((all.area_m2 - core::f64::consts::PI).abs() < 1e-15);
        assert!(all.moment_x_m3.abs() < 1e-15 && all.moment_y_m3.abs() < 1e-15);
    }

    #[test]
    fn rim_foot_is_where_the_normal_meets_the_point() {
        let oval = FloorOutline { oval: true, half_width_m: 0.5, half_depth_m: 0.8 };
        for (x, y) in [(0.1, 0.2), (-0.3, 0.5), (0.02, -0.7), (0.45, 0.01), (0.0, 0.3)] {
            let (fx, fy) = oval.rim_foot(x, y);
            assert!((fx * fx / 0.25 + fy * fy / 0.64 - 1.0).abs() < 1e-12);
            // Brute force over the rim: nothing is nearer.
            let foot = ((fx - x) * (fx - x) + (fy - y) * (fy - y)).sqrt();
            for i in 0..20_000 {
                let t = f64::from(i) * core::f64::consts::TAU / 20_000.0;
                let (rx, ry) = (0.5 * libm::cos(t) - x, 0.8 * libm::sin(t) - y);
                assert!((rx * rx + ry * ry).sqrt() > foot - 1e-7, "({x}, {y}) at {t}");
            }
        }
    }
}
