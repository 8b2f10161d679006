//! Owns the hours after the last piece: when the doors are shut, what leaks through them, and the floor of the morning.

use crate::demand::BakeLaw;
use crate::hearth::oven::Hearth;
use crate::numerics::root::bisect;
use crate::scenario::ClockS;
use crate::service::night::Ready;
use crate::units::time::DAY_S;

/// Longest step of a cooling oven, s: nothing quick happens in it.
const COOLING_STEP_S: f64 = 60.0;
/// Doors are shut when less flaming wood than this is left, kg: a shut door over flames fills the room with smoke. Our choice.
const FLAMES_OUT_KG: f64 = 0.05;
/// Flames are waited for at most so long, s.
const LONGEST_WAIT_S: f64 = 3.0 * 3600.0;
/// Most that is believed to leak through shut doors, kg/s: twice the upper end of what was measured (1.5-8 g/s).
const MOST_LEAK_KG_S: f64 = 0.016;
/// The leak is solved to this, kg/s.
const LEAK_WITHIN_KG_S: f64 = 5e-5;

/// Where the doors' leak comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Leak {
    /// As the scenario says.
    Given(f64),
    /// Solved from last night's closing and this morning's reading.
    Solved(f64),
    /// The two readings fit no leak; the scenario's is used.
    Unfit(f64),
}

impl Leak {
    /// The leak, kg/s.
    #[must_use]
    pub fn kg_s(self) -> f64 {
        match self {
            Self::Given(leak) | Self::Solved(leak) | Self::Unfit(leak) => leak,
        }
    }
}

/// The night.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Overnight {
    /// When the flames are out and the doors are shut.
    pub close_at: ClockS,
    /// The floor then, degC.
    pub close_c: f64,
    /// Coals in the bed then, kg.
    pub coals_kg: f64,
    /// When the floor is read again.
    pub read_at: ClockS,
    /// The doors' leak.
    pub leak: Leak,
    /// The floor in the morning with the coals left in, degC.
    pub morning_c: f64,
    /// The same with the coals raked out before closing, degC.
    pub raked_c: f64,
}

/// Runs an oven without work until a moment.
pub fn rest(hearth: &mut Hearth<'_>, laws: &[BakeLaw], until_s: f64) {
    while hearth.time_s < until_s - 1e-6 {
        let most = COOLING_STEP_S.min(hearth.build.stable_step_s(false, hearth.hottest_k(), hearth.hottest_k()));
        hearth.step(most.min(until_s - hearth.time_s), &mut [], laws);
    }
}

/// Takes the stone's heat by a factor, K above the room.
fn scale(hearth: &mut Hearth<'_>, factor: f64) {
    hearth.floor.scale(factor);
    hearth.dome.scale(factor);
}

/// The floor after hours behind shut doors, degC.
fn after(ready: &Ready, shut: &Hearth<'_>, leak_kg_s: f64, hours_s: f64) -> f64 {
    let mut hearth = shut.clone();
    hearth.close_doors(Some(leak_kg_s));
    let until_s = hearth.time_s + hours_s;
    rest(&mut hearth, &ready.laws, until_s);
    ready.noted.note(hearth.fault);
    hearth.food_floor_c()
}

/// The floor when it is next read, after a day's last piece and a night behind doors that leak as the scenario says, degC.
#[must_use]
pub fn morning_c(ready: &Ready, mut hearth: Hearth<'_>) -> f64 {
    hearth.lay(&[], &ready.laws);
    wait_for_flames(&mut hearth, &ready.laws);
    let hours_s = next_reading(ready, &hearth) - hearth.time_s;
    after(ready, &hearth, ready.scenario.oven.door_leak_kg_s, hours_s)
}

/// When the floor is read again.
fn next_reading(ready: &Ready, hearth: &Hearth<'_>) -> ClockS {
    let mut read_at = ready.scenario.start.read_at + DAY_S;
    while read_at <= hearth.time_s {
        read_at += DAY_S;
    }
    read_at
}

/// Runs an oven until its flames are out, so that the doors may be shut.
pub fn wait_for_flames(hearth: &mut Hearth<'_>, laws: &[BakeLaw]) {
    let give_up = hearth.time_s + LONGEST_WAIT_S;
    while hearth.fire.wood_kg() > FLAMES_OUT_KG && hearth.time_s < give_up {
        let until_s = hearth.time_s + COOLING_STEP_S;
        rest(hearth, laws, until_s);
    }
}

/// The night after a day's last piece. The stone's profile at last night's closing is taken to be tonight's, scaled to the
/// reading, for a reading at the face is all there is.
#[must_use]
pub fn overnight(ready: &Ready, mut hearth: Hearth<'_>) -> Overnight {
    hearth.lay(&[], &ready.laws);
    wait_for_flames(&mut hearth, &ready.laws);
    let leak = leak(ready, &hearth);
    let read_at = next_reading(ready, &hearth);
    let hours_s = read_at - hearth.time_s;
    let mut raked = hearth.clone();
    raked.fire = crate::hearth::fire::Fire::new(hearth.build.fuel, hearth.build.bed_area_m2);
    Overnight {
        close_at: hearth.time_s,
        close_c: hearth.food_floor_c(),
        coals_kg: hearth.fire.coal_kg(),
        read_at,
        leak,
        morning_c: after(ready, &hearth, leak.kg_s(), hours_s),
        raked_c: after(ready, &raked, leak.kg_s(), hours_s),
    }
}

/// The leak that takes last night's floor to this morning's.
#[must_use]
pub fn leak(ready: &Ready, shut: &Hearth<'_>) -> Leak {
    let scenario = &ready.scenario;
    let given = scenario.oven.door_leak_kg_s;
    let (Some(close_c), Some(hours_s)) = (scenario.start.last_close_c, scenario.start.closed_for_s) else {
        return Leak::Given(given);
    };
    let mut last_night = shut.clone();
    let room_c = last_night.room_c();
    let factor = (close_c - room_c) / (last_night.food_floor_c() - room_c).max(1.0);
    scale(&mut last_night, factor);
    let off = |leak: f64| after(ready, &last_night, leak, hours_s) - scenario.start.floor_c;
    if off(0.0) < 0.0 || off(MOST_LEAK_KG_S) > 0.0 {
        return Leak::Unfit(given);
    }
    Leak::Solved(bisect(0.0, MOST_LEAK_KG_S, LEAK_WITHIN_KG_S, off))
}
