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
    Some(ruled(v.number("oven.dome_rise_cm")? * DOOR_OVER_RISE, 10.0, 60.0))
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

pub(super) fn phases(v: &Values, _: &str) -> Option<Value> {
    let light = v.number("feeding.light_at")?;
    let start = v.number("service.start")?;
    let last = v.number("service.end")? - 30.0 * MINUTE_S;
    let mut phases = Vec::new();
    let first = light + 20.0 * MINUTE_S;
    if first < start {
        phases.push(json!({"from": at(first), "to": at(start), "every_min": 20, "pieces": 2}));
    }
    let from = start.max(light);
    if from < last {
        phases.push(json!({"from": at(from), "to": at(last), "every_min": 15, "pieces": 1}));
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
