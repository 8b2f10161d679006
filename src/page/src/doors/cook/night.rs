//! Owns what the plan says at a moment of the evening: which feeds there are, what became of them, which is next, and the strip
//! that shows it all. Pure, so that it is tested without a browser.

use crate::{
    charts::{
        Answer, Evening, Reading,
        evening::{Phase, Piece, PieceState},
        words::inside_sentence,
    },
    figures as said,
    state::tonight::{Mark, Read, Tonight},
    words::{fill, words},
};
use hearthload::report::{FireNow, FirePhase, FireReport, SheetReading};
use hearthload::units::time::{HOUR_S, MINUTE_S};

/// A feed that is this long past without a word counts as not told, and the next one is shown: at most, s.
const LATE_S: f64 = 1800.0;

/// One feed of the plan that holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Feed {
    /// When the plan has it.
    pub at_s: f64,
    /// Pieces.
    pub pieces: u32,
    /// What became of it.
    pub mark: Option<Mark>,
}

/// The plan at a moment.
#[derive(Clone, Copy)]
pub(crate) struct Night<'a> {
    /// The plan.
    pub report: &'a FireReport,
    /// The rest of the evening after the last reading, where it was planned again.
    pub rest: Option<&'a FireNow>,
    /// What the cook told.
    pub tonight: &'a Tonight,
    /// Now, seconds since midnight.
    pub now_s: f64,
}

/// How far the evening has come.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Stage {
    /// The match is still to be struck, then.
    Unlit(f64),
    /// This feed is next.
    Next(Feed),
    /// No more wood.
    Over,
}

/// Seconds since midnight of a clock time of a report.
pub(crate) fn seconds(typed: &str) -> f64 {
    said::clock_seconds(typed).unwrap_or(0.0)
}

fn feeds_of(phases: &[FirePhase]) -> Vec<(f64, u32)> {
    let one = |phase: &FirePhase| {
        let (from, every_s, pieces) = (seconds(&phase.from), phase.every_min * MINUTE_S, phase.pieces.round().max(1.0));
        (0..phase.feeds).map(move |count| (from + f64::from(count) * every_s, pieces as u32)).collect::<Vec<_>>()
    };
    phases.iter().flat_map(one).collect()
}

/// When the last thing of a plan happens.
pub(crate) fn last_s(report: &FireReport) -> f64 {
    let evening = report.evening.as_ref().map_or(0.0, |evening| seconds(&evening.close_at));
    feeds_of(&report.phases).last().map_or(evening, |feed| feed.0.max(evening))
}

impl Night<'_> {
    /// Stretches that hold from now on.
    pub fn phases(&self) -> &[FirePhase] {
        match self.rest {
            Some(rest) if !rest.keeps_plan => &rest.phases,
            _ => &self.report.phases,
        }
    }

    /// All feeds: the plan's, from a reading on those that were planned again.
    pub fn feeds(&self) -> Vec<Feed> {
        let plan = feeds_of(&self.report.phases);
        let all = match self.rest {
            Some(rest) if !rest.keeps_plan => {
                let from_s = seconds(&rest.at);
                let before = plan.into_iter().filter(|feed| feed.0 < from_s);
                before.chain(feeds_of(&rest.phases)).collect()
            }
            _ => plan,
        };
        let told = |(at_s, pieces)| Feed { at_s, pieces, mark: self.tonight.mark_of(at_s).copied() };
        all.into_iter().map(told).collect()
    }

    /// How far the evening has come.
    pub fn stage(&self) -> Stage {
        let feeds = self.feeds();
        let light_s = self.report.light_at.as_deref().map_or(0.0, seconds);
        if self.now_s < light_s {
            return Stage::Unlit(light_s);
        }
        let open = |place: &usize| {
            let until = feeds.get(place + 1).map_or(f64::INFINITY, |next| next.at_s).min(feeds[*place].at_s + LATE_S);
            feeds[*place].mark.is_none() && until > self.now_s
        };
        (0..feeds.len()).find(open).map_or(Stage::Over, |place| Stage::Next(feeds[place]))
    }

    /// Feeds that went by without a word, the latest first.
    pub fn untold(&self) -> Vec<Feed> {
        let next_s = match self.stage() {
            Stage::Next(feed) => feed.at_s,
            _ => self.now_s,
        };
        let feeds = self.feeds().into_iter().rev();
        feeds.filter(|feed| feed.mark.is_none() && feed.at_s < next_s.min(self.now_s)).collect()
    }

    /// What the plan has for the floor now, degC.
    pub fn expected_c(&self) -> Option<f64> {
        let readings = self.readings();
        let after = readings.iter().position(|reading| reading.at_s >= self.now_s)?;
        let (Some(before), next) = (after.checked_sub(1).map(|place| readings[place]), readings[after]) else {
            return Some(readings[after].at_c);
        };
        let share = (self.now_s - before.at_s) / (next.at_s - before.at_s).max(1.0);
        Some(before.at_c + share * (next.at_c - before.at_c))
    }

    /// The floor of the plan that holds.
    pub fn readings(&self) -> Vec<Reading> {
        let plan = self.report.sheet.as_ref().map_or(&[][..], |sheet| &sheet.readings);
        match self.rest {
            Some(rest) => {
                let read = Reading { at_s: seconds(&rest.at), at_c: rest.floor_c };
                let before = known(plan).into_iter().filter(|reading| reading.at_s < read.at_s);
                let after = known(&rest.readings).into_iter().filter(|reading| reading.at_s > read.at_s);
                before.chain([read]).chain(after).collect()
            }
            None => known(plan),
        }
    }

    /// The evening on one strip.
    pub fn strip(&self, answer: Option<&Answer>, at_arms_length: bool) -> Evening {
        let feeds = self.feeds();
        let next = match self.stage() {
            Stage::Next(feed) => Some(feed.at_s),
            _ => None,
        };
        let kitchen = answer.map(|answer| &answer.kitchen);
        let light_s = self.report.light_at.as_deref().map_or(0.0, seconds);
        let end_s =
            kitchen.map_or(0.0, |kitchen| kitchen.end_s).max(feeds.last().map_or(0.0, |feed| feed.at_s + 900.0));
        let limiting = answer.and_then(Answer::limiting);
        let band_c = limiting.and_then(|dish| Some(answer?.band(dish))).unwrap_or([0.0, 0.0]);
        let band_of = limiting.and_then(|dish| Some(inside_sentence(&answer?.dish(dish)?.name))).unwrap_or_default();
        let split_s = self.rest.map_or(self.now_s, |rest| seconds(&rest.at));
        let mut readings = self.readings();
        // The line goes on through now: without a reading, by what the plan has for it.
        let begun = readings.first().is_some_and(|first| first.at_s < split_s);
        if let (None, true, Some(at_c)) = (self.rest, begun, self.expected_c()) {
            let place = readings.iter().position(|reading| reading.at_s >= split_s).unwrap_or(readings.len());
            readings.insert(place, Reading { at_s: split_s, at_c });
        }
        let plan = self.report.sheet.as_ref().map_or(&[][..], |sheet| &sheet.readings);
        let replaced = self.rest.is_some_and(|rest| !rest.keeps_plan);
        let old = |at_s: f64| replaced && at_s >= split_s;
        let gas = self.report.assist.as_ref().filter(|assist| assist.needed);
        let gas_s = gas
            .and_then(|assist| assist.on_at.as_deref().map(|on| [seconds(on), seconds(on) + assist.hours * HOUR_S]))
            .into_iter()
            .collect();
        Evening {
            from_s: (light_s / 1800.0).floor() * 1800.0,
            to_s: end_s,
            phases: self.brackets(),
            pieces: feeds.iter().map(|feed| piece(feed, next)).collect(),
            old_pieces_s: feeds_of(&self.report.phases).into_iter().map(|feed| feed.0).filter(|at| old(*at)).collect(),
            floor_so_far: readings.iter().copied().filter(|reading| reading.at_s <= split_s).collect(),
            floor_planned: readings.iter().copied().filter(|reading| reading.at_s >= split_s).collect(),
            floor_old: known(plan).into_iter().filter(|reading| old(reading.at_s)).collect(),
            band_c,
            band_of,
            gas_s,
            gas_words: words().cook_gas.to_owned(),
            covers: kitchen.map(|kitchen| kitchen.covers.clone()).unwrap_or_default(),
            covers_from_s: kitchen.map_or(light_s, |kitchen| kitchen.start_s),
            reading: self.tonight.reading.map(|Read { at_s, floor_c }| Reading { at_s, at_c: floor_c }),
            now_s: at_arms_length.then_some(self.now_s).filter(|now| *now > light_s && *now < end_s),
            remark: String::new(),
            at_arms_length,
        }
    }

    fn brackets(&self) -> Vec<Phase> {
        let bracket = |phase: &FirePhase| {
            let from_s = seconds(&phase.from);
            let to_s = from_s + f64::from(phase.feeds.saturating_sub(1)) * phase.every_min * MINUTE_S;
            Phase { from_s, to_s, words: rhythm(phase) }
        };
        self.phases().iter().filter(|phase| phase.feeds > 0).map(bracket).collect()
    }
}

/// A stretch's rhythm: "every 12 min", "once".
pub(crate) fn rhythm(phase: &FirePhase) -> String {
    if phase.feeds == 1 {
        words().cook_once.to_owned()
    } else {
        fill(words().cook_every, &[&said::minutes(phase.every_min)])
    }
}

fn piece(feed: &Feed, next: Option<f64>) -> Piece {
    let fed = feed.mark.filter(|mark| mark.pieces > 0);
    let state = match (fed, next) {
        (Some(_), _) => PieceState::Fed,
        (None, Some(at)) if (at - feed.at_s).abs() < 1.0 => PieceState::Next,
        _ => PieceState::ToCome,
    };
    Piece { at_s: fed.map_or(feed.at_s, |mark| mark.at_s), count: fed.map_or(feed.pieces, |mark| mark.pieces), state }
}

fn known(readings: &[SheetReading]) -> Vec<Reading> {
    readings.iter().map(|reading| Reading { at_s: seconds(&reading.at), at_c: reading.floor_c }).collect()
}
