//! hearthload's page: form, answers, charts, worker, state, storage.

pub mod app;
pub mod charts;
pub mod golden;
pub mod worker;
