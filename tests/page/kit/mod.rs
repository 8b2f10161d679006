//! Owns a hand-made answer for the pictures' tests: an invented evening, written down, never computed by the engine.

#![allow(dead_code, reason = "each of the tests that draw uses its own part")]

pub mod odd;

use std::rc::Rc;

use hearthload::report::*;
use hearthload::scenario::{FireSide, FloorShape, Footprint};
use hearthload_page::charts::evening::{Evening, Phase, Piece, PieceState};
use hearthload_page::charts::kitchen::{DishShape, Kitchen, Side};
use hearthload_page::charts::ladder::{Held, Ladder, Rung};
use hearthload_page::charts::nights::Nights;
use hearthload_page::charts::{Answer, Picture, Reading, WoodSpread};

const HOUR: f64 = 3600.0;
const QUARTER: f64 = 900.0;
/// Covers of the evening by quarter hour from half past five.
const COVERS: [f64; 20] =
    [6.0, 8.0, 10.0, 12.0, 14.0, 15.0, 17.0, 18.0, 20.0, 21.0, 21.0, 21.0, 21.0, 19.0, 16.0, 13.0, 10.0, 8.0, 6.0, 4.0];
/// Coolest spot under the first dish and mean floor, degC, by quarter hour: sags under 300 from 20:00 to 21:30.
const COOLEST: [f64; 21] = [
    331.0, 329.0, 326.0, 323.0, 320.0, 318.0, 315.0, 312.0, 309.0, 306.0, 302.0, 294.0, 283.0, 277.0, 281.0, 289.0,
    298.0, 305.0, 310.0, 313.0, 315.0,
];
const MEAN: [f64; 21] = [
    342.0, 340.0, 337.0, 333.0, 328.0, 324.0, 321.0, 318.0, 315.0, 313.0, 310.0, 305.0, 301.0, 299.0, 301.0, 305.0,
    310.0, 315.0, 319.0, 322.0, 324.0,
];

/// Name, floor band, heat from hearth and chamber, pieces by 100 covers, diameter, look.
type Row = (&'static str, [f64; 2], f64, f64, f64, f64, Side);

fn rows() -> [Row; 5] {
    [
        ("Leek round", [300.0, 350.0], 81.0, 54.0, 62.0, 0.28, Side::Flat),
        ("Oatling", [280.0, 360.0], 43.0, 19.0, 48.0, 0.18, Side::Flat),
        ("Roots in iron", [260.0, 350.0], 96.0, 52.0, 12.0, 0.24, Side::Pan),
        ("Half hen in clay", [240.0, 340.0], 214.0, 198.0, 4.0, 0.28, Side::Clay),
        ("Pear tin", [230.0, 340.0], 38.0, 50.0, 10.0, 0.16, Side::Tin),
    ]
}

/// The kitchen of the evening.
pub fn kitchen() -> Kitchen {
    Kitchen {
        shape: FloorShape::Round,
        width_m: 1.2,
        depth_m: 1.2,
        door_width_m: 0.5,
        door_height_m: 0.26,
        dome_rise_m: 0.42,
        wall_m: 0.2,
        fire_side: FireSide::Left,
        bed_share: 0.22,
        light_s: 15.33 * HOUR,
        start_s: 17.5 * HOUR,
        end_s: 22.5 * HOUR,
        covers: COVERS.to_vec(),
        kindling_kg: 2.4,
        dishes: rows()
            .into_iter()
            .map(|(name, _, _, _, per_100_covers, across, side)| DishShape {
                footprint: if name.starts_with("Half") {
                    Footprint::Rectangle { width_m: 0.28, depth_m: 0.2 }
                } else {
                    Footprint::Round { diameter_m: across }
                },
                side,
                per_100_covers,
            })
            .collect(),
    }
}

/// The evening's report: floor heat gives on the leek rounds at 20:05.
pub fn report() -> CarryReport {
    CarryReport {
        name: "Ellerquay, Friday".to_owned(),
        verdict: verdict(),
        dishes: rows().into_iter().map(dish).collect(),
        floor: floor(),
        wood: wood(),
        assist: AssistReport {
            needed: false,
            kw_delivered_least: None,
            kw_rated_least: None,
            lead_min: None,
            kwh: 0.0,
            underside_most_c: None,
        },
        waits: WaitReport { median_s: 60.0, p90_s: 250.0, worst_s: 540.0, last_out: "22:40".to_owned() },
        ledger_mj: LedgerMj {
            fire: 487.0,
            assist: 0.0,
            food: 44.0,
            doorway_flow: 253.0,
            doorway_radiation: 42.0,
            shell: 58.0,
            stored: 90.0,
            residual: 0.0,
        },
        doorway_kw_m2: 2.4,
        warnings: Vec::new(),
        cautions: Vec::new(),
        assumed: Vec::new(),
        map: Some(map()),
        fault: None,
    }
}

fn verdict() -> Verdict {
    let load = |what, used, says: &str| Load { what, used, says: says.to_owned() };
    let broke = Broke {
        promise: "bake_slower_max".to_owned(),
        at: "20:05".to_owned(),
        dish: "Leek round".to_owned(),
        promised: 0.33,
        got: 0.55,
    };
    Verdict {
        carries: false,
        broke: Some(broke.clone()),
        all_broke: vec![broke],
        gives_first: Gives::FloorHeat,
        says: "Not as it stands: from 20:05 the floor runs out of heat for the leek rounds.".to_owned(),
        because: String::new(),
        loads: vec![
            load(Gives::FloorHeat, 1.17, "114 pieces an hour pull 2.2 kW, it wins back 1.9 kW."),
            load(Gives::TopHeat, 0.94, ""),
            load(Gives::FloorSpace, 0.69, ""),
            load(Gives::Hands, 0.82, ""),
            load(Gives::Fire, 0.88, ""),
            load(Gives::DoorwayAir, 0.91, ""),
        ],
    }
}

fn dish((name, floor_band_c, hearth, chamber, mix, _, _): Row) -> DishReport {
    DishReport {
        name: name.to_owned(),
        heat_kj: hearth + chamber,
        from_hearth_kj: hearth,
        from_chamber_kj: chamber,
        hearth_kj_per_cover: hearth * mix / 100.0,
        base_share: hearth / (hearth + chamber),
        base_share_range: [0.5, 0.7],
        base_factor: 1.0,
        top_factor: 1.0,
        bake_s_median: Some(210.0),
        bake_s_worst: Some(310.0),
        bake_s_known: 200.0,
        ready_again_min_median: Some(7.0),
        ready_again_min_worst: Some(15.0),
        recovery_min_median: Some(20.0),
        never_share: 0.0,
        ordered: 100,
        baked: 100,
        share_in_band: 0.8,
        fit: 9,
        parts: HeatParts::default(),
        findings: Vec::new(),
        floor_band_c,
        dome_band_c: [380.0, 480.0],
    }
}

fn floor() -> FloorReport {
    let quarter = |step: usize| {
        let at_s = 17.5 * HOUR + QUARTER * step as f64;
        FloorQuarter {
            time: clock(at_s),
            at_s,
            mean_c: MEAN[step],
            lowest_c: COOLEST[step],
            dome_c: 430.0,
            covers: COVERS.get(step).copied().unwrap_or(0.0),
            wood_kg: 1.0,
            gas_kwh: 0.0,
        }
    };
    FloorReport {
        start_c: 342.0,
        lowest_c: 277.0,
        lowest_at: "20:45".to_owned(),
        lowest_dish: "Leek round".to_owned(),
        lowest_at_lift_c: 250.0,
        probe_lowest_c: 270.0,
        probe_says: String::new(),
        by_quarter_hour: (0..MEAN.len()).map(quarter).collect(),
    }
}

fn wood() -> WoodReport {
    let fed = [
        (15, 1.0, 2.4),
        (16, 3.0, 0.0),
        (17, 2.0, 0.0),
        (18, 2.0, 0.0),
        (19, 3.0, 0.0),
        (20, 3.0, 0.0),
        (21, 2.0, 0.0),
        (22, 1.0, 0.0),
    ];
    let hour = |(hour, pieces, kindling): (u32, f64, f64)| WoodHour {
        time: format!("{hour}:00"),
        burnt_kg: pieces * 1.9 + kindling,
        fed_kg: pieces * 1.9 + kindling,
        pieces,
    };
    WoodReport {
        kg_per_h_peak: 5.7,
        kg_light_up: 12.0,
        kg_service: 22.7,
        kg_piece: 1.9,
        by_hour: fed.into_iter().map(hour).collect(),
        lambda_least: Some(2.1),
        flame_reach_most: 0.9,
        doorway_air_used: 0.91,
    }
}

fn map() -> FloorMap {
    let mut cells = Vec::new();
    for row in 0..12 {
        for column in 0..12 {
            let (x_m, y_m) = (-0.55 + 0.1 * f64::from(column), -0.55 + 0.1 * f64::from(row));
            let area_m2 = inside_share(x_m, y_m) * 0.01;
            if area_m2 > 0.0003 {
                cells.push(CellShape { x_m, y_m, area_m2, under_fire: x_m < -0.3 });
            }
        }
    }
    let frames = (0..=86).map(|step| frame(15.333 * HOUR + 300.0 * f64::from(step), &cells)).collect();
    FloorMap { cell_m: 0.1, cells, frames, placements: placements() }
}

fn inside_share(x_m: f64, y_m: f64) -> f64 {
    let mut inside = 0;
    for a in 0..10 {
        for b in 0..10 {
            let (x, y) = (x_m - 0.045 + 0.01 * f64::from(a), y_m - 0.045 + 0.01 * f64::from(b));
            inside += u32::from(x * x + y * y < 0.36);
        }
    }
    f64::from(inside) / 100.0
}

/// Hot at the fire, cool at the doorway and where leek rounds were laid; follows the evening's mean.
fn frame(at_s: f64, cells: &[CellShape]) -> Frame {
    let along = ((at_s - 17.5 * HOUR) / QUARTER).clamp(0.0, 20.0);
    let mean = MEAN[along.floor() as usize];
    let face = |cell: &CellShape| {
        let (dx, dy) = (cell.x_m - 0.15, cell.y_m + 0.22);
        let dent = 22.0 * (1.0 - (dx * dx + dy * dy) / 0.05).max(0.0);
        if cell.under_fire { 520.0 } else { mean - 40.0 * (cell.x_m - 0.15) + 24.0 * cell.y_m - dent }
    };
    Frame { at_s, face_c: cells.iter().map(face).collect(), fire_kw: 28.0, dome_c: 430.0 }
}

fn placements() -> Vec<Placement> {
    let mut all = Vec::new();
    let mut put = |dish: usize, x_m: f64, y_m: f64, from_s: f64, stay_s: f64, at_load_c: f64| {
        let in_band = at_load_c >= rows()[dish].1[0];
        all.push(Placement {
            dish,
            x_m,
            y_m,
            ordered_s: from_s - 60.0,
            from_s,
            to_s: Some(from_s + stay_s),
            at_load_c,
            at_lift_c: None,
            in_band,
        });
    };
    for (step, &coolest) in COOLEST.iter().enumerate().filter(|(step, _)| *step != 13) {
        put(0, 0.1, 0.3, 17.5 * HOUR + QUARTER * step as f64 + 60.0, 240.0, coolest);
    }
    let now = 20.75 * HOUR;
    put(0, 0.16, -0.22, now, 275.0, 277.0);
    put(0, -0.14, 0.08, now - 60.0, 270.0, 296.0);
    put(0, -0.08, 0.38, now - 200.0, 250.0, 308.0);
    put(0, 0.22, 0.36, now - 100.0, 225.0, 309.0);
    put(3, 0.2, 0.04, now - 700.0, 1960.0, 279.0);
    put(2, -0.12, -0.22, now - 400.0, 650.0, 284.0);
    put(1, 0.45, 0.14, now - 100.0, 140.0, 283.0);
    put(1, 0.04, -0.45, now - 60.0, 150.0, 282.0);
    put(4, 0.44, -0.1, now - 100.0, 480.0, 286.0);
    put(4, 0.38, -0.3, now - 300.0, 430.0, 287.0);
    all
}

/// "HH:MM".
pub fn clock(at_s: f64) -> String {
    let minutes = (at_s / 60.0).round() as u32;
    format!("{:02}:{:02}", minutes / 60, minutes % 60)
}

/// The evening as an answer.
pub fn answer() -> Answer {
    Answer { report: Rc::new(report()), kitchen: Rc::new(kitchen()) }
}

/// Every picture of an answer.
pub fn pictures(answer: &Answer) -> Vec<Picture> {
    vec![
        Picture::Beam(answer.clone()),
        Picture::Gives(answer.clone()),
        Picture::Heat(answer.clone()),
        Picture::Floor(answer.clone()),
        Picture::Plan(answer.clone()),
        Picture::Ledger(answer.clone()),
        Picture::Wood(answer.clone()),
        Picture::Ladder(Rc::new(ladder())),
        Picture::Evening(Rc::new(evening())),
        Picture::Nights(Rc::new(nights())),
        Picture::WoodSpread(Rc::new(WoodSpread { p10_kg: 88.0, p50_kg: 96.4, p90_kg: 109.2, planned_kg: Some(94.0) })),
    ]
}

/// Seven floors on offer.
pub fn ladder() -> Ladder {
    let held =
        [(48.0, 66.0), (64.0, 86.0), (82.0, 107.0), (98.0, 128.0), (127.0, 156.0), (148.0, 181.0), (166.0, 203.0)];
    let rung = |(index, (wood, gas)): (usize, (f64, f64))| {
        let width_m = 0.9 + 0.1 * index as f64;
        Rung { width_m, depth_m: width_m, bed_share: 0.22, on_wood: Held::Most(wood), with_gas: Held::Most(gas) }
    };
    Ladder {
        shape: FloorShape::Round,
        fire_side: FireSide::Left,
        rungs: held.into_iter().enumerate().map(rung).collect(),
        asks: 114.0,
        unit: "pieces an hour".to_owned(),
        smallest_on_wood: Some(4),
        smallest_with_gas: Some(3),
        nine_in_ten: Some(5),
        chosen: None,
    }
}

/// The evening at twenty past seven, a reading of 285 degrees just typed.
pub fn evening() -> Evening {
    let fed = [17.333, 17.833, 18.333, 18.583, 18.833, 19.083, 19.317];
    let coming = [19.517, 19.717, 19.917, 20.117, 20.317, 20.567, 20.817, 21.317, 21.817];
    let piece = |hour: f64, state| Piece { at_s: (hour * HOUR).round(), count: 1, state };
    let mut pieces: Vec<Piece> = fed.iter().map(|&hour| piece(hour, PieceState::Fed)).collect();
    pieces.extend(
        coming
            .iter()
            .enumerate()
            .map(|(index, &hour)| piece(hour, if index == 0 { PieceState::Next } else { PieceState::ToCome })),
    );
    let reading = |(hour, at_c): (f64, f64)| Reading { at_s: hour * HOUR, at_c };
    let phase =
        |from: f64, to: f64, words: &str| Phase { from_s: from * HOUR, to_s: to * HOUR, words: words.to_owned() };
    Evening {
        from_s: 17.0 * HOUR,
        to_s: 22.5 * HOUR,
        phases: vec![
            phase(17.333, 19.3, "fed"),
            phase(19.35, 20.5, "every 12 min"),
            phase(20.6, 20.95, "every 15 min"),
            phase(21.1, 22.0, "every 30 min"),
        ],
        pieces,
        old_pieces_s: [19.333, 19.583, 19.833, 20.083, 20.333, 20.583, 20.833, 21.333, 21.833]
            .iter()
            .map(|hour| hour * HOUR)
            .collect(),
        floor_so_far: [(17.5, 338.0), (18.0, 333.0), (18.5, 322.0), (19.0, 301.0), (19.3, 285.0)]
            .into_iter()
            .map(reading)
            .collect(),
        floor_planned: [(19.3, 285.0), (19.6, 288.0), (20.1, 300.0), (20.75, 306.0), (21.5, 316.0), (22.5, 319.0)]
            .into_iter()
            .map(reading)
            .collect(),
        floor_old: [(17.5, 341.0), (18.5, 327.0), (19.3, 307.0), (20.5, 303.0), (21.5, 315.0), (22.5, 320.0)]
            .into_iter()
            .map(reading)
            .collect(),
        band_c: [300.0, 350.0],
        band_of: "the leek round".to_owned(),
        gas_s: vec![[19.5 * HOUR, 20.3 * HOUR]],
        gas_words: "gas, 9\u{a0}kW".to_owned(),
        covers: COVERS.to_vec(),
        covers_from_s: 17.5 * HOUR,
        reading: Some(Reading { at_s: 19.3 * HOUR, at_c: 285.0 }),
        now_s: Some(19.333 * HOUR),
        remark: "in the band by 20:07".to_owned(),
        at_arms_length: true,
    }
}

/// 620 of 1000 nights run.
pub fn nights() -> Nights {
    Nights {
        from_s: 17.5 * HOUR,
        to_s: 22.5 * HOUR,
        broken_by_quarter: vec![0, 0, 0, 0, 0, 0, 1, 2, 3, 5, 9, 16, 24, 31, 22, 11, 5, 2, 1, 0],
        run: 620,
        asked: 1000,
        held: 515,
        share_error: 0.029,
        what: "130\u{a0}cm".to_owned(),
    }
}

/// The evening with enough heat: every spot thirty degrees warmer, nothing gives.
pub fn carrying() -> Answer {
    let mut report = report();
    report.verdict.carries = true;
    report.verdict.broke = None;
    report.verdict.all_broke.clear();
    report.verdict.gives_first = Gives::None;
    report.verdict.says = "It carries, with 7 covers an hour to spare.".to_owned();
    for load in &mut report.verdict.loads {
        load.used = load.used.min(0.98);
    }
    for quarter in &mut report.floor.by_quarter_hour {
        quarter.lowest_c += 30.0;
        quarter.mean_c += 30.0;
    }
    if let Some(map) = &mut report.map {
        for placement in &mut map.placements {
            // At most the bands' least top: each stays in its own.
            placement.at_load_c = (placement.at_load_c + 30.0).min(339.0);
            placement.in_band = true;
        }
    }
    Answer { report: Rc::new(report), kitchen: Rc::new(kitchen()) }
}

/// The evening with the roots in a lighter pan.
pub fn other_pan() -> Answer {
    let mut report = report();
    report.dishes[2].from_hearth_kj = 71.0;
    Answer { report: Rc::new(report), kitchen: Rc::new(kitchen()) }
}
