//! Owns the step's sources of radiation: flame and coals onto each surface, and what floor, tops and dome send out.

use super::{Hearth, Lying, black};
use crate::demand::BakeLaw;
use crate::hearth::fire::{COAL_DOWN_SHARE, COAL_RADIANT_SHARE, Heat, SPREAD_DOWN_SHARE, flame_length_m};

impl Hearth<'_> {
    /// Power of flame and coals onto each surface.
    pub(super) fn shine(&mut self, heat: &Heat) {
        let (build, faces) = (self.build, &mut self.faces);
        faces.cell_source_w_m2.fill(0.0);
        faces.patch_source_w_m2.fill(0.0);
        faces.door_source_w = 0.0;
        let mut put = |source: &crate::hearth::glow::Source, power_w: f64| {
            faces.cell_source_w_m2.iter_mut().zip(&source.to_cell).for_each(|(s, per_m2)| *s += power_w * per_m2);
            faces.patch_source_w_m2.iter_mut().zip(&source.to_patch).for_each(|(s, per_m2)| *s += power_w * per_m2);
            faces.door_source_w += power_w * source.to_door;
        };
        let flame_m = flame_length_m(heat.flame_w, build.bed_diameter_m);
        let flame_w = build.flame_radiant_share * heat.flame_w;
        if flame_w > 0.0 {
            build.flame_shine(flame_m, |source, share| put(source, flame_w * share));
        }
        let spread = self.fire.is_spread();
        let up = 1.0 - if spread { SPREAD_DOWN_SHARE } else { COAL_DOWN_SHARE };
        let coal_w = COAL_RADIANT_SHARE * heat.coal_w;
        if coal_w > 0.0 {
            put(build.coal_shine(spread), up * coal_w);
        }
    }

    /// Emission of floor, tops and dome at the state the step starts from.
    pub(super) fn emit(&mut self, lying: &[Lying], laws: &[BakeLaw], tops_over_k: &[f64]) {
        let room_k = self.build.doorway.room_k;
        let emissivity = self.emissivity;
        for ((e, t), covered) in self.faces.cell_emission_w_m2.iter_mut().zip(&self.bare_k).zip(&self.covered) {
            *e = (1.0 - covered) * emissivity * black(*t, room_k);
        }
        for (piece, &top) in lying.iter().zip(tops_over_k) {
            let sent = laws[piece.dish].top_absorptivity() * black(top, room_k);
            for &(i, area) in &piece.cover {
                self.faces.cell_emission_w_m2[i] += sent * area / self.build.cell_area_m2[i];
            }
        }
        for (e, t) in self.faces.patch_black_w_m2.iter_mut().zip(self.dome.faces_k()) {
            *e = black(*t, room_k);
        }
        // A shut door gives back what it got a step ago: it keeps its own heat and passes none on.
        self.faces.door_black_w_m2 =
            if self.closed_leak_kg_s.is_some() { self.door_light_w_m2 } else { black(0.0, room_k) };
    }
}
