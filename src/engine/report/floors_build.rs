//! Owns the filling of the answer about floors.

use super::build::gives;
use super::ladder_types::*;
use super::rung_edits::edits;
use super::types::Gives;
use super::words;
use crate::plan::feeding_rule::RULE;
use crate::plan::floors::{AS_GIVEN, Place, SCALING, TRIAL_NIGHTS, TwoSmall};
use crate::plan::nights::Nights;
use crate::plan::reach::STEPS_IN_ONE;
use crate::plan::rung::Rung;
use crate::scenario::Scenario;
use crate::service::orders::orders;
use crate::units::time::{HOUR_S, MINUTE_S};
use crate::units::trade::KILOWATT_HOUR_J;

/// A delivery of firewood, stacked m3. Common practice, no source: a small lorry brings 4-8.
const DELIVERY_M3: f64 = 5.0;
/// Days in a week.
const WEEK_DAYS: f64 = 7.0;
/// A megajoule, a kilowatt or kilopascal, and a metre in what is reported.
const MJ_J: f64 = 1e6;
const THOUSAND: f64 = 1000.0;
const METRE_CM: f64 = 100.0;

/// The ladder as far as it is worked out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ladder {
    /// The floors, smallest first, without a burner before with one.
    pub rungs: Vec<RungReport>,
    /// How many there will be.
    pub of: usize,
    /// The first that carries nine nights in ten, its own error counted, with the nights run on it.
    pub nine_in_ten: Option<(usize, Nights)>,
    /// Two small floors that share the evening.
    pub two_small: Option<TwoSmall>,
    /// Doorway and dome are as given under every floor.
    pub keeps_doorway: bool,
}

/// Shows each floor that holds more, or carries only, with its burner left off, as it is without one: whoever has a burner may leave
/// it off. Where both hold as many covers, the busier of their busiest hours is shown.
pub fn leave_burners_off(rungs: &mut [RungReport]) {
    for place in 0..rungs.len() {
        let rung = &rungs[place];
        let is_like = |r: &&RungReport| !r.assist && !r.too_small && r.floor_cm.total_cmp(&rung.floor_cm).is_eq();
        let Some(off) = rungs.iter().find(is_like).filter(|_| rung.assist).cloned() else { continue };
        let holds = |r: &RungReport| (r.carries, r.covers_times);
        if holds(&off) > holds(rung) {
            rungs[place] = RungReport { assist: true, burner_off: true, ..off };
        } else if holds(&off) == holds(rung) && off.capacity_kg_h > rung.capacity_kg_h {
            let RungReport { pieces_per_h, capacity_kg_h, cooking_efficiency, .. } = off;
            rungs[place] = RungReport { pieces_per_h, capacity_kg_h, cooking_efficiency, ..rung.clone() };
        }
    }
}

impl Ladder {
    /// The first floor that carries, once all are there.
    #[must_use]
    pub fn smallest(&self) -> Option<usize> {
        self.rungs.iter().position(|rung| rung.carries).filter(|_| self.is_whole())
    }

    /// Whether all floors are there.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        self.rungs.len() >= self.of
    }
}

/// Reports a ladder.
#[must_use]
pub fn floors(scenario: &Scenario, ladder: Ladder) -> FloorsReport {
    let name = |index: usize| {
        let rung = &ladder.rungs[index];
        RungName { index, floor_cm: rung.floor_cm, assist: rung.assist }
    };
    let nine = ladder.nine_in_ten.as_ref();
    let interval = nine.map(|(_, nights)| nights.interval());
    let grown = ladder.rungs.iter().position(|rung| rung.carries_grown).filter(|_| ladder.is_whole());
    let mut report = FloorsReport {
        name: scenario.name.clone(),
        of: ladder.of as u32,
        asks_per_h: asks_per_h(scenario),
        smallest: ladder.smallest().map(name),
        smallest_grown: grown.map(name),
        smallest_nine_in_ten: nine.map(|(index, _)| name(*index)),
        nights: TRIAL_NIGHTS,
        holds_fraction: nine.map(|(_, nights)| nights.holds_fraction()),
        holds_error: interval.map(|[low, high]| 0.5 * (high - low)),
        two_small_cm: ladder.two_small.map(|two| cm(two.floor_m)),
        two_small_wood_kg_week: ladder.two_small.map(|two| two.wood_kg_week),
        two_small_hood_kw: ladder.two_small.map(|two| two.hood_w / THOUSAND),
        delivery_m3: DELIVERY_M3,
        feeding_rule: RULE.to_owned(),
        scaling: if ladder.keeps_doorway { AS_GIVEN } else { SCALING }.to_owned(),
        meanings: MEANINGS.iter().map(|text| (*text).to_owned()).collect(),
        says: String::new(),
        rungs: Vec::new(),
    };
    let (is_whole, of) = (ladder.is_whole(), ladder.of);
    report.rungs = ladder.rungs;
    report.says =
        if is_whole { says(&report) } else { format!("{} of {of} floors are worked out so far.", report.rungs.len()) };
    report
}

/// What the named figures mean, and whose names they are.
const MEANINGS: [&str; 9] = [
    "Preheat energy, idle energy rate, production capacity and cooking energy efficiency are meant as in the scopes of ASTM F1965 \
     and F3216. They are worked out for this menu, not for the foods those standards bake, and by calculation, not by test.",
    "Heat input is wood burnt at its net calorific value as received, and gas at its net one.",
    "Production capacity and efficiency are those of the busiest hour of the most covers the floor holds.",
    "More than three times the evening's covers are not tried: a floor that holds those may hold more.",
    "Where a floor holds more with its burner left off, it is shown so: a burner that keeps the floor too hot for a dish is switched off.",
    "What goes up the hood is what leaves by the doorway, its worst quarter hour; the hood draws room air besides.",
    "Wood of a week: every evening alike; each morning's floor follows from the night before behind shut doors, the first one's from \
     the closed days; only the heating up differs.",
    "Hoods, flues, burners and gas lines are sized and fitted by licensed people, and what a floor of the building bears is said by \
     whoever answers for it; these figures are for talking to them.",
    "Nine nights in ten are tried at the laziest pace of service, and at four paces above it, up to twice as much where that burns \
     clean; the first that holds counts.",
];

fn cm(metres: f64) -> f64 {
    (metres * METRE_CM * 10.0).round() / 10.0
}

/// Pieces ordered in the busiest hour.
fn asks_per_h(scenario: &Scenario) -> f64 {
    let at: Vec<f64> = orders(scenario).iter().filter(|o| !o.batch).map(|o| o.at_s).collect();
    let within = |from: f64| at.iter().filter(|&&t| (from..from + HOUR_S).contains(&t)).count();
    at.iter().map(|&from| within(from)).max().unwrap_or(0) as f64
}

/// A floor that a dish does not fit.
#[must_use]
pub fn too_small(place: Place) -> RungReport {
    RungReport {
        floor_cm: cm(place.floor_m),
        assist: place.assist,
        burner_off: false,
        too_small: true,
        carries: false,
        carries_grown: false,
        gives_first: Gives::FloorSpace,
        covers_times: 0.0,
        pieces_per_h: 0.0,
        lowest_c: None,
        light_at: String::new(),
        light_up_min: None,
        feed_kg_h: 0.0,
        wood_kg_day: 0.0,
        wood_kg_week: 0.0,
        gas_kwh_week: 0.0,
        fuel_money_week: None,
        idle_kw: 0.0,
        preheat_mj: 0.0,
        capacity_kg_h: 0.0,
        cooking_efficiency: 0.0,
        hood_kg_s: 0.0,
        hood_kw: 0.0,
        room_kw: 0.0,
        wood_stack_m3: 0.0,
        delivery_days: None,
        ash_kg_week: 0.0,
        floor_kn_m2: 0.0,
        after_closed_c: None,
        after_open_c: None,
        door_leak_g_s: 0.0,
        edits: Vec::new(),
    }
}

/// Reports one floor.
#[must_use]
pub fn rung(scenario: &Scenario, place: Place, rung: &Rung) -> RungReport {
    let planning = &scenario.planning;
    let gas_kwh_week = rung.gas_j_week / KILOWATT_HOUR_J;
    let wood_money = planning.wood_price_kg.map(|price| price * rung.week.wood_kg);
    let gas_money =
        if gas_kwh_week > 0.0 { planning.gas_price_kwh.map(|price| price * gas_kwh_week) } else { Some(0.0) };
    let covers_times = f64::from(rung.steps) / f64::from(STEPS_IN_ONE);
    let carries = rung.breach.is_none();
    let stack = rung.house.stack_m3_week;
    RungReport {
        too_small: false,
        carries,
        carries_grown: carries && covers_times >= 1.0 + planning.growth - 1e-9,
        gives_first: rung.breach.map_or(Gives::None, |b| gives(b.gives)),
        covers_times,
        pieces_per_h: rung.pieces_per_h,
        lowest_c: rung.lowest_c,
        light_at: words::clock_typed(rung.rhythm.light_at),
        light_up_min: rung.heating.reaches.then_some(rung.heating.takes_s / MINUTE_S),
        feed_kg_h: rung.rhythm.serve_kg_h,
        wood_kg_day: rung.wood_kg_day,
        wood_kg_week: rung.week.wood_kg,
        gas_kwh_week,
        fuel_money_week: wood_money.zip(gas_money).map(|(wood, gas)| wood + gas),
        idle_kw: rung.idle_w / THOUSAND,
        preheat_mj: rung.heating.energy_j / MJ_J,
        capacity_kg_h: rung.capacity_kg_h,
        cooking_efficiency: rung.cooking_efficiency,
        hood_kg_s: rung.house.hood_kg_s,
        hood_kw: rung.house.hood_w / THOUSAND,
        room_kw: rung.house.room_w / THOUSAND,
        wood_stack_m3: stack,
        delivery_days: (stack > 0.0).then(|| WEEK_DAYS * DELIVERY_M3 / stack),
        ash_kg_week: rung.house.ash_kg_week,
        floor_kn_m2: rung.house.floor_pa / THOUSAND,
        after_closed_c: rung.week.after_closed_c,
        after_open_c: Some(rung.week.after_open_c),
        door_leak_g_s: THOUSAND * rung.week.leak_kg_s,
        edits: edits(&rung.scenario),
        ..too_small(place)
    }
}

fn named(name: &RungName) -> String {
    let gas = if name.assist { " with gas assist" } else { " on wood alone" };
    format!("{}{gas}", words::with_unit(name.floor_cm, 0, "cm"))
}

fn says(report: &FloorsReport) -> String {
    let Some(smallest) = &report.smallest else {
        let last = report.rungs.iter().rev().find(|r| !r.too_small);
        let why = last.map_or_else(String::new, |r| format!("; on the largest, {} gives first", r.gives_first.name()));
        return format!("No floor on offer carries this evening, fed by the rule{why}.");
    };
    let mut says = format!("The smallest floor that carries this evening is {}.", named(smallest));
    says += &match (&report.smallest_nine_in_ten, report.holds_fraction) {
        (Some(nine), Some(share)) => format!(
            " Nine nights in ten are carried by {} ({} of {} nights held).",
            named(nine),
            words::number(share * f64::from(report.nights), 0),
            report.nights
        ),
        _ => " None is sure to carry nine nights in ten.".to_owned(),
    };
    if let Some(grown) = &report.smallest_grown {
        says += &format!(" With room to grow it is {}.", named(grown));
    }
    if let (Some(two), Some(wood_kg)) = (report.two_small_cm, report.two_small_wood_kg_week) {
        let one_kg = report.rungs.get(smallest.index).map_or(0.0, |rung| rung.wood_kg_week);
        says += &format!(
            " Two of {} with half the covers each would do as well, for {} of wood a week in the place of {}.",
            words::with_unit(two, 0, "cm"),
            words::kg(wood_kg),
            words::kg(one_kg)
        );
    }
    says
}
