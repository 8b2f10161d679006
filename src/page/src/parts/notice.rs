//! Owns the three boxes that speak: a warning about the plan, a caution about people, a strip about what is to be mended.

use super::marks;
use yew::prelude::*;

/// About the plan: outlined, with the sagging line.
pub(crate) fn warning(says: &str) -> Html {
    html! { <div class="warning">{ marks::sag() }<p>{ says.to_owned() }</p></div> }
}

/// About people: inverted, striped, beside the act; it cannot be closed. The first sentence names the danger.
pub(crate) fn caution(says: &str) -> Html {
    let (danger, act) = says.split_once(". ").map_or((says, ""), |(danger, act)| (danger, act));
    let stop = if act.is_empty() { "" } else { "." };
    html! { <div class="caution"><p><strong>{ format!("{danger}{stop}") }</strong>{ " " }{ act.to_owned() }</p></div> }
}
