//! Owns the nearest evening that would carry, where none does as it was asked for: single changes, the smallest first, each with a
//! feeding of its own, verified at the default cut.

use super::assist::{RAKED_BEFORE_S, SPREAD_FOR_S};
use super::cadence::Evening;
use super::fire::{mended, usual};
use super::laziest::{Search, farthest};
use super::light_up::{Keenest, keenest};
use super::step::Step;
use super::trial::{Bench, Leans, Trial};
use crate::scenario::ClockS;
use crate::service::orders::orders;
use crate::units::time::HOUR_S;

/// An earlier reading is tried by so many hours.
const EARLIER_H: [f64; 4] = [1.0, 2.0, 3.0, 4.0];
/// Fewer covers are tried in twentieths of the evening.
const PARTS: u32 = 20;
/// An evening of many orders takes long to play: so many orders are played in all while single changes are tried, at most so many
/// changes; ...
const ORDERS_IN_ALL: usize = 10_000;
const CHANGES_MOST: usize = 16;
/// ... and fewer covers, and a plan of its own for an earlier match, are looked for where an evening has no more orders than this. Our choice.
const ORDERS_MOST: usize = 1_000;

/// A change that is tried.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// The floor is read and the fire lit earlier: by then at the latest.
    LitBy(ClockS),
    /// Coals are spread before the first order.
    Spread(ClockS),
    /// A change a kitchen can make.
    Step(Step),
    /// No more than so many covers, spread as they were.
    Fewer(f64),
}

/// A change that was tried.
#[derive(Clone, Debug, PartialEq)]
pub struct Tried {
    /// Which.
    pub change: Change,
    /// Whether some feeding carries the evening after it.
    pub would_do: bool,
}

/// One evening that does not carry, and what it is tried with.
pub struct Nearest<'a> {
    /// The oven on the coarse cut.
    pub rough: &'a Bench,
    /// The same on the default cut.
    pub fine: &'a Bench,
    /// How fast it may be fed.
    pub keen: Keenest,
    /// The closest day.
    pub missed: &'a Trial,
}

/// An oven after a change, with the evening as it then falls.
fn after(bench: &Bench, change: &Change) -> Bench {
    let ready = match change {
        Change::LitBy(at) => bench.ready.with(|s| s.start.read_at = s.start.read_at.min(*at)),
        Change::Spread(at) => bench.spreading(*at, SPREAD_FOR_S).ready,
        Change::Step(step) => step.apply(&bench.ready),
        Change::Fewer(covers) => bench.ready.with(|s| {
            let planned: f64 = s.service.covers.iter().sum();
            s.service.covers.iter_mut().for_each(|quarter| *quarter *= covers / planned.max(1.0));
        }),
    };
    let evening = Evening::of(&ready.scenario, &orders(&ready.scenario));
    Bench { ready, evening }
}

impl Nearest<'_> {
    /// Whether some feeding carries the evening after a change: the closest day's, or an even one about it.
    fn would_do(&self, change: &Change) -> bool {
        let (rough, fine) = (after(self.rough, change), after(self.fine, change));
        if orders(&rough.ready.scenario).is_empty() {
            return false;
        }
        if matches!(change, Change::LitBy(_)) && orders(&rough.ready.scenario).len() <= ORDERS_MOST {
            // Another morning is another plan: the match it would have is looked for as any plan's is.
            let keen = keenest(&usual(&rough.without_gas()));
            return super::fire::search(&rough, &fine, keen).is_ok();
        }
        let mut first = self.missed.cadence.clone();
        first.evening = rough.evening;
        first.light_at = first.light_at.clamp(rough.evening.earliest_light, rough.evening.latest_light());
        let search = Search::new(&rough, self.keen);
        let as_it_was = search.try_out(&first);
        let found = match change {
            _ if as_it_was.holds() => Ok(as_it_was),
            // How many guests it would carry hangs on the match too.
            Change::Fewer(_) => search.any(),
            Change::LitBy(_) => search.steady_that_holds(first.light_at),
            _ => search.steady_that_holds(search.wanted_light()),
        };
        let on_fine = Search::new(&fine, self.keen);
        found.is_ok_and(|trial| mended(&on_fine, &fine, self.keen, trial.cadence).is_some())
    }

    /// What is tried one after the other until something does, by how small it is.
    fn changes(&self) -> Vec<Change> {
        let scenario = &self.rough.ready.scenario;
        let mut all = Vec::new();
        let is_cold = self.missed.leans() == Leans::Cold;
        if is_cold && self.missed.cadence.light_at <= self.rough.evening.earliest_light + 1.0 {
            all.extend(EARLIER_H.map(|hours| Change::LitBy(scenario.start.read_at - hours * HOUR_S)));
            all.retain(|change| !matches!(change, Change::LitBy(at) if *at < 0.0));
        }
        if is_cold && scenario.feeding.spread_coals.is_empty() {
            all.push(Change::Spread(self.rough.evening.first_order - RAKED_BEFORE_S - SPREAD_FOR_S));
        }
        // What the fire and the burner can do was searched already.
        let mut steps: Vec<Step> = Step::all(scenario).into_iter().filter(|step| step.size() > 2).collect();
        crate::numerics::order::by(&mut steps, |a, b| a.size().cmp(&b.size()));
        all.extend(steps.into_iter().map(Change::Step));
        all
    }

    /// The most covers some feeding carries, in twentieths of the evening, if any.
    fn fewer(&self) -> Option<Change> {
        let planned: f64 = self.rough.ready.scenario.service.covers.iter().sum();
        let covers = |part: u32| Change::Fewer((planned * f64::from(part) / f64::from(PARTS)).floor());
        let part = farthest(0, PARTS - 1, |part| self.would_do(&covers(part)));
        (part > 0).then(|| covers(part))
    }

    /// Single changes by how small they are, up to the first that would do, and the most covers that would.
    #[must_use]
    pub fn tried(&self) -> Vec<Tried> {
        let mut tried = Vec::new();
        let ordered = orders(&self.rough.ready.scenario).len().max(1);
        for change in self.changes().into_iter().take((ORDERS_IN_ALL / ordered).min(CHANGES_MOST)) {
            let would_do = self.would_do(&change);
            tried.push(Tried { change, would_do });
            if would_do {
                break;
            }
        }
        if ordered <= ORDERS_MOST {
            tried.extend(self.fewer().map(|change| Tried { change, would_do: true }));
        }
        tried
    }
}
