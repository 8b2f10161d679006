//! Owns what wetter and drier wood change in a plan: its rhythm, its match and its wood, each day of them played as the plan's is.

use super::cadence::Cadence;
use super::laziest::in_minutes;
use super::trial::{Bench, Leans, Player};
use crate::hearth::build::fuel;
use crate::units::time::MINUTE_S;

/// Meter readings the plan is worked out for besides the scenario's own, share of dry mass.
pub const WETTER: [f64; 2] = [0.20, 0.25];
/// Intervals for wetter wood are taken by these factors, one after the other. Our choice.
const SHORTER: [f64; 6] = [1.0, 0.93, 0.86, 0.79, 0.72, 0.65];
/// The match is struck this much earlier where no interval is short enough, s, ...
const EARLIER_S: f64 = 1800.0;
/// ... so many times at most.
const EARLIER_MOST: u32 = 6;
/// Intervals for drier wood are taken by these factors. Our choice.
const LONGER: [f64; 7] = [1.0, 1.05, 1.1, 1.15, 1.2, 1.3, 1.4];

/// The plan at another reading of the meter.
#[derive(Clone, Debug, PartialEq)]
pub struct Moisture {
    /// Water over dry mass, share.
    pub meter: f64,
    /// The rhythm that carries with it and its wood of the day, kg; `None` where none near the plan's was found to.
    pub fed: Option<(Cadence, f64)>,
}

/// The plan for the scenario's meter reading and others, driest first: the plan's own rhythm, changed step by step from the scenario's
/// reading outwards until a day of it holds at the default cut, as the plan's does. Wetter wood never comes out as needing less: each
/// reading begins with the rhythm of the one before.
#[must_use]
pub fn moistures(rough: &Bench, fine: &Bench, cadence: &Cadence) -> Vec<Moisture> {
    let own = fine.ready.scenario.wood.meter_dry_basis;
    let is_own = |meter: f64| (meter - own).abs() < 1e-9;
    let plan = (cadence.clone(), fine.wood_kg(cadence));
    let mut all = vec![Moisture { meter: own, fed: Some(plan.clone()) }];
    // What does not carry with drier wood is not looked for with wetter.
    let mut before = Some(plan.clone());
    for meter in WETTER.into_iter().filter(|&meter| meter > own && !is_own(meter)) {
        before = before.and_then(|drier| Wood::at(rough, fine, meter).wetter(&drier));
        all.push(Moisture { meter, fed: before.clone() });
    }
    let mut before = Some(plan);
    for meter in WETTER.into_iter().rev().filter(|&meter| meter < own && !is_own(meter)) {
        before = before.and_then(|wetter| Wood::at(rough, fine, meter).drier(&wetter));
        all.insert(0, Moisture { meter, fed: before.clone() });
    }
    all
}

/// One oven with wood of one reading, on the coarse cut and on the default one.
struct Wood {
    rough: Bench,
    fine: Bench,
}

impl Wood {
    fn at(rough: &Bench, fine: &Bench, meter: f64) -> Self {
        let [rough, fine] = [rough, fine].map(|bench| {
            let mut other = bench.with(|s| s.wood.meter_dry_basis = meter);
            other.ready.build.fuel = fuel(&other.ready.scenario);
            other
        });
        Self { rough, fine }
    }

    /// A rhythm that holds here, with its wood: looked at coarsely first.
    fn holds(&self, player: &Player<'_>, cadence: &Cadence) -> Result<f64, Leans> {
        match player.try_out(cadence).leans() {
            Leans::Holds => {}
            way => return Err(way),
        }
        match self.fine.try_out(cadence).leans() {
            Leans::Holds => Ok(self.fine.wood_kg(cadence)),
            way => Err(way),
        }
    }

    /// The first rhythm that holds with wood wetter than another's: shorter intervals, then an earlier match.
    fn wetter(&self, (drier, least_kg): &(Cadence, f64)) -> Option<(Cadence, f64)> {
        let player = Player::new(&self.rough);
        for earlier in 0..=EARLIER_MOST {
            let light_at = drier.light_at - f64::from(earlier) * EARLIER_S;
            if light_at < self.fine.evening.earliest_light || (earlier > 0 && drier.typed.is_some()) {
                break;
            }
            for shorter in SHORTER {
                let cadence = Cadence { light_at, ..taken_by(drier, shorter) };
                if self.fine.wood_kg(&cadence) < *least_kg {
                    continue;
                }
                match self.holds(&player, &cadence) {
                    Ok(kg) => return Some((cadence, kg)),
                    Err(Leans::Hot) => break,
                    Err(_) => {}
                }
            }
        }
        None
    }

    /// The rhythm with least wood that holds with wood drier than another's: the longest intervals.
    fn drier(&self, (wetter, most_kg): &(Cadence, f64)) -> Option<(Cadence, f64)> {
        let player = Player::new(&self.rough);
        let mut found = None;
        for longer in LONGER {
            let cadence = taken_by(wetter, longer);
            match self.holds(&player, &cadence) {
                Ok(kg) if kg <= *most_kg => found = Some((cadence, kg)),
                Ok(_) | Err(Leans::Hot) => {}
                Err(_) => break,
            }
        }
        found
    }
}

/// A rhythm with its intervals after the light-up taken by a factor, in whole minutes; where it is fed as typed, all of them.
fn taken_by(cadence: &Cadence, factor: f64) -> Cadence {
    if cadence.typed.is_some() {
        return cadence.slower(factor);
    }
    let mut other = cadence.clone();
    for every_s in other.every_s[1..].iter_mut().filter(|_| (factor - 1.0).abs() > 1e-9) {
        *every_s = f64::from(in_minutes(factor * *every_s).max(1)) * MINUTE_S;
    }
    other
}
