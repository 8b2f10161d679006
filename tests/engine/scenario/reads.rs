//! Drafts that are right become scenarios in SI, and what was assumed is said.

use crate::{DEMOS, dish, least, put, with};
use hearthload::scenario::{self, FloorReading, Footprint, Resolved, SeenAtLifting, clock};
use serde_json::{Value, json};

fn resolved(draft: &Value) -> Resolved {
    scenario::resolve(draft).unwrap_or_else(|problems| panic!("{problems:#?}"))
}

#[test]
fn every_demo_reads() {
    for (name, text) in DEMOS {
        let read = scenario::read(text).unwrap_or_else(|problems| panic!("{name}: {problems:#?}"));
        assert!(!read.scenario.menu.is_empty(), "{name}");
    }
}

#[test]
fn the_least_draft_is_completed_and_says_with_what() {
    let read = resolved(&least());
    let oven = &read.scenario.oven;
    // By hand: 120 cm wide, rise 0.38 of it, doorway 0.42 of the width and 0.63 of the rise, to the millimetre.
    assert!((oven.dome_rise_m - 0.456).abs() < 1e-12);
    assert!((oven.door_width_m - 0.504).abs() < 1e-12);
    assert!((oven.door_height_m - 0.28).abs() < 1e-12);
    assert!((read.scenario.menu[0].known_bake.dome_c - 380.0).abs() < 1e-12);
    assert!((read.scenario.feeding.light_at - 15.0 * 3600.0).abs() < 1e-12);
    for field in
        ["oven.door_width_cm", "oven.floor_layers", "wood.species", "menu[0].floor_min_c", "promise.wait_p90_s"]
    {
        let taken = read.assumed.iter().find(|taken| taken.field == field).unwrap_or_else(|| panic!("{field}"));
        assert!(!taken.source.is_empty() && !taken.value.is_empty(), "{taken:?}");
    }
}

#[test]
fn what_is_given_is_not_assumed() {
    let read = resolved(&with("/oven/dome_rise_cm", json!(50)));
    assert!((read.scenario.oven.dome_rise_m - 0.5).abs() < 1e-12);
    assert!(!read.assumed.iter().any(|taken| taken.field == "oven.dome_rise_cm"));
    // The doorway's default follows the dome that was given, 0.63 of 50 cm, but no further than 28 cm.
    assert!((read.scenario.oven.door_height_m - 0.28).abs() < 1e-12);
}

#[test]
fn null_means_not_given() {
    assert_eq!(resolved(&with("/oven/dome_rise_cm", Value::Null)), resolved(&least()));
}

#[test]
fn units_become_si() {
    let mut draft = with("/oven/reading", json!("probe"));
    put(&mut draft, "/oven/probe_depth_cm", json!(2.5));
    put(&mut draft, "/oven/door_leak_g_s", json!(4));
    put(&mut draft, "/oven/assist", json!({"rated_kw": 18, "delivered_percent": 40}));
    put(&mut draft, "/wood/meter_percent_dry", json!(20));
    put(&mut draft, "/menu/0/carrier", json!({"material": "cast_iron", "mass_kg": 2.3, "out_min": 10}));
    put(&mut draft, "/menu/0/known_bake/seen", json!("floor"));
    put(&mut draft, "/menu/0/known_bake/floor_at_lift_c", json!(290));
    let scenario = resolved(&draft).scenario;
    assert_eq!(scenario.oven.reading, FloorReading::Probe { depth_m: 0.025 });
    assert!((scenario.oven.door_leak_kg_s - 0.004).abs() < 1e-15);
    let assist = scenario.oven.assist.expect("a burner");
    assert!((assist.rated_w - 18_000.0).abs() < 1e-9 && (assist.delivered_share - 0.4).abs() < 1e-15);
    assert!((scenario.wood.meter_dry_basis - 0.2).abs() < 1e-15);
    let dish = &scenario.menu[0];
    assert!((dish.known_bake.time_s - 198.0).abs() < 1e-9);
    assert!((dish.ingredients[0].mass_kg - 0.25).abs() < 1e-15);
    assert_eq!(dish.footprint, Footprint::Round { diameter_m: 0.28 });
    assert_eq!(dish.known_bake.seen, SeenAtLifting::FloorC(290.0));
    assert!((dish.carrier.as_ref().expect("a pan").out_s - 600.0).abs() < 1e-12);
}

#[test]
fn clock_times_go_on_past_midnight() {
    assert_eq!(clock::read("25:30"), Some(91_800.0));
    assert_eq!(clock::read("47:59"), Some(clock::LATEST_S));
    for wrong in ["48:00", "24:60", "7pm", "19.30", "", ":", "1930", "019:30", "-1:00", "19:3", "１9:30"] {
        assert_eq!(clock::read(wrong), None, "{wrong}");
    }
    for minute in 0..48 * 60 {
        let text = format!("{:02}:{:02}", minute / 60, minute % 60);
        let seconds = clock::read(&text).unwrap_or_else(|| panic!("{text}"));
        assert_eq!(clock::write(seconds), text);
    }
}

#[test]
fn poultry_asks_for_a_thermometer_and_dough_does_not() {
    let mut draft = with("/menu/0/ingredients/1/food", json!("chicken_thigh"));
    draft["menu"] = json!([draft["menu"][0].clone(), dish("Plain round")]);
    let menu = resolved(&draft).scenario.menu;
    assert!(menu[0].needs_core_check && !menu[1].needs_core_check);
}

#[test]
fn extremes_that_are_valid_are_read() {
    let all_night: Vec<f64> = vec![500.0 / 12.0; 48];
    let dishes: Vec<Value> = (0..80).map(|n| dish(&format!("Round {n}"))).collect();
    let drafts = [
        with("/oven/width_cm", json!(50)),
        with("/oven/width_cm", json!(300)),
        with("/menu", json!([])),
        with("/menu", json!(dishes)),
        with("/wood/meter_percent_dry", json!(0)),
        with("/wood/meter_percent_dry", json!(40)),
        with("/service", json!({"start": "18:00", "end": "30:00", "covers": all_night})),
        with("/service", json!({"start": "00:00", "end": "00:10", "covers": [1]})),
        with("/service", json!({"start": "47:00", "end": "47:59", "covers": [1, 1, 1, 1]})),
        with("/service/covers", json!([0, 0, 0, 0])),
        with("/feeding", json!({"kindling_kg": 0, "phases": []})),
        with("/menu/0/start_c", json!(-18)),
    ];
    for draft in drafts {
        resolved(&draft);
    }
}
