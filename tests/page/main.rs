//! Checks of the page that need no browser: the talk with the worker, the state, the words.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, reason = "a test may stop where it likes")]

mod asked;
mod kept;
mod language;
mod numbers;
mod share;
mod state;
mod tabs;
mod talk;
mod tonight;
mod units;
