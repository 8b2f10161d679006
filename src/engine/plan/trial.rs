//! Owns the trying of a rhythm: one simulated day, its judgement, and which way the rhythm is wrong.

use super::cadence::{Cadence, Evening};
use crate::hearth::build::{Accuracy, DEFAULT_ACCURACY};
use crate::scenario::{ClockS, Scenario, SpreadCoals};
use crate::service::judge::{Judgement, Pledge, Resource, judge};
use crate::service::night::{Keep, Ready, play};
use crate::service::trace::Trace;

/// A plan keeps this share of doorway air and of the way to the doorway unused: a flare is not a plan. Our choice.
pub const FIRE_RESERVE: f64 = 0.05;

/// Coarse enough to search with; what it finds is verified with the default.
#[must_use]
pub fn coarse() -> Accuracy {
    Accuracy { cell_m: 0.14, busy_step_s: 8.0, idle_step_s: 30.0, ..DEFAULT_ACCURACY }
}

/// Which way a rhythm is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Leans {
    /// It is right.
    Holds,
    /// Too little heat.
    Cold,
    /// Too much heat, or a fire beyond its limits.
    Hot,
}

/// A tried rhythm.
#[derive(Clone, Debug)]
pub struct Trial {
    /// The rhythm.
    pub cadence: Cadence,
    /// The day it gave.
    pub trace: Trace,
    /// Its judgement.
    pub judgement: Judgement,
}

impl Trial {
    /// Share of one resource used at the worst.
    #[must_use]
    pub fn used(&self, what: Resource) -> f64 {
        self.judgement.uses.iter().find(|u| u.what == what).map_or(0.0, |u| u.used)
    }

    /// Whether all promises hold and the fire keeps its reserve.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.leans() == Leans::Holds
    }

    /// Which way it is wrong. Of several faults the first in the evening counts; hands and room count as cold, since hotter stone
    /// bakes faster.
    #[must_use]
    pub fn leans(&self) -> Leans {
        let most = self.used(Resource::Fire).max(self.used(Resource::DoorwayAir));
        let fire = self.judgement.breaches.iter().any(|b| b.pledge == Pledge::FireLimits);
        match self.judgement.breaches.first() {
            _ if fire => Leans::Hot,
            None if most > 1.0 - FIRE_RESERVE => Leans::Hot,
            None => Leans::Holds,
            Some(first) if first.gives == Resource::Fire => Leans::Hot,
            Some(_) => Leans::Cold,
        }
    }
}

/// One oven and one evening, on which rhythms are tried.
#[derive(Clone, Debug)]
pub struct Bench {
    /// The oven; its feeding is replaced at every trial.
    pub ready: Ready,
    /// The evening.
    pub evening: Evening,
}

impl Bench {
    /// Sets up an oven.
    #[must_use]
    pub fn new(scenario: &Scenario, accuracy: Accuracy) -> Self {
        let ready = Ready::new(scenario, accuracy);
        let evening = Evening::of(scenario, &crate::service::orders::orders(scenario));
        Self { ready, evening }
    }

    /// The same oven under other facts that leave oven and dishes as they are.
    #[must_use]
    pub fn with(&self, change: impl FnOnce(&mut Scenario)) -> Self {
        Self { ready: self.ready.with(change), evening: self.evening }
    }

    /// The same with the burner off.
    #[must_use]
    pub fn without_gas(&self) -> Self {
        self.with(|s| s.oven.assist = None)
    }

    /// The same with coals spread once more.
    #[must_use]
    pub fn spreading(&self, at: ClockS, for_s: f64) -> Self {
        self.with(|s| s.feeding.spread_coals.push(SpreadCoals { at, for_s }))
    }

    /// The oven fed by a rhythm.
    #[must_use]
    pub fn fed_by(&self, cadence: &Cadence) -> Ready {
        self.ready.with(|s| s.feeding = cadence.feeding(&s.feeding))
    }

    /// Plays the day by a rhythm.
    #[must_use]
    pub fn try_out(&self, cadence: &Cadence) -> Trial {
        let ready = self.fed_by(cadence);
        let trace = play(&ready, Keep::default());
        let judgement = judge(&ready, &trace);
        Trial { cadence: cadence.clone(), trace, judgement }
    }

    /// Wood of a rhythm, kindling included, kg.
    #[must_use]
    pub fn wood_kg(&self, cadence: &Cadence) -> f64 {
        cadence.pieces_in_all() * self.piece_kg() + self.ready.scenario.feeding.kindling_kg
    }

    /// One piece, kg.
    #[must_use]
    pub fn piece_kg(&self) -> f64 {
        crate::matter::wood::Fuel::new(&self.ready.scenario.wood).piece_mass_kg
    }
}
