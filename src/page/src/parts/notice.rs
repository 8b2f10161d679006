//! Owns the two boxes that speak: a warning about the plan, a caution about people.

use super::marks;
use crate::words::print;
use yew::prelude::*;

/// About the plan: outlined, with the sagging line.
pub(crate) fn warning(says: &str) -> Html {
    html! { <div class="warning">{ marks::sag() }<p>{ print(says) }</p></div> }
}

/// About people: inverted, striped, beside the act; it cannot be closed.
pub(crate) fn caution(act: &str, says: &[&str]) -> Html {
    html! {
        <div class="caution">
            <p><strong>{ act.to_owned() }</strong></p>
            for says in says.iter() { <p key={(*says).to_owned()}>{ print(says) }</p> }
        </div>
    }
}
