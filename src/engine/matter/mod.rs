//! Owns the properties of food, wood, stone and smoke, from sourced tables.

pub mod food;
pub mod rows;
pub mod smoke;
pub mod stone;
pub mod wood;
