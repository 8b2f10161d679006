//! Owns the whole page: the head over the open door, and what is kept between visits.

use crate::{
    asking::{use_asking, use_carrying},
    charts::Units,
    doors::Behind,
    head::Head,
    route::Door,
    sharing::use_address,
    state::{Action, State, kept::Kept, tabs::Tabs},
    storage,
    trust::Trust,
    units,
    words::{door_words, fill, words},
};
use gloo::events::EventListener;
use hearthload::report::words::clock;
use serde_json::Value;
use std::{cell::RefCell, rc::Rc};
use yew::prelude::*;

/// The scenarios a first visit finds, and their dishes the ones to start from: all invented.
pub(crate) const DEMO: &[&str] = &[
    include_str!("../../../demo-data/carries.json"),
    include_str!("../../../demo-data/surprise.json"),
    include_str!("../../../demo-data/assist.json"),
    include_str!("../../../demo-data/small.json"),
];

/// The demonstration.
fn demo() -> Kept {
    Kept::of(DEMO.iter().filter_map(|text| serde_json::from_str::<Value>(text).ok()).collect())
}

/// The page on what is kept, else on the demonstration, and this tab's side of the storage.
#[hook]
fn use_desk() -> (UseReducerHandle<State>, Rc<RefCell<Tabs>>) {
    let opened = use_memo((), |()| {
        let (tabs, kept, news) = storage::open(demo);
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
    use_effect_with(place.door, |door| {
        gloo::utils::document().set_title(&fill(words().page_title, &[door_words(*door).0]));
    });
    // The cook's view is read at arm's length and does not scroll: nothing stands under it.
    let cook = place.door == Door::Cook;
    let units = use_state(storage::units);
    // Drawn in other units, all is drawn anew.
    units::choose(*units);
    let choose = {
        let units = units.setter();
        Callback::from(move |chosen: Units| {
            storage::keep_units(chosen);
            units.set(chosen);
        })
    };
    html! {
        <>
            <Head desk={desk.clone()} place={place.clone()} {saved} units={*units} {choose} />
            <Behind key={units::write(*units).to_string()} desk={desk.clone()} {place} />
            <div>{ if cook { html! {} } else { html! { <><Trust /><footer class="foot"><p>{ words().computed }</p></footer></> } } }</div>
        </>
    }
}

/// Puts the page in place of the line that said it was starting.
pub fn start() {
    if let Some(boot) = gloo::utils::document().get_element_by_id("boot") {
        boot.remove();
    }
    yew::Renderer::<App>::new().render();
}
