//! Owns what the user says: the draft as typed, the field table that explains it, and the validated scenario.

mod types;

pub use types::*;
