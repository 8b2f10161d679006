//! Owns that the screen stays lit while the cook's door stands open: floury hands wake no tablet. Silent where a browser cannot.

use gloo::events::EventListener;
use js_sys::{Function, Promise, Reflect};
use std::{cell::RefCell, rc::Rc};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use yew::prelude::*;

/// The lock that is held, as the browser gave it.
type Held = Rc<RefCell<Option<JsValue>>>;

/// Calls a method by its name; nothing where there is none.
fn call(on: &JsValue, name: &str, with: &[JsValue]) -> Option<JsValue> {
    let method: Function = Reflect::get(on, &name.into()).ok()?.dyn_into().ok()?;
    method.apply(on, &with.iter().collect()).ok()
}

/// Asks for the lock: the browser drops it by itself whenever the page is out of sight.
fn hold(held: &Held) {
    let lock = Reflect::get(&gloo::utils::window().navigator(), &"wakeLock".into()).unwrap_or_default();
    let Some(asked) = call(&lock, "request", &["screen".into()]).and_then(|asked| asked.dyn_into::<Promise>().ok())
    else {
        return;
    };
    let held = held.clone();
    spawn_local(async move {
        // Refused where power runs low: then the screen does as it likes.
        if let Ok(lock) = JsFuture::from(asked).await {
            *held.borrow_mut() = Some(lock);
        }
    });
}

/// Keeps the screen lit as long as what uses this is shown.
#[hook]
pub(super) fn use_awake() {
    use_effect_with((), |()| {
        let held = Held::default();
        hold(&held);
        let again = {
            let held = held.clone();
            EventListener::new(&gloo::utils::document(), "visibilitychange", move |_| {
                if gloo::utils::document().visibility_state() == web_sys::VisibilityState::Visible {
                    hold(&held);
                }
            })
        };
        move || {
            drop(again);
            if let Some(lock) = held.borrow_mut().take() {
                // What it answers is of no use: the page goes on either way.
                let _ = call(&lock, "release", &[]);
            }
        }
    });
}
