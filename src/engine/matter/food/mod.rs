//! Owns the foods a hearth kitchen uses: what they are made of, where that comes from, and their thermal properties.

mod component;
mod composition;

pub use component::{COLDEST_C, Component, HOTTEST_C, Quadratic};
pub use composition::{
    Composition, Enthalpy, MELTING_J_KG, cp_j_kg_k, density_kg_m3, enthalpy, enthalpy_j_kg, enthalpy_rise_j_kg,
    ice_share, k_parallel_w_m_k, k_series_w_m_k,
};

use super::rows;
use std::sync::LazyLock;

/// The table as it is kept.
const TABLE: &str = include_str!("../data/food.csv");
/// Shares of a row add to one within this.
const SUM_TOLERANCE: f64 = 1e-6;

/// One food.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Food {
    /// What a scenario calls it by.
    pub key: &'static str,
    /// Its name for people.
    pub name: &'static str,
    /// Shelf it stands on in a list.
    pub category: &'static str,
    /// What it is made of.
    pub composition: Composition,
    /// Key of its source.
    pub source: &'static str,
    /// Whether a thermometer belongs beside it: poultry, pork, fish, eggs, mince.
    pub core_check: bool,
    /// What a kitchen measures it by, with grams: "1 tbsp = 14 g".
    pub measure: &'static str,
}

impl Food {
    fn read(row: &[&'static str]) -> Option<Self> {
        let &[key, name, category, .., source, core, measure] = row else { return None };
        let composition = read_composition(row)?;
        Some(Self { key, name, category, composition, source, core_check: core == "yes", measure })
    }
}

/// What a row of the table says a food is made of; none where it is not a whole row, a share is none, or they do not add to one.
#[must_use]
pub fn read_composition(row: &[&str]) -> Option<Composition> {
    let &[_, _, _, water, protein, fat, carbohydrate, fibre, ash, freezing, _, _, _] = row else { return None };
    let share = |field| rows::number(field).filter(|share| (0.0..=1.0).contains(share));
    let composition = Composition {
        water: share(water)?,
        protein: share(protein)?,
        fat: share(fat)?,
        carbohydrate: share(carbohydrate)?,
        fibre: share(fibre)?,
        ash: share(ash)?,
        freezing_c: rows::number(freezing).filter(|&freezing| freezing <= 0.0)?,
    };
    Some(composition).filter(|composition| (composition.sum() - 1.0).abs() < SUM_TOLERANCE)
}

static FOODS: LazyLock<Vec<Food>> = LazyLock::new(|| rows::rows(TABLE).filter_map(|row| Food::read(&row)).collect());

/// Every food, in the order of the table.
#[must_use]
pub fn all() -> &'static [Food] {
    &FOODS
}

/// The food of a key.
///
/// ```
/// use hearthload::matter::food;
/// let dough = food::find("pizza_dough").unwrap();
/// let heat = food::enthalpy_rise_j_kg(&dough.composition, 28.0, 97.0);
/// assert!((heat / 193_200.0 - 1.0).abs() < 0.02); // 2.8 kJ/(kg K) over 69 K
/// ```
#[must_use]
pub fn find(key: &str) -> Option<&'static Food> {
    FOODS.iter().find(|food| food.key == key)
}

/// The food of a key; the table's first, a plain dough, where there is none, which `scenario` does not let happen.
#[must_use]
pub fn food_or_default(key: &str) -> &'static Food {
    find(key).unwrap_or(&FOODS[0])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sources;

    #[test]
    fn every_row_reads_adds_up_and_cites_a_source() {
        assert_eq!(all().len(), rows::count(TABLE));
        for (i, food) in all().iter().enumerate() {
            assert!(sources::find(food.source).is_some(), "{} cites {}", food.key, food.source);
            assert!(
                (food.composition.sum() - 1.0).abs() < SUM_TOLERANCE,
                "{} adds to {}",
                food.key,
                food.composition.sum()
            );
            assert!(all()[i + 1..].iter().all(|other| other.key != food.key), "{} twice", food.key);
            assert!(food.measure.ends_with(" g") && food.measure.contains(" = "), "{}: {}", food.key, food.measure);
        }
    }

    #[test]
    fn poultry_pork_and_fish_ask_for_a_thermometer() {
        for key in ["chicken_whole", "pork_loin", "salmon", "sausage", "duck"] {
            assert!(find(key).is_some_and(|food| food.core_check), "{key}");
        }
        assert!(find("mozzarella").is_some_and(|food| !food.core_check));
    }

    #[test]
    fn handbook_foods_have_their_handbook_heat_capacity() {
        // ASHRAE Handbook - Refrigeration, Thermal properties of foods, Table 3, kJ/(kg K) above freezing.
        for (key, published) in
            [("mushrooms", 3.99), ("aubergine", 3.98), ("garlic", 3.17), ("carrots", 3.92), ("salmon", 3.68)]
        {
            let food = find(key).expect(key);
            let cp = cp_j_kg_k(&food.composition, 20.0) / 1000.0;
            assert!((cp / published - 1.0).abs() < 0.02, "{key}: {cp} against {published}");
        }
    }
}
