//! Owns the measures of one floor: what it holds, burns, idles at and sends up the hood, as the standards for ovens define them.
//!
//! Preheat energy, idle energy rate, production capacity and cooking energy efficiency are worded as in the scopes of ASTM F1965
//! (deck ovens) and F3216: energy from the match to ready, the rate that holds it ready without food, the most food cooked in an
//! hour, and energy absorbed by food over energy input meanwhile. Those standards' own foods and runs are not followed: the menu
//! is cooked.

use super::feeding_rule::{Heating, Paced, Rhythm, fed, heat_up, pace, ready_by};
use super::reach::{STEPS_IN_ONE, at_steps};
use super::week::{Week, week};
use crate::hearth::oven::Hearth;
use crate::matter::stone;
use crate::scenario::{Layer, Scenario};
use crate::service::judge::Breach;
use crate::service::night::{Keep, Ready, play, run};
use crate::service::orders::orders;
use crate::service::trace::{Bake, Trace};
use crate::units::GRAVITY_M_S2;
use crate::units::time::{HOUR_S, QUARTER_S};

/// Covers are looked at in steps of an eighth of the evening: a ladder compares floors.
const STEP: u32 = STEPS_IN_ONE / 8;
/// Up to so many times the evening as planned.
const TIMES_MOST: u32 = 3;
/// Idling is watched for this long, s; it has settled by half of it.
const IDLE_S: f64 = 3.0 * HOUR_S;
/// Halvings of the idle pace.
const IDLE_HALVINGS: u32 = 5;

/// What the fire, the house and the week see of a floor.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct House {
    /// Most flow up the hood in any quarter hour, kg/s.
    pub hood_kg_s: f64,
    /// Heat that flow carries above the kitchen, W.
    pub hood_w: f64,
    /// Radiated from the doorway and through the shell, mean from the match to the end, W.
    pub room_w: f64,
    /// Stacked wood for a week, m3.
    pub stack_m3_week: f64,
    /// Ash in a week, kg.
    pub ash_kg_week: f64,
    /// Weight of floor and dome by the area they stand on, Pa.
    pub floor_pa: f64,
}

/// One floor, fed by the rule.
#[derive(Clone, Debug, PartialEq)]
pub struct Rung {
    /// The scenario of this floor.
    pub scenario: Scenario,
    /// What the evening as planned breaks, if it breaks anything.
    pub breach: Option<Breach>,
    /// The rhythm it is fed by.
    pub rhythm: Rhythm,
    /// How it heats up.
    pub heating: Heating,
    /// Most steps (fortieths of the evening) it holds.
    pub steps: u32,
    /// Pieces lifted in the busiest hour of the most it holds.
    pub pieces_per_h: f64,
    /// Food lifted in that hour, kg/h.
    pub capacity_kg_h: f64,
    /// Heat into that food over heat input meanwhile.
    pub cooking_efficiency: f64,
    /// Coolest spot at loading of the evening as planned, degC.
    pub lowest_c: Option<f64>,
    /// Wood of an open day, kg.
    pub wood_kg_day: f64,
    /// Gas of a week, J.
    pub gas_j_week: f64,
    /// The week: its wood, its mornings.
    pub week: Week,
    /// Holds the floor without food, W.
    pub idle_w: f64,
    /// What the house sees.
    pub house: House,
}

/// Works one floor out; its shut doors let so much through, kg/s.
#[must_use]
pub fn rung(ready: &Ready, leak_kg_s: f64) -> Rung {
    let heating = heat_up(ready);
    let planned = pace(ready, &heating, 0.5 * heating.cleanest_kg_h, true);
    let (steps, most) = most(ready, &heating, &planned);
    let fed_day = fed(ready, &planned.rhythm);
    let mut hearth = Hearth::new(&fed_day.build, &fed_day.scenario);
    let trace = run(&fed_day, &mut hearth, orders(&fed_day.scenario), Keep::default());
    let week = week(&fed_day, &heating, &trace, hearth, leak_kg_s);
    let busiest = most.map_or_else(Busiest::default, |(ready, trace)| Busiest::of(&ready, &trace));
    let gas_j: f64 = trace.quarters.iter().map(|q| q.gas_j).sum();
    Rung {
        breach: planned.breach,
        rhythm: planned.rhythm,
        heating,
        steps,
        pieces_per_h: busiest.pieces,
        capacity_kg_h: busiest.food_kg,
        cooking_efficiency: busiest.efficiency,
        lowest_c: trace.bakes.iter().map(|b| b.at_load_c).min_by(f64::total_cmp),
        wood_kg_day: trace.light_up_kg + trace.service_kg,
        gas_j_week: gas_j * ready.scenario.planning.days_open_per_week,
        week,
        idle_w: idle_w(ready, &heating),
        house: house(&fed_day, &trace, week.wood_kg),
        scenario: fed_day.scenario.clone(),
    }
}

/// The most steps this floor holds, each fed at the pace that suits it, and that evening played.
fn most(ready: &Ready, heating: &Heating, planned: &Paced) -> (u32, Option<(Ready, Trace)>) {
    let mut hint = planned.rhythm.serve_kg_h;
    let mut best = planned.breach.is_none().then_some((STEPS_IN_ONE, planned.rhythm));
    let mut holds = |steps: u32| {
        let found = pace(&at_steps(ready, steps), heating, hint, false);
        if found.breach.is_none() {
            hint = found.rhythm.serve_kg_h;
        }
        found.breach.is_none().then_some((steps, found.rhythm))
    };
    let (mut good, mut bad) =
        if best.is_some() { (STEPS_IN_ONE, TIMES_MOST * STEPS_IN_ONE + STEP) } else { (0, STEPS_IN_ONE) };
    let mut stride = 2 * STEP;
    while bad > good + STEP {
        let is_open = bad > TIMES_MOST * STEPS_IN_ONE;
        let middle = (good + bad) / 2 / STEP * STEP;
        let next = if is_open { (good + stride).min(TIMES_MOST * STEPS_IN_ONE) } else { middle.max(good + STEP) };
        match holds(next) {
            Some(found) => (good, best) = (next, Some(found)),
            None => bad = next,
        }
        stride *= 2;
    }
    let played = best.map(|(steps, rhythm)| {
        let ready = fed(&at_steps(ready, steps), &rhythm);
        let trace = play(&ready, Keep::default());
        (ready, trace)
    });
    (good, played)
}

/// The busiest hour of an evening.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Busiest {
    pieces: f64,
    food_kg: f64,
    efficiency: f64,
}

impl Busiest {
    fn of(ready: &Ready, trace: &Trace) -> Self {
        let lifted = |from: f64| -> Vec<&Bake> {
            let within = |b: &&Bake| b.to_s.is_some_and(|at| (from..from + HOUR_S).contains(&at));
            trace.bakes.iter().filter(within).collect()
        };
        let hours = trace.quarters.iter().map(|q| q.at_s);
        let Some(from) = hours.max_by(|a, b| lifted(*a).len().cmp(&lifted(*b).len()).then(b.total_cmp(a))) else {
            return Self::default();
        };
        let bakes = lifted(from);
        let need = |b: &Bake| &ready.laws[b.dish].need;
        // What a pan takes is no food.
        let food_j: f64 = bakes.iter().map(|b| (b.base_j + b.top_j - need(b).carrier_j.max(0.0)).max(0.0)).sum();
        let hour = trace.quarters.iter().filter(|q| (from..from + HOUR_S - 1.0).contains(&q.at_s));
        let input_j: f64 = hour.map(|q| q.wood_kg * ready.build.fuel.lhv_j_kg + q.gas_j).sum();
        Self {
            pieces: bakes.len() as f64,
            food_kg: bakes.iter().map(|b| need(b).mass_kg).sum(),
            efficiency: if input_j > 0.0 { food_j / input_j } else { 0.0 },
        }
    }
}

/// The rate of heat input that holds the floor ready without food: the pace at which it neither gains nor loses over an hour
/// and a half, by halving; W.
fn idle_w(ready: &Ready, heating: &Heating) -> f64 {
    let by = ready_by(&ready.scenario);
    let idle = |kg_h: f64| {
        let rhythm = Rhythm { serve_kg_h: kg_h, ..heating.rhythm };
        let empty = ready.with(|scenario| {
            scenario.service.covers.clear();
            scenario.service.batches.clear();
            scenario.service.wipes.clear();
            scenario.service.start = by;
            // The rule stops feeding half an hour before the end; that half hour is not looked at.
            scenario.service.end = by + IDLE_S + 0.5 * HOUR_S;
        });
        play(&fed(&empty, &rhythm), Keep::default())
    };
    let at = |trace: &Trace, at_s: f64| {
        trace.quarters.iter().filter(|q| q.at_s + QUARTER_S <= at_s + 1.0).map(|q| q.mean_c).next_back()
    };
    let gains = |trace: &Trace| at(trace, by + IDLE_S) >= at(trace, by + 0.5 * IDLE_S);
    let (mut low, mut high) = (0.1 * heating.cleanest_kg_h, heating.cleanest_kg_h);
    for _ in 0..IDLE_HALVINGS {
        let middle = (low * high).sqrt();
        if gains(&idle(middle)) { high = middle } else { low = middle }
    }
    let trace = idle((low * high).sqrt());
    let late = trace.quarters.iter().filter(|q| q.at_s >= by + 0.5 * IDLE_S - 1.0 && q.at_s < by + IDLE_S - 1.0);
    late.map(|q| q.wood_kg * ready.build.fuel.lhv_j_kg + q.gas_j).sum::<f64>() / (0.5 * IDLE_S)
}

fn house(ready: &Ready, trace: &Trace, wood_kg_week: f64) -> House {
    let most = |f: fn(&crate::service::trace::Quarter) -> f64| trace.quarters.iter().map(f).fold(0.0, f64::max);
    let lit_s = (trace.ended_s - ready.scenario.feeding.light_at).max(QUARTER_S);
    let fuel = crate::matter::wood::Fuel::new(&ready.scenario.wood);
    House {
        hood_kg_s: most(|q| q.out_kg_s),
        hood_w: most(|q| q.flow_w),
        room_w: (trace.ledger.doorway_radiation_j + trace.ledger.shell_j) / lit_s,
        stack_m3_week: wood_kg_week * fuel.stacked_m3_kg(),
        ash_kg_week: wood_kg_week * fuel.ash_share_as_fired(),
        floor_pa: floor_pa(ready),
    }
}

/// Weight of floor and dome over the area within the dome's outside, Pa.
fn floor_pa(ready: &Ready) -> f64 {
    let oven = &ready.scenario.oven;
    let by_area = |layers: &[Layer]| -> f64 {
        layers.iter().map(|l| stone::material_or_default(&l.material).density_kg_m3 * l.thickness_m).sum()
    };
    let thick_m: f64 = oven.dome_layers.iter().map(|l| l.thickness_m).sum();
    let dome_m2: f64 = ready.build.patch_area_m2.iter().sum();
    let grown = (oven.width_m + 2.0 * thick_m) * (oven.depth_m + 2.0 * thick_m) / (oven.width_m * oven.depth_m);
    let stands_m2 = ready.build.plan.area_m2 * grown;
    let mass_kg = by_area(&oven.floor_layers) * stands_m2 + by_area(&oven.dome_layers) * dome_m2;
    mass_kg * GRAVITY_M_S2 / stands_m2
}
