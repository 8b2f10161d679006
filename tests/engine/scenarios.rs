//! The demo scenarios answer what their names say, and an invented oven behaves as rough runs of the same equations and the
//! rules of the trade want it. Coarse on purpose: these hold through any honest change of the physics.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may stop where it likes")]

mod common;

use common::DEMOS;
use hearthload::report::{CarryReport, DishReport, Gives};
use hearthload::scenario;
use serde_json::{Value, json};

/// Answers about a scenario file after an edit.
fn answer(text: &str, edit: impl FnOnce(&mut Value)) -> CarryReport {
    let mut draft: Value = serde_json::from_str(text).unwrap();
    edit(&mut draft);
    hearthload::ask::carry(&scenario::resolve(&draft).unwrap(), false)
}

fn demo(name: &str) -> &'static str {
    DEMOS.iter().find(|demo| demo.0 == name).unwrap().1
}

fn within(what: &str, got: f64, range: std::ops::RangeInclusive<f64>) {
    println!("{what}: {got:.4}");
    assert!(range.contains(&got), "{what}: {got} is not in {range:?}");
}

/// How much of a resource is used at its tightest.
fn used(report: &CarryReport, what: Gives) -> f64 {
    report.verdict.loads.iter().find(|load| load.what == what).unwrap().used
}

/// What every demo owes a cook who reads it: its ledger closes, its known bakes are possible, its fire is clean and in the oven.
#[test]
fn every_demo_is_a_kitchen_that_could_be() {
    for (name, text) in DEMOS {
        let report = answer(text, |_| {});
        let ledger = &report.ledger_mj;
        let throughput = ledger.fire + ledger.assist;
        assert!((ledger.residual / throughput).abs() < 1e-9, "{name}: {ledger:?}");
        let out = ledger.food + ledger.doorway_flow + ledger.doorway_radiation + ledger.shell + ledger.stored;
        assert!(((throughput - out) / throughput).abs() < 1e-9, "{name}: {ledger:?}");
        for dish in &report.dishes {
            // Beyond these a time and a weight do not fit together.
            within(&format!("{name}, {}, base factor", dish.name), dish.base_factor, 0.4..=2.5);
            within(&format!("{name}, {}, top factor", dish.name), dish.top_factor, 0.4..=2.5);
        }
        within(&format!("{name}, kg/h at most"), report.wood.kg_per_h_peak, 2.0..=8.0);
        within(&format!("{name}, least air"), report.wood.lambda_least.unwrap(), 2.0..=6.0);
        within(&format!("{name}, flame's reach"), report.wood.flame_reach_most, 0.0..=1.0);
    }
}

/// Ready for the first order, and the usual bake within a third of the known one.
fn carries_well(report: &CarryReport) {
    assert!(report.verdict.carries && report.verdict.gives_first == Gives::None, "{}", report.verdict.says);
    let tightest = report.verdict.loads.iter().map(|load| load.used).fold(0.0, f64::max);
    // With steps of half a second and starts up to 0.3 K off, the smallest of them (the small one) comes to 0.736 to 0.762, by whether
    // one piece finds a spot at 195 or at 229 degC.
    within("tightest", tightest, 0.72..=0.95);
    for dish in &report.dishes {
        within(&dish.name, dish.share_in_band, 0.95..=1.0);
        within(&dish.name, dish.bake_s_median.unwrap() / dish.bake_s_known, 0.67..=1.2);
        within(&dish.name, report.floor.start_c, dish.floor_band_c[0]..=dish.floor_band_c[1]);
    }
}

#[test]
fn the_one_that_carries_carries() {
    carries_well(&answer(demo("carries"), |_| {}));
}

#[test]
fn the_small_one_carries_its_bread_and_its_lunch() {
    let report = answer(demo("small"), |_| {});
    carries_well(&report);
    assert_eq!(report.dishes[0].baked, 9);
}

#[test]
fn the_surprise_is_the_cold_iron() {
    let cold = answer(demo("surprise"), |_| {});
    assert!(!cold.verdict.carries);
    assert_eq!(cold.verdict.gives_first, Gives::FloorHeat);
    let at = &cold.verdict.broke.as_ref().unwrap().at;
    assert!(("18:45".."20:00").contains(&at.as_str()), "{at}");
    for dish in &cold.dishes {
        within(&dish.name, cold.floor.start_c, dish.floor_band_c[0]..=dish.floor_band_c[1]);
    }
    for plenty in [Gives::FloorSpace, Gives::Hands, Gives::TopHeat, Gives::DoorwayAir, Gives::Fire] {
        assert!(used(&cold, plenty) < 1.0, "{plenty:?}");
    }
    // The iron takes more than half of what its dish does.
    for dish in cold.dishes.iter().filter(|dish| dish.parts.carrier_kj > 0.0) {
        within(&dish.name, dish.parts.carrier_kj / dish.heat_kj, 0.5..=0.9);
    }
    let warm = answer(demo("surprise"), |draft| {
        for dish in draft["menu"].as_array_mut().unwrap() {
            if dish["carrier"].is_object() {
                dish["carrier"]["in_c"] = json!(180);
            }
        }
    });
    assert!(warm.verdict.carries, "{}", warm.verdict.says);
}

#[test]
fn the_assist_is_what_carries_the_market_hall() {
    let with = answer(demo("assist"), |_| {});
    carries_well(&with);
    within("gas, kWh", with.assist.kwh, 10.0..=60.0);
    // Dense fireclay bears 1250 degC.
    within("underside", with.assist.underside_most_c.unwrap(), 400.0..=900.0);
    let without = answer(demo("assist"), |draft| draft["oven"]["assist"] = Value::Null);
    assert!(!without.verdict.carries);
    // Its tops and then its floor break within minutes of each other; which first hangs on one piece's spot: with steps of half a
    // second it is the top for three of seven starts 0.1 K apart, the floor for the others. The floor lacks most in all of them.
    assert!(matches!(without.verdict.gives_first, Gives::FloorHeat | Gives::TopHeat), "{}", without.verdict.says);
    let at = &without.verdict.broke.as_ref().unwrap().at;
    assert!(("19:45".."20:00").contains(&at.as_str()), "{at}");
    within("floor heat", used(&without, Gives::FloorHeat), 1.1..=1.25);
    for other in [Gives::TopHeat, Gives::FloorSpace, Gives::Hands, Gives::DoorwayAir, Gives::Fire] {
        assert!(used(&without, other) < used(&without, Gives::FloorHeat), "{other:?}");
    }
}

/// Two dishes by hand: specific heats in kJ/(kg K) of water 4.19, solids 1.7, fat 2.05 (Choi and Okos 1986 near 60 degC), of iron
/// 0.5, and 2257 kJ/kg to boil water off (IAPWS-IF97 at 1 atm).
#[test]
fn two_dishes_by_hand() {
    let report = answer(demo("carries"), |_| {});
    // 250 g dough (45.0 % water, 0.9 % fat), 40 g onions (89.1, 0.1), 60 g mozzarella (54.1, 21.6), 18 to 95 degC, 10 % lost.
    let water_g = 250.0 * 0.450 + 40.0 * 0.891 + 60.0 * 0.541;
    let fat_g = 250.0 * 0.009 + 40.0 * 0.001 + 60.0 * 0.216;
    let solids_g = 350.0 - water_g - fat_g;
    let warmed_kj = 77.0 * (4.19 * water_g + 2.05 * fat_g + 1.7 * solids_g) / 1000.0;
    let boiled_kj = 35.0 * (2257.0 + 4.2 * 5.0) / 1000.0;
    let round = &report.dishes[0];
    assert!(
        (round.heat_kj / (warmed_kj + boiled_kj) - 1.0).abs() < 0.02,
        "{} {}",
        round.heat_kj,
        warmed_kj + boiled_kj
    );

    let report = answer(demo("surprise"), |_| {});
    // 100 g egg (76.2 % water, 9.5 % fat), 60 g tomato (89.9, 0.3), 12 to 80 degC, 6 % lost, in 1.8 kg of iron from 20 degC.
    let skillet: &DishReport = &report.dishes[0];
    let (water_g, fat_g) = (100.0 * 0.762 + 60.0 * 0.899, 100.0 * 0.095 + 60.0 * 0.003);
    let food_kj = 68.0 * (4.19 * water_g + 2.05 * fat_g + 1.7 * (160.0 - water_g - fat_g)) / 1000.0
        + 9.6 * (2257.0 + 4.2 * 20.0) / 1000.0;
    assert!(
        ((skillet.heat_kj - skillet.parts.carrier_kj) / food_kj - 1.0).abs() < 0.02,
        "{food_kj} {:?}",
        skillet.parts
    );
    // A pan comes out between the boil and the floor it stood on.
    within("the iron leaves at", 20.0 + skillet.parts.carrier_kj / (1.8 * 0.5), 150.0..=260.0);
}

/// An invented 1.4 m oven, 6 cm of dense fireclay, a 50 x 25 cm doorway, 136 kJ rounds, fed by pieces of 2.3 kg.
fn large(per_hour: f64, kg_h: f64, start_c: f64, entrainment: f64) -> CarryReport {
    let text = json!({
        "hearthload": 1,
        "oven": {
            "shape": "round", "width_cm": 140, "reading": "gun", "dome_rise_cm": 53, "door_width_cm": 50,
            "door_height_cm": 25, "entrainment_factor": entrainment, "fire_side": "left",
            "floor_layers": [
                {"material": "fireclay_dense", "thickness_cm": 6}, {"material": "calcium_silicate", "thickness_cm": 10}
            ]
        },
        "wood": {"species": "oak", "meter_percent_dry": 15, "piece_diameter_cm": 10, "piece_length_cm": 40},
        "start": {"read_at": "14:00", "floor_c": start_c, "dome_c": start_c + 15.0},
        "menu": [{
            "name": "Round",
            "ingredients": [{"food": "pizza_dough", "grams": 256}, {"food": "tomato_sauce", "grams": 66}],
            "footprint": {"shape": "round", "diameter_cm": 28},
            "start_c": 20, "end_c": 95, "bake_loss_percent": 8.5,
            "known_bake": {"minutes": 3, "floor_c": 340, "dome_c": 400, "flame": "low", "seen": "together"},
            "floor_min_c": 60, "floor_max_c": 600, "dome_min_c": 60, "dome_max_c": 900, "per_100_covers": 100
        }],
        "service": {
            "start": "18:00", "end": "22:00", "covers": vec![per_hour / 4.0; 16], "arrivals": "even", "hands": 6
        },
        "feeding": {
            "light_at": "14:00", "kindling_kg": 2.5,
            "phases": [{"from": "14:10", "to": "22:00", "every_min": 60.0 * 2.312 / kg_h, "pieces": 1}]
        }
    });
    answer(&text.to_string(), |_| {})
}

/// Mean floor and dome from 21:00 on, degC.
fn last_hour(report: &CarryReport) -> [f64; 2] {
    let last: Vec<_> =
        report.floor.by_quarter_hour.iter().filter(|q| ("21:00".."22:00").contains(&q.time.as_str())).collect();
    let mean =
        |of: fn(&hearthload::report::FloorQuarter) -> f64| last.iter().map(|q| of(q)).sum::<f64>() / last.len() as f64;
    [mean(|q| q.mean_c), mean(|q| q.dome_c)]
}

/// Rough runs of the same equations, by hand and by script, gave 333 degC at loading for 120 an hour on 4.4 kg/h.
#[test]
fn the_floor_sags_with_the_load_and_the_dome_stands_above_it() {
    let mut was_c = f64::INFINITY;
    for (per_hour, floor) in [(60.0, 380.0..=430.0), (120.0, 320.0..=380.0), (200.0, 200.0..=300.0)] {
        let report = large(per_hour, 4.4, 350.0, 0.6);
        let [floor_c, dome_c] = last_hour(&report);
        within(&format!("{per_hour}/h"), floor_c, floor);
        assert!(floor_c < was_c - 20.0);
        // Falciano, Masi and Moresi 2022 and the review of 2024: 40 to 100 K; more where cold food covers the floor.
        within("dome above floor", dome_c - floor_c, if per_hour < 150.0 { 40.0..=100.0 } else { 40.0..=180.0 });
        was_c = floor_c;
    }
}

/// The biggest unknown: rough runs gave 405 / 349 / 284 degC at 0.4 / 0.6 / 1.0 and 100 an hour.
#[test]
fn air_drawn_in_moves_the_floor_by_many_tens_of_kelvin() {
    let at = |factor: f64| last_hour(&large(100.0, 4.4, 350.0, factor))[0];
    let [little, usual, much] = [at(0.4), at(0.6), at(1.0)];
    within("0.4 over 0.6", little - usual, 30.0..=90.0);
    within("0.6 over 1.0", usual - much, 15.0..=90.0);
}

/// About two hours heat a warm oven (common practice, no source).
#[test]
fn two_hours_of_a_brisk_fire_heat_a_warm_oven() {
    for start_c in [120.0, 160.0] {
        let report = large(0.001, 6.0, start_c, 0.6);
        let at_four = report.floor.by_quarter_hour.iter().find(|q| q.time == "16:15").unwrap();
        within(&format!("two hours from {start_c}"), at_four.mean_c, 290.0..=370.0);
    }
}

/// One single order on an oven held near the known floor and dome bakes in about the known time.
#[test]
fn a_known_bake_comes_back_in_the_full_oven() {
    let report = large(1.0, 3.1, 330.0, 0.6);
    let [floor_c, dome_c] = last_hour(&report);
    within("floor", floor_c, 325.0..=365.0);
    within("dome", dome_c, 385.0..=425.0);
    within("bake against the known", report.dishes[0].bake_s_median.unwrap() / 180.0, 0.8..=1.15);
}

#[test]
fn a_dish_held_back_by_its_own_cap_is_said_to_be_and_not_the_floor() {
    let report = answer(demo("carries"), |draft| draft["menu"][0]["cap_per_quarter"] = json!(6));
    assert_eq!(report.verdict.gives_first, Gives::Cap, "{}", report.verdict.says);
    let text = report.verdict.because.replace('\u{a0}', " ");
    assert!(report.verdict.says.contains("its own cap holds orders back for Leek and cheese round"), "{text}");
    assert!(text.contains("its own cap lets 6 pieces be started in a quarter hour"), "{text}");
}
