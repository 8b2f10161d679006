//! Owns evenings out of bytes: drafts that keep the rules between fields, and go to every limit of the table.

use crate::dice::Dice;
use hearthload::scenario::{
    fields::{Kind, Table, field},
    keys,
};
use serde_json::{Map, Value, json};

/// Fields that no rule ties to others: each may take any value its row allows.
const FREE: [&str; 17] = [
    "oven.emissivity",
    "oven.smoke_emissivity",
    "oven.entrainment_factor",
    "oven.door_cd",
    "oven.room_c",
    "oven.door_leak_g_s",
    "oven.fire_side",
    "wood.species",
    "wood.meter_percent_dry",
    "start.floor_c",
    "start.dome_c",
    "service.hands",
    "service.load_s",
    "service.turn_s",
    "service.peel_gap_cm",
    "service.patience_min",
    "service.spot_rule",
];

/// Most covers and quarters of one evening here, so that many evenings are tried.
const MOST_COVERS: f64 = 2000.0;
const MOST_QUARTERS: u32 = 40;

/// Any value a row allows.
fn allowed(dice: &mut Dice, path: &str) -> Value {
    match field(path).map(|row| row.kind) {
        Some(Kind::Number { min, max, whole: true, .. }) => json!(dice.whole(min as u32, max as u32)),
        Some(Kind::Number { min, max, .. }) => json!(dice.between(min, max)),
        Some(Kind::Choice(words)) => json!(dice.pick(words)),
        Some(Kind::Key(table)) => json!(dice.pick(&keys::all(table))),
        _ => Value::Null,
    }
}

fn clock(minutes: u32) -> Value {
    json!(format!("{:02}:{:02}", minutes / 60, minutes % 60))
}

/// A draft.
pub(crate) fn evening(dice: &mut Dice) -> Value {
    let mut draft = json!({ "hearthload": 1, "oven": oven(dice), "wood": {}, "start": {} });
    // Mostly short, so that many are played.
    let quarters = if dice.chance(16) { dice.whole(1, MOST_QUARTERS) } else { dice.whole(1, 3) };
    // Late enough for a match three hours before, early enough to end before the clock does.
    let start = 15 * dice.whole(16, 188 - quarters);
    draft["service"] = service(dice, start, quarters);
    draft["feeding"] = feeding(dice, start, start + 15 * quarters);
    let dishes = if dice.chance(12) { dice.whole(0, 80) } else { dice.whole(0, 5) };
    draft["menu"] = (0..dishes).map(|number| dish(dice, number)).collect();
    if dishes > 0 && dice.chance(40) {
        let at = clock(dice.whole(start - 60, start + 15 * quarters));
        draft["service"]["batches"] = json!([{ "dish": "Dish 0", "at": at, "pieces": dice.whole(1, 40) }]);
    }
    if dice.chance(24) {
        draft["service"]["wipes"] = json!([clock(dice.whole(start, start + 15 * quarters))]);
    }
    if dice.chance(24) {
        draft["feeding"]["spread_coals"] = json!([{ "at": clock(start), "for_min": dice.between(1.0, 120.0) }]);
    }
    for path in FREE {
        if dice.chance(48) {
            let value = allowed(dice, path);
            if let Some(place) = path.split_once('.').and_then(|(group, key)| Some((draft.get_mut(group)?, key))) {
                place.0[place.1] = value;
            }
        }
    }
    draft
}

/// A small one: at most half an hour of a few guests over two dishes, on a floor of a metre, so that searches end soon.
pub(crate) fn small_evening(dice: &mut Dice) -> Value {
    let mut draft = evening(dice);
    let (start, quarters) = (15 * dice.whole(40, 90), dice.whole(1, 2));
    draft["service"] = service(dice, start, quarters);
    if let Some(covers) = draft["service"]["covers"].as_array_mut() {
        covers.iter_mut().for_each(|count| *count = json!(count.as_f64().unwrap_or(0.0) % 9.0));
    }
    draft["feeding"] = feeding(dice, start, start + 15 * quarters);
    for side in ["width_cm", "depth_cm", "door_width_cm"] {
        let most = if side == "door_width_cm" { 50.0 } else { 110.0 };
        if let Some(cm) = draft["oven"][side].as_f64() {
            draft["oven"][side] = json!(cm.min(most));
        }
    }
    if let Some(menu) = draft["menu"].as_array_mut() {
        menu.truncate(2);
    }
    draft["planning"] = json!({ "floor_smallest_cm": 60, "floor_largest_cm": 90, "floor_step_cm": 30 });
    draft
}

fn layers(dice: &mut Dice, thickest: f64) -> Value {
    let all = keys::all(Table::Layer);
    (0..dice.whole(1, 4))
        .map(|place| {
            let thin = if place == 0 { 1.0 } else { 0.3 };
            json!({ "material": dice.pick(&all), "thickness_cm": dice.between(thin, thickest) })
        })
        .collect()
}

fn oven(dice: &mut Dice) -> Value {
    let shape = dice.pick(&["round", "rectangle", "deep_oval"]);
    let width = dice.between(50.0, 300.0);
    let depth = if shape == "round" { width } else { dice.between(50.0, 300.0) };
    let mut oven = json!({ "shape": shape, "width_cm": width, "depth_cm": depth });
    if dice.chance(64) {
        oven["bed_share_percent"] = json!(dice.between(5.0, 50.0));
    }
    if dice.chance(64) {
        let rise = dice.between(20.0, 150.0);
        oven["dome_rise_cm"] = json!(rise);
        oven["door_height_cm"] = json!(dice.between(10.0, 60.0_f64.min(rise - 0.1)));
        oven["door_width_cm"] = json!(dice.between(20.0, 150.0_f64.min(width)));
    }
    if dice.chance(64) {
        oven["floor_layers"] = layers(dice, 40.0);
    }
    if dice.chance(64) {
        oven["dome_layers"] = layers(dice, 60.0);
    }
    if dice.chance(32) {
        oven["reading"] = json!("probe");
    }
    if dice.chance(64) {
        let mut assist = Map::new();
        for key in ["rated_kw", "delivered_percent", "control", "probe_across", "probe_along", "set_c", "dead_band_k"] {
            if key == "rated_kw" || dice.chance(64) {
                assist.insert(key.to_owned(), allowed(dice, &format!("oven.assist.{key}")));
            }
        }
        oven["assist"] = Value::Object(assist);
    }
    oven
}

fn service(dice: &mut Dice, start: u32, quarters: u32) -> Value {
    let most = if dice.chance(32) { 500.0_f64 } else { 60.0 }.min(MOST_COVERS / f64::from(quarters));
    let covers: Vec<f64> = (0..quarters).map(|_| dice.between(0.0, most).round()).collect();
    let mut service = json!({ "start": clock(start), "end": clock(start + 15 * quarters), "covers": covers });
    if dice.chance(64) {
        service["arrivals"] = json!("parties");
        service["seed"] = json!(dice.whole(0, 1000));
    }
    service
}

fn feeding(dice: &mut Dice, start: u32, end: u32) -> Value {
    let longest = if dice.chance(16) { 600 } else { 90 };
    let light = start - dice.whole(0, start.min(longest));
    let mut feeding = json!({ "light_at": clock(light) });
    match dice.place(4) {
        0 => feeding["phases"] = json!([]),
        1 => {
            let (from, every) = (dice.whole(light, end - 1), dice.between(5.0, 120.0));
            feeding["phases"] = json!([{ "from": clock(from), "to": clock(end), "every_min": every, "pieces": dice.between(0.0, 4.0) }]);
        }
        _ => {}
    }
    if dice.chance(64) {
        feeding["kindling_kg"] = json!(dice.between(0.0, 20.0));
    }
    feeding
}

fn dish(dice: &mut Dice, number: u32) -> Value {
    let foods = keys::all(Table::Food);
    let heavy = if dice.chance(24) { 8000.0 } else { 400.0 };
    let parts: Vec<Value> = (0..dice.whole(1, 3))
        .map(|_| json!({ "food": dice.pick(&foods), "grams": dice.between(5.0, heavy) }))
        .collect();
    let widest = if dice.chance(16) { 60.0 } else { 36.0 };
    let across = dice.between(10.0, widest);
    let longest = if dice.chance(16) { 720.0 } else { 40.0 };
    let most = if dice.chance(16) { 500.0 } else { 60.0 };
    let start_c = dice.between(-30.0, 60.0);
    let mut dish = json!({
        "name": format!("Dish {number}"), "ingredients": parts, "footprint": { "diameter_cm": across },
        "start_c": start_c, "end_c": dice.between(start_c.max(30.0) + 0.5, 150.0),
        "known_bake": { "minutes": dice.between(0.5, longest), "floor_c": dice.between(80.0, 550.0) },
        "per_100_covers": dice.between(0.0, most),
    });
    if dice.chance(64) {
        dish["footprint"] = json!({ "width_cm": dice.between(8.0, 50.0), "depth_cm": dice.between(8.0, 50.0) });
    }
    if dice.chance(48) {
        let carriers = keys::all(Table::Carrier);
        dish["carrier"] = json!({ "material": dice.pick(&carriers), "mass_kg": dice.between(0.02, 40.0), "out_min": dice.between(0.0, 60.0) });
    }
    if dice.chance(96) {
        let seen = dice.pick(&["nothing", "base_pale", "together", "base_ahead", "floor"]);
        dish["known_bake"]["seen"] = json!(seen);
        if seen == "floor" {
            let floor = dish["known_bake"]["floor_c"].as_f64().unwrap_or(80.0);
            dish["known_bake"]["floor_at_lift_c"] = json!(dice.between(40.0, floor));
        }
        dish["known_bake"]["flame"] = json!(dice.pick(&["none", "low", "high"]));
    }
    if dice.chance(48) {
        dish["cap_per_quarter"] = json!(dice.between(0.0, 30.0));
    }
    dish
}
