//! Owns the answer: plain data, and its form as text and CSV.

mod types;

pub use types::*;
