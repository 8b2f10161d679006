//! Owns what stays in this browser between visits.

use crate::state::{
    kept::Kept,
    tabs::{Met, News, Store, Tabs},
    tonight::Tonight,
};
use crate::{charts::Units, units, words::language::Language};
use gloo::storage::{LocalStorage, SessionStorage, Storage};
use serde_json::Value;

/// Where lies which scenario was open last: of this tab where it is loaded again, else of any.
const OPEN: &str = "hearthload.open";

/// Where lies what the cook told on the last evenings.
const TONIGHT: &str = "hearthload.tonight";
/// Most evenings of which that is kept: two scenarios a day for a week.
const EVENINGS: usize = 14;

/// Where the choice of units lies.
const UNITS: &str = "hearthload.units";

/// Where the choice of language lies.
const LANGUAGE: &str = "hearthload.language";

/// The browser's storage as tabs share it. One that is denied holds nothing and takes nothing.
struct Browser;

/// The storage itself. Asking gloo for it where it is denied would end the program.
fn raw() -> Option<web_sys::Storage> {
    gloo::utils::window().local_storage().ok().flatten()
}

impl Store for Browser {
    fn keys(&self) -> Vec<String> {
        let Some(store) = raw() else { return Vec::new() };
        (0..store.length().unwrap_or(0)).filter_map(|at| store.key(at).ok().flatten()).collect()
    }

    fn get(&self, key: &str) -> Option<String> {
        raw()?.get_item(key).ok().flatten()
    }

    fn set(&mut self, key: &str, text: &str) -> bool {
        raw().is_some_and(|store| store.set_item(key, text).is_ok())
    }

    fn remove(&mut self, key: &str) {
        if let Some(store) = raw() {
            // What cannot be taken away stays, and is heard of again.
            let _ = store.remove_item(key);
        }
    }
}

/// Opens what is kept: this tab's side of the storage, the scenarios (those of `first` where there are none), and what is to be
/// told about them.
#[must_use]
pub fn open(first: impl FnOnce() -> Kept) -> (Tabs, Kept, Vec<News>) {
    // Two tabs of the same name among four thousand million would only miss that one has written over the other.
    let mut tabs = Tabs::new(format!("{:x}", (js_sys::Math::random() * 4_294_967_296.0) as u32));
    let (list, news, last) = tabs.open(&mut Browser);
    let kept = Kept::found(list, opened()).unwrap_or_else(|| first().beyond(last));
    (tabs, kept, news)
}

/// Which scenario was open last.
fn opened() -> Option<u32> {
    raw()?;
    SessionStorage::get(OPEN).or_else(|_| LocalStorage::get(OPEN)).ok()
}

/// Keeps what was changed here and hears what was changed elsewhere.
#[must_use]
pub fn meet(tabs: &mut Tabs, kept: &Kept) -> Met {
    let met = tabs.meet(kept.list(), &mut Browser);
    if opened() != Some(kept.open_id()) && raw().is_some() {
        // Where this cannot be kept another scenario stands open on the next visit; none is lost.
        let _ = SessionStorage::set(OPEN, kept.open_id());
        let _ = LocalStorage::set(OPEN, kept.open_id());
    }
    met
}

/// What lies under a key, read as JSON; it was written as a text within a text.
fn kept_value(key: &str) -> Option<Value> {
    let text: String = raw().and_then(|_| LocalStorage::get(key).ok())?;
    serde_json::from_str(&text).ok()
}

/// What was told on the last evenings, the newest first. An earlier version kept one alone.
fn evenings() -> Vec<Value> {
    match kept_value(TONIGHT) {
        Some(Value::Array(all)) => all,
        Some(one) => vec![one],
        None => Vec::new(),
    }
}

/// Whose evening a kept one is.
fn is_of(evening: &Value, key: &str) -> bool {
    evening.get("key").and_then(Value::as_str) == Some(key)
}

/// What was told on an evening; nothing told where nothing was kept of it.
#[must_use]
pub fn tonight(key: &str) -> Tonight {
    let evening = evenings().into_iter().find(|evening| is_of(evening, key));
    evening.map_or_else(|| Tonight::of(key), |evening| Tonight::read(&evening, key))
}

/// Keeps what was told, told on from what was last `known` to be kept, beside what another tab told meanwhile; gives all of it.
///
/// # Errors
/// The same, where the browser does not take it: it is lost when the page is left, and nothing else.
pub fn keep_tonight(told: &Tonight, known: &Tonight) -> Result<Tonight, Tonight> {
    if raw().is_none() {
        return Err(told.clone());
    }
    let both = told.beside(known, &tonight(&told.key));
    let mut all = evenings();
    all.retain(|evening| !is_of(evening, &both.key));
    all.insert(0, both.write());
    all.truncate(EVENINGS);
    LocalStorage::set(TONIGHT, Value::from(all).to_string()).map(|()| both).map_err(|_| told.clone())
}

/// The units chosen on an earlier visit; on a first one metric, numbers as the language writes them.
#[must_use]
pub fn units(language: Language) -> Units {
    let kept = kept_value(UNITS);
    kept.map_or_else(|| Units { comma: language.has_comma(), ..Units::default() }, |kept| units::read(&kept))
}

/// The language chosen on an earlier visit; on a first one the browser's own, where the page has it.
#[must_use]
pub fn language() -> Language {
    let kept: Option<String> = raw().and_then(|_| LocalStorage::get(LANGUAGE).ok());
    let own = gloo::utils::window().navigator().language();
    kept.or(own).as_deref().and_then(Language::of).unwrap_or_default()
}

/// Keeps the choice of language.
pub fn keep_language(chosen: Language) {
    if raw().is_some() {
        // Where it cannot be kept the browser's own language is spoken on the next visit.
        let _ = LocalStorage::set(LANGUAGE, chosen.tag());
    }
}

/// Keeps the choice of units.
pub fn keep_units(chosen: Units) {
    if raw().is_some() {
        let _ = LocalStorage::set(UNITS, units::write(chosen).to_string());
    }
}
