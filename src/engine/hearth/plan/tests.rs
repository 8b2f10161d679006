//! Owns the checks of the floor plan.

use super::*;

#[test]
fn cells_add_up_to_the_floor_and_none_is_a_sliver() {
    for oven in sample::all() {
        for size in [0.06, CELL_M, 0.13] {
            let plan = FloorPlan::new(&oven, size);
            let sum: f64 = plan.cells.iter().map(|c| c.area_m2).sum();
            // The closed forms pi a b and w d are the outside check.
            let whole = match oven.shape {
                FloorShape::Rectangle => oven.width_m * oven.depth_m,
                _ => core::f64::consts::PI * oven.width_m * oven.depth_m / 4.0,
            };
            assert!((sum - whole).abs() < 1e-12, "{sum} {whole}");
            assert!(plan.cells.iter().all(|c| c.area_m2 > 0.14 * size * size && c.area_m2 < 1.6 * size * size));
            assert!(plan.cells.iter().all(|c| plan.outline.contains(c.x_m, c.y_m)));
        }
    }
}

#[test]
fn the_bed_takes_its_share_at_the_fires_wall() {
    for oven in sample::all() {
        let plan = FloorPlan::new(&oven, CELL_M);
        let bed: f64 = plan.cells.iter().filter(|c| c.under_fire).map(|c| c.area_m2).sum();
        assert!((bed / plan.area_m2 - 0.2).abs() < 1e-12, "{}", bed / plan.area_m2);
        assert!((plan.food_area_m2 / plan.area_m2 - 0.8).abs() < 1e-12);
        for c in plan.cells.iter().filter(|c| c.under_fire) {
            if plan.fire_at_rear {
                assert!(c.y_m > plan.bed_limit);
            } else {
                assert!(c.x_m < plan.bed_limit);
            }
        }
    }
}

#[test]
fn a_right_fire_is_a_left_fire_in_the_mirror() {
    let left = FloorPlan::new(&sample::oven(FloorShape::Round, 1.4, 1.4, 0.45, FireSide::Left), CELL_M);
    let right = FloorPlan::new(&sample::oven(FloorShape::Round, 1.4, 1.4, 0.45, FireSide::Right), CELL_M);
    assert_eq!(left.cells, right.cells);
    assert!(!left.mirrored && right.mirrored);
    assert_eq!(left.probe_cell(0.4, 0.7), right.probe_cell(-0.4, 0.7));
}

#[test]
fn a_rear_fires_plan_is_symmetric_to_the_bit() {
    for oven in sample::all().iter().filter(|o| o.fire_side == FireSide::Rear) {
        let plan = FloorPlan::new(oven, CELL_M);
        for c in &plan.cells {
            let twin = plan
                .cells
                .iter()
                .find(|o| o.x_m.to_bits() == (0.0 - c.x_m).to_bits() && o.y_m.to_bits() == c.y_m.to_bits());
            let twin = twin.unwrap_or_else(|| panic!("no twin of {c:?}"));
            assert_eq!(
                (twin.area_m2.to_bits(), twin.under_fire, twin.march.to_bits()),
                (c.area_m2.to_bits(), c.under_fire, c.march.to_bits())
            );
        }
    }
}

#[test]
fn edges_obey_the_divergence_theorem_of_a_closed_plan() {
    // Every inner edge is counted once: the whole length of a rectangle's grid lines is known in closed form.
    let plan = FloorPlan::new(&sample::oven(FloorShape::Rectangle, 0.9, 1.2, 0.4, FireSide::Left), CELL_M);
    let sum: f64 = plan.edges.iter().map(|e| e.length_m).sum();
    let (nx, ny) = (plan.tiles_across as f64, plan.tiles_along as f64);
    assert!((sum - ((nx - 1.0) * 1.2 + (ny - 1.0) * 0.9)).abs() < 1e-12, "{sum}");
    // Tiles are 0.1 m apart, but for those the bed's line cuts.
    assert!(plan.edges.iter().all(|e| e.a < e.b && e.distance_m < 0.1 + 1e-12));
    assert!(plan.edges.iter().filter(|e| (e.distance_m - 0.1).abs() < 1e-12).count() > 150);
}

#[test]
fn the_inflow_runs_from_doorway_to_fire() {
    for oven in sample::all() {
        let plan = FloorPlan::new(&oven, CELL_M);
        assert!(plan.cells.iter().all(|c| (0.0..=1.0).contains(&c.march)));
        let first = plan.cell_at(0.0, -plan.outline.half_depth_m + 0.03);
        assert!(plan.cells[first].march < 0.2, "{}", plan.cells[first].march);
        for (k, c) in plan.cells.iter().enumerate() {
            assert_eq!(plan.cell_at(c.x_m, c.y_m), k);
        }
    }
}
