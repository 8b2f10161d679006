//! Owns the small parts all views are built of: marks, notices, fields, tables.

pub(crate) mod field;
pub(crate) mod marks;
pub(crate) mod notice;
pub(crate) mod section;

use gloo::{timers::callback::Timeout, utils::document};
use wasm_bindgen::JsCast;

/// The id of a field's control, from its path.
pub(crate) fn id_of(path: &str) -> String {
    let mut id = String::from("f-");
    id.extend(
        path.chars()
            .filter(|letter| *letter != ']')
            .map(|letter| if letter.is_ascii_alphanumeric() || letter == '_' { letter } else { '-' }),
    );
    id
}

/// Puts the focus on an element once the page has been drawn again, opening what hides it.
pub(crate) fn focus_soon(id: String) {
    /// Longer than one drawing takes, shorter than a person notices, ms.
    const DRAWN_MS: u32 = 60;
    Timeout::new(DRAWN_MS, move || {
        let Some(element) = document().get_element_by_id(&id) else { return };
        if let Ok(Some(details)) = element.closest("details") {
            // Refused only where `open` could not be an attribute.
            let _ = details.set_attribute("open", "");
        }
        if let Ok(element) = element.dyn_into::<web_sys::HtmlElement>() {
            let _ = element.focus();
        }
    })
    .forget();
}
