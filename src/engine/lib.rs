//! hearthload: menu and bake-load capacity of wood-fired hearth ovens.
//!
//! One direction of flow, and a stage uses only what stands before it:
//! scenario -> matter -> demand -> hearth -> service -> plan -> sure -> proof -> report. Below them all lie `units`,
//! `sources` and `numerics`. The engine knows nothing of a page, a clock, a file system or randomness it was not handed.

pub mod units;

pub mod sources;

pub mod numerics;

pub mod scenario;

pub mod matter;

pub mod demand;

pub mod hearth;

pub mod service;

pub mod plan;

pub mod sure;

pub mod proof;

pub mod report;

pub mod golden;

pub mod ask;
