//! Owns the covers: one column for each quarter hour, changed with keys, with a press, or typed as a row of numbers.

use super::Desk;
use crate::{
    figures as said, number,
    parts::{id_of, marks},
    state::{Action, draft},
    words::{fill, print, words},
};
use hearthload::units::time::QUARTER_S;
use serde_json::Value;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlInputElement};
use yew::prelude::*;

const PATH: &str = "service.covers";
/// Height of the drawing, its own units.
const TALL: f64 = 96.0;
/// Width of a column with its joint, its own units.
const WIDE: f64 = 16.0;

/// The covers.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
}

fn clock(desk: &Desk, quarter: usize) -> String {
    let start = said::clock_seconds(draft::text(&desk.doc, "service.start")).unwrap_or(0.0);
    said::clock(start + quarter as f64 * QUARTER_S)
}

/// Columns and typed row.
#[component]
pub(crate) fn Covers(props: &Props) -> Html {
    let desk = &props.desk;
    let chosen = use_state(|| 0_usize);
    let covers: Vec<f64> = draft::list(&desk.doc, PATH).iter().map(|value| value.as_f64().unwrap_or(0.0)).collect();
    let at = (*chosen).min(covers.len().saturating_sub(1));
    let most = covers.iter().copied().fold(0.0, f64::max);
    let top = (most * 1.25).max(8.0);
    let set = {
        let send = desk.dispatcher();
        move |quarter: usize, value: f64| {
            let whole = value.round().max(0.0);
            send.dispatch(Action::Set(format!("{PATH}[{quarter}]"), Some(Value::from(whole as u64))));
        }
    };
    let keys = {
        let (chosen, covers, set) = (chosen.clone(), covers.clone(), set.clone());
        Callback::from(move |event: KeyboardEvent| {
            let now = covers.get(at).copied().unwrap_or(0.0);
            match event.key().as_str() {
                "ArrowLeft" => chosen.set(at.saturating_sub(1)),
                "ArrowRight" => chosen.set((at + 1).min(covers.len().saturating_sub(1))),
                "Home" => chosen.set(0),
                "End" => chosen.set(covers.len().saturating_sub(1)),
                "ArrowUp" => set(at, now + 1.0),
                "ArrowDown" => set(at, now - 1.0),
                "PageUp" => set(at, now + 5.0),
                "PageDown" => set(at, now - 5.0),
                _ => return,
            }
            event.prevent_default();
        })
    };
    let press = {
        let (chosen, count) = (chosen.clone(), covers.len());
        Callback::from(move |event: PointerEvent| {
            let Some(place) = event.current_target().and_then(|it| it.dyn_into::<Element>().ok()) else { return };
            if event.buttons() != 1 || count == 0 {
                return;
            }
            let frame = place.get_bounding_client_rect();
            let across = (f64::from(event.client_x()) - frame.left()) / frame.width().max(1.0);
            let up = 1.0 - (f64::from(event.client_y()) - frame.top()) / frame.height().max(1.0);
            let quarter = ((across * count as f64).max(0.0) as usize).min(count - 1);
            chosen.set(quarter);
            set(quarter, up * top);
        })
    };
    let says = format!(
        "{}: {}",
        clock(desk, at),
        said::count(covers.get(at).copied().unwrap_or(0.0), words().cover, words().covers)
    );
    let width = WIDE * covers.len().max(1) as f64;
    html! {
        <div class="covers" id={id_of(PATH)} tabindex="-1">
            <div class="columns" role="slider" tabindex="0" aria-label={words().covers_typed} aria-valuemin="0" aria-valuemax={said::number(top, 0)}
                aria-valuenow={said::number(covers.get(at).copied().unwrap_or(0.0), 0)} aria-valuetext={says.clone()} onkeydown={keys}
                onpointerdown={press.clone()} onpointermove={press}>
                <svg viewBox={format!("0 0 {width} {TALL}")} preserveAspectRatio="none" aria-hidden="true">
                    for (quarter, value) in covers.iter().enumerate() {
                        <rect key={quarter} class={classes!("column", (quarter == at).then_some("chosen"))} x={(quarter as f64 * WIDE + 1.0).to_string()} width={(WIDE - 2.0).to_string()}
                            y={(TALL * (1.0 - value / top)).to_string()} height={(TALL * value / top).to_string()} />
                    }
                </svg>
            </div>
            <p class="column-says" aria-hidden="true">{ says }</p>
            <p class="how">{ fill(words().covers_how, &[&said::number(covers.iter().sum(), 0), &said::number(most, 0)]) }</p>
            <Typed desk={desk.clone()} />
            { fit(desk, covers.len()) }
            <div>
                if let Some(problem) = desk.problem_at(PATH) {
                    <p class="problem" id="covers-problem">{ marks::cross() }<span>{ print(problem) }</span></p>
                }
            </div>
        </div>
    }
}

/// Where the columns are not as many as the quarter hours of the service: the way to make them so.
fn fit(desk: &Desk, count: usize) -> Html {
    let at = |path: &str| said::clock_seconds(draft::text(&desk.doc, path));
    let wanted = match (at("service.start"), at("service.end")) {
        (Some(start), Some(end)) if end > start => ((end - start) / QUARTER_S).ceil() as usize,
        _ => count,
    };
    if wanted == count {
        return html! { <div></div> };
    }
    let mut list = draft::list(&desk.doc, PATH).to_vec();
    list.resize(wanted, Value::from(0));
    let send = desk.dispatcher();
    let press = Callback::from(move |_: MouseEvent| {
        send.dispatch(Action::Set(PATH.to_owned(), Some(Value::from(list.clone()))))
    });
    html! { <div class="acts"><button type="button" onclick={press}>{ fill(words().covers_fit, &[&wanted.to_string()]) }</button></div> }
}

/// The same as a row of numbers.
#[component]
fn Typed(props: &Props) -> Html {
    let desk = &props.desk;
    let typing = use_state(|| None::<String>);
    let row: Vec<String> = draft::list(&desk.doc, PATH).iter().map(number::shown).collect();
    let input = {
        let (typing, send) = (typing.clone(), desk.dispatcher());
        Callback::from(move |event: InputEvent| {
            let Some(text) = event.target().and_then(|it| it.dyn_into::<HtmlInputElement>().ok()).map(|it| it.value())
            else {
                return;
            };
            let list: Vec<Value> = text.split([' ', ';', ',', '\u{a0}']).filter_map(number::typed).collect();
            send.dispatch(Action::Set(PATH.to_owned(), Some(Value::from(list))));
            typing.set(Some(text));
        })
    };
    let leave = {
        let typing = typing.clone();
        Callback::from(move |_: FocusEvent| typing.set(None))
    };
    let wrong = desk.problem_at(PATH).is_some();
    html! {
        <div class={classes!("field", "text", if wrong { "mend" } else { "given" })}>
            <label for="covers-typed">{ words().covers_typed }</label>
            <div class="control">
                <input id="covers-typed" type="text" inputmode="numeric" autocomplete="off" value={(*typing).clone().unwrap_or_else(|| row.join(" "))}
                    oninput={input} onblur={leave} aria-invalid={wrong.then_some("true")} aria-describedby={wrong.then_some("covers-problem")} />
            </div>
        </div>
    }
}
