//! Owns the whole page: the head over the open door, and what is kept between visits.

use crate::{
    asking::{use_asking, use_carrying},
    charts::Units,
    doors::Behind,
    head::Head,
    route::Door,
    sharing::use_address,
    state::{State, kept::Kept},
    storage,
    trust::Trust,
    units,
    words::{door_words, fill, words},
};
use gloo::{events::EventListener, timers::callback::Timeout};
use hearthload::report::words::clock;
use serde_json::Value;
use yew::prelude::*;

/// How long before it is kept, ms.
const KEEP_MS: u32 = 400;

/// The scenarios a first visit finds, and their dishes the ones to start from: all invented.
pub(crate) const DEMO: &[&str] = &[
    include_str!("../../../demo-data/carries.json"),
    include_str!("../../../demo-data/surprise.json"),
    include_str!("../../../demo-data/assist.json"),
    include_str!("../../../demo-data/small.json"),
];

/// What the page opens on: what was kept, else the demonstration.
fn first() -> State {
    let demo = || Kept::of(DEMO.iter().filter_map(|text| serde_json::from_str::<Value>(text).ok()).collect());
    State::new(storage::load().unwrap_or_else(demo))
}

/// Keeps the scenarios; gives when they were last kept, nothing where they cannot be.
#[hook]
fn use_keeping(desk: &UseReducerHandle<State>) -> Option<AttrValue> {
    let saved = use_state(|| None::<AttrValue>);
    {
        let saved = saved.clone();
        use_effect_with(desk.kept.clone(), move |kept| {
            let keep = {
                let kept = kept.clone();
                move || {
                    let now = js_sys::Date::new_0();
                    let at_s = f64::from(now.get_hours() * 3600 + now.get_minutes() * 60);
                    saved.set(storage::save(&kept).then(|| clock(at_s).into()));
                }
            };
            let soon = Timeout::new(KEEP_MS, keep.clone());
            let leaving = EventListener::new(&gloo::utils::window(), "pagehide", move |_| keep());
            move || drop((soon, leaving))
        });
    }
    (*saved).clone()
}

/// The page.
#[component]
pub fn App() -> Html {
    let desk = use_reducer(first);
    use_carrying(&desk);
    use_asking(&desk);
    let saved = use_keeping(&desk);
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
