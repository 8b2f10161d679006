//! Owns how sure an answer is: the unknowns sampled together, each unknown alone, and what to measure first.
//!
//! All unknowns are drawn together by a seeded Latin hypercube (McKay, Beckman & Conover (1979) Technometrics 21:239-245): each
//! range is cut into as many slices as there are draws, and every slice is used once. As many draws lie under what the scenario
//! takes as over it, whichever way its range leans, so that the evening as typed stands in the middle of what it is compared with;
//! on either side a value is the less likely the farther off it lies, none beyond the range's end: the triangle that the Guide to
//! the expression of uncertainty in measurement (JCGM 100:2008, 4.3.9) takes where the middle is likelier than the ends.

pub mod unknowns;

use rand::{RngExt, SeedableRng, rngs::Xoshiro256PlusPlus};

use crate::hearth::build::DEFAULT_ACCURACY;
use crate::hearth::fault::Fault;
use crate::hearth::oven::Hearth;
use crate::plan::overnight::morning_c;
use crate::scenario::Scenario;
use crate::service::judge::{judge, quantile};
use crate::service::night::{Keep, Ready, run};
use crate::service::orders::orders;
use crate::service::trace::Bake;
use unknowns::{UNKNOWNS, Unknown, kitchen};

/// Draws of the hypercube.
pub const DRAWS: u32 = 32;
/// A band holds four draws of five: from the tenth part to the ninetieth.
const BAND: [f64; 2] = [0.1, 0.9];

/// The headline figures of one evening.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Headline {
    /// Whether it carries.
    pub carries: bool,
    /// Coolest spot at loading, degC; the floor at the first order where nothing was loaded.
    pub lowest_c: f64,
    /// Mean floor at the first order, degC.
    pub start_c: f64,
    /// Nine orders in ten wait at most this, s.
    pub wait_p90_s: f64,
    /// Left of what is tightest, share of it; under nought where it gave, no less than [`LEAST_SPARE`].
    pub spare: f64,
    /// Slowest bake, s; nought where nothing was baked.
    pub bake_s: f64,
    /// From lifting until half of all spots are back within 10 K of where they stood, s; one that never came back counts until the end.
    pub recovery_s: f64,
    /// Wood burnt, kg.
    pub wood_kg: f64,
    /// Gas burnt, J.
    pub gas_j: f64,
    /// The next morning's floor, after a night behind closed doors, degC.
    pub morning_c: f64,
}

/// What has given altogether has this to spare: an evening's tightest resource asked for twice over.
pub const LEAST_SPARE: f64 = -1.0;

impl Headline {
    fn of(ready: &Ready) -> Self {
        let mut hearth = Hearth::new(&ready.build, &ready.scenario);
        let trace = run(ready, &mut hearth, orders(&ready.scenario), Keep::default());
        let mut waits: Vec<f64> = trace.bakes.iter().filter(|b| !b.batch).map(Bake::wait_s).collect();
        let lost: u32 = trace.never_started.iter().sum();
        waits.extend((0..lost).map(|_| trace.ended_s - ready.scenario.service.start));
        crate::numerics::order::rising(&mut waits);
        let lifted = trace.bakes.iter().filter_map(|bake| Some((bake, bake.to_s?)));
        let mut back_s: Vec<f64> = lifted.map(|(bake, to_s)| bake.recovery_s.unwrap_or(trace.ended_s - to_s)).collect();
        crate::numerics::order::rising(&mut back_s);
        let lowest = trace.bakes.iter().map(|b| b.at_load_c).min_by(f64::total_cmp);
        let judgement = judge(ready, &trace);
        Self {
            carries: judgement.carries(),
            lowest_c: lowest.unwrap_or(trace.start_c),
            start_c: trace.start_c,
            wait_p90_s: quantile(&waits, 0.9),
            spare: (1.0 - judgement.tightest().used).max(LEAST_SPARE),
            bake_s: trace.bakes.iter().filter_map(Bake::bake_s).fold(0.0, f64::max),
            recovery_s: if back_s.is_empty() { 0.0 } else { quantile(&back_s, 0.5) },
            wood_kg: trace.quarters.iter().map(|quarter| quarter.wood_kg).sum(),
            gas_j: trace.quarters.iter().map(|quarter| quarter.gas_j).sum(),
            morning_c: morning_c(ready, hearth),
        }
    }
}

/// Shares between which that of all evenings lies, nineteen times in twenty, where so many of some draws stand: Wilson's score interval
/// (Wilson, E. B. (1927) J. Amer. Statist. Assoc. 22:209-212). Draws of a hypercube stray less than draws by chance: it is on the wide side.
#[must_use]
pub fn between(stands: usize, draws: usize) -> [f64; 2] {
    /// Standard deviations that hold nineteen in twenty.
    const Z: f64 = 1.959_964;
    let (n, share) = (draws as f64, stands as f64 / draws as f64);
    let middle = (share + Z * Z / (2.0 * n)) / (1.0 + Z * Z / n);
    let half = Z / (1.0 + Z * Z / n) * (share * (1.0 - share) / n + Z * Z / (4.0 * n * n)).sqrt();
    [(middle - half).max(0.0), (middle + half).min(1.0)]
}

/// What one unknown does alone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Effect {
    /// Which.
    pub unknown: Unknown,
    /// The evening with it as taken.
    pub as_taken: Headline,
    /// ... at the low end of its range.
    pub at_low: Headline,
    /// ... and at the high end.
    pub at_high: Headline,
}

impl Effect {
    /// How far a figure lies apart over its low end, what is taken and its high end: both ends may lie on one side.
    fn spread(&self, pick: fn(&Headline) -> f64) -> f64 {
        let all = [self.at_low, self.as_taken, self.at_high].map(|headline| pick(&headline));
        all.into_iter().fold(f64::NEG_INFINITY, f64::max) - all.into_iter().fold(f64::INFINITY, f64::min)
    }

    /// How far it moves the coolest spot, K.
    #[must_use]
    pub fn swing_k(&self) -> f64 {
        self.spread(|headline| headline.lowest_c)
    }

    /// How far it moves the next morning's floor, K.
    #[must_use]
    pub fn morning_swing_k(&self) -> f64 {
        self.spread(|headline| headline.morning_c)
    }
}

/// How sure an answer is.
#[derive(Clone, Debug, PartialEq)]
pub struct Sure {
    /// The evening with every unknown as taken.
    pub best: Headline,
    /// Draws it was tried on.
    pub draws: u32,
    /// Share of the draws with the same verdict.
    pub verdict_stands: f64,
    /// Band of the coolest spot, degC.
    pub lowest_c: [f64; 2],
    /// Band of the floor at the first order, degC.
    pub start_c: [f64; 2],
    /// Band of the wait that nine orders in ten stay under, s.
    pub wait_p90_s: [f64; 2],
    /// Band of what is left of what is tightest, share of it.
    pub spare: [f64; 2],
    /// Band of the slowest bake, s.
    pub bake_s: [f64; 2],
    /// Band of the time until half of all spots are back, s.
    pub recovery_s: [f64; 2],
    /// Band of the wood burnt, kg.
    pub wood_kg: [f64; 2],
    /// Band of the gas burnt, J.
    pub gas_j: [f64; 2],
    /// Band of the next morning's floor, degC.
    pub morning_c: [f64; 2],
    /// What the share of draws in which the verdict stands says of all evenings like it: see [`between`].
    pub stands_between: [f64; 2],
    /// Each unknown alone, the one that moves most first.
    pub effects: Vec<Effect>,
}

/// The share of its range at which an unknown lies, by how many in all lie below: likeliest in the middle, where what is taken is.
#[must_use]
pub fn likelier_in_the_middle(below: f64) -> f64 {
    if below < 0.5 { (0.5 * below).sqrt() } else { 1.0 - (0.5 * (1.0 - below)).sqrt() }
}

/// A Latin hypercube: for each draw, for each unknown, the share of all that lies below it.
#[must_use]
pub fn hypercube(seed: u64, draws: u32) -> Vec<Vec<f64>> {
    let mut rng = Xoshiro256PlusPlus::seed_from_u64(seed);
    let mut all = vec![Vec::with_capacity(UNKNOWNS.len()); draws as usize];
    for _ in UNKNOWNS {
        let mut slices: Vec<u32> = (0..draws).collect();
        // Fisher and Yates' shuffle.
        for i in (1..slices.len()).rev() {
            let other = (rng.random::<f64>() * (i + 1) as f64) as usize;
            slices.swap(i, other.min(i));
        }
        for (draw, slice) in all.iter_mut().zip(slices) {
            draw.push((f64::from(slice) + rng.random::<f64>()) / f64::from(draws));
        }
    }
    all
}

/// What is taken to be different on one of the evenings that are played.
#[derive(Clone, Debug, PartialEq)]
pub enum Evening {
    /// Nothing.
    Best,
    /// One unknown at the low or high end of its range, all else as taken.
    End(Unknown, f64),
    /// All unknowns drawn together.
    Draw(Vec<(Unknown, f64)>),
}

/// Every evening that is played: as taken, the draws, both ends of each unknown.
#[must_use]
pub fn evenings(seed: u64) -> Vec<Evening> {
    let ends = UNKNOWNS.into_iter().flat_map(|unknown| [0.0, 1.0].map(|share| Evening::End(unknown, share)));
    let drawn = hypercube(seed, DRAWS).into_iter().map(|draw| {
        UNKNOWNS.into_iter().zip(draw).map(|(unknown, below)| (unknown, likelier_in_the_middle(below))).collect()
    });
    std::iter::once(Evening::Best).chain(drawn.map(Evening::Draw)).chain(ends).collect()
}

/// Plays one of them.
///
/// # Errors
/// What the computing did not get right.
pub fn play(scenario: &Scenario, evening: &Evening) -> Result<Headline, Fault> {
    let at = |places: &[(Unknown, f64)]| {
        let ready = kitchen(scenario, DEFAULT_ACCURACY, places);
        let headline = Headline::of(&ready);
        ready.noted.first().map_or(Ok(headline), Err)
    };
    match evening {
        Evening::Best => at(&[]),
        Evening::End(unknown, share) => at(&[(*unknown, *share)]),
        Evening::Draw(places) => at(places),
    }
}

/// Adds up the evenings that were played; `None` before the first of them and a draw are there.
#[must_use]
pub fn add_up(evenings: &[Evening], played: &[Option<Headline>]) -> Option<Sure> {
    let all = || evenings.iter().zip(played).filter_map(|(evening, headline)| headline.map(|h| (evening, h)));
    let best = all().find(|(evening, _)| **evening == Evening::Best)?.1;
    let drawn: Vec<Headline> = all().filter(|(e, _)| matches!(e, Evening::Draw(_))).map(|(_, h)| h).collect();
    if drawn.is_empty() {
        return None;
    }
    let end = |of: &Unknown, at: f64| {
        let is_it = |e: &Evening| matches!(e, Evening::End(u, share) if u.key == of.key && (share - at).abs() < 0.5);
        all().find(|(evening, _)| is_it(evening)).map(|(_, headline)| headline)
    };
    let effect = |unknown: Unknown| {
        let (at_low, at_high) = (end(&unknown, 0.0)?, end(&unknown, 1.0)?);
        Some(Effect { unknown, as_taken: best, at_low, at_high })
    };
    let mut effects: Vec<Effect> = UNKNOWNS.into_iter().filter_map(effect).collect();
    crate::numerics::order::by(&mut effects, |a, b| b.swing_k().total_cmp(&a.swing_k()));
    let band = |pick: fn(&Headline) -> f64| {
        let mut list: Vec<f64> = drawn.iter().map(pick).collect();
        crate::numerics::order::rising(&mut list);
        BAND.map(|share| quantile(&list, share))
    };
    let stands = drawn.iter().filter(|h| h.carries == best.carries).count();
    Some(Sure {
        best,
        draws: drawn.len() as u32,
        verdict_stands: stands as f64 / drawn.len() as f64,
        lowest_c: band(|h| h.lowest_c),
        start_c: band(|h| h.start_c),
        wait_p90_s: band(|h| h.wait_p90_s),
        spare: band(|h| h.spare),
        bake_s: band(|h| h.bake_s),
        recovery_s: band(|h| h.recovery_s),
        wood_kg: band(|h| h.wood_kg),
        gas_j: band(|h| h.gas_j),
        morning_c: band(|h| h.morning_c),
        stands_between: between(stands, drawn.len()),
        effects,
    })
}

#[cfg(test)]
mod tests {
    use super::unknowns::{Range, either_side};
    use super::*;

    #[test]
    fn every_slice_of_every_range_is_used_once() {
        let draws = hypercube(7, DRAWS);
        for unknown in 0..UNKNOWNS.len() {
            let mut slices: Vec<u32> = draws.iter().map(|draw| (draw[unknown] * f64::from(DRAWS)) as u32).collect();
            slices.sort_unstable();
            assert_eq!(slices, (0..DRAWS).collect::<Vec<u32>>());
        }
    }

    #[test]
    fn what_is_taken_is_the_middle_of_the_draws_whichever_way_its_range_leans() {
        for evening in evenings(11) {
            if let Evening::Draw(places) = evening {
                assert!(places.iter().all(|(_, share)| (0.0..=1.0).contains(share)));
            }
        }
        let shares = |unknown: usize| -> Vec<f64> {
            let drawn = evenings(11).into_iter().filter_map(|evening| match evening {
                Evening::Draw(places) => Some(places[unknown].1),
                _ => None,
            });
            drawn.collect()
        };
        for (at, unknown) in UNKNOWNS.iter().enumerate() {
            let under = shares(at).into_iter().filter(|&share| share < 0.5).count();
            assert_eq!(under, DRAWS as usize / 2, "{}", unknown.key);
        }
        // Half of all draws within three tenths of the way to an end, as a triangle has it.
        assert!((likelier_in_the_middle(0.75) - 0.5 - 0.5 * (1.0 - 0.5_f64.sqrt())).abs() < 1e-12);
    }

    #[test]
    fn a_share_of_some_draws_has_the_interval_of_the_books() {
        // Worked by hand: 10 of 10 leaves z2/(n + z2) = 3.8415/13.8415 open below; Wilson's of 8 in 10 is 0.490 to 0.943.
        let [low, high] = between(10, 10);
        assert!((low - (1.0 - 3.8415 / 13.8415)).abs() < 1e-4 && (high - 1.0).abs() < 1e-12);
        let [low, high] = between(8, 10);
        assert!((low - 0.490).abs() < 1e-3 && (high - 0.943).abs() < 1e-3, "{low} {high}");
    }

    #[test]
    fn a_share_of_a_half_is_what_is_taken_and_the_ends_are_the_ranges() {
        assert!((either_side(0.5, 0.6, 1.2, 0.5) - 0.6).abs() < 1e-15);
        assert!((either_side(0.5, 0.6, 1.2, 0.0) - 0.5).abs() < 1e-15);
        assert!((either_side(0.5, 0.6, 1.2, 1.0) - 1.2).abs() < 1e-15);
        // Measured, and outside what was thought plausible: the range ends there.
        assert!((either_side(0.5, 1.4, 1.2, 1.0) - 1.4).abs() < 1e-15);
        for unknown in UNKNOWNS {
            let (Range::Between(low, high) | Range::Off(low, high) | Range::Times(low, high)) = unknown.range;
            assert!(low < high, "{}", unknown.key);
        }
    }
}
