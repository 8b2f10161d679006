//! Owns the checks against things outside the project, as data: one list, read by the tests, the terminal and the page.
//!
//! A check puts one number of the engine beside one number from outside (a publication, a standard, a reference library,
//! a rule of the trade) and says how far apart they may be. The outside numbers are tables under `tests/reference`,
//! embedded as they are, with their headers. Rows left out, and why, are listed in `tests/reference/LEFT_OUT.md`.

mod air;
mod bench;
mod check;
mod conduction;
mod demand;
mod fire;
mod floor;
mod food;
mod opening;
mod ovens;
mod packing;
mod published;
mod queue;
mod radiation;
mod sideways;
mod stone;
mod table;
mod wood;

pub use ovens::{figures as measured_figures, measured_oven, of_width as measured_oven_of_width};

pub use published::{Figure, figure as published_figure};

pub use check::{Check, Outside, Spread, Status, Worst};
pub use table::{Row, Table};

/// Every check there is, computed now, topic by topic. Takes as long as the engine takes; nothing is remembered.
#[must_use]
pub fn checks() -> Vec<Check> {
    let mut all = Vec::new();
    for topic in topics() {
        all.extend((topic.checks)());
    }
    all
}

/// One topic's worth of checks.
pub struct Topic {
    /// What it is called on the list.
    pub name: &'static str,
    /// Computes its checks.
    pub checks: fn() -> Vec<Check>,
}

/// The topics, in the order of the list. A front end that wants to show progress computes them one by one.
#[must_use]
pub fn topics() -> Vec<Topic> {
    vec![
        Topic { name: "food", checks: food::checks },
        Topic { name: "demand", checks: demand::checks },
        Topic { name: "wood", checks: wood::checks },
        Topic { name: "stone and air", checks: stone::checks },
        Topic { name: "conduction", checks: conduction::checks },
        Topic { name: "floor and dome", checks: floor::checks },
        Topic { name: "sideways", checks: sideways::checks },
        Topic { name: "radiation", checks: radiation::checks },
        Topic { name: "doorway", checks: opening::checks },
        Topic { name: "fire and plume", checks: fire::checks },
        Topic { name: "films and smoke", checks: air::checks },
        Topic { name: "packing", checks: packing::checks },
        Topic { name: "queue", checks: queue::checks },
        Topic { name: "ovens", checks: ovens::checks },
    ]
}
