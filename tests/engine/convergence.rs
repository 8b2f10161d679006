//! Finer cuts change nothing that matters: the observed order of the column solver, and whole ovens with everything halved.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may stop where it likes")]

mod common;

use common::{DEMOS, finer, read, replay};
use hearthload::hearth::build::DEFAULT_ACCURACY;
use hearthload::numerics::column::{Columns, Fineness, Grid, LANES, Slab};
use hearthload::service::night::{Keep, Ready, play};

/// 60 mm of fireclay.
const STONE: Slab = Slab { thickness_m: 0.06, k_w_m_k: 1.05, rho_c_j_m3_k: 2150.0 * 956.0 };

/// The stone 20 mm under its face after a flux that swells and fades over 600 s, on even intervals and steps.
fn at_20mm_k(interval_m: f64, step_s: f64) -> f64 {
    let even = Fineness { first_m: interval_m, growth: 1.0, coarsest_m: interval_m };
    let grid = Grid::new(&[STONE], 8.0, even);
    let profile = vec![0.0; grid.nodes()];
    let mut columns = Columns::new(grid, 1, &profile);
    let steps = (600.0 / step_s).round() as usize;
    for n in 0..steps {
        let t = (n as f64 + 0.5) * step_s / 600.0;
        let swell = libm::sin(std::f64::consts::PI * t);
        let flux = 20_000.0 * swell * swell;
        columns.advance(step_s, &[flux; LANES], None, &[1.0]);
    }
    columns.at_depth_k(0, 0.02)
}

/// Order seen when a cut is halved twice: log2 of how much the change shrinks.
fn order(coarse: f64, half: f64, quarter: f64) -> f64 {
    libm::log2(((coarse - half) / (half - quarter)).abs())
}

#[test]
fn columns_converge_with_the_second_power_of_the_interval() {
    let got = order(at_20mm_k(0.005, 1.0), at_20mm_k(0.0025, 1.0), at_20mm_k(0.00125, 1.0));
    println!("order in the interval: {got}");
    assert!((1.8..2.2).contains(&got), "{got}");
}

#[test]
fn columns_converge_with_the_second_power_of_the_step() {
    let got = order(at_20mm_k(0.001, 10.0), at_20mm_k(0.001, 5.0), at_20mm_k(0.001, 2.5));
    println!("order in the step: {got}");
    assert!((1.8..2.2).contains(&got), "{got}");
}

/// What halving cells, nodes or steps may move the lowest floor by, K.
const MOST_K: f64 = 1.0;

#[test]
fn halving_cells_nodes_and_steps_moves_no_demo_by_a_kelvin() {
    for (name, text) in DEMOS {
        let scenario = read(text);
        let usual = Ready::new(&scenario, DEFAULT_ACCURACY);
        let trace = play(&usual, Keep::default());
        let base = replay(&usual, &trace.bakes, trace.ended_s, 1.0);
        assert!(base.residual.abs() < 1e-9, "{name}: {base:?}");
        for (what, cut, share) in [
            ("cells", finer(2.0, 1.0, 1.0), 1.0),
            ("nodes", finer(1.0, 2.0, 1.0), 1.0),
            ("steps", finer(1.0, 1.0, 2.0), 0.5),
        ] {
            let fine = replay(&Ready::new(&scenario, cut), &trace.bakes, trace.ended_s, share);
            println!("{name}, {what} halved: {base:?} -> {fine:?}");
            assert!((fine.lowest_c - base.lowest_c).abs() < MOST_K, "{name}, {what}: {base:?} {fine:?}");
            assert!((fine.fire_j / base.fire_j - 1.0).abs() < 0.01, "{name}, {what}: {base:?} {fine:?}");
        }
    }
}

/// The mean food floor after half an hour of a kindling fire, with the doorway's flow worked out at every step.
fn coupled_c(nodes: f64, steps: f64) -> f64 {
    let mut scenario = read(DEMOS[0].1);
    scenario.feeding.kindling_kg = 8.0;
    scenario.feeding.phases.clear();
    let until = scenario.feeding.light_at + 1800.0;
    let mut cut = finer(1.0, nodes, steps);
    cut.flow_every_step = true;
    replay(&Ready::new(&scenario, cut), &[], until, 1.0).end_c
}

#[test]
fn the_coupled_oven_converges_with_the_first_power_of_the_step() {
    // Fluxes at the faces are taken as a step begins: first order, whatever the columns do.
    let at = [4.0, 8.0, 16.0].map(|steps| coupled_c(1.0, steps));
    let got = order(at[0], at[1], at[2]);
    println!("the coupled oven's order in the step: {got}, {at:?}");
    assert!((0.8..1.3).contains(&got), "{got} {at:?}");
}

#[test]
fn the_coupled_oven_converges_with_the_second_power_of_the_interval() {
    let at = [1.0, 2.0, 4.0].map(|nodes| coupled_c(nodes, 8.0));
    let got = order(at[0], at[1], at[2]);
    println!("the coupled oven's order in the interval: {got}, {at:?}");
    assert!((1.6..2.4).contains(&got), "{got} {at:?}");
}

#[test]
fn usual_steps_and_a_doorway_refreshed_by_thresholds_leave_a_kelvin_at_most() {
    let mut scenario = read(DEMOS[0].1);
    scenario.feeding.kindling_kg = 8.0;
    scenario.feeding.phases.clear();
    let until = scenario.feeding.light_at + 1800.0;
    let usual = replay(&Ready::new(&scenario, DEFAULT_ACCURACY), &[], until, 1.0).end_c;
    let finest = coupled_c(1.0, 16.0);
    println!("{usual} {finest}");
    assert!((usual - finest).abs() < MOST_K, "{usual} {finest}");
}
