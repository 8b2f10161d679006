//! Owns the air in the oven: the cold inflow that marches over the floor to the fire, and the hot layer under the dome.

use crate::matter::smoke;
use crate::numerics::root::bisect;
use crate::units::{GRAVITY_M_S2, STEFAN_BOLTZMANN_W_M2_K4, ZERO_C_K};

/// Turbulent free convection over a hot plate facing up, Nu = 0.15 Ra^(1/3): McAdams, Heat Transmission, 3rd ed.
const MCADAMS: f64 = 0.15;
/// The fire's jet under the dome stirs the layer more than free convection would. From memory (1-3).
const DOME_JET_FACTOR: f64 = 1.5;
/// Least difference the film is worked out for, K: below it the film hardly matters.
const LEAST_DIFFERENCE_K: f64 = 1.0;
/// The hottest a layer is looked for, K: above the adiabatic flame of dry wood.
const HOTTEST_K: f64 = 2400.0;

/// Film between a surface and air by free convection, W/(m2 K).
#[must_use]
pub fn free_film_w_m2_k(surface_k: f64, air_k: f64) -> f64 {
    let film_k = 0.5 * (surface_k + air_k);
    let film = smoke::air(film_k - ZERO_C_K);
    let difference = (surface_k - air_k).abs().max(LEAST_DIFFERENCE_K);
    let nu = film.viscosity_pa_s / film.density_kg_m3;
    let grashof_prandtl = GRAVITY_M_S2 / film_k * difference * film.prandtl / (nu * nu);
    MCADAMS * film.k_w_m_k * libm::cbrt(grashof_prandtl)
}

/// Film between the layer and the dome, W/(m2 K).
#[must_use]
pub fn dome_film_w_m2_k(dome_k: f64, gas_k: f64) -> f64 {
    DOME_JET_FACTOR * free_film_w_m2_k(dome_k, gas_k)
}

/// One band of the inflow's way: air comes in at one temperature and leaves nearer to the surfaces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Air coming in, K.
    pub air_in_k: f64,
    /// The film times this is what counts against the incoming air: (1 - e^-NTU)/NTU.
    pub effectiveness: f64,
}

/// Marches the inflow over bands of surfaces given as (film conductance W/K, conductance x surface temperature W), doorway
/// first. T_out = T_f - (T_f - T_in) e^-NTU.
pub fn march(air_k: f64, inflow_kg_s: f64, cp_j_kg_k: f64, bands: &[(f64, f64)]) -> Vec<Band> {
    let mut air_in_k = air_k;
    let capacity = inflow_kg_s * cp_j_kg_k;
    bands
        .iter()
        .map(|&(conductance, weighted)| {
            if conductance <= 0.0 || capacity <= 0.0 {
                return Band { air_in_k, effectiveness: 0.0 };
            }
            let ntu = conductance / capacity;
            let taken = -libm::expm1(-ntu);
            let band = Band { air_in_k, effectiveness: taken / ntu };
            air_in_k += (weighted / conductance - air_in_k) * taken;
            band
        })
        .collect()
}

/// What the layer's balance is made of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LayerBalance {
    /// Heat carried up by the plume: fire and what the floor gave the inflow, W.
    pub plume_w: f64,
    /// Net radiation gained with black smoke of no temperature, W.
    pub dark_gain_w: f64,
    /// Radiation gained by each W/m2 of the smoke's own black emission (below zero), m2.
    pub unit_gain_m2: f64,
    /// Film conductance to the dome, W/K.
    pub dome_w_k: f64,
    /// The same times the patches' temperatures, W.
    pub dome_weighted_w: f64,
    /// Out of the doorway, kg/s.
    pub out_kg_s: f64,
    /// The room, degC.
    pub room_c: f64,
}

impl LayerBalance {
    /// Heat with what leaves at a layer temperature, W.
    #[must_use]
    pub fn out_w(&self, gas_k: f64) -> f64 {
        self.out_kg_s * smoke::enthalpy_j_kg(gas_k - ZERO_C_K, self.room_c)
    }

    /// All that passes through the layer at a temperature, W: the measure its surplus is held against.
    #[must_use]
    pub fn passing_w(&self, gas_k: f64) -> f64 {
        self.plume_w.abs() + self.dark_gain_w.abs() + (self.dome_w_k * gas_k).abs() + self.out_w(gas_k).abs()
    }

    /// Gain less loss of the layer at a temperature, W; falls as it rises.
    #[must_use]
    pub fn surplus_w(&self, gas_k: f64) -> f64 {
        let square = gas_k * gas_k;
        self.plume_w + self.dark_gain_w + self.unit_gain_m2 * STEFAN_BOLTZMANN_W_M2_K4 * square * square
            - self.dome_w_k * gas_k
            + self.dome_weighted_w
            - self.out_w(gas_k)
    }

    /// The layer's temperature, K: the layer holds next to no heat itself, so it settles at once. Newton from `guess_k`, with
    /// bisection where that strays.
    #[must_use]
    pub fn settle_k(&self, guess_k: f64) -> f64 {
        let mut gas_k = guess_k;
        for _ in 0..25 {
            let cp = smoke::air(gas_k - ZERO_C_K).cp_j_kg_k;
            let radiated = 4.0 * self.unit_gain_m2 * STEFAN_BOLTZMANN_W_M2_K4 * gas_k * gas_k * gas_k;
            let slope = radiated - self.dome_w_k - self.out_kg_s * cp;
            let next = gas_k - self.surplus_w(gas_k) / slope;
            if !(next > 200.0 && next < HOTTEST_K) {
                break;
            }
            if (next - gas_k).abs() < 1e-10 * gas_k {
                return next;
            }
            gas_k = next;
        }
        bisect(200.0, HOTTEST_K, 1e-10, |t| self.surplus_w(t))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_film_over_a_hot_floor_is_in_the_range_met() {
        // McAdams over a 350 degC floor in 60 degC air; the range met in the literature is 4 to 9.
        let film = free_film_w_m2_k(623.0, 333.0);
        assert!((4.0..9.0).contains(&film), "{film}");
    }

    #[test]
    fn the_layer_settles_where_its_balance_closes() {
        let balance = LayerBalance {
            plume_w: 14_000.0,
            dark_gain_w: 2_000.0,
            unit_gain_m2: -0.4,
            dome_w_k: 16.0,
            dome_weighted_w: 16.0 * 700.0,
            out_kg_s: 0.02,
            room_c: 22.0,
        };
        let gas_k = balance.settle_k(600.0);
        assert!(balance.surplus_w(gas_k).abs() < 1e-6);
        assert!((balance.settle_k(1200.0) - gas_k).abs() < 1e-6);
    }
}
