//! Owns the coals spread in a lull: whether they let the match wait, or the rush be fed less often.

use super::assist::{RAKED_BEFORE_S, SPREAD_FOR_S};
use super::cadence::{CLOCK_STEP_S, Cadence, Stretch};
use super::laziest::{farthest, in_minutes};
use super::light_up::MOST_EVERY_MIN;
use super::trial::{Bench, Player, Trial};
use crate::scenario::ClockS;
use crate::service::orders::orders;
use crate::units::time::{MINUTE_S, QUARTER_S};

/// Saving that makes spreading coals worth the rake, kg. Our choice.
const WORTH_SPREADING_KG: f64 = 0.3;

/// Coals spread in a lull: before the first order, or within the evening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpreadIdea {
    /// When.
    pub at: ClockS,
    /// For how long, s.
    pub for_s: f64,
    /// The match can then be struck at.
    pub light_at: ClockS,
    /// In the rush a piece is then enough this often, s.
    pub rush_every_s: f64,
    /// Wood saved, kg.
    pub saves_kg: f64,
}

/// Whether coals spread in a lull let the match wait, or the rush be fed less often; the better of the two.
#[must_use]
pub fn spread_idea(bench: &Bench, trial: &Trial) -> Option<SpreadIdea> {
    if !bench.ready.scenario.feeding.spread_coals.is_empty() || trial.cadence.typed.is_some() {
        return None;
    }
    let before = bench.evening.first_order - RAKED_BEFORE_S - SPREAD_FOR_S;
    let ideas = [spread_before(bench, trial, before), lull(bench).and_then(|at| spread_within(bench, trial, at))];
    let better = |a: SpreadIdea, b: SpreadIdea| if b.saves_kg > a.saves_kg { b } else { a };
    ideas.into_iter().flatten().reduce(better).filter(|idea| idea.saves_kg >= WORTH_SPREADING_KG)
}

fn idea(bench: &Bench, trial: &Trial, at: ClockS, with: &Cadence) -> SpreadIdea {
    SpreadIdea {
        at,
        for_s: SPREAD_FOR_S,
        light_at: with.light_at,
        rush_every_s: with.every_s[Stretch::Rush as usize],
        saves_kg: bench.wood_kg(&trial.cadence) - bench.wood_kg(with),
    }
}

/// Coals spread before the first order: the match waits as long as it can. None where the evening does not even hold lit as planned:
/// while coals lie spread no piece is fed.
fn spread_before(bench: &Bench, trial: &Trial, at: ClockS) -> Option<SpreadIdea> {
    let spreading = bench.spreading(at, SPREAD_FOR_S);
    let player = Player::new(&spreading);
    let room = ((bench.evening.latest_light() - trial.cadence.light_at) / CLOCK_STEP_S).max(0.0) as u32;
    let lit = |step: u32| Cadence {
        evening: spreading.evening,
        light_at: trial.cadence.light_at + f64::from(step) * CLOCK_STEP_S,
        ..trial.cadence.clone()
    };
    let holds = |step: u32| player.try_out(&lit(step)).holds();
    holds(0).then(|| idea(bench, trial, at, &lit(farthest(0, room, holds))))
}

/// Coals spread within the evening: the rush is fed as seldom as it can be. None where it does not even hold fed as planned.
fn spread_within(bench: &Bench, trial: &Trial, at: ClockS) -> Option<SpreadIdea> {
    let spreading = bench.spreading(at, SPREAD_FOR_S);
    let player = Player::new(&spreading);
    let every = |minutes: u32| {
        let mut cadence = Cadence { evening: spreading.evening, ..trial.cadence.clone() };
        cadence.every_s[Stretch::Rush as usize] = f64::from(minutes) * MINUTE_S;
        cadence
    };
    let from = in_minutes(trial.cadence.every_s[Stretch::Rush as usize]);
    let holds = |minutes: u32| player.try_out(&every(minutes)).holds();
    holds(from).then(|| idea(bench, trial, at, &every(farthest(from, MOST_EVERY_MIN, holds))))
}

/// A lull before the rush or within it, long enough for the coals to be spread and raked back: no order falls into it.
fn lull(bench: &Bench) -> Option<ClockS> {
    let evening = &bench.evening;
    let ordered = orders(&bench.ready.scenario);
    let lasts_s = SPREAD_FOR_S + RAKED_BEFORE_S;
    let quiet = |at: f64| !ordered.iter().any(|order| (at..at + lasts_s).contains(&order.at_s));
    let quarters = ((evening.rush[1] - evening.first_order) / QUARTER_S).max(0.0) as u32;
    let times = (1..quarters).map(|quarter| evening.first_order + f64::from(quarter) * QUARTER_S);
    // The last one: what the stone takes up then is there when it is wanted.
    times.rev().find(|&at| at + lasts_s <= evening.rush[1] && quiet(at))
}
