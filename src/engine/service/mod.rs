//! Owns the evening: covers become orders, orders take hands and spots, and the oven answers step by step.

pub mod fuel_plan;
pub mod judge;
pub mod kitchen;
pub mod night;
pub mod orders;
pub mod spots;
pub mod trace;
