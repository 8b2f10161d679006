//! Owns the answer as plain data: what the terminal prints and the page draws. Numbers are not rounded here.

use serde::{Deserialize, Serialize};

/// Seconds since the midnight that begins the working day, written "HH:MM" (past midnight "25:30") beside it where people read.
pub type AtS = f64;

/// What gives first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Gives {
    /// The floor runs out of heat.
    FloorHeat,
    /// The dome and flame are too weak.
    TopHeat,
    /// No room on the floor.
    FloorSpace,
    /// Not enough hands.
    Hands,
    /// The fire is out, dirty or reaches too far.
    Fire,
    /// The doorway's air limits the fire.
    DoorwayAir,
    /// A dish's own cap by quarter hour holds its orders back.
    Cap,
    /// Nothing gives.
    None,
}

/// Which promise broke, when, on which dish.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Broke {
    /// Name of the promise: `wait_p90_s`, `bake_slower_max`, `share_in_band`, `queue_gone_by`, `fire_limits`.
    pub promise: String,
    /// When it first broke, "HH:MM".
    pub at: String,
    /// On which dish, empty where on all.
    pub dish: String,
    /// What was promised, in the unit of the promise.
    pub promised: f64,
    /// What came.
    pub got: f64,
}

/// How much of one resource is used at the worst moment; 1 is all of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Load {
    /// Which.
    pub what: Gives,
    /// Use over what there is (above 1 it gives).
    pub used: f64,
    /// One sentence with its two numbers.
    pub says: String,
}

/// The verdict.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Verdict {
    /// Whether all promises hold.
    pub carries: bool,
    /// The first that broke.
    pub broke: Option<Broke>,
    /// All that broke.
    pub all_broke: Vec<Broke>,
    /// What gave first.
    pub gives_first: Gives,
    /// The verdict as a sentence.
    pub says: String,
    /// Its cause, the next sentence, with two numbers.
    pub because: String,
    /// Each resource against its post.
    pub loads: Vec<Load>,
}

/// What takes the heat in one piece, kJ.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct HeatParts {
    /// Boiled off.
    pub water_boiled_kj: f64,
    /// Water warmed (and melted).
    pub water_warmed_kj: f64,
    /// Protein, carbohydrate, fibre, ash.
    pub solids_kj: f64,
    /// Fat.
    pub fat_kj: f64,
    /// The carrier.
    pub carrier_kj: f64,
}

/// One dish's part of the answer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DishReport {
    /// Its name.
    pub name: String,
    /// Heat one piece needs, carrier included, kJ.
    pub heat_kj: f64,
    /// Median drawn from the hearth floor, kJ a piece.
    pub from_hearth_kj: f64,
    /// Median from the chamber above, kJ a piece.
    pub from_chamber_kj: f64,
    /// Hearth heat for each cover at this mix, kJ.
    pub hearth_kj_per_cover: f64,
    /// Share from the base.
    pub base_share: f64,
    /// Range of that share carried where nothing was seen at lifting.
    pub base_share_range: [f64; 2],
    /// Base factor of the anchor.
    pub base_factor: f64,
    /// Top factor of the anchor.
    pub top_factor: f64,
    /// Median bake, s.
    pub bake_s_median: Option<f64>,
    /// Longest bake, s.
    pub bake_s_worst: Option<f64>,
    /// The known bake, s.
    pub bake_s_known: f64,
    /// Median minutes from lifting until the spot is back in band.
    pub ready_again_min_median: Option<f64>,
    /// Worst of them; null where a spot did not come back into the band before the end.
    pub ready_again_min_worst: Option<f64>,
    /// Median minutes until within 10 K of the spot's temperature at service start.
    pub recovery_min_median: Option<f64>,
    /// Share of loads whose spot did not come back within 10 K of what it was at service start before the end.
    pub never_share: f64,
    /// Pieces ordered and baked.
    pub ordered: u32,
    /// Pieces lifted.
    pub baked: u32,
    /// Share of its loads inside its floor band.
    pub share_in_band: f64,
    /// How many fit on the food floor at once.
    pub fit: u32,
    /// What takes the heat.
    pub parts: HeatParts,
    /// Findings in words: pale base, base ahead of top, pale top, "this time and this weight do not fit together".
    pub findings: Vec<String>,
    /// Its floor band, degC.
    pub floor_band_c: [f64; 2],
    /// Its dome band, degC.
    pub dome_band_c: [f64; 2],
}

/// The floor at one quarter hour.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FloorQuarter {
    /// "HH:MM".
    pub time: String,
    /// Seconds since midnight.
    pub at_s: AtS,
    /// Mean of the floor that may carry food at this time, degC.
    pub mean_c: f64,
    /// Lowest footprint mean at loading within the quarter; the coolest part of the food floor where nothing was loaded, degC.
    pub lowest_c: f64,
    /// Mean dome face, degC.
    pub dome_c: f64,
    /// Covers in this quarter.
    pub covers: f64,
    /// Wood burnt in this quarter, kg.
    pub wood_kg: f64,
    /// Gas burnt in this quarter, kWh.
    pub gas_kwh: f64,
}

/// The floor.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FloorReport {
    /// Mean of the food floor at the first order, degC.
    pub start_c: f64,
    /// Lowest footprint mean at loading, degC.
    pub lowest_c: f64,
    /// When that was, "HH:MM".
    pub lowest_at: String,
    /// On which dish.
    pub lowest_dish: String,
    /// Lowest footprint mean at lifting, degC.
    pub lowest_at_lift_c: f64,
    /// Lowest the kitchen's own reading would show, degC.
    pub probe_lowest_c: f64,
    /// "Your probe will show ..." in words.
    pub probe_says: String,
    /// By quarter hour from lighting to the end.
    pub by_quarter_hour: Vec<FloorQuarter>,
}

/// Wood.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WoodReport {
    /// Most burnt in any hour, kg/h.
    pub kg_per_h_peak: f64,
    /// Fed before the first order, kindling included, kg.
    pub kg_light_up: f64,
    /// Fed during service, kg.
    pub kg_service: f64,
    /// One piece, kg.
    pub kg_piece: f64,
    /// Burnt by clock hour from lighting.
    pub by_hour: Vec<WoodHour>,
    /// Least excess-air ratio of the day (lambda); clean burning wants 2 or more.
    pub lambda_least: Option<f64>,
    /// Longest flame over the way to the doorway; above 1 it reaches out.
    pub flame_reach_most: f64,
    /// Burning rate over the doorway's hard limit.
    pub doorway_air_used: f64,
}

/// Wood in one clock hour.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WoodHour {
    /// "HH:MM".
    pub time: String,
    /// Burnt, kg.
    pub burnt_kg: f64,
    /// Fed, kg.
    pub fed_kg: f64,
    /// Pieces fed.
    pub pieces: f64,
}

/// Gas assist.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct AssistReport {
    /// Whether the burner burnt (or, from a search, whether one is needed).
    pub needed: bool,
    /// Least delivered burner that carries, kW; null unless searched.
    pub kw_delivered_least: Option<f64>,
    /// Least rated burner that carries, kW; null unless searched.
    pub kw_rated_least: Option<f64>,
    /// How long before the rush it must be on, min; null unless searched.
    pub lead_min: Option<f64>,
    /// Burnt on this day, kWh of gas.
    pub kwh: f64,
    /// Hottest underside of the stone, degC.
    pub underside_most_c: Option<f64>,
}

/// Waits between order and start of bake.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WaitReport {
    /// Median, s.
    pub median_s: f64,
    /// Nine in ten wait less, s.
    pub p90_s: f64,
    /// Longest, s.
    pub worst_s: f64,
    /// When the last piece was out, "HH:MM".
    pub last_out: String,
}

/// Where the heat went, MJ, from lighting to the end. fire + assist = the rest.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct LedgerMj {
    /// Chemical heat of what was burnt.
    pub fire: f64,
    /// Gas heat input.
    pub assist: f64,
    /// Into food and carriers.
    pub food: f64,
    /// Out of the doorway with the smoke, unburnt and burner flue included.
    pub doorway_flow: f64,
    /// Radiated out of the doorway.
    pub doorway_radiation: f64,
    /// Through the shell.
    pub shell: f64,
    /// Still in stone, dome and gas (may be negative).
    pub stored: f64,
    /// What does not close.
    pub residual: f64,
}

/// One minute of the floor for the map.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Frame {
    /// Seconds since midnight.
    pub at_s: AtS,
    /// Face of each cell, degC.
    pub face_c: Vec<f64>,
    /// Heat rate of the fire, kW.
    pub fire_kw: f64,
    /// Mean dome face, degC.
    pub dome_c: f64,
}

/// One piece on the floor.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Placement {
    /// Index into the menu.
    pub dish: usize,
    /// Centre across, m from the floor's middle, right positive.
    pub x_m: f64,
    /// Centre along, m from the floor's middle, rear positive.
    pub y_m: f64,
    /// Ordered at, s.
    pub ordered_s: AtS,
    /// On the floor from, s.
    pub from_s: AtS,
    /// Until, s; null if still in at the end.
    pub to_s: Option<AtS>,
    /// Footprint mean at loading, degC.
    pub at_load_c: f64,
    /// Footprint mean at lifting, degC.
    pub at_lift_c: Option<f64>,
    /// Loaded inside its band.
    pub in_band: bool,
}

/// One cell of the plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CellShape {
    /// Centre across, m.
    pub x_m: f64,
    /// Centre along, m.
    pub y_m: f64,
    /// Area inside the floor, m2.
    pub area_m2: f64,
    /// Whether it lies under the fire.
    pub under_fire: bool,
}

/// The floor plan through the service.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct FloorMap {
    /// Side of a whole cell, m.
    pub cell_m: f64,
    /// The cells.
    pub cells: Vec<CellShape>,
    /// Frames by time.
    pub frames: Vec<Frame>,
    /// What lay where.
    pub placements: Vec<Placement>,
}

/// A caution about people, beside the act it belongs to.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Caution {
    /// Where it stands: `light`, `feed`, `dish`, `carrier`, `assist`, `doorway`, `close`, `ash`, `first_firing`.
    pub act: String,
    /// The danger and what to do.
    pub says: String,
}

/// The whole answer to "does this oven carry this menu".
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CarryReport {
    /// Scenario's name.
    pub name: String,
    /// The verdict.
    pub verdict: Verdict,
    /// Dish by dish, in menu order.
    pub dishes: Vec<DishReport>,
    /// The floor.
    pub floor: FloorReport,
    /// Wood.
    pub wood: WoodReport,
    /// Gas.
    pub assist: AssistReport,
    /// Waits.
    pub waits: WaitReport,
    /// The ledger.
    pub ledger_mj: LedgerMj,
    /// Heat on the cook at the doorway, kW/m2, at the worst quarter.
    pub doorway_kw_m2: f64,
    /// About the plan.
    pub warnings: Vec<String>,
    /// About people.
    pub cautions: Vec<Caution>,
    /// Values nobody gave.
    pub assumed: Vec<crate::scenario::Assumed>,
    /// The floor through the service; absent where not asked.
    pub map: Option<FloorMap>,
    /// What the computing did not get right, in words: with it nothing else here is an answer, and no front end shows it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fault: Option<String>,
}
