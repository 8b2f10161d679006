//! Owns the cook's plan as plain text: what to do first, then what stands behind it.

use super::fire_types::*;
use super::layout::{WIDTH, cut, harmless, left, right, wrapped};
use super::now_types::FireNow;
use super::text::{ESTIMATE, cautions, part};
use super::words::{clock_from_typed, count, degrees, kg, minutes, number, percent};

/// The cook's plan, at most 80 columns wide, ended by a line feed.
#[must_use]
pub fn fire(report: &FireReport) -> String {
    if let Some(rest) = &report.now {
        // One rhythm only: what was planned before stands in the report, but a cook in mid-service must not have to choose.
        let taken: String = rest.taken.iter().map(|line| wrapped("  - ", line)).collect();
        let taken = format!("\nTaken for granted tonight\n{taken}");
        return [heading(report), now(rest), cautions(&report.cautions), taken, foot(report)].concat();
    }
    let parts = [
        heading(report),
        // Next to the promise: what it is worth on another evening.
        report.rough.as_ref().map_or_else(String::new, |rough| format!("{}\n", part("Rough", &rough.says))),
        report.first_firing.as_ref().map_or_else(String::new, |schedule| first_firing(schedule, report.piece_kg)),
        phases(&report.phases),
        log_by_log(&report.pieces),
        wood(report),
        report.evening.as_ref().map_or_else(String::new, |e| part("Evening", &e.says)),
        report.assist.as_ref().map_or_else(String::new, assist),
        report.sheet.as_ref().map_or_else(String::new, sheet),
        cautions(&report.cautions),
        foot(report),
    ];
    parts.concat()
}

fn heading(report: &FireReport) -> String {
    let name = harmless(&report.name);
    let title = if name.trim().is_empty() { String::new() } else { format!("{}\n\n", cut(&name, WIDTH)) };
    format!("{title}{}{}\n", wrapped("", &report.says), wrapped("", &report.because))
}

fn now(now: &FireNow) -> String {
    let head = format!("Now, {}: the next quarter hour\n", clock_from_typed(&now.at));
    let acts: String = now.acts.iter().map(|act| wrapped("  - ", act)).collect();
    let rest: Vec<String> = now.phases.iter().map(stretch_says).collect();
    let rest = if rest.is_empty() { "no more wood.".to_owned() } else { format!("{}.", rest.join("; ")) };
    format!("{head}{acts}{}{}\n", part("Then", &rest), phases(&now.phases))
}

fn stretch_says(phase: &FirePhase) -> String {
    if phase.feeds == 1 {
        return format!("a piece at {}", clock_from_typed(&phase.from));
    }
    format!("from {} a piece every {}", clock_from_typed(&phase.from), minutes(phase.every_min))
}

fn name(phase: &FirePhase) -> &'static str {
    match phase.name.as_str() {
        "light_up" => "light up",
        "to_rush" => "to the rush",
        "rush" => "rush",
        _ => "after it",
    }
}

fn phases(phases: &[FirePhase]) -> String {
    if phases.is_empty() {
        return String::new();
    }
    let heads = ["from", "to", "every", "pieces", "feeds", "floor", "loads", "air", "way"];
    let second = ["", "", "min", "", "", "K over", "within", "left", "left"];
    let row = |first: &str, cells: &[String]| {
        let cells: String = cells.iter().map(|cell| right(cell, 7)).collect();
        format!("{}{}\n", left(first, 13), cells)
    };
    let mut out = row("Stretch", &heads.map(str::to_owned)) + &row("", &second.map(str::to_owned));
    for phase in phases {
        let cells = [
            clock_from_typed(&phase.from),
            clock_from_typed(&phase.to),
            number(phase.every_min, usize::from((phase.every_min - phase.every_min.round()).abs() >= 0.05)),
            number(phase.pieces, 0),
            number(f64::from(phase.feeds), 0),
            phase.lowest_margin_k.map_or_else(|| "-".to_owned(), |k| number(k, 0)),
            phase.share_in_band.map_or_else(|| "-".to_owned(), percent),
            percent(phase.air_margin),
            percent(phase.reach_margin),
        ];
        out.push_str(&row(name(phase), &cells));
    }
    out.push('\n');
    out
}

fn log_by_log(pieces: &[FirePiece]) -> String {
    if pieces.is_empty() {
        return String::new();
    }
    let times: Vec<String> = pieces.iter().map(|p| clock_from_typed(&p.at)).collect();
    part("Pieces", &format!("{} ({} each time).", times.join(" "), kg(pieces[0].kg)))
}

fn wood(report: &FireReport) -> String {
    let Some(wood) = &report.wood_kg else { return String::new() };
    let kindling =
        if report.kindling_kg > 0.0 { format!(" and {} of kindling", kg(report.kindling_kg)) } else { String::new() };
    let mut text = format!(
        "{} before service, {} in it, {} in all. Bring in {}{kindling}: a day's supply and no more, clear of the heat; fire codes ask this (NYC FC 609.5 among them), yours comes first.",
        kg(wood.light_up),
        kg(wood.service),
        kg(wood.day),
        count(f64::from(report.pieces_to_bring_in), "piece", "pieces"),
    );
    let by_meter: Vec<String> = report
        .moisture
        .iter()
        .map(|m| {
            let meter = number(m.meter_percent, 0);
            match (m.wood_kg_day, &m.light_at, m.rush_every_min) {
                (Some(wood), Some(light_at), Some(every)) => {
                    let lit = clock_from_typed(light_at);
                    format!("{meter} % {} (lit {lit}, in the rush every {})", kg(wood), minutes(every))
                }
                _ => format!("{meter} % was not found to carry"),
            }
        })
        .collect();
    if !by_meter.is_empty() {
        text.push_str(&format!(" By the meter: {}; wetter wood smokes more.", by_meter.join(", ")));
    }
    let mut out = part("Wood", &text);
    if let Some(spread) = &report.spread_coals {
        let then = if spread.before_service && report.light_at.as_ref() == Some(&spread.light_at) {
            "the piece that falls into it is left out".to_owned()
        } else if spread.before_service {
            format!("the match can wait until {}", clock_from_typed(&spread.light_at))
        } else {
            format!("in the rush a piece is enough every {}", minutes(spread.rush_every_min))
        };
        let says = format!(
            "or spread them at {} for {}, raked back before food: {then}, and {} are saved.",
            clock_from_typed(&spread.at),
            minutes(spread.for_min),
            kg(spread.saves_kg)
        );
        out.push_str(&part("Coals", &says));
    }
    if let Some(by) = &report.rush_feed_by {
        out.push_str(&part("Rush", &format!("its first piece goes on by {} at the latest.", clock_from_typed(by))));
    }
    out
}

fn assist(assist: &FireAssist) -> String {
    let tried: Vec<String> = assist
        .instead
        .iter()
        .map(|way| format!("{}: {}", way.what, if way.would_do { "would do" } else { "would not do" }))
        .collect();
    let tried = if tried.is_empty() { String::new() } else { format!(" Instead: {}.", tried.join("; ")) };
    part("Gas", &format!("{}{tried}", assist.says))
}

fn sheet(sheet: &ShiftSheet) -> String {
    let mut out = String::from("\nShift sheet\n");
    for (place, step) in sheet.lighting.iter().enumerate() {
        out.push_str(&wrapped(&format!("  {}. ", place + 1), step));
    }
    out.push_str("By the clock\n");
    for act in &sheet.acts {
        out.push_str(&wrapped(&format!("  {}  ", clock_from_typed(&act.at)), &format!("{}.", act.says)));
    }
    out.push_str(&caps(sheet));
    if !sheet.readings.is_empty() {
        out.push_str(&wrapped("Read  ", &sheet.read_where));
        out.push_str("Readings     plan floor   yours   plan dome   yours\n");
        for reading in &sheet.readings {
            out.push_str(&format!(
                "  {}{}   _____{}   _____\n",
                left(&clock_from_typed(&reading.at), 11),
                right(&degrees(reading.floor_c), 10),
                right(&degrees(reading.dome_c), 12)
            ));
        }
    }
    for line in &sheet.if_off {
        out.push_str(&wrapped("  - ", line));
    }
    out
}

/// The most of each dish, over the evening and quarter hour by quarter hour.
fn caps(sheet: &ShiftSheet) -> String {
    if sheet.caps.is_empty() {
        return String::new();
    }
    let most: Vec<String> =
        sheet.caps.iter().map(|cap| format!("{} {}", harmless(&cap.dish), cap.per_quarter)).collect();
    let says = format!(
        "no quarter hour bears more than {}. Each line below was played: before the rush, in it or after it every quarter hour \
         so full and the rest as planned, and the promises held.",
        most.join(", ")
    );
    let mut out = part("Caps", &says);
    for quarter in &sheet.quarters {
        let started = sheet.caps.iter().zip(&quarter.pieces).filter(|(_, pieces)| **pieces > 0);
        let started: Vec<String> = started.map(|(cap, pieces)| format!("{} {pieces}", harmless(&cap.dish))).collect();
        out.push_str(&wrapped(&format!("  {}  ", clock_from_typed(&quarter.at)), &started.join(", ")));
    }
    out
}

fn first_firing(schedule: &FirstFiring, piece_kg: f64) -> String {
    let mut out = String::from("Day   hold dome under   for      wood   feed\n");
    for day in &schedule.days {
        let every = minutes(day.every_min);
        let feed = if day.split <= 0.0 {
            "kindling only, a handful at a time".to_owned()
        } else if day.split < 1.0 {
            format!("{} every {every}, split small", kg(day.split * piece_kg))
        } else {
            format!("{} every {every}", kg(day.split * piece_kg))
        };
        out.push_str(&format!(
            "{}{}{}{}   {feed}\n",
            right(&day.day.to_string(), 3),
            right(&degrees(day.hold_c), 18),
            right(&format!("{}\u{a0}h", number(day.hours, 0)), 7),
            right(&kg(day.wood_kg), 10)
        ));
    }
    let mut kindling: Vec<String> = schedule.days.iter().map(|day| kg(day.kindling_kg)).collect();
    kindling.dedup();
    out.push_str(&wrapped("", &format!("Lit with {} of kindling each day, counted in its wood.", kindling.join(", "))));
    out
}

fn foot(report: &FireReport) -> String {
    let assumptions: String = report.assumptions.iter().map(|line| wrapped("  - ", line)).collect();
    let head = if assumptions.is_empty() { String::new() } else { "\nTaken for granted\n".to_owned() };
    let assumed = match report.assumed.len() {
        0 => String::new(),
        many => wrapped(
            "  - ",
            &format!("{} nobody gave, each with its source under --json.", count(many as f64, "value", "values")),
        ),
    };
    format!("{head}{assumptions}{assumed}\n{ESTIMATE}\n")
}
