//! Owns the decisions: light-up, feeding, assist, reach, floors, nights.

pub mod assist;
pub mod burner;
pub mod cadence;
pub mod caps;
pub mod feeding_rule;
pub mod fire;
pub mod first_firing;
pub mod floors;
pub mod from_now;
pub mod laziest;
pub mod light_up;
pub mod moisture;
pub mod nearest;
pub mod nights;
pub mod overnight;
pub mod reach;
pub mod rest;
pub mod rough;
pub mod rung;
pub mod sheet;
pub mod spread;
pub mod step;
pub mod trial;
pub mod ways;
pub mod week;
