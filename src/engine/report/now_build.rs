//! Owns the filling of the report's part about the rest of an evening.

use super::fire_build::{phase, reading, side_of};
use super::fire_types::FirePiece;
use super::now_types::{FedSoFar, FireNow, HoldTickets, NowMargins};
use super::now_words as say;
use super::types::Gives;
use super::words::clock_typed;
use crate::plan::cadence::Fed;
use crate::plan::from_now::{FromNow, Hold};
use crate::plan::sheet::readings;
use crate::plan::trial::Bench;

fn times(feeds: &[Fed]) -> Vec<String> {
    feeds.iter().map(|fed| clock_typed(fed.at)).collect()
}

/// The rest of the evening as data.
pub(super) fn from_now(bench: &Bench, now: &FromNow) -> FireNow {
    let piece_kg = bench.piece_kg();
    let menu = &bench.ready.scenario.menu;
    let fed = |fed: &Fed| FirePiece { at: clock_typed(fed.at), kg: fed.pieces * piece_kg };
    let hold = |h: &Hold| HoldTickets { dish: menu[h.dish].name.clone(), until: h.until.map(clock_typed) };
    FireNow {
        says: say::says(now),
        because: say::because(now),
        at: clock_typed(now.at),
        floor_c: now.floor_c,
        expected_c: now.expected_c,
        fed: FedSoFar {
            assumed: times(&now.fed.assumed),
            told: times(&now.fed.told),
            left_out: times(&now.fed.left_out),
            skipped: times(&now.fed.skipped),
        },
        light_at: now.light_at.map(clock_typed),
        planned: now.planned,
        keeps_plan: now.keeps_plan,
        carries: now.holds,
        gives_first: now.gives.map_or(Gives::None, super::build::gives),
        margins: margins(now),
        phases: now.evening.iter().map(|m| phase(&m.phase, Some((m.floor_k, m.air, m.reach)), &now.trial)).collect(),
        feed_next: now.feed_next.iter().map(fed).collect(),
        left_out: times(&now.skipped),
        hold: now.hold.iter().map(hold).collect(),
        runs_hot: now.runs_hot,
        too_hot: now.too_hot.iter().map(hold).collect(),
        rest_side: now.rest.map(|side| side_of(side).to_owned()),
        read_again_at: say::again(now).map(clock_typed),
        readings: readings(&now.trial).iter().map(reading).collect(),
        acts: say::acts(bench, now),
        taken: say::taken(now),
    }
}

fn margins(now: &FromNow) -> NowMargins {
    let trace = &now.trial.trace;
    let never: u32 = trace.never_started.iter().sum();
    NowMargins {
        loads: trace.bakes.len() as u32 + never,
        in_band: trace.bakes.iter().filter(|bake| bake.in_band).count() as u32,
        lowest_margin_k: now.all.floor_k,
        air_margin: now.all.air,
        reach_margin: now.all.reach,
    }
}
