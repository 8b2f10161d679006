//! Owns the properties of food, wood, stone and smoke, from sourced tables.
