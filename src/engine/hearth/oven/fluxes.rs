//! Owns the step's heat into stone: faces of floor and dome, bases and tops of food, wipes, and conduction.

use super::{Breeze, Hearth, Lying, SIDEWAYS_EVERY_S, WIPE_W_M2_K, black};
use crate::demand::{BOIL_C, BOIL_J_KG, BakeLaw};
use crate::hearth::burner::Output;
use crate::hearth::enclosure::Light;
use crate::hearth::fire::{COAL_DOWN_SHARE, COAL_RADIANT_SHARE, Heat, SPREAD_DOWN_SHARE};
use crate::numerics::column::Inner;
use crate::units::STEFAN_BOLTZMANN_W_M2_K4;

impl Hearth<'_> {
    /// Fluxes into the floor's faces, and what each piece takes.
    #[allow(clippy::too_many_arguments, reason = "everything a step has worked out so far meets here")]
    pub(super) fn heat_floor(
        &mut self,
        step_s: f64,
        heat: &Heat,
        light: &Light,
        lying: &mut [Lying],
        laws: &[BakeLaw],
        tops_over_k: &[f64],
        air: &[Breeze],
    ) {
        let (room_k, room_c) = (self.build.doorway.room_k, self.room_c());
        for i in 0..self.bare_k.len() {
            let radiation = self.emissivity * (light.cell_w_m2[i] - black(self.bare_k[i], room_k));
            let cooled = air[i].film_w_m2_k * (self.bare_k[i] - air[i].over_k);
            self.floor_flux[i] = (1.0 - self.covered[i]) * (radiation - cooled);
        }
        let spread = self.fire.is_spread();
        let down_w = COAL_RADIANT_SHARE * heat.coal_w * if spread { SPREAD_DOWN_SHARE } else { COAL_DOWN_SHARE };
        let under_m2 = if spread { self.build.plan.area_m2 } else { self.build.bed_area_m2 };
        for (flux, cell) in self.floor_flux.iter_mut().zip(&self.build.plan.cells) {
            if spread || cell.under_fire {
                *flux += down_w / under_m2;
            }
        }
        let mut food_j = 0.0;
        let mut given_w_m2 = Vec::with_capacity(lying.len());
        for (n, (piece, &top)) in lying.iter_mut().zip(tops_over_k).enumerate() {
            let law = &laws[piece.dish];
            let (absorptivity, sent) = (law.top_absorptivity(), black(top, room_k));
            let factor = law.top_convective_factor();
            let under_k = self.under_k[n];
            let base_w_m2 = law.base_contact(piece.base_j / piece.area_m2).flux_w_m2(under_k + room_c);
            let emitted = black(under_k, room_k);
            let (mut top_w, mut bare_w_m2) = (0.0, 0.0);
            for &(i, area) in &piece.cover {
                self.floor_flux[i] -= base_w_m2 * area / self.build.cell_area_m2[i];
                let lit = absorptivity * (light.cell_w_m2[i] - sent);
                top_w += area * (lit - factor * air[i].film_w_m2_k * (top - air[i].over_k));
            }
            for &(i, weight) in &self.build.places.all[piece.place].reads {
                let cooled = air[i].film_w_m2_k * (under_k - air[i].over_k);
                bare_w_m2 += weight * (self.emissivity * (light.cell_w_m2[i] - emitted) - cooled);
            }
            let base_w = base_w_m2 * piece.area_m2;
            given_w_m2.push((piece.place, -base_w_m2 - bare_w_m2));
            piece.base_j += step_s * base_w;
            piece.top_j += step_s * top_w;
            food_j += step_s * (base_w + top_w);
        }
        self.ledger.food_j += food_j;
        let emissivity = self.emissivity;
        self.drive_traces(&given_w_m2, |over_k, cover| {
            let (k, (at, _)) = (over_k + room_k, cover[0]);
            4.0 * emissivity * STEFAN_BOLTZMANN_W_M2_K4 * k * k * k + air[at].film_w_m2_k
        });
    }

    /// Fluxes into the dome's faces.
    pub(super) fn heat_dome(&mut self, light: &Light, gas_k: f64) {
        let room_k = self.build.doorway.room_k;
        let emissivity = self.build.net.dome_emissivity;
        for ((flux, t), h) in self.dome_flux.iter_mut().zip(self.dome.row_k(0)).zip(&light.patch_w_m2) {
            *flux = emissivity * (h - black(*t, room_k)) + self.dome_film_w_m2_k * (gas_k - room_k - t);
        }
    }

    /// Water of a wipe boils off; its steam leaves by the doorway.
    pub(super) fn boil_wipe(&mut self, step_s: f64) {
        let room_c = self.room_c();
        let mut steam_j = 0.0;
        for i in 0..self.wet_kg_m2.len() {
            if self.wet_kg_m2[i] > 0.0 {
                let flux = (WIPE_W_M2_K * (self.floor.row_k(0)[i] + room_c - BOIL_C)).max(0.0);
                let flux = flux.min(self.wet_kg_m2[i] * BOIL_J_KG / step_s);
                self.wet_kg_m2[i] = (self.wet_kg_m2[i] - flux * step_s / BOIL_J_KG).max(0.0);
                self.floor_flux[i] -= flux;
                steam_j += step_s * flux * self.build.cell_area_m2[i];
            }
        }
        self.ledger.doorway_flow_j += steam_j;
    }

    /// Conduction through floor and dome, and now and then sideways.
    pub(super) fn conduct(&mut self, step_s: f64, burner: Output) {
        let inner = (burner.stone_w > 0.0)
            .then(|| Inner { node: self.build.underside, flux_w_m2: burner.stone_w / self.build.plan.area_m2 });
        let by_floor = self.floor.advance(step_s, &self.floor_flux, inner, &self.build.cell_area_m2);
        self.traces.advance(step_s);
        let by_dome = self.dome.advance(step_s, &self.dome_flux, None, &self.build.patch_area_m2);
        self.ledger.shell_j += by_floor + by_dome;
        if self.time_s + step_s >= self.sideways_due_s - 1e-6 {
            self.conduct_sideways(self.time_s + step_s - self.sideways_due_s + SIDEWAYS_EVERY_S);
            self.sideways_due_s = self.time_s + step_s + SIDEWAYS_EVERY_S;
        }
        let room_c = self.room_c();
        let under = self.floor.row_k(self.build.underside).iter().copied().fold(f64::NEG_INFINITY, f64::max);
        self.underside_most_c = self.underside_most_c.max(under + room_c);
    }

    /// Conduction between neighbouring columns of the stone over `span_s`, explicit: a cell changes by far less than it differs.
    pub(crate) fn conduct_sideways(&mut self, span_s: f64) {
        let grid = self.floor.grid().clone();
        for node in 0..=self.build.underside {
            let near = if node == 0 { 0.0 } else { grid.depth_m[node - 1] };
            let far = if node == self.build.underside { grid.depth_m[node] } else { grid.depth_m[node + 1] };
            let thickness_m = 0.5 * (far - near);
            let per_k = self.build.stone.k_w_m_k * thickness_m * span_s;
            let row = self.floor.row_mut_k(node);
            let before: Vec<f64> = row.to_vec();
            for edge in &self.build.plan.edges {
                let moved_j = per_k * edge.length_m / edge.distance_m * (before[edge.a] - before[edge.b]);
                row[edge.a] -= moved_j / (self.build.cell_area_m2[edge.a] * grid.capacity_j_m2_k[node]);
                row[edge.b] += moved_j / (self.build.cell_area_m2[edge.b] * grid.capacity_j_m2_k[node]);
            }
        }
    }
}
