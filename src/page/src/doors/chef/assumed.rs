//! Owns the list of what was assumed, with where each value comes from and the way to type one's own.

use crate::{
    form::{Desk, bare},
    parts::{focus_soon, id_of},
    state::Action,
    words::{fill, key_words, label, label_inside, print, unit_name, words},
};
use hearthload::scenario::{
    Assumed,
    fields::{self, Kind},
};
use yew::prelude::*;

/// The list's properties.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
}

/// The list.
#[component]
pub(crate) fn Assumptions(props: &Props) -> Html {
    let desk = &props.desk;
    let count = desk.assumed.len();
    let title = match count {
        0 => words().assumed_none.to_owned(),
        1 => words().assumed_title_one.to_owned(),
        _ => fill(words().assumed_title, &[&count.to_string()]),
    };
    html! {
        <>
            <h2>{ title }</h2>
            <details class="more">
                <summary>{ words().assumed_show }</summary>
                <p class="how">{ words().assumed_how }</p>
                <ul class="assumptions">for taken in desk.assumed.values() { <li key={taken.field.clone()}>{ row(desk, taken) }</li> }</ul>
            </details>
        </>
    }
}

fn row(desk: &Desk, taken: &Assumed) -> Html {
    let row = fields::field(&fields::pattern_of(&taken.field));
    let label = row.map_or_else(|| taken.field.clone(), label);
    let bare = bare(&taken.value);
    let value = match row.map(|row| row.kind) {
        Some(Kind::Choice(_) | Kind::Key(_)) => key_words(&bare),
        // A whole list is read where it stands.
        Some(Kind::List { .. }) => String::new(),
        Some(Kind::Clock) => crate::units::clock_shown(&bare),
        _ => {
            format!("{}\u{a0}{}", crate::units::shown(&bare, &taken.unit), unit_name(&taken.unit)).trim_end().to_owned()
        }
    };
    let (send, path) = (desk.dispatcher(), taken.field.clone());
    let press = Callback::from(move |_: MouseEvent| {
        send.dispatch(Action::Show(path.clone()));
        focus_soon(id_of(&path));
    });
    let dish = taken.field.strip_prefix("menu[").and_then(|rest| rest.split(']').next()?.parse().ok());
    let of =
        dish.and_then(|dish: usize| crate::state::draft::list(&desk.doc, "menu").get(dish).map(crate::form::name_of));
    let name = of.map_or_else(|| label.clone(), |of| format!("{of}: {}", row.map_or_else(String::new, label_inside)));
    html! {
        <>
            <div><strong>{ format!("{name}{}{value}", if value.is_empty() { "" } else { ": " }) }</strong><span>{ format!("○ {}", print(&taken.source)) }</span></div>
            <button type="button" class="quiet" onclick={press} aria-label={format!("{}: {name}", words().know_it)}>{ words().know_it }</button>
        </>
    }
}
