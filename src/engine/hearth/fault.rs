//! Owns the guards on the computing itself: where it did not settle, when, and by how much. A night with a fault gives no verdict.

use super::ledger::Ledger;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, OnceLock};

/// The hot layer's balance may stay open by this share of what passes through it.
const LAYER_MAY_LEAVE: f64 = 1e-6;
/// And by this much, W: below it nothing passes at all.
const LAYER_MAY_LEAVE_W: f64 = 1e-3;
/// The ledger of a night may stay open by this share of its throughput.
pub const LEDGER_MAY_LEAVE: f64 = 1e-9;
/// And by this much, J: an oven in which nothing happened.
const LEDGER_MAY_LEAVE_J: f64 = 1e-3;
/// No stone of an oven is outside these, degC: a winter's night, and the flame of dry wood (about 1900).
const STONE_C: [f64; 2] = [-60.0, 2000.0];

/// Stone may come out colder than all that touched it by this much, K: what cutting floor and night into pieces may do. Our choice.
const COLDER_MAY_K: f64 = 5.0;

/// What did not come out right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// The hot layer's heat balance; the residual is in W.
    Layer,
    /// The length of a step: the stone would need shorter ones than are taken; the residual is what it would need, s.
    Step,
    /// The stone itself, which no oven's is like; the residual is its temperature, degC.
    Stone,
    /// The heat ledger of the night; the residual is in J.
    Ledger,
}

/// One fault of the computing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fault {
    /// When, s.
    pub at_s: f64,
    /// Where.
    pub place: Place,
    /// What was left, in the unit of the place.
    pub residual: f64,
    /// What may be left.
    pub allowed: f64,
}

/// Where the days of one kitchen note the first thing that did not come out right: a search plays many days and shows few, and
/// none of them may rest on a broken one. How many were played is counted, for whoever waits. Clones share it.
#[derive(Clone, Debug, Default)]
pub struct Noted(Arc<Notes>);

#[derive(Debug, Default)]
struct Notes {
    first: OnceLock<Fault>,
    days: AtomicU64,
}

impl Noted {
    /// Notes a fault, unless one is noted already.
    pub fn note(&self, fault: Option<Fault>) {
        if let Some(fault) = fault {
            // A second fault says nothing the first does not.
            let _ = self.0.first.set(fault);
        }
    }

    /// Notes that a day was played, and its fault.
    pub fn day(&self, fault: Option<Fault>) {
        self.0.days.fetch_add(1, Ordering::Relaxed);
        self.note(fault);
    }

    /// How many days were played so far.
    #[must_use]
    pub fn days(&self) -> u64 {
        self.0.days.load(Ordering::Relaxed)
    }

    /// The first fault, if any.
    #[must_use]
    pub fn first(&self) -> Option<Fault> {
        self.0.first.get().copied()
    }
}

impl Fault {
    /// What is wrong with a layer balance that leaves `surplus_w` of all the `passing_w` open.
    #[must_use]
    pub fn of_layer(at_s: f64, surplus_w: f64, passing_w: f64) -> Option<Self> {
        let allowed = LAYER_MAY_LEAVE * passing_w + LAYER_MAY_LEAVE_W;
        Self::beyond(at_s, Place::Layer, surplus_w.abs(), allowed)
    }

    /// What is wrong with a step where the stone bears `bears_s` and `taken_s` is the least that is taken.
    #[must_use]
    pub fn of_step(at_s: f64, bears_s: f64, taken_s: f64) -> Option<Self> {
        (bears_s.is_nan() || bears_s < taken_s).then_some(Self {
            at_s,
            place: Place::Step,
            residual: bears_s,
            allowed: taken_s,
        })
    }

    /// What is wrong with stone at a temperature.
    #[must_use]
    pub fn of_stone(at_s: f64, stone_c: f64) -> Option<Self> {
        let [coldest, hottest] = STONE_C;
        let allowed = if stone_c < coldest { coldest } else { hottest };
        let is_sane = (coldest..=hottest).contains(&stone_c);
        (!is_sane).then_some(Self { at_s, place: Place::Stone, residual: stone_c, allowed })
    }

    /// What is wrong with stone colder than the coldest thing that ever touched it, both in degC.
    #[must_use]
    pub fn of_cold(at_s: f64, stone_c: f64, touched_c: f64) -> Option<Self> {
        let allowed = touched_c - COLDER_MAY_K;
        let is_sane = stone_c >= allowed;
        (!is_sane).then_some(Self { at_s, place: Place::Stone, residual: stone_c, allowed })
    }

    /// What is wrong with a night's ledger.
    #[must_use]
    pub fn of_ledger(at_s: f64, ledger: &Ledger) -> Option<Self> {
        let allowed = LEDGER_MAY_LEAVE * ledger.throughput_j() + LEDGER_MAY_LEAVE_J;
        Self::beyond(at_s, Place::Ledger, ledger.residual_j().abs(), allowed)
    }

    /// A residual over what is allowed; one that is no number is over anything.
    fn beyond(at_s: f64, place: Place, residual: f64, allowed: f64) -> Option<Self> {
        let is_fine = residual <= allowed;
        (!is_fine).then_some(Self { at_s, place, residual, allowed })
    }
}

/// Breaches put in by hand, for tests of what is done about them.
#[cfg(test)]
pub(crate) mod by_hand {
    use std::cell::Cell;

    thread_local! {
        static LOST_J: Cell<f64> = const { Cell::new(0.0) };
        static SHOWN_C: Cell<Option<f64>> = const { Cell::new(None) };
    }

    /// What every day played on this thread shows as its coolest reading now, degC.
    pub(crate) fn shown_c() -> Option<f64> {
        SHOWN_C.get()
    }

    /// Does something while every day on this thread shows such a reading.
    pub(crate) fn showing<T>(stone_c: f64, act: impl FnOnce() -> T) -> T {
        SHOWN_C.set(Some(stone_c));
        let done = act();
        SHOWN_C.set(None);
        done
    }

    /// What every oven's ledger on this thread loses now, J.
    pub(crate) fn lost_j() -> f64 {
        LOST_J.get()
    }

    /// Does something while every oven on this thread loses heat from its ledger.
    pub(crate) fn losing<T>(lost_j: f64, act: impl FnOnce() -> T) -> T {
        LOST_J.set(lost_j);
        let done = act();
        LOST_J.set(0.0);
        done
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_that_is_none_is_always_a_fault() {
        let broken = Ledger { fire_j: f64::NAN, ..Ledger::default() };
        assert!(Fault::of_ledger(0.0, &broken).is_some_and(|fault| fault.place == Place::Ledger));
        assert!(Fault::of_stone(0.0, f64::NAN).is_some() && Fault::of_step(0.0, f64::NAN, 0.05).is_some());
        assert!(Fault::of_layer(0.0, f64::NAN, 1e4).is_some() && Fault::of_layer(0.0, 1.0, f64::NAN).is_some());
    }

    #[test]
    fn stone_is_no_colder_than_what_touched_it() {
        let found = Fault::of_cold(60.0, -118.0, -20.0);
        assert!(found.is_some_and(|found| found.place == Place::Stone && found.residual < found.allowed), "{found:?}");
        assert_eq!(Fault::of_cold(60.0, -24.0, -20.0), None, "a cut into tiles may do that");
        assert_eq!(Fault::of_cold(60.0, f64::INFINITY, -20.0), None, "nothing was read");
        assert!(Fault::of_cold(60.0, f64::NAN, -20.0).is_some());
    }

    #[test]
    fn what_rounding_leaves_is_none() {
        let whole = Ledger { fire_j: 4e8, doorway_flow_j: 3e8, holds_j: 1e8 + 0.01, ..Ledger::default() };
        assert_eq!(Fault::of_ledger(0.0, &whole), None);
        assert_eq!(Fault::of_layer(0.0, 1e-3, 1e4), None);
        assert_eq!(Fault::of_stone(0.0, 350.0), None);
        assert_eq!(Fault::of_step(0.0, 0.05, 0.05), None);
        assert_eq!(Fault::of_ledger(0.0, &Ledger::default()), None, "an oven in which nothing happened");
    }
}
