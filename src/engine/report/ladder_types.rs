//! Owns the answers of reach, nights and floors as plain data. Numbers are not rounded here.

use super::types::{CarryReport, Gives};
use serde::{Deserialize, Serialize};

/// One value to put into the draft.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Edit {
    /// Path of the field, as in the field list: `menu[2].per_100_covers`.
    pub path: String,
    /// Its new value, as it would be typed.
    pub value: serde_json::Value,
}

/// A change that carries more covers.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WayOut {
    /// The change in words.
    pub change: String,
    /// Covers it gains over the most at this mix.
    pub covers_gained: f64,
    /// Most covers after it.
    pub most_covers: f64,
    /// Whether the evening as planned is carried after it.
    pub suffices: bool,
    /// Money an evening as planned loses by it (less than nought: saves); null where margins or prices do not say.
    pub loses_money: Option<f64>,
    /// What it asks of whom, in words.
    pub asks: String,
    /// The same change for the draft: put these in and ask again.
    pub edits: Vec<Edit>,
}

/// What one dish earns for what it takes of the hearth.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DishEarns {
    /// Its name.
    pub dish: String,
    /// Money for a minute of the whole hearth floor, baked at its known time.
    pub per_hearth_min: f64,
    /// Money for a MJ of heat into the piece, carrier included.
    pub per_mj: f64,
}

/// The reach of a kitchen, with the answer it starts from.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ReachReport {
    /// The evening as planned, its burner figures filled where one was looked for.
    #[serde(flatten)]
    pub carry: CarryReport,
    /// What was found beyond it.
    #[serde(flatten)]
    pub reached: Reached,
}

/// How far a kitchen reaches and what would carry more. Whoever has read the evening already reads this alone.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reached {
    /// Covers as planned.
    pub planned_covers: f64,
    /// Most covers at this mix that keep every promise; 0 where none do.
    pub most_covers: f64,
    /// What gives with one step more.
    pub gives_first: Gives,
    /// Single changes that carry more: those that are enough for the evening as planned first, then the smallest change (what
    /// the cook can do tonight, then what guests notice, then what costs a dish), of equal ones what loses least money where margins
    /// say, then what gains most.
    pub ways_out: Vec<WayOut>,
    /// Single changes that were tried and carry no more.
    pub no_gain: Vec<String>,
    /// The best two changes together, where they carry more than the best one.
    pub best_two: Option<WayOut>,
    /// Dishes by what they earn for a minute of the hearth, where margins are given.
    pub earns: Vec<DishEarns>,
    /// The least burner, where one was looked for and one carries.
    pub burner: Option<BurnerReport>,
    /// The burner in words; empty where none was looked for.
    pub burner_says: String,
    /// The reach in words.
    pub reach_says: String,
}

/// The least burner that carries an evening, with the feeding that suits it, verified at full accuracy.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct BurnerReport {
    /// What its plate says, kW.
    pub kw_rated: f64,
    /// What it delivers into the stone, kW.
    pub kw_delivered: f64,
    /// Its set point, degC.
    pub set_c: f64,
    /// How long before the first order it must be on, min.
    pub lead_min: f64,
    /// How long the stone lets nothing of it through, min.
    pub dead_time_min: f64,
    /// Hours of full output.
    pub hours: f64,
    /// Gas of the evening, kWh.
    pub kwh: f64,
    /// Hottest underside of the stone, degC.
    pub underside_most_c: f64,
    /// The stone's limit, degC.
    pub underside_limit_c: f64,
}

/// How wood spreads over the nights, kg.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Spread {
    /// One night in ten stays under.
    pub p10: f64,
    /// The middle night.
    pub p50: f64,
    /// One night in ten goes over.
    pub p90: f64,
}

/// Nights that break in one quarter hour.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BreaksAt {
    /// Its start, "HH:MM".
    pub quarter_hour: String,
    /// The same, seconds since midnight.
    pub at_s: f64,
    /// Share of all nights.
    pub fraction: f64,
    /// How many.
    pub nights: u32,
}

/// What gave first.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct GaveFirst {
    /// Which resource, as in a verdict (or which dish, which promise).
    pub what: String,
    /// Share of all nights.
    pub fraction: f64,
}

/// Many nights.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct NightsReport {
    /// Scenario's name.
    pub name: String,
    /// Nights run.
    pub nights: u32,
    /// Nights asked for.
    pub asked: u32,
    /// The seed.
    pub seed: u64,
    /// Share of nights that kept every promise.
    pub holds_fraction: f64,
    /// Half the width of its 95 % interval (Wilson).
    pub holds_error: f64,
    /// The interval.
    pub holds_between: [f64; 2],
    /// In nine nights of ten, nine orders in ten wait at most this, s.
    pub wait_p90_s: f64,
    /// Wood.
    pub wood_kg: Spread,
    /// Coolest spot at loading that one night in ten goes under, degC.
    pub lowest_p10_c: Option<f64>,
    /// The quarter hours in which nights first break, by time.
    pub breaks_at: Vec<BreaksAt>,
    /// What gave first, most often first.
    pub gave_first: Vec<GaveFirst>,
    /// The dishes it gave on, most often first; `what` is a dish's name.
    pub gave_on: Vec<GaveFirst>,
    /// The promises that broke first, most often first; `what` is the promise's name.
    pub broke_first: Vec<GaveFirst>,
    /// What is random, in words.
    pub chances: Vec<String>,
    /// The nights in words.
    pub says: String,
}

/// One floor of the ladder.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RungReport {
    /// Width of the floor, cm.
    pub floor_cm: f64,
    /// With a burner.
    pub assist: bool,
    /// Whether a dish is too large for it; then nothing else is worked out.
    pub too_small: bool,
    /// Shown with its burner left off, as it is on wood alone: so it holds more.
    pub burner_off: bool,
    /// Whether it carries the evening as planned.
    pub carries: bool,
    /// Whether it carries it with the growth asked for.
    pub carries_grown: bool,
    /// What gives where it does not.
    pub gives_first: Gives,
    /// Most covers it holds, in times the evening as planned.
    pub covers_times: f64,
    /// Pieces lifted in the busiest hour of the most it holds.
    pub pieces_per_h: f64,
    /// Coolest spot at loading of the evening as planned, degC.
    pub lowest_c: Option<f64>,
    /// When to light, "HH:MM".
    pub light_at: String,
    /// From the match to a floor that is ready, min; null where it does not get ready.
    pub light_up_min: Option<f64>,
    /// Wood in service, kg/h.
    pub feed_kg_h: f64,
    /// Wood of an open day, kg.
    pub wood_kg_day: f64,
    /// Wood of a week, kg.
    pub wood_kg_week: f64,
    /// Gas of a week, kWh.
    pub gas_kwh_week: f64,
    /// Wood and gas of a week in money, where the prices it needs are given.
    pub fuel_money_week: Option<f64>,
    /// Heat input that holds the floor ready without food, kW (idle energy rate).
    pub idle_kw: f64,
    /// Heat input from the match until ready, MJ (preheat energy).
    pub preheat_mj: f64,
    /// Most food lifted in an hour, kg/h (production capacity).
    pub capacity_kg_h: f64,
    /// Heat into that food over heat input meanwhile (cooking energy efficiency), 0..1.
    pub cooking_efficiency: f64,
    /// Most flow up the hood, kg/s: what comes out of the doorway.
    pub hood_kg_s: f64,
    /// Heat it carries, kW.
    pub hood_kw: f64,
    /// Heat to the kitchen by the doorway's glow and the shell, kW.
    pub room_kw: f64,
    /// Stacked wood of a week, m3.
    pub wood_stack_m3: f64,
    /// Days a delivery lasts; its size stands in the ladder's `delivery_m3`.
    pub delivery_days: Option<f64>,
    /// Ash of a week, kg.
    pub ash_kg_week: f64,
    /// Weight on what it stands on, kN/m2.
    pub floor_kn_m2: f64,
    /// The floor in the morning after the closed days, degC; null where none are closed.
    pub after_closed_c: Option<f64>,
    /// The floor in the morning after an open night, degC; null where the floor is too small.
    pub after_open_c: Option<f64>,
    /// What the shut doors let through, g/s: solved from last night's closing and this morning's reading where both are typed.
    pub door_leak_g_s: f64,
    /// This floor as a scenario: put these into the draft (null takes a value away) and ask again.
    pub edits: Vec<Edit>,
}

/// A rung named.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RungName {
    /// Its place in `rungs`.
    pub index: usize,
    /// Width of the floor, cm.
    pub floor_cm: f64,
    /// With a burner.
    pub assist: bool,
}

/// The ladder of floors.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FloorsReport {
    /// Scenario's name.
    pub name: String,
    /// The floors, smallest first, without a burner before with one; while it is still worked out, those there are so far.
    pub rungs: Vec<RungReport>,
    /// How many there will be.
    pub of: u32,
    /// Pieces ordered in the busiest hour of the evening as planned.
    pub asks_per_h: f64,
    /// The smallest that carries.
    pub smallest: Option<RungName>,
    /// The smallest that carries with the growth asked for.
    pub smallest_grown: Option<RungName>,
    /// The smallest that carries nine nights in ten, even at the lower end of the fraction's 95 % interval.
    pub smallest_nine_in_ten: Option<RungName>,
    /// Nights it was tried on.
    pub nights: u32,
    /// Share of them that held.
    pub holds_fraction: Option<f64>,
    /// Half the width of that share's interval.
    pub holds_error: Option<f64>,
    /// The smallest floor of two that share covers and hands, smaller than `smallest`, cm.
    pub two_small_cm: Option<f64>,
    /// Wood of a week for both of them, kg.
    pub two_small_wood_kg_week: Option<f64>,
    /// Heat both carry up the hood at their worst, kW.
    pub two_small_hood_kw: Option<f64>,
    /// What a delivery of wood brings, stacked m3.
    pub delivery_m3: f64,
    /// How each floor is fed.
    pub feeding_rule: String,
    /// How doorway, dome and burner go with the floor.
    pub scaling: String,
    /// What the named figures mean.
    pub meanings: Vec<String>,
    /// The ladder in words.
    pub says: String,
}
