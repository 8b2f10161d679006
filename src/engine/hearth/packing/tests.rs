//! Owns the checks of the packing, against the best packings known.

use super::*;
use crate::hearth::outline::{bounds, overlaps};
use crate::hearth::plan::{CELL_M, FloorPlan, sample};
use crate::hearth::shapes::{FloorOutline, disk_in_rect_m2};
use crate::scenario::{FireSide, FloorShape};

/// Best known packings, one row each, without comments and heading.
fn rows(table: &str) -> Vec<Vec<f64>> {
    table
        .lines()
        .filter(|line| line.starts_with(|c: char| c.is_ascii_digit()))
        .map(|line| line.split(',').map(|field| field.parse().unwrap_or(f64::NAN)).collect())
        .collect()
}

fn whole(oval: bool, width: f64, depth: f64) -> Region {
    Region::whole(FloorOutline { oval, half_width_m: width / 2.0, half_depth_m: depth / 2.0 })
}

const DISK: Footprint = Footprint::Round { diameter_m: 0.2 };

#[test]
fn disks_in_a_circle_reach_the_best_known_counts() {
    // Proved to 14 and 19 (Graham, Pirl, Melissen, Fodor), best known for the others; a thousandth of room to settle in.
    let table = rows(include_str!("../../../../tests/reference/circle_in_circle.csv"));
    assert_eq!(table.len(), 20);
    for (k, row) in table.iter().enumerate() {
        let size = 0.2 * row[1];
        let fits_too = table[k..].iter().filter(|r| r[1] <= row[1]).count() - 1;
        assert_eq!(pack(&whole(true, 1.001 * size, 1.001 * size), &DISK, 0.0).len(), row[0] as usize + fits_too);
        // A thousandth too tight: never more than the table allows.
        let fits = table.iter().filter(|r| r[1] <= 0.999 * row[1]).count();
        assert_eq!(pack(&whole(true, 0.999 * size, 0.999 * size), &DISK, 0.0).len(), fits, "below {row:?}");
    }
}

#[test]
fn disks_in_a_rectangle_come_within_one_of_the_best_known() {
    // Squares: Schaer, Wengerodt, Peikert et al.; other shapes: best found by a search outside the project.
    let table = rows(include_str!("../../../../tests/reference/circle_in_rect.csv"));
    let mut equal = 0;
    for row in &table {
        let (aspect, n, width) = (row[0], row[1] as usize, 1.001 * 0.2 * row[2]);
        let found = pack(&whole(false, width, aspect * width), &DISK, 0.0).len();
        assert!(found + 1 >= n, "{row:?} {found}");
        equal += usize::from(found >= n);
        // Oler's bound for a rectangle.
        let (w, d) = (width - 0.2, aspect * width - 0.2);
        let most = 2.0 / 3.0_f64.sqrt() * w * d / 0.04 + (w + d) / 0.2 + 1.0;
        assert!(found as f64 <= most + 1e-9);
    }
    assert!(10 * equal >= 9 * table.len(), "{equal} of {}", table.len());
}

#[test]
fn every_place_is_on_the_food_floor_and_keeps_its_gap() {
    let boxes = Footprint::Rectangle { width_m: 0.3, depth_m: 0.2 };
    for oven in sample::all() {
        let plan = FloorPlan::new(&oven, CELL_M);
        let region = plan.food_region();
        for footprint in [DISK, Footprint::Round { diameter_m: 0.33 }, boxes] {
            let places = pack(&region, &footprint, 0.02);
            assert!(places.len() >= 3, "{places:?}");
            for (k, &(x, y)) in places.iter().enumerate() {
                let (b, room) = (bounds(&footprint, x, y), region.bounds());
                assert!(b.x0 >= room.x0 - 1e-8 && b.x1 <= room.x1 + 1e-8);
                assert!(b.y0 >= room.y0 - 1e-8 && b.y1 <= room.y1 + 1e-8);
                assert!(lies_inside(&region, &footprint, x, y));
                for &(u, v) in &places[..k] {
                    assert!(!overlaps(&footprint, x, y, &footprint, u, v, 0.02 - 1e-8), "{places:?}");
                }
            }
        }
    }
}

/// Walks the piece's rim.
fn lies_inside(region: &Region, footprint: &Footprint, x: f64, y: f64) -> bool {
    let o = &region.outline;
    let inside = |px: f64, py: f64| o.contains(px * (1.0 - 1e-7), py * (1.0 - 1e-7));
    match *footprint {
        Footprint::Round { diameter_m } => (0..720).all(|k| {
            let (s, c) = libm::sincos(f64::from(k) * core::f64::consts::PI / 360.0);
            inside(x + diameter_m / 2.0 * c, y + diameter_m / 2.0 * s)
        }),
        Footprint::Rectangle { .. } => {
            let b = bounds(footprint, x, y);
            [(b.x0, b.y0), (b.x1, b.y0), (b.x0, b.y1), (b.x1, b.y1)].iter().all(|&(px, py)| inside(px, py))
        }
    }
}

#[test]
fn boxes_fill_a_box() {
    let tray = Footprint::Rectangle { width_m: 0.3, depth_m: 0.2 };
    assert_eq!(pack(&whole(false, 0.9, 0.8), &tray, 0.0).len(), 12);
    assert_eq!(pack(&whole(false, 0.9, 0.8), &tray, 0.01).len(), 6);
    assert_eq!(pack(&whole(false, 0.94, 0.86), &tray, 0.02).len(), 12);
    assert!(pack(&whole(false, 0.25, 0.8), &tray, 0.0).is_empty());
}

#[test]
fn nothing_fits_where_nothing_can() {
    assert!(pack(&whole(true, 0.19, 0.19), &DISK, 0.02).is_empty());
    assert_eq!(pack(&whole(true, 0.2, 0.2), &DISK, 0.02).len(), 1);
    let area = disk_in_rect_m2(0.1, 0.0, 0.0, &whole(true, 1.0, 1.0).bounds());
    assert!((area - core::f64::consts::PI * 0.01).abs() < 1e-15);
}

#[test]
fn the_same_floor_gives_the_same_places_and_a_mirrored_one_the_same_count() {
    let left = FloorPlan::new(&sample::oven(FloorShape::Round, 1.4, 1.4, 0.45, FireSide::Left), CELL_M);
    let right = FloorPlan::new(&sample::oven(FloorShape::Round, 1.4, 1.4, 0.45, FireSide::Right), CELL_M);
    let piece = Footprint::Round { diameter_m: 0.3 };
    assert_eq!(pack(&left.food_region(), &piece, 0.02), pack(&right.food_region(), &piece, 0.02));
    assert_eq!(pack(&left.food_region(), &piece, 0.02), pack(&left.food_region(), &piece, 0.02));
}
