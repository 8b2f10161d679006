//! Checks of the page's glue that need a browser.
#![cfg(target_arch = "wasm32")]

use gloo::timers::future::TimeoutFuture;
use hearthload_page::worker::client::{Client, Heard};
use std::{cell::RefCell, rc::Rc};
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

#[wasm_bindgen_test]
async fn a_worker_that_cannot_load_is_reported_lost() {
    let heard = Rc::new(RefCell::new(Vec::new()));
    let ears = heard.clone();
    let client = Client::new("./there-is-no-such-worker.js", move |what| ears.borrow_mut().push(what));
    client.ask(1, "golden", r#"{"question":"golden"}"#.to_owned());
    for _ in 0..100 {
        TimeoutFuture::new(20).await;
        if !heard.borrow().is_empty() {
            break;
        }
    }
    assert!(matches!(heard.borrow().as_slice(), [Heard::Lost(_)]), "{:?}", heard.borrow());
}
