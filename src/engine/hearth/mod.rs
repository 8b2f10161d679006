//! Owns the oven: floor, dome, chamber, fire, burner and ledger.

pub mod build;
pub mod burner;
pub mod chamber;
pub mod configuration;
pub mod enclosure;
pub mod fault;
pub mod fire;
pub mod flow;
pub mod ledger;
pub mod oven;

pub mod dome;

mod fans;

pub mod glow;

pub mod outline;

pub mod packing;

pub mod places;

pub mod plan;

pub mod rays;

mod relax;

pub mod shapes;

pub mod views;
