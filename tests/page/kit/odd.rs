//! Owns the odd cases of the pictures' tests: nothing on the menu, much on it, no plan, other ovens, other heats.

use std::rc::Rc;

use hearthload::report::*;
use hearthload::scenario::{FireSide, FloorShape};
use hearthload_page::charts::Answer;

use super::{kitchen, report};

/// Every odd case with its name.
pub fn cases() -> Vec<(&'static str, Answer)> {
    vec![
        ("empty", empty()),
        ("many", many()),
        ("no-map", without_map()),
        ("gas", with_gas()),
        ("cold-stone", cold_stone()),
        ("rectangle", other_oven(FloorShape::Rectangle, FireSide::Rear)),
        ("oval", other_oven(FloorShape::DeepOval, FireSide::Right)),
        ("deep-sag", deep_sag()),
        ("hands", hands()),
    ]
}

fn answer(report: CarryReport, kitchen: hearthload_page::charts::Kitchen) -> Answer {
    Answer { report: Rc::new(report), kitchen: Rc::new(kitchen) }
}

/// An oven alone: no dish, no covers, no load measured, nothing burnt.
fn empty() -> Answer {
    let (mut report, mut kitchen) = (report(), kitchen());
    report.dishes.clear();
    report.verdict.loads.clear();
    report.verdict.broke = None;
    report.floor.by_quarter_hour.clear();
    report.wood.by_hour.clear();
    report.ledger_mj = LedgerMj::default();
    report.map = Some(FloorMap::default());
    kitchen.dishes.clear();
    kitchen.covers.clear();
    answer(report, kitchen)
}

/// Twelve dishes with long names.
fn many() -> Answer {
    let (mut report, mut kitchen) = (report(), kitchen());
    let names = [
        "Slow celeriac with burnt hay butter",
        "Flat loaf",
        "Mussels in the small iron pan",
        "Whole turbot for two on fig leaves",
        "Aubergine",
        "Barley pot",
        "Custard tart from the wood end",
    ];
    for (index, name) in names.into_iter().enumerate() {
        let mut dish = report.dishes[index % 5].clone();
        dish.name = name.to_owned();
        dish.from_hearth_kj *= 0.3 + 0.35 * index as f64;
        report.dishes.push(dish);
        let shape = kitchen.dishes[index % 5].clone();
        kitchen.dishes.push(shape);
    }
    report.dishes[0].name = "Slow leek round with smoked curd".to_owned();
    if let Some(broke) = &mut report.verdict.broke {
        broke.dish = report.dishes[0].name.clone();
    }
    answer(report, kitchen)
}

fn without_map() -> Answer {
    let mut report = report();
    report.map = None;
    answer(report, kitchen())
}

/// A third of the heat comes from the burner.
fn with_gas() -> Answer {
    let mut report = report();
    report.assist.kwh = 44.0;
    report.ledger_mj = LedgerMj {
        fire: 320.0,
        assist: 160.0,
        food: 44.0,
        doorway_flow: 246.0,
        doorway_radiation: 42.0,
        shell: 58.0,
        stored: 90.0,
        residual: 0.0,
    };
    answer(report, kitchen())
}

/// The stone gave back more than it took, and a little does not close.
fn cold_stone() -> Answer {
    let mut report = report();
    report.ledger_mj = LedgerMj {
        fire: 150.0,
        assist: 0.0,
        food: 6.0,
        doorway_flow: 120.0,
        doorway_radiation: 22.0,
        shell: 58.0,
        stored: -60.0,
        residual: 4.0,
    };
    answer(report, kitchen())
}

fn other_oven(shape: FloorShape, fire_side: FireSide) -> Answer {
    let (mut report, mut kitchen) = (report(), kitchen());
    kitchen.shape = shape;
    kitchen.fire_side = fire_side;
    kitchen.width_m = 1.1;
    kitchen.depth_m = 1.5;
    let half_cell = 0.025;
    let mut cells = Vec::new();
    for row in 0..30 {
        for column in 0..22 {
            let (x_m, y_m) = (-0.55 + half_cell + 0.05 * f64::from(column), -0.75 + half_cell + 0.05 * f64::from(row));
            let inside =
                shape == FloorShape::Rectangle || (x_m / 0.55) * (x_m / 0.55) + (y_m / 0.75) * (y_m / 0.75) < 1.0;
            let under_fire = if fire_side == FireSide::Rear { y_m > 0.42 } else { x_m > 0.24 };
            if inside {
                cells.push(CellShape { x_m, y_m, area_m2: 0.0025, under_fire });
            }
        }
    }
    if let Some(map) = &mut report.map {
        map.cell_m = 0.05;
        for frame in &mut map.frames {
            frame.face_c = cells
                .iter()
                .map(|cell| if cell.under_fire { 540.0 } else { 310.0 + 30.0 * (cell.x_m + cell.y_m) })
                .collect();
        }
        map.cells = cells;
        map.placements.iter_mut().for_each(|placement| placement.x_m -= 0.12);
    }
    answer(report, kitchen)
}

/// A floor a hundred and forty degrees under the band.
fn deep_sag() -> Answer {
    let mut report = report();
    if let Some(map) = &mut report.map {
        map.placements
            .iter_mut()
            .filter(|placement| placement.at_load_c < 300.0)
            .for_each(|placement| placement.at_load_c -= 120.0);
    }
    answer(report, kitchen())
}

/// The floor holds, the hands do not.
fn hands() -> Answer {
    let mut report = super::carrying().report.as_ref().clone();
    report.verdict.carries = false;
    report.verdict.gives_first = Gives::Hands;
    report.verdict.broke = Some(Broke {
        promise: "wait_p90_s".to_owned(),
        at: "19:45".to_owned(),
        dish: String::new(),
        promised: 300.0,
        got: 700.0,
    });
    for load in &mut report.verdict.loads {
        load.used = if load.what == Gives::Hands { 3.4 } else { load.used * 0.5 };
    }
    answer(report, kitchen())
}
