//! Owns a week of an oven: each morning follows from the night before, and the first one from the closed days.

use super::feeding_rule::{Heating, heat_at};
use super::overnight::{leak, rest, wait_for_flames};
use super::reach::SEARCH_ACCURACY;
use crate::hearth::fault::Noted;
use crate::hearth::oven::Hearth;
use crate::scenario::Scenario;
use crate::service::night::{Keep, Ready, run};
use crate::service::orders::orders;
use crate::service::trace::Trace;
use crate::units::time::DAY_S;

/// Days in a week.
const WEEK_DAYS: f64 = 7.0;

/// A week. The evenings are alike, and what an evening leaves in the stone hardly hangs on its morning: so every open day but the
/// first begins with the same morning, and they differ in how long they heat up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Week {
    /// Wood of the week, kg.
    pub wood_kg: f64,
    /// The floor on the morning after an open night, degC.
    pub after_open_c: f64,
    /// The floor on the morning after the closed days, degC; `None` where none are closed.
    pub after_closed_c: Option<f64>,
    /// What the shut doors let through, kg/s.
    pub leak_kg_s: f64,
}

/// What the shut doors let through: solved from last night's closing and this morning's reading of the oven there is, where both
/// are typed, else as the scenario says.
#[must_use]
pub fn leak_of(scenario: &Scenario, noted: &Noted) -> f64 {
    if scenario.start.last_close_c.is_none() || scenario.start.closed_for_s.is_none() {
        return scenario.oven.door_leak_kg_s;
    }
    let ready = Ready { noted: noted.clone(), ..Ready::new(scenario, SEARCH_ACCURACY) };
    let mut hearth = Hearth::new(&ready.build, scenario);
    run(&ready, &mut hearth, orders(scenario), Keep::default());
    hearth.lay(&[], &ready.laws);
    wait_for_flames(&mut hearth, &ready.laws);
    leak(&ready, &hearth).kg_s()
}

/// Works a week out from the oven as an evening left it.
#[must_use]
pub fn week(ready: &Ready, heating: &Heating, trace: &Trace, mut hearth: Hearth<'_>, leak_kg_s: f64) -> Week {
    let open = ready.scenario.planning.days_open_per_week;
    hearth.lay(&[], &ready.laws);
    wait_for_flames(&mut hearth, &ready.laws);
    hearth.close_doors(Some(leak_kg_s));
    let mut morning_s = ready.scenario.start.read_at + DAY_S;
    while morning_s <= hearth.time_s {
        morning_s += DAY_S;
    }
    rest(&mut hearth, &ready.laws, morning_s);
    let after_open = [hearth.food_floor_c(), hearth.dome_c()];
    let closed = WEEK_DAYS - open.ceil();
    let after_closed = (closed >= 1.0 && open >= 1.0).then(|| {
        rest(&mut hearth, &ready.laws, morning_s + closed * DAY_S);
        [hearth.food_floor_c(), hearth.dome_c()]
    });
    ready.noted.note(hearth.fault);
    // What a day burns once the floor is ready is the same; until then it hangs on the morning.
    let served_kg = (trace.light_up_kg + trace.service_kg - heating.wood_kg).max(0.0);
    let day_kg = |[floor_c, dome_c]: [f64; 2]| {
        let morning = ready.with(|scenario| {
            scenario.start.floor_c = floor_c;
            scenario.start.dome_c = dome_c;
        });
        served_kg + heat_at(&morning, heating.cleanest_kg_h).wood_kg
    };
    let firsts = if after_closed.is_some() { 1.0 } else { 0.0 };
    let first_kg = after_closed.map_or(0.0, day_kg);
    Week {
        wood_kg: first_kg + (open - firsts) * day_kg(after_open),
        after_open_c: after_open[0],
        after_closed_c: after_closed.map(|morning| morning[0]),
        leak_kg_s,
    }
}
