//! Owns the light-up: how fast wood may be fed within doorway air and flame reach, and how long the floor takes to get hot.

use super::cadence::{CLOCK_STEP_S, Cadence};
use super::trial::{Bench, FIRE_RESERVE};
use crate::hearth::oven::Hearth;
use crate::service::judge::CATCHING_S;
use crate::service::night::{Keep, run};
use crate::service::trace::Trace;
use crate::units::time::MINUTE_S;

/// Nobody feeds more often than this, min; where the oven could take more, two or more pieces go on at once. Our choice.
pub const LEAST_EVERY_MIN: u32 = 6;
/// A live fire wants a piece at least this often, min: beyond it the flame is out and the coals fade. Common practice, no source.
pub const MOST_EVERY_MIN: u32 = 60;
/// Most pieces put on at once.
const MOST_PIECES: f64 = 4.0;
/// Where in the span between the highest least and the lowest most of all floor bands a light-up first aims. Our choice.
const AIM_SHARE: f64 = 0.35;

/// How fast this oven can be heated.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Keenest {
    /// Shortest interval within the fire's limits, min.
    pub every_min: u32,
    /// Pieces at each feed.
    pub pieces: f64,
    /// A first guess at how long light-up takes, s.
    pub light_up_s: f64,
}

/// Finds the keenest feeding the fire's limits allow, by bisection on the interval over days without orders.
#[must_use]
pub fn keenest(bench: &Bench) -> Keenest {
    let mut pieces = 1.0;
    loop {
        let (every_min, trace) = keenest_with(bench, pieces);
        let could_take_more = every_min == LEAST_EVERY_MIN && pieces < MOST_PIECES;
        if !could_take_more {
            let light_up_s = time_to_heat(bench, &trace);
            return Keenest { every_min, pieces, light_up_s };
        }
        pieces += 1.0;
    }
}

fn keenest_with(bench: &Bench, pieces: f64) -> (u32, Trace) {
    let (mut low, mut high) = (LEAST_EVERY_MIN, MOST_EVERY_MIN);
    let mut kept = idle_day(bench, high, pieces);
    while low < high {
        let middle = low.midpoint(high);
        let day = idle_day(bench, middle, pieces);
        if within_limits(bench, &day) {
            high = middle;
            kept = day;
        } else {
            low = middle + 1;
        }
    }
    (high, kept)
}

/// A day without orders, lit as early as can be and fed evenly.
fn idle_day(bench: &Bench, every_min: u32, pieces: f64) -> Trace {
    let every_s = f64::from(every_min) * MINUTE_S;
    let cadence = Cadence::steady(bench.evening, bench.evening.earliest_light, every_s, every_s, pieces);
    let ready = bench.fed_by(&cadence);
    let mut hearth = Hearth::new(&ready.build, &ready.scenario);
    run(&ready, &mut hearth, Vec::new(), Keep::default())
}

fn within_limits(bench: &Bench, day: &Trace) -> bool {
    let from = bench.evening.earliest_light + CATCHING_S;
    let most = 1.0 - FIRE_RESERVE;
    let late = day.quarters.iter().filter(|q| q.at_s >= from);
    late.fold(true, |all, q| all && q.reach <= most && q.air_used <= most && q.hard_limit_used <= most)
}

/// The floor a light-up first aims at, degC: a third into what all dishes of the menu share, or the highest least where they share
/// nothing.
#[must_use]
pub fn aim_c(bench: &Bench) -> f64 {
    let menu = &bench.ready.scenario.menu;
    let least = menu.iter().map(|d| d.floor_min_c).fold(0.0, f64::max);
    let most = menu.iter().map(|d| d.floor_max_c).fold(f64::INFINITY, f64::min);
    if most.is_finite() && most > least { least + AIM_SHARE * (most - least) } else { least }
}

/// How long after the match the floor's mean reached the aim, s; all the time there is where it did not.
fn time_to_heat(bench: &Bench, day: &Trace) -> f64 {
    let aim = aim_c(bench);
    let lit = bench.evening.earliest_light;
    let longest = bench.evening.first_order - lit;
    let reached = day.quarters.iter().find(|q| q.mean_c >= aim && q.at_s > lit);
    let taken = reached.map_or(longest, |q| q.at_s + crate::units::time::QUARTER_S - lit);
    (taken.clamp(0.0, longest.max(0.0)) / CLOCK_STEP_S).ceil() * CLOCK_STEP_S
}
