//! Owns the right half of the cook's view: the last reading with its distance from the plan, and what to do until the next piece.

use super::{
    Told,
    night::{Night, Stage, seconds},
    off_plan,
};
use crate::{
    charts::words::inside_sentence,
    figures as said,
    form::Desk,
    state::{
        asked::{Stand, Subject},
        tonight::Mark,
    },
    words::{fill, print, words},
};
use hearthload::report::SheetQuarter;
use hearthload::units::time::HOUR_S;
use yew::prelude::*;

/// Rows shown at most, for a tablet's view has room for no more of the longest; how many feeds that went by without a word are asked after.
const ROWS: usize = 3;
const ASKED_AFTER: usize = 1;

/// Reading and orders.
pub(super) fn panel(desk: &Desk, night: &Night<'_>, told: &Told) -> Html {
    html! {
        <section class="cook-now">
            { reading(desk, night) }
            { list(night, told) }
        </section>
    }
}

fn reading(desk: &Desk, night: &Night<'_>) -> Html {
    let (say, units) = (words(), crate::units::units());
    let running = desk.asked.get(Subject::Rest).is_some_and(|question| question.is_running());
    let (number, from, off) = match (night.tonight.reading, night.expected_c()) {
        (Some(read), _) => {
            let off = night.rest.map(|rest| (off_plan(read.floor_c - rest.expected_c), rest.keeps_plan));
            let off = match (off, running) {
                (_, true) => say.cook_planning.to_owned(),
                (Some((off, true)), _) => format!("{off} {}", say.cook_keeps),
                (Some((off, false)), _) => format!("{off} {}", say.cook_replanned),
                _ => String::new(),
            };
            (units.bare_degrees(read.floor_c), fill(say.cook_read_at, &[units.degree(), &units.clock(read.at_s)]), off)
        }
        (None, Some(at_c)) => {
            (units.bare_degrees(at_c), fill(say.cook_plan_says, &[units.degree()]), say.cook_outranks.to_owned())
        }
        (None, None) => ("–".to_owned(), String::new(), say.cook_outranks.to_owned()),
    };
    let refused = desk.asked.get(Subject::Rest).and_then(|question| match &question.stand {
        Stand::Mend(problems) => {
            Some(problems.iter().map(|problem| print(&problem.says)).collect::<Vec<_>>().join(" "))
        }
        Stand::Faulted(why) => Some(print(why)),
        _ => None,
    });
    html! {
        <>
            <div class="cook-reading">
                <p class="floor-now">{ number }</p>
                <p class="floor-from">{ from }</p>
                <a class="cook-act" href="#tonight/reading">{ say.cook_type }</a>
            </div>
            <p class="floor-off" role="status">{ refused.unwrap_or(off) }</p>
        </>
    }
}

/// What is to be done before the next piece, as rows to tick.
fn list(night: &Night<'_>, told: &Told) -> Html {
    let (say, units) = (words(), crate::units::units());
    let title = match night.stage() {
        Stage::Next(feed) if feed.at_s <= night.now_s => say.cook_now.to_owned(),
        Stage::Next(feed) => fill(say.cook_until, &[&units.clock(feed.at_s)]),
        Stage::Unlit(at_s) => fill(say.cook_until, &[&units.clock(at_s)]),
        Stage::Over => say.cook_tonight.to_owned(),
    };
    let untold_rows: Vec<_> = night.untold().into_iter().take(ASKED_AFTER).collect();
    let told_rows = usize::from(!night.tonight.marks.is_empty()) + untold_rows.len();
    html! {
        <>
            <h2>{ title }</h2>
            <ul class="cook-list">
                { last(night, told) }
                for feed in untold_rows { { untold(feed, told) } }
                for order in orders(night).into_iter().take(ROWS - told_rows) { { row(&order, told) } }
            </ul>
        </>
    }
}

/// What was told last, with its way back.
fn last(night: &Night<'_>, told: &Told) -> Html {
    let (tonight, change) = told.clone();
    let Some(mark) = night.tonight.marks.last() else { return html! { <li key="last" hidden=true></li> } };
    let at = crate::units::units().clock(mark.at_s);
    let says = match mark.pieces {
        0 => fill(words().cook_skipped_at, &[&crate::units::units().clock(mark.planned_s)]),
        1 => fill(words().cook_fed_at, &[&at]),
        more => fill(words().cook_fed_more_at, &[&more.to_string(), &at]),
    };
    let undo = Callback::from(move |_: MouseEvent| change.emit(tonight.unmarked()));
    html! {
        <li key="last" class="told"><span class="tick on" aria-hidden="true"></span><span class="says">{ says }</span>
            <button type="button" onclick={undo}>{ words().undo }</button></li>
    }
}

/// A feed that went by without a word: fed on time, or not?
fn untold(feed: super::night::Feed, told: &Told) -> Html {
    let (tonight, change) = told.clone();
    let says = fill(words().cook_fed_question, &[&crate::units::units().clock(feed.at_s)]);
    let press = Callback::from(move |_: MouseEvent| {
        change.emit(tonight.marked(Mark { planned_s: feed.at_s, at_s: feed.at_s, pieces: feed.pieces }))
    });
    html! {
        <li key={format!("{}", feed.at_s)}>
            <button type="button" class="tick" aria-label={says.clone()} onclick={press}></button><span class="says">{ says }</span>
        </li>
    }
}

fn row(order: &str, told: &Told) -> Html {
    let (tonight, change) = told.clone();
    let on = tonight.ticked.iter().any(|ticked| ticked == order);
    let text = order.to_owned();
    let press = Callback::from(move |_: MouseEvent| change.emit(tonight.turned(&text)));
    html! {
        <li key={order.to_owned()} class={classes!(on.then_some("told"))}>
            <button type="button" class={classes!("tick", on.then_some("on"))} aria-pressed={on.to_string()} aria-label={order.to_owned()} onclick={press}></button>
            <span class="says">{ order }</span>
        </li>
    }
}

/// Orders that hold now: those of the plan after a reading, else what the sheet has for this hour.
fn orders(night: &Night<'_>) -> Vec<String> {
    let (say, units) = (words(), crate::units::units());
    let sheet = night.report.sheet.as_ref();
    if let (Some(rest), false) = (night.rest, matches!(night.stage(), Stage::Unlit(_))) {
        return rest.acts.iter().map(|act| print(act)).collect();
    }
    let soon = |at: &str| (night.now_s - HOUR_S / 2.0..night.now_s + HOUR_S).contains(&seconds(at));
    match night.stage() {
        Stage::Unlit(_) => {
            sheet.map(|sheet| sheet.lighting.iter().map(|step| print(step)).collect()).unwrap_or_default()
        }
        Stage::Next(_) => {
            let Some(sheet) = sheet else { return Vec::new() };
            let spread = sheet
                .spread_coals_at
                .as_deref()
                .filter(|at| soon(at))
                .map(|at| fill(say.cook_spread, &[&said::clock_from_typed(at)]));
            let caps = quarter_for(&sheet.quarters, night.now_s).and_then(|quarter| {
                caps(sheet.caps.iter().zip(&quarter.pieces).map(|(cap, &pieces)| (pieces, cap.dish.as_str())))
            });
            let rests = sheet.rests.iter().filter(|rest| soon(&rest.at)).take(1);
            let rests = rests.map(|rest| {
                fill(say.cook_rest, &[side(&rest.side), &units.clock(seconds(&rest.at)), &units.step(rest.cooler_k)])
            });
            // What may be sold at most comes before what may rest: where there is no room for both, the caps stay.
            spread.into_iter().chain(caps).chain(rests).collect()
        }
        Stage::Over => Vec::new(),
    }
}

/// The quarter hour that runs, or the first where it begins within the hour. Its caps name every dish: one that is left out would
/// seem to have none.
fn quarter_for(quarters: &[SheetQuarter], now_s: f64) -> Option<&SheetQuarter> {
    let running = |quarter: &&SheetQuarter| {
        let from = seconds(&quarter.at);
        (from..from + HOUR_S / 4.0).contains(&now_s)
    };
    let first = || quarters.first().filter(|quarter| (now_s..now_s + HOUR_S).contains(&seconds(&quarter.at)));
    quarters.iter().find(running).or_else(first)
}

/// The most pieces of each dish in a quarter hour, in one sentence; nothing where there is none.
pub(super) fn caps<'a>(caps: impl Iterator<Item = (u32, &'a str)>) -> Option<String> {
    let caps = caps.filter(|(pieces, _)| *pieces > 0);
    let parts: Vec<String> = caps.map(|(pieces, dish)| format!("{pieces}\u{a0}{}", inside_sentence(dish))).collect();
    (!parts.is_empty()).then(|| fill(words().cook_cap, &[&said::list(&parts)]))
}

/// A side of the floor in words.
pub(super) fn side(key: &str) -> &'static str {
    let say = words();
    match key {
        "left" => say.side_left,
        "right" => say.side_right,
        "front" => say.side_front,
        _ => say.side_rear,
    }
}
