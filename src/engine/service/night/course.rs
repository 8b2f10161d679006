//! Owns days that are played on from a pause: a day that differs from an earlier one only late in the evening need not begin in
//! the morning again.
//!
//! A pause is taken at the end of a quarter hour. No step crosses it whatever comes after, so playing on gives the same bits as
//! playing from the morning.

use super::super::fuel_plan::Act;
use super::{Day, Keep, Ready};
use crate::hearth::oven::Hearth;
use crate::service::kitchen::Kitchen;
use crate::service::orders::Order;
use crate::service::trace::{Quarter, Trace};

/// Acts this close to a pause belong to what comes after it, s.
const TOLERANCE_S: f64 = 1e-3;
/// A pause is kept this often, s.
const EVERY_S: f64 = 1800.0;

/// What a cook does, by time.
pub type Acts = Vec<(f64, Act)>;

/// A day at the end of a quarter hour.
#[derive(Clone)]
pub struct Pause<'r> {
    hearth: Hearth<'r>,
    kitchen: Kitchen<'r>,
    trace: Trace,
    quarter: Quarter,
    next_watch_s: f64,
    started: bool,
    means: [f64; 3],
    last_span_s: f64,
}

/// A day that was played, with its pauses.
pub struct Course<'r> {
    acts: Acts,
    pauses: Vec<Pause<'r>>,
}

impl<'r> Course<'r> {
    /// The latest pause before which these acts are the same as this day's.
    #[must_use]
    pub fn pause_for(&self, acts: &[(f64, Act)]) -> Option<&Pause<'r>> {
        let same = self.acts.iter().zip(acts).take_while(|(a, b)| a == b).count();
        let next = |acts: &[(f64, Act)]| acts.get(same).map_or(f64::INFINITY, |act| act.0);
        let differ_s = next(&self.acts).min(next(acts));
        self.pauses.iter().rev().find(|pause| pause.at_s() <= differ_s + TOLERANCE_S)
    }
}

impl Pause<'_> {
    /// When it is.
    #[must_use]
    pub fn at_s(&self) -> f64 {
        self.hearth.time_s
    }
}

/// Plays a day of these acts, from a pause or from the morning, while `go_on` says so at each quarter hour's end.
pub fn play_acts<'r>(
    ready: &'r Ready,
    orders: &[Order],
    acts: Acts,
    from: Option<&Pause<'r>>,
    go_on: impl Fn(&Trace) -> bool,
) -> (Trace, Course<'r>) {
    let mut hearth = from.map_or_else(|| Hearth::new(&ready.build, &ready.scenario), |pause| pause.hearth.clone());
    let mut day = Day::new(ready, &mut hearth, orders.to_vec(), Keep::default());
    let after_s = day.hearth.time_s - TOLERANCE_S;
    day.acts = acts.iter().copied().filter(|(at, _)| *at >= after_s).rev().collect();
    if let Some(pause) = from {
        day.kitchen = pause.kitchen.clone();
        day.trace = pause.trace.clone();
        day.quarter = pause.quarter.clone();
        (day.next_watch_s, day.started) = (pause.next_watch_s, pause.started);
        (day.means, day.last_span_s) = (pause.means, pause.last_span_s);
    }
    let mut course = Course { acts, pauses: from.cloned().into_iter().collect() };
    let mut next_s = day.hearth.time_s + EVERY_S;
    while !day.is_over() {
        let quarters = day.trace.quarters.len();
        day.step();
        if day.trace.quarters.len() > quarters {
            if !go_on(&day.trace) {
                break;
            }
            if day.hearth.time_s >= next_s - 1.0 {
                next_s = day.hearth.time_s + EVERY_S;
                course.pauses.push(day.pause());
            }
        }
    }
    (day.finish(), course)
}

impl<'r> Day<'r, '_, 'r> {
    fn pause(&self) -> Pause<'r> {
        Pause {
            hearth: self.hearth.clone(),
            kitchen: self.kitchen.clone(),
            trace: self.trace.clone(),
            quarter: self.quarter.clone(),
            next_watch_s: self.next_watch_s,
            started: self.started,
            means: self.means,
            last_span_s: self.last_span_s,
        }
    }
}
