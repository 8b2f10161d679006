//! Owns what a night leaves behind: every placement, the floor by quarter hour, waits, and why orders waited.

use crate::hearth::fault::Fault;
use crate::hearth::ledger::Ledger;
use crate::hearth::oven::Moment;

/// One piece from order to lifting.
#[derive(Clone, Debug, PartialEq)]
pub struct Bake {
    /// Index of the dish.
    pub dish: usize,
    /// Index of its spot among the dish's spots.
    pub spot: usize,
    /// Ordered at, s.
    pub ordered_s: f64,
    /// Whether it is batch work.
    pub batch: bool,
    /// On the floor from, s.
    pub from_s: f64,
    /// Heat complete at, s.
    pub done_s: Option<f64>,
    /// Off the floor at, s.
    pub to_s: Option<f64>,
    /// Footprint mean just before loading, degC.
    pub at_load_c: f64,
    /// Footprint mean just after lifting, degC.
    pub at_lift_c: Option<f64>,
    /// Dome at loading, degC.
    pub dome_c: f64,
    /// Loaded inside its floor and dome bands.
    pub in_band: bool,
    /// Heat through the base, J.
    pub base_j: f64,
    /// Heat through the top, J.
    pub top_j: f64,
    /// Minutes after lifting until the spot was back in the dish's band; `None` if never before the end.
    pub ready_again_s: Option<f64>,
    /// Minutes after lifting until the spot was within 10 K of its temperature at service start.
    pub recovery_s: Option<f64>,
}

impl Bake {
    /// How long the bake took, s.
    #[must_use]
    pub fn bake_s(&self) -> Option<f64> {
        self.done_s.map(|done| done - self.from_s)
    }

    /// How long the order waited for the floor, s.
    #[must_use]
    pub fn wait_s(&self) -> f64 {
        self.from_s - self.ordered_s
    }
}

/// Why the oldest order of a dish could not be started.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Held {
    /// No hand was free.
    Hands,
    /// No spot was free.
    Space,
    /// Free spots were all under the band.
    ColdFloor,
    /// Free spots were all over the band.
    HotFloor,
    /// The dome was under the band.
    ColdDome,
    /// The cap of the quarter hour was reached.
    Cap,
}

/// All reasons, for tables.
pub const HELD: [Held; 6] = [Held::Hands, Held::Space, Held::ColdFloor, Held::HotFloor, Held::ColdDome, Held::Cap];

/// One quarter hour.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Quarter {
    /// Begins at, s.
    pub at_s: f64,
    /// Mean food floor at its end, degC.
    pub mean_c: f64,
    /// Lowest footprint mean at loading within it, or the coolest food cell at its end, degC.
    pub lowest_c: f64,
    /// Mean dome at its end, degC.
    pub dome_c: f64,
    /// Wood burnt, kg.
    pub wood_kg: f64,
    /// Wood fed, kg.
    pub fed_kg: f64,
    /// Pieces fed.
    pub pieces: f64,
    /// Gas burnt, J.
    pub gas_j: f64,
    /// Dish-seconds held, by reason in the order of [`HELD`].
    pub held_s: [f64; 6],
    /// Hand-seconds worked.
    pub hands_s: f64,
    /// Floor taken: sum over pieces of time over how many of their kind fit, s.
    pub floor_s: f64,
    /// Longest reach of the flame, averaged over five minutes.
    pub reach: f64,
    /// Fire over what clean burning allows: two over the excess-air ratio, averaged over five minutes.
    pub air_used: f64,
    /// Wood rate over Kawagoe's hard limit, averaged over five minutes.
    pub hard_limit_used: f64,
    /// Mean heat out of the doorway by radiation, W.
    pub glow_w: f64,
    /// Mean flow out of the doorway, kg/s.
    pub out_kg_s: f64,
    /// Mean heat out with the flow, W.
    pub flow_w: f64,
}

/// A picture of the floor at one moment.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// When, s.
    pub at_s: f64,
    /// Each cell's face, degC.
    pub face_c: Vec<f64>,
    /// The fire, W.
    pub fire_w: f64,
    /// Mean dome, degC.
    pub dome_c: f64,
}

/// A night from the morning's reading to the last piece out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Trace {
    /// Every piece loaded, by time of loading.
    pub bakes: Vec<Bake>,
    /// Orders never started, by dish.
    pub never_started: Vec<u32>,
    /// Orders of each dish.
    pub ordered: Vec<u32>,
    /// The quarters from lighting to the end.
    pub quarters: Vec<Quarter>,
    /// Pictures of the floor, where asked.
    pub pictures: Vec<Picture>,
    /// Mean food floor at the first order, degC.
    pub start_c: f64,
    /// Lowest the kitchen's reading shows during service, degC.
    pub reading_lowest_c: f64,
    /// The ledger from lighting to the end.
    pub ledger: Ledger,
    /// Wood fed before the first order, kg.
    pub light_up_kg: f64,
    /// Wood fed from the first order on, kg.
    pub service_kg: f64,
    /// Hottest underside of the stone, degC.
    pub underside_most_c: f64,
    /// Hottest face of the food's floor and of the dome, degC.
    pub face_most_c: f64,
    /// When the night ended, s.
    pub ended_s: f64,
    /// The last moment.
    pub last: Moment,
    /// Steps taken.
    pub steps: u32,
    /// The first thing the computing did not get right; with it nothing else here may be shown as an answer.
    pub fault: Option<Fault>,
}
