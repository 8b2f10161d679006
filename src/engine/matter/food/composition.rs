//! Owns what a food is made of and what follows from it: heat capacity, enthalpy across freezing, density, conductivity.
//!
//! Mixing: cp and enthalpy by mass, volumes add, conductivity by layers along the flow (parallel) as an upper and across it
//! (series) as a lower bound (Choi & Okos 1986). Frozen: ice by Tchigeov (1979), x_ice = 1.105 x_w / (1 + 0.7138 / ln(t_f - t + 1)).
//! Enthalpy is a state function, ice at 0 degC lying 333.6 kJ/kg below water, so it is continuous across freezing and a rise
//! is the same whichever way it is added up.

use super::component::Component;

/// Heat of melting of ice at 0 degC, J/kg (`iapws_if97`: IAPWS R10-06, 333.4 to 333.6 kJ/kg).
pub const MELTING_J_KG: f64 = 333.6e3;
/// First constant of Tchigeov's ice share (`tchigeov_1979`).
const TCHIGEOV_TOP: f64 = 1.105;
/// Second constant of Tchigeov's ice share.
const TCHIGEOV_BOTTOM: f64 = 0.7138;

/// Mass shares of a food; they add to one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Composition {
    /// Water, frozen or not.
    pub water: f64,
    /// Protein.
    pub protein: f64,
    /// Fat.
    pub fat: f64,
    /// Carbohydrate without the fibre.
    pub carbohydrate: f64,
    /// Fibre.
    pub fibre: f64,
    /// Ash, that is salts.
    pub ash: f64,
    /// Where it begins to freeze, degC.
    pub freezing_c: f64,
}

/// Enthalpy of one kg by what holds it, J/kg.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Enthalpy {
    /// In water and ice.
    pub water_j_kg: f64,
    /// In fat.
    pub fat_j_kg: f64,
    /// In protein, carbohydrate, fibre and ash.
    pub solids_j_kg: f64,
}

impl Enthalpy {
    /// All of it, J/kg.
    #[must_use]
    pub fn total_j_kg(&self) -> f64 {
        self.water_j_kg + self.fat_j_kg + self.solids_j_kg
    }

    /// This less another.
    #[must_use]
    pub fn above(&self, other: &Self) -> Self {
        Self {
            water_j_kg: self.water_j_kg - other.water_j_kg,
            fat_j_kg: self.fat_j_kg - other.fat_j_kg,
            solids_j_kg: self.solids_j_kg - other.solids_j_kg,
        }
    }
}

impl Composition {
    /// Sum of the shares; one for a whole food.
    #[must_use]
    pub fn sum(&self) -> f64 {
        self.water + self.protein + self.fat + self.carbohydrate + self.fibre + self.ash
    }

    /// The mixture of foods by mass, any unit of mass. Its freezing point is the mean by water, a guide only; enthalpies of a
    /// frozen dish are better added food by food. Water at 0 degC for no mass at all.
    #[must_use]
    pub fn mix(parts: &[(Self, f64)]) -> Self {
        let total: f64 = parts.iter().map(|part| part.1).sum();
        let of = |share: fn(&Self) -> f64| {
            if total > 0.0 { parts.iter().map(|(food, mass)| share(food) * mass).sum::<f64>() / total } else { 0.0 }
        };
        let water = of(|food| food.water);
        let freezing_c = if water > 0.0 { of(|food| food.water * food.freezing_c) / water } else { 0.0 };
        Self {
            water: if total > 0.0 { water } else { 1.0 },
            protein: of(|food| food.protein),
            fat: of(|food| food.fat),
            carbohydrate: of(|food| food.carbohydrate),
            fibre: of(|food| food.fibre),
            ash: of(|food| food.ash),
            freezing_c,
        }
    }

    /// Dry components with their shares.
    const fn dry(&self) -> [(Component, f64); 5] {
        [
            (Component::Protein, self.protein),
            (Component::Fat, self.fat),
            (Component::Carbohydrate, self.carbohydrate),
            (Component::Fibre, self.fibre),
            (Component::Ash, self.ash),
        ]
    }

    /// All components with their shares at a temperature: water split into liquid and ice.
    fn parts(&self, t_c: f64) -> [(Component, f64); 7] {
        let ice = ice_share(self, t_c);
        let [protein, fat, carbohydrate, fibre, ash] = self.dry();
        [(Component::Water, self.water - ice), (Component::Ice, ice), protein, fat, carbohydrate, fibre, ash]
    }
}

/// Ice over the whole mass at a temperature; none at and above the initial freezing point. +-10 % against measurements.
#[must_use]
pub fn ice_share(food: &Composition, t_c: f64) -> f64 {
    let under_k = food.freezing_c - t_c;
    if under_k <= 0.0 {
        return 0.0;
    }
    let share = TCHIGEOV_TOP / (1.0 + TCHIGEOV_BOTTOM / libm::log1p(under_k));
    food.water * share.min(1.0)
}

/// Heat capacity, J/(kg K): water, ice and solids as they are, without the heat of melting (see [`enthalpy_j_kg`]).
#[must_use]
pub fn cp_j_kg_k(food: &Composition, t_c: f64) -> f64 {
    food.parts(t_c).iter().map(|(component, share)| share * component.cp_j_kg_k(t_c)).sum()
}

/// Enthalpy by what holds it, above everything liquid at 0 degC, J/kg.
#[must_use]
pub fn enthalpy(food: &Composition, t_c: f64) -> Enthalpy {
    let ice = ice_share(food, t_c);
    let of = |component: Component, share: f64| share * component.enthalpy_j_kg(t_c);
    Enthalpy {
        water_j_kg: of(Component::Water, food.water - ice) + of(Component::Ice, ice) - ice * MELTING_J_KG,
        fat_j_kg: of(Component::Fat, food.fat),
        solids_j_kg: of(Component::Protein, food.protein)
            + of(Component::Carbohydrate, food.carbohydrate)
            + of(Component::Fibre, food.fibre)
            + of(Component::Ash, food.ash),
    }
}

/// Enthalpy above everything liquid at 0 degC, J/kg.
#[must_use]
pub fn enthalpy_j_kg(food: &Composition, t_c: f64) -> f64 {
    enthalpy(food, t_c).total_j_kg()
}

/// Heat to bring one kg from one temperature to another, melting included, nothing boiled off, J/kg. Exact integral of the
/// fits, which hold from -40 to 150 degC; beyond, heat capacities are held.
#[must_use]
pub fn enthalpy_rise_j_kg(food: &Composition, from_c: f64, to_c: f64) -> f64 {
    enthalpy_j_kg(food, to_c) - enthalpy_j_kg(food, from_c)
}

/// Density without voids, kg/m3. Risen dough holds gas: divide its volume in.
#[must_use]
pub fn density_kg_m3(food: &Composition, t_c: f64) -> f64 {
    let volume: f64 = food.parts(t_c).iter().map(|(component, share)| share / component.density_kg_m3(t_c)).sum();
    food.sum() / volume
}

/// Conductivity with the components side by side along the flow, W/(m K): the upper bound, near for wet food without voids.
#[must_use]
pub fn k_parallel_w_m_k(food: &Composition, t_c: f64) -> f64 {
    let (mut sum, mut volume) = (0.0, 0.0);
    for (component, share) in food.parts(t_c) {
        let part = share / component.density_kg_m3(t_c);
        sum += part * component.k_w_m_k(t_c);
        volume += part;
    }
    sum / volume
}

/// Conductivity with the components one behind the other, W/(m K): the lower bound.
#[must_use]
pub fn k_series_w_m_k(food: &Composition, t_c: f64) -> f64 {
    let (mut sum, mut volume) = (0.0, 0.0);
    for (component, share) in food.parts(t_c) {
        let part = share / component.density_kg_m3(t_c);
        sum += part / component.k_w_m_k(t_c);
        volume += part;
    }
    volume / sum
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Mushrooms of ASHRAE Handbook - Refrigeration, Thermal properties of foods, Table 3 (carbohydrate less its fibre).
    const MUSHROOMS: Composition = Composition {
        water: 0.9181,
        protein: 0.0209,
        fat: 0.0042,
        carbohydrate: 0.0345,
        fibre: 0.012,
        ash: 0.0089,
        freezing_c: -0.9,
    };

    #[test]
    fn mushrooms_agree_with_the_handbook_above_and_below_freezing() {
        // ASHRAE Table 3: 3.99 kJ/(kg K) above freezing, 1.84 below (fully frozen), latent 307 kJ/kg.
        assert!((cp_j_kg_k(&MUSHROOMS, 20.0) / 3990.0 - 1.0).abs() < 0.02);
        let melted = enthalpy_rise_j_kg(&MUSHROOMS, -40.0, 0.0);
        let handbook = 39.1 * 1840.0 + 307e3;
        assert!((melted / handbook - 1.0).abs() < 0.06, "{melted} against {handbook}");
    }

    #[test]
    fn enthalpy_is_continuous_and_rises_across_freezing() {
        let mut last = enthalpy_j_kg(&MUSHROOMS, -30.0);
        for step in 1..4000 {
            let now = enthalpy_j_kg(&MUSHROOMS, -30.0 + 0.01 * f64::from(step));
            assert!(now > last, "falls at step {step}");
            assert!(now - last < 8000.0, "jumps at step {step} by {}", now - last);
            last = now;
        }
        let just_below = enthalpy_j_kg(&MUSHROOMS, MUSHROOMS.freezing_c - 1e-9);
        assert!((enthalpy_j_kg(&MUSHROOMS, MUSHROOMS.freezing_c) - just_below).abs() < 1.0);
    }

    #[test]
    fn a_mix_adds_by_mass() {
        let fat = Composition {
            water: 0.0,
            protein: 0.0,
            fat: 1.0,
            carbohydrate: 0.0,
            fibre: 0.0,
            ash: 0.0,
            freezing_c: 0.0,
        };
        let mix = Composition::mix(&[(MUSHROOMS, 3.0), (fat, 1.0)]);
        let apart = 0.75 * cp_j_kg_k(&MUSHROOMS, 40.0) + 0.25 * cp_j_kg_k(&fat, 40.0);
        assert!((cp_j_kg_k(&mix, 40.0) - apart).abs() < 1e-9);
        assert!((mix.freezing_c - MUSHROOMS.freezing_c).abs() < 1e-12);
        assert!(k_series_w_m_k(&mix, 20.0) < k_parallel_w_m_k(&mix, 20.0));
    }
}
