//! Owns the step's heat into stone: faces of floor and dome, bases and tops of food, wipes, and conduction.

use super::{Breeze, Hearth, Lying, SIDEWAYS_EVERY_S, WIPE_W_M2_K, black};
use crate::demand::{BOIL_C, BOIL_J_KG, BakeLaw};
use crate::hearth::burner::Output;
use crate::hearth::enclosure::Light;
use crate::hearth::fire::{COAL_DOWN_SHARE, COAL_RADIANT_SHARE, Heat, SPREAD_DOWN_SHARE};
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
        let states = self.bare_k.iter().zip(&self.covered).zip(&light.cell_w_m2).zip(air);
        for (flux, (((&k, covered), lit), air)) in self.floor_flux.iter_mut().zip(states) {
            let radiation = self.emissivity * (lit - black(k, room_k));
            *flux = (1.0 - covered) * (radiation - air.film_w_m2_k * (k - air.over_k));
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
        let answer_k_m2_w = if lying.is_empty() { 0.0 } else { self.floor.answer_k_m2_w(0.5 * step_s) };
        let mut given_w_m2 = Vec::with_capacity(lying.len());
        for (n, (piece, &top)) in lying.iter_mut().zip(tops_over_k).enumerate() {
            let law = &laws[piece.dish];
            let (absorptivity, sent) = (law.top_absorptivity(), black(top, room_k));
            let factor = law.top_convective_factor();
            let under_k = self.under_k[n];
            let emitted = black(under_k, room_k);
            let (mut top_w, mut bare_w_m2) = (0.0, 0.0);
            for &(i, area) in &piece.cover {
                let lit = absorptivity * (light.cell_w_m2[i] - sent);
                top_w += area * (lit - factor * air[i].film_w_m2_k * (top - air[i].over_k));
            }
            for &(i, weight) in &self.build.places.all[piece.place].reads {
                let cooled = air[i].film_w_m2_k * (under_k - air[i].over_k);
                bare_w_m2 += weight * (self.emissivity * (light.cell_w_m2[i] - emitted) - cooled);
            }
            // The face gives way while the step lasts: what it gives is taken at the middle of the step, where it stands by what
            // it gives now instead of what it gave, or got, before.
            let contact = law.base_contact(piece.base_j / piece.area_m2);
            let gave_w_m2 = piece.gave_w_m2.unwrap_or(-bare_w_m2);
            let yields = contact.conductance_w_m2_k * answer_k_m2_w;
            let base_w_m2 = (contact.flux_w_m2(under_k + room_c) + yields * gave_w_m2) / (1.0 + yields);
            piece.gave_w_m2 = Some(base_w_m2);
            for &(i, area) in &piece.cover {
                self.floor_flux[i] -= base_w_m2 * area / self.build.cell_area_m2[i];
            }
            let base_w = base_w_m2 * piece.area_m2;
            given_w_m2.push((piece.place, -base_w_m2 - bare_w_m2, under_k));
            piece.base_j += step_s * base_w;
            piece.top_j += step_s * top_w;
            food_j += step_s * (base_w + top_w);
        }
        self.ledger.food_j += food_j;
        let emissivity = self.emissivity;
        // The loss of what a place differs by, between two temperatures of stone, or at one.
        self.drive_traces(&given_w_m2, |over_k, bare_k, cover| {
            let (k, bare, (at, _)) = (over_k + room_k, bare_k + room_k, cover[0]);
            let secant = (k * k + bare * bare) * (k + bare);
            emissivity * STEFAN_BOLTZMANN_W_M2_K4 * secant + air[at].film_w_m2_k
        });
    }

    /// Fluxes into the dome's faces.
    pub(super) fn heat_dome(&mut self, light: &Light, gas_k: f64) {
        let room_k = self.build.doorway.room_k;
        let emissivity = self.build.net.dome_emissivity;
        for ((flux, t), h) in self.dome_flux.iter_mut().zip(self.dome.faces_k()).zip(&light.patch_w_m2) {
            *flux = emissivity * (h - black(*t, room_k)) + self.dome_film_w_m2_k * (gas_k - room_k - t);
        }
    }

    /// Water of a wipe boils off; its steam leaves by the doorway.
    pub(super) fn boil_wipe(&mut self, step_s: f64) {
        let room_c = self.room_c();
        let mut steam_j = 0.0;
        for i in 0..self.wet_kg_m2.len() {
            if self.wet_kg_m2[i] > 0.0 {
                let flux = (WIPE_W_M2_K * (self.floor.faces_k()[i] + room_c - BOIL_C)).max(0.0);
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
        let inner_w_m2 = burner.stone_w / self.build.plan.area_m2;
        self.floor.advance(step_s, &self.floor_flux, inner_w_m2, &self.build.cell_area_m2);
        self.traces.advance(step_s);
        self.dome.advance(step_s, &self.dome_flux, 0.0, &self.build.patch_area_m2);
        let sideways = self.time_s + step_s >= self.sideways_due_s - 1e-6;
        if sideways {
            self.conduct_sideways(self.time_s + step_s - self.sideways_due_s + SIDEWAYS_EVERY_S);
            self.sideways_due_s = self.time_s + step_s + SIDEWAYS_EVERY_S;
        }
        // From above the underside warms slowly: it is looked at now and then, and at every step of the burner.
        if sideways || inner_w_m2 > 0.0 {
            let under = self.floor.most_at_node_k(self.build.underside);
            self.underside_most_c = self.underside_most_c.max(under + self.room_c());
        }
    }

    /// Conduction between neighbouring columns of the stone over `span_s`, explicit: a cell changes by far less than it differs.
    pub(crate) fn conduct_sideways(&mut self, span_s: f64) {
        self.floor.spread(span_s, &self.build.passes);
    }
}
