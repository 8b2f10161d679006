//! Owns the page's side of links: making one, and taking one that was opened.

use crate::{
    form::Desk,
    share::{self, Broken, LONGEST},
    state::{Action, State},
    words::words,
};
use gloo::events::EventListener;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// What an opened address does to the page, if it carries a scenario. The address is put right at once: going back does not
/// bring the same scenario twice.
fn opened() -> Option<Action> {
    let window = gloo::utils::window();
    let found = share::read(&window.location().hash().ok()?)?;
    if let Ok(history) = window.history() {
        // Without it the fragment stays, which does no harm until the page is loaded again.
        let _ = history.replace_state_with_url(&wasm_bindgen::JsValue::NULL, "", Some("#"));
    }
    Some(match found {
        Ok(doc) => Action::Bring(doc, words().shared.to_owned()),
        Err(Broken::Damaged) => Action::Refuse(words().share_broken.to_owned()),
        Err(Broken::Newer) => Action::Refuse(words().share_newer.to_owned()),
    })
}

/// Takes the link the page was opened with, and any that is opened in it later.
#[hook]
pub(crate) fn use_links(send: UseReducerDispatcher<State>) {
    use_effect_with((), move |()| {
        let take = move || opened().into_iter().for_each(|action| send.dispatch(action));
        take();
        let later = EventListener::new(&gloo::utils::window(), "hashchange", move |_| take());
        move || drop(later)
    });
}

/// What sharing needs.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
}

/// The link of the open scenario.
fn link(desk: &Desk) -> String {
    let href = gloo::utils::window().location().href().unwrap_or_default();
    format!("{}{}", href.split('#').next().unwrap_or_default(), share::fragment(&desk.doc))
}

/// The link of the open scenario, to be copied.
#[component]
pub(crate) fn Link(props: &Props) -> Html {
    let copied = use_state(|| false);
    let text = link(&props.desk);
    {
        let copied = copied.clone();
        use_effect_with(text.clone(), move |_| copied.set(false));
    }
    if text.len() > LONGEST {
        return html! { <div class="share"><p>{ words().share_long }</p></div> };
    }
    let copy = {
        let (copied, text) = (copied.clone(), text.clone());
        Callback::from(move |_: MouseEvent| {
            let (copied, promise) = (copied.clone(), gloo::utils::window().navigator().clipboard().write_text(&text));
            wasm_bindgen_futures::spawn_local(async move {
                // A browser that does not allow it leaves the field, to be copied by hand.
                copied.set(JsFuture::from(promise).await.is_ok());
            });
        })
    };
    let select = Callback::from(|event: FocusEvent| {
        if let Some(input) = event.target().and_then(|it| it.dyn_into::<HtmlInputElement>().ok()) {
            input.select();
        }
    });
    html! {
        <div class="share">
            <p class="how">{ words().share_how }</p>
            <div class="field text given">
                <label for="share-link">{ words().share_link }</label>
                <div class="control"><input id="share-link" type="text" readonly=true value={text} onfocus={select} /></div>
            </div>
            <button type="button" onclick={copy}>{ if *copied { words().share_copied } else { words().share_copy } }</button>
        </div>
    }
}
