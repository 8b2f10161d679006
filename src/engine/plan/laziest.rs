//! Owns the search for the laziest feeding: the least wood whose simulated day keeps every promise.
//!
//! The fire is one number at first (one interval from the first order on), found by bisection: too little heat wants a shorter
//! interval, too much a longer one. Then the match is moved as late as it may be, each stretch is stretched on its own as far as
//! the promises allow, and trades between match and rhythm are tried. Every rhythm that is looked at is a simulated day, played on
//! from where it first differs from one looked at before, and given up once it is lost.

use super::cadence::{CLOCK_STEP_S, Cadence, STRETCHES};
use super::light_up::{Keenest, MOST_EVERY_MIN};
use super::trial::{Bench, Leans, Player, Trial};
use crate::units::time::MINUTE_S;

/// The match is moved by this much at first, s.
const LIGHT_STEP_S: f64 = 1800.0;
/// At most so many moments for the match are looked at while looking for any rhythm that holds.
const MOST_LIGHTS: u32 = 10;
/// The last piece is moved by this much, s.
const STOP_STEP_S: f64 = 900.0;

/// Rounds of trades at most.
const MOST_ROUNDS: u32 = 5;

/// A later match paid for with shorter intervals, or the other way about.
struct Trade {
    light_steps: f64,
    more_min: [f64; 3],
}

/// The trades that are tried, in order. Our choice.
const TRADES: [Trade; 9] = [
    Trade { light_steps: 6.0, more_min: [0.0, 0.0, 0.0] },
    Trade { light_steps: 12.0, more_min: [-1.0, -1.0, -1.0] },
    Trade { light_steps: 6.0, more_min: [-1.0, -1.0, 0.0] },
    Trade { light_steps: 6.0, more_min: [-2.0, -2.0, 0.0] },
    Trade { light_steps: 3.0, more_min: [-1.0, 0.0, 0.0] },
    Trade { light_steps: 3.0, more_min: [0.0, -1.0, 0.0] },
    Trade { light_steps: 0.0, more_min: [0.0, -1.0, 4.0] },
    Trade { light_steps: -3.0, more_min: [1.0, 1.0, 1.0] },
    Trade { light_steps: -6.0, more_min: [2.0, 2.0, 2.0] },
];

/// Stretches that are made longer at once, min. Our choice.
const TOGETHER: [[f64; 3]; 3] = [[1.0, 1.0, 0.0], [1.0, 1.0, 1.0], [0.0, 1.0, 1.0]];

/// A search on one oven.
pub struct Search<'a> {
    bench: &'a Bench,
    player: Player<'a>,
    keen: Keenest,
}

/// The largest value from `from` (which holds) up to `most` for which `holds`, taking it that all below the largest hold.
pub fn farthest(from: u32, most: u32, mut holds: impl FnMut(u32) -> bool) -> u32 {
    let (mut good, mut bad, mut step) = (from, most + 1, 1);
    while good < most {
        let next = (good + step).min(most);
        if !holds(next) {
            bad = next;
            break;
        }
        good = next;
        step *= 2;
    }
    while bad > good + 1 {
        let middle = good.midpoint(bad);
        if holds(middle) {
            good = middle;
        } else {
            bad = middle;
        }
    }
    good
}

impl<'a> Search<'a> {
    /// A search on an oven that may be fed so fast.
    #[must_use]
    pub fn new(bench: &'a Bench, keen: Keenest) -> Self {
        Self { bench, player: Player::new(bench), keen }
    }

    /// The laziest feeding.
    ///
    /// # Errors
    /// The closest day that was found where none holds.
    pub fn laziest(&self) -> Result<Trial, Box<Trial>> {
        let first = self.any()?;
        let steady = self.lit_later(self.laziest_steady(first));
        Ok(self.polished(steady))
    }

    /// Plays the day by a rhythm.
    #[must_use]
    pub fn try_out(&self, cadence: &Cadence) -> Trial {
        self.player.try_out(cadence)
    }

    /// Any rhythm with one interval that holds.
    ///
    /// # Errors
    /// The closest day: the keenest feeding that was still too cold, or the laziest that was still too hot.
    pub fn any(&self) -> Result<Trial, Box<Trial>> {
        let evening = &self.bench.evening;
        let (earliest, latest) = (evening.earliest_light, evening.latest_light());
        let mut light_at = self.wanted_light();
        let mut seen = Vec::new();
        let mut all_missed: Vec<Cadence> = Vec::new();
        loop {
            let missed = match self.steady_that_holds(light_at) {
                Ok(trial) => return Ok(trial),
                Err(missed) => missed,
            };
            seen.push(light_at);
            let is_cold = missed.leans() == Leans::Cold;
            let step = if is_cold { -LIGHT_STEP_S } else { LIGHT_STEP_S };
            // Before it is given up as too cold, the earliest match there is: nothing then says that an earlier one would do.
            let last = seen.len() as u32 + 1 >= MOST_LIGHTS;
            let next = if is_cold && last { earliest } else { (light_at + step).clamp(earliest, latest) };
            let known = seen.iter().any(|at| (at - next).abs() < 1.0);
            let broken = self.bench.ready.noted.first().is_some();
            all_missed.push(missed.cadence);
            if known || broken || seen.len() as u32 >= MOST_LIGHTS {
                return Err(Box::new(self.closest(&all_missed)));
            }
            light_at = next;
        }
    }

    /// A first guess at the match: so long before the first order as light-up takes.
    #[must_use]
    pub fn wanted_light(&self) -> f64 {
        let evening = &self.bench.evening;
        let wanted = evening.first_order - self.keen.light_up_s;
        ((wanted / CLOCK_STEP_S).floor() * CLOCK_STEP_S).clamp(evening.earliest_light, evening.latest_light())
    }

    /// Of days that were missed the one with most loads in their bands, played in full: what it breaks is said to people.
    fn closest(&self, missed: &[Cadence]) -> Trial {
        let good = |trial: &Trial| trial.trace.bakes.iter().filter(|bake| bake.in_band).count();
        let last = |cadence: &Cadence| self.bench.try_out(cadence);
        let mut best = missed.last().map_or_else(|| self.steady(self.wanted_light(), self.keen.every_min), last);
        // Nothing is said of a day the computing did not get right.
        for cadence in missed.iter().rev().skip(1).filter(|_| self.bench.ready.noted.first().is_none()) {
            let trial = self.bench.try_out(cadence);
            if good(&trial) > good(&best) {
                best = trial;
            }
        }
        best
    }

    fn steady(&self, light_at: f64, every_min: u32) -> Trial {
        let light_up_s = f64::from(self.keen.every_min) * MINUTE_S;
        let every_s = f64::from(every_min) * MINUTE_S;
        let cadence = Cadence::steady(self.bench.evening, light_at, light_up_s, every_s, self.keen.pieces);
        self.try_out(&cadence)
    }

    /// Bisection on the interval for a match at a moment.
    ///
    /// # Errors
    /// The day the search ended with.
    pub fn steady_that_holds(&self, light_at: f64) -> Result<Trial, Box<Trial>> {
        let (mut hot, mut cold) = (self.keen.every_min - 1, MOST_EVERY_MIN + 1);
        let mut every_min = (2 * self.keen.every_min).min(MOST_EVERY_MIN);
        loop {
            let trial = self.steady(light_at, every_min);
            match trial.leans() {
                Leans::Holds => return Ok(trial),
                Leans::Cold => cold = every_min,
                Leans::Hot => hot = every_min,
            }
            if cold <= hot + 1 {
                return Err(Box::new(trial));
            }
            every_min = hot.midpoint(cold).max(hot + 1);
        }
    }

    /// The longest interval that holds for the match of a day that holds.
    fn laziest_steady(&self, trial: Trial) -> Trial {
        let from = in_minutes(trial.cadence.every_s[STRETCHES.len() - 1]);
        let light_at = trial.cadence.light_at;
        let mut best = trial;
        farthest(from, MOST_EVERY_MIN, |every_min| {
            let trial = self.steady(light_at, every_min);
            keep_if_holds(&mut best, trial)
        });
        best
    }

    /// The latest match that holds, all else as it is.
    fn lit_later(&self, mut best: Trial) -> Trial {
        let cadence = best.cadence.clone();
        let steps = ((self.bench.evening.latest_light() - cadence.light_at) / CLOCK_STEP_S).max(0.0) as u32;
        farthest(0, steps, |step| {
            let light_at = cadence.light_at + f64::from(step) * CLOCK_STEP_S;
            keep_if_holds(&mut best, self.try_out(&Cadence { light_at, ..cadence.clone() }))
        });
        best
    }

    /// The latest match with which a rhythm holds, looked for from a guess: earlier where that is too cold, later where it holds or
    /// is too hot. A warmer floor never wants an earlier match for the same rhythm.
    #[must_use]
    pub fn lit_for(&self, rhythm: &Cadence, guess: f64) -> Option<Trial> {
        let evening = &self.bench.evening;
        let (earliest, latest) = (evening.earliest_light, evening.latest_light());
        let lit = |light_at: f64| self.try_out(&Cadence { evening: *evening, light_at, ..rhythm.clone() });
        let mut light_at = ((guess / CLOCK_STEP_S).floor() * CLOCK_STEP_S).clamp(earliest, latest);
        let mut trial = lit(light_at);
        let way = match trial.leans() {
            Leans::Holds => return Some(self.lit_later(trial)),
            Leans::Cold => -1.0,
            Leans::Hot => 1.0,
        };
        let mut step = 1.0;
        while !trial.holds() {
            let next = (light_at + way * step * CLOCK_STEP_S).clamp(earliest, latest);
            if (next - light_at).abs() < 1.0 {
                return None;
            }
            light_at = next;
            trial = lit(light_at);
            step *= 2.0;
        }
        Some(self.lit_later(trial))
    }

    /// Stretches a day that holds, one thing after the other: the last piece earlier, then tail, way to the rush and rush.
    #[must_use]
    pub fn stretched_lit(&self, best: Trial) -> Trial {
        let mut best = self.stopped_earlier(best);
        for place in [3, 1, 2] {
            best = self.stretch_at(best, place);
        }
        best
    }

    /// Stretches a day that holds and tries several stretches longer at once, until none saves wood; the match stays where it is.
    #[must_use]
    pub fn stretched_together(&self, best: Trial) -> Trial {
        let mut best = self.stretched_lit(best);
        for _ in 0..MOST_ROUNDS {
            let together = TOGETHER
                .iter()
                .find_map(|more_min| self.traded(&best, &Trade { light_steps: 0.0, more_min: *more_min }));
            let Some(longer) = together else { break };
            best = self.stretched_lit(longer);
        }
        best
    }

    /// Stretches a day that holds, and its match after the rest.
    #[must_use]
    pub fn stretched(&self, best: Trial) -> Trial {
        self.lit_later(self.stretched_lit(best))
    }

    /// Stretches a day that holds and tries trades, until neither saves wood.
    #[must_use]
    pub fn polished(&self, best: Trial) -> Trial {
        let mut best = self.stretched(best);
        for _ in 0..MOST_ROUNDS {
            let Some(traded) = TRADES.iter().find_map(|trade| self.traded(&best, trade)) else { break };
            best = self.stretched(traded);
        }
        best
    }

    /// A day after a trade, if it saves wood and holds.
    fn traded(&self, best: &Trial, trade: &Trade) -> Option<Trial> {
        let mut cadence = best.cadence.clone();
        cadence.light_at += trade.light_steps * CLOCK_STEP_S;
        for (every_s, more_min) in cadence.every_s[1..].iter_mut().zip(trade.more_min) {
            *every_s += more_min * MINUTE_S;
        }
        let evening = &self.bench.evening;
        let lit = (evening.earliest_light..=evening.latest_light()).contains(&cadence.light_at);
        let shortest = f64::from(self.keen.every_min) * MINUTE_S;
        let fed = cadence.every_s.iter().all(|every_s| *every_s >= shortest);
        let saves = cadence.pieces_in_all() < best.cadence.pieces_in_all();
        if !(lit && fed && saves) {
            return None;
        }
        Some(self.try_out(&cadence)).filter(Trial::holds)
    }

    fn stopped_earlier(&self, mut best: Trial) -> Trial {
        let cadence = best.cadence.clone();
        let first = self.bench.evening.first_order;
        let steps = ((cadence.stop_at - first) / STOP_STEP_S).max(0.0) as u32;
        farthest(0, steps, |step| {
            let stop_at = cadence.stop_at - f64::from(step) * STOP_STEP_S;
            keep_if_holds(&mut best, self.try_out(&Cadence { stop_at, ..cadence.clone() }))
        });
        best
    }

    fn stretch_at(&self, mut best: Trial, place: usize) -> Trial {
        let cadence = best.cadence.clone();
        if !cadence.phases().iter().any(|p| p.stretch == STRETCHES[place]) {
            return best;
        }
        farthest(in_minutes(cadence.every_s[place]), MOST_EVERY_MIN, |every_min| {
            let mut next = cadence.clone();
            next.every_s[place] = f64::from(every_min) * MINUTE_S;
            // A longer interval that feeds no less saves nothing.
            next.pieces_in_all() <= cadence.pieces_in_all() && keep_if_holds(&mut best, self.try_out(&next))
        });
        best
    }
}

/// Whole minutes of an interval.
#[must_use]
pub fn in_minutes(every_s: f64) -> u32 {
    (every_s / MINUTE_S).round() as u32
}

/// Takes a trial for the best if it holds; says whether it does.
fn keep_if_holds(best: &mut Trial, trial: Trial) -> bool {
    let holds = trial.holds();
    if holds {
        *best = trial;
    }
    holds
}

#[cfg(test)]
mod tests {
    use super::farthest;

    #[test]
    fn farthest_finds_the_edge_wherever_it_lies() {
        for edge in 3..=40 {
            let mut asked = 0;
            let found = farthest(3, 40, |n| {
                asked += 1;
                n <= edge
            });
            assert_eq!(found, edge);
            assert!(asked <= 11);
        }
    }
}
