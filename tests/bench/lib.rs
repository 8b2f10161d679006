//! Owns the loads that are measured: one home for the benchmarks, the instruction counts, the peers and the page.

pub mod clock;
pub mod column;
pub mod questions;
pub mod queue;
