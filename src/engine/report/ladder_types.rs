//! Owns the answers of reach and nights as plain data. Numbers are not rounded here.

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
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ReachReport {
    /// The evening as planned, its burner figures filled where one was looked for.
    #[serde(flatten)]
    pub carry: CarryReport,
    /// Covers as planned.
    pub planned_covers: f64,
    /// Most covers at this mix that keep every promise; 0 where none do.
    pub most_covers: f64,
    /// What gives with one step more.
    pub gives_first: Gives,
    /// Single changes that carry more, the best first.
    pub ways_out: Vec<WayOut>,
    /// The best two changes together, where they carry more than the best one.
    pub best_two: Option<WayOut>,
    /// Dishes by what they earn for a minute of the hearth, where margins are given.
    pub earns: Vec<DishEarns>,
    /// The reach in words.
    pub reach_says: String,
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
    /// Which resource, as in a verdict.
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
    /// What is random, in words.
    pub chances: Vec<String>,
    /// The nights in words.
    pub says: String,
}
