//! Owns what lies apart within a cell: the covered part of a piece's cells, its trace after lifting, and what a gun shows of it.

use super::{FADED_K, Hearth, Lying};
use crate::demand::BakeLaw;

impl Hearth<'_> {
    /// Footprint mean over the room, K. Cells at the rim are covered in part; the covered part differs from its cell by the
    /// contrast times the part left bare.
    pub(super) fn footprint_k(&self, cover: &[(usize, f64)], contrast_k: f64) -> f64 {
        let faces = self.faces_over_k();
        let (mut sum, mut area) = (0.0, 0.0);
        for &(i, a) in cover {
            sum += a * (faces[i] + (1.0 - a / self.build.cell_area_m2[i]) * contrast_k);
            area += a;
        }
        sum / area
    }

    /// How much cooler the covered part of a piece's cells is than the bare part, K (below zero under food).
    pub(super) fn contrast_of(&self, piece: &Lying) -> f64 {
        piece.contrast.map_or(0.0, |slot| self.contrast.row_k(0)[slot])
    }

    /// What a gun would show of a spot, K above the room: footprint mean, with the trace of the piece that lay there last.
    #[must_use]
    pub fn spot_k(&self, cover: &[(usize, f64)]) -> f64 {
        let trace = self.resting.iter().find(|piece| piece.cover == cover);
        self.footprint_k(cover, trace.map_or(0.0, |piece| self.contrast_of(piece)))
    }

    /// A lifted piece leaves its trace on the floor until that has faded.
    pub fn rest(&mut self, piece: Lying) {
        if piece.contrast.is_some() {
            self.resting.push(piece);
        }
    }

    /// Gives each new piece a column of contrast: that of the trace it lies on exactly, or one that begins at nothing.
    pub(super) fn give_contrast(&mut self, lying: &mut [Lying]) {
        for piece in lying.iter_mut().filter(|piece| piece.contrast.is_none()) {
            if let Some(at) = self.resting.iter().position(|trace| trace.cover == piece.cover) {
                piece.contrast = self.resting.remove(at).contrast;
            }
        }
        let faded: Vec<f64> = self.resting.iter().map(|trace| self.contrast_of(trace).abs()).collect();
        let mut faded = faded.iter();
        self.resting.retain(|_| faded.next().is_some_and(|&k| k > FADED_K));
        self.contrast.make_room(lying.len() + self.resting.len());
        let mut taken: Vec<bool> = vec![false; self.contrast.count()];
        for slot in lying.iter().chain(&self.resting).filter_map(|piece| piece.contrast) {
            taken[slot] = true;
        }
        for piece in lying.iter_mut().filter(|piece| piece.contrast.is_none()) {
            if let Some(slot) = taken.iter().position(|&t| !t) {
                taken[slot] = true;
                self.contrast.clear(slot);
                piece.contrast = Some(slot);
            }
        }
    }

    /// Takes note of what lies on the floor; call whenever that changes.
    pub fn lay(&mut self, lying: &mut [Lying], laws: &[BakeLaw]) {
        self.give_contrast(lying);
        let cells = self.build.plan.cells.len();
        self.covered = vec![0.0; cells];
        let mut absorptivity = vec![0.0; cells];
        for piece in lying.iter() {
            let top = laws[piece.dish].top_absorptivity();
            for &(i, area) in &piece.cover {
                let share = area / self.build.cell_area_m2[i];
                self.covered[i] += share;
                absorptivity[i] += share * top;
            }
        }
        for (a, covered) in absorptivity.iter_mut().zip(&self.covered) {
            *a += (1.0 - covered) * self.emissivity;
        }
        self.enclosure.cover(&absorptivity);
    }
}
