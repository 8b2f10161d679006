//! Owns the check of heat that spreads sideways through the floor, against a fine two-dimensional run by scipy.

use super::ovens::measured_oven;
use super::{Check, Outside, Status, Table, Worst};
use crate::hearth::build::{Build, DEFAULT_ACCURACY};
use crate::hearth::oven::Hearth;
use crate::numerics::column::{Columns, Grid, Slab};
use crate::scenario::{FloorShape, Footprint, Layer};
use crate::service::night::Ready;
use crate::service::spots::{Spot, lay};

const SPREAD: &str = include_str!("../../../tests/reference/lateral_spread.csv");
/// Width and depth of the strip's floor: an odd number of cells of 0.1 m across, so that one lies on the middle line.
const FLOOR_M: (f64, f64) = (1.1, 0.5);
/// Load on the middle three columns, W/m2, and its length, s.
const LOAD: (f64, f64) = (-20_000.0, 90.0);
const STONE: Slab = Slab { thickness_m: 0.06, k_w_m_k: 1.05, rho_c_j_m3_k: 2150.0 * 956.0 };
/// Cells of 0.1 m pass heat on later than stone does: a tenth of the fall of the loaded columns' mean (14.6 K).
const TOLERANCE_K: f64 = 1.5;

/// What a gun shows of a place may be off by this share: the trace's fading is fitted.
const PLACE_SHARE: f64 = 0.03;
/// Radius of the round load, m.
const RADIUS_M: f64 = 0.165;

/// All of them: the loaded rim and the cell beside it, depth means from five minutes on; the place of a round load.
pub fn checks() -> Vec<Check> {
    run().into_iter().chain(round()).flatten().collect()
}

/// A round load off the cells' middle lines, on a floor of which only the stone is left: what a gun shows of its place.
fn round() -> Option<Vec<Check>> {
    let mut scenario = measured_oven()?;
    scenario.oven.shape = FloorShape::Rectangle;
    (scenario.oven.width_m, scenario.oven.depth_m) = (1.6, 1.2);
    scenario.oven.floor_layers = vec![Layer { material: "fireclay_dense".to_owned(), thickness_m: STONE.thickness_m }];
    scenario.menu[0].footprint = Footprint::Round { diameter_m: 2.0 * RADIUS_M };
    let ready = Ready::new(&scenario, DEFAULT_ACCURACY);
    let middle = |s: &Spot| s.x_m.abs() + s.y_m.abs();
    let spot = ready.spots.of(0).iter().min_by(|a, b| middle(a).total_cmp(&middle(b)))?;
    let mut hearth = Hearth::new(&ready.build, &ready.scenario);
    let grid = Grid::new(&[STONE], 0.0, DEFAULT_ACCURACY.fineness);
    let still = vec![0.0; grid.nodes()];
    hearth.floor = Columns::new(grid, ready.build.plan.cells.len(), &still);
    hearth.lay(&[lay(0, spot)], &ready.laws);
    let mut worst = Worst::default();
    let mut at_s = 0.0;
    for row in Table::read(SPREAD).rows().filter(|row| row.text("shape") == "round" && row.text("part") == "footprint")
    {
        let t = row.number("t_s");
        while at_s < t - 1e-9 {
            hearth.press(1.0, spot.place, if at_s < LOAD.1 { LOAD.0 } else { 0.0 });
            at_s += 1.0;
        }
        let source = "scipy 1.17.1 BDF on a two-dimensional grid of 2.5 mm, tests/reference/lateral_spread.csv";
        let outside = Outside::relative(row.number("face_rise_k"), PLACE_SHARE, "K", Status::ReferenceLibrary, source);
        let what = format!("face under a round load of 33 cm, {t} s after it was laid");
        worst.add(outside.against("sideways.place", &what, hearth.place_k(spot.place)));
    }
    Some(worst.into_check().into_iter().collect())
}

/// The strip, its faces insulated but under the load.
fn run() -> Option<Vec<Check>> {
    let mut scenario = measured_oven()?;
    let oven = &mut scenario.oven;
    oven.shape = FloorShape::Rectangle;
    (oven.width_m, oven.depth_m) = FLOOR_M;
    oven.floor_layers = vec![Layer { material: "fireclay_dense".to_owned(), thickness_m: STONE.thickness_m }];
    let build = Build::new(&scenario, DEFAULT_ACCURACY);
    let mut hearth = Hearth::new(&build, &scenario);
    let grid = Grid::new(&[STONE], 0.0, DEFAULT_ACCURACY.fineness);
    let still = vec![0.0; grid.nodes()];
    let capacity: f64 = grid.capacity_j_m2_k.iter().sum();
    hearth.floor = Columns::new(grid, build.plan.cells.len(), &still);
    let mut load = vec![0.0; hearth.floor.width()];
    for (flux, cell) in load.iter_mut().zip(&build.plan.cells) {
        *flux = if cell.x_m.abs() < 0.14 { LOAD.0 } else { 0.0 };
    }
    let none = vec![0.0; hearth.floor.width()];
    let mean = |hearth: &Hearth<'_>, at_m: f64| {
        let mut one = vec![0.0; build.plan.cells.len()];
        let (mut area, mut chosen) = (0.0, 0);
        for (weight, cell) in one.iter_mut().zip(&build.plan.cells) {
            if (cell.x_m.abs() - at_m).abs() < 0.01 {
                *weight = cell.area_m2;
                area += cell.area_m2;
                chosen += 1;
            }
        }
        if chosen == 0 { f64::NAN } else { hearth.floor.stored_j(&one) / (capacity * area) }
    };
    let (mut rim, mut beside) = (Worst::default(), Worst::default());
    let (mut at_s, mut since_s) = (0.0, 0.0);
    for row in Table::read(SPREAD).rows().filter(|row| row.text("shape") == "flat") {
        let t = row.number("t_s");
        while at_s < t - 1e-9 {
            hearth.floor.advance(1.0, if at_s < LOAD.1 { &load } else { &none }, None, &build.cell_area_m2);
            at_s += 1.0;
            since_s += 1.0;
            if since_s >= 60.0 {
                hearth.conduct_sideways(since_s);
                since_s = 0.0;
            }
        }
        let (slot, id, place, at_m) = match row.text("part") {
            "cell1" if t >= 300.0 => (&mut rim, "sideways.rim", "under the rim of a load", 0.1),
            "cell2" if t >= 300.0 => (&mut beside, "sideways.beside", "beside a load", 0.2),
            _ => continue,
        };
        let source = "scipy 1.17.1 BDF on a two-dimensional grid of 2.5 mm, tests/reference/lateral_spread.csv";
        let outside = Outside::within(row.number("column_rise_k"), TOLERANCE_K, "K", Status::ReferenceLibrary, source);
        slot.add(outside.against(
            id,
            &format!("depth mean of the stone {place}, {t} s after it was laid"),
            mean(&hearth, at_m),
        ));
    }
    Some([rim, beside].into_iter().filter_map(Worst::into_check).collect())
}
