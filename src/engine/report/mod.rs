//! Owns the answer: plain data, and its form as text and CSV.

pub mod build;
mod causes;
pub mod cautions;
pub mod csv;
mod evidence;
pub mod fault_words;
pub mod fire_build;
mod fire_gas_words;
pub mod fire_text;
mod fire_types;
mod fire_words;
pub mod floors_build;
pub mod ladder_text;
mod ladder_types;
mod layout;
pub mod nights_build;
mod no_plan_words;
mod now_build;
mod now_types;
mod now_words;
pub mod reach_build;
mod rung_edits;
pub mod skin;
pub mod sure_build;
pub mod text;
mod types;
pub mod verdict_words;
mod weakest_words;
pub mod words;

pub use fire_types::*;
pub use ladder_types::*;
pub use now_types::*;
pub use types::*;
