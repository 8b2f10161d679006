//! Owns the head of the page: mark, doors, Undo, and the bar with the scenario's name.

use crate::{
    charts::Units,
    doors::cook::WallClock,
    form::{Desk, shelf::title},
    parts::{focus_soon, marks},
    route::{DOORS, Door, Place},
    settings::Settings,
    sharing::Link,
    state::{Action, draft},
    words::{
        door_words, fill,
        language::{LANGUAGES, Language},
        words,
    },
};
use gloo::events::EventListener;
use yew::prelude::*;

/// The head's properties.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
    /// Where one is.
    pub place: Place,
    /// The units in use.
    pub units: Units,
    /// Takes others.
    pub choose: Callback<Units>,
    /// The language in use.
    pub language: Language,
    /// Takes another.
    pub speak: Callback<Language>,
    /// When the scenario was last kept; nothing where this browser keeps nothing.
    pub saved: Option<AttrValue>,
}

fn skip(to: &'static str, says: &'static str) -> Html {
    let press = Callback::from(move |event: MouseEvent| {
        event.prevent_default();
        focus_soon(to.to_owned());
    });
    html! { <a class="skip" href={format!("#{to}")} onclick={press}>{ says }</a> }
}

/// Whether a new version of the page stands ready.
#[hook]
fn use_update() -> bool {
    let ready = use_state(|| gloo::utils::document_element().get_attribute("data-update").is_some());
    {
        let ready = ready.clone();
        use_effect_with((), move |()| {
            let heard = EventListener::new(&gloo::utils::window(), "hearthload-update", move |_| ready.set(true));
            move || drop(heard)
        });
    }
    *ready
}

/// Another language, in its own name.
fn tongue(props: &Props, other: Language) -> Html {
    let speak = props.speak.reform(move |_: MouseEvent| other);
    html! { <button type="button" class="quiet" key={other.tag()} lang={other.tag()} onclick={speak}>{ other.name() }</button> }
}

/// A door, lit where one stands in it.
fn door_link(door: Door, here: Door) -> Html {
    let (long, short) = door_words(door);
    html! {
        <a key={door.key()} href={Place::at(door).fragment()} aria-current={(door == here).then_some("page")}>
            <span class="long">{ long }</span><span class="short">{ short }</span>
        </a>
    }
}

/// The head.
#[component]
pub(crate) fn Head(props: &Props) -> Html {
    let (desk, say) = (&props.desk, words());
    let update = use_update();
    let sharing = use_state(|| false);
    let share = {
        let sharing = sharing.clone();
        Callback::from(move |_: MouseEvent| sharing.set(!*sharing))
    };
    let choosing = use_state(|| false);
    let open_units = {
        let choosing = choosing.clone();
        Callback::from(move |_: MouseEvent| choosing.set(!*choosing))
    };
    let pin = {
        let send = desk.dispatcher();
        Callback::from(move |_: MouseEvent| send.dispatch(Action::Pin))
    };
    let send = desk.dispatcher();
    let undo = Callback::from(move |_: MouseEvent| send.dispatch(Action::Undo));
    let switch = Callback::from(|_: MouseEvent| {
        if let Ok(event) = Event::new("hearthload-switch") {
            // Cancelling means nothing here: whoever listens has heard.
            let _ = gloo::utils::window().dispatch_event(&event);
        }
    });
    let shelf = Callback::from(|event: MouseEvent| {
        event.prevent_default();
        focus_soon("shelf".to_owned());
    });
    let name = title(draft::text(&desk.doc, "name")).to_owned();
    let saved = props.saved.as_ref().map_or(say.not_saved.to_owned(), |at| fill(say.saved, &[at]));
    html! {
        <header class={format!("behind-{}", props.place.door.key())}>
            { skip("verdict", say.skip_verdict) }{ skip("form", say.skip_form) }{ skip("pictures", say.skip_pictures) }
            <div class="head">
                <p class="site-name">{ marks::site() }<span>{ say.site }</span></p>
                <nav class="doors" aria-label={say.doors}>for door in DOORS { { door_link(*door, props.place.door) } }</nav>
                <div>{ if props.place.door == Door::Cook { html! { <WallClock /> } } else { html! {} } }</div>
                <div class="head-acts">
                    <button type="button" onclick={undo} disabled={!desk.can_undo()}>{ say.undo }</button>
                    if props.place.door == Door::Chef {
                        <button type="button" onclick={pin} disabled={desk.answer.is_none()} aria-pressed={desk.pinned.is_some().to_string()}>{ say.pin }</button>
                    }
                </div>
            </div>
            <div class="bar">
                <p><strong>{ name }</strong>{ " " }<span class="saved">{ saved }</span></p>
                <p class="bar-acts">
                    <a href="#shelf" onclick={shelf}>{ say.scenarios }</a>
                    <button type="button" class="quiet" onclick={open_units} aria-expanded={choosing.to_string()}>{ say.units }</button>
                    for other in LANGUAGES.into_iter().filter(|other| *other != props.language) { { tongue(props, other) } }
                    <button type="button" class="quiet" onclick={share} aria-expanded={sharing.to_string()}>{ say.share }</button>
                </p>
            </div>
            <div>{ if *choosing { html! { <Settings units={props.units} choose={props.choose.clone()} /> } } else { html! {} } }</div>
            <div>{ if *sharing { html! { <Link desk={desk.clone()} place={props.place.clone()} /> } } else { html! {} } }</div>
            <div>
                if update {
                    <div class="done update" role="status"><p>{ say.update }</p><button type="button" onclick={switch}>{ say.update_act }</button></div>
                }
            </div>
        </header>
    }
}
