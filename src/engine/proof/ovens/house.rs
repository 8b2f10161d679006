//! Owns the rules of the trade as checks: nobody wrote them down, every cook knows them.

use super::runs::{Mean, feed, measured, of_width, reaches, watch};
use crate::hearth::build::{Build, DEFAULT_ACCURACY};
use crate::hearth::oven::Hearth;
use crate::matter::wood::Fuel;
use crate::plan::first_firing::schedule;
use crate::proof::{Check, Outside, Status};
use crate::scenario::{Assist, AssistControl, Layer, Scenario};
use crate::service::night::{Keep, Ready, play};
use crate::units::time::HOUR_S;

const TRADE: &str = "common practice, no source";

/// All of them.
pub fn checks() -> Vec<Check> {
    let Some(scenario) = measured() else { return Vec::new() };
    let large = widened(&scenario, 1.4);
    let usual = widened(&scenario, 1.2);
    vec![heating(&usual), first_hours(&usual), idling(&large), morning(&large), busy_with_assist(&large)]
}

/// The same kitchen with a larger and heavier oven: 6 cm of dense fireclay under, 8 cm above, a 50 x 25 cm doorway.
fn widened(scenario: &Scenario, width_m: f64) -> Scenario {
    let layer = |material: &str, thickness_m: f64| Layer { material: material.to_owned(), thickness_m };
    let mut other = of_width(scenario, width_m);
    let oven = &mut other.oven;
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

/// A new oven's fire is kept low for its first four hours, under about 180 degC and no longer at what dries stone without heating
/// it. What is asked: whether a fire that a cook can keep, split by split, holds an oven there.
fn first_hours(scenario: &Scenario) -> Check {
    let schedule = schedule(&Ready::new(scenario, DEFAULT_ACCURACY), None);
    let four_hours = schedule.days.iter().filter(|planned| planned.day.hold_s >= 4.0 * HOUR_S);
    // The hottest of the days that are held for four hours and under 200 degC: the rule's own.
    let hottest = four_hours
        .map(|planned| planned.dome_most_c.max(planned.floor_most_c))
        .filter(|&c| c < 200.0)
        .fold(f64::NAN, f64::max);
    Outside::between(100.0, 180.0, "degC", Status::CommonPractice, TRADE).against(
        "house.first_hours",
        "hottest face of a new oven over the four hours of a fire of small splits that is kept low",
        hottest,
    )
}

/// One piece each 20 to 30 minutes at high production with assist.
fn busy_with_assist(large: &Scenario) -> Check {
    /// Rounds an hour that are many for a 1.4 m floor, as the notes on rough runs take them.
    const ROUNDS_PER_H: f64 = 120.0;
    /// Floor at the first order, and what it may lie under that in the last half hour, degC and K.
    const FLOOR_C: f64 = 340.0;
    const SINKS_K: f64 = 10.0;
    let mut busy = large.clone();
    (busy.start.floor_c, busy.start.dome_c) = (FLOOR_C, FLOOR_C + 50.0);
    // From a warm oven: lit half an hour before the first order, two hours of service.
    busy.feeding.light_at = busy.service.start - 0.5 * HOUR_S;
    busy.start.read_at = busy.feeding.light_at;
    busy.service.covers = vec![0.25 * ROUNDS_PER_H; 8];
    busy.service.end = busy.service.start + 2.0 * HOUR_S;
    busy.promise.queue_gone_by = busy.service.end + 0.5 * HOUR_S;
    busy.service.hands = 3;
    // Pieces of 2.2 kg, as they are for floors of this size.
    busy.wood.piece_diameter_m = 0.10;
    busy.wood.piece_length_m *= 2.2 / Fuel::new(&busy.wood).piece_mass_kg;
    (busy.menu[0].floor_min_c, busy.menu[0].dome_min_c) = (250.0, 250.0);
    busy.oven.assist = Some(Assist {
        rated_w: 17_000.0,
        delivered_share: 0.45,
        control: AssistControl::OnOff,
        probe_across: 0.3,
        probe_along: 0.5,
        probe_depth_m: 0.02,
        set_c: FLOOR_C,
        dead_band_k: 10.0,
        on_at: busy.feeding.light_at,
        off_at: busy.service.end,
    });
    let sinks = |kg_per_h: f64| {
        let mut fed = busy.clone();
        let end = fed.service.end;
        feed(&mut fed, kg_per_h, end);
        let ready = Ready::new(&fed, DEFAULT_ACCURACY);
        let trace = play(&ready, Keep::default());
        let late: Vec<f64> = trace
            .quarters
            .iter()
            .filter(|q| q.at_s >= end - 0.5 * HOUR_S - 1.0 && q.at_s < end - 1.0)
            .map(|quarter| quarter.mean_c)
            .collect();
        late.iter().sum::<f64>() / late.len() as f64
    };
    let kg_per_h = reaches(0.5, 12.0, FLOOR_C - SINKS_K, sinks);
    let minutes = 60.0 * Fuel::new(&busy.wood).piece_mass_kg / kg_per_h;
    Outside::between(20.0, 30.0, "min", Status::CommonPractice, TRADE).against(
        "house.busy",
        "between pieces of 2.2 kg that hold a 1.4 m floor within 10 K at 120 rounds an hour, a burner of 17 kW below it",
        minutes,
    )
}
