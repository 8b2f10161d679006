//! Owns the validated scenario: what the user said, complete, in SI, within its limits. Everything after `validate` trusts it.

/// Seconds since the midnight that begins the working day. "25:30" is 91 800 s: half past one the next morning.
pub type ClockS = f64;

/// One whole question's worth of facts: an oven, its wood, this morning, a menu, an evening and what is promised.
#[derive(Clone, Debug, PartialEq)]
pub struct Scenario {
    /// What the user calls it.
    pub name: String,
    /// The oven and its burner.
    pub oven: Oven,
    /// The firewood.
    pub wood: Wood,
    /// The state the day begins with.
    pub start: Start,
    /// The dishes; may be empty.
    pub menu: Vec<Dish>,
    /// The evening.
    pub service: Service,
    /// When and how the fire is fed.
    pub feeding: Feeding,
    /// What "carries" means here.
    pub promise: Promise,
    /// Facts only the plans use.
    pub planning: Planning,
}

/// Plan shapes of a hearth floor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FloorShape {
    /// A circle of diameter `width_m`.
    Round,
    /// A rectangle, `width_m` across the doorway's direction, `depth_m` from doorway to rear.
    Rectangle,
    /// An ellipse with axes `width_m` and `depth_m`, the doorway at the end of the depth.
    DeepOval,
}

/// Where the fire lies, seen from the doorway.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FireSide {
    /// Along the left wall.
    Left,
    /// Along the right wall.
    Right,
    /// Along the rear wall.
    Rear,
}

/// How this kitchen reads its floor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FloorReading {
    /// An infrared gun on the bare surface.
    Gun,
    /// A probe under the surface.
    Probe {
        /// Depth of its tip below the face, m.
        depth_m: f64,
    },
}

/// One layer of a build-up, from the hot face outwards.
#[derive(Clone, Debug, PartialEq)]
pub struct Layer {
    /// Key of a material in `matter::stone`.
    pub material: String,
    /// Thickness, m.
    pub thickness_m: f64,
}

/// The oven.
#[derive(Clone, Debug, PartialEq)]
pub struct Oven {
    /// Shape of the floor.
    pub shape: FloorShape,
    /// Inside width of the floor (the diameter of a round one), m.
    pub width_m: f64,
    /// Inside depth of the floor from doorway to rear, m (equal to the width of a round one).
    pub depth_m: f64,
    /// How the floor is read.
    pub reading: FloorReading,
    /// Rise of the dome above the floor, m.
    pub dome_rise_m: f64,
    /// Doorway's width, m.
    pub door_width_m: f64,
    /// Doorway's height, m.
    pub door_height_m: f64,
    /// Floor build-up from the face down.
    pub floor_layers: Vec<Layer>,
    /// Dome build-up from the inside out.
    pub dome_layers: Vec<Layer>,
    /// Where the fire lies.
    pub fire_side: FireSide,
    /// Share of the floor's area under the fire, 0..1.
    pub bed_share: f64,
    /// Emissivity of floor and dome, 0..1.
    pub emissivity: f64,
    /// Emissivity of the hot layer under the dome (soot, CO2, H2O), 0..1.
    pub smoke_emissivity: f64,
    /// What `sure` varies beside the fields and nobody is asked for: factors on the films of free convection, on the flame's
    /// radiant share and on the conductivity of floor and dome; 1 each as taken.
    pub film_factor: f64,
    /// See [`Oven::film_factor`].
    pub radiant_factor: f64,
    /// See [`Oven::film_factor`].
    pub stone_k_factor: f64,
    /// Factor on the textbook plume's entrainment (the biggest unknown).
    pub entrainment_factor: f64,
    /// Discharge coefficient of the doorway.
    pub door_cd: f64,
    /// Temperature of the kitchen, degC.
    pub room_c: f64,
    /// Air let through the closed doors overnight, kg/s.
    pub door_leak_kg_s: f64,
    /// The burner under the floor, if there is one.
    pub assist: Option<Assist>,
}

/// How a burner is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AssistControl {
    /// Full or nothing, switched by the probe's dead band.
    OnOff,
    /// Output in proportion to the error within the dead band.
    Modulating,
}

/// A gas burner under the stone.
#[derive(Clone, Debug, PartialEq)]
pub struct Assist {
    /// Rated heat input on net calorific value, W.
    pub rated_w: f64,
    /// Share of the rated input that enters the stone, 0..1.
    pub delivered_share: f64,
    /// How it is held.
    pub control: AssistControl,
    /// Probe's place across the floor: -1 left wall, 0 middle, 1 right wall.
    pub probe_across: f64,
    /// Probe's place along the depth: 0 doorway, 1 rear.
    pub probe_along: f64,
    /// Probe's depth below the face, m.
    pub probe_depth_m: f64,
    /// Set point at the probe, degC.
    pub set_c: f64,
    /// Full width of the dead band about the set point, K.
    pub dead_band_k: f64,
    /// From when the burner may burn.
    pub on_at: ClockS,
    /// Until when the burner may burn.
    pub off_at: ClockS,
}

/// The firewood as it is fed.
#[derive(Clone, Debug, PartialEq)]
pub struct Wood {
    /// Key of a species in `matter::wood`.
    pub species: String,
    /// What a pin meter shows: water over DRY mass, 0..1.
    pub meter_dry_basis: f64,
    /// Diameter of a piece taken as round, m.
    pub piece_diameter_m: f64,
    /// Length of a piece, m.
    pub piece_length_m: f64,
}

/// The morning.
#[derive(Clone, Debug, PartialEq)]
pub struct Start {
    /// When the floor was read.
    pub read_at: ClockS,
    /// This morning's floor, degC.
    pub floor_c: f64,
    /// This morning's dome, degC.
    pub dome_c: f64,
    /// Last night's floor when the doors were closed, degC, if known.
    pub last_close_c: Option<f64>,
    /// How long the doors were shut, s, if known.
    pub closed_for_s: Option<f64>,
}

/// A food and how much of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Ingredient {
    /// Key of a food in `matter::food`.
    pub food: String,
    /// Mass in one piece, kg.
    pub mass_kg: f64,
}

/// What a dish covers of the floor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Footprint {
    /// A disk.
    Round {
        /// Its diameter, m.
        diameter_m: f64,
    },
    /// A rectangle with its sides along the oven's axes.
    Rectangle {
        /// Across the doorway's direction, m.
        width_m: f64,
        /// From doorway to rear, m.
        depth_m: f64,
    },
}

/// What a dish stands in.
#[derive(Clone, Debug, PartialEq)]
pub struct Carrier {
    /// Key of a carrier material in `matter::stone` (cast iron, steel, clay ...).
    pub material: String,
    /// Its mass, kg.
    pub mass_kg: f64,
    /// Its temperature going in when it has not been in the oven lately, degC.
    pub in_c: f64,
    /// How long it stands outside between two loads, s. Shorter means it goes back in warmer.
    pub out_s: f64,
}

/// The fire during the known bake.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Flame {
    /// Coals only.
    None,
    /// A low flame.
    Low,
    /// Flame under the dome.
    High,
}

/// What was seen when the known bake was lifted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SeenAtLifting {
    /// Nothing was noted.
    Nothing,
    /// The floor under the dish, read by gun just after lifting, degC.
    FloorC(f64),
    /// The base was pale when the top was done.
    BasePale,
    /// Base and top were done together.
    Together,
    /// The base was done before the top.
    BaseAhead,
}

/// One bake the cook knows.
#[derive(Clone, Debug, PartialEq)]
pub struct KnownBake {
    /// How long it took, s.
    pub time_s: f64,
    /// The floor just before loading, degC.
    pub floor_c: f64,
    /// The dome then, degC.
    pub dome_c: f64,
    /// The fire then.
    pub flame: Flame,
    /// What was seen at lifting.
    pub seen: SeenAtLifting,
}

/// A dish.
#[derive(Clone, Debug, PartialEq)]
pub struct Dish {
    /// Its name, unique in the menu.
    pub name: String,
    /// What one piece is made of.
    pub ingredients: Vec<Ingredient>,
    /// What one piece covers.
    pub footprint: Footprint,
    /// What it stands in, if anything.
    pub carrier: Option<Carrier>,
    /// Its temperature going in, degC (below freezing for frozen goods).
    pub start_c: f64,
    /// Its mean temperature when done, degC.
    pub end_c: f64,
    /// Share of its mass that leaves as steam, 0..1.
    pub bake_loss: f64,
    /// One bake that is known.
    pub known_bake: KnownBake,
    /// Coolest floor it is loaded on, degC.
    pub floor_min_c: f64,
    /// Hottest floor it is loaded on, degC.
    pub floor_max_c: f64,
    /// Coolest dome it likes, degC.
    pub dome_min_c: f64,
    /// Hottest dome it likes, degC.
    pub dome_max_c: f64,
    /// Pieces ordered by a hundred covers.
    pub per_100_covers: f64,
    /// Most pieces started in any quarter hour, if capped.
    pub cap_per_quarter: Option<f64>,
    /// What one piece earns, in the user's money, if given.
    pub margin_each: Option<f64>,
    /// Whether it is poultry, pork or fish (a thermometer caution is shown).
    pub needs_core_check: bool,
}

/// How covers arrive within their quarter hour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Arrivals {
    /// Evenly spaced.
    Even,
    /// In parties at random times, from the seed.
    Parties,
}

/// How the cook chooses among spots that would do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SpotRule {
    /// The hottest within the band.
    Hottest,
    /// The one left alone longest.
    LongestRested,
}

/// Work outside the orders.
#[derive(Clone, Debug, PartialEq)]
pub struct Batch {
    /// Name of a dish of the menu.
    pub dish: String,
    /// When it is wanted.
    pub at: ClockS,
    /// How many pieces.
    pub pieces: u32,
}

/// The evening.
#[derive(Clone, Debug, PartialEq)]
pub struct Service {
    /// First order.
    pub start: ClockS,
    /// Last order.
    pub end: ClockS,
    /// Covers in each quarter hour from `start`; its length is the number of quarters up to `end`.
    pub covers: Vec<f64>,
    /// How they arrive.
    pub arrivals: Arrivals,
    /// Mean size of a party.
    pub party_mean: f64,
    /// Seed of all that is drawn.
    pub seed: u64,
    /// Hands at the hearth.
    pub hands: u32,
    /// To load one piece, s.
    pub load_s: f64,
    /// To turn one piece, s.
    pub turn_s: f64,
    /// To lift one piece, s.
    pub lift_s: f64,
    /// Free floor kept about a piece for the peel, m.
    pub peel_gap_m: f64,
    /// How long a dish waits for a spot in its band before it is loaded on the best one there is, s.
    pub patience_s: f64,
    /// How a spot is chosen.
    pub spot_rule: SpotRule,
    /// Wet wipes of the floor.
    pub wipes: Vec<ClockS>,
    /// Water left on the floor by one wipe, kg.
    pub wipe_water_kg: f64,
    /// Batch work before, during or after the service.
    pub batches: Vec<Batch>,
}

/// A stretch of the day with one rhythm of feeding.
#[derive(Clone, Debug, PartialEq)]
pub struct FeedPhase {
    /// First piece at.
    pub from: ClockS,
    /// No piece at or after.
    pub to: ClockS,
    /// Between two feeds, s.
    pub every_s: f64,
    /// Pieces at each feed.
    pub pieces: f64,
}

/// Coals raked over the floor for a while.
#[derive(Clone, Debug, PartialEq)]
pub struct SpreadCoals {
    /// When they are spread.
    pub at: ClockS,
    /// For how long, s.
    pub for_s: f64,
}

/// How the fire is fed.
#[derive(Clone, Debug, PartialEq)]
pub struct Feeding {
    /// The match.
    pub light_at: ClockS,
    /// Kindling at the match, kg.
    pub kindling_kg: f64,
    /// Rhythm by phase.
    pub phases: Vec<FeedPhase>,
    /// Coals spread in a lull.
    pub spread_coals: Vec<SpreadCoals>,
}

/// What "carries" promises.
#[derive(Clone, Debug, PartialEq)]
pub struct Promise {
    /// Nine orders in ten wait at most this for the start of their bake, s.
    pub wait_p90_s: f64,
    /// How much slower than its known bake a median bake of any dish in the worst hour may get, share (0.33 = a third).
    pub bake_slower_max: f64,
    /// Least share of loads started inside their floor band, 0..1.
    pub share_in_band: f64,
    /// By when the last piece is out.
    pub queue_gone_by: ClockS,
}

/// Facts only the plans use; all optional.
#[derive(Clone, Debug, PartialEq)]
pub struct Planning {
    /// Money by kg of wood.
    pub wood_price_kg: Option<f64>,
    /// Money by kWh of gas.
    pub gas_price_kwh: Option<f64>,
    /// Days open in a week.
    pub days_open_per_week: f64,
    /// Growth to leave room for, share.
    pub growth: f64,
    /// Smallest floor on offer, m.
    pub floor_smallest_m: f64,
    /// Largest floor on offer, m.
    pub floor_largest_m: f64,
    /// Step between floors on offer, m.
    pub floor_step_m: f64,
    /// Rated burner tried under each floor, W.
    pub assist_rated_w: f64,
}

/// What is wrong with one field, said so that the user can mend it.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Problem {
    /// Path of the field, `menu[0].start_c`.
    pub field: String,
    /// What was given, as typed.
    pub given: String,
    /// What is allowed, in words or as `10 to 60`.
    pub allowed: String,
    /// In which unit, empty where there is none.
    pub unit: String,
    /// The whole sentence, with a guess where there is a good one.
    pub says: String,
}

/// A value nobody gave, taken from the field table.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Assumed {
    /// Path of the field.
    pub field: String,
    /// The value taken, as it would be typed.
    pub value: String,
    /// Its unit.
    pub unit: String,
    /// Where it comes from.
    pub source: String,
}

/// A scenario with what was assumed to complete it.
#[derive(Clone, Debug, PartialEq)]
pub struct Resolved {
    /// The validated scenario.
    pub scenario: Scenario,
    /// Every default that was taken.
    pub assumed: Vec<Assumed>,
}
