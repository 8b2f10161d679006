//! Owns the answer: plain data, and its form as text and CSV.

mod causes;
mod types;
pub mod verdict_words;
pub mod words;

pub use types::*;
