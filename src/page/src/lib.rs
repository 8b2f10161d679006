//! hearthload's page: form, answers, charts, worker, state, storage.

pub mod app;
pub mod golden;
pub mod worker;
