//! Owns the rhythm of feeding: a match, and four stretches a cook can remember, each with one interval.

use crate::scenario::{ClockS, FeedPhase, Feeding, Scenario};
use crate::service::orders::Order;
use crate::units::time::QUARTER_S;

/// First pieces go on this long after the match, s: kindling must burn first. Common practice, no source (15-25 min).
pub const FIRST_FEED_S: f64 = 1200.0;
/// A piece acts on the floor about this long after it is fed, s: what is fed for a rush is fed this long before it. Seen in runs
/// of the model (20-40 min).
pub const ACTS_AFTER_S: f64 = 1800.0;
/// Quarter hours with at least this share of the busiest one's covers belong to the rush. Our choice.
const RUSH_SHARE: f64 = 0.75;
/// Times of a plan are cut to this, s.
pub const CLOCK_STEP_S: f64 = 300.0;

/// The stretches of a working day, in order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stretch {
    /// From the match until half an hour before the first order.
    LightUp,
    /// Until half an hour before the rush.
    ToRush,
    /// Until half an hour before the rush ends.
    Rush,
    /// Until no piece helps any more.
    Tail,
}

/// All stretches, in order.
pub const STRETCHES: [Stretch; 4] = [Stretch::LightUp, Stretch::ToRush, Stretch::Rush, Stretch::Tail];

/// The moments of an evening a fire is planned around.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Evening {
    /// First piece wanted, batch work included.
    pub first_order: ClockS,
    /// Last piece wanted.
    pub last_order: ClockS,
    /// The rush, from and to.
    pub rush: [ClockS; 2],
    /// Earliest moment of a match: when the floor was read.
    pub earliest_light: ClockS,
    /// While coals lie spread, from and to: no piece is put on then.
    pub spread: Option<[ClockS; 2]>,
}

impl Evening {
    /// Reads the moments off a scenario and its orders.
    #[must_use]
    pub fn of(scenario: &Scenario, orders: &[Order]) -> Self {
        let service = &scenario.service;
        let times = || orders.iter().map(|o| o.at_s);
        let first = times().fold(f64::INFINITY, f64::min);
        let last = times().fold(f64::NEG_INFINITY, f64::max);
        let most = service.covers.iter().copied().fold(0.0, f64::max);
        let busy = |covers: &f64| most > 0.0 && *covers >= RUSH_SHARE * most;
        let edge = |quarter: usize| service.start + quarter as f64 * QUARTER_S;
        let rush = match (service.covers.iter().position(busy), service.covers.iter().rposition(busy)) {
            (Some(from), Some(to)) => [edge(from), edge(to + 1)],
            _ => [service.start, service.end],
        };
        Self {
            first_order: if first.is_finite() { first } else { service.start },
            last_order: if last.is_finite() { last } else { service.end },
            rush,
            earliest_light: (scenario.start.read_at / CLOCK_STEP_S).ceil() * CLOCK_STEP_S,
            spread: scenario.feeding.spread_coals.first().map(|spread| [spread.at, spread.at + spread.for_s]),
        }
    }

    /// From this moment on no piece acts on the last order any more.
    #[must_use]
    pub fn last_useful_feed(&self) -> ClockS {
        ((self.last_order - ACTS_AFTER_S) / CLOCK_STEP_S).ceil() * CLOCK_STEP_S
    }

    /// Latest match that is thought of: one whose first piece can still act on the first order.
    #[must_use]
    pub fn latest_light(&self) -> ClockS {
        let latest = self.first_order - ACTS_AFTER_S;
        ((latest / CLOCK_STEP_S).floor() * CLOCK_STEP_S).max(self.earliest_light)
    }
}

/// A rhythm of feeding.
#[derive(Clone, Debug, PartialEq)]
pub struct Cadence {
    /// The evening it is made for.
    pub evening: Evening,
    /// The match.
    pub light_at: ClockS,
    /// Interval in each stretch, s.
    pub every_s: [f64; 4],
    /// Pieces at each feed.
    pub pieces: f64,
    /// No piece at this time or after.
    pub stop_at: ClockS,
    /// The rush's first piece comes this late, s: nought in a plan, more when asking how late it may come.
    pub rush_late_s: f64,
    /// The stretches as somebody typed them, where it is fed by those; then the intervals above only tell of them.
    pub typed: Option<Vec<FeedPhase>>,
}

/// A stretch of a rhythm, as it falls on the clock.
#[derive(Clone, Debug, PartialEq)]
pub struct Phase {
    /// Which stretch.
    pub stretch: Stretch,
    /// Its feeding.
    pub feed: FeedPhase,
}

/// One feed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fed {
    /// When.
    pub at: ClockS,
    /// How many pieces.
    pub pieces: f64,
}

impl Cadence {
    /// One interval from the first order on, another before it.
    #[must_use]
    pub fn steady(evening: Evening, light_at: ClockS, light_up_every_s: f64, every_s: f64, pieces: f64) -> Self {
        let stop_at = evening.last_useful_feed().max(evening.first_order);
        let every_s = [light_up_every_s, every_s, every_s, every_s];
        Self { evening, light_at, every_s, pieces, stop_at, rush_late_s: 0.0, typed: None }
    }

    /// A feeding as it was typed; `None` where nothing is fed.
    #[must_use]
    pub fn as_typed(evening: Evening, feeding: &Feeding) -> Option<Self> {
        let fed: Vec<FeedPhase> = feeding.phases.iter().filter(|p| p.pieces > 0.0 && p.to > p.from).cloned().collect();
        let (first, last) = (fed.first()?, fed.last()?);
        let [to_first, to_rush, past_rush, _] = ends(&evening);
        let every_s = [feeding.light_at, to_first, to_rush, past_rush]
            .map(|from| fed.iter().find(|p| p.to > from).unwrap_or(last).every_s);
        let (light_at, pieces, stop_at) = (feeding.light_at, first.pieces, last.to);
        Some(Self { evening, light_at, every_s, pieces, stop_at, rush_late_s: 0.0, typed: Some(fed) })
    }

    /// The rhythm of stretches most like what was typed.
    #[must_use]
    pub fn alike(&self) -> Self {
        Self { typed: None, ..self.clone() }
    }

    /// The stretch a moment falls into.
    fn stretch_at(&self, at: ClockS) -> Stretch {
        let passed = ends(&self.evening).iter().filter(|end| at >= **end).count();
        STRETCHES[passed.min(STRETCHES.len() - 1)]
    }

    /// The stretches on the clock. Each begins one interval after the last piece of the one before; empty ones are left out.
    #[must_use]
    pub fn phases(&self) -> Vec<Phase> {
        if let Some(typed) = &self.typed {
            let phase = |feed: &FeedPhase| Phase { stretch: self.stretch_at(feed.from), feed: feed.clone() };
            return typed.iter().map(phase).collect();
        }
        let ends = ends(&self.evening);
        let mut at = self.light_at + FIRST_FEED_S;
        let mut phases = Vec::new();
        for (place, stretch) in STRETCHES.into_iter().enumerate() {
            let every_s = self.every_s[place];
            if stretch == Stretch::Rush {
                at += self.rush_late_s;
            }
            let end = ends[place].min(self.stop_at);
            let mut feed_on = |at: &mut f64, end: f64| {
                let feeds = ((end - *at) / every_s).ceil();
                if feeds >= 1.0 {
                    let to = *at + feeds * every_s;
                    phases.push(Phase { stretch, feed: FeedPhase { from: *at, to, every_s, pieces: self.pieces } });
                    *at = to;
                }
            };
            // What falls into the time the coals lie spread waits until they are raked back.
            if let Some([from, to]) = self.evening.spread.filter(|[from, _]| *from < end) {
                feed_on(&mut at, from);
                at = if (from..to).contains(&at) { to } else { at };
            }
            feed_on(&mut at, end);
        }
        phases
    }

    /// What the engine is fed.
    #[must_use]
    pub fn feeding(&self, before: &Feeding) -> Feeding {
        Feeding {
            light_at: self.light_at,
            kindling_kg: before.kindling_kg,
            phases: self.phases().into_iter().map(|p| p.feed).collect(),
            spread_coals: before.spread_coals.clone(),
        }
    }

    /// Every feed, by time.
    #[must_use]
    pub fn feeds(&self) -> Vec<Fed> {
        self.phases().iter().flat_map(|p| feeds_of(&p.feed)).collect()
    }

    /// Pieces of the whole day.
    #[must_use]
    pub fn pieces_in_all(&self) -> f64 {
        self.feeds().iter().map(|fed| fed.pieces).sum()
    }

    /// Pieces of the whole day if every stretch were cut evenly: the same without the steps of whole pieces.
    #[must_use]
    pub fn pieces_evenly(&self) -> f64 {
        if let Some(typed) = &self.typed {
            return typed.iter().map(|p| p.pieces * (p.to - p.from) / p.every_s).sum();
        }
        let ends = ends(&self.evening);
        let mut at = self.light_at + FIRST_FEED_S;
        let mut pieces = 0.0;
        for (place, end) in ends.into_iter().enumerate() {
            let end = end.min(self.stop_at);
            if end > at {
                pieces += self.pieces * (end - at) / self.every_s[place];
                at = end;
            }
        }
        pieces
    }

    /// The same rhythm with every interval taken by a factor.
    #[must_use]
    pub fn slower(&self, factor: f64) -> Self {
        let slower = |p: &FeedPhase| FeedPhase { every_s: p.every_s * factor, ..p.clone() };
        let typed = self.typed.as_ref().map(|typed| typed.iter().map(slower).collect());
        Self { every_s: self.every_s.map(|every| every * factor), typed, ..self.clone() }
    }
}

/// When each stretch ends.
fn ends(evening: &Evening) -> [ClockS; 4] {
    let [rush_from, rush_to] = evening.rush;
    [evening.first_order - ACTS_AFTER_S, rush_from - ACTS_AFTER_S, rush_to - ACTS_AFTER_S, f64::INFINITY]
}

/// The feeds of one stretch.
#[must_use]
pub fn feeds_of(phase: &FeedPhase) -> Vec<Fed> {
    let mut feeds = Vec::new();
    let mut at = phase.from;
    // The engine's calendar leaves out a feed within a rounding of the end; so does this.
    while at < phase.to - 1e-6 {
        feeds.push(Fed { at, pieces: phase.pieces });
        at = phase.from + feeds.len() as f64 * phase.every_s;
    }
    feeds
}

#[cfg(test)]
mod tests {
    use super::*;

    const HOUR_S: f64 = 3600.0;

    fn evening() -> Evening {
        Evening {
            first_order: 18.0 * HOUR_S,
            last_order: 22.0 * HOUR_S,
            rush: [19.0 * HOUR_S, 20.0 * HOUR_S],
            earliest_light: 14.0 * HOUR_S,
            spread: None,
        }
    }

    #[test]
    fn stretches_follow_each_other_by_one_interval() {
        let mut cadence = Cadence::steady(evening(), 15.0 * HOUR_S, 600.0, 900.0, 1.0);
        cadence.every_s[2] = 780.0;
        let feeds = cadence.feeds();
        let gaps: Vec<f64> = feeds.windows(2).map(|w| w[1].at - w[0].at).collect();
        assert!(gaps.iter().all(|gap| [600.0, 780.0, 900.0].contains(gap)), "{gaps:?}");
        assert_eq!(feeds[0].at, 15.0 * HOUR_S + FIRST_FEED_S);
        assert!(feeds.iter().all(|fed| fed.at < cadence.stop_at));
        assert!((cadence.pieces_evenly() - cadence.pieces_in_all()).abs() < 2.0);
    }

    #[test]
    fn no_piece_goes_onto_spread_coals() {
        let spread = [17.0 * HOUR_S, 17.25 * HOUR_S];
        let mut cadence = Cadence::steady(evening(), 15.0 * HOUR_S, 600.0, 660.0, 1.0);
        let before = cadence.pieces_in_all();
        cadence.evening.spread = Some(spread);
        let feeds = cadence.feeds();
        assert!(feeds.iter().all(|fed| !(spread[0]..spread[1]).contains(&fed.at)), "{feeds:?}");
        assert!(feeds.iter().any(|fed| fed.at == spread[1]), "the next one as they are raked back: {feeds:?}");
        assert!(feeds.windows(2).all(|two| two[1].at - two[0].at >= 600.0 - 1e-9), "{feeds:?}");
        assert!((before - cadence.pieces_in_all()).abs() <= 2.0);
    }

    #[test]
    fn what_was_typed_is_fed_as_it_was_typed() {
        let phase = |from: f64, to: f64, every_s: f64| FeedPhase { from, to, every_s, pieces: 1.0 };
        let phases = vec![
            phase(15.5 * HOUR_S, 17.5 * HOUR_S, 720.0),
            phase(17.5 * HOUR_S, 21.0 * HOUR_S, 816.0),
            phase(21.0 * HOUR_S, 21.5 * HOUR_S, 1800.0),
        ];
        let feeding =
            Feeding { light_at: 15.0 * HOUR_S, kindling_kg: 2.0, phases: phases.clone(), spread_coals: Vec::new() };
        let cadence = Cadence::as_typed(evening(), &feeding).unwrap();
        assert_eq!(cadence.feeding(&feeding), feeding);
        let stretches: Vec<Stretch> = cadence.phases().iter().map(|p| p.stretch).collect();
        assert_eq!(stretches, [Stretch::LightUp, Stretch::ToRush, Stretch::Tail]);
        assert_eq!((cadence.alike().every_s, cadence.alike().light_at), ([720.0, 816.0, 816.0, 816.0], 15.0 * HOUR_S));
        assert!((cadence.slower(2.0).pieces_evenly() - 0.5 * cadence.pieces_evenly()).abs() < 1e-9);
        assert!(Cadence::as_typed(evening(), &Feeding { phases: Vec::new(), ..feeding }).is_none());
    }

    #[test]
    fn a_late_match_leaves_out_the_light_up_stretch() {
        let cadence = Cadence::steady(evening(), 17.25 * HOUR_S, 600.0, 900.0, 1.0);
        assert_eq!(cadence.phases()[0].stretch, Stretch::ToRush);
    }
}
