//! Owns the oven as it runs: its state, and one step of everything together.
//!
//! Surface fluxes (radiation, films, contact) are taken at the state a step starts from, conduction runs implicitly through
//! the step, and the hot layer, which holds next to no heat, settles at once. Every flux is written to both its sides, so the
//! ledger closes to rounding whatever the step.

mod air;
mod fluxes;
mod light;
mod traces;

use self::traces::Traces;
use super::build::Build;
use super::burner::{Burner, Output};
use super::chamber::free_film_w_m2_k;
use super::enclosure::{Enclosure, Faces};
use super::fault::Fault;
use super::fire::{COAL_RADIANT_SHARE, Fire, HEAT_PER_AIR_J_KG, Heat, doorway_limit_kg_s, flame_length_m};
use super::flow::{Flow, Plume, settle};
use super::ledger::Ledger;
use crate::demand::BakeLaw;
use crate::numerics::field::{BLOCK, Field};
use crate::scenario::Scenario;
use crate::units::{STEFAN_BOLTZMANN_W_M2_K4, ZERO_C_K};

/// The doorway's flow is worked out anew at least this often, s.
const FLOW_EVERY_S: f64 = 20.0;
/// ... and when the plume's heat has changed by this share ...
const FLOW_HEAT_SHARE: f64 = 0.03;
/// ... or the layer by this much, K. Our choice, all three: between them the flow moves by less than its own uncertainty.
const FLOW_LAYER_K: f64 = 4.0;
/// Heat spreads sideways through the stone this often, s: slow enough to be taken explicitly, often enough for the few minutes
/// of a bake. Our choice.
const SIDEWAYS_EVERY_S: f64 = 30.0;
/// Air that finds its way to a match in a cold oven with its doors open, kg/s: enough for 3 kW. No source; once the fire draws by
/// itself it counts no more.
const MATCH_AIR_KG_S: f64 = 1e-3;
/// Conductance from hot stone to a film of water on it, W/(m2 K). From memory (film and transition boiling, 150-500).
const WIPE_W_M2_K: f64 = 250.0;

/// A trace on the floor is forgotten below this, K: less than a gun tells. Our choice.
const FADED_K: f64 = 0.3;

/// A piece of food on the floor.
#[derive(Clone, Debug, PartialEq)]
pub struct Lying {
    /// Index of its dish.
    pub dish: usize,
    /// Index of its place.
    pub place: usize,
    /// Cells it covers, with the area on each, m2.
    pub cover: Vec<(usize, f64)>,
    /// Its footprint, m2.
    pub area_m2: f64,
    /// Heat taken through its base, J.
    pub base_j: f64,
    /// Heat taken through its top, J.
    pub top_j: f64,
    /// What went through its base in the last step, W/m2; none before its first.
    pub gave_w_m2: Option<f64>,
}

impl Lying {
    /// Footprint mean of a field over the cells.
    #[must_use]
    pub fn mean(&self, field: &[f64]) -> f64 {
        self.cover.iter().map(|&(i, a)| a * field[i]).sum::<f64>() / self.area_m2
    }
}

/// The inflow over one cell, as it was when the step began.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Breeze {
    /// Air that comes in over it, K above the room.
    over_k: f64,
    /// Film against that air, W/(m2 K).
    film_w_m2_k: f64,
}

/// What a step did, for those who watch.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Moment {
    /// The fire.
    pub heat: Heat,
    /// The burner.
    pub burner: Output,
    /// The doorway.
    pub flow: Flow,
    /// Length of the flame, m.
    pub flame_m: f64,
    /// How far the flame goes of the way to the doorway.
    pub flame_reach: f64,
    /// Radiated out of the doorway, W.
    pub glow_w: f64,
    /// The layer, K.
    pub gas_k: f64,
}

/// An oven in the course of a day.
#[derive(Clone, Debug, PartialEq)]
pub struct Hearth<'b> {
    /// What does not change.
    pub build: &'b Build,
    /// Seconds since midnight.
    pub time_s: f64,
    /// The floor's columns, K above the room.
    pub floor: Field<'b>,
    /// The dome's columns, K above the room.
    pub dome: Field<'b>,
    /// What pieces leave in the floor's warmth within tiles.
    traces: Traces<'b>,
    /// The fire.
    pub fire: Fire,
    /// What has flowed since the ledger was opened; what the stone holds is added when it is read.
    ledger: Ledger,
    /// The last step.
    pub moment: Moment,
    /// Hottest underside of the stone so far, degC.
    pub underside_most_c: f64,
    /// The first thing that did not settle.
    pub fault: Option<Fault>,
    burner: Option<Burner>,
    enclosure: Enclosure,
    /// Share of each cell that is covered, and the area of it that is bare, m2.
    covered: Vec<f64>,
    bare_m2: Vec<f64>,
    /// Water on each cell, kg/m2.
    wet_kg_m2: Vec<f64>,
    floor_film_w_m2_k: f64,
    dome_film_w_m2_k: f64,
    flow_for: (f64, f64, f64),
    sideways_due_s: f64,
    closed_leak_kg_s: Option<f64>,
    emissivity: f64,
    faces: Faces,
    door_light_w_m2: f64,
    floor_flux: Vec<f64>,
    /// The bare part of each cell and what lies under each piece, as the step began, K above the room.
    bare_k: Vec<f64>,
    under_k: Vec<f64>,
    dome_flux: Vec<f64>,
}

fn black(over_room_k: f64, room_k: f64) -> f64 {
    let t = over_room_k + room_k;
    let square = t * t;
    STEFAN_BOLTZMANN_W_M2_K4 * square * square
}

/// A profile that is even through the first layer and falls to the room through the rest.
fn resting_profile(grid: &crate::numerics::column::Grid, over_k: f64) -> Vec<f64> {
    let (joint, last) = (grid.depth_m[grid.joints[0]], grid.depth_m[grid.nodes() - 1]);
    let rest = (last - joint).max(f64::MIN_POSITIVE);
    // At the back a tenth is left: about what a film over half a metre of insulation holds.
    grid.depth_m.iter().map(|&x| over_k * if x <= joint { 1.0 } else { 1.0 - 0.9 * (x - joint) / rest }).collect()
}

impl<'b> Hearth<'b> {
    /// The oven this morning, cold of fire, doors open.
    #[must_use]
    pub fn new(build: &'b Build, scenario: &Scenario) -> Self {
        let room_c = scenario.oven.room_c;
        let cells = build.plan.cells.len();
        let floor_profile = resting_profile(&build.floor_grid, scenario.start.floor_c - room_c);
        let dome_profile = resting_profile(&build.dome_grid, scenario.start.dome_c - room_c);
        let floor = Field::new(build.floor_modes(scenario.oven.assist.is_some()), cells, &floor_profile, [0.0; BLOCK]);
        let dome = Field::new(&build.dome_modes, build.patch_area_m2.len(), &dome_profile, [0.0; BLOCK]);
        let emissivity = scenario.oven.emissivity;
        let mut hearth = Self {
            time_s: scenario.start.read_at,
            fire: Fire::new(build.fuel, build.bed_area_m2),
            ledger: Ledger::default(),
            moment: Moment {
                gas_k: build.doorway.room_k + 0.8 * (scenario.start.dome_c - room_c),
                ..Moment::default()
            },
            underside_most_c: scenario.start.floor_c,
            fault: None,
            burner: scenario.oven.assist.as_ref().map(Burner::new),
            enclosure: Enclosure::new(build.net.clone(), &vec![emissivity; cells]),
            covered: vec![0.0; cells],
            bare_m2: build.cell_area_m2.clone(),
            wet_kg_m2: vec![0.0; cells],
            floor_film_w_m2_k: 6.0,
            dome_film_w_m2_k: 6.0,
            flow_for: (f64::NEG_INFINITY, 0.0, 0.0),
            sideways_due_s: scenario.start.read_at + SIDEWAYS_EVERY_S,
            closed_leak_kg_s: None,
            emissivity,
            faces: Faces {
                cell_emission_w_m2: vec![0.0; cells],
                patch_black_w_m2: vec![0.0; build.patch_area_m2.len()],
                door_black_w_m2: black(0.0, build.doorway.room_k),
                cell_source_w_m2: vec![0.0; cells],
                patch_source_w_m2: vec![0.0; build.patch_area_m2.len()],
                door_source_w: 0.0,
            },
            door_light_w_m2: black(0.8 * (scenario.start.dome_c - room_c), build.doorway.room_k),
            traces: Traces::new(build),
            floor_flux: vec![0.0; floor.width()],
            bare_k: Vec::new(),
            under_k: Vec::new(),
            dome_flux: vec![0.0; dome.width()],
            build,
            floor,
            dome,
        };
        hearth.breathe();
        hearth.open_ledger();
        #[cfg(test)]
        hearth.lose_heat(super::fault::by_hand::lost_j());
        hearth
    }

    /// The flow a warm oven draws before any fire: its floor's own heat drives it.
    fn breathe(&mut self) {
        let room_k = self.build.doorway.room_k;
        let over_k = (self.food_floor_c() - self.room_c()).max(0.0);
        let film = self.build.film_factor * free_film_w_m2_k(over_k + room_k, room_k);
        let plume = Plume {
            convective_w: film * self.build.plan.area_m2 * over_k,
            flame_w: 0.0,
            bed_diameter_m: self.build.bed_diameter_m,
            factor: self.build.entrainment_factor,
        };
        self.moment.flow = settle(&self.build.doorway, self.moment.gas_k, &plume, 0.0);
    }

    /// The ledger up to now.
    #[must_use]
    pub fn ledger(&self) -> Ledger {
        Ledger { holds_j: self.holds_j(), shell_j: self.shell_j(), ..self.ledger }
    }

    /// Begins the ledger anew.
    pub fn open_ledger(&mut self) {
        let holds = self.holds_j();
        self.floor.open_account(&self.build.cell_area_m2);
        self.dome.open_account(&self.build.patch_area_m2);
        self.ledger = Ledger { opened_with_j: holds, holds_j: holds, ..Ledger::default() };
    }

    /// Burns wood that warms nothing: for tests of what is done about a ledger that does not close.
    #[cfg(test)]
    pub(crate) fn lose_heat(&mut self, lost_j: f64) {
        self.ledger.fire_j += lost_j;
    }

    /// Shuts the doors on a leak, kg/s, or opens them (`None`).
    pub fn close_doors(&mut self, leak_kg_s: Option<f64>) {
        self.closed_leak_kg_s = leak_kg_s;
        self.flow_for.0 = f64::NEG_INFINITY;
        // The fire burns on what flows now, not on what the open doorway let in.
        if let Some(leak) = leak_kg_s {
            self.moment.flow = Flow { in_kg_s: leak, out_kg_s: leak, ..Flow::default() };
        }
    }

    /// The room, degC.
    #[must_use]
    pub fn room_c(&self) -> f64 {
        self.build.doorway.room_k - ZERO_C_K
    }

    /// Each cell's face, K above the room.
    #[must_use]
    pub fn faces_over_k(&self) -> &[f64] {
        self.floor.faces_k()
    }

    /// Mean of the floor that may carry food, degC.
    #[must_use]
    pub fn food_floor_c(&self) -> f64 {
        let (mut sum, mut area) = (0.0, 0.0);
        for (cell, t) in self.build.plan.cells.iter().zip(self.floor.faces_k()) {
            if !cell.under_fire {
                sum += cell.area_m2 * t;
                area += cell.area_m2;
            }
        }
        sum / area + self.room_c()
    }

    /// The hottest face of floor and dome, K.
    #[must_use]
    pub fn hottest_k(&self) -> f64 {
        let faces = self.floor.faces_k().iter().chain(self.dome.faces_k());
        faces.copied().fold(f64::NEG_INFINITY, f64::max) + self.build.doorway.room_k
    }

    /// Mean of the dome's face, degC.
    #[must_use]
    pub fn dome_c(&self) -> f64 {
        self.dome_over_k() + self.room_c()
    }

    fn dome_over_k(&self) -> f64 {
        let areas = &self.build.patch_area_m2;
        let sum: f64 = self.dome.faces_k().iter().zip(areas).map(|(t, a)| t * a).sum();
        sum / areas.iter().sum::<f64>()
    }

    /// What has left by the outside since the ledger was opened.
    fn shell_j(&self) -> f64 {
        self.floor.left_j(&self.build.cell_area_m2) + self.dome.left_j(&self.build.patch_area_m2)
    }

    fn holds_j(&self) -> f64 {
        self.floor.stored_j(&self.build.cell_area_m2) + self.dome.stored_j(&self.build.patch_area_m2)
    }

    /// Water of a wet wipe, spread over the floor that may carry food, kg.
    pub fn wipe(&mut self, water_kg: f64) {
        let add = water_kg / self.build.plan.food_area_m2;
        for (wet, cell) in self.wet_kg_m2.iter_mut().zip(&self.build.plan.cells) {
            if !cell.under_fire {
                *wet += add;
            }
        }
    }

    /// What the fire breathes, kg/s: the inflow, and behind open doors at least what a match needs. A stone cold oven draws
    /// nothing by itself, and would never light.
    fn air_for_fire_kg_s(&self) -> f64 {
        let drawn = self.moment.flow.in_kg_s;
        if self.closed_leak_kg_s.is_some() { drawn } else { drawn.max(MATCH_AIR_KG_S) }
    }

    /// One step of everything, `step_s` long.
    pub fn step(&mut self, step_s: f64, lying: &mut [Lying], laws: &[BakeLaw]) {
        let air_kg_s = self.air_for_fire_kg_s();
        let heat = self.fire.burn(step_s, air_kg_s, self.most_kg_s(air_kg_s));
        self.shine(&heat);
        self.part(lying);
        let tops: Vec<f64> =
            lying.iter().map(|p| laws[p.dish].top_surface_c(p.top_j / p.area_m2) - self.room_c()).collect();
        self.emit(lying, laws, &tops);
        let dark = self.enclosure.dark(&self.faces);
        let air = self.march(lying, laws, &tops);
        let from_floor_w = self.film_heat(lying, laws, &tops, &air);
        let plume_w = heat.flame_w * (1.0 - self.build.flame_radiant_share)
            + heat.coal_w * (1.0 - COAL_RADIANT_SHARE)
            + from_floor_w;
        self.refresh_flow(&heat, plume_w);
        let balance = self.layer_balance(&dark, plume_w);
        let gas_k = balance.settle_k(self.moment.gas_k);
        let open = Fault::of_layer(self.time_s, balance.surplus_w(gas_k), balance.passing_w(gas_k));
        self.fault = self.fault.or(open);
        let light = self.lit(dark, gas_k);
        let burner = self.burn_gas(step_s);
        self.heat_floor(step_s, &heat, &light, lying, laws, &tops, &air);
        self.heat_dome(&light, gas_k);
        self.boil_wipe(step_s);
        self.conduct(step_s, burner);
        let glow_w = self.build.net.door_area_m2 * (light.door_w_m2 - self.faces.door_black_w_m2);
        self.door_light_w_m2 = light.door_w_m2;
        let closed = self.closed_leak_kg_s.is_some();
        self.ledger.fire_j += step_s * heat.total_w();
        self.ledger.assist_j += step_s * burner.gas_w;
        self.ledger.doorway_flow_j += step_s * (balance.out_w(gas_k) + heat.unburnt_w + burner.gas_w - burner.stone_w);
        self.ledger.doorway_radiation_j += step_s * glow_w;
        let flame_m = flame_length_m(heat.flame_w, self.fire.flame_foot_m());
        let reach = flame_m / self.build.flame_way_m();
        self.moment = Moment {
            heat,
            burner,
            flow: self.moment.flow,
            flame_m,
            flame_reach: if closed { 0.0 } else { reach },
            glow_w,
            gas_k,
        };
        self.time_s += step_s;
    }

    /// The most wood and char that burns away, kg/s: by the doorway's hard limit, behind shut doors by the leak's oxygen.
    fn most_kg_s(&self, air_kg_s: f64) -> f64 {
        let door = &self.build.doorway;
        match self.closed_leak_kg_s {
            None => doorway_limit_kg_s(door.width_m, door.height_m),
            Some(_) => air_kg_s * HEAT_PER_AIR_J_KG / self.fire.fuel().lhv_j_kg,
        }
    }

    /// The burner at its probe's reading, under the hottest of the stone's underside.
    fn burn_gas(&mut self, step_s: f64) -> Output {
        let room_c = self.room_c();
        let depth_m = self.burner.as_ref().map(|burner| burner.assist().probe_depth_m);
        let probe_k = depth_m.and_then(|depth_m| self.probe_k(depth_m));
        let under_k = self.floor.most_at_node_k(self.build.underside);
        let bears_w_k = self.build.plan.area_m2 * self.build.stone.bears_w_m2_k(step_s);
        let (Some(burner), Some(probe_k)) = (&mut self.burner, probe_k) else { return Output::default() };
        burner.burn(self.time_s, probe_k + room_c, under_k + room_c, bears_w_k)
    }
}
