//! hearthload's page: form, answers, charts, worker, state, storage.

pub mod app;
mod asking;
pub mod charts;
mod doors;
mod figures;
pub mod files;
mod form;
pub mod golden;
mod head;
pub mod number;
mod parts;
pub mod route;
mod settings;
pub mod share;
mod sharing;
pub mod state;
pub mod storage;
mod tongue;
mod trust;
pub mod units;
pub mod words;
pub mod worker;
