//! Owns the cook's plan as a whole: light-up, rhythm, margins, evening, what changes with wetter wood, and the burner's part.

use super::assist::{self, AssistPlan, RAKED_BEFORE_S, SPREAD_FOR_S};
use super::cadence::{CLOCK_STEP_S, Cadence, FIRST_FEED_S, Phase, STRETCHES, Stretch, feeds_of};
use super::from_now::{FromNow, Now, from_now};
use super::laziest::{Search, farthest, in_minutes};
use super::light_up::{Keenest, MOST_EVERY_MIN, keenest};
use super::overnight::{Overnight, overnight};
use super::rough::{Rough, rough};
use super::sheet::{Sheet, sheet};
use super::trial::{Bench, Leans, Player, Trial, coarse};
use crate::hearth::build::{DEFAULT_ACCURACY, fuel};
use crate::hearth::oven::Hearth;
use crate::scenario::{ClockS, Scenario};
use crate::service::judge::judge;
use crate::service::night::{Keep, run};
use crate::service::orders::orders;
use crate::units::time::{MINUTE_S, QUARTER_S};

/// Meter readings the plan is worked out for besides the scenario's own, share of dry mass.
pub const WETTER: [f64; 2] = [0.20, 0.25];
/// At most so many corrections of a rhythm found on the coarse oven.
const MOST_MENDS: u32 = 8;
/// Latest the rush's first piece is tried, s.
const RUSH_LATEST_S: f64 = 3600.0;
/// Intervals for wetter wood are searched within this factor of the plan's, and this finely.
const FACTORS: [f64; 3] = [0.6, 1.4, 0.03];
/// The match is struck this much earlier where wetter wood wants it, s.
const EARLIER_S: f64 = 1800.0;
/// Saving that makes spreading coals worth the rake, kg. Our choice.
const WORTH_SPREADING_KG: f64 = 0.3;

/// How far a stretch stays from its limits.
#[derive(Clone, Debug, PartialEq)]
pub struct PhaseMargin {
    /// The stretch.
    pub phase: Phase,
    /// Lowest footprint at loading over its dish's least floor, K; `None` where nothing is loaded.
    pub floor_k: Option<f64>,
    /// Doorway's air left, share.
    pub air: f64,
    /// Way to the doorway the flame leaves, share.
    pub reach: f64,
}

/// Coals spread in a lull: before the first order, or within the evening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpreadIdea {
    /// When.
    pub at: ClockS,
    /// For how long, s.
    pub for_s: f64,
    /// The match can then be struck at.
    pub light_at: ClockS,
    /// In the rush a piece is then enough this often, s.
    pub rush_every_s: f64,
    /// Wood saved, kg.
    pub saves_kg: f64,
}

/// The plan at another reading of the meter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moisture {
    /// Water over dry mass, share.
    pub meter: f64,
    /// Wood of the day over the plan's; `None` where no feeding was found to carry.
    pub times: Option<f64>,
    /// How much earlier the match is struck, s.
    pub earlier_s: f64,
    /// Intervals over the plan's.
    pub factor: f64,
}

/// A plan that carries.
#[derive(Clone, Debug)]
pub struct Carried {
    /// The day of the plan, with pictures by quarter hour.
    pub trial: Trial,
    /// The stretches and their margins.
    pub margins: Vec<PhaseMargin>,
    /// Wood before and from the first order of service, kg.
    pub light_up_kg: f64,
    /// Wood from the first order of service on, kg.
    pub service_kg: f64,
    /// Latest first piece for the rush.
    pub rush_feed_by: Option<ClockS>,
    /// Spreading coals in a lull, where it saves wood.
    pub spread: Option<SpreadIdea>,
    /// The scenario's wood and wetter wood, by one method.
    pub moisture: Vec<Moisture>,
    /// The night after.
    pub overnight: Overnight,
    /// The shift sheet.
    pub sheet: Sheet,
    /// From now on, where asked.
    pub now: Option<FromNow>,
}

/// The cook's plan.
#[derive(Clone, Debug)]
pub struct FirePlan {
    /// The oven the plan was verified on.
    pub bench: Bench,
    /// How fast it may be fed.
    pub keen: Keenest,
    /// The plan, or the closest day where none carries.
    pub outcome: Result<Box<Carried>, Box<Trial>>,
    /// The burner's part, where there is one.
    pub assist: Option<AssistPlan>,
    /// Rough nights, where asked.
    pub rough: Option<Rough>,
}

impl FirePlan {
    /// Tries the plan, and more wood than it, on so many rough nights.
    pub fn try_rough_nights(&mut self, nights: u32) {
        if let Ok(carried) = &self.outcome {
            let scenario = &self.bench.ready.scenario;
            let bench = Bench::new(scenario, coarse());
            self.rough = Some(rough(&bench, &carried.trial.cadence, scenario.service.seed, nights));
        }
    }
}

/// Plans the fire of a scenario; `now` asks for the rest of the evening too. `None` where nothing is ordered: then there is
/// nothing to light for.
#[must_use]
pub fn plan(scenario: &Scenario, now: Option<&Now>) -> Option<FirePlan> {
    if orders(scenario).is_empty() {
        return None;
    }
    let (rough, fine) = (Bench::new(scenario, coarse()), Bench::new(scenario, DEFAULT_ACCURACY));
    let keen = keenest(&rough.without_gas());
    let by_wood = search(&rough.without_gas(), &fine.without_gas(), keen);
    let (outcome, bench, assist) = match (by_wood, &scenario.oven.assist) {
        (Ok(trial), Some(burner)) => {
            let part = assist::not_needed(&rough, &fine, &trial, burner);
            (Ok(trial), fine.without_gas(), Some(part))
        }
        (Ok(trial), None) => (Ok(trial), fine, None),
        (Err(missed), None) => (Err(missed), fine, None),
        (Err(missed), Some(burner)) => match assist::assisted(&rough, &fine, keen, &missed, burner) {
            Ok((trial, bench, part)) => (Ok(trial), bench, Some(part)),
            Err(missed) => {
                let part = assist::not_enough(&rough, &fine, &missed, burner);
                (Err(missed), fine, Some(part))
            }
        },
    };
    let outcome = outcome.map(|trial| Box::new(carried(&rough, &bench, keen, trial, now)));
    Some(FirePlan { bench, keen, outcome, assist, rough: None })
}

/// Searches coarsely, verifies and mends finely, and stretches what holds once more; searches finely where mending fails.
///
/// # Errors
/// The closest day where no feeding holds.
pub fn search(rough: &Bench, fine: &Bench, keen: Keenest) -> Result<Trial, Box<Trial>> {
    let on_fine = Search::new(fine, keen);
    let found = Search::new(rough, keen).laziest().ok();
    let trial = match found.and_then(|trial| mended(&on_fine, fine, keen, trial.cadence)) {
        Some(trial) => trial,
        None => on_fine.any()?,
    };
    Ok(on_fine.stretched(trial))
}

/// Mends a rhythm by a step at a time until the fine oven holds it: the match or one stretch alone where that is enough, else all.
fn mended(search: &Search<'_>, fine: &Bench, keen: Keenest, mut cadence: Cadence) -> Option<Trial> {
    let mut trial = search.try_out(&cadence);
    let leans = trial.leans();
    for _ in 0..MOST_MENDS {
        if trial.holds() {
            return Some(trial);
        }
        if trial.leans() != leans {
            return None;
        }
        let alone = STRETCHES.iter().map(|stretch| nudged(fine, keen, &cadence, leans, &[*stretch]));
        if let Some(mended) = alone.map(|one| search.try_out(&one)).find(Trial::holds) {
            return Some(mended);
        }
        cadence = nudged(fine, keen, &cadence, leans, &STRETCHES);
        trial = search.try_out(&cadence);
    }
    trial.holds().then_some(trial)
}

/// A rhythm with some stretches a minute shorter or longer; of the light-up it is the match that moves.
fn nudged(fine: &Bench, keen: Keenest, cadence: &Cadence, leans: Leans, which: &[Stretch]) -> Cadence {
    let mut next = cadence.clone();
    let way = if leans == Leans::Cold { -1.0 } else { 1.0 };
    let [shortest, longest] = [keen.every_min, MOST_EVERY_MIN].map(|every_min| f64::from(every_min) * MINUTE_S);
    for stretch in which {
        if *stretch == Stretch::LightUp {
            let light_at = next.light_at + way * CLOCK_STEP_S;
            next.light_at = light_at.clamp(fine.evening.earliest_light, fine.evening.latest_light());
        } else {
            let every_s = &mut next.every_s[*stretch as usize];
            *every_s = (*every_s + way * MINUTE_S).clamp(shortest, longest);
        }
    }
    next
}

fn carried(rough: &Bench, bench: &Bench, keen: Keenest, trial: Trial, now: Option<&Now>) -> Carried {
    let ready = bench.fed_by(&trial.cadence);
    let mut hearth = Hearth::new(&ready.build, &ready.scenario);
    let keep = Keep { picture_every_s: Some(QUARTER_S) };
    let trace = run(&ready, &mut hearth, orders(&ready.scenario), keep);
    let judgement = judge(&ready, &trace);
    let trial = Trial { cadence: trial.cadence, trace, judgement, lost: None };
    let overnight = overnight(&ready.scenario, &ready.laws, hearth);
    let phases = trial.cadence.phases();
    Carried {
        margins: phases.iter().map(|phase| margin(bench, &trial, phase)).collect(),
        light_up_kg: trial.trace.light_up_kg,
        service_kg: trial.trace.service_kg,
        rush_feed_by: rush_feed_by(bench, &trial),
        spread: spread_idea(bench, &trial),
        moisture: moistures(&rough.with(|s| s.oven.assist.clone_from(&ready.scenario.oven.assist)), &trial.cadence),
        overnight,
        sheet: sheet(&ready, &trial),
        now: now
            .map(|now| from_now(&Bench { ready: ready.clone(), evening: bench.evening }, keen, &trial.cadence, now)),
        trial,
    }
}

/// How far a stretch of a tried day stays from its limits; the fire's count once it has caught.
#[must_use]
pub fn margin(bench: &Bench, trial: &Trial, phase: &Phase) -> PhaseMargin {
    let (from, to) = (phase.feed.from, phase.feed.to);
    let menu = &bench.ready.scenario.menu;
    let loaded = trial.trace.bakes.iter().filter(|b| (from..to).contains(&b.from_s));
    let floor_k = loaded.map(|b| b.at_load_c - menu[b.dish].floor_min_c).reduce(f64::min);
    // The same quarters as the judgement's: a fire smokes while it catches.
    let caught = trial.cadence.light_at + FIRST_FEED_S;
    let quarters =
        || trial.trace.quarters.iter().filter(|q| q.at_s >= caught && q.at_s + QUARTER_S > from && q.at_s < to);
    PhaseMargin {
        phase: phase.clone(),
        floor_k,
        air: 1.0 - quarters().map(|q| q.air_used.max(q.hard_limit_used)).fold(0.0, f64::max),
        reach: 1.0 - quarters().map(|q| q.reach).fold(0.0, f64::max),
    }
}

/// How late the rush's first piece may come.
fn rush_feed_by(bench: &Bench, trial: &Trial) -> Option<ClockS> {
    let phases = trial.cadence.phases();
    let rush = phases.iter().find(|p| p.stretch == Stretch::Rush)?;
    let steps = (RUSH_LATEST_S / CLOCK_STEP_S) as u32;
    let player = Player::new(bench);
    let late = farthest(0, steps, |step| {
        let rush_late_s = f64::from(step) * CLOCK_STEP_S;
        player.try_out(&Cadence { rush_late_s, ..trial.cadence.clone() }).holds()
    });
    Some(rush.feed.from + f64::from(late) * CLOCK_STEP_S)
}

/// Whether coals spread in a lull let the match wait, or the rush be fed less often; the better of the two.
fn spread_idea(bench: &Bench, trial: &Trial) -> Option<SpreadIdea> {
    if !bench.ready.scenario.feeding.spread_coals.is_empty() {
        return None;
    }
    let before = bench.evening.first_order - RAKED_BEFORE_S - SPREAD_FOR_S;
    let ideas = [Some(spread_before(bench, trial, before)), lull(bench).map(|at| spread_within(bench, trial, at))];
    let better = |a: SpreadIdea, b: SpreadIdea| if b.saves_kg > a.saves_kg { b } else { a };
    ideas.into_iter().flatten().reduce(better).filter(|idea| idea.saves_kg >= WORTH_SPREADING_KG)
}

fn idea(bench: &Bench, trial: &Trial, at: ClockS, with: &Cadence) -> SpreadIdea {
    SpreadIdea {
        at,
        for_s: SPREAD_FOR_S,
        light_at: with.light_at,
        rush_every_s: with.every_s[Stretch::Rush as usize],
        saves_kg: bench.wood_kg(&trial.cadence) - bench.wood_kg(with),
    }
}

/// Coals spread before the first order: the match waits as long as it can.
fn spread_before(bench: &Bench, trial: &Trial, at: ClockS) -> SpreadIdea {
    let spreading = bench.spreading(at, SPREAD_FOR_S);
    let player = Player::new(&spreading);
    let room = ((bench.evening.latest_light() - trial.cadence.light_at) / CLOCK_STEP_S).max(0.0) as u32;
    let lit = |step: u32| Cadence {
        light_at: trial.cadence.light_at + f64::from(step) * CLOCK_STEP_S,
        ..trial.cadence.clone()
    };
    let later = farthest(0, room, |step| player.try_out(&lit(step)).holds());
    idea(bench, trial, at, &lit(later))
}

/// Coals spread within the evening: the rush is fed as seldom as it can be.
fn spread_within(bench: &Bench, trial: &Trial, at: ClockS) -> SpreadIdea {
    let spreading = bench.spreading(at, SPREAD_FOR_S);
    let player = Player::new(&spreading);
    let every = |minutes: u32| {
        let mut cadence = trial.cadence.clone();
        cadence.every_s[Stretch::Rush as usize] = f64::from(minutes) * MINUTE_S;
        cadence
    };
    let from = in_minutes(trial.cadence.every_s[Stretch::Rush as usize]);
    let longest = farthest(from, MOST_EVERY_MIN, |minutes| player.try_out(&every(minutes)).holds());
    idea(bench, trial, at, &every(longest))
}

/// A lull before the rush or within it, long enough for the coals to be spread and raked back: no order falls into it.
fn lull(bench: &Bench) -> Option<ClockS> {
    let evening = &bench.evening;
    let ordered = orders(&bench.ready.scenario);
    let lasts_s = SPREAD_FOR_S + RAKED_BEFORE_S;
    let quiet = |at: f64| !ordered.iter().any(|order| (at..at + lasts_s).contains(&order.at_s));
    let quarters = ((evening.rush[1] - evening.first_order) / QUARTER_S).max(0.0) as u32;
    let times = (1..quarters).map(|quarter| evening.first_order + f64::from(quarter) * QUARTER_S);
    // The last one: what the stone takes up then is there when it is wanted.
    times.rev().find(|&at| at + lasts_s <= evening.rush[1] && quiet(at))
}

/// The plan for the scenario's meter reading and wetter ones, all by the same method: the plan's intervals by the largest factor
/// that holds on the coarse oven, pieces counted evenly so that whole pieces do not hide the difference. Wetter wood never comes
/// out as needing less: where the search's grain says so, the drier wood's figure stands.
fn moistures(rough: &Bench, cadence: &Cadence) -> Vec<Moisture> {
    let own = rough.ready.scenario.wood.meter_dry_basis;
    let base_kg = wood_at(rough, cadence, own).and_then(|moisture| moisture.times);
    let mut meters: Vec<f64> = WETTER.into_iter().filter(|m| (m - own).abs() > 1e-9).collect();
    meters.push(own);
    crate::numerics::order::rising(&mut meters);
    let mut before: Option<Moisture> = None;
    let each = meters.into_iter().map(|meter| {
        let plain = Moisture { meter, times: Some(1.0), earlier_s: 0.0, factor: 1.0 };
        let found = if (meter - own).abs() < 1e-9 {
            Some(plain)
        } else {
            wood_at(rough, cadence, meter)
                .zip(base_kg)
                .map(|(m, base)| Moisture { times: m.times.map(|t| t / base), ..m })
        };
        let mut found = found.unwrap_or(Moisture { times: None, ..plain });
        if let (Some(times), Some(Moisture { times: Some(drier), .. })) = (found.times, before)
            && times < drier
        {
            found.times = Some(drier);
        }
        if meter <= own + 1e-9 {
            // Drier than the plan's own wood: never more of it than the plan's.
            found.times = found.times.map(|times| times.min(1.0));
        }
        before = Some(found);
        found
    });
    each.collect()
}

/// The rhythm for another reading of the meter; `times` holds its wood, kg.
fn wood_at(rough: &Bench, cadence: &Cadence, meter: f64) -> Option<Moisture> {
    let mut bench = rough.with(|s| s.wood.meter_dry_basis = meter);
    bench.ready.build.fuel = fuel(&bench.ready.scenario);
    let player = Player::new(&bench);
    let (mut before, mut lit) = (f64::INFINITY, cadence.clone());
    // Wetter wood may want an earlier match.
    while lit.light_at < before {
        if let Some(factor) = slowest(&player, &lit) {
            let kg = lit.slower(factor).pieces_evenly() * bench.piece_kg() + bench.ready.scenario.feeding.kindling_kg;
            return Some(Moisture { meter, times: Some(kg), earlier_s: cadence.light_at - lit.light_at, factor });
        }
        before = lit.light_at;
        lit.light_at = (before - EARLIER_S).max(bench.evening.earliest_light);
    }
    None
}

/// The largest factor on a rhythm's intervals that holds, by bisection from the rhythm itself.
fn slowest(player: &Player<'_>, cadence: &Cadence) -> Option<f64> {
    let [mut low, mut bad, within] = FACTORS;
    let mut good = None;
    let mut factor = 1.0;
    while bad - low > within {
        match player.try_out(&cadence.slower(factor)).leans() {
            Leans::Holds => {
                good = Some(factor);
                low = factor;
            }
            Leans::Hot => low = factor,
            Leans::Cold => bad = factor,
        }
        factor = 0.5 * (low + bad);
    }
    good
}

/// Pieces of a plan by feed, with their mass.
#[must_use]
pub fn pieces(bench: &Bench, phases: &[Phase]) -> Vec<(ClockS, f64)> {
    let piece_kg = bench.piece_kg();
    phases.iter().flat_map(|p| feeds_of(&p.feed)).map(|fed| (fed.at, fed.pieces * piece_kg)).collect()
}
