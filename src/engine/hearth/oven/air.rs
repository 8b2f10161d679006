//! Owns the step's air: the inflow over the floor, the doorway's flow, and the hot layer's balance.

use super::{Breeze, FLOW_EVERY_S, FLOW_HEAT_SHARE, FLOW_LAYER_K, Hearth, Lying, black};
use crate::demand::BakeLaw;
use crate::hearth::build::BANDS;
use crate::hearth::chamber::{LayerBalance, dome_film_w_m2_k, free_film_w_m2_k, march};
use crate::hearth::enclosure::Light;
use crate::hearth::fire::Heat;
use crate::hearth::flow::{Flow, Plume, settle};
use crate::matter::smoke;
use crate::units::ZERO_C_K;

impl Hearth<'_> {
    /// The inflow's march over floor and tops, K above the room throughout.
    pub(super) fn march(&self, lying: &[Lying], laws: &[BakeLaw], tops_over_k: &[f64]) -> Vec<Breeze> {
        let film = self.floor_film_w_m2_k;
        let mut bands = [(0.0, 0.0); BANDS];
        let mut put = |cell: usize, conductance: f64, over_k: f64| {
            let (band, share) = self.build.bands[cell];
            for (band, share) in [(band, share), (band + 1, 1.0 - share)] {
                bands[band].0 += share * conductance;
                bands[band].1 += share * conductance * over_k;
            }
        };
        for (i, (bare_m2, over_k)) in self.bare_m2.iter().zip(&self.bare_k).enumerate() {
            put(i, film * bare_m2, *over_k);
        }
        for (piece, &top) in lying.iter().zip(tops_over_k) {
            let film = film * laws[piece.dish].top_convective_factor();
            piece.cover.iter().for_each(|&(i, area)| put(i, film * area, top));
        }
        let cp = smoke::air(self.room_c()).cp_j_kg_k;
        let air = march(0.0, self.moment.flow.in_kg_s, cp, &bands);
        // A cell between two bands has its part of both: of the film, and of film times air.
        let breeze = |&(band, share): &(usize, f64)| {
            let (near, far) = (&air[band], &air[band + 1]);
            let (by_near, by_far) = (share * near.effectiveness, (1.0 - share) * far.effectiveness);
            let both = by_near + by_far;
            let over_k = if both > 0.0 { (by_near * near.air_in_k + by_far * far.air_in_k) / both } else { 0.0 };
            Breeze { over_k, film_w_m2_k: film * both }
        };
        self.build.bands.iter().map(breeze).collect()
    }

    /// Heat the inflow takes from floor and tops, W.
    pub(super) fn film_heat(&self, lying: &[Lying], laws: &[BakeLaw], tops_over_k: &[f64], air: &[Breeze]) -> f64 {
        let bare = self.bare_m2.iter().zip(&self.bare_k).zip(air);
        let bare: f64 = bare.map(|((bare_m2, k), air)| air.film_w_m2_k * bare_m2 * (k - air.over_k)).sum();
        let tops = lying.iter().zip(tops_over_k).map(|(piece, &top)| {
            let factor = laws[piece.dish].top_convective_factor();
            let taken = piece.cover.iter().map(|&(i, area)| air[i].film_w_m2_k * area * (top - air[i].over_k));
            factor * taken.sum::<f64>()
        });
        bare + tops.sum::<f64>()
    }

    /// Works out doorway and layer anew when what drives them has changed.
    pub(super) fn refresh_flow(&mut self, heat: &Heat, plume_w: f64) {
        let gas_k = self.moment.gas_k;
        if let Some(leak) = self.closed_leak_kg_s {
            self.moment.flow = Flow { in_kg_s: leak, out_kg_s: leak + heat.gas_kg_s, ..Flow::default() };
        } else {
            let (at, drove, was_k) = self.flow_for;
            let changed =
                (plume_w - drove).abs() > FLOW_HEAT_SHARE * drove.abs() || (gas_k - was_k).abs() > FLOW_LAYER_K;
            if !self.build.accuracy.flow_every_step && self.time_s - at < FLOW_EVERY_S - 1e-6 && !changed {
                return;
            }
            let plume = Plume {
                convective_w: plume_w.max(0.0),
                flame_w: heat.flame_w,
                bed_diameter_m: self.build.bed_diameter_m,
                factor: self.build.entrainment_factor,
            };
            self.moment.flow = settle(&self.build.doorway, gas_k, &plume, heat.gas_kg_s);
        }
        self.flow_for = (self.time_s, plume_w, gas_k);
        let room_k = self.build.doorway.room_k;
        let factor = self.build.film_factor;
        self.floor_film_w_m2_k = factor * free_film_w_m2_k(self.food_floor_c() + ZERO_C_K, room_k);
        self.dome_film_w_m2_k = factor * dome_film_w_m2_k(self.dome_over_k() + room_k, gas_k);
    }

    pub(super) fn layer_balance(&self, dark: &Light, plume_w: f64) -> LayerBalance {
        let room_k = self.build.doorway.room_k;
        let film = self.dome_film_w_m2_k;
        let areas = &self.build.patch_area_m2;
        LayerBalance {
            plume_w,
            dark_gain_w: dark.smoke_w,
            unit_gain_m2: self.enclosure.unit().smoke_w,
            dome_w_k: film * areas.iter().sum::<f64>(),
            dome_weighted_w: film * areas.iter().zip(self.dome.faces_k()).map(|(a, t)| a * (t + room_k)).sum::<f64>(),
            out_kg_s: self.moment.flow.out_kg_s,
            room_c: self.room_c(),
        }
    }

    /// What arrives with the smoke at its temperature.
    pub(super) fn lit(&self, mut dark: Light, gas_k: f64) -> Light {
        let e = black(gas_k, 0.0);
        let unit = self.enclosure.unit();
        for (h, u) in dark.cell_w_m2.iter_mut().zip(&unit.cell_w_m2) {
            *h += e * u;
        }
        for (h, u) in dark.patch_w_m2.iter_mut().zip(&unit.patch_w_m2) {
            *h += e * u;
        }
        dark.door_w_m2 += e * unit.door_w_m2;
        dark.smoke_w += e * unit.smoke_w;
        dark
    }
}
