//! Owns the answers about reach, nights and floors as plain text.

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
    out += &wrapped("\nReach: ", &report.reached.reach_says);
    if !report.reached.ways_out.is_empty() {
        out += "\nWays out, what loses least first (covers gained, most covers)\n";
    }
    for way in report.reached.ways_out.iter().chain(&report.reached.best_two) {
        let gained = format!("  +{:>4} {:>5}  ", number(way.covers_gained, 0), number(way.most_covers, 0));
        let money = way.loses_money.filter(|money| money.abs() >= 0.005).map_or_else(String::new, |money| {
            format!(", {} an evening {}", number(money.abs(), 2), if money > 0.0 { "dearer" } else { "cheaper" })
        });
        out += &wrapped(&gained, &format!("{} ({}{money})", way.change, way.asks));
    }
    if !report.reached.no_gain.is_empty() {
        out += &wrapped("  Tried, and carry no more: ", &format!("{}.", report.reached.no_gain.join("; ")));
    }
    if !report.reached.burner_says.is_empty() {
        out += &wrapped("\nGas: ", &report.reached.burner_says);
    }
    if !report.reached.earns.is_empty() {
        out += &format!("\n{}{}{}\n", left("Earns", NAME), right("a hearth minute", 18), right("a MJ", 10));
    }
    for dish in &report.reached.earns {
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

/// The ladder, at most 80 columns wide, ended by a line feed.
#[must_use]
pub fn floors(report: &FloorsReport) -> String {
    let mut out = wrapped("", &report.says);
    let row = |cells: [&str; 10]| {
        let widths = [9, 8, 7, 7, 8, 8, 8, 8, 8, 8];
        let line: String = cells.iter().zip(widths).map(|(cell, width)| right(cell, width)).collect();
        format!("{}\n", line.trim_end())
    };
    out += "\n";
    out +=
        &row(["floor cm", "carries", "pcs/h", "low C", "wood/wk", "gas/wk", "lit min", "idle kW", "kg/h", "hood kW"]);
    for rung in &report.rungs {
        let floor = format!(
            "{}{}",
            number(rung.floor_cm, 0),
            match (rung.assist, rung.burner_off) {
                (true, false) => " gas",
                (true, true) => " off",
                _ => "",
            }
        );
        if rung.too_small {
            out += &format!("{}  a dish does not fit\n", right(&floor, 9));
            continue;
        }
        let optional = |value: Option<f64>| value.map_or_else(|| "-".to_owned(), |v| number(v, 0));
        out += &row([
            &floor,
            if rung.carries_grown {
                "yes +"
            } else if rung.carries {
                "yes"
            } else {
                "no"
            },
            &number(rung.pieces_per_h, 0),
            &optional(rung.lowest_c),
            &number(rung.wood_kg_week, 0),
            &number(rung.gas_kwh_week, 0),
            &optional(rung.light_up_min),
            &number(rung.idle_kw, 1),
            &number(rung.capacity_kg_h, 1),
            &number(rung.hood_kw, 1),
        ]);
    }
    out += &wrapped("", "yes +: with the growth asked for. off: its burner left off. Wood in kg, gas in kWh.");
    out += "\n";
    out += &house(report);
    for text in [&report.feeding_rule, &report.scaling].into_iter().chain(&report.meanings) {
        out += &wrapped("", text);
    }
    out
}

/// What the smallest that carries means for the building.
fn house(report: &FloorsReport) -> String {
    let Some(rung) = report.smallest.as_ref().and_then(|name| report.rungs.get(name.index)) else {
        return String::new();
    };
    let money = rung.fuel_money_week.map_or_else(String::new, |m| format!(" Fuel costs {} a week.", number(m, 2)));
    let open = rung
        .after_open_c
        .map_or_else(String::new, |c| format!(" The morning after an open night it is at {}", degrees(c)));
    let closed = rung.after_closed_c.map_or_else(String::new, |c| format!(", after the closed days at {}", degrees(c)));
    let says = format!(
        "{} cm: {} kg/s and {} kW up the hood, {} kW to the kitchen, {} m3 of stacked wood and {} of ash a week, a delivery \
         of {} m3 every {} days, {} kN/m2 on what it stands on. Heating up takes {} MJ; {} of the heat goes into food in the busiest \
         hour.{money}{open}{closed}.",
        number(rung.floor_cm, 0),
        number(rung.hood_kg_s, 3),
        number(rung.hood_kw, 1),
        number(rung.room_kw, 1),
        number(rung.wood_stack_m3, 2),
        kg(rung.ash_kg_week),
        number(report.delivery_m3, 0),
        rung.delivery_days.map_or_else(|| "-".to_owned(), |d| number(d, 0)),
        number(rung.floor_kn_m2, 1),
        number(rung.preheat_mj, 0),
        percent(rung.cooking_efficiency),
    );
    wrapped("The smallest, ", &says) + "\n"
}
