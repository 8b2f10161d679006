//! Owns the checks of what a dish needs: dough by loss, a topped round, bread, water.

use super::{Check, Outside, Status, Table, published};
use crate::demand::{BOIL_J_KG, need};
use crate::scenario::{Dish, Flame, Footprint, Ingredient, KnownBake, SeenAtLifting};

const STEAM: &str = include_str!("../../../tests/reference/water_steam.csv");

/// All of them.
pub fn checks() -> Vec<Check> {
    let table = Table::read(STEAM);
    let steam = table.rows_where("T_C", "100").next().map_or(f64::NAN, |row| row.number("h_fg_IF97"));
    let boiling = Outside::relative(steam, 2e-4, "kJ/kg", Status::Standard, "IAPWS-IF97 (iapws 1.5.5)");
    let mut all = vec![boiling.against("demand.boiling", "heat that boils water off at 100 degC", BOIL_J_KG / 1000.0)];
    // 2.8 kJ/(kg K) from 28 to 97 degC, and the loss at 2257 kJ/kg.
    for (loss, id) in [(0.10, "DOUGH-10"), (0.12, "DOUGH-12"), (0.15, "DOUGH-15")] {
        let dough = dish(&[("pizza_dough", 1.0)], 28.0, 97.0, loss);
        let hand = published::within_share(
            id,
            0.01,
            "kJ/kg",
            Status::CommonPractice,
            "hand arithmetic: c 2.8 kJ/(kg K), 2257 kJ/kg",
        );
        let percent = 100.0 * loss;
        all.push(hand.against(
            &format!("demand.dough.{percent:.0}"),
            &format!("heat of a kilogram of dough at {percent:.0} % loss"),
            need(&dough).total_j / 1000.0,
        ));
    }
    let round =
        dish(&[("pizza_dough", 0.25), ("tomato_sauce", 0.07), ("mozzarella_fresh", 0.03)], 22.0, 84.5, 30.0 / 350.0);
    let hand = published::measured(
        "ROUND-350g",
        "kJ",
        Status::CommonPractice,
        "hand arithmetic: 60-65 K rise, 25-35 g of water lost",
    );
    all.push(hand.against(
        "demand.round",
        "heat of 250 g of dough with 100 g of topping",
        need(&round).total_j / 1000.0,
    ));
    all.extend(bread());
    all
}

/// The least heat that bakes bread, and the part of it that is evaporation, by kilogram of bread.
fn bread() -> Vec<Check> {
    const SOURCE: &str = "cereal technology 70(2):75-82 (2016), physical minimum, pieces with much crust";
    // Loss at which evaporation is what the source says: 0.65 of the heat over 2257 kJ/kg on 1 kg of bread.
    let lost_kg_by_bread_kg = 0.65 * published::figure("Z16-bread-min").value / 2257.0;
    let loss = lost_kg_by_bread_kg / (1.0 + lost_kg_by_bread_kg);
    let loaf = need(&dish(&[("bread_dough", 1.0)], 28.0, 98.0, loss));
    let bread_kg = loaf.mass_kg - loaf.water_lost_kg;
    vec![
        published::within_share("Z16-bread-min", 0.05, "kJ/kg", Status::Published, SOURCE).against(
            "demand.bread",
            "heat by kilogram of bread",
            loaf.total_j / 1000.0 / bread_kg,
        ),
        // The loss was worked out from this very share.
        Outside::within(65.0, 4.0, "%", Status::Consistency, SOURCE).against(
            "demand.bread.steam",
            "part of the heat of bread that is evaporation",
            100.0 * loaf.water_boiled_j / loaf.total_j,
        ),
    ]
}

/// A dish without a carrier.
fn dish(parts: &[(&str, f64)], start_c: f64, end_c: f64, bake_loss: f64) -> Dish {
    let ingredients = parts.iter().map(|&(food, mass_kg)| Ingredient { food: food.to_owned(), mass_kg }).collect();
    Dish {
        name: String::new(),
        ingredients,
        footprint: Footprint::Round { diameter_m: 0.32 },
        carrier: None,
        start_c,
        end_c,
        bake_loss,
        known_bake: KnownBake {
            time_s: 90.0,
            floor_c: 430.0,
            dome_c: 480.0,
            flame: Flame::Low,
            seen: SeenAtLifting::Nothing,
        },
        floor_min_c: 350.0,
        floor_max_c: 500.0,
        dome_min_c: 350.0,
        dome_max_c: 600.0,
        per_100_covers: 100.0,
        cap_per_quarter: None,
        margin_each: None,
        needs_core_check: false,
    }
}
