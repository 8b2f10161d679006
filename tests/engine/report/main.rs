//! The answer's words, text and tables, against hand-made answers.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may stop where it likes")]

mod cautions;
mod csv;
mod fixture;
mod text;
mod verdict;
