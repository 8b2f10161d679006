//! Owns firewood: density and calorific value by species and moisture, its char, its air, and how fast a piece shrinks.
//!
//! Two bases of moisture, one conversion: a pin meter shows water over DRY wood, u; heat is reckoned on M, water over the
//! WHOLE, M = u / (1 + u). Net calorific value as received, ISO 18125: q = q_dry (1 - M) - 2.443 M MJ/kg.

use super::rows;
use crate::scenario::Wood;
use std::sync::LazyLock;

/// The table as it is kept.
const TABLE: &str = include_str!("data/wood.csv");
/// What an unknown key falls back to; `scenario` lets none through.
const DEFAULT_KEY: &str = "oak";

/// Heat that evaporates the water of wood at 25 degC, J/kg (`iso_18125`; steam tables give 2.4417e6).
pub const EVAPORATION_J_KG: f64 = 2.443e6;
/// Char left by dry wood, kg/kg. Range 0.20-0.22 (from memory; slow charring leaves more).
pub const CHAR_SHARE_OF_DRY: f64 = 0.21;
/// Net calorific value of char, J/kg. Range 30e6-33e6 (from memory).
pub const CHAR_LHV_J_KG: f64 = 32e6;
/// Stoichiometric dry air of dry wood, kg/kg: worked from C 49, H 6.2, O 44, N 0.1, ash 0.5 % (`iso_17225`).
pub const AIR_KG_KG_DRY: f64 = 5.866;
/// Ash left by dry wood, kg/kg (`iso_17225`; with much bark up to 0.015).
pub const ASH_SHARE_OF_DRY: f64 = 0.005;
/// Wood in a stack of split pieces by its outer volume, m3/m3. From memory (0.65-0.75 stacked, 0.4-0.45 tipped).
pub const STACKED_SHARE: f64 = 0.7;
/// Share of the volatiles' heat released in the oven, plenty of air, at 12 % on the meter. From memory (0.93-0.98).
pub const BURNT_SHARE_AT_12: f64 = 0.96;
/// That share lost for each hundredth more on the meter. From memory: set so that 12 / 15 / 20 / 25 % cost
/// 4.0 / 4.2 / 4.5 / 4.8 kg/h for the same heat, the water's own evaporation counted apart.
pub const BURNT_SHARE_LOST_PER_PERCENT: f64 = 0.0064;
/// No wetter wood is taken to lose more than this leaves. From memory.
const BURNT_SHARE_LEAST: f64 = 0.6;
/// No drier wood is taken to burn better. From memory.
const BURNT_SHARE_MOST: f64 = 0.98;
/// Shrinking of a piece of [`SHRINK_DENSITY_KG_M3`], m/s: 0.65 mm/min (`en_1995_1_2`: 0.5 to 0.8 mm/min).
const SHRINK_M_S: f64 = 0.65e-3 / 60.0;
/// Density as fired at which a piece shrinks by [`SHRINK_M_S`], kg/m3. From memory.
const SHRINK_DENSITY_KG_M3: f64 = 650.0;
/// Slowest and fastest shrinking, m/s (`en_1995_1_2`).
const SHRINK_RANGE_M_S: [f64; 2] = [0.5e-3 / 60.0, 0.8e-3 / 60.0];
/// Fibre saturation: wood swells no more above it, water over dry mass (Wood Handbook, ch. 4, from memory).
const FIBRE_SATURATION: f64 = 0.3;
/// Wood over this on the meter smokes and tars the flue, water over dry mass. Common practice, no source (20 to 25 %).
pub const SMOKES_ABOVE: f64 = 0.25;
/// Wood over this is green: it holds water that no longer swells it, and no feeding is planned with it.
pub const GREEN_ABOVE: f64 = FIBRE_SATURATION;
/// Shrinkage against gravity (Wood Handbook, ch. 4, from memory).
const SWELL: f64 = 0.265;
/// Water, kg/m3, that specific gravity is measured against.
const WATER_KG_M3: f64 = 1000.0;

/// A species.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Species {
    /// What a scenario calls it by.
    pub key: &'static str,
    /// Its name for people.
    pub name: &'static str,
    /// Oven-dry mass over green volume, relative to water.
    pub gravity: f64,
    /// Net calorific value of the dry wood, J/kg.
    pub lhv_dry_j_kg: f64,
    /// Key of the gravity's source.
    pub source: &'static str,
    /// Key of the calorific value's source.
    pub lhv_source: &'static str,
}

impl Species {
    fn read(row: &[&'static str]) -> Option<Self> {
        let &[key, name, gravity, lhv_dry, source, lhv_source] = row else { return None };
        let lhv_dry_j_kg = 1e6 * rows::number(lhv_dry)?;
        Some(Self { key, name, gravity: rows::number(gravity)?, lhv_dry_j_kg, source, lhv_source })
    }

    /// Density at a moisture on DRY basis, kg/m3: gravity at that moisture times what the water adds. Below fibre saturation
    /// the wood shrinks as it dries, G = G_b / (1 - 0.265 a G_b), a = (0.30 - u) / 0.30. Within 3 % of the Wood Handbook.
    #[must_use]
    pub fn density_kg_m3(&self, dry_basis: f64) -> f64 {
        let dried = ((FIBRE_SATURATION - dry_basis) / FIBRE_SATURATION).max(0.0);
        WATER_KG_M3 * self.gravity / (1.0 - SWELL * dried * self.gravity) * (1.0 + dry_basis)
    }
}

static SPECIES: LazyLock<Vec<Species>> =
    LazyLock::new(|| rows::rows(TABLE).filter_map(|row| Species::read(&row)).collect());

/// Every species, in the order of the table.
#[must_use]
pub fn all() -> &'static [Species] {
    &SPECIES
}

/// The species of a key.
#[must_use]
pub fn find(key: &str) -> Option<&'static Species> {
    SPECIES.iter().find(|species| species.key == key)
}

/// The species of a key; oak where there is none, which `scenario` does not let happen.
#[must_use]
pub fn species_or_default(key: &str) -> &'static Species {
    find(key).or_else(|| find(DEFAULT_KEY)).unwrap_or(&SPECIES[0])
}

/// Water over the whole, from what a pin meter shows: water over dry wood.
///
/// ```
/// assert!((hearthload::matter::wood::wet_basis(0.25) - 0.2).abs() < 1e-15);
/// ```
#[must_use]
pub fn wet_basis(dry_basis: f64) -> f64 {
    dry_basis / (1.0 + dry_basis)
}

/// What a pin meter shows, from water over the whole; `wet_basis` below 1.
#[must_use]
pub fn dry_basis(wet_basis: f64) -> f64 {
    wet_basis / (1.0 - wet_basis)
}

/// Net calorific value as received, J/kg, of wood with `wet_basis` water (ISO 18125).
#[must_use]
pub fn lhv_as_received_j_kg(lhv_dry_j_kg: f64, wet_basis: f64) -> f64 {
    lhv_dry_j_kg * (1.0 - wet_basis) - EVAPORATION_J_KG * wet_basis
}

/// Share of the volatiles' heat that is released in the oven with plenty of air, by what the meter shows.
#[must_use]
pub fn burnt_share(dry_basis: f64) -> f64 {
    let over_12_percent = 100.0 * dry_basis - 12.0;
    (BURNT_SHARE_AT_12 - BURNT_SHARE_LOST_PER_PERCENT * over_12_percent).clamp(BURNT_SHARE_LEAST, BURNT_SHARE_MOST)
}

/// Shrinking of a burning piece's radius, m/s. Heavier wood chars more slowly, about with the root of its density.
fn regression_m_s(density_kg_m3: f64) -> f64 {
    let [slowest, fastest] = SHRINK_RANGE_M_S;
    (SHRINK_M_S * (SHRINK_DENSITY_KG_M3 / density_kg_m3).sqrt()).clamp(slowest, fastest)
}

/// The wood of a scenario, as fired.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fuel {
    /// Water over the whole.
    pub moisture_wet: f64,
    /// Dry wood in one kg as fired, kg/kg.
    pub dry_share: f64,
    /// Net calorific value as received, J/kg.
    pub lhv_ar_j_kg: f64,
    /// Char left by one kg of dry wood, kg/kg.
    pub char_share_of_dry: f64,
    /// Stoichiometric dry air, kg/kg as fired.
    pub air_kg_kg: f64,
    /// Density as fired, kg/m3.
    pub density_kg_m3: f64,
    /// One piece, kg.
    pub piece_mass_kg: f64,
    /// Share of the volatiles' heat released in the oven with plenty of air.
    pub burnt_share: f64,
    /// Shrinking of a piece's radius, m/s.
    pub regression_m_s: f64,
}

impl Fuel {
    /// The wood of a scenario. Moisture on the meter is within the scenario's limits (0 to 40 %).
    #[must_use]
    pub fn new(wood: &Wood) -> Self {
        let species = species_or_default(&wood.species);
        let moisture_wet = wet_basis(wood.meter_dry_basis);
        let density_kg_m3 = species.density_kg_m3(wood.meter_dry_basis);
        let radius_m = 0.5 * wood.piece_diameter_m;
        let piece_m3 = std::f64::consts::PI * radius_m * radius_m * wood.piece_length_m;
        Self {
            moisture_wet,
            dry_share: 1.0 - moisture_wet,
            lhv_ar_j_kg: lhv_as_received_j_kg(species.lhv_dry_j_kg, moisture_wet),
            char_share_of_dry: CHAR_SHARE_OF_DRY,
            air_kg_kg: AIR_KG_KG_DRY * (1.0 - moisture_wet),
            density_kg_m3,
            piece_mass_kg: density_kg_m3 * piece_m3,
            burnt_share: burnt_share(wood.meter_dry_basis),
            regression_m_s: regression_m_s(density_kg_m3),
        }
    }

    /// Ash left by one kg as fired, kg/kg.
    #[must_use]
    pub fn ash_share_as_fired(&self) -> f64 {
        ASH_SHARE_OF_DRY * self.dry_share
    }

    /// Outer volume of a stack that holds one kg as fired, m3/kg.
    #[must_use]
    pub fn stacked_m3_kg(&self) -> f64 {
        1.0 / (self.density_kg_m3 * STACKED_SHARE)
    }

    /// Char left by one kg as fired, kg/kg.
    #[must_use]
    pub fn char_share_as_fired(&self) -> f64 {
        self.char_share_of_dry * self.dry_share
    }

    /// Heat of the char of one kg as fired, J/kg.
    #[must_use]
    pub fn char_j_kg(&self) -> f64 {
        self.char_share_as_fired() * CHAR_LHV_J_KG
    }

    /// Heat of the volatiles of one kg as fired, J/kg: what the char leaves of the whole, the wood's water evaporated out of it.
    #[must_use]
    pub fn volatile_j_kg(&self) -> f64 {
        self.lhv_ar_j_kg - self.char_j_kg()
    }

    /// Heat released in the oven by one kg as fired with plenty of air, J/kg.
    #[must_use]
    pub fn released_j_kg(&self) -> f64 {
        self.char_j_kg() + self.burnt_share * self.volatile_j_kg()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sources;

    fn oak(meter_dry_basis: f64) -> Fuel {
        Fuel::new(&Wood { species: "oak_white".into(), meter_dry_basis, piece_diameter_m: 0.08, piece_length_m: 0.33 })
    }

    #[test]
    fn every_row_reads_and_cites_a_source() {
        assert_eq!(all().len(), rows::count(TABLE));
        for species in all() {
            assert!(
                sources::find(species.source).is_some() && sources::find(species.lhv_source).is_some(),
                "{}",
                species.key
            );
        }
        assert!(find(DEFAULT_KEY).is_some());
    }

    #[test]
    fn wet_wood_costs_wood() {
        // The kg/h for the same heat that the design states: 4.0, 4.2, 4.5, 4.8 at 12, 15, 20, 25 % on the meter.
        let base = 4.0 * oak(0.12).released_j_kg();
        for (meter, kg_h) in [(0.15, 4.2), (0.20, 4.5), (0.25, 4.8)] {
            let got = base / oak(meter).released_j_kg();
            assert!((got - kg_h).abs() < 0.05, "{got} for {kg_h}");
        }
    }

    #[test]
    fn calorific_value_as_received_is_that_of_the_table() {
        // ISO 18125 form worked in the reference tables: 18.5 MJ/kg dry, M 20 % gives 14.3114, M 15 % gives 15.35855 MJ/kg.
        assert!((lhv_as_received_j_kg(18.5e6, 0.20) - 14.3114e6).abs() < 1.0);
        assert!((lhv_as_received_j_kg(18.5e6, 0.15) - 15.35855e6).abs() < 1.0);
        assert!((dry_basis(wet_basis(0.18)) - 0.18).abs() < 1e-15);
    }

    #[test]
    fn white_oak_at_12_percent_weighs_743() {
        // Reference table of wood density: G_b 0.60 gives 743 kg/m3 at 12 %.
        assert!((species_or_default("oak_white").density_kg_m3(0.12) - 743.0).abs() < 1.0);
    }

    #[test]
    fn char_is_a_little_over_a_third_of_the_heat() {
        let fuel = oak(0.18);
        let share = fuel.char_j_kg() / fuel.lhv_ar_j_kg;
        assert!((0.35..0.40).contains(&share), "{share}");
        assert!((fuel.char_j_kg() + fuel.volatile_j_kg() - fuel.lhv_ar_j_kg).abs() < 1e-6);
        assert!((1.2..1.3).contains(&fuel.piece_mass_kg), "{}", fuel.piece_mass_kg);
        // A stacked cubic metre of air-dry oak weighs about half a tonne.
        assert!((480.0..560.0).contains(&(1.0 / fuel.stacked_m3_kg())));
    }
}
