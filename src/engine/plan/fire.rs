//! Owns the cook's plan as a whole: light-up, rhythm, margins, evening, what changes with wetter wood, and the burner's part.

use super::assist::{self, AssistPlan};
use super::cadence::{CLOCK_STEP_S, Cadence, FIRST_FEED_S, Phase, STRETCHES, Stretch, feeds_of};
use super::from_now::{FromNow, Now, before_the_match, from_now};
use super::laziest::{Search, farthest};
use super::light_up::{Keenest, MOST_EVERY_MIN, keenest};
use super::moisture::{Moisture, moistures};
use super::nearest::{Nearest, Tried};
use super::overnight::{Overnight, overnight};
use super::replan::Course;
use super::rough::{Rough, rough};
use super::sheet::{Sheet, sheet};
use super::spread::{SpreadIdea, spread_idea};
use super::trial::{Bench, Leans, Player, Trial, coarse};
use crate::hearth::build::DEFAULT_ACCURACY;
use crate::hearth::fault::{Fault, Noted};
use crate::hearth::oven::Hearth;
use crate::matter::wood::GREEN_ABOVE;
use crate::scenario::{ClockS, Scenario};
use crate::service::judge::judge;
use crate::service::night::{Keep, run};
use crate::service::orders::orders;
use crate::units::time::{MINUTE_S, QUARTER_S};

/// At most so many corrections of a rhythm found on the coarse oven.
const MOST_MENDS: u32 = 8;
/// Latest the rush's first piece is tried, s.
const RUSH_LATEST_S: f64 = 3600.0;

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
    /// From now on, where asked: whether or not the whole evening has a plan.
    pub now: Option<FromNow>,
    /// Rough nights, where asked.
    pub rough: Option<Rough>,
    /// Where none carries: single changes, the smallest first, and whether they would do.
    pub nearest: Vec<Tried>,
    /// Where there is no plan: whether the feeding that was typed keeps every promise, without the reserve a plan keeps.
    pub typed_carries: bool,
}

impl FirePlan {
    /// The first fault of any day that was played for it: with one nothing of it may be shown.
    #[must_use]
    pub fn fault(&self) -> Option<Fault> {
        self.bench.ready.noted.first()
    }

    /// Tries the plan, and more wood than it, on so many rough nights.
    pub fn try_rough_nights(&mut self, nights: u32) {
        if let Ok(carried) = &self.outcome {
            let scenario = &self.bench.ready.scenario;
            let bench = Bench::new(scenario, coarse()).noting(&self.bench.ready.noted);
            self.rough = Some(rough(&bench, &carried.trial.cadence, scenario.service.seed, nights));
        }
    }
}

/// Plans the fire of a scenario; `now` asks for the rest of the evening too. `None` where nothing is ordered: then there is
/// nothing to light for; and where the wood is green: no fire of it is one to plan.
#[must_use]
pub fn plan(scenario: &Scenario, now: Option<&Now>) -> Option<FirePlan> {
    plan_noting(scenario, now, &Noted::default())
}

/// As [`plan`]; the days that are played for it are counted as they are, and their faults noted.
#[must_use]
pub fn plan_noting(scenario: &Scenario, now: Option<&Now>, noted: &Noted) -> Option<FirePlan> {
    if orders(scenario).is_empty() || is_green(scenario) {
        return None;
    }
    let (scenario, probe_in_bed) = assist::probe_seen_to(scenario);
    let [fine, rough] = [DEFAULT_ACCURACY, coarse()].map(|cut| Bench::new(&scenario, cut).noting(noted));
    let keen = keenest(&usual(&rough.without_gas()));
    let by_wood = search(&rough.without_gas(), &fine.without_gas(), keen);
    // What else is tried is tried on this morning's oven: a cold one draws less air.
    let keen = if by_wood.is_err() { keenest(&rough.without_gas()) } else { keen };
    let (outcome, bench, assist) = match (by_wood, &scenario.oven.assist) {
        (Ok(trial), Some(burner)) => {
            let part = assist::not_needed(&rough, &fine, &trial, burner);
            (Ok(trial), fine.without_gas(), Some(part))
        }
        (Ok(trial), None) => (Ok(trial), fine.clone(), None),
        (Err(missed), None) => (Err(missed), fine.clone(), None),
        (Err(missed), Some(burner)) => match assist::assisted(&rough, &fine, keen, &missed, burner) {
            Ok((trial, bench, part)) => (Ok(trial), bench, Some(part)),
            Err(missed) => {
                let part = assist::not_enough(&rough, &fine, keen, &missed, burner);
                (Err(missed), fine.clone(), Some(part))
            }
        },
    };
    let assist = assist.map(|part| AssistPlan { probe_in_bed, ..part });
    let outcome = outcome.map(|trial| Box::new(carried(&rough, &bench, trial)));
    let now =
        now.filter(|_| bench.ready.noted.first().is_none()).map(|now| rest_of(&rough, &bench, keen, &outcome, now));
    let nearest = match &outcome {
        Err(missed) if fine.ready.noted.first().is_none() => {
            let [rough, fine] = [&rough, &fine].map(|bench| assist::burning(bench, bench.evening.earliest_light));
            Nearest { rough: &rough, fine: &fine, keen, missed }.tried()
        }
        _ => Vec::new(),
    };
    let typed_carries = outcome.is_err()
        && Cadence::as_typed(fine.evening, &fine.ready.scenario.feeding)
            .is_some_and(|typed| fine.try_out(&typed).judgement.carries());
    Some(FirePlan { bench, keen, outcome, assist, now, rough: None, nearest, typed_carries })
}

/// Whether the wood is too wet to plan any fire with.
#[must_use]
pub fn is_green(scenario: &Scenario) -> bool {
    scenario.wood.meter_dry_basis > GREEN_ABOVE + 1e-9
}

/// The morning a rhythm is looked for on, degC: a well kept oven is still about so warm. Common practice, no source.
const MORNING_C: f64 = 150.0;
/// A morning this near to it is as good as one, K. Our choice.
const ALIKE_K: f64 = 40.0;
/// A colder morning wants an earlier match by about this much, s per K; only where to begin looking. Seen in runs of the model.
const EARLIER_S_K: f64 = 24.0;

/// Searches coarsely, verifies and mends finely, and stretches what holds once more. The rhythm is looked for on a usual morning
/// and this morning sets the match, so that a warmer floor never lights earlier; where that rhythm does not hold on this morning
/// (a cold oven draws less air, say), one is looked for on it. Where none is found, the feeding that was typed is a candidate too.
///
/// # Errors
/// The closest day where no feeding holds.
pub fn search(rough: &Bench, fine: &Bench, keen: Keenest) -> Result<Trial, Box<Trial>> {
    sought(rough, fine, keen).or_else(|missed| as_typed(fine, keen).ok_or(missed))
}

/// The rhythm of stretches most like the feeding that was typed, stretched as any other; the feeding itself where only that holds.
fn as_typed(fine: &Bench, keen: Keenest) -> Option<Trial> {
    let typed = Cadence::as_typed(fine.evening, &fine.ready.scenario.feeding)?;
    let on_fine = Search::new(fine, keen);
    let alike = Some(on_fine.try_out(&typed.alike())).filter(Trial::holds);
    alike.map(|trial| on_fine.stretched(trial)).or_else(|| Some(fine.try_out(&typed)).filter(Trial::holds))
}

fn sought(rough: &Bench, fine: &Bench, keen: Keenest) -> Result<Trial, Box<Trial>> {
    let found = Search::new(&usual(rough), keen).laziest().ok();
    let off_k = (fine.ready.scenario.start.floor_c - MORNING_C).abs();
    if found.is_none() && off_k <= ALIKE_K {
        // What no usual morning carries this one is not searched for coarsely again.
        return Search::new(fine, keenest(&rough.without_gas()))
            .any()
            .map(|trial| Search::new(fine, keen).stretched(trial));
    }
    let by_a_usual_morning = found.and_then(|found| lit_for_this_morning(fine, keen, found.cadence));
    by_a_usual_morning.map_or_else(|| by_this_morning(rough, fine, keenest(&rough.without_gas())), Ok)
}

/// An oven on a usual morning.
#[must_use]
pub fn usual(bench: &Bench) -> Bench {
    bench.with(|s| (s.start.floor_c, s.start.dome_c) = (MORNING_C, MORNING_C))
}

/// A rhythm of a usual morning, mended on the default cut, with this morning's match.
fn lit_for_this_morning(fine: &Bench, keen: Keenest, rhythm: Cadence) -> Option<Trial> {
    let usual_fine = usual(fine);
    let rhythm = mended(&Search::new(&usual_fine, keen), &usual_fine, keen, rhythm)?.cadence;
    let on_fine = Search::new(fine, keen);
    let guess = rhythm.light_at - EARLIER_S_K * (MORNING_C - fine.ready.scenario.start.floor_c);
    Some(on_fine.stretched_together(on_fine.lit_for(&rhythm, guess)?))
}

fn by_this_morning(rough: &Bench, fine: &Bench, keen: Keenest) -> Result<Trial, Box<Trial>> {
    let on_fine = Search::new(fine, keen);
    let found = Search::new(rough, keen).laziest().ok();
    let trial = match found.and_then(|trial| mended(&on_fine, fine, keen, trial.cadence)) {
        Some(trial) => trial,
        None => on_fine.any()?,
    };
    Ok(on_fine.stretched(trial))
}

/// Mends a rhythm by a step at a time until the fine oven holds it: the match or one stretch alone where that is enough, else all.
pub(super) fn mended(search: &Search<'_>, fine: &Bench, keen: Keenest, mut cadence: Cadence) -> Option<Trial> {
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

/// The rest of the evening from a reading: by the plan, or where none carries by the feeding as typed.
fn rest_of(
    rough: &Bench,
    bench: &Bench,
    keen: Keenest,
    outcome: &Result<Box<Carried>, Box<Trial>>,
    now: &Now,
) -> FromNow {
    let course = match outcome {
        Ok(carried) => Course::planned(&carried.trial.cadence),
        Err(missed) => Course::typed(bench, &missed.cadence),
    };
    if course.planned && now.at < course.cadence.light_at {
        let rough = rough.with(|s| s.oven.assist.clone_from(&bench.ready.scenario.oven.assist));
        return before_the_match(&rough, bench, keen, &course, now);
    }
    from_now(bench, keen, &course, now)
}

fn carried(rough: &Bench, bench: &Bench, trial: Trial) -> Carried {
    let ready = bench.fed_by(&trial.cadence);
    let mut hearth = Hearth::new(&ready.build, &ready.scenario);
    let keep = Keep { picture_every_s: Some(QUARTER_S) };
    let trace = run(&ready, &mut hearth, orders(&ready.scenario), keep);
    let judgement = judge(&ready, &trace);
    let trial = Trial { cadence: trial.cadence, trace, judgement, lost: None };
    let overnight = overnight(&ready, hearth);
    let phases = trial.cadence.phases();
    Carried {
        margins: phases.iter().map(|phase| margin(bench, &trial, phase)).collect(),
        light_up_kg: trial.trace.light_up_kg,
        service_kg: trial.trace.service_kg,
        rush_feed_by: rush_feed_by(bench, &trial),
        spread: spread_idea(bench, &trial),
        moisture: moistures(
            &rough.with(|s| s.oven.assist.clone_from(&ready.scenario.oven.assist)),
            bench,
            &trial.cadence,
        ),
        overnight,
        sheet: sheet(bench, &ready, &trial),
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
    // What was typed is fed when it was typed.
    let rush = phases.iter().find(|p| p.stretch == Stretch::Rush && trial.cadence.typed.is_none())?;
    let steps = (RUSH_LATEST_S / CLOCK_STEP_S) as u32;
    let player = Player::new(bench);
    let late = farthest(0, steps, |step| {
        let rush_late_s = f64::from(step) * CLOCK_STEP_S;
        player.try_out(&Cadence { rush_late_s, ..trial.cadence.clone() }).holds()
    });
    Some(rush.feed.from + f64::from(late) * CLOCK_STEP_S)
}

/// Pieces of a plan by feed, with their mass.
#[must_use]
pub fn pieces(bench: &Bench, phases: &[Phase]) -> Vec<(ClockS, f64)> {
    let piece_kg = bench.piece_kg();
    phases.iter().flat_map(|p| feeds_of(&p.feed)).map(|fed| (fed.at, fed.pieces * piece_kg)).collect()
}
