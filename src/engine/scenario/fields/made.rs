//! Owns the defaults that are worked out from other fields. Each stays inside the limits of its row.

use crate::scenario::{clock, values::Values};
use crate::units::time::{HOUR_S, MINUTE_S};
use serde_json::{Value, json};

/// Dome rise over the smaller plan size. Common practice, no source (0.35 to 0.42).
const RISE_OVER_WIDTH: f64 = 0.38;
/// Doorway width over floor width. Old masonry rule: common practice, no source.
const DOOR_OVER_WIDTH: f64 = 0.42;
/// Doorway height over dome rise. Old masonry rule: common practice, no source.
const DOOR_OVER_RISE: f64 = 0.63;
/// Tallest doorway taken, cm: what a peel and the tallest loaf need. A doorway that grew with the dome would draw ever more air:
/// on 1.4 m, 59 x 34 cm costs 3.1 kg of oak an hour just to idle near 290 degC where practice says 0.7 to 2.5. Range 22 to 32;
/// common practice, no source.
const DOOR_HEIGHT_MOST_CM: f64 = 28.0;
/// Probe depth taken, cm, where the face layer is thick enough. Common practice, no source.
const PROBE_DEPTH_CM: f64 = 2.0;
/// Bake loss taken where the dish holds the water for it, %. From memory: 8 to 15 for thin dough.
const BAKE_LOSS_PERCENT: f64 = 10.0;
/// Narrowest band a default makes beside an end that was given, K. Common practice, no source.
const NARROWEST_K: f64 = 20.0;

/// A number rounded to what a ruler shows, one millimetre in cm.
fn ruled(cm: f64, least: f64, most: f64) -> Value {
    json!(((cm * 10.0).round() / 10.0).clamp(least, most))
}

/// A temperature kept within a row's limits.
fn warm(value: f64, least: f64, most: f64) -> Value {
    json!(value.clamp(least, most))
}

fn at(seconds: f64) -> Value {
    json!(clock::write(seconds.clamp(0.0, clock::LATEST_S)))
}

pub(super) fn depth_cm(v: &Values, _: &str) -> Option<Value> {
    Some(json!(v.number("oven.width_cm")?))
}

pub(super) fn dome_rise_cm(v: &Values, _: &str) -> Option<Value> {
    let smaller = v.number("oven.width_cm")?.min(v.number("oven.depth_cm")?);
    Some(ruled(smaller * RISE_OVER_WIDTH, 20.0, 150.0))
}

pub(super) fn door_width_cm(v: &Values, _: &str) -> Option<Value> {
    Some(ruled(v.number("oven.width_cm")? * DOOR_OVER_WIDTH, 20.0, 150.0))
}

pub(super) fn door_height_cm(v: &Values, _: &str) -> Option<Value> {
    Some(ruled((v.number("oven.dome_rise_cm")? * DOOR_OVER_RISE).min(DOOR_HEIGHT_MOST_CM), 10.0, 60.0))
}

pub(super) fn probe_depth_cm(v: &Values, _: &str) -> Option<Value> {
    let face = v.number("oven.floor_layers[0].thickness_cm")?;
    Some(json!((face / 2.0).clamp(0.2, PROBE_DEPTH_CM)))
}

pub(super) fn assist_on_at(v: &Values, _: &str) -> Option<Value> {
    let start = v.number("service.start")?;
    let off = v.number("oven.assist.off_at")?;
    Some(at((start - HOUR_S).min(off - MINUTE_S)))
}

pub(super) fn service_end(v: &Values, _: &str) -> Option<Value> {
    Some(at(v.number("service.end")?))
}

pub(super) fn read_at(v: &Values, _: &str) -> Option<Value> {
    Some(at(v.number("feeding.light_at")?))
}

pub(super) fn start_dome_c(v: &Values, _: &str) -> Option<Value> {
    Some(json!(v.number("start.floor_c")?))
}

/// Three hours before the first order, yet not before a reading that was given.
pub(super) fn light_at(v: &Values, _: &str) -> Option<Value> {
    let start = v.number("service.start")?;
    let read = if v.given("start.read_at") { v.number("start.read_at")? } else { 0.0 };
    Some(at((start - 3.0 * HOUR_S).max(read.min(start))))
}

pub(super) fn queue_gone_by(v: &Values, _: &str) -> Option<Value> {
    Some(at(v.number("service.end")? + 20.0 * MINUTE_S))
}

/// Heating up burns this share of what the doorway could ever burn (Kawagoe: 0.09 A sqrt(H) kg/s) ...
const HEATING_OF_LIMIT: f64 = 0.2;
/// ... and no more than this, kg/h for each m2 of floor. Our choice, both: by runs of the model such a fire has floors of 60 to
/// 180 cm near their menu's bakes after three hours, and burns clean.
const HEATING_KG_H_M2: f64 = 5.5;
/// In service the fire holds the floor by this share of that ...
const HOLDING_SHARE: f64 = 0.4;
/// ... and burns this for each cover of the busiest hour, kg. Our choice, from the same runs.
const COVER_KG: f64 = 0.025;
/// A menu baked at 330 degC wants all of it, one at 80 degC none. Our choice.
const MENU_C: [f64; 2] = [80.0, 330.0];
/// A menu is taken for at least and at most so much of it.
const MENU_SHARE: [f64; 2] = [0.4, 1.6];
/// Kawagoe's constant, kg/(s m2.5).
const KAWAGOE: f64 = 0.09;
/// Firewood as fired, kg/m3. From memory: beech, oak and ash at 15 % 680-720.
const WOOD_KG_M3: f64 = 700.0;
/// A fire is fed between so often and so seldom, min; thinner pieces or more at once make up for it. Common practice, no source.
const FEED_MIN: [f64; 2] = [6.0, 30.0];
const CM_M: f64 = 0.01;
/// Floors are taken as round or oval, area over width by depth.
const ROUND: f64 = std::f64::consts::FRAC_PI_4;

/// Kindling where the doorway lets it burn, kg. Common practice, no source (2-3 kg).
const KINDLING_KG: f64 = 2.5;
/// Kindling is no more than this share of what the doorway could burn in an hour. Our choice: then it burns clean.
const KINDLING_OF_HOUR: f64 = 0.1;

/// What the doorway could ever burn, kg/h.
fn limit_kg_h(v: &Values) -> Option<f64> {
    let (door, height) = (CM_M * v.number("oven.door_width_cm")?, CM_M * v.number("oven.door_height_cm")?);
    Some(KAWAGOE * door * height * height.sqrt() * HOUR_S)
}

pub(super) fn kindling_kg(v: &Values, _: &str) -> Option<Value> {
    Some(json!(((10.0 * KINDLING_OF_HOUR * limit_kg_h(v)?).round() / 10.0).clamp(0.1, KINDLING_KG)))
}

/// What heats this floor up for its menu, and what keeps it in service, kg/h.
fn paces_kg_h(v: &Values) -> Option<[f64; 2]> {
    let (width, depth) = (CM_M * v.number("oven.width_cm")?, CM_M * v.number("oven.depth_cm")?);
    let baked: Vec<f64> = v.items("menu").filter_map(|dish| v.number(&format!("{dish}.known_bake.floor_c"))).collect();
    let baked_c = if baked.is_empty() { MENU_C[1] } else { baked.iter().sum::<f64>() / baked.len() as f64 };
    let menu = ((baked_c - MENU_C[0]) / (MENU_C[1] - MENU_C[0])).clamp(MENU_SHARE[0], MENU_SHARE[1]);
    let heating = menu * (HEATING_OF_LIMIT * limit_kg_h(v)?).min(HEATING_KG_H_M2 * ROUND * width * depth);
    let covers: Vec<f64> = v.items("service.covers").filter_map(|quarter| v.number(&quarter)).collect();
    let hours = covers.windows(4.min(covers.len()).max(1)).map(|hour| hour.iter().sum::<f64>());
    Some([heating, HOLDING_SHARE * heating + COVER_KG * hours.fold(0.0, f64::max)])
}

/// Most pieces of wood of a stretch that is a default; a day may have 2000. Our choice.
const MOST_PIECES: f64 = 900.0;

/// A stretch at a pace, kg/h: quarters of a piece at least, whole minutes.
fn stretch(from: f64, to: f64, kg_h: f64, piece_kg: f64) -> Value {
    let apart = 60.0 * piece_kg / kg_h.max(1e-3);
    let pieces = if apart > FEED_MIN[1] {
        ((4.0 * FEED_MIN[1] / apart).ceil() / 4.0).max(0.25)
    } else {
        (FEED_MIN[0] / apart).ceil().clamp(1.0, 20.0)
    };
    let every_min = (apart * pieces).round().clamp(1.0, 720.0);
    // Splinters would be a thousand pieces: a default stays well within what a day may have.
    let feeds = ((to - from) / MINUTE_S / every_min).ceil().max(1.0);
    let pieces = pieces.min((4.0 * MOST_PIECES / feeds).floor().max(1.0) / 4.0);
    json!({"from": at(from), "to": at(to), "every_min": every_min, "pieces": pieces})
}

pub(super) fn phases(v: &Values, _: &str) -> Option<Value> {
    let light = v.number("feeding.light_at")?;
    let start = v.number("service.start")?;
    let last = v.number("service.end")? - 30.0 * MINUTE_S;
    let [heating, holding] = paces_kg_h(v)?;
    let radius_m = 0.5 * CM_M * v.number("wood.piece_diameter_cm")?;
    let length_m = CM_M * v.number("wood.piece_length_cm")?;
    let piece_kg = WOOD_KG_M3 * std::f64::consts::PI * radius_m * radius_m * length_m;
    let mut phases = Vec::new();
    let first = light + 20.0 * MINUTE_S;
    if first < start {
        phases.push(stretch(first, start, heating, piece_kg));
    }
    let from = start.max(light);
    if from < last {
        phases.push(stretch(from, last, holding, piece_kg));
    }
    Some(Value::Array(phases))
}

pub(super) fn outline(v: &Values, parent: &str) -> Option<Value> {
    let round = v.given(&format!("{parent}.diameter_cm")) || !v.given(&format!("{parent}.width_cm"));
    Some(json!(if round { "round" } else { "rectangle" }))
}

pub(super) fn carrier_in_c(v: &Values, _: &str) -> Option<Value> {
    Some(json!(v.number("oven.room_c")?))
}

pub(super) fn known_dome_c(v: &Values, parent: &str) -> Option<Value> {
    Some(warm(v.number(&format!("{parent}.floor_c"))? + 50.0, 60.0, 800.0))
}

/// The coolest end of a band: `below` under the known bake, and under the hottest end where that was given.
fn coolest(v: &Values, known: &str, below: f64, hottest: &str) -> Option<f64> {
    let value = v.number(known)? - below;
    if v.given(hottest) { Some(value.min(v.number(hottest)? - NARROWEST_K)) } else { Some(value) }
}

/// The hottest end of a band: `above` over the known bake, and over the coolest end where that was given.
fn hottest(v: &Values, known: &str, above: f64, coolest: &str) -> Option<f64> {
    let value = v.number(known)? + above;
    if v.given(coolest) { Some(value.max(v.number(coolest)? + NARROWEST_K)) } else { Some(value) }
}

pub(super) fn floor_min_c(v: &Values, parent: &str) -> Option<Value> {
    let known = format!("{parent}.known_bake.floor_c");
    Some(warm(coolest(v, &known, 40.0, &format!("{parent}.floor_max_c"))?, 40.0, 550.0))
}

pub(super) fn floor_max_c(v: &Values, parent: &str) -> Option<Value> {
    let known = format!("{parent}.known_bake.floor_c");
    Some(warm(hottest(v, &known, 60.0, &format!("{parent}.floor_min_c"))?, 60.0, 600.0))
}

pub(super) fn dome_min_c(v: &Values, parent: &str) -> Option<Value> {
    let known = format!("{parent}.known_bake.dome_c");
    Some(warm(coolest(v, &known, 80.0, &format!("{parent}.dome_max_c"))?, 20.0, 750.0))
}

pub(super) fn dome_max_c(v: &Values, parent: &str) -> Option<Value> {
    let known = format!("{parent}.known_bake.dome_c");
    Some(warm(hottest(v, &known, 120.0, &format!("{parent}.dome_min_c"))?, 60.0, 900.0))
}

pub(super) fn bake_loss_percent(v: &Values, parent: &str) -> Option<Value> {
    let half = 50.0 * v.water_share(parent)?;
    Some(ruled(half.min(BAKE_LOSS_PERCENT), 0.0, 60.0))
}

pub(super) fn per_100_covers(v: &Values, _: &str) -> Option<Value> {
    let dishes = v.count("menu")?.max(1);
    let share = 100.0 / dishes as f64;
    Some(json!((share * 10.0).round() / 10.0))
}
