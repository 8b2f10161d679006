//! The answer's words, text and tables, against hand-made answers.

mod verdict;
