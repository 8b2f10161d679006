//! Owns the queue of the timed day, for those who play it without its heat: who orders what when, how many hands and spots there
//! are, and how long each dish bakes.

use crate::clock::Clock;
use crate::questions::WIDE;
use hearthload::hearth::build::DEFAULT_ACCURACY;
use hearthload::scenario;
use hearthload::service::night::{Keep, Ready, play};
use hearthload::service::orders::orders;
use serde_json::{Value, json};

/// The queue, and what our own day makes of it: the heat in every stone beside the orders.
///
/// # Errors
/// What is wrong with the demo.
pub fn queue() -> Result<Value, String> {
    let resolved = scenario::read(WIDE).map_err(|problems| format!("{problems:?}"))?;
    let ready = Ready::new(&resolved.scenario, DEFAULT_ACCURACY);
    let began = Clock::start();
    let trace = play(&ready, Keep::default());
    let seconds = began.seconds();
    let service = &ready.scenario.service;
    let mean = |values: Vec<f64>| values.iter().sum::<f64>() / values.len().max(1) as f64;
    let bake_s = |dish: usize| {
        mean(trace.bakes.iter().filter(|bake| bake.dish == dish).filter_map(|bake| bake.bake_s()).collect())
    };
    Ok(json!({
        "orders": orders(&ready.scenario).iter().map(|order| json!([order.at_s, order.dish, order.load_s])).collect::<Vec<_>>(),
        "bake_s": (0..ready.scenario.menu.len()).map(bake_s).collect::<Vec<_>>(),
        "spots": ready.spots.fit.first(),
        "hands": service.hands,
        "turn_s": service.turn_s,
        "lift_s": service.lift_s,
        "our_seconds": seconds,
        "our_steps": trace.steps,
        "our_cells": ready.build.plan.cells.len(),
        "our_bakes": trace.bakes.len(),
        "our_mean_wait_s": mean(trace.bakes.iter().map(|bake| bake.wait_s()).collect()),
    }))
}
