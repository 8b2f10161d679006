//! Owns the checks of whole ovens: published measurements on a class of oven, and the rules of the trade.
//!
//! The measured oven's geometry is not known. A 1.05 m hearth of the 0.9-1.1 m class with a light clay floor and a 45 x 22 cm doorway stands for it, all
//! unknowns at their defaults; tests/reference/validation keeps the scenarios, the citations and the spread over the class.

mod house;
mod measured;
mod runs;

pub use measured::figures;
pub(super) use runs::feed;
pub use runs::{measured as measured_oven, of_width};

use super::Check;

/// All of them.
pub fn checks() -> Vec<Check> {
    let mut all = measured::checks();
    all.extend(house::checks());
    all
}
