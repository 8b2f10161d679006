//! Owns the doors: one folder for each person's question, and what they share: strips, notices, the way of a long question, bad
//! nights, how sure.

pub(crate) mod chef;
pub(crate) mod cook;
pub(crate) mod nights;
pub(crate) mod notices;
pub(crate) mod planner;
pub(crate) mod progress;
pub(crate) mod strip;
pub(crate) mod sure;

pub(crate) use crate::state::asked::Found;
pub(crate) use chef::verdict::{done, use_spoken};
pub(crate) use strip::Strip;

use crate::{
    form::Desk,
    route::{Door, Place},
};
use yew::prelude::*;

/// What every door is given.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
    /// Where behind the door one is.
    pub place: Place,
}

/// What lies behind the open door.
#[component]
pub(crate) fn Behind(props: &Props) -> Html {
    let (desk, place) = (props.desk.clone(), props.place.clone());
    match place.door {
        Door::Chef => html! { <chef::Chef {desk} {place} /> },
        Door::Planner => html! { <planner::Planner {desk} {place} /> },
        Door::Cook => html! { <cook::Cook {desk} {place} /> },
    }
}
