//! The modes against the full columns they stand for.

use super::super::column::{Columns, DEFAULT_FINENESS, Grid, Inner, LANES, Slab};
use super::super::modes::{Modes, RATES};
use super::*;

const STONE: Slab = Slab { thickness_m: 0.06, k_w_m_k: 1.05, rho_c_j_m3_k: 2_055_000.0 };
const WOOL: Slab = Slab { thickness_m: 0.1, k_w_m_k: 0.08, rho_c_j_m3_k: 250_000.0 };
const SLAB: Slab = Slab { thickness_m: 0.1, k_w_m_k: 1.4, rho_c_j_m3_k: 2_000_000.0 };

/// Heating up, a cold load of a minute and a half, and the recovery: seconds and the flux held for them.
const DAY: [(f64, f64); 4] = [(7200.0, 8_000.0), (90.0, -25_000.0), (5.0, 12_000.0), (1800.0, 4_000.0)];

#[test]
fn face_and_depths_follow_the_full_columns() {
    for (slabs, film) in [(vec![STONE, WOOL, SLAB], 10.0), (vec![STONE], 0.0), (vec![SLAB, WOOL], 10.0)] {
        let grid = Grid::new(&slabs, film, DEFAULT_FINENESS);
        let joint = grid.joints[0];
        for inner in [None, Some(joint)] {
            let modes = Modes::new(&grid, inner, RATES);
            // Rested: even through the first layer, falling behind it.
            let (at, last_m) = (grid.depth_m[joint], grid.depth_m[grid.nodes() - 1]);
            let falls = |x: f64| if x <= at { 250.0 } else { 250.0 * (last_m - x) / (last_m - at) };
            let profile: Vec<f64> = grid.depth_m.iter().map(|&x| falls(x)).collect();
            let mut full = Columns::new(grid.clone(), 1, &profile);
            let mut field = Field::new(&modes, 1, &profile, [0.0; BLOCK]);
            let burner = if inner.is_some() { 3_000.0 } else { 0.0 };
            for (span_s, flux) in DAY {
                let mut at_s = 0.0;
                while at_s < span_s {
                    let step_s = if at_s < 10.0 { 0.5 } else { 10.0_f64.min(span_s - at_s) };
                    for _ in 0..20 {
                        let inner = inner.map(|node| Inner { node, flux_w_m2: burner });
                        full.advance(step_s / 20.0, &[flux; LANES], inner, &[1.0]);
                    }
                    field.advance(step_s, &[flux; BLOCK], burner, &[1.0]);
                    at_s += step_s;
                    for node in [0, joint / 2, joint] {
                        let off = field.at_node_k(0, node) - full.row_k(node)[0];
                        // After a jump of 37 kW/m2, which moves the face by 80 K in seconds; depths are not what the rates meet.
                        let most = if node == 0 { 0.2 } else { 0.8 };
                        assert!(off.abs() < most, "{at_s} s of {flux} W/m2, node {node}: {off} K");
                    }
                }
            }
        }
    }
}

#[test]
fn heat_is_conserved_to_rounding_whatever_the_steps() {
    let grid = Grid::new(&[STONE, WOOL, SLAB], 10.0, DEFAULT_FINENESS);
    let modes = Modes::new(&grid, Some(grid.joints[0]), RATES);
    let last_m = grid.depth_m[grid.nodes() - 1];
    let profile: Vec<f64> =
        grid.depth_m.iter().map(|x| if *x <= 0.06 { 300.0 } else { 300.0 * (last_m - x) / (last_m - 0.06) }).collect();
    let mut field = Field::new(&modes, 6, &profile, [0.0; BLOCK]);
    for (node, k) in profile.iter().enumerate() {
        assert!((field.at_node_k(5, node) - k).abs() < 1e-7, "{node}: {} {k}", field.at_node_k(5, node));
    }
    let area = [0.01, 0.02, 0.005, 0.01, 0.01, 0.003];
    let flux: Vec<f64> = (0..field.width()).map(|i| 1000.0 * i as f64 - 800.0).collect();
    field.open_account(&area);
    let (before, mut given) = (field.stored_j(&area), 0.0);
    for step in 0..4000 {
        let dt = [2.0, 7.5, 0.25, 60.0][step % 4];
        field.advance(dt, &flux, 50.0, &area);
        given += dt * area.iter().zip(&flux).map(|(a, q)| a * (q + 50.0)).sum::<f64>();
    }
    let (stored, left) = (field.stored_j(&area) - before, field.left_j(&area));
    assert!(left > 0.1 * given.abs(), "{left} of {given}");
    assert!((given - left - stored).abs() < 1e-10 * (given.abs() + left + stored.abs()), "{given} {left} {stored}");
}

#[test]
fn what_leaves_is_what_the_back_shows() {
    let grid = Grid::new(&[STONE, WOOL], 10.0, DEFAULT_FINENESS);
    let (modes, last) = (Modes::new(&grid, None, RATES), grid.nodes() - 1);
    let mut field = Field::new(&modes, 1, &vec![300.0; grid.nodes()], [0.0; BLOCK]);
    field.open_account(&[1.0]);
    let mut left_j = 0.0;
    for _ in 0..20_000 {
        let before = field.at_node_k(0, last);
        field.advance(1.0, &[2_000.0; BLOCK], 0.0, &[1.0]);
        left_j += 10.0 * 0.5 * (before + field.at_node_k(0, last));
    }
    assert!((field.left_j(&[1.0]) / left_j - 1.0).abs() < 1e-4, "{} {left_j}", field.left_j(&[1.0]));
}

#[test]
fn a_build_up_of_few_nodes_has_modes_too() {
    let coarse = super::super::column::Fineness { first_m: 0.000_8, growth: 2.0, coarsest_m: 0.1 };
    for slabs in [vec![STONE], vec![STONE, WOOL, SLAB]] {
        let grid = Grid::new(&slabs, 10.0, coarse);
        let modes = Modes::new(&grid, Some(grid.joints[0]), RATES);
        assert!(modes.count() < grid.nodes() && modes.rates_per_s.iter().all(|rate| *rate > 0.0));
        let even = vec![300.0; grid.nodes()];
        let mut field = Field::new(&modes, 1, &even, [0.0; BLOCK]);
        (0..100).for_each(|_| field.advance(60.0, &[1_000.0; BLOCK], 0.0, &[1.0]));
        assert!(field.faces_k()[0] > 100.0 && field.faces_k()[0] < 500.0, "{}", field.faces_k()[0]);
        let closed = Modes::new(&Grid::new(&slabs, 0.0, coarse), None, 6);
        assert!(closed.rates_per_s.iter().all(|rate| rate.is_finite()));
    }
}

#[test]
fn what_goes_over_all_columns_says_what_each_says() {
    let grid = Grid::new(&[STONE, WOOL, SLAB], 10.0, DEFAULT_FINENESS);
    let modes = Modes::new(&grid, Some(grid.joints[0]), RATES);
    let mut field = Field::new(&modes, 7, &vec![10.0; grid.nodes()], [0.0; BLOCK]);
    let flux: Vec<f64> = (0..field.width()).map(|i| 1_000.0 * i as f64).collect();
    field.advance(30.0, &flux, 500.0, &[0.1; 7]);
    let one: Vec<f64> = (0..7).map(|i| field.at_depth_k(i, 0.004)).collect();
    assert_eq!(field.all_at_depth_k(0.004).collect::<Vec<_>>(), one);
    let most = (0..7).map(|i| field.at_node_k(i, 2)).fold(f64::NEG_INFINITY, f64::max);
    assert_eq!(field.most_at_node_k(2).to_bits(), most.to_bits());
}
