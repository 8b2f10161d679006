//! Owns the worker's side: hear a question, let the engine answer, send the answer back.

use super::{Asked, READY, tell};
use hearthload::ask;
use wasm_bindgen::{JsCast, JsValue, prelude::Closure};
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent};

/// Answers one message of the page; the engine takes a request as JSON text and gives its answer as JSON text.
#[must_use]
pub fn reply(message: &str, engine: &mut impl FnMut(&str) -> String) -> String {
    match serde_json::from_str::<Asked>(message) {
        Ok(asked) if asked.protocol == ask::PROTOCOL => tell(asked.run, &engine(&asked.request)),
        Ok(asked) => {
            tell(asked.run, &fault(&format!("page speaks protocol {}, worker {}", asked.protocol, ask::PROTOCOL)))
        }
        Err(error) => tell(READY, &fault(&error.to_string())),
    }
}

fn fault(says: &str) -> String {
    serde_json::json!({ "fault": says }).to_string()
}

/// Listens for as long as the worker lives. Called once, by the worker's program.
pub fn start(mut engine: impl FnMut(&str) -> String + 'static) {
    console_error_panic_hook::set_once();
    let Ok(scope) = js_sys::global().dyn_into::<DedicatedWorkerGlobalScope>() else {
        return;
    };
    let post = {
        let scope = scope.clone();
        move |text: &str| {
            // A page that has gone away cannot be told anything; there is nobody left to tell that either.
            let _ = scope.post_message(&JsValue::from_str(text));
        }
    };
    let first = post.clone();
    let heard = Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
        if let Some(message) = event.data().as_string() {
            post(&reply(&message, &mut engine));
        }
    });
    scope.set_onmessage(Some(heard.as_ref().unchecked_ref()));
    heard.forget();
    first(&tell(READY, r#"{"ok":null}"#));
}
