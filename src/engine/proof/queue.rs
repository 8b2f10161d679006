//! Owns the checks of the service's queue by itself: hands as servers, orders at random, a floor that never lacks room or heat.

use super::ovens::{feed, measured_oven};
use super::{Check, Outside, Status, Table};
use crate::hearth::build::DEFAULT_ACCURACY;
use crate::hearth::oven::Hearth;
use crate::scenario::Scenario;
use crate::service::night::{Keep, Ready, run};
use crate::service::orders::Order;
use rand::{RngExt, SeedableRng, rngs::Xoshiro256PlusPlus};

const FIXED: &str = include_str!("../../../tests/reference/waiting_mdc.csv");
/// Orders of one run, and those at its start that are left out of the mean.
const ORDERS: (usize, usize) = (6000, 200);
/// What a run of so many orders may be off its law, measured over seeds: about two of its standard errors.
const SHARE: f64 = 0.12;
/// What one load keeps a hand busy, s.
const LOAD_S: f64 = 240.0;

/// All of them.
pub fn checks() -> Vec<Check> {
    let Some(scenario) = measured_oven() else { return Vec::new() };
    let table = Table::read(FIXED);
    let mut all = Vec::new();
    for (hands, rho, status, source) in [
        (1_u32, "0.7", Status::Published, "Pollaczek (1930), Khinchine (1932): M/D/1"),
        (
            2,
            "0.7",
            Status::ReferenceLibrary,
            "Crommelin (1932), chain solved by scipy 1.17.1, tests/reference/waiting_mdc.csv",
        ),
    ] {
        let expected = table
            .rows_where("rho", rho)
            .find(|row| row.text("c") == hands.to_string())
            .map_or(f64::NAN, |row| row.number("Wq"));
        let got = mean_wait_s(&scenario, hands, rho.parse().unwrap_or(f64::NAN)) / LOAD_S;
        let outside = Outside::relative(expected, SHARE, "loads", status, source);
        let what = format!("mean wait for {hands} hand(s) busy {rho} of the time, in times of one load (M/D/{hands})");
        all.push(outside.against(&format!("queue.mdc.{hands}"), &what, got));
    }
    all
}

/// Mean time from order to the start of its load, s.
fn mean_wait_s(scenario: &Scenario, hands: u32, rho: f64) -> f64 {
    let mut s = scenario.clone();
    let between_s = LOAD_S / (f64::from(hands) * rho);
    s.service.hands = hands;
    (s.service.load_s, s.service.turn_s, s.service.lift_s) = (LOAD_S, 0.0, 0.0);
    s.service.patience_s = 0.0;
    s.service.end = s.service.start + 1.2 * between_s * ORDERS.0 as f64;
    s.promise.queue_gone_by = s.service.end;
    // A crumb on a warm floor: the bake is short and takes no heat to speak of.
    for dish in &mut s.menu {
        dish.ingredients.iter_mut().for_each(|part| part.mass_kg *= 0.02);
        (dish.floor_min_c, dish.floor_max_c, dish.dome_min_c, dish.dome_max_c) = (0.0, 2000.0, 0.0, 2000.0);
    }
    (s.start.floor_c, s.start.dome_c) = (300.0, 300.0);
    let end = s.service.end;
    feed(&mut s, 2.0, end);
    let mut coarse = DEFAULT_ACCURACY;
    coarse.cell_m = 0.35;
    coarse.fineness.growth = 2.0;
    coarse.fineness.coarsest_m = 0.1;
    coarse.busy_step_s = 60.0;
    coarse.idle_step_s = 60.0;
    let ready = Ready::new(&s, coarse);
    let mut hearth = Hearth::new(&ready.build, &ready.scenario);
    let trace = run(&ready, &mut hearth, at_random(s.service.start, between_s), Keep::default());
    let mut bakes: Vec<(f64, f64)> = trace.bakes.iter().map(|bake| (bake.ordered_s, bake.wait_s() - LOAD_S)).collect();
    bakes.sort_by(|a, b| a.0.total_cmp(&b.0));
    let counted = bakes.get(ORDERS.1..).unwrap_or_default();
    counted.iter().map(|bake| bake.1).sum::<f64>() / counted.len() as f64
}

/// Orders with exponential gaps, by inversion.
fn at_random(from_s: f64, between_s: f64) -> Vec<Order> {
    let mut rng = Xoshiro256PlusPlus::seed_from_u64(1917);
    let mut at_s = from_s;
    (0..ORDERS.0)
        .map(|_| {
            let u: f64 = rng.random();
            at_s -= between_s * libm::log1p(-u);
            Order { dish: 0, at_s, batch: false }
        })
        .collect()
}
