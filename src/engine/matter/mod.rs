//! Owns the properties of food, wood, stone and smoke, from sourced tables.

pub mod food;
mod rows;
pub mod smoke;
pub mod stone;
pub mod wood;
