//! Owns the marks: the floor line that sags or breaks, the site's own mark, handles and arrows. Drawn, never letters or pictures.

use yew::prelude::*;

fn mark(class: &'static str, view: &'static str, path: &'static str) -> Html {
    html! { <svg class={classes!("mark", class)} viewBox={view} aria-hidden="true" focusable="false"><path d={path} /></svg> }
}

/// The floor line sags: a warning.
pub(crate) fn sag() -> Html {
    mark("sag", "0 0 36 16", "M1 4 H8 C14 4 13 13 18 13 S22 4 28 4 H35")
}

/// The floor line breaks: something is to be mended.
pub(crate) fn broken() -> Html {
    mark("broken", "0 0 40 16", "M0 4 H13 L19 13 M27 14 L32 4 H40")
}

/// The site's mark: a mouth on the floor line with a round thing on it.
pub(crate) fn site() -> Html {
    html! {
        <svg class="mark site" viewBox="0 0 36 30" aria-hidden="true" focusable="false">
            <path d="M5 25 V17 A13 13 0 0 1 31 17 V25 M0 25 H12 C15 25 15 28 18 28 S21 25 24 25 H36" />
            <circle cx="18" cy="18" r="5" />
        </svg>
    }
}

/// A handle to move with.
pub(crate) fn handle() -> Html {
    mark("handle", "0 0 18 16", "M1 3 H17 M1 8 H17 M1 13 H17")
}

/// Points down, or up where what it opens stands open.
pub(crate) fn arrow(open: bool) -> Html {
    mark("arrow", "0 0 16 16", if open { "M3 11 L8 5 L13 11" } else { "M3 5 L8 11 L13 5" })
}

/// Crossed strokes: take away.
pub(crate) fn cross() -> Html {
    mark("cross", "0 0 16 16", "M3 3 L13 13 M13 3 L3 13")
}
