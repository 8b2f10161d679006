//! Owns the checks of food: component fits, handbook foods, mixtures, and heat across freezing.

use super::{Check, Outside, Row, Status, Table, Worst};
use crate::matter::food::{
    self, Component, Composition, cp_j_kg_k, density_kg_m3, enthalpy_rise_j_kg, k_parallel_w_m_k, k_series_w_m_k,
};

const VALUES: &str = include_str!("../../../tests/reference/choi_okos_values.csv");
const ENTRIES: &str = include_str!("../../../tests/reference/food_entries.csv");
const FROZEN: &str = include_str!("../../../tests/reference/frozen_dish.csv");
const CHOI_OKOS: &str = "Choi & Okos (1986), as in CoolProp 8.0.0 and the ASHRAE Handbook - Refrigeration";
/// The fits are the same polynomials: only rounding is left.
const FIT_SHARE: f64 = 1e-6;
/// The tables of mixtures print four digits.
const PRINTED_SHARE: f64 = 3e-3;
/// What a sum of components may be off a handbook's measured food.
const HANDBOOK_SHARE: f64 = 0.015;
/// Against quadrature of the same law of ice.
const QUADRATURE_SHARE: f64 = 1e-4;
/// Between two laws of ice that the handbook offers, over a whole thaw.
const LAWS_SHARE: f64 = 0.10;

/// All of them.
pub fn checks() -> Vec<Check> {
    let mut all = fits();
    all.extend(handbook());
    all.extend(mixtures());
    all.extend(frozen());
    all
}

/// Component and its name in the table; what the table's water rows are good for is said in LEFT_OUT.md.
const COMPONENTS: [(&str, &str, Component, bool); 8] = [
    ("protein", "protein", Component::Protein, true),
    ("fat", "fat", Component::Fat, true),
    ("carbohydrate", "carbohydrate", Component::Carbohydrate, true),
    ("fibre", "fiber", Component::Fibre, true),
    ("ash", "ash", Component::Ash, true),
    ("ice", "ice", Component::Ice, true),
    ("water", "water_ChoiOkos1986_0_150C", Component::Water, false),
    ("cold_water", "water_ChoiOkos1986_m40_0C", Component::Water, false),
];

/// Every component's heat capacity, conductivity and density over its temperatures.
fn fits() -> Vec<Check> {
    let table = Table::read(VALUES);
    let mut all = Vec::new();
    for (name, key, component, whole) in COMPONENTS {
        all.extend(fit(&table, name, key, "heat capacity", |t| component.cp_j_kg_k(t) / 1000.0));
        if whole {
            all.extend(fit(&table, name, key, "conductivity", |t| component.k_w_m_k(t)));
            all.extend(fit(&table, name, key, "density", |t| component.density_kg_m3(t)));
        }
    }
    // The handbook's own water rows carry the same conductivity and density; only their heat capacity is low.
    let hot = "water_ASHRAE_0_150C";
    all.extend(fit(&table, "water", hot, "conductivity", |t| Component::Water.k_w_m_k(t)));
    all.extend(fit(&table, "water", hot, "density", |t| Component::Water.density_kg_m3(t)));
    all
}

/// The worst temperature of one fit.
fn fit(table: &Table, name: &str, key: &str, property: &str, ours: impl Fn(f64) -> f64) -> Option<Check> {
    let (column, unit) = match property {
        "heat capacity" => ("cp_kJ_kgK", "kJ/(kg K)"),
        "conductivity" => ("k_W_mK", "W/(m K)"),
        _ => ("rho_kg_m3", "kg/m3"),
    };
    let mut worst = Worst::default();
    for row in table.rows_where("component", key) {
        let t = row.number("T_degC");
        let outside = Outside::relative(row.number(column), FIT_SHARE, unit, Status::Published, CHOI_OKOS);
        let id = format!("food.fit.{name}.{}", property.replace(' ', "_"));
        worst.add(outside.against(&id, &format!("{property} of {} at {t} degC", name.replace('_', " ")), ours(t)));
    }
    worst.into_check()
}

/// A row's composition; its carbohydrate counts the fibre.
fn composition(row: &Row<'_>) -> Composition {
    let share = |column: &str| if row.text(column).is_empty() { 0.0 } else { row.number(column) };
    Composition {
        water: share("x_water"),
        protein: share("x_protein"),
        fat: share("x_fat"),
        carbohydrate: share("x_carb_total") - share("x_fibre"),
        fibre: share("x_fibre"),
        ash: share("x_ash"),
        freezing_c: if row.text("T_f_degC").is_empty() { -3.0 } else { row.number("T_f_degC") },
    }
}

/// Heat capacity of handbook foods whose printed value was read, and of two of our own foods against measured ones.
fn handbook() -> Vec<Check> {
    let table = Table::read(ENTRIES);
    let read = ["mushrooms", "eggplant", "garlic", "carrots", "salmon, pink", "beef carcass, choice"];
    let mut all = Vec::new();
    for row in table.rows().filter(|row| read.contains(&row.text("food"))) {
        let (source, unit) = ("ASHRAE Handbook - Refrigeration, Thermal properties of foods, Table 3", "kJ/(kg K)");
        let outside = Outside::relative(row.number("cp_above_pub"), HANDBOOK_SHARE, unit, Status::Published, source);
        let name = row.text("food").split([',', ' ']).next().unwrap_or_default();
        let got = cp_j_kg_k(&composition(&row), 20.0) / row.number("sum") / 1000.0;
        all.push(outside.against(
            &format!("food.handbook.{name}"),
            &format!("heat capacity of {} above freezing", row.text("food")),
            got,
        ));
    }
    let water = Outside::relative(
        4.19,
        0.005,
        "kJ/(kg K)",
        Status::Published,
        "Earle & Earle, Unit Operations in Food Processing, App. 7",
    );
    let ours = cp_j_kg_k(&food::food_or_default("water").composition, 20.0) / 1000.0;
    all.push(water.against("food.handbook.water", "heat capacity of water", ours));
    all
}

/// Mixtures worked out by the same rules outside: heat capacity, density, both bounds of conductivity.
fn mixtures() -> Vec<Check> {
    let table = Table::read(ENTRIES);
    let mut worst: [Worst; 4] = Default::default();
    for row in table.rows().filter(|row| !row.text("k_series_20C").is_empty() && row.text("food") != "water") {
        let food = composition(&row);
        let per_whole = cp_j_kg_k(&food, 20.0) / 1000.0;
        let columns = [
            ("heat capacity", "cp_CO_20C", "kJ/(kg K)", per_whole / food.sum()),
            ("density", "rho_CO_20C", "kg/m3", density_kg_m3(&food, 20.0)),
            ("conductivity side by side", "k_parallel_20C", "W/(m K)", k_parallel_w_m_k(&food, 20.0)),
            ("conductivity one behind the other", "k_series_20C", "W/(m K)", k_series_w_m_k(&food, 20.0)),
        ];
        for (slot, (what, column, unit, got)) in worst.iter_mut().zip(columns) {
            let source = "mixing rules of Choi & Okos (1986) by script, numpy 2.4.6";
            let outside = Outside::relative(row.number(column), PRINTED_SHARE, unit, Status::ReferenceLibrary, source);
            let id = format!("food.mixture.{}", what.replace(' ', "_"));
            slot.add(outside.against(&id, &format!("{what} of {} at 20 degC", row.text("food")), got));
        }
    }
    worst.into_iter().filter_map(Worst::into_check).collect()
}

/// Heat across freezing against quadrature by scipy, with the engine's law of ice and with the handbook's other one.
fn frozen() -> Vec<Check> {
    let table = Table::read(FROZEN);
    let (mut same, mut other) = (Worst::default(), Worst::default());
    for row in table.rows() {
        let food = Composition {
            water: row.number("water"),
            protein: row.number("protein"),
            fat: row.number("fat"),
            carbohydrate: row.number("carbohydrate"),
            fibre: row.number("fibre"),
            ash: row.number("ash"),
            freezing_c: row.number("freezing_c"),
        };
        let (from, to) = (row.number("from_c"), row.number("to_c"));
        let got = enthalpy_rise_j_kg(&food, from, to) / 1000.0;
        let what = format!("{} from {from} to {to} degC", row.text("food"));
        let source = "scipy 1.17.1 quadrature, tests/reference/frozen_dish.csv";
        let library = Status::ReferenceLibrary;
        let expected = row.number("heat_tchigeov_kj_kg");
        let outside = Outside::relative(expected, QUADRATURE_SHARE, "kJ/kg", library, source);
        same.add(outside.against("food.frozen.quadrature", &format!("heat to bring a kilogram of {what}"), got));
        if from < row.number("freezing_c") && to > 0.0 {
            let expected = row.number("heat_miles_kj_kg");
            let outside = Outside::relative(expected, LAWS_SHARE, "kJ/kg", library, source);
            let what = format!("heat to bring a kilogram of {what}, by the handbook's other law of ice");
            other.add(outside.against("food.frozen.other_law", &what, got));
        }
    }
    [same, other].into_iter().filter_map(Worst::into_check).collect()
}
