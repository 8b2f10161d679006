//! Owns the rest of an evening as plain data: what to do from a reading in mid-service on, by how much it holds, and what was taken.

use super::fire_types::{FirePhase, FirePiece, SheetReading};
use super::types::Gives;
use serde::{Deserialize, Serialize};

/// Tickets of a dish to hold.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct HoldTickets {
    /// The dish.
    pub dish: String,
    /// Until then; null where its floor does not come back.
    pub until: Option<String>,
}

/// What is taken as fed until the reading.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FedSoFar {
    /// Taken for granted: as planned, or as typed in the scenario where no plan carries.
    pub assumed: Vec<String>,
    /// As typed with the reading.
    pub told: Vec<String>,
    /// Planned after the first of those and not typed: taken as not fed.
    pub left_out: Vec<String>,
    /// Planned before that, and told as not fed then.
    pub skipped: Vec<String>,
}

/// Margins of all that is still to come.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct NowMargins {
    /// Loads still to come.
    pub loads: u32,
    /// Those that start inside their bands.
    pub in_band: u32,
    /// Lowest footprint at loading over its dish's least floor, K (negative under it); null where nothing is loaded.
    pub lowest_margin_k: Option<f64>,
    /// Doorway's air left, share.
    pub air_margin: f64,
    /// Way to the doorway the flame leaves, share.
    pub reach_margin: f64,
}

/// The plan from now on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FireNow {
    /// What to do first, and whether the rest holds.
    pub says: String,
    /// The reading beside the plan, and the margins.
    pub because: String,
    /// When the floor was read.
    pub at: String,
    /// The reading, degC.
    pub floor_c: f64,
    /// What the plan expected then, degC.
    pub expected_c: f64,
    /// What is taken as fed until then.
    pub fed: FedSoFar,
    /// The match, where it is still to be struck.
    pub light_at: Option<String>,
    /// Whether the whole evening has a plan; else this goes on from the feeding as typed.
    pub planned: bool,
    /// Whether the plan stands as it was.
    pub keeps_plan: bool,
    /// Whether the rest of the evening carries.
    pub carries: bool,
    /// What gives first where it does not.
    pub gives_first: Gives,
    /// Margins of all that is still to come.
    pub margins: NowMargins,
    /// The rest of the evening's feeds, from, to, interval and pieces.
    pub phases: Vec<FirePhase>,
    /// Feeds of the next quarter hour.
    pub feed_next: Vec<FirePiece>,
    /// Times of the plan's pieces that are left out before the next one.
    pub left_out: Vec<String>,
    /// Tickets to hold.
    pub hold: Vec<HoldTickets>,
    /// Whether the floor is hotter than planned and yet no piece is left out.
    pub runs_hot: bool,
    /// Dishes the floor is too hot for on the whole, until when; null where to the end.
    pub too_hot: Vec<HoldTickets>,
    /// Side to rest.
    pub rest_side: Option<String>,
    /// When the floor is read again; null where it is of no use any more.
    pub read_again_at: Option<String>,
    /// The floor of the rest of the evening, by half hour.
    pub readings: Vec<SheetReading>,
    /// What to do in the next quarter hour, in words: the fire first.
    pub acts: Vec<String>,
    /// What is taken for granted about wood and stone.
    pub taken: Vec<String>,
}
