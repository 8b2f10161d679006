//! Owns the oven as it runs: its state, and one step of everything together.
//!
//! Surface fluxes (radiation, films, contact) are taken at the state a step starts from, conduction runs implicitly through
//! the step, and the hot layer, which holds next to no heat, settles at once. Every flux is written to both its sides, so the
//! ledger closes to rounding whatever the step.

use super::build::Build;
use super::burner::{Burner, Output};
use super::chamber::{LayerBalance, dome_film_w_m2_k, free_film_w_m2_k, march};
use super::enclosure::{Enclosure, Faces, Light};
use super::fire::{
    COAL_DOWN_SHARE, COAL_RADIANT_SHARE, FLAME_RADIANT_SHARE, Fire, Heat, SPREAD_DOWN_SHARE, ceiling_flame_m,
    flame_length_m,
};
use super::flow::{Flow, Plume, settle};
use super::ledger::Ledger;
use crate::demand::BakeLaw;
use crate::matter::smoke;
use crate::numerics::column::{Columns, Inner, LANES};
use crate::scenario::Scenario;
use crate::units::{STEFAN_BOLTZMANN_W_M2_K4, ZERO_C_K};

/// The doorway's flow is worked out anew at least this often, s.
const FLOW_EVERY_S: f64 = 20.0;
/// ... and when the plume's heat has changed by this share ...
const FLOW_HEAT_SHARE: f64 = 0.03;
/// ... or the layer by this much, K.
const FLOW_LAYER_K: f64 = 4.0;
/// Heat spreads sideways through the stone this often, s: slow enough to be taken explicitly.
const SIDEWAYS_EVERY_S: f64 = 60.0;
/// Conductance from hot stone to a film of water on it, W/(m2 K). From memory (film and transition boiling, 150-500).
const WIPE_W_M2_K: f64 = 250.0;
/// Latent heat of water at 100 degC, J/kg (IAPWS-IF97).
const BOIL_J_KG: f64 = 2.2565e6;
/// Water boils at, degC.
const BOIL_C: f64 = 100.0;

/// A trace on the floor is forgotten below this, K.
const FADED_K: f64 = 0.3;

/// A piece of food on the floor.
#[derive(Clone, Debug, PartialEq)]
pub struct Lying {
    /// Index of its dish.
    pub dish: usize,
    /// Cells it covers, with the area on each, m2.
    pub cover: Vec<(usize, f64)>,
    /// Its footprint, m2.
    pub area_m2: f64,
    /// Heat taken through its base, J.
    pub base_j: f64,
    /// Heat taken through its top, J.
    pub top_j: f64,
    /// Its column of contrast, once the oven has given it one.
    pub contrast: Option<usize>,
}

impl Lying {
    /// Footprint mean of the faces over the room, K: what a gun would show under the piece.
    #[must_use]
    pub fn under_k(&self, hearth: &Hearth<'_>) -> f64 {
        hearth.footprint_k(&self.cover, hearth.contrast_of(self))
    }

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
    pub floor: Columns,
    /// The dome's columns, K above the room.
    pub dome: Columns,
    /// What lies apart within cells that a piece covers in part: for each piece the column of its covered part less that of the
    /// bare part beside it. Conduction is linear, so this difference obeys it too, driven by the difference of the fluxes.
    contrast: Columns,
    /// Pieces lifted whose trace has not faded yet.
    resting: Vec<Lying>,
    /// The fire.
    pub fire: Fire,
    /// The ledger.
    pub ledger: Ledger,
    /// The last step.
    pub moment: Moment,
    /// Hottest underside of the stone so far, degC.
    pub underside_most_c: f64,
    burner: Option<Burner>,
    enclosure: Enclosure,
    /// Share of each cell that is covered.
    covered: Vec<f64>,
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
    contrast_flux: Vec<f64>,
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
        let floor = Columns::new(build.floor_grid.clone(), cells, &floor_profile);
        let dome = Columns::new(build.dome_grid.clone(), build.patch_area_m2.len(), &dome_profile);
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
            burner: scenario.oven.assist.as_ref().map(Burner::new),
            enclosure: Enclosure::new(build.net.clone(), &vec![emissivity; cells]),
            covered: vec![0.0; cells],
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
            contrast: Columns::new(build.floor_grid.clone(), LANES, &vec![0.0; build.floor_grid.nodes()]),
            floor_flux: vec![0.0; floor.width()],
            contrast_flux: Vec::new(),
            resting: Vec::new(),
            dome_flux: vec![0.0; dome.width()],
            build,
            floor,
            dome,
        };
        hearth.breathe();
        hearth.open_ledger();
        hearth
    }

    /// The flow a warm oven draws before any fire: its floor's own heat drives it.
    fn breathe(&mut self) {
        let room_k = self.build.doorway.room_k;
        let over_k = (self.food_floor_c() - self.room_c()).max(0.0);
        let film = free_film_w_m2_k(over_k + room_k, room_k);
        let plume = Plume {
            convective_w: film * self.build.plan.area_m2 * over_k,
            flame_w: 0.0,
            bed_diameter_m: self.build.bed_diameter_m,
            factor: self.build.entrainment_factor,
        };
        self.moment.flow = settle(&self.build.doorway, self.moment.gas_k, &plume, 0.0);
    }

    /// Begins the ledger anew.
    pub fn open_ledger(&mut self) {
        let holds = self.holds_j();
        self.ledger = Ledger { opened_with_j: holds, holds_j: holds, ..Ledger::default() };
    }

    /// Shuts the doors on a leak, kg/s, or opens them (`None`).
    pub fn close_doors(&mut self, leak_kg_s: Option<f64>) {
        self.closed_leak_kg_s = leak_kg_s;
        self.flow_for.0 = f64::NEG_INFINITY;
    }

    /// The room, degC.
    #[must_use]
    pub fn room_c(&self) -> f64 {
        self.build.doorway.room_k - ZERO_C_K
    }

    /// Each cell's face, K above the room.
    #[must_use]
    pub fn faces_over_k(&self) -> &[f64] {
        self.floor.row_k(0)
    }

    /// Mean of the floor that may carry food, degC.
    #[must_use]
    pub fn food_floor_c(&self) -> f64 {
        let (mut sum, mut area) = (0.0, 0.0);
        for (cell, t) in self.build.plan.cells.iter().zip(self.floor.row_k(0)) {
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
        let faces = self.floor.row_k(0).iter().chain(self.dome.row_k(0));
        faces.copied().fold(f64::NEG_INFINITY, f64::max) + self.build.doorway.room_k
    }

    /// Mean of the dome's face, degC.
    #[must_use]
    pub fn dome_c(&self) -> f64 {
        self.dome_over_k() + self.room_c()
    }

    fn dome_over_k(&self) -> f64 {
        let areas = &self.build.patch_area_m2;
        let sum: f64 = self.dome.row_k(0).iter().zip(areas).map(|(t, a)| t * a).sum();
        sum / areas.iter().sum::<f64>()
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

    /// Footprint mean over the room, K. Cells at the rim are covered in part; the covered part differs from its cell by the
    /// contrast times the part left bare.
    fn footprint_k(&self, cover: &[(usize, f64)], contrast_k: f64) -> f64 {
        let faces = self.faces_over_k();
        let (mut sum, mut area) = (0.0, 0.0);
        for &(i, a) in cover {
            sum += a * (faces[i] + (1.0 - a / self.build.cell_area_m2[i]) * contrast_k);
            area += a;
        }
        sum / area
    }

    /// How much cooler the covered part of a piece's cells is than the bare part, K (below zero under food).
    fn contrast_of(&self, piece: &Lying) -> f64 {
        piece.contrast.map_or(0.0, |slot| self.contrast.row_k(0)[slot])
    }

    /// What a gun would show of a spot, K above the room: footprint mean, with the trace of the piece that lay there last.
    #[must_use]
    pub fn spot_k(&self, cover: &[(usize, f64)]) -> f64 {
        let trace = self.resting.iter().find(|piece| piece.cover == cover);
        self.footprint_k(cover, trace.map_or(0.0, |piece| self.contrast_of(piece)))
    }

    /// A lifted piece leaves its trace on the floor until that has faded.
    pub fn rest(&mut self, piece: Lying) {
        if piece.contrast.is_some() {
            self.resting.push(piece);
        }
    }

    /// Gives each new piece a column of contrast: that of the trace it lies on exactly, or one that begins at nothing.
    fn give_contrast(&mut self, lying: &mut [Lying]) {
        for piece in lying.iter_mut().filter(|piece| piece.contrast.is_none()) {
            if let Some(at) = self.resting.iter().position(|trace| trace.cover == piece.cover) {
                piece.contrast = self.resting.remove(at).contrast;
            }
        }
        let faded: Vec<f64> = self.resting.iter().map(|trace| self.contrast_of(trace).abs()).collect();
        let mut faded = faded.iter();
        self.resting.retain(|_| faded.next().is_some_and(|&k| k > FADED_K));
        self.contrast.make_room(lying.len() + self.resting.len());
        let mut taken: Vec<bool> = vec![false; self.contrast.count()];
        for slot in lying.iter().chain(&self.resting).filter_map(|piece| piece.contrast) {
            taken[slot] = true;
        }
        for piece in lying.iter_mut().filter(|piece| piece.contrast.is_none()) {
            if let Some(slot) = taken.iter().position(|&t| !t) {
                taken[slot] = true;
                self.contrast.clear(slot);
                piece.contrast = Some(slot);
            }
        }
    }

    /// Takes note of what lies on the floor; call whenever that changes.
    pub fn lay(&mut self, lying: &mut [Lying], laws: &[BakeLaw]) {
        self.give_contrast(lying);
        let cells = self.build.plan.cells.len();
        self.covered = vec![0.0; cells];
        let mut absorptivity = vec![0.0; cells];
        for piece in lying.iter() {
            let top = laws[piece.dish].top_absorptivity();
            for &(i, area) in &piece.cover {
                let share = area / self.build.cell_area_m2[i];
                self.covered[i] += share;
                absorptivity[i] += share * top;
            }
        }
        for (a, covered) in absorptivity.iter_mut().zip(&self.covered) {
            *a += (1.0 - covered) * self.emissivity;
        }
        self.enclosure.cover(&absorptivity);
    }

    /// One step of everything, `step_s` long.
    pub fn step(&mut self, step_s: f64, lying: &mut [Lying], laws: &[BakeLaw]) {
        let heat = self.fire.burn(step_s, self.moment.flow.in_kg_s);
        self.shine(&heat);
        let tops: Vec<f64> =
            lying.iter().map(|p| laws[p.dish].top_surface_c(p.top_j / p.area_m2) - self.room_c()).collect();
        self.emit(lying, laws, &tops);
        let dark = self.enclosure.dark(&self.faces);
        let air = self.march(lying, laws, &tops);
        let from_floor_w = self.film_heat(lying, laws, &tops, &air);
        let plume_w =
            heat.flame_w * (1.0 - FLAME_RADIANT_SHARE) + heat.coal_w * (1.0 - COAL_RADIANT_SHARE) + from_floor_w;
        self.refresh_flow(&heat, plume_w);
        let balance = self.layer_balance(&dark, plume_w);
        let gas_k = balance.settle_k(self.moment.gas_k);
        let light = self.lit(dark, gas_k);
        let burner = self.burn_gas();
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
        self.ledger.holds_j = self.holds_j();
        let flame_m = flame_length_m(heat.flame_w, self.build.bed_diameter_m);
        let reach = ceiling_flame_m(flame_m, self.build.bed_rise_m) / self.build.bed_to_door_m;
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

    /// Power of flame and coals onto each surface.
    fn shine(&mut self, heat: &Heat) {
        let (build, faces) = (self.build, &mut self.faces);
        faces.cell_source_w_m2.fill(0.0);
        faces.patch_source_w_m2.fill(0.0);
        faces.door_source_w = 0.0;
        let mut put = |source: &super::glow::Source, power_w: f64| {
            for ((s, share), area) in faces.cell_source_w_m2.iter_mut().zip(&source.to_cell).zip(&build.cell_area_m2) {
                *s += power_w * share / area;
            }
            for ((s, share), area) in faces.patch_source_w_m2.iter_mut().zip(&source.to_patch).zip(&build.patch_area_m2)
            {
                *s += power_w * share / area;
            }
            faces.door_source_w += power_w * source.to_door;
        };
        let flame_m = flame_length_m(heat.flame_w, build.bed_diameter_m);
        let flame_w = FLAME_RADIANT_SHARE * heat.flame_w;
        if flame_w > 0.0 {
            build.flame_shine(flame_m, |source, share| put(source, flame_w * share));
        }
        let spread = self.fire.is_spread();
        let up = 1.0 - if spread { SPREAD_DOWN_SHARE } else { COAL_DOWN_SHARE };
        let coal_w = COAL_RADIANT_SHARE * heat.coal_w;
        if coal_w > 0.0 {
            put(build.coal_shine(spread), up * coal_w);
        }
    }

    /// Emission of floor, tops and dome at the state the step starts from.
    fn emit(&mut self, lying: &[Lying], laws: &[BakeLaw], tops_over_k: &[f64]) {
        let room_k = self.build.doorway.room_k;
        let emissivity = self.emissivity;
        let floor = self.floor.row_k(0);
        for ((e, t), covered) in self.faces.cell_emission_w_m2.iter_mut().zip(floor).zip(&self.covered) {
            *e = (1.0 - covered) * emissivity * black(*t, room_k);
        }
        for (piece, &top) in lying.iter().zip(tops_over_k) {
            let sent = laws[piece.dish].top_absorptivity() * black(top, room_k);
            for &(i, area) in &piece.cover {
                self.faces.cell_emission_w_m2[i] += sent * area / self.build.cell_area_m2[i];
            }
        }
        for (e, t) in self.faces.patch_black_w_m2.iter_mut().zip(self.dome.row_k(0)) {
            *e = black(*t, room_k);
        }
        // A shut door gives back what it got a step ago: it keeps its own heat and passes none on.
        self.faces.door_black_w_m2 =
            if self.closed_leak_kg_s.is_some() { self.door_light_w_m2 } else { black(0.0, room_k) };
    }

    /// The inflow's march over floor and tops, K above the room throughout.
    fn march(&self, lying: &[Lying], laws: &[BakeLaw], tops_over_k: &[f64]) -> Vec<Breeze> {
        let film = self.floor_film_w_m2_k;
        let floor = self.floor.row_k(0);
        let cells = self.build.plan.cells.len();
        let (mut conductance, mut weighted) = (vec![0.0; cells], vec![0.0; cells]);
        for i in 0..cells {
            conductance[i] = film * self.build.cell_area_m2[i] * (1.0 - self.covered[i]);
            weighted[i] = conductance[i] * floor[i];
        }
        for (piece, &top) in lying.iter().zip(tops_over_k) {
            let film = film * laws[piece.dish].top_convective_factor();
            for &(i, area) in &piece.cover {
                conductance[i] += film * area;
                weighted[i] += film * area * top;
            }
        }
        let bands: Vec<(f64, f64)> = self
            .build
            .bands
            .iter()
            .map(|band| (band.iter().map(|&i| conductance[i]).sum(), band.iter().map(|&i| weighted[i]).sum()))
            .collect();
        let cp = smoke::air(self.room_c()).cp_j_kg_k;
        let mut air = vec![Breeze::default(); cells];
        for (band, members) in march(0.0, self.moment.flow.in_kg_s, cp, &bands).iter().zip(&self.build.bands) {
            for &i in members {
                air[i] = Breeze { over_k: band.air_in_k, film_w_m2_k: film * band.effectiveness };
            }
        }
        air
    }

    /// Heat the inflow takes from floor and tops, W.
    fn film_heat(&self, lying: &[Lying], laws: &[BakeLaw], tops_over_k: &[f64], air: &[Breeze]) -> f64 {
        let floor = self.floor.row_k(0);
        let bare = (0..floor.len()).map(|i| {
            air[i].film_w_m2_k * self.build.cell_area_m2[i] * (1.0 - self.covered[i]) * (floor[i] - air[i].over_k)
        });
        let tops = lying.iter().zip(tops_over_k).map(|(piece, &top)| {
            let factor = laws[piece.dish].top_convective_factor();
            let taken = piece.cover.iter().map(|&(i, area)| air[i].film_w_m2_k * area * (top - air[i].over_k));
            factor * taken.sum::<f64>()
        });
        bare.sum::<f64>() + tops.sum::<f64>()
    }

    /// Works out doorway and layer anew when what drives them has changed.
    fn refresh_flow(&mut self, heat: &Heat, plume_w: f64) {
        let gas_k = self.moment.gas_k;
        if let Some(leak) = self.closed_leak_kg_s {
            self.moment.flow = Flow { in_kg_s: leak, out_kg_s: leak + heat.gas_kg_s, ..Flow::default() };
        } else {
            let (at, drove, was_k) = self.flow_for;
            let changed =
                (plume_w - drove).abs() > FLOW_HEAT_SHARE * drove.abs() || (gas_k - was_k).abs() > FLOW_LAYER_K;
            if self.time_s - at < FLOW_EVERY_S - 1e-6 && !changed {
                return;
            }
            let plume = Plume {
                convective_w: plume_w.max(0.0),
                flame_w: heat.flame_w,
                bed_diameter_m: self.build.bed_diameter_m,
                factor: self.build.entrainment_factor,
            };
            self.moment.flow = settle(&self.build.doorway, gas_k, &plume, heat.gas_kg_s);
        }
        self.flow_for = (self.time_s, plume_w, gas_k);
        let room_k = self.build.doorway.room_k;
        self.floor_film_w_m2_k = free_film_w_m2_k(self.food_floor_c() + ZERO_C_K, room_k);
        self.dome_film_w_m2_k = dome_film_w_m2_k(self.dome_over_k() + room_k, gas_k);
    }

    fn layer_balance(&self, dark: &Light, plume_w: f64) -> LayerBalance {
        let room_k = self.build.doorway.room_k;
        let film = self.dome_film_w_m2_k;
        let areas = &self.build.patch_area_m2;
        LayerBalance {
            plume_w,
            dark_gain_w: dark.smoke_w,
            unit_gain_m2: self.enclosure.unit().smoke_w,
            dome_w_k: film * areas.iter().sum::<f64>(),
            dome_weighted_w: film * areas.iter().zip(self.dome.row_k(0)).map(|(a, t)| a * (t + room_k)).sum::<f64>(),
            out_kg_s: self.moment.flow.out_kg_s,
            room_c: self.room_c(),
        }
    }

    /// What arrives with the smoke at its temperature.
    fn lit(&self, mut dark: Light, gas_k: f64) -> Light {
        let e = black(gas_k, 0.0);
        let unit = self.enclosure.unit();
        for (h, u) in dark.cell_w_m2.iter_mut().zip(&unit.cell_w_m2) {
            *h += e * u;
        }
        for (h, u) in dark.patch_w_m2.iter_mut().zip(&unit.patch_w_m2) {
            *h += e * u;
        }
        dark.door_w_m2 += e * unit.door_w_m2;
        dark.smoke_w += e * unit.smoke_w;
        dark
    }

    /// The burner at its probe's reading.
    fn burn_gas(&mut self) -> Output {
        let room_c = self.room_c();
        let Some(burner) = &mut self.burner else { return Output::default() };
        let assist = burner.assist();
        let cell = self.build.plan.probe_cell(assist.probe_across, assist.probe_along);
        let probe_c = self.floor.at_depth_k(cell, assist.probe_depth_m) + room_c;
        burner.burn(self.time_s, probe_c)
    }

    /// Fluxes into the floor's faces, and what each piece takes.
    #[allow(clippy::too_many_arguments, reason = "everything a step has worked out so far meets here")]
    fn heat_floor(
        &mut self,
        step_s: f64,
        heat: &Heat,
        light: &Light,
        lying: &mut [Lying],
        laws: &[BakeLaw],
        tops_over_k: &[f64],
        air: &[Breeze],
    ) {
        let (room_k, room_c) = (self.build.doorway.room_k, self.room_c());
        let floor = self.floor.row_k(0);
        let mut bare_w_m2 = vec![0.0; floor.len()];
        for i in 0..floor.len() {
            let radiation = self.emissivity * (light.cell_w_m2[i] - black(floor[i], room_k));
            let cooled = air[i].film_w_m2_k * (floor[i] - air[i].over_k);
            bare_w_m2[i] = radiation - cooled;
            self.floor_flux[i] = (1.0 - self.covered[i]) * bare_w_m2[i];
        }
        let spread = self.fire.is_spread();
        let down_w = COAL_RADIANT_SHARE * heat.coal_w * if spread { SPREAD_DOWN_SHARE } else { COAL_DOWN_SHARE };
        let under_m2 = if spread { self.build.plan.area_m2 } else { self.build.bed_area_m2 };
        for (flux, cell) in self.floor_flux.iter_mut().zip(&self.build.plan.cells) {
            if spread || cell.under_fire {
                *flux += down_w / under_m2;
            }
        }
        let mut food_j = 0.0;
        self.contrast_flux.resize(self.contrast.width(), 0.0);
        self.contrast_flux.fill(0.0);
        for trace in &self.resting {
            if let Some(slot) = trace.contrast {
                // The cooler part of a bare cell is warmed by what it sends out less: its own emission and film.
                let (at, _) = trace.cover[0];
                let k = floor[at] + room_k;
                let loss = 4.0 * self.emissivity * STEFAN_BOLTZMANN_W_M2_K4 * k * k * k + air[at].film_w_m2_k;
                self.contrast_flux[slot] = -loss * self.contrast.row_k(0)[slot];
            }
        }
        for (piece, &top) in lying.iter_mut().zip(tops_over_k) {
            let law = &laws[piece.dish];
            let contact = law.base_contact(piece.base_j / piece.area_m2);
            let (absorptivity, sent) = (law.top_absorptivity(), black(top, room_k));
            let factor = law.top_convective_factor();
            let (mut base_w, mut top_w, mut beside_w) = (0.0, 0.0, 0.0);
            let contrast_k = piece.contrast.map_or(0.0, |slot| self.contrast.row_k(0)[slot]);
            for &(i, area) in &piece.cover {
                let covered_k = floor[i] + (1.0 - area / self.build.cell_area_m2[i]) * contrast_k;
                let base = contact.flux_w_m2(covered_k + room_c);
                beside_w += area * bare_w_m2[i];
                self.floor_flux[i] -= base * area / self.build.cell_area_m2[i];
                base_w += base * area;
                let lit = absorptivity * (light.cell_w_m2[i] - sent);
                top_w += area * (lit - factor * air[i].film_w_m2_k * (top - air[i].over_k));
            }
            if let Some(slot) = piece.contrast {
                self.contrast_flux[slot] = -(base_w + beside_w) / piece.area_m2;
            }
            piece.base_j += step_s * base_w;
            piece.top_j += step_s * top_w;
            food_j += step_s * (base_w + top_w);
        }
        self.ledger.food_j += food_j;
    }

    /// Fluxes into the dome's faces.
    fn heat_dome(&mut self, light: &Light, gas_k: f64) {
        let room_k = self.build.doorway.room_k;
        let emissivity = self.build.net.dome_emissivity;
        for ((flux, t), h) in self.dome_flux.iter_mut().zip(self.dome.row_k(0)).zip(&light.patch_w_m2) {
            *flux = emissivity * (h - black(*t, room_k)) + self.dome_film_w_m2_k * (gas_k - room_k - t);
        }
    }

    /// Water of a wipe boils off; its steam leaves by the doorway.
    fn boil_wipe(&mut self, step_s: f64) {
        let room_c = self.room_c();
        let mut steam_j = 0.0;
        for i in 0..self.wet_kg_m2.len() {
            if self.wet_kg_m2[i] > 0.0 {
                let flux = (WIPE_W_M2_K * (self.floor.row_k(0)[i] + room_c - BOIL_C)).max(0.0);
                let flux = flux.min(self.wet_kg_m2[i] * BOIL_J_KG / step_s);
                self.wet_kg_m2[i] = (self.wet_kg_m2[i] - flux * step_s / BOIL_J_KG).max(0.0);
                self.floor_flux[i] -= flux;
                steam_j += step_s * flux * self.build.cell_area_m2[i];
            }
        }
        self.ledger.doorway_flow_j += steam_j;
    }

    /// Conduction through floor and dome, and once a minute sideways.
    fn conduct(&mut self, step_s: f64, burner: Output) {
        let inner = (burner.stone_w > 0.0)
            .then(|| Inner { node: self.build.underside, flux_w_m2: burner.stone_w / self.build.plan.area_m2 });
        let by_floor = self.floor.advance(step_s, &self.floor_flux, inner, &self.build.cell_area_m2);
        if !self.contrast_flux.is_empty() {
            self.contrast.advance(step_s, &self.contrast_flux, None, &[]);
            // Within a cell the two parts even out sideways: the slowest mode of a strip with closed ends, exp(-pi^2 a t / w^2).
            let w = self.build.accuracy.cell_m;
            let rate = std::f64::consts::PI * std::f64::consts::PI * self.build.stone_diffusivity_m2_s / (w * w);
            self.contrast.fade(libm::exp(-rate * step_s));
        }
        let by_dome = self.dome.advance(step_s, &self.dome_flux, None, &self.build.patch_area_m2);
        self.ledger.shell_j += by_floor + by_dome;
        if self.time_s + step_s >= self.sideways_due_s - 1e-6 {
            self.conduct_sideways(self.time_s + step_s - self.sideways_due_s + SIDEWAYS_EVERY_S);
            self.sideways_due_s = self.time_s + step_s + SIDEWAYS_EVERY_S;
        }
        let room_c = self.room_c();
        let under = self.floor.row_k(self.build.underside).iter().copied().fold(f64::NEG_INFINITY, f64::max);
        self.underside_most_c = self.underside_most_c.max(under + room_c);
    }

    /// Conduction between neighbouring columns of the stone over `span_s`, explicit: a cell changes by far less than it differs.
    pub(crate) fn conduct_sideways(&mut self, span_s: f64) {
        let grid = self.floor.grid().clone();
        for node in 0..=self.build.underside {
            let near = if node == 0 { 0.0 } else { grid.depth_m[node - 1] };
            let far = if node == self.build.underside { grid.depth_m[node] } else { grid.depth_m[node + 1] };
            let thickness_m = 0.5 * (far - near);
            let per_k = self.build.stone_k_w_m_k * thickness_m * span_s;
            let row = self.floor.row_mut_k(node);
            let before: Vec<f64> = row.to_vec();
            for edge in &self.build.plan.edges {
                let moved_j = per_k * edge.length_m / edge.distance_m * (before[edge.a] - before[edge.b]);
                row[edge.a] -= moved_j / (self.build.cell_area_m2[edge.a] * grid.capacity_j_m2_k[node]);
                row[edge.b] += moved_j / (self.build.cell_area_m2[edge.b] * grid.capacity_j_m2_k[node]);
            }
        }
    }
}
