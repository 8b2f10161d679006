//! Owns scenarios as files: brought in without harm to what is here, saved as they were typed.

use crate::{
    charts::canvas::save_text,
    state::{Action, State, draft},
    words::{fill, words},
};
use hearthload::scenario::{self, LARGEST_BYTES, fields::VERSION};
use serde_json::Value;
use yew::prelude::UseReducerDispatcher;

/// What a file's text does to the page.
#[must_use]
pub fn taken(name: &str, text: &str) -> Action {
    let refuse = |text: &str, more: &[&str]| Action::Refuse(fill(text, &[&[name], more].concat()));
    let say = words();
    let doc: Value = match serde_json::from_str(text.trim_start_matches('\u{feff}')) {
        Ok(doc) => doc,
        Err(error) => return refuse(say.refused_json, &[&error.to_string()]),
    };
    if let Some(path) = scenario::doubles(text).first() {
        return refuse(say.refused_double, &[path]);
    }
    match doc.get("hearthload").and_then(Value::as_f64) {
        Some(version) if version > VERSION => refuse(say.refused_newer, &[]),
        Some(_) => Action::Bring(doc, name.trim_end_matches(".json").to_owned()),
        None => refuse(say.refused_kind, &[]),
    }
}

/// Reads a file and hands it on.
pub(crate) fn bring(file: web_sys::File, send: UseReducerDispatcher<State>) {
    let file = gloo::file::File::from(file);
    let name = file.name();
    if file.size() > LARGEST_BYTES as u64 {
        return send.dispatch(Action::Refuse(fill(words().refused_big, &[&name])));
    }
    wasm_bindgen_futures::spawn_local(async move {
        send.dispatch(match gloo::file::futures::read_as_text(&file).await {
            Ok(text) => taken(&name, &text),
            Err(_) => Action::Refuse(fill(words().refused_read, &[&name])),
        });
    });
}

/// Offers the open scenario as a file.
pub(crate) fn save(doc: &Value) {
    let name: String = draft::text(doc, "name")
        .to_ascii_lowercase()
        .chars()
        .map(|letter| if letter.is_ascii_alphanumeric() || !letter.is_ascii() { letter } else { '-' })
        .collect();
    let name = if name.is_empty() { words().unnamed.to_ascii_lowercase() } else { name };
    // A JSON value is always written: it holds no maps with keys that are not text.
    if let Ok(text) = serde_json::to_string_pretty(doc) {
        save_text(&text, "application/json", &format!("{name}.json"));
    }
}
