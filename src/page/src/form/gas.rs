//! Owns the burner under the floor: there is one, or there is none.

use super::{Desk, leaves};
use crate::{
    doors::notices::cautions_at,
    state::{Action, draft},
    words::words,
};
use hearthload::scenario::fields::{self, Fallback};
use serde_json::{Value, json};
use yew::prelude::*;

const PATH: &str = "oven.assist";

/// The burner.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
}

/// The burner's fields, or the way to have some.
#[component]
pub(crate) fn Gas(props: &Props) -> Html {
    let desk = &props.desk;
    let there = draft::get(&desk.doc, PATH).is_some_and(|gas| !gas.is_null());
    let send = desk.dispatcher();
    let turn = Callback::from(move |_: MouseEvent| {
        send.dispatch(Action::Set(PATH.to_owned(), (!there).then(burner)));
    });
    let paths: Vec<&str> = fields::children(PATH).map(|row| row.path).collect();
    html! {
        <div class="gas-part">
            <h3>{ words().gas }</h3>
            <div>{ if there { html! { <>{ leaves(desk, &paths) }{ cautions_at(desk, &["assist"]) }</> } } else { html! { <p class="how">{ words().no_gas }</p> } } }</div>
            <div class="acts"><button type="button" class="quiet" onclick={turn}>{ if there { words().remove_gas } else { words().add_gas } }</button></div>
        </div>
    }
}

/// A burner to begin with: the one the field table has on offer.
fn burner() -> Value {
    let offered = fields::field("planning.assist_rated_kw").and_then(|row| match row.fallback {
        Fallback::Fixed(typed) => serde_json::from_str::<Value>(typed).ok(),
        _ => None,
    });
    offered.map_or_else(|| json!({}), |rated_kw| json!({ "rated_kw": rated_kw }))
}
