//! Owns one part of the form: its title, what it says in short, and its fields, folded away where there is no room.

use crate::{
    state::{Action, State},
    words::words,
};
use yew::prelude::*;

/// What a part is made of.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// Its key, the group of the field table.
    pub group: &'static str,
    /// Its title.
    pub title: &'static str,
    /// A line under the title, where it needs one.
    #[prop_or_default]
    pub how: &'static str,
    /// Its present values in a line.
    pub summary: AttrValue,
    /// Whether its fields are shown on narrow screens.
    pub open: bool,
    /// Hears of presses.
    pub send: UseReducerDispatcher<State>,
    /// Its fields.
    pub children: Html,
}

/// One part of the form.
#[component]
pub(crate) fn Section(props: &Props) -> Html {
    let (group, send) = (props.group, props.send.clone());
    let turn = Callback::from(move |_: MouseEvent| send.dispatch(Action::Turn(group.to_owned())));
    let body = format!("body-{group}");
    html! {
        <section class={classes!("slab", "group", props.open.then_some("open"))} id={format!("group-{group}")} aria-labelledby={format!("title-{group}")}>
            <div class="group-head">
                <div>
                    <h2 id={format!("title-{group}")}>{ props.title }</h2>
                    <p class="summary">{ &props.summary }</p>
                </div>
                <button type="button" class="change" aria-expanded={props.open.to_string()} aria-controls={body.clone()} onclick={turn}
                    aria-label={format!("{}: {}", if props.open { words().close } else { words().change }, props.title)}>
                    { if props.open { words().close } else { words().change } }
                </button>
            </div>
            <div class="group-body" id={body}>
                <p class="how">{ props.how }</p>
                { props.children.clone() }
            </div>
        </section>
    }
}
