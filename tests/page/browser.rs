//! Checks of the page's glue that need a browser: the worker's client, the storage, the page on its root, a picture on a canvas.
#![cfg(target_arch = "wasm32")]

use gloo::{
    storage::{LocalStorage, Storage},
    timers::future::TimeoutFuture,
    utils::document,
};
use hearthload_page::{
    app::App,
    state::kept::Kept,
    storage,
    worker::client::{Client, Heard},
};
use serde_json::json;
use std::{cell::RefCell, rc::Rc};
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

/// Waits until something is so, at most some seconds.
async fn until(what: impl Fn() -> bool) -> bool {
    for _ in 0..250 {
        if what() {
            return true;
        }
        TimeoutFuture::new(20).await;
    }
    false
}

#[wasm_bindgen_test]
async fn a_worker_that_cannot_load_is_reported_lost() {
    let heard = Rc::new(RefCell::new(Vec::new()));
    let ears = heard.clone();
    let client = Client::new("./there-is-no-such-worker.js", move |what| ears.borrow_mut().push(what));
    client.ask(1, "golden", r#"{"question":"golden"}"#.to_owned());
    assert!(until(|| !heard.borrow().is_empty()).await);
    assert!(matches!(heard.borrow().as_slice(), [Heard::Lost(_)]), "{:?}", heard.borrow());
}

#[wasm_bindgen_test]
async fn the_page_stands_without_its_worker_and_keeps_what_is_typed() {
    LocalStorage::delete("hearthload.kept");
    assert_eq!(storage::load(), None);
    let root = document().create_element("div").unwrap();
    document().body().unwrap().append_child(&root).unwrap();
    yew::Renderer::<App>::with_root(root.clone()).render();
    // Nothing serves the worker here: the page says so, and its form is there all the same.
    assert!(until(|| root.query_selector("[data-verdict=stopped] .strip button").unwrap().is_some()).await);
    assert!(root.query_selector("#f-oven-width_cm").unwrap().is_some());
    assert!(root.query_selector("h1").unwrap().is_some());
    // What stands on the page is kept.
    assert!(until(|| storage::load().is_some()).await);
    assert!(storage::load().unwrap().list().len() > 1, "the demonstration's scenarios");

    let other = Kept::with(json!({ "hearthload": 1, "name": "Mine" }));
    assert!(storage::save(&other));
    assert_eq!(storage::load(), Some(other));
    LocalStorage::set("hearthload.kept", "torn").unwrap();
    assert_eq!(storage::load(), None, "what cannot be read is not taken");
    let aside: String = LocalStorage::get("hearthload.kept.unreadable").unwrap();
    assert_eq!(aside, "torn", "and not thrown away");
    LocalStorage::clear();
}
