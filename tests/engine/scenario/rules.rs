//! What fields get wrong together.

use crate::{dish, least, put, with};
use hearthload::scenario;
use serde_json::{Value, json};

/// The draft has exactly this one problem, and it says this.
fn wrong(draft: &Value, field: &str, says: &str) {
    let found = scenario::resolve(draft).expect_err(field);
    assert_eq!(found.len(), 1, "{found:#?}");
    assert!(found[0].field == field && found[0].says.contains(says), "{field}, {says}: {found:#?}");
}

fn group(pointer: &str, value: Value, more: &[(&str, Value)]) -> Value {
    let mut draft = with(pointer, value);
    for (pointer, value) in more {
        put(&mut draft, pointer, value.clone());
    }
    draft
}

#[test]
fn oven_and_doorway() {
    wrong(&with("/oven/depth_cm", json!(140)), "oven.depth_cm", "is it a deep oval?");
    wrong(
        &group("/oven/dome_rise_cm", json!(30), &[("/oven/door_height_cm", json!(30))]),
        "oven.door_height_cm",
        "the dome rises 30 cm",
    );
    wrong(&with("/oven/door_width_cm", json!(130)), "oven.door_width_cm", "wider than the floor");
    let thin = json!([{"material": "fireclay_dense", "thickness_cm": 0.5}]);
    wrong(&with("/oven/floor_layers", thin), "oven.floor_layers[0].thickness_cm", "1 cm or more");
    wrong(
        &group("/oven/reading", json!("probe"), &[("/oven/probe_depth_cm", json!(7))]),
        "oven.probe_depth_cm",
        "the stone 6 cm (assumed) thick",
    );
    wrong(
        &with("/oven/assist", json!({"rated_kw": 15, "on_at": "19:00", "off_at": "01:00"})),
        "oven.assist.on_at",
        "go on counting, 25:30",
    );
    wrong(&with("/wood/piece_length_cm", json!(7)), "wood.piece_diameter_cm", "Are they swapped?");
    wrong(
        &group("/oven/width_cm", json!(50), &[("/wood/piece_length_cm", json!(50))]),
        "wood.piece_length_cm",
        "do not lie",
    );
    wrong(&with("/start/last_close_c", json!(300)), "start.closed_for_h", "Give both or none");
    wrong(
        &with("/start", json!({"floor_c": 310, "last_close_c": 305, "closed_for_h": 14})),
        "start.floor_c",
        "a shut oven only cools",
    );
}

#[test]
fn dishes() {
    wrong(&with("/menu", json!([dish("Same"), dish("same")])), "menu[1].name", "Two dishes");
    wrong(&with("/menu/0/footprint", json!({"shape": "round"})), "menu[0].footprint.diameter_cm", "is missing");
    wrong(&with("/menu/0/footprint", json!({"width_cm": 20})), "menu[0].footprint.depth_cm", "is missing");
    wrong(&with("/menu/0/footprint/width_cm", json!(20)), "menu[0].footprint.width_cm", "take \"Width\" away");
    wrong(
        &group("/menu/0/floor_min_c", json!(390), &[("/menu/0/floor_max_c", json!(300))]),
        "menu[0].floor_min_c",
        "which is no band",
    );
    wrong(&with("/menu/0/known_bake/seen", json!("floor")), "menu[0].known_bake.floor_at_lift_c", "just after lifting");
    wrong(
        &with("/menu/0/known_bake/floor_at_lift_c", json!(300)),
        "menu[0].known_bake.floor_at_lift_c",
        "choose the floor as what you saw",
    );
    wrong(
        &group("/menu/0/known_bake/seen", json!("floor"), &[("/menu/0/known_bake/floor_at_lift_c", json!(350))]),
        "menu[0].known_bake.floor_at_lift_c",
        "Are they swapped?",
    );
    wrong(&group("/menu/0/start_c", json!(60), &[("/menu/0/end_c", json!(50))]), "menu[0].start_c", "food gets warmer");
    wrong(&with("/menu/0/bake_loss_percent", json!(58)), "menu[0].bake_loss_percent", "hold only 5");
    wrong(&with("/menu/0/footprint/diameter_cm", json!(100)), "menu[0].footprint", "Not even one fits");
    let light = json!([{"food": "pizza_dough", "grams": 0.25}]);
    wrong(&with("/menu/0/ingredients", light), "menu[0].ingredients", "Are its grams kilograms?");
    wrong(&with("/menu/0/footprint/diameter_cm", json!(3)), "menu[0].footprint", "cm tall");
}

#[test]
fn a_band_end_that_was_given_moves_the_other() {
    let draft = with("/menu/0/floor_max_c", json!(270));
    let dish = &scenario::resolve(&draft).unwrap_or_else(|found| panic!("{found:#?}")).scenario.menu[0];
    assert!(dish.floor_min_c < dish.floor_max_c);
}

#[test]
fn service() {
    let covers = "there are 4 quarter hours, and 3 numbers of covers";
    wrong(&with("/service/covers", json!([1, 2, 3])), "service.covers", covers);
    wrong(&group("/service/end", json!("01:00"), &[]), "service.start", "Past midnight go on counting");
    let many = json!({"start": "10:00", "end": "20:00", "covers": vec![200; 40]});
    wrong(&with("/service", many), "service.covers", "at most 5000");
    let batch = json!([{"dish": "Leek rond", "at": "17:00", "pieces": 4}]);
    wrong(&with("/service/batches", batch), "service.batches[0].dish", "Did you mean \"Leek round\"?");
    wrong(&with("/service/wipes", json!(["09:00"])), "service.wipes[0]", "before the fire is lit");
    wrong(&with("/promise/queue_gone_by", json!("18:30")), "promise.queue_gone_by", "before the last order");
}

#[test]
fn feeding() {
    wrong(&with("/feeding/light_at", json!("18:30")), "feeding.light_at", "after the first order");
    wrong(
        &group("/start/read_at", json!("16:00"), &[("/feeding/light_at", json!("15:00"))]),
        "start.read_at",
        "read before the fire is lit",
    );
    let phase = |from: &str, to: &str| json!({"from": from, "to": to, "every_min": 20, "pieces": 1});
    let overlap = json!([phase("15:30", "18:00"), phase("17:00", "18:30")]);
    wrong(&with("/feeding/phases", overlap), "feeding.phases[1].from", "without overlap");
    let back = json!([phase("18:00", "16:00")]);
    wrong(&with("/feeding/phases", back), "feeding.phases[0].from", "from 18:00 to 16:00");
    wrong(
        &with("/feeding/phases", json!([phase("10:00", "16:00")])),
        "feeding.phases[0].from",
        "before the fire is lit",
    );
    let heaps = json!([{"from": "15:00", "to": "18:00", "every_min": 1, "pieces": 20}]);
    wrong(&with("/feeding/phases", heaps), "feeding.phases", "3600 pieces of wood");
    let twice = json!([{"at": "16:00", "for_min": 30}, {"at": "16:10"}]);
    wrong(&with("/feeding/spread_coals", twice), "feeding.spread_coals[1].at", "before the last spread is over");
    wrong(&with("/planning/floor_smallest_cm", json!(200)), "planning.floor_smallest_cm", "larger than the largest");
    wrong(&with("/planning/floor_step_cm", json!(1)), "planning.floor_step_cm", "wider step");
}

#[test]
fn a_reading_given_late_moves_the_match() {
    let draft = with("/start/read_at", json!("16:00"));
    let read = scenario::resolve(&draft).unwrap_or_else(|found| panic!("{found:#?}")).scenario;
    assert!(read.feeding.light_at >= read.start.read_at);
}

#[test]
fn one_wrong_field_brings_no_echo() {
    let found = scenario::resolve(&with("/oven/width_cm", json!("wide"))).expect_err("no width");
    assert_eq!(found.len(), 1, "{found:#?}");
    let found = scenario::resolve(&with("/service/start", json!("late"))).expect_err("no start");
    assert_eq!(found.len(), 1, "{found:#?}");
    assert!(scenario::resolve(&least()).is_ok());
}
