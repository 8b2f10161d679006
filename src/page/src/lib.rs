//! hearthload's page: form, answers, charts, worker, state, storage.

mod answers;
pub mod app;
pub mod charts;
pub mod files;
mod form;
pub mod golden;
mod head;
pub mod number;
mod parts;
pub mod share;
mod sharing;
pub mod state;
pub mod storage;
mod trust;
mod words;
pub mod worker;
