//! Owns the first firing of a new or damp oven: days of small fires held at rising temperatures, and why no faster.

use super::overnight::rest;
use crate::hearth::fault::Fault;
use crate::hearth::oven::Hearth;
use crate::service::night::Ready;
use crate::units::time::{DAY_S, HOUR_S, MINUTE_S};

/// One day of the schedule.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Day {
    /// Hottest the dome's face may read, degC.
    pub hold_c: f64,
    /// For how long, s.
    pub hold_s: f64,
}

/// The schedule. Common practice, no source: under 100 degC first, so that water leaves without boiling in the stone (it boils at
/// 100 degC, IAPWS-97), then four hours under about 180 degC, then by about 80 K a day.
pub const DAYS: [Day; 5] = [
    Day { hold_c: 95.0, hold_s: 5.0 * HOUR_S },
    Day { hold_c: 180.0, hold_s: 4.0 * HOUR_S },
    Day { hold_c: 260.0, hold_s: 4.0 * HOUR_S },
    Day { hold_c: 320.0, hold_s: 4.0 * HOUR_S },
    Day { hold_c: 400.0, hold_s: 3.0 * HOUR_S },
];

/// A small fire is lit with this much kindling, kg. Common practice, no source.
const KINDLING_KG: f64 = 0.5;
/// Pieces are split small: an eighth of one at a time is the least that keeps a flame, and these are tried.
const SPLITS: [f64; 9] = [0.125, 0.25, 0.5, 0.75, 1.0, 1.25, 1.5, 2.0, 3.0];
/// A split is fed this often, s. Common practice, no source.
const EVERY_S: f64 = 20.0 * MINUTE_S;
/// Longest step, s.
const STEP_S: f64 = 15.0;

/// One day as it is planned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Planned {
    /// What it holds.
    pub day: Day,
    /// Share of a piece at each feed; nought where the kindling alone is enough.
    pub split: f64,
    /// Between feeds, s.
    pub every_s: f64,
    /// Kindling it is lit with, kg.
    pub kindling_kg: f64,
    /// Wood, kindling included, kg.
    pub wood_kg: f64,
    /// Hottest dome mean the run shows, degC.
    pub dome_most_c: f64,
    /// Hottest floor mean the run shows, degC.
    pub floor_most_c: f64,
}

/// The whole schedule.
#[derive(Clone, Debug, PartialEq)]
pub struct Schedule {
    /// Day by day.
    pub days: Vec<Planned>,
    /// Hours of fire it takes.
    pub hours: f64,
    /// Hours somebody wanted to do it in, if fewer: refused.
    pub refused_h: Option<f64>,
}

/// Plans the schedule on an oven that begins at the room's temperature; each day begins with what the day before left.
#[must_use]
pub fn schedule(ready: &Ready, wanted_h: Option<f64>) -> Schedule {
    let cold = ready.with(|s| {
        s.start.floor_c = s.oven.room_c;
        s.start.dome_c = s.oven.room_c;
        s.oven.assist = None;
    });
    let mut hearth = Hearth::new(&cold.build, &cold.scenario);
    let mut days = Vec::new();
    for day in DAYS {
        let begins_s = hearth.time_s;
        let small = |split: f64| fire(&cold, &hearth, day, split);
        let mut best = small(0.0);
        for split in SPLITS {
            let tried = small(split);
            if tried.0.dome_most_c.max(tried.0.floor_most_c) > day.hold_c {
                break;
            }
            best = tried;
        }
        let (planned, after) = best;
        days.push(planned);
        hearth = after;
        cold.noted.note(hearth.fault.or(Fault::of_ledger(hearth.time_s, &hearth.ledger())));
        hearth.close_doors(Some(cold.scenario.oven.door_leak_kg_s));
        rest(&mut hearth, &cold.laws, begins_s + DAY_S);
        cold.noted.note(hearth.fault);
        hearth.close_doors(None);
        hearth.open_ledger();
    }
    let hours = DAYS.iter().map(|day| day.hold_s).sum::<f64>() / HOUR_S;
    Schedule { days, hours, refused_h: wanted_h.filter(|&h| h < hours) }
}

/// One day of a small fire.
fn fire<'b>(ready: &Ready, morning: &Hearth<'b>, day: Day, split: f64) -> (Planned, Hearth<'b>) {
    let mut hearth = morning.clone();
    let wood = &ready.scenario.wood;
    let ends_s = hearth.time_s + day.hold_s;
    let (mut dome_most_c, mut floor_most_c) = (hearth.dome_c(), hearth.food_floor_c());
    hearth.fire.kindle(KINDLING_KG);
    let mut wood_kg = KINDLING_KG;
    let mut next_s = hearth.time_s + EVERY_S;
    while hearth.time_s < ends_s {
        if split > 0.0 && hearth.time_s >= next_s && next_s < ends_s - EVERY_S {
            let before = hearth.fire.wood_kg();
            let pieces = split.ceil();
            for _ in 0..pieces as u32 {
                hearth.fire.feed(wood.piece_diameter_m * (split / pieces).sqrt(), wood.piece_length_m);
            }
            wood_kg += hearth.fire.wood_kg() - before;
            next_s += EVERY_S;
        }
        let step_s = STEP_S.min(ready.build.stable_step_s(false, hearth.hottest_k(), hearth.hottest_k()));
        hearth.step(step_s, &mut [], &ready.laws);
        dome_most_c = dome_most_c.max(hearth.dome_c());
        floor_most_c = floor_most_c.max(hearth.food_floor_c());
    }
    let planned =
        Planned { day, split, every_s: EVERY_S, kindling_kg: KINDLING_KG, wood_kg, dome_most_c, floor_most_c };
    (planned, hearth)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hearth::build::DEFAULT_ACCURACY;
    use crate::scenario::resolve;

    #[test]
    fn each_day_burns_and_stays_under_its_hold() {
        let draft = serde_json::from_str(include_str!("../../../demo-data/carries.json")).unwrap();
        let ready = Ready::new(&resolve(&draft).unwrap().scenario, DEFAULT_ACCURACY);
        let room_c = ready.scenario.oven.room_c;
        let schedule = schedule(&ready, None);
        let mut before_c = room_c;
        for planned in &schedule.days {
            assert!(planned.dome_most_c > room_c + 20.0 && planned.dome_most_c <= planned.day.hold_c, "{planned:?}");
            assert!(planned.dome_most_c >= before_c, "each day is at least as warm as the last: {planned:?}");
            before_c = planned.dome_most_c;
        }
        let wood: Vec<f64> = schedule.days.iter().map(|day| day.wood_kg).collect();
        assert!(wood[0] < 0.5 * wood[4], "the first fire is a small one: {wood:?}");
    }
}
