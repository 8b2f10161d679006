//! Owns the filling of the cook's report from a plan.

use super::cautions::Does;
use super::fire_types::*;
use super::fire_words as say;
use super::types::Gives;
use super::words::clock_typed;
use super::{cautions, no_plan_words, types::Caution};
use crate::hearth::fault::Fault;
use crate::matter::wood;
use crate::plan::assist::AssistPlan;
use crate::plan::cadence::{Phase, Stretch, feeds_of};
use crate::plan::fire::{Carried, FirePlan, is_green, pieces};
use crate::plan::first_firing::Schedule;
use crate::plan::nights::wilson;
use crate::plan::overnight::{Leak, Overnight};
use crate::plan::rough::Rough;
use crate::plan::sheet::{Reading, Sheet, Side};
use crate::plan::trial::{Bench, Trial};
use crate::scenario::Resolved;
use crate::service::judge::Resource;
use crate::units::time::{HOUR_S, MINUTE_S};

const GRAMS_PER_KG: f64 = 1000.0;

/// The report of a plan; `None` is a scenario nothing is ordered in.
#[must_use]
pub fn fire(resolved: &Resolved, plan: Option<&FirePlan>) -> FireReport {
    let mut report = empty(resolved, cautions_of(resolved, plan));
    let scenario = &resolved.scenario;
    let plan = match plan {
        Some(plan) if !is_green(scenario) => plan,
        _ => {
            let says = if is_green(scenario) { say::green_wood(scenario) } else { say::NOTHING_ORDERED.to_owned() };
            report.says.clone_from(&says);
            report.no_plan = Some(NoPlan { limit: Gives::None, says, nearest: None, tried: Vec::new() });
            return report;
        }
    };
    report.assist = plan.assist.as_ref().map(|part| super::fire_gas_words::assist(&plan.bench, part));
    report.assumptions = say::assumptions(&plan.bench);
    report.rough =
        plan.rough.as_ref().zip(plan.outcome.as_ref().ok()).map(|(rough, carried)| rough_nights(rough, carried));
    match &plan.outcome {
        Ok(carried) => fill(&mut report, plan, carried),
        Err(missed) => {
            let no_plan = no_plan_words::no_plan(plan, missed);
            report.says.clone_from(&no_plan.says);
            report.because = no_plan_words::because_none(&plan.bench, missed);
            report.no_plan = Some(no_plan);
        }
    }
    if let Some(now) = &plan.now {
        let rest = super::now_build::from_now(&plan.bench, now);
        // In mid-service what to do now is the answer.
        report.says.clone_from(&rest.says);
        report.because.clone_from(&rest.because);
        report.now = Some(rest);
    }
    report
}

/// The report where the computing went wrong: no plan, and no reason for there being none.
#[must_use]
pub fn faulted(resolved: &Resolved, fault: &Fault) -> FireReport {
    let says = super::fault_words::fault(fault);
    FireReport { says: says.clone(), fault: Some(says), ..empty(resolved, Vec::new()) }
}

/// The cautions of the acts a plan plans. One that is refused still stands beside a fire.
fn cautions_of(resolved: &Resolved, plan: Option<&FirePlan>) -> Vec<Caution> {
    let scenario = &resolved.scenario;
    let carried = plan.and_then(|plan| plan.outcome.as_ref().ok());
    let does = Does {
        gas: plan.and_then(|plan| plan.assist.as_ref()).is_some_and(|part| part.need.is_some() || !part.carries),
        spreads: !scenario.feeding.spread_coals.is_empty() || carried.is_some_and(|carried| carried.spread.is_some()),
    };
    if plan.and_then(|plan| plan.now.as_ref()).is_some_and(|now| now.light_at.is_none()) {
        cautions::for_the_rest(scenario, does)
    } else {
        cautions::for_plan(scenario, does)
    }
}

fn rough_nights(rough: &Rough, carried: &Carried) -> FireRough {
    let share = |held: u32| f64::from(held) / f64::from(rough.nights.max(1));
    let [low, high] = wilson(rough.plan.held, rough.nights);
    let more = rough.more.as_ref();
    FireRough {
        nights: rough.nights,
        holds_fraction: share(rough.plan.held),
        holds_error: 0.5 * (high - low),
        light_at: more.map(|held| clock_typed(held.cadence.light_at)),
        phases: more.map_or_else(Vec::new, |held| {
            held.cadence.phases().iter().map(|stretch| phase(stretch, None, &carried.trial)).collect()
        }),
        wood_kg_day: more.map(|held| held.wood_kg),
        more_holds_fraction: more.map(|held| share(held.held)),
        says: say::rough_nights(rough),
    }
}

/// The report of a first firing.
#[must_use]
pub fn first_firing(resolved: &Resolved, schedule: &Schedule) -> FireReport {
    let mut report = empty(resolved, cautions::for_first_firing());
    let days = schedule.days.iter().enumerate().map(|(place, planned)| FirstFiringDay {
        day: place as u32 + 1,
        hold_c: planned.day.hold_c,
        hours: planned.day.hold_s / HOUR_S,
        split: planned.split,
        every_min: planned.every_s / MINUTE_S,
        kindling_kg: planned.kindling_kg,
        wood_kg: planned.wood_kg,
        dome_most_c: planned.dome_most_c,
    });
    let days: Vec<FirstFiringDay> = days.collect();
    let says = say::first_firing(schedule);
    report.says.clone_from(&says);
    report.because = say::WHY_SLOWLY.to_owned();
    report.first_firing =
        Some(FirstFiring { days, hours: schedule.hours, refused: schedule.refused_h.is_some(), says });
    report.assumptions = vec![say::DRY_RUN.to_owned()];
    report
}

fn empty(resolved: &Resolved, cautions: Vec<Caution>) -> FireReport {
    let scenario = &resolved.scenario;
    FireReport {
        name: scenario.name.clone(),
        says: String::new(),
        because: String::new(),
        no_plan: None,
        light_at: None,
        phases: Vec::new(),
        pieces: Vec::new(),
        wood_kg: None,
        kindling_kg: scenario.feeding.kindling_kg,
        piece_kg: wood::Fuel::new(&scenario.wood).piece_mass_kg,
        pieces_to_bring_in: 0,
        limits: None,
        doorway_kw_m2: None,
        start_floor_c: None,
        lowest_floor_c: None,
        last_feed_at: None,
        rush_feed_by: None,
        moisture: Vec::new(),
        spread_coals: None,
        evening: None,
        morning_floor_c: None,
        sheet: None,
        assist: None,
        now: None,
        rough: None,
        first_firing: None,
        fault: None,
        cautions,
        assumptions: Vec::new(),
        assumed: resolved.assumed.clone(),
    }
}

fn fill(report: &mut FireReport, plan: &FirePlan, carried: &Carried) {
    let (bench, trial) = (&plan.bench, &carried.trial);
    let stretches = trial.cadence.phases();
    report.light_at = Some(clock_typed(trial.cadence.light_at));
    report.phases = carried.margins.iter().map(|m| phase(&m.phase, Some((m.floor_k, m.air, m.reach)), trial)).collect();
    report.pieces =
        pieces(bench, &stretches).into_iter().map(|(at, kg)| FirePiece { at: clock_typed(at), kg }).collect();
    report.pieces_to_bring_in = trial.cadence.pieces_in_all().ceil() as u32;
    let (light_up, service) = (carried.light_up_kg, carried.service_kg);
    report.wood_kg = Some(FireWood { light_up, service, day: light_up + service });
    report.limits = Some(FireLimits {
        doorway_air_margin: 1.0 - trial.used(Resource::DoorwayAir),
        flame_reach_margin: 1.0 - trial.used(Resource::Fire),
    });
    report.doorway_kw_m2 = Some(super::build::doorway_kw_m2(&bench.ready, &trial.trace));
    report.start_floor_c = Some(trial.trace.start_c);
    report.lowest_floor_c = trial.trace.bakes.iter().map(|b| b.at_load_c).reduce(f64::min);
    report.last_feed_at = trial.cadence.feeds().last().map(|fed| clock_typed(fed.at));
    report.rush_feed_by = carried.rush_feed_by.map(clock_typed);
    report.moisture = moisture(carried);
    report.spread_coals = carried.spread.map(|s| FireSpread {
        at: clock_typed(s.at),
        for_min: s.for_s / MINUTE_S,
        light_at: clock_typed(s.light_at),
        rush_every_min: s.rush_every_s / MINUTE_S,
        before_service: s.at < bench.evening.first_order,
        saves_kg: s.saves_kg,
    });
    let last = trial.cadence.feeds().last().map_or(trial.cadence.light_at, |fed| fed.at);
    report.evening = Some(evening(&carried.overnight, last));
    report.morning_floor_c = Some(carried.overnight.morning_c);
    report.sheet = Some(sheet(bench, &carried.sheet, carried, plan.assist.as_ref()));
    report.assumptions.extend(super::build::hotter_than_measured(&trial.trace));
    report.says = say::plan(bench, carried);
    report.because = say::because(bench, trial);
}

/// What another reading of the meter changes.
fn moisture(carried: &Carried) -> Vec<FireMoisture> {
    let rows = carried.moisture.iter().map(|m| FireMoisture {
        meter_percent: 100.0 * m.meter,
        wood_kg_day: m.fed.as_ref().map(|fed| fed.1),
        light_at: m.fed.as_ref().map(|fed| clock_typed(fed.0.light_at)),
        rush_every_min: m.fed.as_ref().map(|fed| fed.0.every_s[Stretch::Rush as usize] / MINUTE_S),
    });
    rows.collect()
}

fn name_of(stretch: Stretch) -> &'static str {
    match stretch {
        Stretch::LightUp => "light_up",
        Stretch::ToRush => "to_rush",
        Stretch::Rush => "rush",
        Stretch::Tail => "tail",
    }
}

pub(super) fn phase(phase: &Phase, margins: Option<(Option<f64>, f64, f64)>, trial: &Trial) -> FirePhase {
    let (lowest_margin_k, air_margin, reach_margin) = margins.unwrap_or((None, 0.0, 0.0));
    let inside = || trial.trace.bakes.iter().filter(|b| (phase.feed.from..phase.feed.to).contains(&b.from_s));
    let all = inside().count();
    let good = inside().filter(|b| b.in_band).count();
    FirePhase {
        name: name_of(phase.stretch).to_owned(),
        from: clock_typed(phase.feed.from),
        to: clock_typed(phase.feed.to),
        every_min: phase.feed.every_s / MINUTE_S,
        pieces: phase.feed.pieces,
        feeds: feeds_of(&phase.feed).len() as u32,
        lowest_margin_k,
        share_in_band: (all > 0).then(|| good as f64 / all as f64),
        air_margin,
        reach_margin,
    }
}

fn evening(night: &Overnight, last_feed: f64) -> FireEvening {
    FireEvening {
        stop_feeding_at: clock_typed(last_feed),
        close_at: clock_typed(night.close_at),
        close_floor_c: night.close_c,
        coals_kg: night.coals_kg,
        leak_g_s: GRAMS_PER_KG * night.leak.kg_s(),
        leak_solved: matches!(night.leak, Leak::Solved(_)),
        morning_at: clock_typed(night.read_at),
        morning_floor_c: night.morning_c,
        morning_raked_floor_c: night.raked_c,
        says: say::evening(night, last_feed),
    }
}

/// A side's key.
pub(super) fn side_of(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
        Side::Front => "front",
        Side::Rear => "rear",
    }
}

fn sheet(bench: &Bench, sheet: &Sheet, carried: &Carried, assist: Option<&AssistPlan>) -> ShiftSheet {
    let menu = &bench.ready.scenario.menu;
    ShiftSheet {
        lighting: say::lighting(bench, &carried.trial.cadence),
        caps: sheet
            .caps
            .iter()
            .map(|cap| SheetCap { dish: menu[cap.dish].name.clone(), per_quarter: cap.pieces, at: clock_typed(cap.at) })
            .collect(),
        quarters: sheet
            .quarters
            .iter()
            .map(|quarter| SheetQuarter { at: clock_typed(quarter.at), pieces: quarter.pieces.clone() })
            .collect(),
        acts: say::sheet_acts(bench, sheet, carried, assist),
        rests: sheet
            .rests
            .iter()
            .map(|r| SheetRest { at: clock_typed(r.at), side: side_of(r.side).to_owned(), cooler_k: r.cooler_k })
            .collect(),
        readings: sheet.readings.iter().map(reading).collect(),
        read_where: super::now_words::read_where(bench),
        spread_coals_at: carried.spread.map(|s| clock_typed(s.at)),
        rush_feed_by: carried.rush_feed_by.map(clock_typed),
        if_off: say::if_off(bench),
    }
}

pub(super) fn reading(read: &Reading) -> SheetReading {
    SheetReading { at: clock_typed(read.at), floor_c: read.floor_c, dome_c: read.dome_c }
}
