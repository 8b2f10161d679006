//! Owns the checks of the service's queue by itself: hands as servers, orders at random, a floor that never lacks room or heat.
//!
//! The laws hold for endless runs; one of some thousand orders strays from them by chance. So each run is held twice: against
//! the law, within what chance does to so many orders, and against the recursion of Kiefer & Wolfowitz on the very same orders,
//! closely. A run that strays from its law does so on the recursion's word too.

use super::ovens::{feed, measured_oven};
use super::{Check, Outside, Row, Status, Table};
use crate::hearth::build::DEFAULT_ACCURACY;
use crate::hearth::oven::Hearth;
use crate::numerics::order;
use crate::scenario::Scenario;
use crate::service::night::{Keep, Ready, run};
use crate::service::orders::Order;
use crate::service::trace::Held;
use rand::{RngExt, SeedableRng, rngs::Xoshiro256PlusPlus};

const FIXED: &str = include_str!("../../../tests/reference/waiting_mdc.csv");
const RANDOM: &str = include_str!("../../../tests/reference/erlang_c.csv");
/// Orders of one run, and those at its start that are left out of the mean.
const ORDERS: (usize, usize) = (6000, 200);
/// What two such runs may be off their law: two standard errors, measured over forty seeds (5 % for a run and its opposite; 8 to
/// 11 % for one run alone).
const SHARE: f64 = 0.10;
/// What the service may be off the recursion on the same orders: hands are looked at each quarter of a second.
const SAME_SHARE: f64 = 0.005;
/// What one load keeps a hand busy on average, s.
const LOAD_S: f64 = 240.0;

/// All of them.
pub fn checks() -> Vec<Check> {
    let Some(scenario) = measured_oven() else { return Vec::new() };
    let (fixed, random) = (Table::read(FIXED), Table::read(RANDOM));
    let of = |table: &Table, kind: Option<&str>, hands: u32, rho: &str, column: &str| {
        let fits =
            |row: &Row<'_>| row.text("c") == hands.to_string() && kind.is_none_or(|kind| row.text("kind") == kind);
        table.rows_where("rho", rho).find(fits).map_or(f64::NAN, |row| row.number(column))
    };
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
        let law = of(&fixed, None, hands, rho, "Wq");
        held(&mut all, &Law { key: "mdc", name: "M/D", law, status, source, random: false }, &scenario, hands, rho);
    }
    for hands in [1_u32, 2] {
        let law = of(&random, Some("grid"), hands, "0.5", "Wq_mu");
        let source = "Erlang (1917), tests/reference/erlang_c.csv";
        let law = Law { key: "mmc", name: "M/M", law, status: Status::Published, source, random: true };
        held(&mut all, &law, &scenario, hands, "0.5");
    }
    all
}

/// A law of waiting.
struct Law {
    key: &'static str,
    name: &'static str,
    /// Mean wait in times of one load.
    law: f64,
    status: Status,
    source: &'static str,
    /// Whether loads take exponential times.
    random: bool,
}

/// One run held against its law, the recursion and Little's law.
fn held(all: &mut Vec<Check>, law: &Law, scenario: &Scenario, hands: u32, rho: &str) {
    let busy: f64 = rho.parse().unwrap_or(f64::NAN);
    let between_s = LOAD_S / (f64::from(hands) * busy);
    // A run and its opposite, long gaps for short ones: together they stray half as far (Hammersley & Morton 1956).
    let runs = [false, true].map(|opposite| at_random(scenario.service.start, between_s, law.random, opposite));
    let [got, other] = [&runs[0], &runs[1]].map(|orders| played(scenario, hands, orders, between_s));
    let orders = &runs[0];
    let name = format!("{}/{hands}", law.name);
    let id = |what: &str| format!("queue.{}.{hands}{what}", law.key);
    all.push(Outside::relative(law.law, SHARE, "loads", law.status, law.source).against(
        &id(""),
        &format!("mean wait for {hands} hand(s) busy {rho} of the time, in times of one load ({name})"),
        0.5 * (got.wait_s + other.wait_s) / LOAD_S,
    ));
    let source = "Kiefer & Wolfowitz (1955) Trans. Amer. Math. Soc. 78:1-18, the recursion on the same orders";
    all.push(
        Outside::relative(recursion_s(orders, hands) / LOAD_S, SAME_SHARE, "loads", Status::Published, source).against(
            &id(".same"),
            &format!("the same mean wait ({name}), order by order"),
            got.wait_s / LOAD_S,
        ),
    );
    let source = "Little (1961) Oper. Res. 9:383-387: waiting on average = orders in a time x their mean wait";
    all.push(
        Outside::relative(got.rate_per_s * got.all_wait_s, SAME_SHARE, "orders", Status::Published, source).against(
            &id(".little"),
            &format!("orders that wait for a hand, mean over the run ({name})"),
            got.waiting,
        ),
    );
}

/// What a run says.
struct Played {
    /// Mean time from order to the start of its load, those at the start left out, s.
    wait_s: f64,
    /// The same over all orders, s.
    all_wait_s: f64,
    /// Orders in a second.
    rate_per_s: f64,
    /// Orders waiting for a hand, mean over the run.
    waiting: f64,
}

fn played(scenario: &Scenario, hands: u32, orders: &[Order], between_s: f64) -> Played {
    let mut s = scenario.clone();
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
    let trace = run(&ready, &mut hearth, orders.to_vec(), Keep::default());
    // Loads begin in the order they were asked for, and each hand's time is the order's own.
    let waits: Vec<f64> = {
        let mut by_order: Vec<(f64, f64)> = trace.bakes.iter().map(|bake| (bake.ordered_s, bake.wait_s())).collect();
        order::by(&mut by_order, |a, b| a.0.total_cmp(&b.0));
        by_order.iter().zip(orders).map(|(bake, order)| bake.1 - order.load_s).collect()
    };
    let mean = |waits: &[f64]| waits.iter().sum::<f64>() / waits.len() as f64;
    let span_s = trace.ended_s - s.service.start;
    let held_s: f64 = trace.quarters.iter().map(|quarter| quarter.held_s[Held::Hands as usize]).sum();
    Played {
        wait_s: mean(waits.get(ORDERS.1..).unwrap_or_default()),
        all_wait_s: mean(&waits),
        rate_per_s: waits.len() as f64 / span_s,
        waiting: held_s / span_s,
    }
}

/// Mean wait by the recursion: each order takes the hand that is free first.
fn recursion_s(orders: &[Order], hands: u32) -> f64 {
    let mut free_s = vec![f64::NEG_INFINITY; hands as usize];
    let mut waits = Vec::with_capacity(orders.len());
    for order in orders {
        order::rising(&mut free_s);
        let begins_s = free_s[0].max(order.at_s);
        free_s[0] = begins_s + order.load_s;
        waits.push(begins_s - order.at_s);
    }
    let counted = waits.get(ORDERS.1..).unwrap_or_default();
    counted.iter().sum::<f64>() / counted.len() as f64
}

/// Orders with exponential gaps, and loads of one length or of exponential ones, by inversion.
fn at_random(from_s: f64, between_s: f64, random: bool, opposite: bool) -> Vec<Order> {
    let mut rng = Xoshiro256PlusPlus::seed_from_u64(1917);
    let mut draw = || {
        let u: f64 = rng.random();
        // Never a whole one, whose logarithm is endless.
        if opposite { (1.0 - u).min(1.0 - f64::EPSILON) } else { u }
    };
    let mut at_s = from_s;
    (0..ORDERS.0)
        .map(|_| {
            at_s -= between_s * libm::log1p(-draw());
            let load_s = if random { -LOAD_S * libm::log1p(-draw()) } else { LOAD_S };
            Order { dish: 0, at_s, batch: false, load_s }
        })
        .collect()
}
