//! Owns the next piece: how long until then, when and how many, the log that burns down, and the three answers to it.

use super::night::Stage;
use crate::{
    figures as said,
    state::tonight::{Mark, Tonight},
    words::{fill, print, words},
};
use hearthload::report::FireReport;
use hearthload::units::time::{HOUR_S, MINUTE_S};
use std::rc::Rc;
use yew::prelude::*;

/// A second press within this is a slip of a floury hand, ms.
const SLIP_MS: f64 = 600.0;
/// What a whole log stands for at most, s.
const LOG_S: f64 = 1800.0;

/// The next piece's properties.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// How far the evening has come.
    pub stage: Stage,
    /// Now, seconds since midnight.
    pub now_s: f64,
    /// The plan.
    pub report: Rc<FireReport>,
    /// What was told.
    pub tonight: Rc<Tonight>,
    /// Tells more.
    pub change: Callback<Tonight>,
    /// Whether the rest of the evening does not hold its promises.
    pub broken: bool,
}

/// "10:40"; from an hour and a half on "2 h 05 min".
fn countdown(left_s: f64) -> (String, bool) {
    if left_s < 1.5 * HOUR_S {
        (crate::units::units().countdown(left_s), false)
    } else {
        (said::duration(left_s), true)
    }
}

/// The next piece.
#[component]
pub(crate) fn Next(props: &Props) -> Html {
    let last = use_mut_ref(|| 0.0_f64);
    let say = words();
    let units = crate::units::units();
    let tell = |pieces: u32, planned_s: f64| {
        let (last, change, tonight, at_s) = (last.clone(), props.change.clone(), props.tonight.clone(), props.now_s);
        Callback::from(move |_: MouseEvent| {
            let now = js_sys::Date::now();
            if now - *last.borrow() >= SLIP_MS {
                *last.borrow_mut() = now;
                change.emit(tonight.marked(Mark { planned_s, at_s, pieces }));
            }
        })
    };
    let body = match props.stage {
        Stage::Unlit(light_s) => {
            let (left, long) = countdown(light_s - props.now_s);
            let kindling_kg = props.report.kindling_kg;
            let kindling = (kindling_kg > 0.0).then(|| fill(say.cook_kindling, &[&said::kg(kindling_kg)]));
            html! {
                <>
                    <h1>{ say.cook_light_in }</h1>
                    <p class={classes!("count", long.then_some("long"))} role="timer">{ left }</p>
                    <p class="order"><strong>{ units.clock(light_s) }</strong>{ kindling }</p>
                    { log((light_s - props.now_s) / LOG_S) }
                    <p class="order">{ fill(say.cook_bring_in, &[&props.report.pieces_to_bring_in.to_string()]) }</p>
                </>
            }
        }
        Stage::Next(feed) => {
            let left_s = feed.at_s - props.now_s;
            let late = left_s < -MINUTE_S / 2.0;
            let (shown, long) = countdown(left_s.abs());
            let pieces = if feed.pieces == 1 {
                say.cook_one.to_owned()
            } else {
                fill(say.cook_pieces, &[&feed.pieces.to_string()])
            };
            html! {
                <>
                    <h1>{ if late { say.cook_due } else { say.cook_next } }</h1>
                    <p class={classes!("count", long.then_some("long"), late.then_some("late"))} role="timer">
                        { if late { fill(say.cook_late, &[&shown]) } else { shown } }
                    </p>
                    <p class="order"><strong>{ units.clock(feed.at_s) }</strong>{ ", " }{ pieces }</p>
                    { log(left_s / LOG_S) }
                    <div class="cook-acts">
                        <button type="button" class="act" onclick={tell(1, feed.at_s)}>{ say.cook_fed_one }</button>
                        <button type="button" onclick={tell(2, feed.at_s)}>{ say.cook_fed_two }</button>
                        <button type="button" onclick={tell(0, feed.at_s)}>{ say.cook_skip }</button>
                    </div>
                </>
            }
        }
        Stage::Over => html! {
            <>
                <h1>{ say.cook_over }</h1>
                <p class="order">{ props.report.evening.as_ref().map(|evening| print(&evening.says)).unwrap_or_default() }</p>
            </>
        },
    };
    html! {
        <section class="cook-next">
            { body }
            <div>{ if props.broken { html! { <p class="cook-short">{ say.cook_not_enough }</p> } } else { html! {} } }</div>
        </section>
    }
}

/// A log that burns down from the left; `left` is the share that is left.
fn log(left: f64) -> Html {
    const WIDE: f64 = 412.0;
    let left = left.clamp(0.0, 1.0);
    let from = (WIDE - 40.0) * (1.0 - left) + 2.0;
    let x = |value: f64| format!("{value:.1}");
    html! {
        <svg class="log" viewBox="0 0 412 46" preserveAspectRatio="none" aria-hidden="true" focusable="false">
            <rect class="log-burnt" x="2" y="2" width="408" height="42" rx="21" />
            <rect class="log-wood" x={x(from)} y="2" width={x((WIDE - 24.0 - from).max(0.0))} height="42" />
            for line in 1..6 { <line class="log-grain" x1={x(from)} x2={x(WIDE - 24.0)} y1={x(f64::from(line) * 7.0 + 2.0)} y2={x(f64::from(line) * 7.0 + 2.0)} /> }
            <circle class="log-end" cx="388" cy="23" r="21" /><circle class="log-ring" cx="388" cy="23" r="12" /><circle class="log-ring" cx="388" cy="23" r="5" />
        </svg>
    }
}
