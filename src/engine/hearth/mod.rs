//! Owns the oven: floor, dome, chamber, fire, burner and ledger.

pub mod enclosure;
pub mod fire;
pub mod flow;
