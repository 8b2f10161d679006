//! Owns whether one piece can lie on the floor beside the fire, in plan, with the fire bed cut off straight along its side.

use std::f64::consts::PI;

/// Halvings of the search for the bed's edge; 60 reach the last bit.
const HALVINGS: u32 = 60;

/// Outline of one piece, cm.
#[derive(Clone, Copy, Debug)]
pub(super) enum Size {
    /// A disk of this diameter.
    Round(f64),
    /// Width across, depth along.
    Rectangle(f64, f64),
}

impl Size {
    /// Area, cm2.
    pub(super) fn area(self) -> f64 {
        match self {
            Self::Round(across) => PI * across * across / 4.0,
            Self::Rectangle(wide, deep) => wide * deep,
        }
    }

    /// For a sentence.
    pub(super) fn says(self) -> String {
        match self {
            Self::Round(across) => format!("a round of {across} cm"),
            Self::Rectangle(wide, deep) => format!("{wide} by {deep} cm"),
        }
    }
}

/// A floor in plan, cm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Floor {
    /// A rectangle; else a circle or an ellipse.
    pub rectangle: bool,
    /// Across.
    pub width: f64,
    /// Along.
    pub depth: f64,
    /// Share of the area under the fire.
    pub bed_share: f64,
    /// Fire at the rear; else at a side.
    pub bed_at_rear: bool,
}

impl Floor {
    /// Free extent across and along, beside the bed.
    pub(super) fn free(self) -> (f64, f64) {
        let left = 1.0 - if self.rectangle { self.bed_share } else { segment_height(self.bed_share) };
        if self.bed_at_rear { (self.width, self.depth * left) } else { (self.width * left, self.depth) }
    }

    /// Whether one piece fits. Exact for rectangles on every floor and for rounds on circles and rectangles; for a round on an
    /// ellipse it asks only that neither extent is too small.
    pub(super) fn takes(self, piece: Size) -> bool {
        let (wide, deep) = self.free();
        match piece {
            Size::Round(across) => across <= wide && across <= deep,
            Size::Rectangle(w, d) if self.rectangle => w <= wide && d <= deep,
            Size::Rectangle(w, d) => {
                // Scaled to a circle of diameter one; `cut` lies across the extent the bed shortens.
                let (cut, along) =
                    if self.bed_at_rear { (d / self.depth, w / self.width) } else { (w / self.width, d / self.depth) };
                let edge = segment_height(self.bed_share) - 0.5;
                let near = edge.max(-cut / 2.0);
                let far = near.abs().max((near + cut).abs());
                far * far + along * along / 4.0 <= 0.25
            }
        }
    }
}

/// Height of the segment that holds this share of a circle's area, as a share of its diameter.
///
/// Share of area (theta - sin theta) / 2 pi at height (1 - cos(theta / 2)) / 2; theta by bisection, exact to the last bits.
fn segment_height(share: f64) -> f64 {
    let (mut low, mut high) = (0.0, 2.0 * PI);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if (middle - libm::sin(middle)) / (2.0 * PI) < share {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (1.0 - libm::cos(0.25 * (low + high)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_the_area_is_half_the_height() {
        assert!((segment_height(0.5) - 0.5).abs() < 1e-12);
        // A quarter: height 0.298 diameters (area of a circular segment, any table of mathematical functions).
        assert!((segment_height(0.25) - 0.298).abs() < 5e-4);
    }

    #[test]
    fn a_square_in_a_circle_has_the_circle_as_its_diagonal() {
        let floor = Floor { rectangle: false, width: 100.0, depth: 100.0, bed_share: 0.0, bed_at_rear: false };
        assert!(floor.takes(Size::Rectangle(70.7, 70.7)));
        assert!(!floor.takes(Size::Rectangle(70.8, 70.8)));
        assert!(floor.takes(Size::Round(100.0)) && !floor.takes(Size::Round(100.1)));
    }
}
