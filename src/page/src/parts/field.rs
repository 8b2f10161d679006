//! Owns one field: what was typed kept as typed, what was assumed shown as assumed, what is wrong said beside it.

use super::{id_of, marks};
use crate::{
    number,
    state::{Action, State},
    units,
    words::{fill, key_words, label, print, unit_name, words},
};
use hearthload::scenario::{
    Field,
    fields::{self, Kind},
    keys,
};
use serde_json::Value;
use wasm_bindgen::JsCast;
use web_sys::{HtmlInputElement, HtmlSelectElement};
use yew::prelude::*;

/// What a field is made of.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// Where it stands in the scenario.
    pub path: AttrValue,
    /// Its label, where the field table's own would not do.
    #[prop_or_default]
    pub label: Option<AttrValue>,
    /// Whether the label is for ears only.
    #[prop_or_default]
    pub quiet: bool,
    /// What was given.
    pub value: Option<Value>,
    /// What is assumed where nothing was given.
    pub assumed: Option<AttrValue>,
    /// What is wrong with it.
    pub problem: Option<AttrValue>,
    /// Whether an assumed value was replaced just now.
    pub replaced: bool,
    /// The first order, where the field's time comes after it.
    #[prop_or_default]
    pub first_order: Option<AttrValue>,
    /// Hears of changes.
    pub send: UseReducerDispatcher<State>,
}

/// One field.
#[component]
pub(crate) fn FieldBox(props: &Props) -> Html {
    let Some(row) = fields::field(&fields::pattern_of(&props.path)) else { return html! { <div></div> } };
    let id = id_of(&props.path);
    let given = props.value.as_ref().filter(|value| !value.is_null());
    let shown =
        given.map(number::shown).or_else(|| props.assumed.as_ref().map(|value| value.to_string())).unwrap_or_default();
    let shown = turned(&shown, Some(row.kind), row.unit());
    let described = format!("{id}-unit {id}-note {id}-below");
    let state = if props.problem.is_some() {
        "mend"
    } else if given.is_none() && props.assumed.is_some() {
        "assumed"
    } else {
        "given"
    };
    let control = match row.kind {
        Kind::Choice(all) => {
            html! { <Choose id={id.clone()} {described} {shown} all={all.to_vec()} path={props.path.clone()} wrong={props.problem.is_some()} send={props.send.clone()} /> }
        }
        Kind::Key(table) => {
            html! { <Choose id={id.clone()} {described} {shown} all={keys::all(table)} path={props.path.clone()} wrong={props.problem.is_some()} send={props.send.clone()} /> }
        }
        _ => {
            html! { <Write id={id.clone()} {described} {shown} path={props.path.clone()} wrong={props.problem.is_some()} first_order={props.first_order.clone()} send={props.send.clone()} /> }
        }
    };
    let wide = match row.kind {
        Kind::Choice(all) => is_wide(all),
        Kind::Key(table) => is_wide(&keys::all(table)),
        _ => false,
    };
    let label = props.label.clone().unwrap_or_else(|| label(row).into());
    html! {
        <div class={classes!("field", state, kind_class(row), props.quiet.then_some("quiet-label"), wide.then_some("wide"))}>
            <label for={id.clone()}>{ label }</label>
            <div class="control">
                { control }
                <span class="unit" id={format!("{id}-unit")}>{ unit_name(row.unit()) }</span>
            </div>
            <span class="for-ears" id={format!("{id}-note")}>{ print(row.note) }</span>
            <div class="below" id={format!("{id}-below")}>{ below(props, state) }</div>
        </div>
    }
}

/// Whether any of the words to choose from needs a line of its own.
fn is_wide(all: &[&str]) -> bool {
    /// What half the form's width holds beside the arrow, in letters.
    const LETTERS: usize = 14;
    all.iter().any(|key| key_words(key).chars().count() > LETTERS)
}

fn kind_class(row: &Field) -> &'static str {
    match row.kind {
        Kind::Number { .. } => "number",
        Kind::Clock => "clock",
        Kind::Text { .. } => "text",
        _ => "pick",
    }
}

fn below(props: &Props, state: &str) -> Html {
    if let Some(problem) = &props.problem {
        return html! { <p class="problem">{ marks::cross() }<span>{ print(problem) }</span></p> };
    }
    if state == "assumed" {
        return html! { <p class="taken"><span aria-hidden="true">{ "○ " }</span>{ words().assumed }</p> };
    }
    let Some(was) = props.assumed.as_ref().filter(|_| props.replaced) else { return html! {} };
    let (path, send) = (props.path.to_string(), props.send.clone());
    let back = Callback::from(move |_: MouseEvent| send.dispatch(Action::Set(path.clone(), None)));
    html! { <p class="taken">{ fill(words().was, &[&was_shown(props, was)]) }{ " " }<button type="button" class="link" onclick={back}>{ words().back }</button></p> }
}

#[derive(Properties, PartialEq)]
struct ControlProps {
    id: AttrValue,
    described: AttrValue,
    shown: AttrValue,
    path: AttrValue,
    wrong: bool,
    send: UseReducerDispatcher<State>,
    #[prop_or_default]
    all: Vec<&'static str>,
    #[prop_or_default]
    first_order: Option<AttrValue>,
}

/// What was assumed, in the reader's units.
fn was_shown(props: &Props, was: &str) -> String {
    let row = fields::field(&fields::pattern_of(&props.path));
    row.map_or_else(|| was.to_owned(), |row| turned(was, Some(row.kind), row.unit()))
}

/// A value as its field shows it.
fn face(value: &Value, kind: Option<Kind>, unit: &str) -> String {
    turned(&number::shown(value), kind, unit)
}

/// A field's text as the reader writes it.
fn turned(text: &str, kind: Option<Kind>, unit: &str) -> String {
    match kind {
        Some(Kind::Number { .. }) => units::shown(text, unit),
        Some(Kind::Clock) => units::clock_shown(text),
        _ => text.to_owned(),
    }
}

/// A field written with the keyboard. Its letters stay as they are typed until it is left.
#[component]
fn Write(props: &ControlProps) -> Html {
    let typing = use_state(|| None::<String>);
    let row = fields::field(&fields::pattern_of(&props.path));
    let (kind, unit) = (row.map(|row| row.kind), row.map_or("", |row| row.unit()));
    let first_order = props.first_order.clone().unwrap_or_default();
    let meant = move |text: &str| match kind {
        Some(Kind::Number { .. }) => row.and_then(|row| units::typed_into(row, text)),
        Some(Kind::Clock) => number::clock_after(text, &first_order),
        _ => Some(Value::from(text)).filter(|_| !text.trim().is_empty()),
    };
    {
        // Undo, or another scenario: what stands there now is not what is being typed.
        let (typing, meant) = (typing.clone(), meant.clone());
        use_effect_with(props.shown.clone(), move |shown| {
            let stale = typing
                .as_deref()
                .is_some_and(|text| meant(text).is_some_and(|value| face(&value, kind, unit) != **shown));
            if stale {
                typing.set(None);
            }
        });
    }
    let input = {
        let (typing, path, send) = (typing.clone(), props.path.to_string(), props.send.clone());
        Callback::from(move |event: InputEvent| {
            let Some(text) = event.target().and_then(|it| it.dyn_into::<HtmlInputElement>().ok()).map(|it| it.value())
            else {
                return;
            };
            send.dispatch(Action::Set(path.clone(), meant(&text)));
            typing.set(Some(text));
        })
    };
    let leave = {
        let typing = typing.clone();
        Callback::from(move |_: FocusEvent| typing.set(None))
    };
    let shown = (*typing).clone().map_or(props.shown.clone(), AttrValue::from);
    let keys = match kind {
        Some(Kind::Number { .. }) => "decimal",
        Some(Kind::Clock) if !units::units().twelve_hours => "numeric",
        _ => "text",
    };
    html! {
        <input id={&props.id} type="text" inputmode={keys} autocomplete="off" spellcheck="false" value={shown} oninput={input} onblur={leave}
            aria-invalid={props.wrong.then_some("true")} aria-describedby={&props.described} />
    }
}

/// A field chosen from a list.
#[component]
fn Choose(props: &ControlProps) -> Html {
    let place = use_node_ref();
    {
        let place = place.clone();
        use_effect_with(props.shown.clone(), move |shown| {
            if let Some(select) = place.cast::<HtmlSelectElement>() {
                select.set_value(shown);
            }
        });
    }
    let change = {
        let (path, send) = (props.path.to_string(), props.send.clone());
        Callback::from(move |event: Event| {
            let Some(value) =
                event.target().and_then(|it| it.dyn_into::<HtmlSelectElement>().ok()).map(|it| it.value())
            else {
                return;
            };
            send.dispatch(Action::Set(path.clone(), Some(value).filter(|value| !value.is_empty()).map(Value::from)));
        })
    };
    let known = props.all.iter().any(|key| **key == *props.shown);
    html! {
        <select ref={place} id={&props.id} onchange={change} aria-invalid={props.wrong.then_some("true")} aria-describedby={&props.described}>
            for key in (!known).then(|| props.shown.clone()) {
                <option key={format!("other {key}")} value={key.clone()} selected=true>{ if key.is_empty() { words().choose.to_owned() } else { key_words(&key) } }</option>
            }
            for key in props.all.iter() {
                <option key={*key} value={*key} selected={**key == *props.shown}>{ key_words(key) }</option>
            }
        </select>
    }
}
