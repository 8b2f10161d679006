//! Owns bringing a language's text to the page before it is spoken: English is part of the program, another is fetched once.

use crate::{
    storage,
    words::{
        language::Language,
        translate::{learn, speaks},
    },
};
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::Response;

/// The language a visit begins in: the chosen one where its text is there.
#[must_use]
pub(crate) fn first() -> Language {
    Some(storage::language()).filter(|chosen| speaks(*chosen)).unwrap_or_default()
}

/// Brings a language, then says whether it can be spoken; at once where it is there already.
pub(crate) fn bring(chosen: Language, then: impl FnOnce(bool) + 'static) {
    if speaks(chosen) {
        then(true);
        return;
    }
    spawn_local(async move {
        let text = fetched().await;
        then(text.is_some_and(|text| learn(&text)));
    });
}

/// The other language's text. The build writes into the page what the file is called in this version.
async fn fetched() -> Option<String> {
    let name = gloo::utils::document_element().get_attribute("data-german")?;
    let answer = JsFuture::from(gloo::utils::window().fetch_with_str(&name)).await.ok()?;
    let answer = answer.dyn_into::<Response>().ok().filter(Response::ok)?;
    JsFuture::from(answer.text().ok()?).await.ok()?.as_string()
}
