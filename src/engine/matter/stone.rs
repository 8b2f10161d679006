//! Owns stone, insulation, bedding and what carriers are made of: conductivity, heat capacity, density, emissivity, limits.

use super::rows;
use crate::numerics::column::Slab;
use crate::scenario::Layer;
use std::sync::LazyLock;

/// The table as it is kept.
const TABLE: &str = include_str!("data/stone.csv");
/// What an unknown key falls back to; `scenario` lets none through.
const DEFAULT_KEY: &str = "fireclay_dense";

/// What a material is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Face of floor or dome.
    Floor,
    /// Keeps the heat in.
    Insulation,
    /// Lies between.
    Bedding,
    /// Pans, pots and trays.
    Carrier,
}

impl Kind {
    fn read(field: &str) -> Option<Self> {
        match field {
            "floor" => Some(Self::Floor),
            "insulation" => Some(Self::Insulation),
            "bedding" => Some(Self::Bedding),
            "carrier" => Some(Self::Carrier),
            _ => None,
        }
    }
}

/// One material.
#[derive(Clone, Debug, PartialEq)]
pub struct Material {
    /// What a scenario calls it by.
    pub key: &'static str,
    /// Its name for people.
    pub name: &'static str,
    /// What it is for.
    pub kind: Kind,
    /// Density, kg/m3.
    pub density_kg_m3: f64,
    /// Usual range of density, kg/m3.
    pub density_range_kg_m3: [f64; 2],
    /// Conductivity of one piece of goods against another: share either way.
    pub k_spread: f64,
    /// Emissivity, 0..1.
    pub emissivity: f64,
    /// Usual range of emissivity.
    pub emissivity_range: [f64; 2],
    /// Service limit of the hot face, degC.
    pub limit_c: f64,
    /// Key of its source.
    pub source: &'static str,
    /// What else is worth knowing.
    pub note: &'static str,
    k_points: Vec<(f64, f64)>,
    cp_points: Vec<(f64, f64)>,
}

impl Material {
    /// Conductivity at a temperature, W/(m K): straight between the source's points, held beyond them.
    #[must_use]
    pub fn k_w_m_k(&self, t_c: f64) -> f64 {
        rows::held_linear(&self.k_points, t_c)
    }

    /// Heat capacity at a temperature, J/(kg K), likewise.
    #[must_use]
    pub fn cp_j_kg_k(&self, t_c: f64) -> f64 {
        rows::held_linear(&self.cp_points, t_c)
    }

    /// Heat to bring one kg from one temperature to another, J/kg: the exact integral of [`Self::cp_j_kg_k`].
    #[must_use]
    pub fn heat_j_kg(&self, from_c: f64, to_c: f64) -> f64 {
        rows::held_linear_integral(&self.cp_points, from_c, to_c)
    }

    /// Thermal effusivity at a temperature, W s^0.5/(m2 K).
    #[must_use]
    pub fn effusivity(&self, t_c: f64) -> f64 {
        (self.k_w_m_k(t_c) * self.density_kg_m3 * self.cp_j_kg_k(t_c)).sqrt()
    }

    fn read(row: &[&'static str]) -> Option<Self> {
        let &[
            key,
            name,
            kind,
            density,
            density_range,
            k,
            k_spread,
            cp,
            emissivity,
            emissivity_range,
            limit,
            source,
            note,
        ] = row
        else {
            return None;
        };
        Some(Self {
            key,
            name,
            kind: Kind::read(kind)?,
            density_kg_m3: rows::number(density)?,
            density_range_kg_m3: rows::range(density_range)?,
            k_spread: rows::number(k_spread)?,
            emissivity: rows::number(emissivity)?,
            emissivity_range: rows::range(emissivity_range)?,
            limit_c: rows::number(limit)?,
            source,
            note,
            k_points: rows::points(k)?,
            cp_points: rows::points(cp)?,
        })
    }
}

static MATERIALS: LazyLock<Vec<Material>> =
    LazyLock::new(|| rows::rows(TABLE).filter_map(|row| Material::read(&row)).collect());

/// Every material, in the order of the table: faces, insulation, bedding, carriers.
#[must_use]
pub fn all() -> &'static [Material] {
    &MATERIALS
}

/// The material of a key.
///
/// ```
/// let brick = hearthload::matter::stone::find("fireclay_dense").unwrap();
/// assert!((brick.k_w_m_k(500.0) - 1.075).abs() < 1e-12);
/// ```
#[must_use]
pub fn find(key: &str) -> Option<&'static Material> {
    MATERIALS.iter().find(|material| material.key == key)
}

/// The material of a key; dense fireclay where there is none, which `scenario` does not let happen.
#[must_use]
pub fn material_or_default(key: &str) -> &'static Material {
    find(key).or_else(|| find(DEFAULT_KEY)).unwrap_or(&MATERIALS[0])
}

/// Temperature at which the first layer's properties are taken, degC: a working floor or dome.
const WORKING_C: f64 = 350.0;
/// The same for layers behind the first, degC: about halfway to the room.
const BEHIND_C: f64 = 200.0;

/// A build-up as conduction sees it, from the hot face outwards; each layer keeps the properties of one working temperature.
#[must_use]
pub fn slabs(layers: &[Layer]) -> Vec<Slab> {
    let slab = |(i, layer): (usize, &Layer)| {
        let material = material_or_default(&layer.material);
        let at_c = if i == 0 { WORKING_C } else { BEHIND_C };
        Slab {
            thickness_m: layer.thickness_m,
            k_w_m_k: material.k_w_m_k(at_c),
            rho_c_j_m3_k: material.density_kg_m3 * material.cp_j_kg_k(at_c),
        }
    };
    layers.iter().enumerate().map(slab).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sources;

    #[test]
    fn every_row_reads_and_cites_a_source() {
        assert_eq!(all().len(), rows::count(TABLE));
        for material in all() {
            assert!(sources::find(material.source).is_some(), "{} cites {}", material.key, material.source);
            let [low, high] = material.density_range_kg_m3;
            assert!(low <= material.density_kg_m3 && material.density_kg_m3 <= high, "{}", material.key);
            let [low, high] = material.emissivity_range;
            assert!(low <= material.emissivity && material.emissivity <= high, "{}", material.key);
        }
        assert!(find(DEFAULT_KEY).is_some());
    }

    #[test]
    fn fireclay_at_400_has_the_effusivity_of_the_heat_atlas() {
        // VDI Heat Atlas row worked out in the reference tables: 1469.1 and 1535.5 W s^0.5/(m2 K) at 400 and 600 degC.
        let brick = material_or_default("fireclay_dense");
        assert!((brick.effusivity(400.0) - 1469.1).abs() < 0.1);
        assert!((brick.effusivity(600.0) - 1535.5).abs() < 0.1);
    }

    #[test]
    fn an_iron_pan_of_2_3_kg_brought_from_20_to_200_takes_about_207_kj() {
        let iron = material_or_default("cast_iron");
        let heat_kj = 2.3 * iron.heat_j_kg(20.0, 200.0) / 1000.0;
        assert!((heat_kj - 207.0).abs() < 4.0, "{heat_kj}");
    }
}
