//! Owns the traces pieces leave in the floor's warmth, and what of a tile is bare and what lies under a piece.

use super::{FADED_K, Hearth, Lying};
use crate::demand::BakeLaw;
use crate::hearth::build::Build;
use crate::hearth::places::{MODES, Places, fade_rates_per_s};
use crate::numerics::column::{Columns, Grid};

/// A tile's bare rest is told apart from the part covered while a piece's tiles are bare by at least this share on average. Our
/// choice.
const LEAST_BARE_SHARE: f64 = 0.05;

/// The traces: for each place in use a few columns through the stone, driven alike and fading sideways each at its own rate.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Traces {
    columns: Columns,
    flux_w_m2: Vec<f64>,
    /// For each place its trace, if it has one.
    slot: Vec<Option<usize>>,
    rates_per_s: [f64; MODES],
    /// Step the factors hold for, and for each column what is left of it after such a step.
    fading: (f64, Vec<f64>),
}

impl Traces {
    /// No trace yet.
    pub(super) fn new(build: &Build) -> Self {
        // What lies below the stone is left out: a trace hardly reaches it, and less passes.
        let grid = Grid::new(&[build.stone], 0.0, build.accuracy.fineness);
        let still = vec![0.0; grid.nodes()];
        Self {
            columns: Columns::new(grid, MODES, &still),
            flux_w_m2: Vec::new(),
            slot: vec![None; build.places.all.len()],
            rates_per_s: fade_rates_per_s(build.stone.k_w_m_k / build.stone.rho_c_j_m3_k),
            fading: (0.0, Vec::new()),
        }
    }

    fn face_k(&self, slot: usize) -> &[f64] {
        &self.columns.row_k(0)[slot * MODES..(slot + 1) * MODES]
    }

    /// How much a place differs from the mean of its tiles, K.
    fn shows_k(&self, places: &Places, place: usize) -> f64 {
        self.shows_at_node_k(places, place, 0)
    }

    fn shows_at_node_k(&self, places: &Places, place: usize, node: usize) -> f64 {
        let row = self.columns.row_k(node);
        let one = |(source, weights): &(usize, [f64; MODES])| {
            let own = self.slot[*source].map(|slot| &row[slot * MODES..(slot + 1) * MODES]);
            own.map_or(0.0, |own| weights.iter().zip(own).map(|(w, k)| w * k).sum())
        };
        places.shows[place].iter().map(one).sum()
    }

    /// Gives each place that is covered a trace, and drops those that have faded.
    fn keep(&mut self, lying: &[Lying]) {
        for place in 0..self.slot.len() {
            if let Some(slot) = self.slot[place]
                && self.face_k(slot).iter().all(|k| k.abs() < FADED_K)
                && lying.iter().all(|piece| piece.place != place)
            {
                self.slot[place] = None;
            }
        }
        for piece in lying {
            if self.slot[piece.place].is_none() {
                let slot = (0..).find(|free| self.slot.iter().all(|taken| *taken != Some(*free))).unwrap_or(0);
                self.columns.make_room((slot + 1) * MODES);
                (0..MODES).for_each(|mode| self.columns.clear(slot * MODES + mode));
                self.slot[piece.place] = Some(slot);
            }
        }
        self.fading.1.clear();
    }

    /// Drives a place's trace for the next step: `given_w_m2` under its outline, and `loss_w_m2_k` for each kelvin it differs.
    fn drive(&mut self, place: usize, given_w_m2: f64, loss_w_m2_k: f64) {
        if let Some(slot) = self.slot[place] {
            for column in slot * MODES..(slot + 1) * MODES {
                self.flux_w_m2[column] = given_w_m2 - loss_w_m2_k * self.columns.row_k(0)[column];
            }
        }
    }

    /// Conduction down and fading sideways.
    pub(super) fn advance(&mut self, step_s: f64) {
        if self.slot.iter().all(Option::is_none) {
            return;
        }
        if self.fading.1.is_empty() || (self.fading.0 - step_s).abs() > 0.0 {
            let left = self.rates_per_s.map(|rate| libm::exp(-rate * step_s));
            self.fading = (step_s, (0..self.columns.width()).map(|column| left[column % MODES]).collect());
        }
        self.columns.advance(step_s, &self.flux_w_m2, None, &[]);
        self.columns.fade(&self.fading.1);
    }
}

impl Hearth<'_> {
    /// What a gun would show of a place, K above the room: its mean, whether a piece lies there or lay there or nearby.
    #[must_use]
    pub fn place_k(&self, place: usize) -> f64 {
        let places = &self.build.places;
        places.all[place].mean(self.faces_over_k()) + self.traces.shows_k(places, place)
    }

    /// What the burner's probe reads at a depth, K above the room.
    pub(super) fn probe_k(&self, depth_m: f64) -> Option<f64> {
        let places = &self.build.places;
        let place = places.probe?;
        let (node, near, far) = self.floor.grid().at_depth(depth_m);
        let at = |node: usize| {
            let trace = node < self.traces.columns.grid().nodes();
            let differs = if trace { self.traces.shows_at_node_k(places, place, node) } else { 0.0 };
            places.all[place].mean(self.floor.row_k(node)) + differs
        };
        Some(near * at(node) + far * at(node + 1))
    }

    /// Conduction alone, with a flux under one place that is covered: for checks against closed runs.
    pub(crate) fn press(&mut self, step_s: f64, place: usize, flux_w_m2: f64) {
        self.floor_flux.fill(0.0);
        for &(i, area) in &self.build.places.all[place].cover {
            self.floor_flux[i] += flux_w_m2 * area / self.build.cell_area_m2[i];
        }
        self.traces.flux_w_m2.resize(self.traces.columns.width(), 0.0);
        self.traces.drive(place, flux_w_m2, 0.0);
        self.conduct(step_s, crate::hearth::burner::Output::default());
        self.time_s += step_s;
    }

    /// Takes note of what lies on the floor; call whenever that changes.
    pub fn lay(&mut self, lying: &[Lying], laws: &[BakeLaw]) {
        self.traces.keep(lying);
        let cells = self.build.plan.cells.len();
        self.covered = vec![0.0; cells];
        let mut absorptivity = vec![0.0; cells];
        for piece in lying {
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

    /// Tells what lies under each piece and what of each tile is bare, K above the room.
    pub(super) fn part(&mut self, lying: &[Lying]) {
        self.bare_k.clear();
        self.bare_k.extend_from_slice(self.floor.row_k(0));
        self.under_k.clear();
        for piece in lying {
            let differs = self.traces.shows_k(&self.build.places, piece.place);
            self.under_k.push(self.build.places.all[piece.place].mean(self.floor.row_k(0)) + differs);
            let share = |i: usize, area: f64| area / self.build.cell_area_m2[i];
            let bare: f64 = piece.cover.iter().map(|&(i, a)| a * (1.0 - self.covered[i])).sum::<f64>() / piece.area_m2;
            // Cold under the piece is warmth beside it, tile by tile.
            let beside = differs / bare.max(LEAST_BARE_SHARE);
            for &(i, area) in &piece.cover {
                self.bare_k[i] -= share(i, area) * beside;
            }
        }
    }

    /// Drives the traces for a step: under a piece by what it takes beside what bare stone would get, else by what cold stone
    /// sends out and gives to the air less.
    pub(super) fn drive_traces(
        &mut self,
        given_w_m2: &[(usize, f64)],
        loss_w_m2_k: impl Fn(f64, &[(usize, f64)]) -> f64,
    ) {
        self.traces.flux_w_m2.resize(self.traces.columns.width(), 0.0);
        self.traces.flux_w_m2.fill(0.0);
        for place in 0..self.traces.slot.len() {
            if self.traces.slot[place].is_some() {
                let given = given_w_m2.iter().find(|given| given.0 == place).map_or(0.0, |given| given.1);
                let loss = loss_w_m2_k(self.place_k(place), &self.build.places.all[place].cover);
                self.traces.drive(place, given, loss);
            }
        }
    }
}
