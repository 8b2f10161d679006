//! Owns the checks of the service's queue by itself: hands as servers, orders at random, a floor that never lacks room or heat.
//!
//! The laws hold for endless runs; one of some thousand orders strays from its law by chance, by 7 % where loads are random. So the
//! recursion of Kiefer & Wolfowitz goes along as a control (control variates: Hammersley & Handscomb (1964), Monte Carlo Methods,
//! ch. 5): it is played on the very same orders, where it strays by the same chance, and on some millions of others, where it does
//! not. What the service says, less the recursion on the same orders, more the recursion on the many, is held against the law; and
//! order by order the service is held against the recursion itself.

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
/// Orders the recursion alone is played on, and those left out.
const MANY: (usize, usize) = (6_000_000, 1000);
/// What the service may be off its law: what is left of chance in so many orders, three standard errors (each 0.23 % of the wait where
/// loads are random and 0.15 % where they are not, seen over twenty seeds), and what a quarter of a second adds to a wait.
const SHARE: f64 = 0.01;
/// What the service may be off the recursion on the same orders: hands are looked at each quarter of a second.
const SAME_SHARE: f64 = 0.005;
/// Seed of the orders' draws.
const SEED: u64 = 1917;
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

/// One run held against its law, in waits and in how many wait, and against the recursion order by order.
fn held(all: &mut Vec<Check>, law: &Law, scenario: &Scenario, hands: u32, rho: &str) {
    let busy: f64 = rho.parse().unwrap_or(f64::NAN);
    let between_s = LOAD_S / (f64::from(hands) * busy);
    let start_s = scenario.service.start;
    let orders: Vec<Order> = at_random(SEED, start_s, between_s, law.random).take(ORDERS.0).collect();
    let got = played(scenario, hands, &orders, between_s);
    let same = recursion(orders.iter().copied(), start_s, hands, ORDERS.1);
    // Other draws than those of the run.
    let many = recursion(at_random(SEED + 1, start_s, between_s, law.random).take(MANY.0), start_s, hands, MANY.1);
    let name = format!("{}/{hands}", law.name);
    let id = |what: &str| format!("queue.{}.{hands}{what}", law.key);
    all.push(Outside::relative(law.law, SHARE, "loads", law.status, law.source).against(
        &id(""),
        &format!("mean wait for {hands} hand(s) busy {rho} of the time, in times of one load ({name})"),
        (got.wait_s - same.wait_s + many.wait_s) / LOAD_S,
    ));
    let source = format!(
        "{}; orders waiting = orders in a time x their mean wait: Little (1961) Oper. Res. 9:383-387",
        law.source
    );
    let waiting = f64::from(hands) * busy * law.law;
    all.push(Outside::relative(waiting, SHARE, "orders", law.status, &source).against(
        &id(".waiting"),
        &format!("orders that wait for a hand, mean over the run ({name})"),
        got.waiting - same.waiting + many.waiting,
    ));
    let source = "Kiefer & Wolfowitz (1955) Trans. Amer. Math. Soc. 78:1-18, the recursion on the same orders";
    all.push(Outside::relative(same.wait_s / LOAD_S, SAME_SHARE, "loads", Status::Consistency, source).against(
        &id(".same"),
        &format!("the same mean wait ({name}), order by order"),
        got.wait_s / LOAD_S,
    ));
}

/// What a run says.
struct Played {
    /// Mean time from order to the start of its load, those at the start left out, s.
    wait_s: f64,
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
    let counted = waits.get(ORDERS.1..).unwrap_or_default();
    let held_s: f64 = trace.quarters.iter().map(|quarter| quarter.held_s[Held::Hands as usize]).sum();
    Played {
        wait_s: counted.iter().sum::<f64>() / counted.len() as f64,
        waiting: held_s / orders.last().map_or(f64::NAN, |last| last.at_s - s.service.start),
    }
}

/// The recursion: each order takes the hand that is free first. The first `left_out` are not counted in the mean wait.
fn recursion(orders: impl Iterator<Item = Order>, from_s: f64, hands: u32, left_out: usize) -> Played {
    let mut free_s = vec![f64::NEG_INFINITY; hands as usize];
    let (mut all_s, mut counted_s, mut count, mut last_s) = (0.0, 0.0, 0_usize, from_s);
    for order in orders {
        let soonest = (1..free_s.len()).fold(0, |least, hand| if free_s[hand] < free_s[least] { hand } else { least });
        let begins_s = free_s[soonest].max(order.at_s);
        free_s[soonest] = begins_s + order.load_s;
        all_s += begins_s - order.at_s;
        counted_s += if count >= left_out { begins_s - order.at_s } else { 0.0 };
        count += 1;
        last_s = order.at_s;
    }
    Played { wait_s: counted_s / (count.saturating_sub(left_out)) as f64, waiting: all_s / (last_s - from_s) }
}

/// Endless orders with exponential gaps, and loads of one length or of exponential ones, by inversion.
fn at_random(seed: u64, from_s: f64, between_s: f64, random: bool) -> impl Iterator<Item = Order> {
    let mut rng = Xoshiro256PlusPlus::seed_from_u64(seed);
    let mut at_s = from_s;
    std::iter::repeat_with(move || {
        at_s -= between_s * libm::log1p(-rng.random::<f64>());
        let load_s = if random { -LOAD_S * libm::log1p(-rng.random::<f64>()) } else { LOAD_S };
        Order { dish: 0, at_s, batch: false, load_s }
    })
}
