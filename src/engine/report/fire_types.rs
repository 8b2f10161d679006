//! Owns the cook's plan as plain data: what the terminal prints and the page draws. Numbers are not rounded here; clock times
//! are as typed, "HH:MM", and run on past midnight.

use super::types::{Caution, Gives};
use serde::{Deserialize, Serialize};

/// Why there is no plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct NoPlan {
    /// The limit that forbids it.
    pub limit: Gives,
    /// The sentence.
    pub says: String,
    /// The smallest single change after which some feeding carries; null where none was found.
    pub nearest: Option<String>,
    /// What was tried, the smallest change first.
    pub tried: Vec<InsteadOfGas>,
}

/// A stretch of the day with one rhythm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FirePhase {
    /// `light_up`, `to_rush`, `rush` or `tail`.
    pub name: String,
    /// First feed.
    pub from: String,
    /// No feed at or after.
    pub to: String,
    /// Between feeds, min.
    pub every_min: f64,
    /// Pieces at each feed.
    pub pieces: f64,
    /// How many feeds.
    pub feeds: u32,
    /// Lowest footprint at loading over its dish's least floor, K (negative under it); null where nothing is loaded.
    pub lowest_margin_k: Option<f64>,
    /// Share of the loads inside their bands; null where nothing is loaded.
    pub share_in_band: Option<f64>,
    /// Doorway's air left, share.
    pub air_margin: f64,
    /// Way to the doorway the flame leaves, share.
    pub reach_margin: f64,
}

/// One feed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FirePiece {
    /// When.
    pub at: String,
    /// Wood, kg.
    pub kg: f64,
}

/// Wood, kg.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FireWood {
    /// Before the service begins, kindling included.
    pub light_up: f64,
    /// From then on.
    pub service: f64,
    /// Of the whole day.
    pub day: f64,
}

/// What the fire leaves of its limits.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FireLimits {
    /// Doorway's air left at the worst, share.
    pub doorway_air_margin: f64,
    /// Way to the doorway the flame leaves at the worst, share.
    pub flame_reach_margin: f64,
}

/// Wood at another reading of the meter.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FireMoisture {
    /// What the pin meter shows, %.
    pub meter_percent: f64,
    /// Wood of the day, kg; null where no feeding carries.
    pub wood_kg_day: Option<f64>,
    /// The match is struck at; null where no feeding carries.
    pub light_at: Option<String>,
    /// In the rush a piece every so many minutes, or several; null where no feeding carries.
    pub rush_every_min: Option<f64>,
}

/// Coals spread in a lull.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FireSpread {
    /// When.
    pub at: String,
    /// For how long, min.
    pub for_min: f64,
    /// The match can then be struck at.
    pub light_at: String,
    /// In the rush it is then fed every so many minutes.
    pub rush_every_min: f64,
    /// Whether that is before the first order, or in a lull of the service.
    pub before_service: bool,
    /// Wood saved, kg.
    pub saves_kg: f64,
}

/// The evening after the last piece.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FireEvening {
    /// The last feed that still helps.
    pub stop_feeding_at: String,
    /// When the flames are out and the doors are shut.
    pub close_at: String,
    /// The floor then, degC.
    pub close_floor_c: f64,
    /// Coals in the bed then, kg.
    pub coals_kg: f64,
    /// What the shut doors let through, g/s.
    pub leak_g_s: f64,
    /// Whether the leak was solved from last night's closing and this morning's reading.
    pub leak_solved: bool,
    /// When the floor is read.
    pub morning_at: String,
    /// The floor then, coals left in, degC.
    pub morning_floor_c: f64,
    /// The same, coals raked out before closing, degC.
    pub morning_raked_floor_c: f64,
    /// All of it in words.
    pub says: String,
}

/// What one quarter hour bears: played with all quarter hours of its stretch of the evening so filled and the rest as planned.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SheetQuarter {
    /// Its start.
    pub at: String,
    /// Most pieces of each dish, in the order of `caps`.
    pub pieces: Vec<u32>,
}

/// The most of a dish in one quarter hour: played, and held.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SheetCap {
    /// The dish.
    pub dish: String,
    /// Pieces in the quarter hour that bears most of it.
    pub per_quarter: u32,
    /// Which quarter hour.
    pub at: String,
}

/// A side of the floor to leave alone for a while.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SheetRest {
    /// When.
    pub at: String,
    /// `left`, `right`, `front` or `rear`, seen from the doorway.
    pub side: String,
    /// How much cooler than the side across, K.
    pub cooler_k: f64,
}

/// A reading to fill in.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SheetReading {
    /// When.
    pub at: String,
    /// Mean of the food floor the plan expects, degC.
    pub floor_c: f64,
    /// Dome the plan expects, degC.
    pub dome_c: f64,
}

/// One act of the evening.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SheetAct {
    /// When.
    pub at: String,
    /// What.
    pub says: String,
}

/// The shift sheet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ShiftSheet {
    /// Steps of lighting.
    pub lighting: Vec<String>,
    /// Caps by dish.
    pub caps: Vec<SheetCap>,
    /// Caps by quarter hour, first to last.
    pub quarters: Vec<SheetQuarter>,
    /// Every act of the evening in its order: match, stretches, coals, burner, sides to rest, last piece.
    pub acts: Vec<SheetAct>,
    /// Sides to rest.
    pub rests: Vec<SheetRest>,
    /// Readings to fill in.
    pub readings: Vec<SheetReading>,
    /// Where and how they are read.
    pub read_where: String,
    /// When to spread coals, if it helps.
    pub spread_coals_at: Option<String>,
    /// Latest first piece for the rush.
    pub rush_feed_by: Option<String>,
    /// What to do when a reading is off.
    pub if_off: Vec<String>,
}

/// Something to do instead of burning gas, or to make an evening carry.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct InsteadOfGas {
    /// What.
    pub what: String,
    /// Whether the evening carries that way.
    pub would_do: bool,
}

/// The burner's part of the plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FireAssist {
    /// Whether the evening needs gas.
    pub needed: bool,
    /// Latest moment to switch it on.
    pub on_at: Option<String>,
    /// How long before the rush, min.
    pub lead_min: Option<f64>,
    /// Hours of full output.
    pub hours: f64,
    /// Gas, kWh.
    pub kwh: f64,
    /// Least burner that carries: what it delivers into the stone, kW.
    pub kw_delivered_least: Option<f64>,
    /// Least burner that carries: what its plate says, kW.
    pub kw_rated_least: Option<f64>,
    /// Its set point, degC; null where no gas is needed.
    pub set_c: Option<f64>,
    /// How long the stone lets nothing of it through, min; null where no gas is needed.
    pub dead_time_min: Option<f64>,
    /// The least burner with the feeding that suits it; where this one is too small, the least that would carry.
    pub least: Option<super::ladder_types::BurnerReport>,
    /// Wood the burner, on as the scenario has it, would spare where it is not needed, kg.
    pub would_spare_wood_kg: Option<f64>,
    /// Gas it would burn for that, kWh.
    pub would_burn_kwh: Option<f64>,
    /// Hottest underside of the stone with the burner on, degC: in the plan, or, where no gas is needed, if it were on all the same.
    pub underside_most_c: f64,
    /// The stone's limit, degC.
    pub underside_limit_c: f64,
    /// Whether the probe lies under the coal bed and reads false.
    pub probe_in_bed: bool,
    /// Whether the feeding as given leans on gas alone and is refused.
    pub refused: bool,
    /// What was tried instead.
    pub instead: Vec<InsteadOfGas>,
    /// All of it in words.
    pub says: String,
}

/// One day of the first firing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FirstFiringDay {
    /// Counted from one.
    pub day: u32,
    /// Hottest the dome's face may read, degC.
    pub hold_c: f64,
    /// For how long, h.
    pub hours: f64,
    /// Share of a piece at each feed.
    pub split: f64,
    /// Between feeds, min.
    pub every_min: f64,
    /// Kindling it is lit with, kg.
    pub kindling_kg: f64,
    /// Wood, kindling included, kg.
    pub wood_kg: f64,
    /// Hottest dome mean the run shows on a dry lining, degC.
    pub dome_most_c: f64,
}

/// The first firing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FirstFiring {
    /// Day by day.
    pub days: Vec<FirstFiringDay>,
    /// Hours of fire in all.
    pub hours: f64,
    /// Whether something faster was asked for.
    pub refused: bool,
    /// In words, with the reason where refused.
    pub says: String,
}

/// The plan on rough nights.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FireRough {
    /// Nights tried.
    pub nights: u32,
    /// Share of them the plan holds.
    pub holds_fraction: f64,
    /// Half the width of its 95 % interval (Wilson).
    pub holds_error: f64,
    /// A feeding with more wood that holds more of them: its match; null where none was found.
    pub light_at: Option<String>,
    /// Its stretches.
    pub phases: Vec<FirePhase>,
    /// Its wood of the day, kg.
    pub wood_kg_day: Option<f64>,
    /// Share of the nights it holds.
    pub more_holds_fraction: Option<f64>,
    /// In words.
    pub says: String,
}

/// The cook's plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FireReport {
    /// Scenario's name.
    pub name: String,
    /// The plan as a sentence.
    pub says: String,
    /// What it rests on, with two numbers.
    pub because: String,
    /// Why there is no plan; null where there is one.
    pub no_plan: Option<NoPlan>,
    /// The match.
    pub light_at: Option<String>,
    /// Stretches.
    pub phases: Vec<FirePhase>,
    /// Log by log.
    pub pieces: Vec<FirePiece>,
    /// Wood.
    pub wood_kg: Option<FireWood>,
    /// Kindling, kg.
    pub kindling_kg: f64,
    /// One piece, kg.
    pub piece_kg: f64,
    /// Pieces to bring in: the day's and no more.
    pub pieces_to_bring_in: u32,
    /// Limits of the fire.
    pub limits: Option<FireLimits>,
    /// Heat on the cook at the doorway, worst quarter hour of the plan, kW/m2.
    pub doorway_kw_m2: Option<f64>,
    /// The floor for the first order of service, degC.
    pub start_floor_c: Option<f64>,
    /// Lowest footprint at loading, degC.
    pub lowest_floor_c: Option<f64>,
    /// The last feed that still helps.
    pub last_feed_at: Option<String>,
    /// Latest first piece for the rush.
    pub rush_feed_by: Option<String>,
    /// Wood by moisture.
    pub moisture: Vec<FireMoisture>,
    /// Coals spread, where it saves wood.
    pub spread_coals: Option<FireSpread>,
    /// The evening.
    pub evening: Option<FireEvening>,
    /// The floor tomorrow morning, coals left in, degC.
    pub morning_floor_c: Option<f64>,
    /// The shift sheet.
    pub sheet: Option<ShiftSheet>,
    /// The burner.
    pub assist: Option<FireAssist>,
    /// From now on, where asked.
    pub now: Option<super::now_types::FireNow>,
    /// Rough nights, where asked.
    pub rough: Option<FireRough>,
    /// The first firing, where asked.
    pub first_firing: Option<FirstFiring>,
    /// About people.
    pub cautions: Vec<Caution>,
    /// What the computing did not get right: time, place and what was left; then nothing else here may be shown.
    pub fault: Option<String>,
    /// What the plan takes for granted.
    pub assumptions: Vec<String>,
    /// Values nobody gave.
    pub assumed: Vec<crate::scenario::Assumed>,
}
