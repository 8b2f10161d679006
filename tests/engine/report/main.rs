//! The answer's words, text and tables, against hand-made answers.

mod cautions;
mod csv;
mod fixture;
mod text;
mod verdict;
