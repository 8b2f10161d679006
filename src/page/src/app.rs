//! Owns the whole page: the head over the open door, and what is kept between visits.

use crate::{
    asking::{use_asking, use_carrying},
    charts::Units,
    doors::Behind,
    head::Head,
    route::Door,
    sharing::use_address,
    state::{Action, State, draft, kept::Kept, tabs::Tabs},
    storage, tongue,
    trust::Trust,
    units,
    words::{
        door_words, fill,
        language::{self, Language},
        translate::{self, tr},
        words,
    },
};
use gloo::events::EventListener;
use hearthload::report::words::clock;
use serde_json::Value;
use std::{cell::RefCell, rc::Rc};
use yew::prelude::*;

/// The scenarios a first visit finds, and their dishes the ones to start from: all invented.
const DEMO: &[&str] = &[
    include_str!("../../../demo-data/carries.json"),
    include_str!("../../../demo-data/surprise.json"),
    include_str!("../../../demo-data/assist.json"),
    include_str!("../../../demo-data/small.json"),
];

/// The demonstration's scenarios, their names in the reader's language.
pub(crate) fn demo() -> Vec<Value> {
    let named = |doc: Value| {
        let names = ["name", "note"].into_iter().map(str::to_owned);
        let dishes = (0..draft::list(&doc, "menu").len()).map(|dish| format!("menu[{dish}].name"));
        let batches =
            (0..draft::list(&doc, "service.batches").len()).map(|batch| format!("service.batches[{batch}].dish"));
        let all: Vec<String> = names.chain(dishes).chain(batches).collect();
        all.iter().fold(doc, |mut doc, path| {
            if draft::get(&doc, path).is_some() {
                let said = tr(draft::text(&doc, path));
                draft::set(&mut doc, path, Value::from(said));
            }
            doc
        })
    };
    let all = DEMO.iter().filter_map(|text| serde_json::from_str::<Value>(text).ok());
    translate::without_names(|| all.map(named).collect())
}

/// The demonstration, as a first visit finds it.
fn shown_first() -> Kept {
    language::choose(tongue::first());
    Kept::of(demo())
}

/// Names people gave are never taken for words.
fn know_names(desk: &State) {
    let dishes = draft::list(&desk.doc, "menu").iter().map(|dish| draft::text(dish, "name"));
    let pinned = desk.pinned.iter().flat_map(|(_, answer)| answer.scenario.menu.iter().map(|dish| dish.name.as_str()));
    translate::know(dishes.chain(pinned).map(str::to_owned).collect());
}

/// The page on what is kept, else on the demonstration, and this tab's side of the storage.
#[hook]
fn use_desk() -> (UseReducerHandle<State>, Rc<RefCell<Tabs>>) {
    let opened = use_memo((), |()| {
        let (tabs, kept, news) = storage::open(shown_first);
        (Rc::new(RefCell::new(tabs)), kept, news)
    });
    let desk = use_reducer(|| State::opened(opened.1.clone(), opened.2.clone()));
    (desk, opened.0.clone())
}

/// Keeps every change at once, and takes up those of other tabs; gives when all was last kept, nothing where it cannot be.
#[hook]
fn use_keeping(desk: &UseReducerHandle<State>, tabs: Rc<RefCell<Tabs>>) -> Option<AttrValue> {
    let saved = use_state_eq(|| None::<AttrValue>);
    {
        let (saved, send) = (saved.setter(), desk.dispatcher());
        use_effect_with((desk.kept.clone(), desk.look), move |(kept, _)| {
            let met = storage::meet(&mut tabs.borrow_mut(), kept);
            let now = js_sys::Date::new_0();
            let at_s = f64::from(now.get_hours() * 3600 + now.get_minutes() * 60);
            saved.set(met.kept.then(|| clock(at_s).into()));
            if !met.news.is_empty() {
                send.dispatch(Action::News(met.news));
            }
        });
    }
    let send = desk.dispatcher();
    use_effect_with((), move |()| {
        // Another tab wrote; this one is left, or comes back to, or wakes up.
        let ears = ["storage", "pagehide", "pageshow", "visibilitychange"].map(|kind| {
            let send = send.clone();
            EventListener::new(&gloo::utils::window(), kind, move |_| send.dispatch(Action::Look))
        });
        move || drop(ears)
    });
    (*saved).clone()
}

/// The page.
#[component]
pub fn App() -> Html {
    let (desk, tabs) = use_desk();
    use_carrying(&desk);
    use_asking(&desk);
    let saved = use_keeping(&desk, tabs);
    let place = use_address(desk.dispatcher());
    // The cook's view is read at arm's length and does not scroll: nothing stands under it.
    let cook = place.door == Door::Cook;
    // Drawn in another language or in other units, all is drawn anew.
    let spoken = use_state(tongue::first);
    language::choose(*spoken);
    let units = use_state(|| storage::units(*spoken));
    units::choose(*units);
    know_names(&desk);
    use_effect_with(*spoken, |spoken| {
        // Refused only where `lang` could not be an attribute.
        let _ = gloo::utils::document_element().set_attribute("lang", spoken.tag());
    });
    let speak = {
        let (spoken, units, send) = (spoken.clone(), units.clone(), desk.dispatcher());
        Callback::from(move |chosen: Language| {
            let (spoken, units, send) = (spoken.clone(), units.clone(), send.clone());
            tongue::bring(chosen, move |came| {
                if !came {
                    send.dispatch(Action::Refuse(fill(words().language_missing, &[chosen.name()])));
                    return;
                }
                storage::keep_language(chosen);
                let before = demo();
                language::choose(chosen);
                send.dispatch(Action::Retell(before.into_iter().zip(demo()).collect()));
                let as_written = Units { comma: chosen.has_comma(), ..*units };
                storage::keep_units(as_written);
                units.set(as_written);
                spoken.set(chosen);
            });
        })
    };
    let title = door_words(place.door).0;
    use_effect_with(title, |title| {
        gloo::utils::document().set_title(&fill(words().page_title, &[*title]));
    });
    let choose = {
        let units = units.setter();
        Callback::from(move |chosen: Units| {
            storage::keep_units(chosen);
            units.set(chosen);
        })
    };
    html! {
        <>
            <Head desk={desk.clone()} place={place.clone()} {saved} units={*units} {choose} language={*spoken} {speak} />
            <Behind key={format!("{} {}", spoken.tag(), units::write(*units))} desk={desk.clone()} {place} />
            <div>{ if cook { html! {} } else { html! { <><Trust key={spoken.tag()} /><footer class="foot"><p>{ words().computed }</p></footer></> } } }</div>
        </>
    }
}

/// Puts the page in place of the line that said it was starting, once the reader's language is there; in English where it does not come.
pub fn start() {
    tongue::bring(storage::language(), |_| {
        if let Some(boot) = gloo::utils::document().get_element_by_id("boot") {
            boot.remove();
        }
        yew::Renderer::<App>::new().render();
    });
}
