//! Owns the answer as one screen of plain text: verdict and cause first, then what stands behind them.

use super::layout::{
    WIDTH, cell, cut, first_sentence, harmless, left, minutes_seconds, right, tenths_that_add_up, wrapped,
};
use super::types::{CarryReport, Caution, DishReport, FloorQuarter, Gives, LedgerMj, Load};
use super::words::{
    clock_from_typed, clock_seconds, count, degrees, duration, kg, kw, kwh, number, percent, with_unit,
};

/// Stands under every answer.
pub const ESTIMATE: &str = "An estimate. Your gun and your probe outrank it.";

/// Width of the names that stand before each part.
const LABEL: usize = 9;

/// The answer to "does this oven carry this menu", at most 80 columns wide, ended by a line feed.
#[must_use]
pub fn carry(report: &CarryReport) -> String {
    let parts = [
        heading(report),
        loads(&report.verdict.loads),
        dishes(&report.dishes),
        findings(report),
        floor(report),
        wood(report),
        assist(report),
        waits(report),
        ledger(&report.ledger_mj),
        warnings(&report.warnings),
        cautions(&report.cautions),
        foot(report),
    ];
    parts.concat()
}

/// A part's name and its text, wrapped beside it.
pub(super) fn part(label: &str, text: &str) -> String {
    wrapped(&left(label, LABEL), text)
}

fn heading(report: &CarryReport) -> String {
    let name = harmless(&report.name);
    let title = if name.trim().is_empty() { String::new() } else { format!("{}\n\n", cut(&name, WIDTH)) };
    format!("{title}{}{}\n", wrapped("", &report.verdict.says), wrapped("", &report.verdict.because))
}

/// What gives first with its margin, then the others from the tightest to the easiest.
fn loads(loads: &[Load]) -> String {
    let mut sorted: Vec<&Load> = loads.iter().filter(|load| load.used.is_finite()).collect();
    crate::numerics::order::by(&mut sorted, |a, b| b.used.total_cmp(&a.used));
    let said: Vec<String> = sorted.iter().map(|load| format!("{} {}", load.what.name(), margin(load))).collect();
    if said.is_empty() {
        return String::new();
    }
    part("Limits", &format!("{}.", said.join(", ")))
}

/// "9 % to spare" or "16 % short"; a fire that gives is too much, not too little.
fn margin(load: &Load) -> String {
    let used = load.used;
    if used > 1.0 && load.what == Gives::Fire {
        format!("{} too much", percent(used - 1.0))
    } else if used > 1.0 {
        format!("{} short", percent(used - 1.0))
    } else {
        format!("{} to spare", percent(1.0 - used))
    }
}

/// Width of the name in the table of dishes.
const NAME: usize = 20;

fn dishes(dishes: &[DishReport]) -> String {
    if dishes.is_empty() {
        return String::new();
    }
    let mut out = format!(
        "\n{}{:>17}{:>19}{:>14}{:>9}\n{}{:>5}{:>6}{:>6}{:>7}{:>6}{:>6}{:>7}{:>7}{:>9}\n",
        left("", NAME),
        "kJ a piece",
        "bake, min:s",
        "again, min",
        "loads",
        left("Dish", NAME),
        "all",
        "floor",
        "above",
        "known",
        "usual",
        "worst",
        "usual",
        "worst",
        "in band",
    );
    for dish in dishes {
        out.push_str(&dish_row(dish));
    }
    out
}

fn dish_row(dish: &DishReport) -> String {
    [
        left(&cut(&dish.name, NAME - 1), NAME),
        right(&cell(Some(dish.heat_kj), 0), 5),
        right(&cell(Some(dish.from_hearth_kj), 0), 6),
        right(&cell(Some(dish.from_chamber_kj), 0), 6),
        right(&minutes_seconds(Some(dish.bake_s_known)), 7),
        right(&minutes_seconds(dish.bake_s_median), 6),
        right(&minutes_seconds(dish.bake_s_worst), 6),
        right(&cell(dish.ready_again_min_median, 0), 7),
        right(&again_worst(dish), 7),
        right(&percent(dish.share_in_band), 9),
        "\n".to_owned(),
    ]
    .concat()
}

/// The longest wait for a spot; "never" where one did not come back into the dish's band before the end.
fn again_worst(dish: &DishReport) -> String {
    if dish.ready_again_min_worst.is_none() && dish.baked > 0 {
        return "never".to_owned();
    }
    cell(dish.ready_again_min_worst, 0)
}

/// Findings that no warning tells already.
fn findings(report: &CarryReport) -> String {
    let mut out = String::new();
    for dish in &report.dishes {
        let is_told = |finding: &String| report.warnings.iter().any(|warning| warning.contains(finding.as_str()));
        for finding in dish.findings.iter().filter(|finding| !is_told(finding)) {
            out.push_str(&wrapped("  ", &format!("{}: {}", cut(&dish.name, NAME), ended(finding))));
        }
    }
    out
}

/// Most columns of the floor that fit beside their label.
const FLOOR_COLUMNS: usize = 11;

fn floor(report: &CarryReport) -> String {
    let floor = &report.floor;
    let from = floor.by_quarter_hour.iter().position(|quarter| quarter.covers > 0.0).unwrap_or(0);
    let shown = by_steps(&floor.by_quarter_hour[from..]);
    let row = |label: &str, figures: Vec<String>| {
        let figures: String = figures.iter().map(|figure| right(figure, 6)).collect();
        format!("{}{figures}\n", left(label, 14))
    };
    let mut out = String::from("\n");
    if !shown.is_empty() {
        out.push_str(&row("Floor, °C", shown.iter().map(|q| clock_from_typed(&q.time)).collect()));
        out.push_str(&row("  mean", shown.iter().map(|q| cell(Some(q.mean_c), 0)).collect()));
        out.push_str(&row("  lowest", shown.iter().map(|q| cell(Some(q.lowest_c), 0)).collect()));
    }
    let under = if floor.lowest_dish.is_empty() { String::new() } else { format!(" for {}", floor.lowest_dish) };
    let lowest = format!(
        "{} for the first order. Lowest at loading {} at {}{under}, at lifting {}. {}",
        degrees(floor.start_c),
        degrees(floor.lowest_c),
        clock_from_typed(&floor.lowest_at),
        degrees(floor.lowest_at_lift_c),
        floor.probe_says,
    );
    out.push_str(&part("Floor", &lowest));
    out
}

/// The floor at every half hour, or every hour, or two, so that it fits on the screen; the lowest is the lowest of the step.
fn by_steps(quarters: &[FloorQuarter]) -> Vec<FloorQuarter> {
    const HALF_HOUR_S: f64 = 1800.0;
    let fits = |step_s: f64| stepped(quarters, step_s).len() <= FLOOR_COLUMNS;
    let step_s = [HALF_HOUR_S, 2.0 * HALF_HOUR_S, 4.0 * HALF_HOUR_S]
        .into_iter()
        .find(|&step_s| fits(step_s))
        .unwrap_or(8.0 * HALF_HOUR_S);
    let mut steps = stepped(quarters, step_s);
    steps.truncate(FLOOR_COLUMNS);
    steps
}

fn stepped(quarters: &[FloorQuarter], step_s: f64) -> Vec<FloorQuarter> {
    let mut steps: Vec<FloorQuarter> = Vec::new();
    let mut last_step = None;
    for quarter in quarters {
        let at_s = clock_seconds(&quarter.time).unwrap_or(quarter.at_s);
        let step = Some((at_s / step_s).floor().to_bits());
        match steps.last_mut().filter(|_| step == last_step) {
            Some(open) => open.lowest_c = open.lowest_c.min(quarter.lowest_c),
            None => steps.push(quarter.clone()),
        }
        last_step = step;
    }
    steps
}

fn wood(report: &CarryReport) -> String {
    let wood = &report.wood;
    let air = wood.lambda_least.map_or_else(String::new, |lambda| {
        format!(" Least air {} times what it needs (clean from 2).", number(lambda, 1))
    });
    let text = format!(
        "{} before the first order, {} in service, {} an hour at most; a piece weighs {}.{air} The flame reaches {} of the \
         way to the doorway; heat on the cook there {}, {}.",
        kg(wood.kg_light_up),
        kg(wood.kg_service),
        kg(wood.kg_per_h_peak),
        kg(wood.kg_piece),
        percent(wood.flame_reach_most),
        with_unit(report.doorway_kw_m2, 1, "kW/m²"),
        super::skin::says(report.doorway_kw_m2),
    );
    part("Wood", &text)
}

fn assist(report: &CarryReport) -> String {
    let assist = &report.assist;
    if assist.kwh <= 0.0 && assist.kw_rated_least.is_none() && assist.underside_most_c.is_none() {
        return String::new();
    }
    let mut text = format!("{} burnt", kwh(assist.kwh));
    if let Some(underside_c) = assist.underside_most_c {
        text.push_str(&format!("; the stone's underside reaches {}", degrees(underside_c)));
    }
    text.push('.');
    if let (Some(rated), Some(delivered)) = (assist.kw_rated_least, assist.kw_delivered_least) {
        text.push_str(&format!(" Least burner that carries: {} rated, {} delivered", kw(rated), kw(delivered)));
        let lead = assist.lead_min.map(|lead| format!(", on {} before the first order", with_unit(lead, 0, "min")));
        text.push_str(&format!("{}.", lead.unwrap_or_default()));
    }
    part("Gas", &text)
}

fn waits(report: &CarryReport) -> String {
    let waits = &report.waits;
    let text = format!(
        "half of the orders {}, nine in ten {} or less, the longest {}; last piece out at {}.",
        if waits.median_s < 1.0 { "none".to_owned() } else { format!("{} or less", duration(waits.median_s)) },
        duration(waits.p90_s),
        duration(waits.worst_s),
        clock_from_typed(&waits.last_out),
    );
    part("Waits", &text)
}

fn ledger(ledger: &LedgerMj) -> String {
    const TENTH: f64 = 10.0;
    let tenth = |mj: f64| (mj * TENTH).round() / TENTH;
    let sides = [
        ("into food and pans", ledger.food),
        ("out with the smoke", ledger.doorway_flow),
        ("glow of the doorway", ledger.doorway_radiation),
        ("through the shell", ledger.shell),
        ("kept in the stone", ledger.stored),
        ("unclosed", ledger.residual),
    ];
    let (fire, assist) = (tenth(ledger.fire), tenth(ledger.assist));
    let parts: Vec<f64> = sides.iter().map(|(_, mj)| *mj).collect();
    let shown = tenths_that_add_up(ledger.fire + ledger.assist, fire + assist, &parts);
    let said: Vec<String> =
        sides.iter().zip(&shown).map(|((name, _), mj)| format!("{} {name}", number(*mj, 1))).collect();
    let text = format!("fire {} + gas {} = {}.", number(fire, 1), number(assist, 1), said.join(" + "));
    part("Heat, MJ", &text)
}

/// Most warnings that are printed; the others are counted.
const WARNINGS: usize = 4;

fn warnings(warnings: &[String]) -> String {
    let mut out: String = warnings.iter().take(WARNINGS).map(|warning| part("Mind", warning)).collect();
    if let Some(more) = warnings.len().checked_sub(WARNINGS).filter(|&more| more > 0) {
        out.push_str(&part("", &format!("and {more} more under --json.")));
    }
    out
}

/// Cautions by act, each cut to its first sentence, which holds danger and act.
pub(super) fn cautions(cautions: &[Caution]) -> String {
    let mut out = String::new();
    for group in cautions.chunk_by(|a, b| a.act == b.act) {
        let said: Vec<String> = group.iter().map(|caution| ended(first_sentence(&caution.says))).collect();
        let act = if group[0].act == "first_firing" { "damp" } else { &group[0].act };
        out.push_str(&part(&capital(act), &said.join(" ")));
    }
    if out.is_empty() { out } else { format!("\nCautions, by what is being done\n{out}") }
}

fn ended(sentence: &str) -> String {
    if sentence.ends_with('.') { sentence.to_owned() } else { format!("{sentence}.") }
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| format!("{}{}", first.to_ascii_uppercase(), letters.as_str()))
}

fn foot(report: &CarryReport) -> String {
    let assumed = match report.assumed.len() {
        0 => "Nothing was assumed.".to_owned(),
        many => format!("{} nobody gave, each with its source under --json.", count(many as f64, "value", "values")),
    };
    let nights = "This is the one evening as it was typed; 'hearthload nights' plays many, with parties at random and a cook \
                  who feeds late.";
    format!("\n{}{}{ESTIMATE}\n", wrapped("", &assumed), wrapped("", nights))
}
