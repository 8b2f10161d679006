//! Owns what of an oven does not change through the day: plan, dome, grids, view factors, and where flame and coals shine.

use super::dome::Dome;
use super::enclosure::Net;
use super::fire::{CEILING_SHARE, FLAME_RADIANT_SHARE, Fuel, ceiling_flame_m};
use super::flow::Doorway;
use super::glow::{Source, bed_source, flame_source};
use super::places::Places;
use super::plan::{Cell, Edge, FloorPlan};
use super::views::Views;
use crate::matter::{stone, wood};
use crate::numerics::column::{DEFAULT_FINENESS, Fineness, Grid, Slab};
use crate::numerics::field::Pass;
use crate::numerics::modes::{Modes, RATES};
use crate::scenario::{Layer, Oven, Scenario};
use crate::units::{STEFAN_BOLTZMANN_W_M2_K4, ZERO_C_K};

/// Film between the outside of floor or dome and the room, W/(m2 K): free convection and radiation together. Range 8-12
/// (EN ISO 6946 takes 7.7 to 10 for still indoor air).
const SHELL_FILM_W_M2_K: f64 = 10.0;
/// Flux a face loses for each kelvin to the air, W/(m2 K): the upper end of what free convection gives.
const FILM_LOSS_W_M2_K: f64 = 15.0;
/// The same under food by contact, W/(m2 K): a base factor of two and a half on 45 W/m2K.
pub const CONTACT_LOSS_W_M2_K: f64 = 115.0;
/// Share of a kelvin an explicit face may answer to within one step.
const OVERSHOOT: f64 = 0.6;
/// No step is cut below this for stability's sake, s.
pub const LEAST_STEP_S: f64 = 0.05;
/// Flame lengths for which its shine is worked out, m; between them it is blended.
const FLAME_LENGTHS_M: [f64; 6] = [0.1, 0.25, 0.4, 0.6, 0.9, 1.4];

/// How finely space and time are cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Accuracy {
    /// Side of a floor cell, m.
    pub cell_m: f64,
    /// Cut of the columns.
    pub fineness: Fineness,
    /// Longest step while anything lies on the floor, s.
    pub busy_step_s: f64,
    /// Longest step otherwise, s.
    pub idle_step_s: f64,
    /// Works the doorway's flow out at every step, not only when what drives it has changed by a few percent: for tests of the
    /// order of convergence, which that would hide.
    pub flow_every_step: bool,
}

/// The default: lowest floor within 1 K of a run much finer (see tests/engine/verification).
pub const DEFAULT_ACCURACY: Accuracy = Accuracy {
    cell_m: super::plan::CELL_M,
    fineness: DEFAULT_FINENESS,
    busy_step_s: 8.0,
    idle_step_s: 30.0,
    flow_every_step: false,
};

/// One oven, worked out once and shared by all its runs.
#[derive(Clone, Debug, PartialEq)]
pub struct Build {
    /// How finely it is cut.
    pub accuracy: Accuracy,
    /// The floor's plan.
    pub plan: FloorPlan,
    /// Area of each cell, m2.
    pub cell_area_m2: Vec<f64>,
    /// The dome.
    pub dome: Dome,
    /// Area of each patch, m2.
    pub patch_area_m2: Vec<f64>,
    /// Nodes through the floor.
    pub floor_grid: Grid,
    /// Nodes through the dome.
    pub dome_grid: Grid,
    /// The floor's stone, through which heat spreads sideways too.
    pub stone: Slab,
    /// Node on the stone's underside.
    pub underside: usize,
    /// Effusivity of the floor's face, W s^0.5/(m2 K).
    pub floor_effusivity: f64,
    /// Effusivity of the dome's face, W s^0.5/(m2 K).
    pub dome_effusivity: f64,
    /// The floor's columns by their modes, as long as nothing heats them from below.
    floor_modes: Modes,
    /// The same over a burner, where the build was made for one.
    burner_modes: Option<Modes>,
    /// The dome's.
    pub dome_modes: Modes,
    /// A trace's: the stone alone.
    pub trace_modes: Modes,
    /// What neighbouring columns of the floor pass to each other.
    pub passes: Vec<Pass>,
    /// View factors.
    pub net: Net,
    /// The doorway.
    pub doorway: Doorway,
    /// Factor on the plume's entrainment.
    pub entrainment_factor: f64,
    /// Factor on the films of free convection.
    pub film_factor: f64,
    /// Radiant share of the flame's heat.
    pub flame_radiant_share: f64,
    /// The bed's area, m2.
    pub bed_area_m2: f64,
    /// Diameter of the bed taken as round, m.
    pub bed_diameter_m: f64,
    /// Height of the dome over the bed, m.
    pub bed_rise_m: f64,
    /// From the bed to the doorway, m.
    pub bed_to_door_m: f64,
    /// Where pieces may lie.
    pub places: Places,
    /// Each cell's band of the inflow, doorway first, and its share there; the rest of it belongs to the next band.
    pub bands: Vec<(usize, f64)>,
    /// The wood.
    pub fuel: Fuel,
    flames: Vec<Source>,
    bed: Source,
    spread: Source,
}

/// Rates a trace's answer is met at: its fading sideways is fitted to a few percent, and so need this be no better.
const TRACE_RATES: usize = 6;

/// Bands of the inflow's march.
pub(super) const BANDS: usize = 8;

fn effusivity(slab: &Slab) -> f64 {
    (slab.k_w_m_k * slab.rho_c_j_m3_k).sqrt()
}

/// The wood of a scenario as the fire knows it.
#[must_use]
pub fn fuel(scenario: &Scenario) -> Fuel {
    let fuel = wood::Fuel::new(&scenario.wood);
    Fuel {
        density_kg_m3: fuel.density_kg_m3,
        lhv_j_kg: fuel.lhv_ar_j_kg,
        char_share: fuel.char_share_as_fired(),
        char_lhv_j_kg: wood::CHAR_LHV_J_KG,
        burnt_share: fuel.burnt_share,
        shrink_m_s: fuel.regression_m_s,
        air_kg_kg: fuel.air_kg_kg,
    }
}

fn net(oven: &Oven, plan: &FloorPlan, dome: &Dome) -> Net {
    let views = Views::new(plan, dome);
    let per = |exchange: &[f64], area: &[f64], width: usize| -> Vec<f64> {
        exchange.iter().enumerate().map(|(i, x)| x / area[i / width]).collect()
    };
    let patches = views.patch_m2.len();
    Net {
        cell_to_patch: per(&views.cell_patch_m2, &views.cell_m2, patches),
        cell_to_door: per(&views.cell_door_m2, &views.cell_m2, 1),
        patch_to_patch: per(&views.patch_patch_m2, &views.patch_m2, patches),
        patch_to_door: per(&views.patch_door_m2, &views.patch_m2, 1),
        cell_area_m2: views.cell_m2,
        patch_area_m2: views.patch_m2,
        door_area_m2: views.door_m2,
        dome_emissivity: oven.emissivity,
        smoke_emissivity: oven.smoke_emissivity,
    }
}

impl Build {
    /// Works out the oven of a scenario.
    #[must_use]
    pub fn new(scenario: &Scenario, accuracy: Accuracy) -> Self {
        let oven = &scenario.oven;
        let plan = FloorPlan::new(oven, accuracy.cell_m);
        let dome = Dome::new(oven);
        let net = net(oven, &plan, &dome);
        let slabs = |layers: &[Layer]| {
            let mut slabs = stone::slabs(layers);
            slabs.iter_mut().for_each(|slab| slab.k_w_m_k *= oven.stone_k_factor);
            slabs
        };
        let (floor_slabs, dome_slabs) = (slabs(&oven.floor_layers), slabs(&oven.dome_layers));
        let floor_grid = Grid::new(&floor_slabs, SHELL_FILM_W_M2_K, accuracy.fineness);
        let dome_grid = Grid::new(&dome_slabs, SHELL_FILM_W_M2_K, accuracy.fineness);
        // What lies below the stone is left out of a trace: one hardly reaches it, and less passes.
        let trace_grid = Grid::new(&floor_slabs[..1], 0.0, accuracy.fineness);
        let bed_area_m2: f64 = plan.cells.iter().filter(|c| c.under_fire).map(|c| c.area_m2).sum();
        let (bed_x, bed_y) = plan.bed_centre();
        let (to_x, to_y) = (bed_x, bed_y + 0.5 * oven.depth_m);
        let bed_rise_m = dome.height_at(bed_x, bed_y);
        let by_area = |mut source: Source| {
            source.to_cell.iter_mut().zip(&plan.cells).for_each(|(share, cell)| *share /= cell.area_m2);
            source.to_patch.iter_mut().zip(&net.patch_area_m2).for_each(|(share, area)| *share /= area);
            source
        };
        let flame = |&l: &f64| flame_source(&plan, &dome, l.min(bed_rise_m), ceiling_flame_m(l, bed_rise_m));
        let flames = FLAME_LENGTHS_M.iter().map(|l| by_area(flame(l))).collect();
        let (bed, spread) = (by_area(bed_source(&plan, &dome, false)), by_area(bed_source(&plan, &dome, true)));
        Self {
            accuracy,
            cell_area_m2: plan.cells.iter().map(|c| c.area_m2).collect(),
            // The net's, not the dome's: where it makes a patch larger its stone must be as large, or heat is lost between them.
            patch_area_m2: net.patch_area_m2.clone(),
            underside: floor_grid.joints[0],
            stone: floor_slabs[0],
            floor_effusivity: effusivity(&floor_slabs[0]),
            dome_effusivity: effusivity(&dome_slabs[0]),
            floor_modes: Modes::new(&floor_grid, None, RATES),
            burner_modes: oven.assist.as_ref().map(|_| Modes::new(&floor_grid, Some(floor_grid.joints[0]), RATES)),
            dome_modes: Modes::new(&dome_grid, None, RATES),
            trace_modes: Modes::new(&trace_grid, None, TRACE_RATES),
            passes: passes(&plan, floor_slabs[0].k_w_m_k),
            floor_grid,
            dome_grid,
            net,
            doorway: Doorway {
                width_m: oven.door_width_m,
                height_m: oven.door_height_m,
                cd: oven.door_cd,
                room_k: oven.room_c + ZERO_C_K,
            },
            entrainment_factor: oven.entrainment_factor,
            film_factor: oven.film_factor,
            flame_radiant_share: FLAME_RADIANT_SHARE * oven.radiant_factor,
            bed_area_m2,
            bed_diameter_m: (4.0 * bed_area_m2 / std::f64::consts::PI).sqrt(),
            bed_rise_m,
            bed_to_door_m: (to_x * to_x + to_y * to_y).sqrt(),
            places: Places::new(&plan, &scenario.menu, scenario.service.peel_gap_m, oven.assist.as_ref()),
            bands: bands(&plan),
            fuel: fuel(scenario),
            flames,
            bed,
            spread,
            plan,
            dome,
        }
    }

    /// Takes other wood: what is worked out of floor and dome stays.
    pub fn take_wood(&mut self, scenario: &Scenario) {
        self.fuel = fuel(scenario);
    }

    /// The floor's columns by their modes, over a burner or not: an oven whose burner is left out is one that never had any.
    #[must_use]
    pub fn floor_modes(&self, burner: bool) -> &Modes {
        self.burner_modes.as_ref().filter(|_| burner).unwrap_or(&self.floor_modes)
    }

    /// Where a flame of this length shines: shares by cell and by patch over their areas, 1/m2, and the share out of the doorway,
    /// blended between two lengths.
    pub fn flame_shine(&self, length_m: f64, mut put: impl FnMut(&Source, f64)) {
        let last = FLAME_LENGTHS_M.len() - 1;
        let length = length_m.clamp(FLAME_LENGTHS_M[0], FLAME_LENGTHS_M[last]);
        let i = (0..last).find(|&i| length <= FLAME_LENGTHS_M[i + 1]).unwrap_or(last - 1);
        let share = (length - FLAME_LENGTHS_M[i]) / (FLAME_LENGTHS_M[i + 1] - FLAME_LENGTHS_M[i]);
        put(&self.flames[i], 1.0 - share);
        put(&self.flames[i + 1], share);
    }

    /// The flame that would just reach the doorway, m: up to the dome over the bed and along under it.
    #[must_use]
    pub fn flame_way_m(&self) -> f64 {
        self.bed_rise_m + self.bed_to_door_m / CEILING_SHARE
    }

    /// Where the coals shine, likewise.
    #[must_use]
    pub fn coal_shine(&self, spread: bool) -> &Source {
        if spread { &self.spread } else { &self.bed }
    }

    /// The longest step the explicit faces bear, s, while the hottest of them is at `hottest_k` and the food's floor at `food_k`.
    /// A face of effusivity e answers a flux held for t with 2 sqrt(t/pi)/e; what flux it loses for each kelvin, by its own
    /// emission and film and under food by contact, must not carry it past where it was going.
    #[must_use]
    pub fn stable_step_s(&self, busy: bool, hottest_k: f64, food_k: f64) -> f64 {
        let contact_w_m2_k = if busy { CONTACT_LOSS_W_M2_K } else { 0.0 };
        self.borne_step_s(contact_w_m2_k, hottest_k, food_k).max(LEAST_STEP_S)
    }

    /// The same under a contact, however short: below [`LEAST_STEP_S`] the steps that are taken are too long, which is a fault.
    #[must_use]
    pub fn borne_step_s(&self, contact_w_m2_k: f64, hottest_k: f64, food_k: f64) -> f64 {
        let loss = |k: f64| FILM_LOSS_W_M2_K + 4.0 * STEFAN_BOLTZMANN_W_M2_K4 * k * k * k;
        let food = loss(food_k) + contact_w_m2_k;
        let floor = self.floor_effusivity / food.max(loss(hottest_k));
        let reach = OVERSHOOT * 0.5 * std::f64::consts::PI.sqrt() * floor.min(self.dome_effusivity / loss(hottest_k));
        reach * reach
    }
}

/// What neighbouring columns of the stone pass to each other.
fn passes(plan: &FloorPlan, k_w_m_k: f64) -> Vec<Pass> {
    let pass = |edge: &Edge| {
        let by = |cell: usize| k_w_m_k * edge.length_m / (edge.distance_m * plan.cells[cell].area_m2);
        Pass { a: edge.a, b: edge.b, by_a_w_m3_k: by(edge.a), by_b_w_m3_k: by(edge.b) }
    };
    plan.edges.iter().map(pass).collect()
}

/// Cells by their turn in the inflow: each stands between two bands and is shared by how near it is to either.
fn bands(plan: &FloorPlan) -> Vec<(usize, f64)> {
    let band_of = |cell: &Cell| {
        let place = (cell.march * BANDS as f64 - 0.5).clamp(0.0, (BANDS - 1) as f64);
        let band = (place as usize).min(BANDS - 2);
        (band, 1.0 - (place - band as f64))
    };
    plan.cells.iter().map(band_of).collect()
}
