//! A hand-made answer: an evening whose floor sags. Its numbers are chosen for the tests; they are nobody's result.

use hearthload::report::{
    AssistReport, Broke, CarryReport, Caution, DishReport, FloorQuarter, FloorReport, Gives, HeatParts, LedgerMj, Load,
    Verdict, WaitReport, WoodHour, WoodReport, words::clock_typed,
};
use hearthload::scenario::Assumed;

/// One dish with a given name.
pub fn dish(name: &str) -> DishReport {
    DishReport {
        name: name.to_owned(),
        heat_kj: 135.2,
        from_hearth_kj: 71.3,
        from_chamber_kj: 63.9,
        hearth_kj_per_cover: 57.0,
        base_share: 0.53,
        base_share_range: [0.5, 0.56],
        base_factor: 1.1,
        top_factor: 0.9,
        bake_s_median: Some(250.0),
        bake_s_worst: Some(310.4),
        bake_s_known: 200.0,
        ready_again_min_median: Some(12.2),
        ready_again_min_worst: None,
        recovery_min_median: Some(17.0),
        never_share: 0.02,
        ordered: 310,
        baked: 309,
        share_in_band: 0.71,
        fit: 8,
        parts: HeatParts::default(),
        findings: vec!["pale base".to_owned()],
        floor_band_c: [300.0, 400.0],
        dome_band_c: [350.0, 520.0],
    }
}

/// The floor from 16:00 to past midnight.
fn quarters() -> Vec<FloorQuarter> {
    (0..36)
        .map(|i| {
            let at_s = 57_600.0 + 900.0 * f64::from(i);
            FloorQuarter {
                time: clock_typed(at_s),
                at_s,
                mean_c: 300.0 + f64::from(i),
                lowest_c: 290.0 - f64::from(i % 2),
                dome_c: 400.0,
                covers: if i >= 8 { 20.0 } else { 0.0 },
                wood_kg: 1.1,
                gas_kwh: 0.0,
            }
        })
        .collect()
}

/// The verdict of the evening.
fn verdict() -> Verdict {
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
        says: "Not as it stands: from 20:05 the floor runs out of heat for Leek round.".to_owned(),
        because: "You promise that no bake slows by more than a third. By 20:45 a bake of Leek round takes 5\u{a0}min \
                  10\u{a0}s instead of 3\u{a0}min 20\u{a0}s: 114\u{a0}pieces an hour pull 2.2\u{a0}kW out of the floor, \
                  and it wins back 1.9\u{a0}kW between splits."
            .to_owned(),
        loads: vec![
            Load { what: Gives::Hands, used: 0.62, says: "One pair of hands.".to_owned() },
            Load { what: Gives::FloorHeat, used: 1.16, says: "The floor.".to_owned() },
        ],
    }
}

fn floor() -> FloorReport {
    FloorReport {
        start_c: 412.0,
        lowest_c: 277.4,
        lowest_at: "20:45".to_owned(),
        lowest_dish: "Leek round".to_owned(),
        lowest_at_lift_c: 240.1,
        probe_lowest_c: 301.0,
        probe_says: "Your probe will show 301\u{a0}°C.".to_owned(),
        by_quarter_hour: quarters(),
    }
}

/// The whole answer.
pub fn sagging() -> CarryReport {
    CarryReport {
        name: "Corner oven, Friday".to_owned(),
        verdict: verdict(),
        dishes: vec![dish("Leek round"), dish("A dish with a name far too long for its column")],
        floor: floor(),
        wood: WoodReport {
            kg_per_h_peak: 5.1,
            kg_light_up: 14.2,
            kg_service: 18.0,
            kg_piece: 2.1,
            by_hour: vec![WoodHour { time: "16:00".to_owned(), burnt_kg: 4.0, fed_kg: 4.2, pieces: 2.0 }],
            lambda_least: Some(2.3),
            flame_reach_most: 0.71,
            doorway_air_used: 0.5,
        },
        assist: AssistReport {
            needed: false,
            kw_delivered_least: None,
            kw_rated_least: None,
            lead_min: None,
            kwh: 0.0,
            underside_most_c: None,
        },
        waits: WaitReport { median_s: 0.0, p90_s: 95.0, worst_s: 400.0, last_out: "25:10".to_owned() },
        ledger_mj: LedgerMj {
            fire: 400.04,
            assist: 0.0,
            food: 60.04,
            doorway_flow: 200.0,
            doorway_radiation: 40.0,
            shell: 30.0,
            stored: 70.0,
            residual: 0.0,
        },
        doorway_kw_m2: 2.14,
        warnings: vec!["The bed burns dirty between 18:10 and 18:25: feed one piece instead of two.".to_owned()],
        cautions: vec![
            Caution { act: "light".to_owned(), says: "Extraction on before the match. Always.".to_owned() },
            Caution { act: "light".to_owned(), says: "A CO alarm everyone can hear.".to_owned() },
            Caution { act: "ash".to_owned(), says: "Embers live for days".to_owned() },
        ],
        assumed: vec![Assumed {
            field: "oven.emissivity".to_owned(),
            value: "0.9".to_owned(),
            unit: String::new(),
            source: "=common practice, no source".to_owned(),
        }],
        map: None,
        fault: None,
    }
}
