//! Owns the search for the rest of an evening from an oven as it stands: which pieces are left out, which come earlier or closer, and
//! what of it is worth doing.

use super::cadence::{Cadence, Fed, Phase, Stretch, feeds_of};
use super::light_up::MOST_EVERY_MIN;
use super::trial::{FIRE_RESERVE, Leans, Trial};
use crate::hearth::oven::Hearth;
use crate::scenario::{ClockS, FeedPhase, SpreadCoals};
use crate::service::judge::{CATCHING_S, Judgement, judge};
use crate::service::night::{Keep, Ready, run};
use crate::service::orders::Order;
use crate::service::trace::{Bake, Quarter, Trace};
use crate::units::time::{MINUTE_S, QUARTER_S};

/// Intervals are tried in steps of a twentieth of the plan's.
const FINENESS: f64 = 0.05;
/// Of hot stone they are tried longer in steps of a tenth of the plan's, up to twice as long.
const SLOWER: f64 = 0.1;
const SLOWER_STEPS: u32 = 10;
/// More wood is worth it from one load more in its band on, or so many minutes of waiting less, s. Our choice.
const WORTH_S: f64 = 300.0;

/// So many loads of all find another spot by chance, share. Our choice.
const CHANCE_SHARE: f64 = 0.01;

/// One feed with the stretch it belongs to.
pub type Feed = (Stretch, Fed);

/// What the cook goes by: the plan, or the feeding as typed where no plan carries.
#[derive(Clone, Debug)]
pub struct Course {
    /// The match, the evening, coals spread.
    pub cadence: Cadence,
    /// Its stretches.
    pub phases: Vec<Phase>,
    /// Whether a plan of the whole evening carries.
    pub planned: bool,
}

impl Course {
    /// The feeds, by time.
    #[must_use]
    pub fn feeds(&self) -> Vec<Feed> {
        self.phases.iter().flat_map(|p| feeds_of(&p.feed).into_iter().map(|fed| (p.stretch, fed))).collect()
    }
}

/// The oven as it stands at the reading, and what is still to be baked.
pub struct Standing<'a> {
    /// The kitchen.
    pub ready: &'a Ready,
    /// The oven.
    pub hearth: Hearth<'a>,
    /// Orders still to be baked.
    pub left: Vec<Order>,
    /// What was baked until then and counts.
    pub baked: Vec<Bake>,
    /// The quarters until then.
    pub quarters: Vec<Quarter>,
    /// When.
    pub at: ClockS,
    /// What the cook goes by.
    pub course: &'a Course,
    /// What was fed since the reading.
    pub since: Vec<Fed>,
    /// The last piece before what is planned, if any.
    pub last: Option<ClockS>,
    /// Whether times of feeds were typed.
    pub told: bool,
    /// Shortest interval the doorway's air and the flame's reach bear, s.
    pub shortest_s: f64,
}

/// One rest of the evening.
#[derive(Clone, Debug)]
pub struct Rest {
    /// Its feeds.
    pub feeds: Vec<Feed>,
    /// How it went; judged with what was baked before where the evening has a plan.
    pub trial: Trial,
    /// Its fire beyond what a plan may use, share; none within.
    pub beyond: f64,
    /// Loads outside their bands and orders never started.
    missed: usize,
    /// Waiting beyond what is promised, added up, s.
    late_s: f64,
}

impl Rest {
    /// Whether it is better than another by enough to burn more wood for.
    fn is_worth(&self, than: &Self) -> bool {
        if (self.beyond > 0.0) != (than.beyond > 0.0) {
            return than.beyond > 0.0;
        }
        self.missed < than.missed || (self.missed == than.missed && self.late_s + WORTH_S <= than.late_s)
    }

    /// Whether it is no worse than another, but for chance.
    fn is_as_good(&self, than: &Self) -> bool {
        let chance = (CHANCE_SHARE * self.trial.trace.bakes.len() as f64).floor() as usize;
        self.beyond <= than.beyond && self.missed <= than.missed + chance
    }
}

/// Which way a reading lies of the plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lies {
    /// Nothing a gun tells apart.
    Near,
    /// Colder.
    Under,
    /// Hotter.
    Over,
}

impl Standing<'_> {
    /// The latest moment a piece still acts on the last order.
    #[must_use]
    pub fn last_useful(&self) -> ClockS {
        self.course.cadence.evening.last_useful_feed()
    }

    /// The plan's own feeds from here on; after pieces that were fed otherwise, by its rhythm from the last of them. What was typed and
    /// is no plan may be denser than the oven bears, and is not gone on with so.
    #[must_use]
    pub fn as_planned(&self) -> Vec<Feed> {
        if self.told || !self.course.planned {
            let until = self.course.feeds().last().map_or(f64::NEG_INFINITY, |feed| feed.1.at + 1.0);
            let next = |every_s: f64| self.last.map_or(self.at, |last| (last + every_s).max(self.at));
            return self.rhythm(next, 1.0, until.min(self.last_useful()));
        }
        self.course.feeds().into_iter().filter(|feed| feed.1.at >= self.at).collect()
    }

    /// Feeds by the plan's intervals taken by a factor, never denser than the oven bears or the plan has it, none at `until` or after.
    fn rhythm(&self, first: impl Fn(f64) -> ClockS, factor: f64, until: ClockS) -> Vec<Feed> {
        let phases = &self.course.phases;
        let mut feeds = Vec::new();
        let mut at = f64::NEG_INFINITY;
        let spread = self.course.cadence.evening.spread;
        for (place, phase) in phases.iter().enumerate() {
            let is_last = place + 1 == phases.len();
            if phase.feed.to <= self.at && !is_last {
                continue;
            }
            let least_s = if self.course.planned { self.shortest_s.min(phase.feed.every_s) } else { self.shortest_s };
            let every_s = (factor * phase.feed.every_s / MINUTE_S).round() * MINUTE_S;
            let every_s = every_s.clamp(least_s, least_s.max(f64::from(MOST_EVERY_MIN) * MINUTE_S));
            at = if at.is_finite() {
                at
            } else {
                first(every_s).max(if self.last.is_some() { 0.0 } else { phase.feed.from })
            };
            let end = if is_last { until } else { phase.feed.to.min(until) };
            while at < end - 1e-6 {
                // Nothing is put on spread coals.
                let lies = spread.filter(|[from, to]| (*from..*to).contains(&at));
                at = lies.map_or(at, |[_, to]| to);
                if at < end - 1e-6 {
                    feeds.push((phase.stretch, Fed { at, pieces: phase.feed.pieces }));
                }
                at += every_s;
            }
        }
        feeds
    }

    /// Plays the rest of the evening by some feeds.
    #[must_use]
    pub fn rest(&self, feeds: Vec<Feed>) -> Rest {
        let since = self.since.iter().map(|fed| one_feed(*fed));
        let phases: Vec<FeedPhase> = since.chain(feeds.iter().map(|feed| one_feed(feed.1))).collect();
        let ready = self.ready.with(|s| s.feeding.phases = phases);
        let trace = run(&ready, &mut self.hearth.clone(), self.left.clone(), Keep::default());
        let judgement = self.judged(&ready, &trace);
        let scenario = &ready.scenario;
        // A fire smokes while it catches.
        let caught = self.course.cadence.light_at + CATCHING_S;
        let counted = trace.quarters.iter().filter(|q| q.at_s >= caught);
        let most = counted.map(|q| q.reach.max(q.air_used).max(q.hard_limit_used)).fold(0.0, f64::max);
        let started = trace.bakes.iter().filter(|bake| !bake.in_band).count();
        let late = |bake: &Bake| (bake.wait_s() - scenario.promise.wait_p90_s).max(0.0);
        Rest {
            beyond: (most - (1.0 - FIRE_RESERVE)).max(0.0),
            missed: started + trace.never_started.iter().sum::<u32>() as usize,
            late_s: trace.bakes.iter().map(late).sum(),
            trial: Trial { cadence: self.course.cadence.clone(), trace, judgement, lost: None },
            feeds,
        }
    }

    /// Promises are kept over a whole evening: of one that has a plan, what was baked until now counts, as planned. What is still to
    /// come may hold them by itself.
    fn judged(&self, ready: &Ready, rest: &Trace) -> Judgement {
        let alone = judge(ready, rest);
        if alone.carries() || !self.course.planned {
            return alone;
        }
        // What the fire used before is past.
        let past = |q: &Quarter| Quarter { reach: 0.0, air_used: 0.0, hard_limit_used: 0.0, ..q.clone() };
        let whole = Trace {
            bakes: self.baked.iter().chain(&rest.bakes).cloned().collect(),
            quarters: self.quarters.iter().map(past).chain(rest.quarters.iter().cloned()).collect(),
            ..rest.clone()
        };
        judge(ready, &whole)
    }

    /// The rest of the evening for a reading: the plan where it agrees or nothing better is found; of hotter stone pieces are left
    /// out, of colder stone they come earlier and closer, as far as that helps.
    #[must_use]
    pub fn replanned(&self, lies: Lies, off_course: bool) -> Rest {
        let kept = self.rest(self.as_planned());
        let fire = kept.beyond > 0.0;
        match lies {
            Lies::Near if !off_course => kept,
            _ if fire => self.calmed(kept),
            Lies::Over => self.waited(kept),
            _ if kept.trial.holds() => kept,
            Lies::Near if kept.trial.leans() == Leans::Hot => self.waited(kept),
            _ => self.fed_more(kept),
        }
    }

    /// Whether there is a flame to put the next piece on: not after too long a gap.
    fn has_flame_for(&self, feeds: &[Feed]) -> bool {
        let before = self.last.unwrap_or(self.at);
        let gap_s = feeds.first().map_or(0.0, |feed| feed.1.at - before);
        gap_s <= f64::from(MOST_EVERY_MIN) * MINUTE_S || before >= self.at
    }

    /// Leaves out the next pieces, or feeds more slowly to the end: a late lull wants its flame, though the stone be hot. Never more
    /// wood than planned; of what holds the least wood, and where nothing does what spares most loads.
    fn waited(&self, kept: Rest) -> Rest {
        let pieces = |feeds: &[Feed]| feeds.iter().map(|feed| feed.1.pieces).sum::<f64>();
        let first = kept.clone();
        let skips = (1..=first.feeds.len()).map(|skipped| first.feeds[skipped..].to_vec());
        let next = |every_s: f64| self.last.map_or(self.at, |last| (last + every_s).max(self.at));
        let slower =
            (1..=SLOWER_STEPS).map(|step| self.rhythm(next, 1.0 + f64::from(step) * SLOWER, self.last_useful()));
        let mut best = kept;
        for feeds in skips.filter(|left| self.has_flame_for(left)).chain(slower) {
            if pieces(&feeds) > pieces(&first.feeds) {
                continue;
            }
            let rest = self.rest(feeds);
            let is_better = match (rest.trial.holds(), best.trial.holds()) {
                (true, true) => rest.is_as_good(&first) && pieces(&rest.feeds) < pieces(&best.feeds),
                (false, false) => rest.is_worth(&best),
                (holds, _) => holds,
            };
            if is_better {
                best = rest;
            }
        }
        best
    }

    /// Leaves out the next pieces of a fire beyond its limits: the fewest that make the rest hold, else those that spare most loads.
    fn calmed(&self, kept: Rest) -> Rest {
        let (planned, held) = (kept.feeds.clone(), kept.trial.holds());
        let first = kept.clone();
        let mut best = kept;
        for skipped in 1..=planned.len() {
            let left = planned[skipped..].to_vec();
            if !self.has_flame_for(&left) {
                continue;
            }
            let rest = self.rest(left);
            let holds = rest.trial.holds();
            // Once one does not hold any more, more of them do not; one that was not as good may be chance.
            let is_last = held != holds;
            // A fire beyond its limits is fed nothing until it has drawn back.
            let calms = first.beyond > 0.0 && planned[skipped - 1].1.at < self.at + QUARTER_S;
            let is_better = calms || if held { rest.is_as_good(&first) } else { rest.is_worth(&best) };
            if (held && holds && is_better) || (!held && (is_better || holds)) {
                best = rest;
            }
            if is_last {
                break;
            }
        }
        best
    }

    /// Feeds earlier and more often, the least first, until the rest holds; where none does, what spares most loads.
    fn fed_more(&self, kept: Rest) -> Rest {
        let soonest = self.since.last().map(|fed| fed.at).or(self.last).map_or(self.at, |last| last + self.shortest_s);
        let (soonest, until) = (soonest.max(self.at), self.last_useful());
        if soonest >= until {
            return kept;
        }
        let mut earlier = vec![(Stretch::Tail, Fed { at: soonest, pieces: self.course.cadence.pieces })];
        if let Some(next) = kept.feeds.first() {
            earlier[0] = (next.0, Fed { at: soonest, pieces: next.1.pieces });
        }
        earlier.extend(kept.feeds.iter().copied().filter(|feed| feed.1.at >= soonest + self.shortest_s));
        let steps = (1.0 / FINENESS) as u32;
        let closer = (0..steps).map(|step| self.rhythm(|_| soonest, 1.0 - f64::from(step) * FINENESS, until));
        let mut before = Vec::new();
        let mut best = kept;
        for feeds in std::iter::once(earlier).chain(closer) {
            if feeds == before {
                continue;
            }
            before.clone_from(&feeds);
            let rest = self.rest(feeds);
            // Denser burns no cleaner, and what holds needs no more.
            let is_last = rest.trial.holds() || rest.beyond > 0.0;
            if rest.trial.holds() || rest.is_worth(&best) {
                best = rest;
            }
            if is_last {
                break;
            }
        }
        best
    }
}

/// A stretch with one feed in it.
#[must_use]
pub fn one_feed(fed: Fed) -> FeedPhase {
    FeedPhase { from: fed.at, to: fed.at + MINUTE_S, every_s: MINUTE_S, pieces: fed.pieces }
}

/// Feeds as stretches a cook can remember: those of one stretch that follow each other by one interval. A feed alone stands for the
/// time until the next, the last one until `until`.
#[must_use]
pub fn stretches(feeds: &[Feed], until: ClockS) -> Vec<Phase> {
    let gap = |place: usize| {
        let next =
            feeds.get(place + 1).filter(|next| next.0 == feeds[place].0 && same(next.1.pieces, feeds[place].1.pieces));
        next.map(|next| next.1.at - feeds[place].1.at)
    };
    let mut phases = Vec::new();
    let mut place = 0;
    while place < feeds.len() {
        let (stretch, first) = feeds[place];
        let every_s = gap(place);
        let mut last = place;
        while let (Some(every_s), Some(next_s)) = (every_s, gap(last))
            && same(every_s, next_s)
        {
            last += 1;
        }
        // Two that are closer than what comes after them are no rhythm.
        if last == place + 1 && gap(last).is_some() {
            last = place;
        }
        let next = feeds.get(last + 1).map_or(until, |next| next.1.at).max(feeds[last].1.at + MINUTE_S);
        let (to, every_s) = match every_s.filter(|_| last > place) {
            Some(every_s) => (feeds[last].1.at + every_s, every_s),
            None => (next, next - first.at),
        };
        phases.push(Phase { stretch, feed: FeedPhase { from: first.at, to, every_s, pieces: first.pieces } });
        place = last + 1;
    }
    phases
}

fn same(a: f64, b: f64) -> bool {
    (a - b).abs() < 1.0
}

/// Whether coals lie spread at a moment, and until when.
#[must_use]
pub fn spread_until(spread: &[SpreadCoals], at: ClockS) -> Option<ClockS> {
    spread.iter().find(|s| (s.at..s.at + s.for_s).contains(&at)).map(|s| s.at + s.for_s)
}
