//! Owns the whole page as one component.

use yew::prelude::*;

/// The page.
#[component]
pub fn App() -> Html {
    html! {
        <main>
            <section data-verdict="computing" aria-live="polite">
                <h1>{ "Running the evening …" }</h1>
                <p>{ "An estimate. Your gun and your probe outrank it." }</p>
            </section>
        </main>
    }
}

/// Puts the page in place of the line that said it was starting.
pub fn start() {
    if let Some(boot) = gloo::utils::document().get_element_by_id("boot") {
        boot.remove();
    }
    yew::Renderer::<App>::new().render();
}
