//! Owns the bad nights: seeded evenings with random parties, mix, wood and a cook who feeds late, and what they add up to.
//!
//! One night is a pure function of (seed, index), so nights may be computed anywhere and in any order. Each kind of chance has
//! its own stream of draws: two ovens under the same seed meet the same guests, the same wood and the same forgetful cook.

use crate::units::time::QUARTER_S;
use core::f64::consts::PI;

use rand::{RngExt, SeedableRng, rngs::Xoshiro256PlusPlus};

use crate::hearth::build::{Accuracy, DEFAULT_ACCURACY};
use crate::scenario::{Arrivals, FeedPhase, Scenario};
use crate::service::judge::{Pledge, Resource, judge, quantile};
use crate::service::night::{Keep, Ready, play};
use crate::service::trace::Trace;

/// Spread of a dish's share of the orders from night to night, share (standard deviation). No source: 10-25 % is plausible.
pub const MIX_SPREAD: f64 = 0.15;
/// Spread of what a pin meter shows from basket to basket, as a share of dry mass. From memory (1-3 % within one stack).
pub const MOISTURE_SPREAD: f64 = 0.02;
/// Spread of a piece's weight about the mean, share. Common practice, no source: hand-split wood, 15-30 %.
pub const PIECE_SPREAD: f64 = 0.2;
/// A feed comes late by this on average, s. Common practice, no source: a busy cook, 1-5 min.
pub const LATE_MEAN_S: f64 = 180.0;
/// No feed is later than this, s: somebody notices. Common practice, no source.
pub const LATE_MOST_S: f64 = 900.0;
/// A piece is at least and at most this share of the mean.
const PIECE_LIMITS: [f64; 2] = [0.5, 1.6];
/// A dish's share of the orders changes at most by these factors.
const MIX_LIMITS: [f64; 2] = [0.5, 1.7];
/// What the meter may show, share of dry mass: the limits of the field.
const MOISTURE_LIMITS: [f64; 2] = [0.0, 0.4];
/// 97.5 % point of the normal distribution.
const Z_95: f64 = 1.959_963_984_540_054;
/// A single feed as a stretch of its own lasts this long, s.
const ONE_FEED_S: f64 = 1.0;

/// How finely a night among many is cut: coarser than a carry answer, since hundreds are asked for and their spread is far
/// larger than the cut's error.
pub const NIGHTS_ACCURACY: Accuracy =
    Accuracy { cell_m: 0.14, busy_step_s: 8.0, idle_step_s: 30.0, ..DEFAULT_ACCURACY };

/// What one night leaves behind.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct NightSummary {
    /// Which night.
    pub index: u64,
    /// The name of the promise that broke first; empty where all held.
    pub broke: String,
    /// What gave; empty where all held.
    pub gave: String,
    /// On which dish, if on one above the others.
    pub dish: String,
    /// When it broke, s since midnight.
    pub broke_s: Option<f64>,
    /// Nine orders in ten waited at most this, s. Orders never started count as waiting to the end.
    pub wait_p90_s: f64,
    /// Wood fed, kg.
    pub wood_kg: f64,
    /// Coolest spot at loading, degC; `None` where nothing was loaded.
    pub lowest_c: Option<f64>,
    /// Covers that came.
    pub covers: f64,
}

impl NightSummary {
    /// Whether all promises held.
    #[must_use]
    pub fn held(&self) -> bool {
        self.broke.is_empty()
    }
}

/// What many nights add up to.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Nights {
    /// How many.
    pub run: u32,
    /// How many held.
    pub held: u32,
    /// In nine nights of ten, nine orders in ten wait at most this, s.
    pub wait_p90_s: f64,
    /// Wood: the night that one in ten stays under, the middle one, the one that one in ten goes over, kg.
    pub wood_kg: [f64; 3],
    /// Coolest spot at loading that one night in ten goes under, degC.
    pub lowest_p10_c: Option<f64>,
    /// Nights broken in each quarter hour: its start, s, and how many; by time.
    pub breaks: Vec<(f64, u32)>,
    /// What gave first, and in how many nights; most first.
    pub gave: Vec<(String, u32)>,
    /// The dish it gave on, and in how many nights; most first.
    pub on: Vec<(String, u32)>,
    /// The promise that broke first, and in how many nights; most first.
    pub broke: Vec<(String, u32)>,
}

impl Nights {
    /// Share of nights that held.
    #[must_use]
    pub fn holds_fraction(&self) -> f64 {
        f64::from(self.held) / f64::from(self.run.max(1))
    }

    /// The 95 % interval of that share.
    #[must_use]
    pub fn interval(&self) -> [f64; 2] {
        wilson(self.held, self.run)
    }
}

/// The 95 % interval of a share of which `held` in `run` were seen (Wilson, E. B. (1927) J. Am. Stat. Assoc. 22:209-212).
///
/// ```
/// let [low, high] = hearthload::plan::nights::wilson(9, 10);
/// assert!((low - 0.5958).abs() < 1e-3 && (high - 0.9821).abs() < 1e-3);
/// ```
#[must_use]
pub fn wilson(held: u32, run: u32) -> [f64; 2] {
    if run == 0 {
        return [0.0, 1.0];
    }
    let (n, z2) = (f64::from(run), Z_95 * Z_95);
    let p = f64::from(held) / n;
    let middle = (p + z2 / (2.0 * n)) / (1.0 + z2 / n);
    let half = Z_95 / (1.0 + z2 / n) * (p * (1.0 - p) / n + z2 / (4.0 * n * n)).sqrt();
    [(middle - half).max(0.0), (middle + half).min(1.0)]
}

/// Kinds of chance, each with its own stream.
#[derive(Clone, Copy)]
enum Chance {
    Guests = 1,
    Parties = 2,
    Mix = 3,
    Moisture = 4,
    Pieces = 5,
    Late = 6,
}

/// Spreads seed, index and kind over 64 bits (SplitMix64's finaliser; Steele, Lea & Flood (2014), OOPSLA).
fn mixed(seed: u64, index: u64, chance: Chance) -> u64 {
    let mut hash = seed;
    for part in [index, chance as u64] {
        hash = hash.wrapping_add(part.wrapping_mul(0xd1b5_4a32_d192_ed03)).wrapping_add(0x9e37_79b9_7f4a_7c15);
        hash = (hash ^ (hash >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        hash = (hash ^ (hash >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        hash ^= hash >> 31;
    }
    hash
}

fn stream(seed: u64, index: u64, chance: Chance) -> Xoshiro256PlusPlus {
    Xoshiro256PlusPlus::seed_from_u64(mixed(seed, index, chance))
}

/// A standard normal draw from two uniforms (Box & Muller (1958) Ann. Math. Stat. 29:610).
fn normal(rng: &mut Xoshiro256PlusPlus) -> f64 {
    let (u, v): (f64, f64) = (rng.random(), rng.random());
    (-2.0 * libm::log1p(-u)).sqrt() * libm::cos(2.0 * PI * v)
}

/// How many parties come where `mean` are expected: Poisson by inversion, one uniform.
fn poisson(mean: f64, uniform: f64) -> f64 {
    let mut chance = libm::exp(-mean);
    let (mut sum, mut count) = (chance, 0.0);
    // Past this even the largest mean taken here has spent all but 1e-12 of its chances.
    while uniform > sum && count < 3.0 * mean + 60.0 {
        count += 1.0;
        chance *= mean / count;
        sum += chance;
    }
    count
}

/// Larger means are taken as normal, since exp(-mean) runs out of digits.
const POISSON_MOST: f64 = 200.0;

fn parties(mean: f64, rng: &mut Xoshiro256PlusPlus) -> f64 {
    let uniform: f64 = rng.random();
    if mean <= POISSON_MOST {
        return poisson(mean, uniform);
    }
    let sum: f64 = (0..12).map(|_| rng.random::<f64>()).sum();
    (mean + (sum - 6.0) * mean.sqrt()).round().max(0.0)
}

/// The scenario of one night.
#[must_use]
pub fn chance_of(scenario: &Scenario, seed: u64, index: u64) -> Scenario {
    let mut night = scenario.clone();
    guests(&mut night, seed, index);
    mix(&mut night, seed, index);
    let drift = MOISTURE_SPREAD * normal(&mut stream(seed, index, Chance::Moisture));
    night.wood.meter_dry_basis = (night.wood.meter_dry_basis + drift).clamp(MOISTURE_LIMITS[0], MOISTURE_LIMITS[1]);
    feeds(&mut night, seed, index);
    night
}

fn guests(night: &mut Scenario, seed: u64, index: u64) {
    let mut rng = stream(seed, index, Chance::Guests);
    let size = night.service.party_mean.max(1.0);
    for covers in &mut night.service.covers {
        *covers = (parties(*covers / size, &mut rng) * size).round();
    }
    night.service.arrivals = Arrivals::Parties;
    night.service.seed = mixed(seed, index, Chance::Parties);
}

/// Dishes trade favour; together they stay as many by cover as before.
fn mix(night: &mut Scenario, seed: u64, index: u64) {
    let mut rng = stream(seed, index, Chance::Mix);
    let before: f64 = night.menu.iter().map(|d| d.per_100_covers).sum();
    for dish in &mut night.menu {
        dish.per_100_covers *= (1.0 + MIX_SPREAD * normal(&mut rng)).clamp(MIX_LIMITS[0], MIX_LIMITS[1]);
    }
    let after: f64 = night.menu.iter().map(|d| d.per_100_covers).sum();
    if after > 0.0 {
        for dish in &mut night.menu {
            dish.per_100_covers *= before / after;
        }
    }
}

/// Each feed becomes a stretch of its own, late by an exponential draw, never before the one ahead of it, its wood weighed anew.
fn feeds(night: &mut Scenario, seed: u64, index: u64) {
    let (mut late, mut weight) = (stream(seed, index, Chance::Late), stream(seed, index, Chance::Pieces));
    let mut feeds: Vec<FeedPhase> = Vec::new();
    for phase in &night.feeding.phases {
        let mut n = 0.0;
        while phase.from + n * phase.every_s < phase.to - 1e-6 {
            let delay = (-LATE_MEAN_S * libm::log1p(-late.random::<f64>())).min(LATE_MOST_S);
            let before = feeds.last().map_or(f64::NEG_INFINITY, |f| f.to);
            let from = (phase.from + n * phase.every_s + delay).max(before);
            let share = (1.0 + PIECE_SPREAD * normal(&mut weight)).clamp(PIECE_LIMITS[0], PIECE_LIMITS[1]);
            feeds.push(FeedPhase { from, to: from + ONE_FEED_S, every_s: ONE_FEED_S, pieces: phase.pieces * share });
            n += 1.0;
        }
    }
    night.feeding.phases = feeds;
}

/// Plays one night over a ready oven. The same seed and index give the same night whatever else is computed.
#[must_use]
pub fn one(ready: &Ready, seed: u64, index: u64) -> NightSummary {
    let night = chance_of(&ready.scenario, seed, index);
    let mut changed = ready.with(|scenario| *scenario = night);
    changed.build.take_wood(&changed.scenario);
    let trace = play(&changed, Keep::default());
    let judgement = judge(&changed, &trace);
    let first = judgement.breaches.first();
    let lowest_c = trace.bakes.iter().map(|b| b.at_load_c).min_by(f64::total_cmp);
    NightSummary {
        index,
        broke: first.map_or("", |b| pledge_key(b.pledge)).to_owned(),
        gave: first.map_or("", |b| resource_key(b.gives)).to_owned(),
        dish: first.and_then(|b| b.dish).map_or_else(String::new, |dish| changed.scenario.menu[dish].name.clone()),
        broke_s: first.map(|b| b.from_s),
        wait_p90_s: wait_p90_s(&trace, &changed.scenario),
        wood_kg: trace.light_up_kg + trace.service_kg,
        lowest_c,
        covers: changed.scenario.service.covers.iter().sum(),
    }
}

fn wait_p90_s(trace: &Trace, scenario: &Scenario) -> f64 {
    let mut waits: Vec<f64> =
        trace.bakes.iter().filter(|b| !b.batch).map(crate::service::trace::Bake::wait_s).collect();
    let lost: u32 = trace.never_started.iter().sum();
    waits.extend((0..lost).map(|_| trace.ended_s - scenario.service.start));
    crate::numerics::order::rising(&mut waits);
    quantile(&waits, 0.9)
}

/// Adds up nights, in the order of their index, whatever order they come in.
#[must_use]
pub fn fold(nights: impl IntoIterator<Item = NightSummary>) -> Nights {
    let mut all: Vec<NightSummary> = nights.into_iter().collect();
    crate::numerics::order::by(&mut all, |a, b| a.index.cmp(&b.index));
    let sorted = |pick: &dyn Fn(&NightSummary) -> Option<f64>| {
        let mut list: Vec<f64> = all.iter().filter_map(pick).collect();
        crate::numerics::order::rising(&mut list);
        list
    };
    let wood = sorted(&|n| Some(n.wood_kg));
    let lowest = sorted(&|n| n.lowest_c);
    Nights {
        run: all.len() as u32,
        held: all.iter().filter(|n| n.held()).count() as u32,
        wait_p90_s: quantile(&sorted(&|n| Some(n.wait_p90_s)), 0.9),
        wood_kg: [0.1, 0.5, 0.9].map(|share| quantile(&wood, share)),
        lowest_p10_c: (!lowest.is_empty()).then(|| quantile(&lowest, 0.1)),
        breaks: breaks(&all),
        gave: counted(&all, |n| &n.gave),
        on: counted(&all, |n| &n.dish),
        broke: counted(&all, |n| &n.broke),
    }
}

fn breaks(all: &[NightSummary]) -> Vec<(f64, u32)> {
    let mut by_quarter: std::collections::BTreeMap<u32, u32> = std::collections::BTreeMap::new();
    for at in all.iter().filter_map(|n| n.broke_s) {
        *by_quarter.entry((at / QUARTER_S).max(0.0) as u32).or_default() += 1;
    }
    by_quarter.into_iter().map(|(quarter, count)| (f64::from(quarter) * QUARTER_S, count)).collect()
}

/// How often each name stands in the nights that broke, most often first.
fn counted(all: &[NightSummary], name: fn(&NightSummary) -> &String) -> Vec<(String, u32)> {
    let mut by_name: std::collections::BTreeMap<&str, u32> = std::collections::BTreeMap::new();
    for night in all.iter().filter(|n| !n.held() && !name(n).is_empty()) {
        *by_name.entry(name(night)).or_default() += 1;
    }
    let mut list: Vec<(String, u32)> = by_name.into_iter().map(|(name, count)| (name.to_owned(), count)).collect();
    crate::numerics::order::by(&mut list, |a, b| b.1.cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
    list
}

/// The name of a promise in JSON.
#[must_use]
pub fn pledge_key(pledge: Pledge) -> &'static str {
    match pledge {
        Pledge::WaitP90 => "wait_p90_s",
        Pledge::BakeSlower => "bake_slower_max",
        Pledge::ShareInBand => "share_in_band",
        Pledge::QueueGoneBy => "queue_gone_by",
        Pledge::FireLimits => "fire_limits",
    }
}

/// The name of a resource in JSON.
#[must_use]
pub fn resource_key(resource: Resource) -> &'static str {
    match resource {
        Resource::FloorHeat => "floor_heat",
        Resource::TopHeat => "top_heat",
        Resource::FloorSpace => "floor_space",
        Resource::Hands => "hands",
        Resource::Fire => "fire",
        Resource::DoorwayAir => "doorway_air",
        Resource::Cap => "cap",
    }
}
