//! Owns the answer about how sure an evening's answer is: its data, its filling and its text.

use super::layout::wrapped;
use super::words::{degrees, duration, kg, kwh, number, percent};
use crate::sure::{Effect, Sure};
use crate::units::trade::KILOWATT_HOUR_J;
use serde::{Deserialize, Serialize};

/// A figure with its band: four draws of five lie within.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Band {
    /// One draw in ten lies under this.
    pub low: f64,
    /// With every unknown as taken.
    pub best: f64,
    /// One draw in ten lies over this.
    pub high: f64,
}

/// What one unknown does alone.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct UnknownReport {
    /// Its key.
    pub key: String,
    /// Its name.
    pub name: String,
    /// Coolest spot at loading with it at the low end of its range, degC.
    pub lowest_at_low_c: f64,
    /// ... and at the high end.
    pub lowest_at_high_c: f64,
    /// How far these two and the coolest spot as taken lie apart, K.
    pub swing_k: f64,
    /// Whether either end turns the verdict.
    pub turns_verdict: bool,
    /// Where its range comes from.
    pub source: String,
    /// What narrows it.
    pub measure: String,
}

/// How sure an answer is.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SureReport {
    /// The verdict with every unknown as taken.
    pub carries: bool,
    /// Share of the draws with the same verdict.
    pub verdict_stands: f64,
    /// How many draws.
    pub draws: u32,
    /// Coolest spot at loading, degC.
    pub lowest_c: Band,
    /// Floor at the first order, degC.
    pub start_c: Band,
    /// Nine orders in ten wait at most this, s.
    pub wait_p90_s: Band,
    /// Left of what is tightest, share of it; under nought where it gave.
    pub spare: Band,
    /// Shares between which that of all evenings like it lies, nineteen times in twenty.
    pub stands_between: [f64; 2],
    /// Slowest bake, s.
    pub bake_s: Band,
    /// From lifting until half of all spots are back within 10 K of where they stood, s.
    pub recovery_s: Band,
    /// Wood burnt, kg.
    pub wood_kg: Band,
    /// Gas burnt, kWh.
    pub gas_kwh: Band,
    /// The next morning's floor, degC.
    pub morning_c: Band,
    /// The unknown that moves the next morning's floor most.
    pub morning_weakest: String,
    /// The unknown that moves the coolest spot most.
    pub weakest: String,
    /// What to measure first.
    pub measure_first: String,
    /// Each unknown alone, the one that moves most first.
    pub unknowns: Vec<UnknownReport>,
    /// In words.
    pub says: String,
}

fn unknown(sure: &Sure, effect: &Effect) -> UnknownReport {
    UnknownReport {
        key: effect.unknown.key.to_owned(),
        name: effect.unknown.name.to_owned(),
        lowest_at_low_c: effect.at_low.lowest_c,
        lowest_at_high_c: effect.at_high.lowest_c,
        swing_k: effect.swing_k(),
        turns_verdict: [effect.at_low, effect.at_high].iter().any(|end| end.carries != sure.best.carries),
        source: effect.unknown.source.to_owned(),
        measure: effect.unknown.measure.to_owned(),
    }
}

/// Stands in this share of the draws or more: whatever is not known hardly matters. Our choice.
const FIRM: f64 = 0.9;
/// Or more: likelier than not by a clear way. Our choice.
const LIKELY: f64 = 0.7;
/// Or more: as likely as not; under it the evening as typed lies on the lucky side, or the unlucky one. Our choice.
const OPEN: f64 = 0.4;

/// What a reader should make of how many draws the verdict stands in.
fn make_of_it(report: &SureReport) -> String {
    let stands = report.verdict_stands;
    let left = |share: f64| {
        if share < 0.0 { format!("{} short", percent(-share)) } else { format!("{} to spare", percent(share)) }
    };
    let between = format!(
        "what is tightest stands at {} as typed, and between {} and {} in four of five",
        left(report.spare.best),
        left(report.spare.low),
        left(report.spare.high)
    );
    if stands >= FIRM {
        format!("That is firm: {between}.")
    } else if stands >= LIKELY {
        format!("That is likely, not sure: {between}.")
    } else if stands >= OPEN {
        format!(
            "Read that as open, not as a promise: {between}. What is not known outweighs what the verdict rests on."
        )
    } else {
        format!("Do not count on it: {between}; most of what is not known leans the other way.")
    }
}

/// Reports how sure an answer is.
#[must_use]
pub fn sure(found: &Sure) -> SureReport {
    let band = |[low, high]: [f64; 2], best: f64| Band { low, best, high };
    let first = found.effects.first();
    let mut by_morning: Vec<&Effect> = found.effects.iter().collect();
    crate::numerics::order::by(&mut by_morning, |a, b| b.morning_swing_k().total_cmp(&a.morning_swing_k()));
    let morning_weakest = by_morning.first();
    let mut report = SureReport {
        carries: found.best.carries,
        verdict_stands: found.verdict_stands,
        draws: found.draws,
        lowest_c: band(found.lowest_c, found.best.lowest_c),
        start_c: band(found.start_c, found.best.start_c),
        wait_p90_s: band(found.wait_p90_s, found.best.wait_p90_s),
        spare: band(found.spare, found.best.spare),
        stands_between: found.stands_between,
        bake_s: band(found.bake_s, found.best.bake_s),
        recovery_s: band(found.recovery_s, found.best.recovery_s),
        wood_kg: band(found.wood_kg, found.best.wood_kg),
        gas_kwh: band(found.gas_j.map(|joules| joules / KILOWATT_HOUR_J), found.best.gas_j / KILOWATT_HOUR_J),
        morning_c: band(found.morning_c, found.best.morning_c),
        morning_weakest: morning_weakest.map_or_else(String::new, |e| e.unknown.name.to_owned()),
        weakest: first.map_or_else(String::new, |e| e.unknown.name.to_owned()),
        measure_first: first.map_or_else(String::new, |e| e.unknown.measure.to_owned()),
        unknowns: found.effects.iter().map(|effect| unknown(found, effect)).collect(),
        says: String::new(),
    };
    report.says = format!(
        "With all that is not known exactly drawn at random, the verdict ({}) stands in {} of {} draws: of all evenings like it in {} to \
         {}, nineteen chances in twenty. {} The coolest spot lies \
         between {} and {} in four of five, fed as typed: a cook who reads the gun and feeds by it takes up part of that. \
         What moves it most: {}. {}",
        if report.carries { "it carries" } else { "it does not carry" },
        number(report.verdict_stands * f64::from(report.draws), 0),
        report.draws,
        percent(report.stands_between[0]),
        percent(report.stands_between[1]),
        make_of_it(&report),
        degrees(report.lowest_c.low),
        degrees(report.lowest_c.high),
        report.weakest,
        report.measure_first
    );
    report
}

/// The other figures, each with four draws of five.
fn bands(report: &SureReport) -> String {
    let said = |what: &str, band: &Band, write: &dyn Fn(f64) -> String| {
        format!("{what} {} ({} to {})", write(band.best), write(band.low), write(band.high))
    };
    let mut all = vec![
        said("floor at the first order", &report.start_c, &degrees),
        said("slowest bake", &report.bake_s, &duration),
        said("half of the spots back in", &report.recovery_s, &duration),
        said("wood burnt", &report.wood_kg, &kg),
    ];
    if report.gas_kwh.high > 0.0 {
        all.push(said("gas", &report.gas_kwh, &kwh));
    }
    all.push(said("the floor next morning behind closed doors", &report.morning_c, &degrees));
    format!("{}; most of that last one by {}.", all.join(", "), report.morning_weakest)
}

/// How sure, as plain text at most 80 columns wide, ended by a line feed.
#[must_use]
pub fn text(report: &SureReport) -> String {
    let mut out = wrapped("How sure: ", &report.says);
    let waits = &report.wait_p90_s;
    out += &wrapped(
        "Waits: ",
        &format!(
            "nine orders in ten within {} ({} to {}); the verdict stands in {}.",
            duration(waits.best),
            duration(waits.low),
            duration(waits.high),
            percent(report.verdict_stands)
        ),
    );
    out += &wrapped("Bands: ", &bands(report));
    for one in &report.unknowns {
        let turns = if one.turns_verdict { ", turns the verdict" } else { "" };
        let ends = format!("{} to {}{turns}", degrees(one.lowest_at_low_c), degrees(one.lowest_at_high_c));
        out += &wrapped("  - ", &format!("{}: coolest spot {ends}. Range: {}.", one.name, one.source));
    }
    out
}
