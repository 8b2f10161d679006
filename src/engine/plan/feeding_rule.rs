//! Owns the one simple rule by which every floor of a ladder is fed, so that floors are compared by what they are and not by
//! how cleverly each is fired.

use super::reach::first_breach;
use crate::matter::wood;
use crate::scenario::{ClockS, FeedPhase, Feeding, Scenario};
use crate::service::judge::{Breach, Pledge, Resource, judge};
use crate::service::night::{Keep, Ready, play};
use crate::service::trace::Trace;
use crate::units::time::HOUR_S;

/// The rule in words, for page and terminal.
pub const RULE: &str = "Every floor is fed by the same rule. It heats up at four fifths of the fastest pace that burns clean and \
    keeps the flame in the oven, lit so that the floor stands two thirds up the menu's bands when the first piece goes in. From \
    then to half an hour before the last order it is fed at one steady pace: the laziest that keeps every promise.";

/// Heating up takes this share of the fastest clean pace. Our choice: room for a heavy piece.
const HEATING_SHARE: f64 = 0.8;
/// Where in the common band the floor stands at the first piece, share. Our choice: the rush pulls it down from there.
const AIM_SHARE: f64 = 2.0 / 3.0;
/// First piece after the match, s. Common practice, no source.
const KINDLED_S: f64 = 1200.0;
/// Last piece before the last order, s. Common practice, no source.
const STOPS_BEFORE_S: f64 = 1800.0;
/// Longest heating up that is looked at, s.
const HEATING_MOST_S: f64 = 6.0 * 3600.0;
/// The match is struck at a time a cook can read off a clock, s.
const CLOCK_STEP_S: f64 = 300.0;
/// More feeds than this in an hour nobody keeps up; beyond it several pieces go in together. Common practice, no source.
const FEEDS_MOST_PER_H: f64 = 6.0;
/// Intervals come in steps a cook can keep, s.
const INTERVAL_STEP_S: f64 = 30.0;
/// Laziest pace looked at, kg/h: a fire that is hardly one. Our choice.
const LAZIEST_KG_H: f64 = 0.3;
/// Fastest pace looked at, kg/h: more than any doorway on offer feeds with air. Our choice.
const FASTEST_KG_H: f64 = 24.0;
/// Share of doorway air and flame's way a pace may use. Our choice: a flare is not a plan.
const CLEAN_SHARE: f64 = 0.95;
/// Halvings of the search for the fastest clean pace.
const CLEAN_HALVINGS: u32 = 6;
/// Evenings played at most while the laziest pace is looked for, and while any is.
const TRIES: [u32; 2] = [7, 4];
/// Two paces closer than this share are the same to a cook.
const SAME_PACE: f64 = 0.08;

/// The floor wanted when the first piece goes in, degC: two thirds up the band the ordered dishes share; where they share
/// none, the mean of their middles by how often they are ordered.
#[must_use]
pub fn aim_c(scenario: &Scenario) -> f64 {
    let batched = |name: &str| scenario.service.batches.iter().any(|b| b.dish == name);
    let wanted = || scenario.menu.iter().filter(|d| d.per_100_covers > 0.0 || batched(&d.name));
    let low = wanted().map(|d| d.floor_min_c).fold(f64::NEG_INFINITY, f64::max);
    let high = wanted().map(|d| d.floor_max_c).fold(f64::INFINITY, f64::min);
    if low.is_finite() && low < high {
        return low + AIM_SHARE * (high - low);
    }
    let weight: f64 = wanted().map(|d| d.per_100_covers.max(1.0)).sum();
    let sum: f64 = wanted().map(|d| d.per_100_covers.max(1.0) * 0.5 * (d.floor_min_c + d.floor_max_c)).sum();
    if weight > 0.0 { sum / weight } else { scenario.start.floor_c }
}

/// When the first piece goes in, s.
#[must_use]
pub fn ready_by(scenario: &Scenario) -> ClockS {
    scenario.service.batches.iter().map(|b| b.at).fold(scenario.service.start, f64::min)
}

/// A rhythm by the rule.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Rhythm {
    /// The match, s.
    pub light_at: ClockS,
    /// Heating up, kg/h.
    pub heat_kg_h: f64,
    /// Service, kg/h.
    pub serve_kg_h: f64,
}

/// One stretch at a pace, in whole pieces at intervals a cook can keep.
#[must_use]
pub fn stretch(from: ClockS, to: ClockS, kg_h: f64, piece_kg: f64) -> Option<FeedPhase> {
    let per_h = kg_h / piece_kg;
    let pieces = (per_h / FEEDS_MOST_PER_H).ceil().max(1.0);
    let every_s = ((HOUR_S * pieces / per_h) / INTERVAL_STEP_S).round().max(1.0) * INTERVAL_STEP_S;
    (to > from).then_some(FeedPhase { from, to, every_s, pieces })
}

/// The feeding of a rhythm.
#[must_use]
pub fn feeding(scenario: &Scenario, rhythm: &Rhythm) -> Feeding {
    let piece_kg = wood::Fuel::new(&scenario.wood).piece_mass_kg;
    let by = ready_by(scenario);
    let last = scenario.service.batches.iter().map(|b| b.at).fold(scenario.service.end, f64::max) - STOPS_BEFORE_S;
    let phases = [
        stretch(rhythm.light_at + KINDLED_S, by, rhythm.heat_kg_h, piece_kg),
        stretch(by, last, rhythm.serve_kg_h, piece_kg),
    ];
    Feeding {
        light_at: rhythm.light_at,
        kindling_kg: scenario.feeding.kindling_kg,
        phases: phases.into_iter().flatten().collect(),
        spread_coals: Vec::new(),
    }
}

/// An oven fed by a rhythm; a match before this morning's reading takes the reading as made then.
#[must_use]
pub fn fed(ready: &Ready, rhythm: &Rhythm) -> Ready {
    ready.with(|scenario| {
        scenario.feeding = feeding(scenario, rhythm);
        scenario.start.read_at = scenario.start.read_at.min(rhythm.light_at);
    })
}

/// Nothing but heating up, from the match to the first piece.
#[must_use]
pub fn heating(ready: &Ready, rhythm: &Rhythm) -> Trace {
    let alone = fed(ready, rhythm).with(|scenario| {
        let by = ready_by(scenario);
        scenario.service.covers.clear();
        scenario.service.batches.clear();
        scenario.service.wipes.clear();
        (scenario.service.start, scenario.service.end) = (by, by);
        // The morning until then is nobody's business here.
        scenario.start.read_at = rhythm.light_at;
    });
    play(&alone, Keep::default())
}

/// Whether the fire stayed within clean burning and its way, once it had caught.
fn is_clean(trace: &Trace, light_at: ClockS) -> bool {
    let counted = trace.quarters.iter().filter(|q| q.at_s >= light_at + KINDLED_S);
    counted.map(|q| q.reach.max(q.air_used).max(q.hard_limit_used)).fold(0.0, f64::max) <= CLEAN_SHARE
}

/// How an oven heats up by the rule.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heating {
    /// Fastest clean pace, kg/h.
    pub cleanest_kg_h: f64,
    /// From the match to the floor wanted, s; the longest looked at where it is not reached.
    pub takes_s: f64,
    /// Whether the floor wanted is reached at all.
    pub reaches: bool,
    /// Energy of wood and gas burnt until then, J.
    pub energy_j: f64,
    /// Wood fed until then, kg.
    pub wood_kg: f64,
    /// The rhythm, its service still at the heating pace.
    pub rhythm: Rhythm,
}

/// Finds the fastest clean pace and when to light.
#[must_use]
pub fn heat_up(ready: &Ready) -> Heating {
    let by = ready_by(&ready.scenario);
    let early = (by - HEATING_MOST_S).max(0.0);
    let try_out = |kg_h: f64| {
        let rhythm = Rhythm { light_at: early, heat_kg_h: kg_h, serve_kg_h: kg_h };
        heating(ready, &rhythm)
    };
    let (mut low, mut high) = (LAZIEST_KG_H, FASTEST_KG_H);
    for _ in 0..CLEAN_HALVINGS {
        let middle = (low * high).sqrt();
        if is_clean(&try_out(middle), early) { low = middle } else { high = middle }
    }
    heat_at(ready, low)
}

/// Heats up at the rule's share of a clean pace that is known, and finds when to light.
#[must_use]
pub fn heat_at(ready: &Ready, cleanest_kg_h: f64) -> Heating {
    let by = ready_by(&ready.scenario);
    let early = (by - HEATING_MOST_S).max(0.0);
    let pace = HEATING_SHARE * cleanest_kg_h;
    let trace = heating(ready, &Rhythm { light_at: early, heat_kg_h: pace, serve_kg_h: pace });
    let aim = aim_c(&ready.scenario);
    let (mut was_s, mut was_c) = (early, ready.scenario.start.floor_c);
    let (mut takes_s, mut reaches) = (by - early, false);
    for quarter in &trace.quarters {
        let at_s = (quarter.at_s + crate::units::time::QUARTER_S).min(by);
        if quarter.mean_c >= aim {
            let share = ((aim - was_c) / (quarter.mean_c - was_c).max(1e-9)).clamp(0.0, 1.0);
            takes_s = (was_s + share * (at_s - was_s) - early).max(KINDLED_S);
            reaches = true;
            break;
        }
        (was_s, was_c) = (at_s, quarter.mean_c);
    }
    let light_at = (((by - takes_s) / CLOCK_STEP_S).floor() * CLOCK_STEP_S).max(early);
    let lhv = ready.build.fuel.lhv_j_kg;
    let until = early + takes_s;
    let part = |at_s: f64| ((until - at_s) / crate::units::time::QUARTER_S).clamp(0.0, 1.0);
    let burnt_j: f64 = trace.quarters.iter().map(|q| part(q.at_s) * (q.wood_kg * lhv + q.gas_j)).sum();
    let wood_kg: f64 = trace.quarters.iter().map(|q| part(q.at_s) * q.fed_kg).sum();
    let rhythm = Rhythm { light_at, heat_kg_h: pace, serve_kg_h: pace };
    Heating { cleanest_kg_h, takes_s, reaches, energy_j: burnt_j, wood_kg, rhythm }
}

/// A pace that was looked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Paced {
    /// The rhythm: the laziest that holds, or the closest where none does.
    pub rhythm: Rhythm,
    /// What it breaks; `None` where it holds.
    pub breach: Option<Breach>,
}

/// Which way a breach says the fire is wrong: too hot or too much, rather than too cold.
fn is_hot(breach: &Breach) -> bool {
    breach.pledge == Pledge::FireLimits || matches!(breach.gives, Resource::Fire | Resource::DoorwayAir)
}

/// Looks for a steady pace of service, first at `hint_kg_h`: too cold wants more, too hot less, and what holds is tried lazier
/// while `lazy`.
#[must_use]
pub fn pace(ready: &Ready, heating: &Heating, hint_kg_h: f64, lazy: bool) -> Paced {
    // The fire cooks: with a burner too it gets a piece an hour at least.
    let laziest = LAZIEST_KG_H.max(wood::Fuel::new(&ready.scenario.wood).piece_mass_kg);
    let (mut low, mut high) = (laziest, heating.cleanest_kg_h.max(laziest));
    let mut kg_h = hint_kg_h.clamp(low, high);
    let mut found: Option<Paced> = None;
    let mut closest: Option<Paced> = None;
    for _ in 0..TRIES[usize::from(!lazy)] {
        let rhythm = Rhythm { serve_kg_h: kg_h, ..heating.rhythm };
        let breach = first_breach(&fed(ready, &rhythm));
        let paced = Paced { rhythm, breach };
        match &breach {
            None => {
                found = Some(paced);
                high = kg_h;
                if !lazy {
                    break;
                }
            }
            Some(breach) if is_hot(breach) => high = kg_h,
            Some(_) => low = kg_h,
        }
        closest = Some(paced);
        if high / low < 1.0 + SAME_PACE {
            break;
        }
        // At the upper end once, before halving towards it: a floor that cannot be held at all is known at once.
        let untried_top = found.is_none() && high >= heating.cleanest_kg_h && low > laziest;
        kg_h = if untried_top && kg_h < 0.9 * high { 0.97 * high } else { (low * high).sqrt() };
    }
    found.or(closest).unwrap_or(Paced { rhythm: heating.rhythm, breach: None })
}

/// Plays and judges an oven by a rhythm.
#[must_use]
pub fn play_by(ready: &Ready, rhythm: &Rhythm) -> (Ready, Trace, Option<Breach>) {
    let ready = fed(ready, rhythm);
    let trace = play(&ready, Keep::default());
    let breach = judge(&ready, &trace).breaches.first().copied();
    (ready, trace, breach)
}
