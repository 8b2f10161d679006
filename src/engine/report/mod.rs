//! Owns the answer: plain data, and its form as text and CSV.

pub mod build;
mod causes;
pub mod cautions;
pub mod csv;
mod layout;
pub mod text;
mod types;
pub mod verdict_words;
pub mod words;

pub use types::*;
