//! Owns the component polynomials of Choi & Okos (1986): P(T) = c0 + c1 T + c2 T^2, T in degC, valid from -40 to 150 degC.
//!
//! The heat capacity of water is the original's 4.1762 kJ/(kg K) (within 0.2 % of steam tables from 20 to 95 degC), not the
//! 4.1289 that handbooks reprint (0.9 to 1.8 % low). Outside the range a property is held at the range's end.

/// Coldest temperature of the fits, degC (`choi_okos_1986`).
pub const COLDEST_C: f64 = -40.0;
/// Hottest temperature of the fits, degC.
pub const HOTTEST_C: f64 = 150.0;

/// A quadratic in degC.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quadratic {
    c0: f64,
    c1: f64,
    c2: f64,
}

const fn fit(c0: f64, c1: f64, c2: f64) -> Quadratic {
    Quadratic { c0, c1, c2 }
}

impl Quadratic {
    /// Value at a temperature within the range.
    fn at(self, t_c: f64) -> f64 {
        self.c0 + t_c * (self.c1 + t_c * self.c2)
    }

    /// Value, held at the ends of the range.
    #[must_use]
    pub fn held(self, t_c: f64) -> f64 {
        self.at(t_c.clamp(COLDEST_C, HOTTEST_C))
    }

    /// Integral of [`Self::held`] from 0 degC, exactly.
    fn area_from_zero(self, t_c: f64) -> f64 {
        let t = t_c.clamp(COLDEST_C, HOTTEST_C);
        t * (self.c0 + t * (self.c1 / 2.0 + t * self.c2 / 3.0)) + self.at(t) * (t_c - t)
    }
}

/// What food is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Component {
    /// Liquid water, below 0 degC supercooled.
    Water,
    /// Ice; its fits hold to 0 degC.
    Ice,
    /// Protein.
    Protein,
    /// Fat.
    Fat,
    /// Carbohydrate without the fibre.
    Carbohydrate,
    /// Fibre.
    Fibre,
    /// Ash, that is salts.
    Ash,
}

/// Heat capacity of water below 0 degC, kJ/(kg K).
const WATER_CP_BELOW: Quadratic = fit(4.0817, -5.3062e-3, 9.9516e-4);
/// Heat capacity of water above 0 degC, kJ/(kg K).
const WATER_CP_ABOVE: Quadratic = fit(4.1762, -9.0864e-5, 5.4731e-6);

impl Component {
    /// Heat capacity fit, kJ/(kg K); water has one on either side of 0 degC.
    const fn cp(self, t_c: f64) -> Quadratic {
        match self {
            Self::Water if t_c < 0.0 => WATER_CP_BELOW,
            Self::Water => WATER_CP_ABOVE,
            Self::Ice => fit(2.0623, 6.0769e-3, 0.0),
            Self::Protein => fit(2.0082, 1.2089e-3, -1.3129e-6),
            Self::Fat => fit(1.9842, 1.4733e-3, -4.8008e-6),
            Self::Carbohydrate => fit(1.5488, 1.9625e-3, -5.9399e-6),
            Self::Fibre => fit(1.8459, 1.8306e-3, -4.6509e-6),
            Self::Ash => fit(1.0926, 1.8896e-3, -3.6817e-6),
        }
    }

    /// Heat capacity, J/(kg K).
    #[must_use]
    pub fn cp_j_kg_k(self, t_c: f64) -> f64 {
        1000.0 * self.cp(t_c).held(t_c)
    }

    /// Enthalpy above the same state at 0 degC, J/kg: the exact integral of [`Self::cp_j_kg_k`].
    #[must_use]
    pub fn enthalpy_j_kg(self, t_c: f64) -> f64 {
        1000.0 * self.cp(t_c).area_from_zero(t_c)
    }

    /// Density, kg/m3.
    #[must_use]
    pub fn density_kg_m3(self, t_c: f64) -> f64 {
        let fit = match self {
            Self::Water => fit(997.18, 3.1439e-3, -3.7574e-3),
            Self::Ice => fit(916.89, -0.13071, 0.0),
            Self::Protein => fit(1329.9, -0.5184, 0.0),
            Self::Fat => fit(925.59, -0.41757, 0.0),
            Self::Carbohydrate => fit(1599.1, -0.31046, 0.0),
            Self::Fibre => fit(1311.5, -0.36589, 0.0),
            Self::Ash => fit(2423.8, -0.28063, 0.0),
        };
        fit.held(t_c)
    }

    /// Conductivity, W/(m K).
    #[must_use]
    pub fn k_w_m_k(self, t_c: f64) -> f64 {
        let fit = match self {
            Self::Water => fit(0.57109, 1.7625e-3, -6.7036e-6),
            Self::Ice => fit(2.2196, -6.2489e-3, 1.0154e-4),
            Self::Protein => fit(0.17881, 1.1958e-3, -2.7178e-6),
            Self::Fat => fit(0.18071, -2.7604e-4, -1.7749e-7),
            Self::Carbohydrate => fit(0.20141, 1.3874e-3, -4.3312e-6),
            Self::Fibre => fit(0.18331, 1.2497e-3, -3.1683e-6),
            Self::Ash => fit(0.32962, 1.4011e-3, -2.9069e-6),
        };
        fit.held(t_c)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn enthalpy_is_the_integral_of_heat_capacity_held_beyond_its_range() {
        for component in [Component::Water, Component::Fat, Component::Carbohydrate, Component::Ash] {
            for (from, to) in [(-60.0, -20.0), (5.0, 95.0), (120.0, 190.0)] {
                let steps = 4000;
                let dt = (to - from) / f64::from(steps);
                let sum: f64 = (0..steps).map(|i| component.cp_j_kg_k(from + (f64::from(i) + 0.5) * dt) * dt).sum();
                let exact = component.enthalpy_j_kg(to) - component.enthalpy_j_kg(from);
                assert!((sum / exact - 1.0).abs() < 1e-6, "{component:?} {from} {to}: {sum} {exact}");
            }
        }
    }

    #[test]
    fn water_agrees_with_steam_tables() {
        // IAPWS-IF97: h_f 398.0185 kJ/kg at 95 and 83.9199 at 20 degC.
        let rise = Component::Water.enthalpy_j_kg(95.0) - Component::Water.enthalpy_j_kg(20.0);
        assert!((rise / (398_018.5 - 83_919.9) - 1.0).abs() < 0.002, "{rise}");
    }
}
