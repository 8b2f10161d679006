//! Owns what is said to a cook in mid-service: what to do in the next quarter hour first, whether the rest holds and by how much, and
//! what was taken for granted about the fire and the stone.

use super::fire_build::side_of;
use super::types::Gives;
use super::words::{clock, count, degrees, list, number, percent, with_unit};
use crate::plan::cadence::{ACTS_AFTER_S, CLOCK_STEP_S, Fed};
use crate::plan::from_now::FromNow;
use crate::plan::reading::{FROM_FIRE_M, middle_in_m};
use crate::plan::sheet::GUN_WITHIN_K;
use crate::plan::trial::Bench;
use crate::scenario::FloorReading;
use crate::units::time::MINUTE_S;

/// A reading this far over the plan may be in degrees Fahrenheit, K ...
const FAHRENHEIT_OFF_K: f64 = 100.0;
/// ... when it comes this near to the plan so read, K.
const FAHRENHEIT_NEAR_K: f64 = 60.0;
/// The floor is read again so long after, s: by then a piece put on now acts. Our choice.
const AGAIN_S: f64 = 30.0 * MINUTE_S;

const CM_PER_M: f64 = 100.0;

fn times(feeds: &[Fed]) -> String {
    let times: Vec<String> = feeds.iter().map(|fed| clock(fed.at)).collect();
    list(&times.iter().map(String::as_str).collect::<Vec<_>>())
}

/// What to do with the fire, first of all.
fn fire(now: &FromNow) -> String {
    let fed = |f: &Fed| format!("{} at {}", count(f.pieces, "piece", "pieces"), clock(f.at));
    let feeds: Vec<String> = now.feed_next.iter().map(fed).collect();
    let feeds: Vec<&str> = feeds.iter().map(String::as_str).collect();
    if let Some(light_at) = now.light_at {
        return format!("Not lit yet: strike the match at {}.", clock(light_at));
    }
    if let Some(until) = now.spread_until {
        return format!("The coals lie spread: nothing goes on until they are raked back at {}.", clock(until));
    }
    match now.next {
        _ if now.beyond && feeds.is_empty() => {
            "Flames at the doorway or black smoke: stop feeding, add no air, stand aside.".to_owned()
        }
        None if now.left == 0 => "Feed no more: nothing is left to bake.".to_owned(),
        None if now.at >= now.last_useful => {
            "No feeding helps any more: a piece put on now acts after the last order. Let the fire fall.".to_owned()
        }
        None if !now.skipped.is_empty() => {
            format!("Feed no more tonight: leave out the wood of {}.", times(&now.skipped))
        }
        None if !now.holds => "No feeding was found to help any more. Let the fire fall.".to_owned(),
        None => "Feed no more tonight.".to_owned(),
        Some(next) if !now.skipped.is_empty() => {
            format!("Wait: leave out the wood of {}; next {}.", times(&now.skipped), fed(&next))
        }
        Some(next) if feeds.is_empty() => format!("Feed nothing in the next quarter hour; next {}.", fed(&next)),
        Some(_) => format!("Feed {}.", list(&feeds)),
    }
}

/// What to do in the next quarter hour, in the order of its urgency.
pub(super) fn acts(bench: &Bench, now: &FromNow) -> Vec<String> {
    let menu = &bench.ready.scenario.menu;
    let mut acts = vec![fire(now)];
    for hold in &now.hold {
        let name = &menu[hold.dish].name;
        acts.push(match hold.until {
            Some(until) => format!("Hold the tickets of {name} until {}.", clock(until)),
            None => format!("Take {name} off the board: the floor does not come into its band again this evening."),
        });
    }
    acts.extend(hot(bench, now));
    if now.hold.is_empty() && now.light_at.is_none() && now.left > 0 {
        acts.push("No ticket needs holding.".to_owned());
    }
    if let Some(side) = now.rest {
        acts.push(format!("Rest the {}: it is the coolest.", side_of(side)));
    }
    if let Some(at) = again(now) {
        acts.push(format!("Read again at {}. {}", clock(at), read_where(bench)));
    }
    acts
}

/// What to watch on a floor that is hotter than planned.
fn hot(bench: &Bench, now: &FromNow) -> Vec<String> {
    if now.light_at.is_some() || now.left == 0 {
        return Vec::new();
    }
    let mut says = Vec::new();
    if now.runs_hot {
        let by = with_unit(now.floor_c - now.expected_c, 0, "K");
        says.push(format!(
            "The floor runs {by} hotter than planned, and no piece was found to leave out without harm later: look at the bases early."
        ));
    }
    for hot in now.too_hot.iter().filter(|hot| now.hold.iter().all(|hold| hold.dish != hot.dish)) {
        let name = &bench.ready.scenario.menu[hot.dish].name;
        says.push(match hot.until {
            Some(until) => format!(
                "Too hot for {name} until {}: only on the coolest spots, the base looked at early.",
                clock(until)
            ),
            None => format!("Too hot for {name} to the end: only on the coolest spots, the base looked at early."),
        });
    }
    says
}

/// How the floor is read, so that it can be held against the plan.
pub(super) fn read_where(bench: &Bench) -> String {
    let plan = &bench.ready.build.plan;
    match bench.ready.scenario.oven.reading {
        FloorReading::Probe { depth_m } => format!(
            "By the probe {} under the face, with nothing over it for a minute.",
            with_unit(CM_PER_M * depth_m, 0, "cm")
        ),
        FloorReading::Gun => format!(
            "On bare floor where nothing has lain for a minute: the mean of three shots from side to side, {} in from the doorway, \
             none within {} of the fire.",
            with_unit(CM_PER_M * middle_in_m(plan), 0, "cm"),
            with_unit(CM_PER_M * FROM_FIRE_M, 0, "cm")
        ),
    }
}

/// When the floor is read again, to five minutes; not once the last order is over.
pub(super) fn again(now: &FromNow) -> Option<f64> {
    let at = now.spread_until.unwrap_or(now.at + AGAIN_S);
    let at = (at / CLOCK_STEP_S).ceil() * CLOCK_STEP_S;
    (now.left > 0 && at < now.last_useful + ACTS_AFTER_S).then_some(at)
}

/// The lead: what to do with the fire, and whether the rest holds.
pub(super) fn says(now: &FromNow) -> String {
    let rest = if now.left == 0 {
        ""
    } else if now.holds {
        " The rest of the evening holds its promises."
    } else {
        return format!(
            "{} The evening's promises do not hold from here on: {} gives first.",
            fire(now),
            now.gives.map_or(Gives::Fire, super::build::gives).name()
        );
    };
    format!("{}{rest}", fire(now))
}

/// The reading against the plan, and the margins of what is to come.
pub(super) fn because(now: &FromNow) -> String {
    let mut says = read(now);
    let bakes = &now.trial.trace.bakes;
    let lost: u32 = now.trial.trace.never_started.iter().sum();
    if now.left > 0 {
        let good = number(bakes.iter().filter(|bake| bake.in_band).count() as f64, 0);
        let all = number(bakes.len() as f64 + f64::from(lost), 0);
        says.push_str(&format!(" Of the loads still to come {good} of {all} start in their bands."));
    }
    if let Some(floor_k) = now.all.floor_k {
        let by = with_unit(floor_k.abs(), 0, "K");
        says.push_str(&if floor_k < 0.0 {
            format!(" The coolest is {by} under its dish's least.")
        } else {
            format!(" The coolest is {by} over its dish's least.")
        });
    }
    says.push_str(&format!(
        " The fire leaves {} of the doorway's air and {} of the way to the doorway.",
        percent(now.all.air.max(0.0)),
        percent(now.all.reach.max(0.0))
    ));
    says
}

/// The reading beside what was expected.
pub(super) fn read(now: &FromNow) -> String {
    let off = now.floor_c - now.expected_c;
    let against = match (now.keeps_plan, now.planned) {
        (true, _) if !now.holds && now.left > 0 => "nothing better was found than to go on",
        (true, true) => "the plan stands",
        (true, false) => "go on as typed",
        (false, _) => "planned again",
    };
    let size = with_unit(off.abs(), 0, "K");
    let side = if off < 0.0 { "under" } else { "over" };
    let mut says = if off.abs() < 0.5 {
        format!("{} read, as planned: {against}.", degrees(now.floor_c))
    } else {
        format!("{} read, {} planned, {size} {side}: {against}.", degrees(now.floor_c), degrees(now.expected_c))
    };
    if !now.planned {
        says.push_str(" No feeding carries the whole evening; this is what is best from here on.");
    }
    let as_celsius = crate::units::typed::celsius_of_fahrenheit(now.floor_c);
    if off > FAHRENHEIT_OFF_K && (as_celsius - now.expected_c).abs() < FAHRENHEIT_NEAR_K {
        let read = with_unit(now.floor_c, 0, "");
        says.push_str(&format!(" Was that in °F? {} °F is {}.", read.trim_end(), degrees(as_celsius)));
    }
    says
}

/// What is taken for granted about what was fed and about the stone.
pub(super) fn taken(now: &FromNow) -> Vec<String> {
    let mut taken: Vec<String> = fed(now).into_iter().collect();
    if now.light_at.is_some() {
        taken.push(
            "Before the match a reading is a morning's: the floor is taken to be even through the stone.".to_owned(),
        );
    } else if let Some(differs) = &now.differs {
        let (since, face, under) =
            (clock(differs.since), with_unit(differs.face_k, 0, "K"), with_unit(differs.underside_k, 0, "K"));
        let heat = if differs.face_k < 0.0 {
            format!(
                "Floor and dome are taken to have had evenly less heat than planned since {since}: their faces differ by {face}, the \
                 underside of the floor's stone by {under}."
            )
        } else {
            format!(
                "Floor and dome are taken to have had evenly more heat than planned since {since}: their faces differ by {face}, the \
                 underside of the floor's stone by {under}."
            )
        };
        let why = "One reading does not say why it is off.";
        taken.push(format!("{why} {heat} From here on the fire is taken to burn as planned."));
    } else {
        taken.push(format!(
            "A reading within {} of the plan says nothing new: the stone is taken as planned.",
            with_unit(GUN_WITHIN_K, 0, "K")
        ));
    }
    taken
}

fn fed(now: &FromNow) -> Option<String> {
    if now.light_at.is_some() {
        return None;
    }
    let so_far = &now.fed;
    let mut says = vec![assumed(now)];
    if !so_far.told.is_empty() && !so_far.assumed.is_empty() {
        says.push(format!("From then on what was typed: {}.", times(&so_far.told)));
    }
    if !so_far.skipped.is_empty() {
        says.push(format!("Planned and not fed then: {}.", times(&so_far.skipped)));
    }
    if !so_far.left_out.is_empty() {
        says.push(format!("Planned and not typed, so taken as not fed: {}.", times(&so_far.left_out)));
    }
    Some(says.join(" "))
}

/// What is taken as fed as planned.
fn assumed(now: &FromNow) -> String {
    let so_far = &now.fed;
    let Some(last) = so_far.assumed.last().map(|fed| clock(fed.at)) else {
        return if so_far.told.is_empty() {
            "Nothing is taken as fed until now.".to_owned()
        } else {
            format!("Taken as fed is what was typed and nothing before: {}.", times(&so_far.told))
        };
    };
    let pieces = count(so_far.assumed.iter().map(|fed| fed.pieces).sum(), "piece", "pieces");
    match (so_far.told.is_empty(), now.planned) {
        (true, true) => {
            format!("Taken as fed, for nobody said otherwise: {pieces} as planned, the last at {last}.")
        }
        (true, false) => {
            format!("Taken as fed, for nobody said otherwise: {pieces} as your scenario has it, the last at {last}.")
        }
        (false, true) => format!("Taken as fed until {last}: {pieces} as planned."),
        (false, false) => format!("Taken as fed until {last}: {pieces} as your scenario has it."),
    }
}
