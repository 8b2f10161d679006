//! Owns the list of the scenarios kept in this browser.

use super::{Desk, leaf};
use crate::{
    files,
    state::Action,
    words::{fill, words},
};
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// The list's properties.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
}

/// A scenario's name, also where it has none.
pub(crate) fn title(name: &str) -> &str {
    if name.trim().is_empty() { words().unnamed } else { name }
}

/// The list.
#[component]
pub(crate) fn Shelf(props: &Props) -> Html {
    let (desk, say) = (&props.desk, words());
    let several = desk.kept.list().len() > 1;
    let copy = {
        let (send, name) =
            (desk.dispatcher(), fill(say.copy_of, &[title(crate::state::draft::text(&desk.doc, "name"))]));
        Callback::from(move |_: MouseEvent| send.dispatch(Action::Copy(name.clone())))
    };
    let save = {
        let doc = desk.doc.clone();
        Callback::from(move |_: MouseEvent| files::save(&doc))
    };
    let pick = use_node_ref();
    let open_picker = {
        let pick = pick.clone();
        Callback::from(move |_: MouseEvent| {
            if let Some(input) = pick.cast::<HtmlInputElement>() {
                input.click();
            }
        })
    };
    let picked = {
        let send = desk.dispatcher();
        Callback::from(move |event: Event| {
            let Some(input) = event.target().and_then(|it| it.dyn_into::<HtmlInputElement>().ok()) else { return };
            if let Some(file) = input.files().and_then(|files| files.get(0)) {
                files::bring(file, send.clone());
            }
            // The same file may be brought in again.
            input.set_value("");
        })
    };
    html! {
        <section class="slab shelf" id="shelf" tabindex="-1" aria-labelledby="shelf-title">
            <h2 id="shelf-title">{ say.kept }</h2>
            <ul class="kept">
                for one in desk.kept.list() { <li key={one.id}>{ entry(desk, one.id, title(one.name()), several) }</li> }
            </ul>
            { leaf(desk, "name") }
            <div class="acts">
                <button type="button" onclick={copy}>{ say.copy }</button>
                <button type="button" onclick={open_picker}>{ say.bring }</button>
                <button type="button" onclick={save}>{ say.save }</button>
                <input ref={pick} class="for-ears" type="file" tabindex="-1" accept=".json,application/json" aria-label={say.bring} onchange={picked} />
            </div>
        </section>
    }
}

fn entry(desk: &Desk, id: u32, name: &str, several: bool) -> Html {
    let say = words();
    let send = desk.dispatcher();
    let open = {
        let send = send.clone();
        Callback::from(move |_: MouseEvent| send.dispatch(Action::Open(id)))
    };
    let says = fill(say.gone_scenario, &[name]);
    let forget = Callback::from(move |_: MouseEvent| send.dispatch(Action::Forget(id, says.clone())));
    html! {
        <>
            <strong>{ name.to_owned() }</strong>
            <span>{ if desk.kept.open_id() == id {
                html! { <span class="now">{ say.open_now }</span> }
            } else {
                html! { <button type="button" class="quiet" onclick={open} aria-label={format!("{}: {name}", say.open)}>{ say.open }</button> }
            } }</span>
            <span>{ if several { html! { <button type="button" class="quiet" onclick={forget} aria-label={format!("{}: {name}", say.take_away)}>{ say.take_away }</button> } } else { html! {} } }</span>
        </>
    }
}
