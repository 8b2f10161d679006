//! Owns what stays in this browser between visits.

use crate::state::{kept::Kept, tonight::Tonight};
use crate::{charts::Units, units};
use gloo::storage::{LocalStorage, Storage};

/// Where the kept scenarios lie.
const KEY: &str = "hearthload.kept";
/// Where a list lies that could not be read: it is not thrown away.
const DAMAGED: &str = "hearthload.kept.unreadable";

/// Where lies what the cook told tonight.
const TONIGHT: &str = "hearthload.tonight";

/// Where the choice of units lies.
const UNITS: &str = "hearthload.units";

/// Whether this browser keeps anything at all. Asking gloo where it does not would end the program.
fn there() -> bool {
    matches!(gloo::utils::window().local_storage(), Ok(Some(_)))
}

/// What was kept, if it can be read.
#[must_use]
pub fn load() -> Option<Kept> {
    if !there() {
        return None;
    }
    let text: String = LocalStorage::get(KEY).ok()?;
    let kept = Kept::read(&text);
    if kept.is_none() {
        // Nothing is lost by not being able to keep the unreadable a second time.
        let _ = LocalStorage::set(DAMAGED, &text);
    }
    kept
}

/// Keeps all scenarios. Says whether the browser took them.
#[must_use]
pub fn save(kept: &Kept) -> bool {
    there() && LocalStorage::set(KEY, kept.write()).is_ok()
}

/// What lies under a key, read as JSON.
fn kept_value(key: &str) -> Option<serde_json::Value> {
    let text: String = there().then(|| LocalStorage::get(key).ok()).flatten()?;
    serde_json::from_str(&text).ok()
}

/// What was told on an evening; nothing told where nothing was kept of it.
#[must_use]
pub fn tonight(key: &str) -> Tonight {
    let kept = kept_value(TONIGHT);
    kept.map_or_else(|| Tonight::of(key), |kept| Tonight::read(&kept, key))
}

/// Keeps what was told. A browser that keeps nothing loses it when the page is left, and nothing else.
pub fn keep_tonight(tonight: &Tonight) {
    if there() {
        let _ = LocalStorage::set(TONIGHT, tonight.write().to_string());
    }
}

/// The units chosen on an earlier visit; metric on a first one.
#[must_use]
pub fn units() -> Units {
    let kept = kept_value(UNITS);
    kept.map_or_else(Units::default, |kept| units::read(&kept))
}

/// Keeps the choice of units.
pub fn keep_units(chosen: Units) {
    if there() {
        let _ = LocalStorage::set(UNITS, units::write(chosen).to_string());
    }
}
