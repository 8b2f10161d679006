//! Owns the sentences of the cook's plan.

use super::fire_build::side_of;
use super::fire_types::SheetAct;
use super::words::{clock, clock_typed, count, degrees, duration, kg, minutes, percent, with_unit};
use crate::matter::wood::SMOKES_ABOVE;
use crate::plan::assist::AssistPlan;
use crate::plan::cadence::{ACTS_AFTER_S, Cadence, FIRST_FEED_S, Phase, Stretch};
use crate::plan::fire::Carried;
use crate::plan::first_firing::Schedule;
use crate::plan::overnight::{Leak, Overnight};
use crate::plan::rough::Rough;
use crate::plan::sheet::{ACT_AT_K, GUN_WITHIN_K, Sheet};
use crate::plan::trial::{Bench, Trial};
use crate::scenario::Scenario;
use crate::service::judge::Resource;
use crate::service::trace::Bake;
use crate::units::time::MINUTE_S;

/// Said where nothing is ordered.
pub(super) const NOTHING_ORDERED: &str = "Nothing is ordered, so there is nothing to light for.";
/// Why a first firing is slow.
pub(super) const WHY_SLOWLY: &str = "Water in new or damp stone boils at 100 °C; steam that cannot get out in time splits the lining. Time lets it out, fire does not.";
/// What the first firing's run leaves out.
pub(super) const DRY_RUN: &str = "The run is of a dry lining: damp stone stays cooler at first. Hold by the reading of your gun on the dome, \
    not by the pieces; with no fire for a night between two days.";
/// What comes before the match: a fire behind shut doors or without extraction fills the kitchen with carbon monoxide.
const BEFORE_THE_MATCH: &str = "Extraction on first. Doors open, standing aside, and open as long as anything burns. Carbon monoxide \
    alarm seen to, doorway and front clear.";
/// The same on the sheet, before the match.
const DOORS_OPEN: &str = "extraction on, then the doors open";
/// A first firing in less time is refused.
const NO_FASTER: &str = "No faster";

/// What the search says of its plan.
const LAZIEST: &str = "Neither a later match nor a longer interval alone was found to save a piece and hold.";
/// What is said where only the feeding that was typed holds.
const AS_TYPED: &str = "This is the feeding you typed: it holds, and no other was found to.";
/// Said where the wood is too wet for any fire.
pub(super) fn green_wood(scenario: &Scenario) -> String {
    format!(
        "Refused: wood at {} on the meter is green, and no fire is planned with it. It smokes, and its tar in the flue catches fire. \
         Burn wood of {} or less.",
        percent(scenario.wood.meter_dry_basis),
        percent(SMOKES_ABOVE)
    )
}

fn every(phase: &Phase) -> String {
    let put = if phase.feed.pieces > 1.0 { count(phase.feed.pieces, "piece", "pieces") } else { "a piece".to_owned() };
    let every_min = phase.feed.every_s / MINUTE_S;
    let whole = (every_min - every_min.round()).abs() < 0.05;
    format!("{put} every {}", if whole { minutes(every_min) } else { with_unit(every_min, 1, "min") })
}

/// A rhythm in words.
fn rhythm(cadence: &Cadence) -> String {
    let mut said: Vec<String> = Vec::new();
    let mut before: Option<f64> = None;
    for phase in cadence.phases() {
        if before.is_none_or(|b| (b - phase.feed.every_s).abs() > 1.0) {
            said.push(format!("from {} {}", clock(phase.feed.from), every(&phase)));
        }
        before = Some(phase.feed.every_s);
    }
    said.join(", ")
}

/// The plan as a sentence.
pub(super) fn plan(bench: &Bench, carried: &Carried) -> String {
    let cadence = &carried.trial.cadence;
    let last = cadence.feeds().last().map_or(cadence.light_at, |fed| fed.at);
    let kindling_kg = bench.ready.scenario.feeding.kindling_kg;
    let (lit, rhythm, last) = (clock(cadence.light_at), rhythm(cadence), clock(last));
    let fire = if kindling_kg > 0.0 {
        format!("Light at {} with {} of kindling; {}; the last at {}.", lit, kg(kindling_kg), rhythm, last)
    } else {
        format!("Light at {}; {}; the last at {}.", lit, rhythm, last)
    };
    let wood = format!(
        "Wood {}: {} before service, {} in it ({}).",
        kg(carried.light_up_kg + carried.service_kg),
        kg(carried.light_up_kg),
        kg(carried.service_kg),
        count(cadence.pieces_in_all(), "piece", "pieces"),
    );
    format!("{fire} {wood}")
}

/// What a plan rests on.
pub(super) fn because(bench: &Bench, trial: &Trial) -> String {
    let menu = &bench.ready.scenario.menu;
    let over = |b: &Bake| b.at_load_c - menu[b.dish].floor_min_c;
    let bakes = trial.trace.bakes.iter();
    let tightest = bakes.reduce(|a, b| if over(b) < over(a) { b } else { a });
    let good = trial.trace.bakes.iter().filter(|b| b.in_band).count() as f64;
    let share = good / (trial.trace.bakes.len() as f64).max(1.0);
    let tightest = tightest.map_or_else(String::new, |b| {
        let spec = &menu[b.dish];
        format!(
            " The coolest load is {} under {} at {}; its least is {}. {} of all loads start in their bands, {} are promised.{}",
            degrees(b.at_load_c),
            spec.name,
            clock(b.from_s),
            degrees(spec.floor_min_c),
            percent(share),
            percent(bench.ready.scenario.promise.share_in_band),
            super::weakest_words::fewest(&bench.ready.scenario, &trial.trace),
        )
    });
    let glow = super::build::doorway_kw_m2(&bench.ready, &trial.trace);
    let found = if trial.cadence.typed.is_some() { AS_TYPED } else { LAZIEST };
    format!(
        "{found} The floor stands at {} when service begins.{tightest} The fire leaves {} of the doorway's air and {} of the way to the doorway; heat on the cook there reaches {}, {}.",
        degrees(trial.trace.start_c),
        percent(1.0 - trial.used(Resource::DoorwayAir)),
        percent(1.0 - trial.used(Resource::Fire)),
        with_unit(glow, 1, "kW/m²"),
        super::skin::says(glow),
    )
}

/// The evening in words.
pub(super) fn evening(night: &Overnight, last_feed: f64) -> String {
    let leak = match night.leak {
        Leak::Solved(kg_s) => format!(
            "Last night's closing and this morning's reading give {} through the shut doors.",
            with_unit(1000.0 * kg_s, 1, "g/s")
        ),
        Leak::Given(kg_s) => format!("The shut doors are taken to let {} through.", with_unit(1000.0 * kg_s, 1, "g/s")),
        Leak::Unfit(kg_s) => format!(
            "Last night's closing and this morning's reading fit no leak (was there fire, or were the doors open?); {} is taken.",
            with_unit(1000.0 * kg_s, 1, "g/s")
        ),
    };
    format!(
        "Stop feeding after {}. Flames out and doors shut by {} at {}, with {} of coals. Tomorrow at {} the floor is near {} \
         ({} if the coals are raked out first). {leak}",
        clock(last_feed),
        clock(night.close_at),
        degrees(night.close_c),
        kg(night.coals_kg),
        clock(night.read_at),
        degrees(night.morning_c),
        degrees(night.raked_c),
    )
}

/// Steps of lighting.
pub(super) fn lighting(bench: &Bench, cadence: &Cadence) -> Vec<String> {
    let first = cadence.feeds().first().map_or(cadence.light_at + FIRST_FEED_S, |fed| fed.at);
    let burner = bench.ready.scenario.oven.assist.is_some();
    let kindling_kg = bench.ready.scenario.feeding.kindling_kg;
    let mut steps = vec![BEFORE_THE_MATCH.to_owned()];
    if kindling_kg > 0.0 {
        steps.push(format!(
            "{}: {} of dry kindling where the fire will lie, lit from the top with a match.",
            clock(cadence.light_at),
            kg(kindling_kg)
        ));
        steps.push(format!("{}: first pieces on, once the kindling burns through.", clock(first)));
    } else {
        steps.push(format!("{}: first pieces on, lit with a match.", clock(first)));
    }
    if let Some(phase) = cadence.phases().iter().find(|p| p.stretch != Stretch::LightUp) {
        steps.push(format!("{}: down to {}.", clock(phase.feed.from), every(phase)));
    }
    if burner {
        steps.push("The burner is no way to light wood: switch it on by its own instructions.".to_owned());
    }
    steps
}

/// The plan on rough nights, in words.
pub(super) fn rough_nights(rough: &Rough) -> String {
    let of = |held: u32| format!("{held} of {}", count(f64::from(rough.nights), "rough night", "rough nights"));
    let first = format!(
        "This plan is the laziest for the evening as typed, and holds {} (parties at random, other wood, a cook who feeds late).",
        of(rough.plan.held)
    );
    match &rough.more {
        Some(more) => {
            let fed = rhythm(&more.cadence);
            let wood = kg(more.wood_kg - rough.plan.wood_kg);
            format!(
                "{first} A reserve costs {wood} more: lit at {}, {fed}, it holds {}.{}",
                clock(more.cadence.light_at),
                of(more.held),
                if f64::from(more.held) >= 0.9 * f64::from(rough.nights) {
                    ""
                } else {
                    " No more wood was found to hold nine in ten: the rest is a matter of guests, hands and room; see the ways out."
                }
            )
        }
        None => format!("{first} More wood was not found to hold more of them: look at the ways out instead."),
    }
}

/// Every act of the evening, by time.
pub(super) fn sheet_acts(
    bench: &Bench,
    sheet: &Sheet,
    carried: &Carried,
    assist: Option<&AssistPlan>,
) -> Vec<SheetAct> {
    let cadence = &carried.trial.cadence;
    let feeding = &bench.ready.scenario.feeding;
    let lit = if feeding.kindling_kg > 0.0 {
        format!("match to {} of kindling", kg(feeding.kindling_kg))
    } else {
        "match to the first pieces".to_owned()
    };
    let mut acts: Vec<(f64, String)> = vec![(cadence.light_at, DOORS_OPEN.to_owned()), (cadence.light_at, lit)];
    let mut before_s = 0.0;
    for phase in cadence.phases() {
        // A stretch that goes on as the one before asks for no act.
        if (phase.feed.every_s - before_s).abs() > 1.0 {
            acts.push((phase.feed.from, every(&phase)));
        }
        before_s = phase.feed.every_s;
    }
    for spread in &feeding.spread_coals {
        acts.push((spread.at, "spread the coals; nothing is loaded".to_owned()));
        acts.push((spread.at + spread.for_s, "rake the coals back".to_owned()));
    }
    if let Some(need) = assist.and_then(|part| part.need.as_ref()) {
        acts.push((need.on_at, "burner on".to_owned()));
    }
    acts.extend(sheet.rests.iter().map(|rest| {
        let cooler = with_unit(rest.cooler_k, 0, "K");
        (rest.at, format!("rest the {}: it is {cooler} cooler than the side across", side_of(rest.side)))
    }));
    if let Some(by) = carried.rush_feed_by {
        acts.push((by, "latest for the rush's first piece".to_owned()));
    }
    let last = cadence.feeds().last().map_or(cadence.light_at, |fed| fed.at);
    acts.push((last, "last piece".to_owned()));
    acts.push((carried.overnight.close_at, "flames are out: doors shut, extraction stays on".to_owned()));
    crate::numerics::order::by(&mut acts, |a, b| a.0.total_cmp(&b.0));
    acts.into_iter().map(|(at, says)| SheetAct { at: clock_typed(at), says }).collect()
}

/// What to do when a reading is off.
pub(super) fn if_off(bench: &Bench) -> Vec<String> {
    let acts = duration(ACTS_AFTER_S);
    let thin = kg(bench.piece_kg());
    vec![
        format!("Within {} of the sheet: go on.", with_unit(GUN_WITHIN_K, 0, "K")),
        format!(
            "{} under: the next piece ({thin}) now, then by the sheet; it acts in about {acts}. Until then the coolest side rests.",
            with_unit(ACT_AT_K, 0, "K")
        ),
        format!(
            "{} under: hold the tickets of what wants the hottest stone, load what likes it cooler, and plan again from the reading.",
            with_unit(2.0 * ACT_AT_K, 0, "K")
        ),
        format!("{} over: leave one piece out.", with_unit(ACT_AT_K, 0, "K")),
        "Flames at the doorway or black smoke: stop feeding, add no air, stand aside.".to_owned(),
    ]
}

/// The first firing in words.
pub(super) fn first_firing(schedule: &Schedule) -> String {
    let days = count(schedule.days.len() as f64, "day", "days");
    let hours = count(schedule.hours, "hour", "hours");
    let slow =
        format!("{days} of small fires, {hours} in all, each held under its temperature and left to cool overnight.");
    match schedule.refused_h {
        Some(wanted) => format!("{NO_FASTER}: {} is refused. {slow}", count(wanted, "hour", "hours")),
        None => format!("{slow} {NO_FASTER}."),
    }
}

/// What a plan takes for granted.
pub(super) fn assumptions(bench: &Bench) -> Vec<String> {
    vec![
        format!("Every piece is like the next: {} of wood, fed on the minute.", kg(bench.piece_kg())),
        "Covers come as the scenario says; another night differs.".to_owned(),
        format!(
            "A piece acts on the floor about {} after it is fed, so the rush is fed for that long before it.",
            duration(ACTS_AFTER_S)
        ),
        "The morning's floor is even through the stone.".to_owned(),
        "Found by search, then run again as it is shown: every number is from that run. Another rhythm may do with a piece or two less."
            .to_owned(),
    ]
}
