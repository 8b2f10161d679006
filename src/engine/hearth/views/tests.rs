//! Owns the checks of the view factors.

use super::*;
use crate::hearth::configuration::{cap_to_floor, perpendicular_rectangles, within_sphere};
use crate::hearth::plan::{CELL_M, sample};
use crate::hearth::rays::Hit;
use crate::scenario::{FireSide, FloorShape};

/// Every row of the table adds up to its surface's area, and cells to the floor.
fn assert_whole(v: &Views) {
    for c in 0..v.cell_m2.len() {
        let row: f64 = (0..PATCHES).map(|k| v.cell_to_patch(c, k)).sum::<f64>() + v.cell_to_door(c);
        assert!((row - 1.0).abs() < 1e-14, "cell {c}: {row}");
    }
    let mut from_door = v.cell_door_m2.iter().sum::<f64>();
    for k in 0..PATCHES {
        let floor: f64 = (0..v.cell_m2.len()).map(|c| v.patch_to_cell(k, c)).sum();
        let dome: f64 = (0..PATCHES).map(|j| v.patch_to_patch(k, j)).sum();
        let row = floor + dome + v.patch_to_door(k);
        assert!((row - 1.0).abs() < 1e-13, "patch {k}: {row}");
        assert!(dome > 0.0);
        from_door += v.patch_door_m2[k];
    }
    assert!((from_door / v.door_m2 - 1.0).abs() < 1e-13);
}

#[test]
fn every_oven_one_could_build_has_a_whole_table() {
    let mut tried = 0;
    for shape in [FloorShape::Round, FloorShape::DeepOval, FloorShape::Rectangle] {
        for (width, deeper) in [(0.6, 1.0), (0.8, 1.4), (1.2, 1.1), (2.0, 1.3)] {
            for rise in [0.25, 0.45, 0.75] {
                for (door, tall) in [(0.3, 0.4), (0.45, 0.6), (0.75, 0.7)] {
                    let depth = if shape == FloorShape::Round { width } else { width * deeper };
                    let mut oven = sample::oven(shape, width, depth, rise, FireSide::Left);
                    (oven.door_width_m, oven.door_height_m) = (door * width, tall * rise);
                    let dome = Dome::new(&oven);
                    assert!(dome.patches.iter().all(|p| p.area_m2 > 1e-3 * dome.area_m2), "{oven:?} {dome:?}");
                    let v = Views::with_slices(&FloorPlan::new(&oven, CELL_M), &dome, 64);
                    assert_whole(&v);
                    // Only a doorway three quarters as wide as a flat oven needs a patch made larger than it is.
                    let grown = v.patch_m2.iter().zip(&dome.patches).filter(|(m2, p)| **m2 > p.area_m2).count();
                    assert!(grown == 0 || (door > 0.7 && width > 3.0 * rise), "{oven:?}");
                    tried += 1;
                }
            }
        }
    }
    assert_eq!(tried, 108);
}

/// Root mean square and worst difference of all factors from floor to dome.
fn differences(one: &Views, two: &Views) -> (f64, f64) {
    let (mut squares, mut worst) = (0.0, 0.0_f64);
    for c in 0..one.cell_m2.len() {
        for k in 0..PATCHES {
            let d = (one.cell_to_patch(c, k) - two.cell_to_patch(c, k)).abs();
            squares += d * d;
            worst = worst.max(d);
        }
    }
    ((squares / (one.cell_m2.len() * PATCHES) as f64).sqrt(), worst)
}

#[test]
fn the_usual_number_of_slices_is_good_enough_and_more_are_better() {
    for oven in sample::all().iter().filter(|o| o.fire_side == FireSide::Left) {
        let (plan, dome) = (FloorPlan::new(oven, CELL_M), Dome::new(oven));
        let fine = Views::with_slices(&plan, &dome, 16_384);
        let usual = differences(&Views::with_slices(&plan, &dome, SLICES), &fine);
        let more = differences(&Views::with_slices(&plan, &dome, 1024), &fine);
        assert!(usual.0 < 2.8e-3 && usual.1 < 0.03, "{usual:?}");
        assert!(more.0 < 5e-4 && more.1 < 5e-3, "{more:?}");
    }
}

#[test]
fn on_a_sphere_every_patch_sees_the_floor_alike() {
    // Exact: F(dome -> floor) = a^2 / (a^2 + h^2), and any patch of a sphere sees the same share of it.
    let mut oven = sample::oven(FloorShape::Round, 1.2, 1.2, 0.45, FireSide::Left);
    (oven.door_width_m, oven.door_height_m) = (1e-6, 1e-6);
    let v = Views::with_slices(&FloorPlan::new(&oven, CELL_M), &Dome::new(&oven), 2048);
    for k in 0..PATCHES {
        let floor: f64 = (0..v.cell_m2.len()).map(|c| v.patch_to_cell(k, c)).sum();
        // The bed's line runs 5 mm beside a line of tiles here, and that strip counts for more than its area in the cells that
        // take it (see `cell_points`): up to 1.2 % instead of 0.3.
        assert!((floor - cap_to_floor(0.6, 0.45)).abs() < 8e-3, "{k}: {floor}");
        // And within the dome: F = A2 / (4 pi R^2).
        let radius = (0.36 + 0.2025) / 0.9;
        let dome = v.patch_to_patch(0, k) - within_sphere(v.patch_m2[k], radius);
        assert!(dome.abs() < 1e-3, "{k}: {dome}");
    }
}

#[test]
fn slices_and_rays_of_another_make_agree() {
    for oven in sample::all().iter().filter(|o| o.fire_side == FireSide::Left) {
        let (plan, dome) = (FloorPlan::new(oven, CELL_M), Dome::new(oven));
        let v = Views::with_slices(&plan, &dome, 2048);
        for cell in [plan.cell_at(0.31, 0.12), plan.cell_at(0.02, -0.3), plan.cell_at(0.2, 0.4)] {
            let mut counts = [0_u32; PATCHES];
            let mut all = 0_u32;
            for &(x, y) in &cell_points(&plan)[cell] {
                for ray in directions(4096) {
                    if let Hit::Patch(k) = dome.cast([x, y, 0.0], ray.to) {
                        counts[k] += 1;
                        all += 1;
                    }
                }
            }
            for k in 0..PATCHES {
                let share = f64::from(counts[k]) / f64::from(all) * (1.0 - v.cell_to_door(cell));
                assert!((v.cell_to_patch(cell, k) - share).abs() < 2e-3, "{k} {} {share}", v.cell_to_patch(cell, k));
            }
        }
    }
}

#[test]
fn cells_see_the_doorway_as_double_integration_says() {
    // A rectangle hides nothing: the closed element form, itself checked against Howell B-5 and double integration.
    let oven = sample::oven(FloorShape::Rectangle, 0.9, 1.2, 0.4, FireSide::Left);
    let (plan, dome) = (FloorPlan::new(&oven, CELL_M), Dome::new(&oven));
    let v = Views::new(&plan, &dome);
    for (c, cell) in plan.cells.iter().enumerate().filter(|(_, c)| c.y_m > -0.3) {
        let point = element_to_upright(cell.y_m + 0.6, -0.25 - cell.x_m, 0.25 - cell.x_m, 0.25);
        assert!((v.cell_to_door(c) - point).abs() < 3e-3 * point + 5e-4, "{} {point}", v.cell_to_door(c));
    }
    // The whole floor to the doorway: rectangles at right angles, a floor as wide as the doorway (C-14).
    let mut narrow = oven;
    (narrow.door_width_m, narrow.door_height_m) = (0.9, 0.2);
    narrow.dome_rise_m = 1.0;
    let v = Views::new(&FloorPlan::new(&narrow, 0.05), &Dome::new(&narrow));
    let floor: f64 = v.cell_door_m2.iter().sum::<f64>() / (0.9 * 1.2);
    assert!((floor - perpendicular_rectangles(1.2, 0.2, 0.9)).abs() < 1e-3, "{floor}");
}

#[test]
fn a_mirrored_cell_sees_the_mirror_image_to_the_bit() {
    for oven in sample::all() {
        let plan = FloorPlan::new(&oven, CELL_M);
        let v = Views::new(&plan, &Dome::new(&oven));
        for c in 0..plan.cells.len() {
            // Tiles cut along a bed beside the middle line have no twin.
            let Some(twin) = plan.twin_of(c) else { continue };
            assert_eq!(v.cell_to_door(c).to_bits(), v.cell_to_door(twin).to_bits());
            for k in 0..PATCHES {
                assert_eq!(v.cell_to_patch(c, k).to_bits(), v.cell_to_patch(twin, mirror(k)).to_bits());
            }
        }
    }
}

#[test]
fn rows_are_whole_and_no_share_is_negative() {
    for oven in sample::all() {
        let v = Views::new(&FloorPlan::new(&oven, CELL_M), &Dome::new(&oven));
        assert_whole(&v);
        let all = v.cell_patch_m2.iter().chain(&v.cell_door_m2).chain(&v.patch_patch_m2).chain(&v.patch_door_m2);
        assert!(all.into_iter().all(|&s| s >= 0.0));
    }
}
