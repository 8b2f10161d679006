//! Owns the page's side of its address: where one is, a link that is made, and one that was opened.

use crate::{
    form::Desk,
    route::Place,
    share::{self, Broken, LONGEST},
    state::{Action, State},
    words::words,
};
use gloo::events::EventListener;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// What an opened address says: where to go, and what to do with a scenario it carries. The address is put right at once: going
/// back does not bring the same scenario twice.
fn opened() -> (Option<Place>, Option<Action>) {
    let window = gloo::utils::window();
    let Ok(fragment) = window.location().hash() else { return (None, None) };
    let place = Place::read(&fragment);
    let Some(found) = share::read(&fragment) else { return (place, None) };
    if let Ok(history) = window.history() {
        let put_right = place.clone().unwrap_or_default().fragment();
        // Without it the fragment stays, which does no harm until the page is loaded again.
        let _ = history.replace_state_with_url(&wasm_bindgen::JsValue::NULL, "", Some(&put_right));
    }
    let action = match found {
        Ok(doc) => Action::Bring(doc, words().shared.to_owned()),
        Err(Broken::Damaged) => Action::Refuse(words().share_broken.to_owned()),
        Err(Broken::Newer) => Action::Refuse(words().share_newer.to_owned()),
    };
    (place, Some(action))
}

/// Where the address says one is, followed as it changes; a scenario it carries is taken up. An address that names no place, a
/// skip link's say, leaves one where one is.
#[hook]
pub(crate) fn use_address(send: UseReducerDispatcher<State>) -> Place {
    let place =
        use_state_eq(|| Place::read(&gloo::utils::window().location().hash().unwrap_or_default()).unwrap_or_default());
    {
        let place = place.setter();
        use_effect_with((), move |()| {
            let take = move |fresh: bool| {
                let (to, action) = opened();
                action.into_iter().for_each(|action| send.dispatch(action));
                if let Some(to) = to {
                    place.set(to);
                    if !fresh {
                        gloo::utils::window().scroll_to_with_x_and_y(0.0, 0.0);
                    }
                }
            };
            take(true);
            let later = EventListener::new(&gloo::utils::window(), "hashchange", move |_| take(false));
            move || drop(later)
        });
    }
    (*place).clone()
}

/// What sharing needs.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
    /// Where one is: the link leads there.
    pub place: Place,
}

/// The link of the open scenario, to the view that stands open.
fn link(props: &Props) -> String {
    let href = gloo::utils::window().location().href().unwrap_or_default();
    let door = Place::at(props.place.door);
    format!("{}{}", href.split('#').next().unwrap_or_default(), share::fragment(&door, &props.desk.doc))
}

/// The link of the open scenario, to be copied.
#[component]
pub(crate) fn Link(props: &Props) -> Html {
    let copied = use_state(|| false);
    let text = link(props);
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
