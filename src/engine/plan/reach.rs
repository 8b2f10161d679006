//! Owns the reach of an evening: the most covers at this mix that keep every promise, and what gives just beyond.
//!
//! All quarter hours grow together in steps of a fortieth. The search doubles its stride until a promise breaks and halves the
//! gap from there, on a coarser cut of space and time; what it finds is then played at the default cut and moved until it
//! holds there while the next step up does not.

use std::cell::RefCell;
use std::collections::BTreeMap;

use crate::hearth::build::{Accuracy, DEFAULT_ACCURACY};
use crate::scenario::Scenario;
use crate::service::judge::{Breach, Pledge, Resource, judge};
use crate::service::night::{Keep, Ready, play};

/// Covers are counted in steps of one part in so many of the evening as planned: 2.5 % is finer than anybody knows a Friday.
pub const STEPS_IN_ONE: u32 = 40;
/// Searched up to so many times the evening as planned: a kitchen three times as busy is another kitchen.
const TIMES_MOST: u32 = 3;
/// Most steps that are looked at.
pub const STEPS_MOST: u32 = STEPS_IN_ONE * TIMES_MOST;
/// First stride of the search, steps: a tenth.
const STRIDE: u32 = 4;
/// What a coarse search found is moved by at most this many steps at the default cut.
const VERIFY_STEPS: u32 = 8;
/// Cut of the search: a fraction of the work, the lowest floor within some 3 K.
pub const SEARCH_ACCURACY: Accuracy =
    Accuracy { cell_m: 0.14, busy_step_s: 8.0, idle_step_s: 30.0, ..DEFAULT_ACCURACY };

/// Where a search ended.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Found {
    /// Steps of the most that carries; 0 where no evening of this mix does.
    pub steps: u32,
    /// What broke one step up, or at the evening as planned where none carries; `None` where the search met its own end.
    pub breach: Option<Breach>,
}

/// An evening with all its quarter hours at `steps` fortieths of the plan.
#[must_use]
pub fn at_steps(ready: &Ready, steps: u32) -> Ready {
    let times = f64::from(steps) / f64::from(STEPS_IN_ONE);
    ready.with(|scenario| scenario.service.covers.iter_mut().for_each(|covers| *covers *= times))
}

/// Covers of an evening at `steps` fortieths: whole ones.
#[must_use]
pub fn covers_at(scenario: &Scenario, steps: u32) -> f64 {
    let planned: f64 = scenario.service.covers.iter().sum();
    (planned * f64::from(steps) / f64::from(STEPS_IN_ONE) + 1e-9).floor()
}

/// The first promise an evening breaks.
#[must_use]
pub fn first_breach(ready: &Ready) -> Option<Breach> {
    judge(ready, &play(ready, Keep::default())).breaches.first().copied()
}

/// A search over one oven and menu; every evening is played once.
pub struct Search<'r> {
    ready: &'r Ready,
    played: RefCell<BTreeMap<u32, Option<Breach>>>,
}

impl<'r> Search<'r> {
    /// A search that has played nothing yet.
    #[must_use]
    pub fn new(ready: &'r Ready) -> Self {
        Self { ready, played: RefCell::default() }
    }

    /// The first promise broken at `steps`.
    #[must_use]
    pub fn breach(&self, steps: u32) -> Option<Breach> {
        let known = self.played.borrow().get(&steps).copied();
        known.unwrap_or_else(|| {
            let breach = first_breach(&at_steps(self.ready, steps));
            self.played.borrow_mut().insert(steps, breach);
            breach
        })
    }

    /// Whether all promises hold at `steps`.
    #[must_use]
    pub fn carries(&self, steps: u32) -> bool {
        self.breach(steps).is_none()
    }

    /// The most steps that carry, looked for from `from`. Takes it that what carries also carries with less, except where a
    /// floor too hot for few covers breaks a promise: then it looks upwards too.
    #[must_use]
    pub fn most(&self, from: u32) -> Found {
        let most = STEPS_MOST;
        let from = from.clamp(1, most);
        let Some(good) = self.any(from) else {
            return Found { steps: 0, breach: self.breach(from) };
        };
        let (mut good, mut stride) = (good, STRIDE);
        let mut bad = loop {
            if good >= most {
                return Found { steps: most, breach: None };
            }
            let next = (good + stride).min(most);
            if !self.carries(next) {
                break next;
            }
            good = next;
            stride *= 2;
        };
        while bad > good + 1 {
            let middle = good.midpoint(bad);
            if self.carries(middle) { good = middle } else { bad = middle }
        }
        Found { steps: good, breach: self.breach(bad) }
    }

    /// Any number of steps that carries, nearest first.
    fn any(&self, from: u32) -> Option<u32> {
        let Some(breach) = self.breach(from) else {
            return Some(from);
        };
        // A fire beyond its limits does not mind how many guests come.
        if breach.pledge == Pledge::FireLimits {
            return None;
        }
        let fewer = [3 * from / 4, from / 2, from / 4, from / 8];
        let more = [from * 5 / 4, from * 3 / 2];
        let is_hot = breach.gives == Resource::Fire;
        let list: Vec<u32> = if is_hot { more.into_iter().chain(fewer).collect() } else { fewer.to_vec() };
        list.into_iter().find(|&steps| steps > 0 && self.carries(steps))
    }

    /// Moves a coarse answer down, at this search's own cut, until it holds. 0 where it never does.
    #[must_use]
    pub fn down_from(&self, steps: u32) -> u32 {
        let least = steps.saturating_sub(VERIFY_STEPS).max(1);
        (least..=steps).rev().find(|&k| self.carries(k)).unwrap_or(0)
    }

    /// Moves a coarse answer until it holds at this search's own cut and the next step up does not.
    #[must_use]
    pub fn settle(&self, coarse: Found) -> Found {
        let mut steps = if coarse.steps == 0 { 0 } else { self.down_from(coarse.steps) };
        if steps == 0 {
            return Found { steps: 0, breach: self.breach(coarse.steps.max(1)).or(coarse.breach) };
        }
        let end = (coarse.steps + VERIFY_STEPS).min(STEPS_MOST);
        while steps < end && self.carries(steps + 1) {
            steps += 1;
        }
        let breach = if steps < STEPS_MOST { self.breach(steps + 1) } else { None };
        Found { steps, breach: breach.or(coarse.breach) }
    }
}
