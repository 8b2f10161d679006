//! Owns the plan from where the cook is now: the oven set to a reading in mid-service, the rest of the evening planned again,
//! and what to do in the next quarter hour.

use super::cadence::Cadence;
use super::cadence::{Fed, Phase, feeds_of};
use super::fire::{PhaseMargin, margin};
use super::light_up::{Keenest, MOST_EVERY_MIN};
use super::rest::{coolest_side, helps};
use super::sheet::{ACT_AT_K, GUN_WITHIN_K, Side};
use super::trial::{Bench, Leans, Trial};
use crate::hearth::oven::Hearth;
use crate::scenario::{ClockS, FeedPhase, FloorReading};
use crate::service::judge::{Resource, judge};
use crate::service::night::{Keep, Ready, run, run_until};
use crate::service::orders::{Order, orders};
use crate::service::trace::Trace;
use crate::units::time::{MINUTE_S, QUARTER_S};

/// What the cook says.
#[derive(Clone, Debug, PartialEq)]
pub struct Now {
    /// When the floor was read.
    pub at: ClockS,
    /// The reading, degC: mean of the food floor, as this kitchen reads it.
    pub floor_c: f64,
    /// What was fed lately or since, where it differs from the plan.
    pub fed: Vec<ClockS>,
}

/// Tickets of a dish to hold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hold {
    /// Index of the dish.
    pub dish: usize,
    /// Until then; `None` where its floor does not come back this evening.
    pub until: Option<ClockS>,
}

/// The plan from now on.
#[derive(Clone, Debug)]
pub struct FromNow {
    /// When.
    pub at: ClockS,
    /// The reading, degC.
    pub floor_c: f64,
    /// What the plan expected then, degC.
    pub expected_c: f64,
    /// Whether the plan is kept as it was.
    pub keeps_plan: bool,
    /// Whether the rest of the evening holds its promises.
    pub holds: bool,
    /// What gives first where it does not.
    pub gives: Option<Resource>,
    /// The rest of the evening's stretches with their margins.
    pub evening: Vec<PhaseMargin>,
    /// The rest of the evening as it was run.
    pub trial: Trial,
    /// Feeds of the next quarter hour.
    pub feed_next: Vec<Fed>,
    /// Tickets to hold.
    pub hold: Vec<Hold>,
    /// The side to rest, if a gun could tell.
    pub rest: Option<Side>,
}

/// Tickets are not held for less than this, s. Our choice.
const HELD_S: f64 = 300.0;
/// Two pieces never follow each other closer than this, s. Our choice.
const LEAST_GAP_S: f64 = 300.0;
/// What lies on the floor at the reading counts as still to be baked while it has had less than this share of its known time.
const STILL_TO_BAKE: f64 = 0.5;
/// Intervals are tried in steps of a twentieth of the plan's.
const FINENESS: f64 = 0.05;
/// The slowest rhythm that is tried: this many times the plan's intervals. Our choice.
const SLOWEST: f64 = 2.5;

/// It is left to fall for at most this many quarter hours before the next piece. Our choice.
const WAIT_QUARTERS: u32 = 8;

/// The oven as it stands at the reading.
struct Standing<'a> {
    ready: &'a Ready,
    hearth: Hearth<'a>,
    left: Vec<Order>,
    at: ClockS,
    cadence: Cadence,
}

struct Rest {
    phases: Vec<Phase>,
    trial: Trial,
}

/// Plans the rest of an evening. `cadence` is the rhythm the evening began with.
#[must_use]
pub fn from_now(bench: &Bench, keen: Keenest, cadence: &Cadence, now: &Now) -> FromNow {
    let (at, plan) = (now.at, &cadence.phases()[..]);
    let begun = bench.ready.with(|s| s.feeding.phases = fed_so_far(plan, now, s.feeding.phases.first()));
    let mut hearth = Hearth::new(&begun.build, &begun.scenario);
    let all = orders(&begun.scenario);
    let early: Vec<Order> = all.iter().copied().filter(|o| o.at_s < at).collect();
    let trace = run_until(&begun, &mut hearth, early, Keep::default(), at);
    let expected_c = reading_c(&begun, &hearth);
    set_floor(&mut hearth, now.floor_c - expected_c);
    hearth.lay(&[], &begun.laws);
    hearth.open_ledger();
    let left = left_over(&begun, &all, &trace, at);
    let standing = Standing { ready: &begun, hearth, left, at, cadence: cadence.clone() };
    let room_c = standing.hearth.room_c();
    let faces: Vec<f64> = standing.hearth.faces_over_k().iter().map(|t| t + room_c).collect();
    let evening = standing.replanned(keen, plan, now, expected_c);
    // A side is rested only where playing it both ways says that it helps.
    let fed = begun.with(|s| s.feeding.phases = evening.phases.iter().map(|p| p.feed.clone()).collect());
    let rest = coolest_side(&begun.build.plan, &faces)
        .map(|side| side.0)
        .filter(|side| helps(&fed, &standing.hearth, &standing.left, *side));
    // Promises are kept over a whole evening. Where the reading is the plan's, so is their keeping: the rest by itself may be the
    // harder half.
    let agrees = now.fed.is_empty() && (now.floor_c - expected_c).abs() <= GUN_WITHIN_K;
    FromNow {
        at,
        floor_c: now.floor_c,
        expected_c,
        keeps_plan: evening.phases == remaining(plan, now, 1.0, None),
        holds: agrees || evening.trial.holds(),
        gives: if agrees { None } else { evening.trial.judgement.gives() },
        feed_next: feeds_next(&evening.phases, at),
        hold: standing.held(&evening.trial.trace),
        rest,
        evening: evening.phases.iter().map(|phase| margin(bench, &evening.trial, phase)).collect(),
        trial: evening.trial,
    }
}

/// The feeding up to the reading: the plan's, with what was truly fed in the place of what was planned from the first such
/// piece on.
fn fed_so_far(plan: &[Phase], now: &Now, like: Option<&FeedPhase>) -> Vec<FeedPhase> {
    let told_from = now.fed.iter().copied().fold(f64::INFINITY, f64::min);
    let pieces = plan.first().map(|p| p.feed.pieces).or_else(|| like.map(|p| p.pieces)).unwrap_or(1.0);
    let planned = plan.iter().flat_map(|p| feeds_of(&p.feed)).filter(|fed| fed.at < told_from.min(now.at));
    let told = now.fed.iter().filter(|&&at| at <= now.at).map(|&at| Fed { at, pieces });
    planned.chain(told).map(one_feed).collect()
}

/// A stretch with one feed in it.
fn one_feed(fed: Fed) -> FeedPhase {
    FeedPhase { from: fed.at, to: fed.at + MINUTE_S, every_s: MINUTE_S, pieces: fed.pieces }
}

/// Mean of the food floor as this kitchen reads it, degC.
fn reading_c(ready: &Ready, hearth: &Hearth<'_>) -> f64 {
    let FloorReading::Probe { depth_m } = ready.scenario.oven.reading else { return hearth.food_floor_c() };
    let cells = &ready.build.plan.cells;
    let food = || (0..cells.len()).filter(|&i| !cells[i].under_fire);
    let area: f64 = food().map(|i| cells[i].area_m2).sum();
    food().map(|i| cells[i].area_m2 * hearth.floor.at_depth_k(i, depth_m)).sum::<f64>() / area + hearth.room_c()
}

/// Shifts the floor by a difference that is whole through the stone and fades to nothing at the back; its shape is kept.
fn set_floor(hearth: &mut Hearth<'_>, by_k: f64) {
    let depth = &hearth.floor.grid().depth_m;
    let joint = depth[hearth.build.underside];
    let behind = (depth[depth.len() - 1] - joint).max(f64::MIN_POSITIVE);
    let share = |x: f64| if x <= joint { 1.0 } else { 1.0 - (x - joint) / behind };
    let shift: Vec<f64> = depth.iter().map(|&x| share(x) * by_k).collect();
    hearth.floor.add(&shift);
}

/// Orders still to be baked at the reading: those to come, those that wait, and those that only just went in.
#[must_use]
pub fn left_over(ready: &Ready, all: &[Order], trace: &Trace, at: ClockS) -> Vec<Order> {
    let mut started = vec![0_usize; ready.scenario.menu.len()];
    for bake in &trace.bakes {
        let known_s = ready.scenario.menu[bake.dish].known_bake.time_s;
        let just_in = bake.to_s.is_none() && at - bake.from_s < STILL_TO_BAKE * known_s;
        if !just_in {
            started[bake.dish] += 1;
        }
    }
    // Orders of a dish are started oldest first, so the first ones are the ones that are gone.
    all.iter()
        .copied()
        .filter(|order| {
            let gone = order.at_s < at && started[order.dish] > 0;
            if gone {
                started[order.dish] -= 1;
            }
            !gone
        })
        .collect()
}

fn feeds_next(phases: &[Phase], at: ClockS) -> Vec<Fed> {
    let feeds = phases.iter().flat_map(|p| feeds_of(&p.feed));
    feeds.filter(|fed| (at..at + QUARTER_S).contains(&fed.at)).collect()
}

impl Standing<'_> {
    /// The rest of the evening with the plan's intervals taken by a factor.
    fn rest(&self, plan: &[Phase], now: &Now, factor: f64, help_until: Option<ClockS>) -> Rest {
        let phases = remaining(plan, now, factor, help_until);
        let ready = self.ready.with(|s| s.feeding.phases = phases.iter().map(|p| p.feed.clone()).collect());
        let mut hearth = self.hearth.clone();
        let trace = run(&ready, &mut hearth, self.left.clone(), Keep::default());
        let judgement = judge(&ready, &trace);
        Rest { phases, trial: Trial { cadence: self.cadence.clone(), trace, judgement, lost: None } }
    }

    /// Keeps the plan where the reading agrees with it or nothing is gained; else the laziest factor that holds, else the keenest
    /// the fire's limits allow.
    fn replanned(&self, keen: Keenest, plan: &[Phase], now: &Now, expected_c: f64) -> Rest {
        let kept = self.rest(plan, now, 1.0, None);
        let off_k = now.floor_c - expected_c;
        if off_k.abs() <= GUN_WITHIN_K {
            return kept;
        }
        if kept.trial.holds() {
            let steps = ((SLOWEST - 1.0) / FINENESS) as u32;
            let mut best = kept;
            if off_k > 0.0 {
                super::laziest::farthest(0, steps, |step| {
                    let factor = 1.0 + f64::from(step) * FINENESS;
                    self.better(&mut best, self.rest(plan, now, factor, None))
                });
            }
            return best;
        }
        if off_k >= ACT_AT_K {
            return self.wait(plan, now).unwrap_or(kept);
        }
        let to_come = plan.iter().filter(|p| p.feed.to > now.at);
        let shortest = to_come.map(|p| p.feed.every_s).fold(f64::INFINITY, f64::min);
        let keenest = (f64::from(keen.every_min) * MINUTE_S / shortest).min(1.0);
        let help_until = Some(self.cadence.evening.last_order - LEAST_GAP_S);
        let mut least = 1.0 + FINENESS;
        let mut last = kept;
        while least - FINENESS >= keenest - 1e-9 {
            least -= FINENESS;
            let rest = self.rest(plan, now, least, help_until);
            let leans = rest.trial.leans();
            if leans == Leans::Hot {
                return last;
            }
            let done = leans == Leans::Holds;
            last = rest;
            if done {
                return last;
            }
        }
        last
    }

    /// A floor far over the plan is left to fall: the least wait before the next piece that holds, else the longest.
    fn wait(&self, plan: &[Phase], now: &Now) -> Option<Rest> {
        let mut last = None;
        for quarters in 1..=WAIT_QUARTERS {
            let later = Now { at: now.at + f64::from(quarters) * QUARTER_S, ..now.clone() };
            let rest = self.rest(plan, &later, 1.0, None);
            let done = rest.trial.holds();
            last = Some(rest);
            if done {
                break;
            }
        }
        last
    }

    fn better(&self, best: &mut Rest, rest: Rest) -> bool {
        let holds = rest.trial.holds();
        if holds {
            *best = rest;
        }
        holds
    }

    /// Dishes whose orders of the next quarter hour would wait for their floor, and until when.
    fn held(&self, trace: &Trace) -> Vec<Hold> {
        let soon = self.at + QUARTER_S;
        let mut holds = Vec::new();
        for dish in 0..self.ready.scenario.menu.len() {
            let ordered = |at: f64| at < soon;
            let late = trace.bakes.iter().filter(|b| b.dish == dish && ordered(b.ordered_s));
            let waits = |b: &&crate::service::trace::Bake| b.from_s - b.ordered_s.max(self.at) > HELD_S || !b.in_band;
            let first_good = trace.bakes.iter().find(|b| b.dish == dish && b.in_band).map(|b| b.from_s);
            let never = trace.bakes.iter().all(|b| b.dish != dish)
                && self.left.iter().any(|o| o.dish == dish && ordered(o.at_s));
            let is_short = first_good.is_some_and(|t| t - self.at < HELD_S);
            if never || (!is_short && late.clone().any(|b| waits(&b))) {
                holds.push(Hold { dish, until: first_good });
            }
        }
        holds
    }
}

/// The plan's stretches from the reading on, each interval taken by a factor and rounded to whole minutes. The next piece comes
/// when the plan has it, or one (new) interval after the last, and at once where that is past. Where help is needed it comes at
/// once, and feeding goes on until `help_until`.
fn remaining(plan: &[Phase], now: &Now, factor: f64, help_until: Option<ClockS>) -> Vec<Phase> {
    let told = now.fed.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let planned = plan.iter().flat_map(|p| feeds_of(&p.feed)).map(|fed| fed.at).filter(|&at| at < now.at);
    let last = if told.is_finite() { told } else { planned.fold(f64::NEG_INFINITY, f64::max) };
    let mut plan = plan.to_vec();
    if let (Some(until), Some(last_phase)) = (help_until, plan.last_mut()) {
        last_phase.feed.to = last_phase.feed.to.max(until);
    }
    let mut at = f64::NEG_INFINITY;
    let mut phases = told_since(&plan, now);
    for phase in plan.iter().filter(|p| p.feed.to > now.at) {
        let every_s = ((factor * phase.feed.every_s / MINUTE_S).round() * MINUTE_S)
            .clamp(MINUTE_S, f64::from(MOST_EVERY_MIN) * MINUTE_S);
        if at.is_infinite() {
            at = if last.is_finite() { last + every_s } else { phase.feed.from };
            if help_until.is_some() {
                at = last + LEAST_GAP_S;
            }
            at = at.max(now.at);
        }
        let feeds = ((phase.feed.to - at) / every_s).ceil();
        if feeds >= 1.0 {
            let to = at + feeds * every_s;
            let feed = FeedPhase { from: at, to, every_s, pieces: phase.feed.pieces };
            phases.push(Phase { stretch: phase.stretch, feed });
            at = to;
        }
    }
    phases
}

/// What was fed since the reading, as stretches of one feed each.
fn told_since(plan: &[Phase], now: &Now) -> Vec<Phase> {
    let Some(like) = plan.iter().find(|p| p.feed.to > now.at).or_else(|| plan.last()) else { return Vec::new() };
    let since = now.fed.iter().filter(|&&at| at > now.at);
    since.map(|&at| Phase { stretch: like.stretch, feed: one_feed(Fed { at, pieces: like.feed.pieces }) }).collect()
}
