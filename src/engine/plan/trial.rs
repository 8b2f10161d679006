//! Owns the trying of a rhythm: one simulated day, its judgement, and which way the rhythm is wrong.

use std::cell::RefCell;

use super::cadence::{Cadence, Evening};
use crate::hearth::build::{Accuracy, DEFAULT_ACCURACY};
use crate::hearth::fault::Noted;
use crate::scenario::{ClockS, Scenario, SpreadCoals};
use crate::service::fuel_plan::calendar;
use crate::service::judge::{CATCHING_S, Judgement, Pledge, Resource, judge, judge_lit};
use crate::service::night::course::{Course, play_acts};
use crate::service::night::{Keep, Ready, play};
use crate::service::orders::{Order, orders};
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
    /// Which way a day was lost that was given up before its end.
    pub lost: Option<Leans>,
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
        if let Some(way) = self.lost {
            return way;
        }
        if self.trace.fault.is_some() {
            return Leans::Cold;
        }
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
        let evening = Evening::of(scenario, &orders(scenario));
        Self { ready, evening }
    }

    /// The same, its faults noted beside another's.
    #[must_use]
    pub fn noting(mut self, noted: &Noted) -> Self {
        self.ready.noted = noted.clone();
        self
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
        let mut spreading = self.with(|s| s.feeding.spread_coals.push(SpreadCoals { at, for_s }));
        spreading.evening.spread = spreading.evening.spread.or(Some([at, at + for_s]));
        spreading
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
        Trial { cadence: cadence.clone(), trace, judgement, lost: None }
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

/// Days whose pauses are kept.
const KEPT: usize = 4;

/// Tries rhythms on one oven, each from where it first differs from one tried lately, and gives a day up once it is lost.
pub struct Player<'b> {
    bench: &'b Bench,
    orders: Vec<Order>,
    /// The one used last stands last.
    kept: RefCell<Vec<Course<'b>>>,
}

impl<'b> Player<'b> {
    /// One that has tried nothing yet.
    #[must_use]
    pub fn new(bench: &'b Bench) -> Self {
        Self { bench, orders: orders(&bench.ready.scenario), kept: RefCell::default() }
    }

    /// One for an evening of other orders.
    #[must_use]
    pub fn with_orders(bench: &'b Bench, orders: Vec<Order>) -> Self {
        Self { bench, orders, kept: RefCell::default() }
    }

    /// Plays the day by a rhythm; of a day that is lost only which way it is wrong is to be trusted.
    #[must_use]
    pub fn try_out(&self, cadence: &Cadence) -> Trial {
        let ready = &self.bench.ready;
        let mut fed = ready.scenario.clone();
        fed.feeding = cadence.feeding(&fed.feeding);
        let acts = calendar(&fed);
        let light_at = cadence.light_at;
        let mut kept = self.kept.borrow_mut();
        let at_s = |course: &Course<'b>| course.pause_for(&acts).map_or(f64::NEG_INFINITY, |pause| pause.at_s());
        let best = (0..kept.len()).max_by(|&a, &b| at_s(&kept[a]).total_cmp(&at_s(&kept[b])));
        if let Some(best) = best {
            let used = kept.remove(best);
            kept.push(used);
        }
        let from = kept.last().and_then(|course| course.pause_for(&acts));
        let go_on = |trace: &Trace| self.lost(trace, light_at).is_none();
        let (trace, course) = play_acts(ready, &self.orders, acts.clone(), from, go_on);
        if kept.len() >= KEPT {
            kept.remove(0);
        }
        kept.push(course);
        let lost = self.lost(&trace, light_at);
        let judgement = judge_lit(ready, &trace, light_at);
        Trial { cadence: cadence.clone(), trace, judgement, lost }
    }

    /// Whether a day can no longer hold, whatever comes: its fire went beyond what a plan may use, or more loads missed their
    /// bands than the whole evening may.
    fn lost(&self, trace: &Trace, light_at: ClockS) -> Option<Leans> {
        let counted = trace.quarters.iter().filter(|q| q.at_s >= light_at + CATCHING_S);
        let most = counted.map(|q| q.reach.max(q.air_used).max(q.hard_limit_used)).fold(0.0, f64::max);
        if most > 1.0 - FIRE_RESERVE {
            return Some(Leans::Hot);
        }
        let scenario = &self.bench.ready.scenario;
        let allowed = (1.0 - scenario.promise.share_in_band) * self.orders.len() as f64 + 1e-6;
        let missed = || trace.bakes.iter().filter(|bake| !bake.in_band);
        if missed().count() as f64 <= allowed {
            return None;
        }
        let is_hot = |bake: &&crate::service::trace::Bake| {
            let dish = &scenario.menu[bake.dish];
            bake.at_load_c > dish.floor_max_c || (bake.at_load_c >= dish.floor_min_c && bake.dome_c > dish.dome_max_c)
        };
        let hot = missed().filter(is_hot).count();
        Some(if 2 * hot > missed().count() { Leans::Hot } else { Leans::Cold })
    }
}
