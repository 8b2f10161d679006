//! Owns the rules of the trade as checks: nobody wrote them down, every cook knows them.

use super::runs::{Mean, feed, measured, reaches, watch};
use crate::hearth::build::{Build, DEFAULT_ACCURACY};
use crate::hearth::oven::Hearth;
use crate::proof::{Check, Outside, Status};
use crate::scenario::{Layer, Scenario};
use crate::units::time::HOUR_S;

const TRADE: &str = "common practice, no source";

/// All of them.
pub fn checks() -> Vec<Check> {
    let Some(scenario) = measured() else { return Vec::new() };
    let large = widened(&scenario, 1.4);
    vec![heating(&widened(&scenario, 1.2)), idling(&large), morning(&large)]
}

/// The same kitchen with a larger and heavier oven: 6 cm of dense fireclay under, 8 cm above, a 50 x 25 cm doorway.
fn widened(scenario: &Scenario, width_m: f64) -> Scenario {
    let layer = |material: &str, thickness_m: f64| Layer { material: material.to_owned(), thickness_m };
    let mut other = scenario.clone();
    let oven = &mut other.oven;
    (oven.width_m, oven.depth_m) = (width_m, width_m);
    oven.dome_rise_m = 0.38 * width_m;
    (oven.door_width_m, oven.door_height_m) = (0.50, 0.25);
    oven.floor_layers = vec![layer("fireclay_dense", 0.06), layer("calcium_silicate", 0.10)];
    oven.dome_layers = vec![layer("fireclay_dense", 0.08), layer("ceramic_fibre", 0.10)];
    other
}

/// Two hours heat a warm oven.
fn heating(scenario: &Scenario) -> Check {
    /// A hearth is ready for its first dishes from here, degC.
    const READY_C: f64 = 320.0;
    let mut warm = scenario.clone();
    (warm.start.floor_c, warm.start.dome_c) = (120.0, 120.0);
    let lit = warm.feeding.light_at;
    // A brisk fire of the kind ovens are heated with.
    feed(&mut warm, 8.0, lit + 6.0 * HOUR_S);
    let build = Build::new(&warm, DEFAULT_ACCURACY);
    let mut ready_h = f64::NAN;
    watch(&build, &warm, lit + 5.0 * HOUR_S, |hearth, _| {
        if ready_h.is_nan() && hearth.food_floor_c() >= READY_C {
            ready_h = (hearth.time_s - lit) / HOUR_S;
        }
    });
    Outside::within(2.0, 0.75, "h", Status::CommonPractice, TRADE).against(
        "house.heating",
        "8 kg/h bring a warm 1.2 m oven from 120 to 320 degC",
        ready_h,
    )
}

/// Idle near 290 degC on a 1.4 m floor takes 0.7-2.5 kg/h.
fn idling(scenario: &Scenario) -> Check {
    let mut idle = scenario.clone();
    (idle.start.floor_c, idle.start.dome_c) = (290.0, 300.0);
    idle.feeding.kindling_kg = 1.0;
    let lit = idle.feeding.light_at;
    let build = Build::new(&idle, DEFAULT_ACCURACY);
    let level = |kg_per_h: f64| {
        let mut fed = idle.clone();
        feed(&mut fed, kg_per_h, lit + 9.0 * HOUR_S);
        let mut floor = Mean::default();
        watch(&build, &fed, lit + 8.0 * HOUR_S, |hearth, dt| {
            if hearth.time_s > lit + 6.0 * HOUR_S {
                floor.add(hearth.food_floor_c(), dt);
            }
        });
        floor.value()
    };
    let got = reaches(0.3, 6.0, 290.0, level);
    Outside::between(0.7, 2.5, "kg/h", Status::CommonPractice, TRADE).against(
        "house.idling",
        "wood that keeps a 1.4 m floor near 290 degC with nothing on it",
        got,
    )
}

/// A well kept oven is still warm in the morning.
fn morning(scenario: &Scenario) -> Check {
    let mut night = scenario.clone();
    (night.start.floor_c, night.start.dome_c) = (300.0, 320.0);
    night.feeding.kindling_kg = 0.0;
    night.feeding.phases.clear();
    let build = Build::new(&night, DEFAULT_ACCURACY);
    let mut hearth = Hearth::new(&build, &night);
    hearth.close_doors(Some(night.oven.door_leak_kg_s));
    let shut = hearth.time_s;
    while hearth.time_s < shut + 9.0 * HOUR_S {
        hearth.step(15.0, &mut [], &[]);
    }
    Outside::between(150.0, 260.0, "degC", Status::CommonPractice, TRADE).against(
        "house.morning",
        "floor after nine hours behind closed doors, from 300 degC",
        hearth.food_floor_c(),
    )
}
