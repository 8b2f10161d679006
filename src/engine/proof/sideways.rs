//! Owns the check of heat that spreads sideways through the floor, against a fine two-dimensional run by scipy.

use super::ovens::measured_oven;
use super::{Check, Outside, Status, Table, Worst};
use crate::hearth::build::{Accuracy, Build, DEFAULT_ACCURACY};
use crate::hearth::oven::Hearth;
use crate::numerics::column::{Grid, Slab};
use crate::numerics::field::{BLOCK, Field};
use crate::numerics::modes::{Modes, RATES};
use crate::scenario::{FloorShape, Footprint, Layer, Scenario};
use crate::service::night::Ready;
use crate::service::spots::{Spot, lay};

const SPREAD: &str = include_str!("../../../tests/reference/lateral_spread.csv");
const BESIDE: &str = include_str!("../../../tests/reference/beside_box.csv");
/// Width and depth of the strip's floor.
const FLOOR_M: (f64, f64) = (1.1, 0.1);
/// Load on the middle of it, W/m2, and its length, s.
const LOAD: (f64, f64) = (-20_000.0, 90.0);
/// Step of the fine cut, s.
const STEP_S: f64 = 5.0;
/// Half the load's width, m.
const LOAD_HALF_M: f64 = 0.15;
const STONE: Slab = Slab { thickness_m: 0.06, k_w_m_k: 1.05, rho_c_j_m3_k: 2150.0 * 956.0 };
/// Tiles of the fine cut, m. The usual ones of 10 cm pass heat on later than stone does (at the rim of a load by 1.3 K of 14.6): what
/// they lack is what the traces add, and so what a gun shows is checked with both together, on the usual cut.
const FINE_TILE_M: f64 = 0.0125;
/// The exchange from middle to middle of fine tiles is off by 0.08 K five minutes after a load of 14.6 K and by 0.02 K after an hour
/// (the exchange's own equations solved by matrix exponentials; on tiles twice as wide 0.31 and 0.08): that and a little.
const TOLERANCE_K: f64 = 0.1;

/// What a gun shows of a place may be off by this share: the trace's fading is fitted.
const PLACE_SHARE: f64 = 0.03;
/// What it shows of a place beside a load may be off by this share of what it shows of the place under it at the same moment.
const BESIDE_SHARE: f64 = 0.01;
/// Radius of the round load, m.
const RADIUS_M: f64 = 0.165;

/// All of them: strips under the load's rim and beside it on fine tiles, depth means from five minutes on; on the usual tiles what a
/// gun shows of a round load's place, and of a place beside a load.
pub fn checks() -> Vec<Check> {
    run().into_iter().chain(round()).chain(beside()).flatten().collect()
}

/// The measured oven's kitchen on a floor of which only the stone is left.
fn bare(width_m: f64, depth_m: f64) -> Option<Scenario> {
    let mut scenario = measured_oven()?;
    scenario.oven.shape = FloorShape::Rectangle;
    (scenario.oven.width_m, scenario.oven.depth_m) = (width_m, depth_m);
    scenario.oven.floor_layers = vec![Layer { material: "fireclay_dense".to_owned(), thickness_m: STONE.thickness_m }];
    Some(scenario)
}

/// The stone alone, all faces closed.
fn closed() -> Modes {
    Modes::new(&Grid::new(&[STONE], 0.0, DEFAULT_ACCURACY.fineness), None, RATES)
}

/// It under every tile, as warm as the room.
fn still<'m>(stone: &'m Modes, build: &Build) -> Field<'m> {
    Field::new(stone, build.plan.cells.len(), &[], [0.0; BLOCK])
}

/// Two boxes side by side, one under the load: what a gun shows of either.
fn beside() -> Option<Vec<Check>> {
    let table = Table::read(BESIDE);
    let first = table.rows().next()?;
    let (width_m, depth_m) = (first.number("width_m"), first.number("depth_m"));
    let mut scenario = bare(1.6, 1.2)?;
    scenario.menu[0].footprint = Footprint::Rectangle { width_m, depth_m };
    let ready = Ready::new(&scenario, DEFAULT_ACCURACY);
    let spots = ready.spots.of(0);
    let middle = |s: &Spot| s.x_m.abs() + s.y_m.abs();
    let loaded = spots.iter().min_by(|a, b| middle(a).total_cmp(&middle(b)))?;
    let next = spots.iter().filter(|s| (s.y_m - loaded.y_m).abs() < 1e-6 && s.x_m > loaded.x_m + 1e-6);
    let next = next.min_by(|a, b| a.x_m.total_cmp(&b.x_m))?;
    let stone = closed();
    let mut hearth = Hearth::new(&ready.build, &ready.scenario);
    hearth.floor = still(&stone, &ready.build);
    hearth.lay(&[lay(0, loaded)], &ready.laws);
    let (mut under, mut aside, mut at_s) = (Worst::default(), Worst::default(), 0.0);
    for row in table.rows() {
        let t = row.number("t_s");
        while at_s < t - 1e-9 {
            hearth.press(1.0, loaded.place, if at_s < LOAD.1 { LOAD.0 } else { 0.0 });
            at_s += 1.0;
        }
        // The table holds for boxes so far apart and for no others.
        let apart = (next.x_m - loaded.x_m - row.number("apart_m")).abs() < 1e-3;
        let got = |place: usize| if apart { hearth.place_k(place) } else { f64::NAN };
        let own_k = row.number("own_k");
        let source = "closed form by scipy's quadrature, tests/reference/beside_box.csv";
        let library = Status::ReferenceLibrary;
        let what = |place: &str| format!("face {place} a box under load, {t} s after it was laid");
        let outside = Outside::relative(own_k, PLACE_SHARE, "K", library, source);
        under.add(outside.against("sideways.box", &what("under"), got(loaded.place)));
        let outside = Outside::within(row.number("beside_k"), BESIDE_SHARE * own_k.abs(), "K", library, source);
        aside.add(outside.against("sideways.beside", &what("of a spot beside"), got(next.place)));
    }
    Some([under, aside].into_iter().filter_map(Worst::into_check).collect())
}

/// A round load off the cells' middle lines, on a floor of which only the stone is left: what a gun shows of its place.
fn round() -> Option<Vec<Check>> {
    let mut scenario = bare(1.6, 1.2)?;
    scenario.menu[0].footprint = Footprint::Round { diameter_m: 2.0 * RADIUS_M };
    let ready = Ready::new(&scenario, DEFAULT_ACCURACY);
    let middle = |s: &Spot| s.x_m.abs() + s.y_m.abs();
    let spot = ready.spots.of(0).iter().min_by(|a, b| middle(a).total_cmp(&middle(b)))?;
    let stone = closed();
    let mut hearth = Hearth::new(&ready.build, &ready.scenario);
    hearth.floor = still(&stone, &ready.build);
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
    let scenario = bare(FLOOR_M.0, FLOOR_M.1)?;
    let build = Build::new(&scenario, Accuracy { cell_m: FINE_TILE_M, ..DEFAULT_ACCURACY });
    let stone = closed();
    let mut hearth = Hearth::new(&build, &scenario);
    hearth.floor = still(&stone, &build);
    let capacity: f64 = hearth.floor.grid().capacity_j_m2_k.iter().sum();
    let mut load = vec![0.0; hearth.floor.width()];
    for (flux, cell) in load.iter_mut().zip(&build.plan.cells) {
        *flux = if cell.x_m.abs() < LOAD_HALF_M { LOAD.0 } else { 0.0 };
    }
    let none = vec![0.0; hearth.floor.width()];
    let mean = |hearth: &Hearth<'_>, at_m: f64| {
        let one: Vec<f64> = build
            .plan
            .cells
            .iter()
            .map(|cell| if (cell.x_m.abs() - at_m).abs() < 0.05 { cell.area_m2 } else { 0.0 })
            .collect();
        hearth.floor.stored_j(&one) / (capacity * one.iter().sum::<f64>())
    };
    let (mut rim, mut beside) = (Worst::default(), Worst::default());
    let mut at_s = 0.0;
    for row in Table::read(SPREAD).rows().filter(|row| row.text("shape") == "flat") {
        let t = row.number("t_s");
        while at_s < t - 1e-9 {
            hearth.floor.advance(STEP_S, if at_s < LOAD.1 { &load } else { &none }, 0.0, &build.cell_area_m2);
            hearth.conduct_sideways(STEP_S);
            at_s += STEP_S;
        }
        let (slot, id, place, at_m) = match row.text("part") {
            "cell1" if t >= 300.0 => (&mut rim, "sideways.rim.fine", "under the rim of a load", 0.1),
            "cell2" if t >= 300.0 => (&mut beside, "sideways.beside.fine", "beside a load", 0.2),
            _ => continue,
        };
        let source = "scipy 1.17.1 BDF on a two-dimensional grid of 2.5 mm, tests/reference/lateral_spread.csv";
        let outside = Outside::within(row.number("column_rise_k"), TOLERANCE_K, "K", Status::ReferenceLibrary, source);
        slot.add(outside.against(
            id,
            &format!("depth mean of the stone {place}, {t} s after it was laid, on tiles of 1.25 cm"),
            mean(&hearth, at_m),
        ));
    }
    Some([rim, beside].into_iter().filter_map(Worst::into_check).collect())
}
