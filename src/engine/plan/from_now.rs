//! Owns the plan from where the cook is now: the oven set to a reading in mid-service, the rest of the evening planned again,
//! and what to do in the next quarter hour.

use super::cadence::{Cadence, Evening, Fed, Phase, Stretch};
use super::fire::{PhaseMargin, margin, search};
use super::light_up::Keenest;
use super::reading::{Differs, shown_c, take};
use super::replan::{Course, Feed, Lies, Rest, Standing, one_feed, spread_until, stretches};
use super::rest::{coolest_side, helps};
use super::sheet::{GUN_WITHIN_K, Side};
use super::trial::{Bench, Trial};
use crate::hearth::oven::Hearth;
use crate::scenario::{ClockS, FeedPhase, Feeding};
use crate::service::judge::Resource;
use crate::service::night::{Keep, Ready, run_until};
use crate::service::orders::{Order, orders};
use crate::service::trace::{Bake, Trace};
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
    /// When the plan had pieces that were not fed then.
    pub skipped: Vec<ClockS>,
}

/// Tickets of a dish to hold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hold {
    /// Index of the dish.
    pub dish: usize,
    /// Until then; `None` where its floor does not come back this evening.
    pub until: Option<ClockS>,
}

/// What is taken as fed until the reading.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FedSoFar {
    /// As planned, without anybody having said so.
    pub assumed: Vec<Fed>,
    /// As typed.
    pub told: Vec<Fed>,
    /// Planned at or after the first that was typed, and not typed: taken as not fed.
    pub left_out: Vec<Fed>,
    /// Planned before that, and told as not fed then.
    pub skipped: Vec<Fed>,
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
    /// What is taken as fed until then.
    pub fed: FedSoFar,
    /// How the oven is taken to differ; `None` where the reading agrees.
    pub differs: Option<Differs>,
    /// The match, where it is still to be struck.
    pub light_at: Option<ClockS>,
    /// Until when coals lie spread, where they do: a gun shows nothing of the floor then.
    pub spread_until: Option<ClockS>,
    /// Whether the whole evening had a plan; else the feeding as typed is gone on from.
    pub planned: bool,
    /// Whether the plan is kept as it was.
    pub keeps_plan: bool,
    /// Whether the rest of the evening holds its promises.
    pub holds: bool,
    /// What gives first where it does not.
    pub gives: Option<Resource>,
    /// The rest of the evening's stretches with their margins.
    pub evening: Vec<PhaseMargin>,
    /// Margins of all that is still to come.
    pub all: PhaseMargin,
    /// Whether the fire goes beyond what a plan may use, whatever is fed from here on.
    pub beyond: bool,
    /// The rest of the evening as it was run.
    pub trial: Trial,
    /// Feeds of the next quarter hour.
    pub feed_next: Vec<Fed>,
    /// The next feed of all, if any.
    pub next: Option<Fed>,
    /// Pieces the plan has before the next one that are left out.
    pub skipped: Vec<Fed>,
    /// From then on no piece acts on the last order.
    pub last_useful: ClockS,
    /// Tickets to hold.
    pub hold: Vec<Hold>,
    /// Whether the floor is hotter than planned and yet no piece is left out.
    pub runs_hot: bool,
    /// Dishes still to be baked for which the floor is too hot on the whole, and until when.
    pub too_hot: Vec<Hold>,
    /// Orders still to be baked.
    pub left: usize,
    /// The side to rest, if a gun could tell.
    pub rest: Option<Side>,
}

/// Tickets are not held for less than this, s. Our choice.
const HELD_S: f64 = 300.0;
/// A piece that was skipped is the plan's nearest, if it is nearer than this, s: a rest that was planned again has its own times.
const SKIPPED_NEAR_S: f64 = QUARTER_S;
/// One that was typed is the plan's of so many seconds before or after.
const TYPED_NEAR_S: f64 = 0.5 * HELD_S;
/// What lies on the floor at the reading counts as still to be baked while it has had less than this share of its known time.
const STILL_TO_BAKE: f64 = 0.5;

impl Course {
    /// What a plan that carries has.
    #[must_use]
    pub fn planned(cadence: &Cadence) -> Self {
        Self { phases: cadence.phases(), cadence: cadence.clone(), planned: true }
    }

    /// Where no plan carries: the feeding as typed, or that of the closest evening where none was typed.
    #[must_use]
    pub fn typed(bench: &Bench, closest: &Cadence) -> Self {
        let feeding = &bench.ready.scenario.feeding;
        if feeding.phases.is_empty() {
            return Self { planned: false, ..Self::planned(closest) };
        }
        let [rush_from, rush_to] = bench.evening.rush;
        let stretch = |from: ClockS| match from {
            from if from < bench.evening.first_order => Stretch::LightUp,
            from if from < rush_from => Stretch::ToRush,
            from if from < rush_to => Stretch::Rush,
            _ => Stretch::Tail,
        };
        let phases = feeding.phases.iter().map(|feed| Phase { stretch: stretch(feed.from), feed: feed.clone() });
        let pieces = feeding.phases[0].pieces;
        let cadence = Cadence { light_at: feeding.light_at, evening: bench.evening, pieces, ..closest.clone() };
        Self { phases: phases.collect(), cadence, planned: false }
    }
}

impl FedSoFar {
    /// The course's feeds before the reading but for the skipped ones; from the first typed one on what was typed in their place.
    fn of(course: &Course, now: &Now) -> Self {
        let told_from = now.fed.iter().copied().fold(f64::INFINITY, f64::min);
        let before = course.feeds().into_iter().map(|feed| feed.1).filter(|fed| fed.at < now.at);
        let before: Vec<Fed> = before.collect();
        // One that was typed within a few minutes of the plan's is that one.
        let is_told = |fed: &Fed| now.fed.iter().any(|at| (at - fed.at).abs() <= TYPED_NEAR_S);
        let is_skipped = |fed: &Fed| {
            let nearest =
                |at: f64| before.iter().map(move |other| (other.at - at).abs()).fold(SKIPPED_NEAR_S, f64::min);
            now.skipped.iter().any(|&at| (fed.at - at).abs() <= nearest(at))
        };
        let (early, replaced): (Vec<Fed>, Vec<Fed>) = before.iter().partition(|fed| fed.at < told_from);
        let (skipped, assumed) = early.into_iter().filter(|fed| !is_told(fed)).partition(is_skipped);
        let pieces = course.cadence.pieces;
        let mut told: Vec<Fed> =
            now.fed.iter().filter(|&&at| at <= now.at).map(|&at| Fed { at, pieces: 1.0_f64.max(pieces) }).collect();
        crate::numerics::order::by(&mut told, |a, b| a.at.total_cmp(&b.at));
        Self { assumed, left_out: replaced.into_iter().filter(|fed| !is_told(fed)).collect(), skipped, told }
    }

    fn phases(&self) -> Vec<FeedPhase> {
        self.assumed.iter().chain(&self.told).map(|fed| one_feed(*fed)).collect()
    }
}

/// Plans the rest of an evening by a course. `keen` is how fast this oven may be fed.
#[must_use]
pub fn from_now(bench: &Bench, keen: Keenest, course: &Course, now: &Now) -> FromNow {
    let at = now.at;
    let fed = FedSoFar::of(course, now);
    let begun = bench.ready.with(|s| {
        s.feeding = Feeding { light_at: course.cadence.light_at, phases: fed.phases(), ..s.feeding.clone() };
    });
    let mut hearth = Hearth::new(&begun.build, &begun.scenario);
    let all = orders(&begun.scenario);
    let early: Vec<Order> = all.iter().copied().filter(|o| o.at_s < at).collect();
    let trace = run_until(&begun, &mut hearth, early, Keep::default(), at);
    let expected_c = shown_c(&begun, &hearth);
    let off_k = now.floor_c - expected_c;
    let lies = match off_k {
        off if off < -GUN_WITHIN_K => Lies::Under,
        off if off > GUN_WITHIN_K => Lies::Over,
        _ => Lies::Near,
    };
    // A reading that agrees within the gun's own error says nothing new.
    let differs = (lies != Lies::Near)
        .then(|| take(&begun, &mut hearth, now.floor_c, course.cadence.light_at.max(begun.scenario.start.read_at)));
    hearth.lay(&[], &begun.laws);
    hearth.open_ledger();
    let mut since: Vec<Fed> =
        now.fed.iter().filter(|&&fed| fed > at).map(|&at| Fed { at, pieces: course.cadence.pieces }).collect();
    crate::numerics::order::by(&mut since, |a, b| a.at.total_cmp(&b.at));
    let last = since.iter().chain(&fed.told).chain(&fed.assumed).map(|fed| fed.at).reduce(f64::max);
    let standing = Standing {
        ready: &begun,
        hearth,
        left: left_over(&begun, &all, &trace, at),
        baked: trace.bakes.iter().filter(|bake| !is_just_in(&begun, bake, at)).cloned().collect(),
        quarters: trace.quarters,
        at,
        course,
        since,
        last,
        told: !now.fed.is_empty(),
        // More pieces at once than that was found for want as much more time.
        shortest_s: f64::from(keen.every_min) * MINUTE_S * (course.cadence.pieces / keen.pieces).max(1.0),
    };
    let rest = standing.replanned(lies, !(now.fed.is_empty() && now.skipped.is_empty()));
    answer(bench, &standing, rest, Known { now, expected_c, fed, differs })
}

/// What is known before the rest is planned.
struct Known<'n> {
    now: &'n Now,
    expected_c: f64,
    fed: FedSoFar,
    differs: Option<Differs>,
}

fn answer(bench: &Bench, standing: &Standing<'_>, rest: Rest, known: Known<'_>) -> FromNow {
    let (at, course) = (standing.at, standing.course);
    let planned = standing.as_planned();
    let next_at = rest.feeds.first().map_or(f64::INFINITY, |feed| feed.1.at);
    let until = course.cadence.evening.last_order.max(at + QUARTER_S);
    let since = standing.since.iter().map(|fed| (rest.feeds.first().map_or(Stretch::Tail, |feed| feed.0), *fed));
    let feeds: Vec<Feed> = since.chain(rest.feeds.iter().copied()).collect();
    let phases = stretches(&feeds, until);
    let whole = Phase {
        stretch: Stretch::Tail,
        feed: FeedPhase { from: at, to: f64::INFINITY, every_s: MINUTE_S, pieces: course.cadence.pieces },
    };
    let holds = rest.trial.holds();
    let pieces = |feeds: &[Feed]| feeds.iter().map(|feed| feed.1.pieces).sum::<f64>();
    FromNow {
        at,
        floor_c: known.now.floor_c,
        expected_c: known.expected_c,
        fed: known.fed,
        differs: known.differs,
        light_at: Some(course.cadence.light_at).filter(|lit| *lit > at),
        spread_until: spread_until(&bench.ready.scenario.feeding.spread_coals, at),
        planned: course.planned,
        keeps_plan: rest.feeds == planned && !standing.told,
        holds,
        gives: if holds { None } else { rest.trial.judgement.gives() },
        evening: phases.iter().map(|phase| margin(bench, &rest.trial, phase)).collect(),
        all: margin(bench, &rest.trial, &whole),
        feed_next: feeds.iter().map(|feed| feed.1).filter(|fed| (at..at + QUARTER_S).contains(&fed.at)).collect(),
        next: feeds.first().map(|feed| feed.1),
        skipped: planned
            .iter()
            .map(|feed| feed.1)
            .filter(|fed| fed.at < next_at - 1.0 && rest.feeds.len() < planned.len())
            .collect(),
        last_useful: standing.last_useful(),
        hold: held(standing, &rest.trial.trace),
        runs_hot: known.now.floor_c - known.expected_c > GUN_WITHIN_K && pieces(&rest.feeds) >= pieces(&planned),
        too_hot: too_hot(standing, known.now.floor_c, &rest.trial.trace),
        left: standing.left.len(),
        rest: side_to_rest(standing, &rest),
        beyond: rest.beyond > 0.0,
        trial: rest.trial,
    }
}

/// A side is rested only where playing it both ways says that it helps.
fn side_to_rest(standing: &Standing<'_>, rest: &Rest) -> Option<Side> {
    let hearth = &standing.hearth;
    let room_c = hearth.room_c();
    let faces: Vec<f64> = hearth.faces_over_k().iter().map(|t| t + room_c).collect();
    let fed = standing.ready.with(|s| s.feeding.phases = rest.feeds.iter().map(|feed| one_feed(feed.1)).collect());
    coolest_side(&standing.ready.build.plan, &faces)
        .map(|side| side.0)
        .filter(|side| helps(&fed, hearth, &standing.left, *side))
}

/// The plan from a reading before the match: where it is off, a plan of its own from that floor on.
#[must_use]
pub fn before_the_match(rough: &Bench, fine: &Bench, keen: Keenest, course: &Course, now: &Now) -> FromNow {
    let morning = from_now(fine, keen, course, now);
    if morning.differs.is_none() {
        return morning;
    }
    let off_k = now.floor_c - morning.expected_c;
    let read = |bench: &Bench| {
        let ready = bench.ready.with(|s| {
            let dome_c = (s.start.dome_c + off_k).max(s.oven.room_c);
            (s.start.read_at, s.start.floor_c, s.start.dome_c) = (now.at, now.floor_c, dome_c);
        });
        let evening = Evening::of(&ready.scenario, &orders(&ready.scenario));
        Bench { ready, evening }
    };
    let (rough, fine) = (read(rough), read(fine));
    let (cadence, planned) = match search(&rough, &fine, keen) {
        Ok(trial) => (trial.cadence, true),
        Err(missed) => (missed.cadence, false),
    };
    let kept = cadence == course.cadence;
    let found = from_now(&fine, keen, &Course { planned, ..Course::planned(&cadence) }, now);
    FromNow { expected_c: morning.expected_c, differs: morning.differs, keeps_plan: kept, planned, ..found }
}

/// Whether a piece only just went in when the floor was read: then it is baked again in what is played on.
fn is_just_in(ready: &Ready, bake: &Bake, at: ClockS) -> bool {
    let known_s = ready.scenario.menu[bake.dish].known_bake.time_s;
    bake.to_s.is_none() && at - bake.from_s < STILL_TO_BAKE * known_s
}

/// Orders still to be baked at the reading: those to come, those that wait, and those that only just went in.
#[must_use]
pub fn left_over(ready: &Ready, all: &[Order], trace: &Trace, at: ClockS) -> Vec<Order> {
    let mut started = vec![0_usize; ready.scenario.menu.len()];
    for bake in trace.bakes.iter().filter(|bake| !is_just_in(ready, bake, at)) {
        started[bake.dish] += 1;
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

/// Dishes still to be baked whose band ends under the reading, and when the floor's mean has come down to it.
fn too_hot(standing: &Standing<'_>, read_c: f64, trace: &Trace) -> Vec<Hold> {
    let dishes = standing.ready.scenario.menu.iter().enumerate();
    let still =
        dishes.filter(|(dish, spec)| spec.floor_max_c < read_c && standing.left.iter().any(|o| o.dish == *dish));
    let cool = |most_c: f64| trace.quarters.iter().find(|q| q.mean_c <= most_c).map(|q| q.at_s + QUARTER_S);
    still.map(|(dish, spec)| Hold { dish, until: cool(spec.floor_max_c) }).collect()
}

/// Dishes whose orders of the next quarter hour would wait for their floor, and until when.
fn held(standing: &Standing<'_>, trace: &Trace) -> Vec<Hold> {
    let soon = standing.at + QUARTER_S;
    let ordered = |at: f64| at < soon;
    let mut holds = Vec::new();
    for dish in 0..standing.ready.scenario.menu.len() {
        let of_it = || trace.bakes.iter().filter(|b| b.dish == dish);
        let soon: Vec<&Bake> = of_it().filter(|b| ordered(b.ordered_s)).collect();
        let waits = |b: &&&Bake| b.from_s - b.ordered_s.max(standing.at) > HELD_S || !b.in_band;
        let waiting: Vec<&&Bake> = soon.iter().filter(waits).collect();
        let never = of_it().next().is_none() && standing.left.iter().any(|o| o.dish == dish && ordered(o.at_s));
        // Where most would wait, one that finds its spot in between does not make it worth loading the others.
        let mostly = 2 * waiting.len() > soon.len();
        let after = waiting.last().filter(|_| mostly).map_or(f64::NEG_INFINITY, |b| b.from_s);
        let until = of_it().find(|b| b.in_band && b.from_s > after).map(|b| b.from_s);
        let is_short = until.is_some_and(|t| t - standing.at < HELD_S);
        if never || (!is_short && !waiting.is_empty()) {
            holds.push(Hold { dish, until });
        }
    }
    holds
}
