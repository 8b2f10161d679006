//! Checks of the page that need no browser: the talk with the worker, the state, the words.
#![cfg(not(target_arch = "wasm32"))]

mod talk;
