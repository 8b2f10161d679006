//! Owns the shift sheet: the evening on one page that stands alone on the wall, A4 or letter; after a reading that changed the plan,
//! the rest of the evening.

use super::night::{Night, rhythm, seconds};
use crate::{
    charts::{Answer, Picture, canvas::ChartCanvas},
    figures as said,
    words::{act_words, fill, print, words},
};
use hearthload::report::{FireNow, FirePhase, FireReport, SheetReading, ShiftSheet};
use hearthload::units::time::MINUTE_S;
use std::rc::Rc;
use yew::prelude::*;

/// Acts whose cautions stand on the sheet, those of one who keeps a fire, and how many of each: the flames at the doorway stand
/// over them all.
const ACTS: [(&str, usize); 4] = [("light", 2), ("feed", 1), ("doorway", 2), ("ash", 1)];
/// From this many pieces on the sheet is set smaller.
const DENSE: u32 = 40;
/// Rows of readings to fill in.
const READINGS: usize = 16;

/// The sheet on the screen, with the way to the printer and back.
pub(super) fn on_screen(night: &Night<'_>, answer: Option<&Answer>) -> Html {
    let print_it = Callback::from(|_: MouseEvent| {
        // A browser without a printer says so itself.
        let _ = gloo::utils::window().print();
    });
    html! {
        <>
            <div class="paper-acts">
                <button type="button" class="act" onclick={print_it}>{ words().cook_print }</button>
                <a class="cook-leave" href="#tonight">{ words().cook_back }</a>
            </div>
            <div class="paper">{ paper(night, answer) }</div>
        </>
    }
}

/// The sheet.
pub(super) fn paper(night: &Night<'_>, answer: Option<&Answer>) -> Html {
    let (say, report) = (words(), night.report);
    let Some(sheet) = &report.sheet else { return html! {} };
    let covers = answer.map_or(0.0, |answer| answer.kitchen.covers.iter().sum());
    let hours = answer.map(|answer| (said::clock(answer.kitchen.start_s), said::clock(answer.kitchen.end_s)));
    let (from, to) = hours.unwrap_or_default();
    let again = night.rest.filter(|rest| !rest.keeps_plan);
    let shown = as_printed(night);
    let since_s = again.map_or(0.0, |again| seconds(&again.at));
    html! {
        <article class={classes!("sheet", (shown.phases().iter().map(|phase| phase.feeds).sum::<u32>() > DENSE).then_some("dense"))}>
            <header class="sheet-head"><h2 class="sheet-title">{ say.sheet_title }</h2>
                <p>{ &report.name }<br />{ fill(say.sheet_covers, &[&said::number(covers, 0), &from, &to]) }</p></header>
            <p class="sheet-lead">{ again.map_or_else(|| lead(report), |again| lead_again(again, &shown)) }</p>
            <div class="sheet-phases">for phase in shown.phases().iter().filter(|phase| phase.feeds > 0) { { phase_box(phase) } }</div>
            <ChartCanvas picture={Picture::Evening(Rc::new(shown.strip(answer, false)))} titled={false} tabled={false} />
            <div class="sheet-two">
                <div>
                    <h3>{ if again.is_some() { say.sheet_first } else { say.sheet_lighting } }</h3>
                    <ul class="sheet-boxes">for step in again.map_or(&sheet.lighting, |again| &again.acts) { <li key={step.clone()}><span class="box"></span>{ print(step) }</li> }</ul>
                    <h3>{ say.sheet_readings }</h3>
                    { readings(again.map_or(&sheet.readings, |again| &again.readings)) }
                </div>
                <div>
                    <h3>{ say.sheet_ticks }</h3>
                    <ul class="sheet-ticks">for feed in shown.feeds().into_iter().filter(|feed| feed.at_s >= since_s) { <li key={feed.at_s.to_string()}><span class="box"></span><strong>{ said::clock(feed.at_s) }</strong></li> }</ul>
                    <p>{ wood(report) }</p>
                    for line in limits(sheet, since_s) { <p key={line.clone()}>{ line }</p> }
                    <h3>{ say.sheet_off }</h3>
                    <ul class="sheet-dashes">for line in sheet.if_off.iter() { <li key={line.clone()}>{ print(line) }</li> }</ul>
                </div>
            </div>
            <div class="sheet-care"><h3>{ say.cautions }</h3><ul>
                <li><strong>{ say.cook_flames }</strong></li>
                for (act, says) in cautions(report) { <li key={says.clone()}><strong>{ act }</strong>{ ": " }{ print(&says) }</li> }
            </ul></div>
            <p class="sheet-foot"><strong>{ say.sheet_after }</strong>{ " " }{ after(report, again) }{ " " }{ say.estimate }{ " " }{ say.outrank }</p>
            <div class="sheet-notes"><p>{ say.sheet_notes }</p></div>
        </article>
    }
}

/// What a sheet can hold: the plan as it stood before the evening, or as it was planned again; no moment of its own.
fn as_printed<'a>(night: &Night<'a>) -> Night<'a> {
    Night { rest: night.rest.filter(|rest| !rest.keeps_plan), now_s: 0.0, ..*night }
}

fn lead_again(again: &FireNow, shown: &Night<'_>) -> String {
    let say = words();
    let planned = fill(say.sheet_again, &[&said::clock_from_typed(&again.at), &said::degrees(again.floor_c)]);
    let last = shown.feeds().last().map(|feed| feed.at_s).filter(|at_s| *at_s >= seconds(&again.at));
    let last =
        last.map_or_else(|| say.sheet_again_none.to_owned(), |at_s| fill(say.sheet_again_last, &[&said::clock(at_s)]));
    let short = if again.carries { "" } else { say.cook_not_enough };
    format!("{planned} {last} {short}").trim_end().to_owned()
}

/// How the evening ends and what is to spare: known of the first plan alone.
fn after(report: &FireReport, again: Option<&FireNow>) -> String {
    if again.is_some() {
        return words().sheet_again_after.to_owned();
    }
    let evening = report.evening.as_ref().map(|evening| print(&evening.says)).unwrap_or_default();
    format!("{evening} {}", margins(report))
}

fn lead(report: &FireReport) -> String {
    let at = |typed: &Option<String>| typed.as_deref().map(said::clock_from_typed).unwrap_or_default();
    let say = words();
    let lead = if report.kindling_kg > 0.0 { say.sheet_lead } else { say.sheet_lead_bare };
    fill(
        lead,
        &[
            &at(&report.light_at),
            &at(&report.last_feed_at),
            &report.pieces_to_bring_in.to_string(),
            &said::kg(report.kindling_kg),
        ],
    )
}

fn phase_box(phase: &FirePhase) -> Html {
    let say = words();
    let name = match phase.name.as_str() {
        "light_up" => say.phase_light_up,
        "to_rush" => say.phase_to_rush,
        "rush" => say.phase_rush,
        _ => say.phase_tail,
    };
    let last_s = seconds(&phase.from) + f64::from(phase.feeds.saturating_sub(1)) * phase.every_min * MINUTE_S;
    let from = said::clock_from_typed(&phase.from);
    let when = if phase.feeds > 1 { fill(say.sheet_from_to, &[&from, &said::clock(last_s)]) } else { from };
    let count = said::count(f64::from(phase.feeds) * phase.pieces, say.sheet_piece, say.sheet_pieces);
    html! { <div key={phase.name.clone()}><p><strong>{ when }</strong></p><p class="sheet-every">{ rhythm(phase) }</p><p>{ format!("{name}; {count}") }</p></div> }
}

fn readings(all: &[SheetReading]) -> Html {
    let (say, units) = (words(), crate::units::units());
    // Every half hour where they fit, else every hour.
    let every = all.len().div_ceil(READINGS).max(1);
    let shown: Vec<&SheetReading> = all.iter().step_by(every).collect();
    let half = shown.len().div_ceil(2);
    let pair = |reading: Option<&&SheetReading>| {
        let (at, degrees) = reading.map_or_else(Default::default, |reading| {
            (said::clock_from_typed(&reading.at), units.bare_degrees(reading.floor_c))
        });
        html! { <><td>{ at }</td><td>{ degrees }</td><td class="yours"></td></> }
    };
    let head = || html! { <><th scope="col">{ say.sheet_at }</th><th scope="col">{ fill(say.sheet_plan, &[units.degree()]) }</th><th scope="col">{ say.sheet_yours }</th></> };
    html! {
        <table class="sheet-table"><thead><tr>{ head() }{ head() }</tr></thead>
            <tbody>for row in 0..half { <tr key={row}>{ pair(shown.get(row)) }{ pair(shown.get(row + half)) }</tr> }</tbody></table>
    }
}

pub(super) fn wood(report: &FireReport) -> String {
    let say = words();
    let wetter: Vec<String> = report
        .moisture
        .iter()
        .filter_map(|wood| {
            Some(fill(say.sheet_meter, &[&said::number(wood.meter_percent, 0), &said::kg(wood.wood_kg_day?)]))
        })
        .collect();
    let wetter = said::list(&wetter);
    fill(say.sheet_wood, &[&said::kg(report.piece_kg), &wetter])
}

/// What is to be kept to from a moment on.
fn limits(sheet: &ShiftSheet, since_s: f64) -> Vec<String> {
    let say = words();
    let at = |typed: &str| said::clock_from_typed(typed);
    let to_come = |typed: &&String| seconds(typed) >= since_s;
    let mut lines: Vec<String> = Vec::new();
    if let Some(by) = sheet.rush_feed_by.as_ref().filter(|_| since_s == 0.0) {
        lines.push(fill(say.sheet_rush, &[&at(by)]));
    }
    if let Some(spread) = sheet.spread_coals_at.as_ref().filter(to_come) {
        lines.push(fill(say.cook_spread, &[&at(spread)]));
    }
    if let Some(rest) = sheet.rests.iter().find(|rest| to_come(&&rest.at)) {
        lines.push(fill(
            say.cook_rest,
            &[super::orders::side(&rest.side), &at(&rest.at), &crate::units::units().step(rest.cooler_k)],
        ));
    }
    lines.extend(super::orders::caps(sheet.caps.iter().map(|cap| (cap.per_quarter, cap.dish.as_str()))));
    lines
}

fn cautions(report: &FireReport) -> Vec<(&'static str, String)> {
    let of = |(act, count): (&'static str, usize)| {
        let all = report.cautions.iter().filter(move |caution| caution.act == act).take(count);
        all.map(move |caution| (act_words(act), caution.says.clone()))
    };
    ACTS.into_iter().flat_map(of).collect()
}

fn margins(report: &FireReport) -> String {
    let Some(limits) = &report.limits else { return String::new() };
    fill(words().sheet_margins, &[&said::percent(limits.doorway_air_margin), &said::percent(limits.flame_reach_margin)])
}
