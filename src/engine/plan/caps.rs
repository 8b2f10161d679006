//! Owns the caps of the shift sheet: how many pieces of each dish may be ordered in a quarter hour before the kitchen gives, played.

use super::trial::{Bench, Player, Trial};
use crate::scenario::ClockS;
use crate::service::orders::{Order, orders};
use crate::units::time::QUARTER_S;

/// A stretch of the evening is tried with so many times its orders, one after the other while they hold. Our choice.
const TIMES: [f64; 2] = [1.2, 1.5];

/// The most of a dish.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cap {
    /// Index of the dish.
    pub dish: usize,
    /// Pieces in the quarter hour that bears most of it.
    pub pieces: u32,
    /// Which quarter hour.
    pub at: ClockS,
}

/// What a quarter hour bears.
#[derive(Clone, Debug, PartialEq)]
pub struct QuarterCaps {
    /// Its start.
    pub at: ClockS,
    /// Pieces of each dish, in the order of the caps.
    pub pieces: Vec<u32>,
}

/// Orders of the evening by quarter hour and dish.
fn counted(all: &[Order], start: ClockS, dishes: usize) -> Vec<Vec<u32>> {
    let quarter = |order: &Order| ((order.at_s - start) / QUARTER_S).floor().max(0.0) as usize;
    let mut counts = vec![vec![0; dishes]; all.iter().map(quarter).max().map_or(0, |last| last + 1)];
    for order in all {
        counts[quarter(order)][order.dish] += 1;
    }
    counts
}

/// So many more of every dish, as whole pieces.
fn more(count: u32, times: f64) -> u32 {
    (f64::from(count) * times).floor() as u32
}

/// What every quarter hour of the plan bears: as many times its orders as hold when all quarter hours of its stretch (before the
/// rush, the rush, after it) are filled so far and the rest of the evening is as planned; never less than the plan itself.
#[must_use]
pub fn caps(bench: &Bench, trial: &Trial) -> (Vec<Cap>, Vec<QuarterCaps>) {
    let all = orders(&bench.ready.scenario);
    let start = all.iter().map(|order| order.at_s).fold(f64::INFINITY, f64::min);
    let start = (start / QUARTER_S).floor() * QUARTER_S;
    let mut counts = counted(&all, start, bench.ready.scenario.menu.len());
    let at = |quarter: usize| start + quarter as f64 * QUARTER_S;
    let [rush_from, rush_to] = bench.evening.rush;
    for [from, to] in [[f64::NEG_INFINITY, rush_from], [rush_from, rush_to], [rush_to, f64::INFINITY]] {
        let within: Vec<usize> = (0..counts.len()).filter(|&quarter| (from..to).contains(&at(quarter))).collect();
        let holds = |times: f64| {
            let mut filled = all.clone();
            for &quarter in &within {
                for (dish, &count) in counts[quarter].iter().enumerate() {
                    let Some(like) = all.iter().find(|order| order.dish == dish && !order.batch) else { continue };
                    let extra = more(count, times) - count;
                    // Between those that were planned, so that a quarter hour is filled evenly.
                    filled.extend((0..extra).map(|k| Order {
                        at_s: at(quarter) + (f64::from(k) + 0.5) / f64::from(extra) * QUARTER_S,
                        ..*like
                    }));
                }
            }
            let grows = filled.len() > all.len();
            crate::numerics::order::by(&mut filled, |a, b| a.at_s.total_cmp(&b.at_s));
            // A quarter hour of few orders does not grow by a whole piece: then more times as many are looked at.
            !grows || Player::with_orders(bench, filled).try_out(&trial.cadence).holds()
        };
        let times = TIMES.into_iter().take_while(|&times| holds(times)).last().unwrap_or(1.0);
        for quarter in within {
            counts[quarter].iter_mut().for_each(|count| *count = more(*count, times));
        }
    }
    table(&counts, at)
}

/// The caps by dish, and by quarter hour where anything is ordered.
fn table(counts: &[Vec<u32>], at: impl Fn(usize) -> ClockS) -> (Vec<Cap>, Vec<QuarterCaps>) {
    let dishes = counts.first().map_or(0, Vec::len);
    let most = |dish: usize| {
        let best = (0..counts.len()).reduce(|a, b| if counts[b][dish] > counts[a][dish] { b } else { a })?;
        let pieces = counts[best][dish];
        (pieces > 0).then(|| Cap { dish, pieces, at: at(best) })
    };
    let caps: Vec<Cap> = (0..dishes).filter_map(most).collect();
    let quarters = counts.iter().enumerate().map(|(quarter, counts)| QuarterCaps {
        at: at(quarter),
        pieces: caps.iter().map(|cap| counts[cap.dish]).collect(),
    });
    let quarters = quarters.filter(|quarter| quarter.pieces.iter().any(|&pieces| pieces > 0)).collect();
    (caps, quarters)
}
