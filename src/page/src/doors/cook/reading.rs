//! Owns the typing of a reading: what stands there, the keys, and what the rest of the evening becomes before it is taken.

use super::{
    night::{rhythm, seconds},
    off_plan, rest_of, rest_request,
};
use crate::{
    charts::words::capital,
    figures as said,
    form::Desk,
    state::{
        Action,
        asked::{Stand, Subject},
        tonight::{Read, Tonight},
    },
    words::{fill, print, words},
};
use gloo::timers::callback::Timeout;
use hearthload::report::FireNow;
use hearthload::units::time::MINUTE_S;
use std::rc::Rc;
use yew::prelude::*;

/// How long the keys must be still before the rest of the evening is worked out, ms.
const STILL_MS: u32 = 500;
/// Fewest digits that can be a hot floor's reading, most that can be any.
const DIGITS: [usize; 2] = [3, 3];

/// The typing's properties.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
    /// Now, seconds since midnight.
    pub now_s: f64,
    /// What was told.
    pub tonight: Rc<Tonight>,
    /// Tells more.
    pub change: Callback<Tonight>,
}

/// Leaves for the evening's view: forward, so that Back leads to where one was.
fn leave() {
    // Refused only where a page may not change its own fragment, which no browser does.
    let _ = gloo::utils::window().location().set_hash("tonight");
}

/// The typing.
#[component]
pub(crate) fn Typing(props: &Props) -> Html {
    let (desk, say) = (&props.desk, words());
    let typed = use_state(String::new);
    let place = use_node_ref();
    {
        // What is typed on real keys goes here at once.
        let place = place.clone();
        use_effect_with((), move |()| {
            if let Some(element) = place.cast::<web_sys::HtmlElement>() {
                // Refused only where it could not take the focus, and it can.
                let _ = element.focus();
            }
        });
    }
    // The minute in which the first digit was typed is that of the reading.
    let at = use_state(|| None::<f64>);
    let read = typed.parse::<u32>().ok().filter(|_| typed.len() >= DIGITS[0]).map(|number| Read {
        at_s: at.unwrap_or((props.now_s / MINUTE_S).floor() * MINUTE_S),
        // What was typed is in the reader's degrees; the reading is kept in the scenario's.
        floor_c: crate::units::meant(Some(number.into()), "degC").and_then(|c| c.as_f64()).unwrap_or(f64::from(number)),
    });
    {
        let (send, tonight) = (desk.dispatcher(), props.tonight.clone());
        let key = read.map(|read| (read.at_s as u32, read.floor_c as u32));
        use_effect_with(key, move |key| {
            let wait = key.and(read).map(|read| {
                Timeout::new(STILL_MS, move || send.dispatch(Action::Ask(Subject::Rest, rest_request(read, &tonight))))
            });
            move || drop(wait)
        });
    }
    let press = {
        let (typed, at, now_s) = (typed.clone(), at.clone(), props.now_s);
        Callback::from(move |key: char| {
            let mut next = (*typed).clone();
            match key {
                '0'..='9' if next.len() < DIGITS[1] => next.push(key),
                '<' => drop(next.pop()),
                _ => {}
            }
            if typed.is_empty() {
                at.set(Some((now_s / MINUTE_S).floor() * MINUTE_S));
            }
            typed.set(next);
        })
    };
    let keys = {
        let press = press.clone();
        Callback::from(move |event: KeyboardEvent| match event.key().as_str() {
            "Backspace" => press.emit('<'),
            digit if digit.len() == 1 && digit.chars().all(|sign| sign.is_ascii_digit()) => {
                digit.chars().for_each(|sign| press.emit(sign));
            }
            _ => {}
        })
    };
    let rest = rest_of(desk, read);
    let take = {
        let (change, tonight) = (props.change.clone(), props.tonight.clone());
        let left_out = rest.as_ref().map_or_else(Vec::new, |rest| rest.left_out.clone());
        Callback::from(move |_: MouseEvent| {
            if let Some(read) = read {
                change.emit(tonight.taking(read, left_out.iter().map(|at| seconds(at))));
                leave();
            }
        })
    };
    let key = |sign: char, label: &'static str, shown: Html| {
        let press = press.reform(move |_: MouseEvent| sign);
        html! { <button type="button" key={sign.to_string()} aria-label={label} onclick={press}>{ shown }</button> }
    };
    let digits = ["1", "2", "3", "4", "5", "6", "7", "8", "9"];
    let back = html! { <svg viewBox="0 0 64 40" class="mark key" aria-hidden="true" focusable="false"><path d="M20 3 H61 V37 H20 L3 20 Z M31 12 L49 28 M49 12 L31 28" /></svg> };
    html! {
        <div class="cook-typing" ref={place} onkeydown={keys} tabindex="-1" role="group" aria-label={say.cook_reads}>
            <section class="cook-typed">
                <h1>{ say.cook_reads }</h1>
                <p class="typed" role="status"><strong>{ if typed.is_empty() { "\u{2013}".to_owned() } else { (*typed).clone() } }</strong>{ " " }<span>{ crate::units::units().degree() }</span></p>
                <p class="cook-how">{ say.cook_point }</p>
                <div class="cook-becomes" aria-live="polite">{ becomes(desk, read, rest.as_ref()) }</div>
                <div class="cook-acts">
                    <button type="button" class="act" disabled={rest.is_none()} onclick={take}>{ say.cook_use }</button>
                    <a class="cook-leave" href="#tonight">{ say.cook_leave }</a>
                </div>
            </section>
            <section class="cook-keys" aria-label={say.cook_keys}>
                for digit in digits { { key(digit.chars().next().unwrap_or('0'), digit, html! { digit }) } }
                { key('<', say.cook_rub_out, back) }
                { key('0', "0", html! { "0" }) }
            </section>
        </div>
    }
}

/// What the rest of the evening becomes with the reading.
pub(super) fn becomes(desk: &Desk, read: Option<Read>, rest: Option<&FireNow>) -> Html {
    let say = words();
    let (Some(read), question) = (read, desk.asked.get(Subject::Rest)) else {
        return html! { <p>{ say.cook_outranks }</p> };
    };
    if let Some(rest) = rest {
        let expects = crate::units::units().degrees(rest.expected_c);
        let mut says: Vec<String> = rest
            .phases
            .iter()
            .filter(|phase| phase.feeds > 0)
            .map(|phase| fill(say.cook_from, &[&said::clock_from_typed(&phase.from), &rhythm(phase)]))
            .collect();
        if says.is_empty() {
            says.push(say.cook_no_more.to_owned());
        }
        let far = (read.floor_c - rest.expected_c).abs() >= 5.0;
        return html! {
            <>
                <p><strong>{ rest.acts.iter().take(1).map(|act| print(act)).collect::<String>() }</strong></p>
                <p><strong class={classes!(far.then_some("off"))}>{ off_plan(read.floor_c - rest.expected_c) }</strong>{ " " }{ fill(say.cook_expects, &[&expects]) }</p>
                <p>{ if rest.keeps_plan { say.cook_keeps.to_owned() } else { format!("{}.", capital(&said::list(&says))) } }</p>
                <div>{ if rest.carries { html! {} } else { html! { <p class="cook-short">{ say.cook_not_enough }</p> } } }</div>
                <p class="cook-how">{ rest.taken.iter().map(|line| print(line)).collect::<Vec<_>>().join(" ") }</p>
            </>
        };
    }
    match question.map(|question| &question.stand) {
        Some(Stand::Mend(problems)) => {
            html! { <p class="cook-short">{ problems.iter().map(|problem| print(&problem.says)).collect::<Vec<_>>().join(" ") }</p> }
        }
        Some(Stand::Faulted(why)) => html! { <p class="cook-short">{ format!("{} {}", say.stopped, print(why)) }</p> },
        _ => html! { <p>{ say.cook_planning }</p> },
    }
}
