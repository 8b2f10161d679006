//! Owns the doors: one folder for each person's question, and the strips and notices they all show.

pub(crate) mod chef;
pub(crate) mod notices;
mod strip;

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
        Door::Chef | Door::Planner | Door::Cook => html! { <chef::Chef {desk} {place} /> },
    }
}
