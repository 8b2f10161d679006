//! Owns the answers about reach and nights as plain text.

use super::ladder_types::*;
use super::layout::{left, right, wrapped};
use super::nights_build::resource_name;
use super::text;
use super::words::{clock_from_typed, degrees, duration, kg, number, percent};

/// Width of a dish's name in a table.
const NAME: usize = 30;

/// The reach, at most 80 columns wide, ended by a line feed.
#[must_use]
pub fn reach(report: &ReachReport) -> String {
    let mut out = text::carry(&report.carry);
    out += &wrapped("\nReach: ", &report.reach_says);
    if !report.ways_out.is_empty() {
        out += "\nWays out (covers gained, most covers)\n";
    }
    for way in report.ways_out.iter().chain(&report.best_two) {
        let gained = format!("  +{:>4} {:>5}  ", number(way.covers_gained, 0), number(way.most_covers, 0));
        out += &wrapped(&gained, &way.change);
    }
    let assist = &report.carry.assist;
    if let (Some(rated), Some(lead)) = (assist.kw_rated_least, assist.lead_min) {
        let delivered = number(assist.kw_delivered_least.unwrap_or(0.0), 1);
        out += &wrapped(
            "\nGas: ",
            &format!(
                "a burner rated {} kW ({delivered} kW into the stone), on {} min before the first order, carries this evening. \
                 Look at the ways out first.",
                number(rated, 1),
                number(lead, 0)
            ),
        );
    }
    if !report.earns.is_empty() {
        out += &format!("\n{}{}{}\n", left("Earns", NAME), right("a hearth minute", 18), right("a MJ", 10));
    }
    for dish in &report.earns {
        let (minute, mj) = (number(dish.per_hearth_min, 2), number(dish.per_mj, 2));
        out += &format!("{}{}{}\n", left(&dish.dish, NAME), right(&minute, 18), right(&mj, 10));
    }
    out
}

/// The nights, at most 80 columns wide, ended by a line feed.
#[must_use]
pub fn nights(report: &NightsReport) -> String {
    let mut out = wrapped("", &report.says);
    let wood = &report.wood_kg;
    out += &wrapped(
        "Wood: ",
        &format!("{} in the middle night, {} to {} in eight of ten.", kg(wood.p50), kg(wood.p10), kg(wood.p90)),
    );
    out += &wrapped(
        "Waits: ",
        &format!("in nine nights of ten, nine orders in ten wait at most {}.", duration(report.wait_p90_s)),
    );
    if let Some(lowest_c) = report.lowest_p10_c {
        out += &wrapped("Floor: ", &format!("one night in ten loads on a spot under {}.", degrees(lowest_c)));
    }
    for at in &report.breaks_at {
        let bar = "#".repeat((at.fraction * 50.0).ceil() as usize);
        out += &format!("  {}  {:>5}  {bar}\n", clock_from_typed(&at.quarter_hour), percent(at.fraction));
    }
    for gave in &report.gave_first {
        out += &format!("  {} gave first in {} of the nights\n", resource_name(&gave.what), percent(gave.fraction));
    }
    out += "Chances\n";
    report.chances.iter().fold(out, |out, chance| out + &wrapped("  - ", chance))
}
