//! Owns what is said where no feeding carries: which limit forbids it, how close it comes, and the nearest evening that would.

use super::fire_types::{InsteadOfGas, NoPlan};
use super::reach_build::{inside, lower, one_change};
use super::types::Gives;
use super::words::{clock, count, degrees, minutes, number, percent};
use crate::plan::fire::FirePlan;
use crate::plan::nearest::{Change, Tried};
use crate::plan::trial::{Bench, FIRE_RESERVE, Leans, Trial};
use crate::scenario::Scenario;
use crate::service::judge::{Breach, Pledge, Resource};
use crate::units::time::MINUTE_S;

fn limit_of(missed: &Trial) -> Gives {
    let fire = missed.used(Resource::Fire);
    let air = missed.used(Resource::DoorwayAir);
    match missed.judgement.gives() {
        Some(resource) => super::build::gives(resource),
        None if fire >= air => Gives::Fire,
        None => Gives::DoorwayAir,
    }
}

/// Why no feeding carries, and what would.
pub(super) fn no_plan(plan: &FirePlan, missed: &Trial) -> NoPlan {
    let (bench, limit) = (&plan.bench, limit_of(missed));
    let lit = clock(missed.cadence.light_at);
    let earliest = missed.cadence.light_at <= bench.evening.earliest_light + 1.0;
    let lit = if earliest { format!("{lit}, as early as the floor is read,") } else { lit };
    let rhythm = minutes(missed.cadence.every_s[2] / MINUTE_S);
    let why = match (missed.leans(), limit) {
        (_, Gives::Hands | Gives::FloorSpace | Gives::Cap) => {
            format!("No feeding carries this evening: {} gives first, whatever is fed.", limit.name())
        }
        (Leans::Cold, _) => format!(
            "No feeding carries this evening: {} gives first. Lit at {lit} and fed {} every {}, about the most that burns clean here, \
             it still falls short; less wood falls shorter.",
            limit.name(),
            count(missed.cadence.pieces, "piece", "pieces"),
            minutes(missed.cadence.every_s[0] / MINUTE_S),
        ),
        _ => format!(
            "No feeding carries this evening: {} gives first. With a piece every {rhythm} it is too much already, and less is too \
             little for the floor.",
            limit.name(),
        ),
    };
    let scenario = &bench.ready.scenario;
    let tried: Vec<InsteadOfGas> = plan.nearest.iter().map(|tried| in_words(scenario, tried)).collect();
    let within = |tried: &Tried, way: &InsteadOfGas| match tried.change {
        Change::Step(step) => inside(scenario, step),
        _ => lower(&way.what),
    };
    let both = plan.nearest.iter().zip(&tried).filter(|(_, way)| way.would_do);
    let would: Vec<String> = both.map(|(tried, way)| within(tried, way)).collect();
    let nearest = would.first().cloned();
    let would = if would.is_empty() {
        " Nothing that was tried alone would carry it: look for two changes with the ways out.".to_owned()
    } else {
        format!(" The nearest that would carry: {}.", would.join("; or "))
    };
    let typed = if plan.typed_carries {
        format!(
            " What you typed keeps every promise, but it leaves less than {} of the doorway's air or of the way to the doorway: no plan \
             takes the fire so near its limits.",
            percent(FIRE_RESERVE)
        )
    } else {
        String::new()
    };
    NoPlan { limit, says: format!("{why}{typed}{would}"), nearest, tried }
}

fn in_words(scenario: &Scenario, tried: &Tried) -> InsteadOfGas {
    let what = match &tried.change {
        Change::LitBy(at) => format!("Read the floor and light by {}", clock(*at)),
        Change::Spread(at) => format!("Spread the coals at {} for a quarter hour", clock(*at)),
        Change::Step(step) => one_change(scenario, *step),
        Change::Fewer(covers) => {
            format!("At most {} this evening, spread as they are", count(*covers, "cover", "covers"))
        }
    };
    InsteadOfGas { what, would_do: tried.would_do }
}

/// The closest day's first broken promise, with its two numbers.
pub(super) fn because_none(bench: &Bench, missed: &Trial) -> String {
    let menu = &bench.ready.scenario.menu;
    let lowest = missed.trace.bakes.iter().reduce(|a, b| if b.at_load_c < a.at_load_c { b } else { a });
    let coolest = lowest.map_or_else(String::new, |b| {
        format!(
            " It loads {} on {} at {}; its band is {} to {}.",
            menu[b.dish].name,
            degrees(b.at_load_c),
            clock(b.from_s),
            number(menu[b.dish].floor_min_c, 0),
            degrees(menu[b.dish].floor_max_c),
        )
    });
    let broke = missed.judgement.breaches.first().map_or_else(String::new, breaks);
    format!(
        "The closest evening, lit at {}, {broke}.{coolest} A plan keeps {} of the doorway's air and of the way to the doorway unused; \
         what burns dirty or reaches out is no plan.",
        clock(missed.cadence.light_at),
        percent(FIRE_RESERVE)
    )
}

/// What a broken promise promised and what came.
fn breaks(breach: &Breach) -> String {
    use super::words::duration;
    match breach.pledge {
        Pledge::WaitP90 if breach.got.is_finite() => format!(
            "lets one order in ten wait {} where {} are promised",
            duration(breach.got),
            duration(breach.promised)
        ),
        Pledge::WaitP90 => "leaves more than one order in ten unbaked".to_owned(),
        Pledge::BakeSlower => {
            format!("slows a bake by {} where {} may be", percent(breach.got), percent(breach.promised))
        }
        Pledge::ShareInBand => format!(
            "starts {} of the loads in their bands where {} are promised",
            percent(breach.got),
            percent(breach.promised)
        ),
        Pledge::QueueGoneBy => "still has orders waiting when the last should be out".to_owned(),
        Pledge::FireLimits => format!("drives the fire to {} of its limit", percent(breach.got)),
    }
}
