//! Owns the plan's rough nights: how many of them the laziest feeding holds, and the least more wood that holds nine in ten.
//!
//! The laziest feeding holds the evening as it was typed and leaves next to nothing for a worse one. A kitchen that wants to sleep
//! feeds somewhat more; how much, rough nights tell (common random numbers: every feeding meets the same nights).

use super::cadence::Cadence;
use super::nights::one;
use super::trial::{Bench, Player};
use crate::scenario::ClockS;
use crate::units::time::MINUTE_S;

/// Intervals that are tried, over the plan's. Our choice.
const SHORTER: [f64; 4] = [0.92, 0.85, 0.77, 0.7];
/// The match is struck earlier by this for each of them, s. Our choice.
const EARLIER_S: f64 = 300.0;
/// Nine nights in ten.
const NINE_IN_TEN: f64 = 0.9;

/// A feeding and the rough nights it holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    /// The feeding.
    pub cadence: Cadence,
    /// Its wood, kg.
    pub wood_kg: f64,
    /// Nights it held.
    pub held: u32,
}

/// The rough nights of a plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Rough {
    /// How many nights.
    pub nights: u32,
    /// The plan itself.
    pub plan: Held,
    /// The least more wood that holds nine in ten, or the one that holds most; none where no more wood holds more.
    pub more: Option<Held>,
}

/// Tries a plan, and feedings with more wood, on rough nights.
#[must_use]
pub fn rough(bench: &Bench, cadence: &Cadence, seed: u64, nights: u32) -> Rough {
    let player = Player::new(bench);
    // A feeding that can no longer hold more than `beats` nights is given up.
    let tried = |cadence: &Cadence, beats: Option<u32>| {
        let ready = bench.fed_by(cadence);
        let mut held = 0;
        for index in 0..nights {
            held += u32::from(one(&ready, seed, u64::from(index)).held());
            if beats.is_some_and(|beats| held + (nights - index - 1) <= beats) {
                break;
            }
        }
        Held { cadence: cadence.clone(), wood_kg: bench.wood_kg(cadence), held }
    };
    let enough = |held: &Held| f64::from(held.held) >= NINE_IN_TEN * f64::from(nights);
    let plan = tried(cadence, None);
    let mut more: Option<Held> = None;
    for (place, shorter) in SHORTER.into_iter().enumerate() {
        let best = more.as_ref().unwrap_or(&plan);
        if enough(best) {
            break;
        }
        let next = with_more(cadence, shorter, (place + 1) as f64 * EARLIER_S);
        // What is too much for the evening as typed is no feeding.
        if next.light_at < bench.evening.earliest_light || !player.try_out(&next).holds() {
            continue;
        }
        let next = tried(&next, Some(best.held));
        if next.held > best.held {
            more = Some(next);
        }
    }
    Rough { nights, plan, more }
}

/// A rhythm with shorter intervals, in whole minutes, from the first order on, and an earlier match.
fn with_more(cadence: &Cadence, shorter: f64, earlier_s: ClockS) -> Cadence {
    let mut next = cadence.clone();
    next.light_at -= earlier_s;
    let shorten = |every_s: &mut f64| *every_s = ((shorter * *every_s / MINUTE_S).round() * MINUTE_S).max(MINUTE_S);
    next.every_s[1..].iter_mut().for_each(shorten);
    let first_order = next.evening.first_order;
    let typed = next.typed.iter_mut().flatten().filter(|p| p.to > first_order);
    typed.for_each(|p| shorten(&mut p.every_s));
    next
}
