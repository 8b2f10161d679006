//! Owns the lists of the form: layers, stretches of feeding, wipes, batches. Each row is the fields of the table's item.

use super::{Desk, assumed, labelled};
use crate::{
    parts::{id_of, marks},
    state::{Action, draft},
    units,
    words::{fill, key_words, label, label_inside, print, unit_name, words},
};
use hearthload::scenario::{
    Field,
    fields::{self, Kind},
};
use serde_json::{Map, Value};
use yew::prelude::*;

/// A list of the form.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
    /// Where the list stands.
    pub path: &'static str,
}

/// The list.
#[component]
pub(crate) fn Rows(props: &Props) -> Html {
    let (desk, path) = (&props.desk, props.path);
    let Some(row) = fields::field(path) else { return html! { <div></div> } };
    let given = draft::get(&desk.doc, path).is_some_and(Value::is_array);
    let list: Vec<Value> = if given {
        draft::list(&desk.doc, path).to_vec()
    } else {
        assumed(desk, path).and_then(|text| serde_json::from_str(&text).ok()).unwrap_or_default()
    };
    html! {
        <fieldset class={classes!("rows", (!given && !list.is_empty()).then_some("assumed"))} id={id_of(path)} tabindex="-1">
            <legend>{ label(row) }</legend>
            for index in 0..list.len() {
                <div class="row" key={index}>{ if given { own(desk, path, row, index) } else { taken(path, &list[index]) } }</div>
            }
            <div>
                if let Some(problem) = desk.problem_at(path) {
                    <p class="problem">{ marks::cross() }<span>{ print(problem) }</span></p>
                }
            </div>
            <div class="acts">{ if given || list.is_empty() { add(desk, path, list.last()) } else { mine(desk, path, &list) } }</div>
        </fieldset>
    }
}

fn item_fields(path: &str) -> impl Iterator<Item = &'static Field> {
    fields::children(fields::field(&format!("{path}[]")).map_or("", |item| item.path))
}

fn own(desk: &Desk, path: &str, row: &Field, index: usize) -> Html {
    let item = format!("{path}[{index}]");
    let name = format!("{} {}", label(row), index + 1);
    let (send, gone) = (desk.dispatcher(), item.clone());
    let says = fill(words().row_gone, &[&name]);
    let remove = Callback::from(move |_: MouseEvent| send.dispatch(Action::Take(gone.clone(), says.clone())));
    let plain = fields::field(&format!("{path}[]")).is_some_and(|item| !matches!(item.kind, Kind::Group));
    html! {
        <>
            <div class="fields">
                if plain {
                    { labelled(desk, &item, None, false) }
                } else {
                    for field in item_fields(path) { { labelled(desk, &format!("{item}.{}", field.key_name()), None, false) } }
                }
            </div>
            <button type="button" class="quiet remove" onclick={remove} aria-label={fill(words().remove_row, &[&name])}>{ marks::cross() }</button>
        </>
    }
}

/// A row nobody gave: read, not typed.
fn taken(path: &str, item: &Value) -> Html {
    let text: Vec<String> = if item.is_object() {
        item_fields(path)
            .filter_map(|field| {
                let value = item.get(field.key_name())?;
                let shown = crate::number::shown(value);
                let words = match field.kind {
                    Kind::Number { .. } => units::shown(&shown, field.unit()),
                    Kind::Clock => units::clock_shown(&shown),
                    _ => key_words(&shown),
                };
                Some(format!("{} {words}\u{a0}{}", label_inside(field), unit_name(field.unit())).trim_end().to_owned())
            })
            .collect()
    } else {
        vec![crate::number::shown(item)]
    };
    html! { <p class="taken-row">{ text.join(", ") }</p> }
}

fn add(desk: &Desk, path: &'static str, last: Option<&Value>) -> Html {
    // A new row starts as a copy of the last one: layers, stretches and wipes come in kinds.
    let fresh = last.cloned().unwrap_or_else(|| {
        let plain = fields::field(&format!("{path}[]")).is_some_and(|item| !matches!(item.kind, Kind::Group));
        if plain { Value::from("") } else { Value::Object(Map::new()) }
    });
    let at = draft::list(&desk.doc, path).len();
    let send = desk.dispatcher();
    let press = Callback::from(move |_: MouseEvent| {
        send.dispatch(Action::Insert(path.to_owned(), at, fresh.clone(), String::new()))
    });
    let label = fields::field(path).map_or_else(String::new, label);
    html! { <button type="button" class="quiet" onclick={press} aria-label={format!("{label}: {}", words().add_row)}>{ words().add_row }</button> }
}

fn mine(desk: &Desk, path: &'static str, list: &[Value]) -> Html {
    let (send, list) = (desk.dispatcher(), Value::from(list.to_vec()));
    let press = Callback::from(move |_: MouseEvent| send.dispatch(Action::Set(path.to_owned(), Some(list.clone()))));
    let label = fields::field(path).map_or_else(String::new, label);
    html! {
        <>
            <p class="taken"><span aria-hidden="true">{ "○ " }</span>{ words().assumed }</p>
            <button type="button" class="quiet" onclick={press} aria-label={format!("{label}: {}", words().use_mine)}>{ words().use_mine }</button>
        </>
    }
}
