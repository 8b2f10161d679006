//! Owns the clock on the wall: now, second by second, and how it stands in the head.

use gloo::timers::callback::Interval;
use hearthload::units::time::DAY_S;
use yew::prelude::*;

/// How often the time is looked at, ms; where motion is to be reduced.
const TICK_MS: u32 = 1000;
const STILL_MS: u32 = 15_000;
/// An evening goes on this long after its last act before the clock turns to the new day's, s.
const AFTER_S: f64 = 3.0 * 3600.0;

/// A moment of an evening.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Now {
    /// Seconds since the midnight the evening began after: past midnight it runs on.
    pub s: f64,
    /// The evening's day, as it stands in what is kept.
    pub day: String,
}

/// Now, for an evening whose last act is at `last_s`.
fn now(last_s: f64) -> Now {
    let date = js_sys::Date::new_0();
    let s = f64::from(date.get_hours() * 3600 + date.get_minutes() * 60 + date.get_seconds());
    let past = s + DAY_S <= last_s + AFTER_S;
    if past {
        date.set_date(date.get_date().wrapping_sub(1));
    }
    let day = format!("{}-{:02}-{:02}", date.get_full_year(), date.get_month() + 1, date.get_date());
    Now { s: if past { s + DAY_S } else { s }, day }
}

/// Now, kept up with.
#[hook]
pub(crate) fn use_now(last_s: f64) -> Now {
    let shown = use_state(|| 0_u32);
    {
        let shown = shown.clone();
        use_effect_with((), move |()| {
            let still = gloo::utils::window()
                .match_media("(prefers-reduced-motion: reduce)")
                .ok()
                .flatten()
                .is_some_and(|query| query.matches());
            let beat = Interval::new(if still { STILL_MS } else { TICK_MS }, move || shown.set(shown.wrapping_add(1)));
            move || drop(beat)
        });
    }
    now(last_s)
}

/// The clock in the head.
#[component]
pub(crate) fn WallClock() -> Html {
    let now = use_now(0.0);
    html! { <p class="wall-clock">{ crate::units::units().clock((now.s / 60.0).floor() * 60.0) }</p> }
}
