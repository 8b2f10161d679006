//! Owns the making of orders: covers by quarter hour become pieces wanted at moments.

use crate::units::time::QUARTER_S;
use rand::{RngExt, SeedableRng, rngs::Xoshiro256PlusPlus};

use crate::scenario::{Arrivals, Scenario};

/// A piece wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Order {
    /// Index of the dish.
    pub dish: usize,
    /// When it was ordered, s since midnight.
    pub at_s: f64,
    /// Batch work: not a guest's order.
    pub batch: bool,
    /// How long a hand is at it until it lies on the floor, s.
    pub load_s: f64,
}

/// All orders of a scenario, by time.
#[must_use]
pub fn orders(scenario: &Scenario) -> Vec<Order> {
    let mut all = match scenario.service.arrivals {
        Arrivals::Even => even(scenario),
        Arrivals::Parties => parties(scenario),
    };
    for batch in &scenario.service.batches {
        let dish = scenario.menu.iter().position(|dish| dish.name == batch.dish);
        if let Some(dish) = dish {
            all.extend((0..batch.pieces).map(|_| Order {
                dish,
                at_s: batch.at,
                batch: true,
                load_s: scenario.service.load_s,
            }));
        }
    }
    // Stable: orders of one moment keep the menu's order.
    crate::numerics::order::by(&mut all, |a, b| a.at_s.total_cmp(&b.at_s));
    all
}

/// Evenly spaced covers; each dish is ordered whenever its running count passes a whole number.
fn even(scenario: &Scenario) -> Vec<Order> {
    let dishes = scenario.menu.len() as f64;
    // Each dish starts at another share of a piece, so that they do not all come with the same cover.
    let mut running: Vec<f64> = (0..scenario.menu.len()).map(|d| (d as f64 + 0.5) / dishes).collect();
    let mut owed = 0.0;
    let mut all = Vec::new();
    for (quarter, &covers) in scenario.service.covers.iter().enumerate() {
        let from = scenario.service.start + quarter as f64 * QUARTER_S;
        owed += covers;
        let whole = (owed + 1e-9).floor();
        owed -= whole;
        for k in 0..whole as u32 {
            let at_s = from + (f64::from(k) + 0.5) / whole * QUARTER_S;
            for (dish, spec) in scenario.menu.iter().enumerate() {
                running[dish] += spec.per_100_covers / 100.0;
                while running[dish] >= 1.0 {
                    running[dish] -= 1.0;
                    all.push(Order { dish, at_s, batch: false, load_s: scenario.service.load_s });
                }
            }
        }
    }
    all
}

/// Parties at random moments: sizes geometric about the mean, each cover drawing each dish by its share.
fn parties(scenario: &Scenario) -> Vec<Order> {
    let mut rng = Xoshiro256PlusPlus::seed_from_u64(scenario.service.seed);
    let mean = scenario.service.party_mean.max(1.0);
    let mut owed = 0.0;
    let mut all = Vec::new();
    for (quarter, &covers) in scenario.service.covers.iter().enumerate() {
        let from = scenario.service.start + quarter as f64 * QUARTER_S;
        owed += covers;
        let mut left = (owed + 1e-9).floor();
        owed -= left;
        while left >= 1.0 {
            let size = party_size(mean, rng.random()).min(left);
            left -= size;
            let at_s = from + rng.random::<f64>() * QUARTER_S;
            for _ in 0..size as u32 {
                draw_cover(scenario, at_s, &mut rng, &mut all);
            }
        }
    }
    all
}

/// A party of one or more, geometric with the given mean, by inversion.
fn party_size(mean: f64, uniform: f64) -> f64 {
    if mean <= 1.0 {
        return 1.0;
    }
    let stay = 1.0 - 1.0 / mean;
    1.0 + (libm::log1p(-uniform) / libm::log(stay)).floor()
}

fn draw_cover(scenario: &Scenario, at_s: f64, rng: &mut Xoshiro256PlusPlus, all: &mut Vec<Order>) {
    for (dish, spec) in scenario.menu.iter().enumerate() {
        let wanted = spec.per_100_covers / 100.0;
        let sure = wanted.floor();
        let more = if rng.random::<f64>() < wanted - sure { 1.0 } else { 0.0 };
        for _ in 0..(sure + more) as u32 {
            all.push(Order { dish, at_s, batch: false, load_s: scenario.service.load_s });
        }
    }
}
