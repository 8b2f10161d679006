//! Owns the traces pieces leave in the floor's warmth, and what of a tile is bare and what lies under a piece.

use super::{FADED_K, Hearth, Lying};
use crate::demand::BakeLaw;
use crate::hearth::build::Build;
use crate::hearth::places::{MODES, Places, fade_rates_per_s};
use crate::numerics::field::Field;

/// A tile's bare rest is told apart from the part covered while a piece's tiles are bare by at least this share on average. Our
/// choice.
const LEAST_BARE_SHARE: f64 = 0.05;

/// What a trace loses is taken by a tangent at its place while bare stone is warmer by no more than this, K, and beyond between the
/// two: by a tangent at stone far colder a trace loses too little, and drives itself on. Our choice.
const TANGENT_TO_K: f64 = 150.0;

/// The traces: for each place in use a few columns through the stone, driven alike and fading sideways each at its own rate.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Traces<'b> {
    columns: Field<'b>,
    flux_w_m2: Vec<f64>,
    /// For each place its trace; the first, which stays nought, for those that have none.
    slot: Vec<usize>,
    /// The places that have one, in order, with their traces.
    active: Vec<(usize, usize)>,
    /// How much each of them differed from the mean of its tiles when what lies on the floor last changed, K.
    differed_k: Vec<f64>,
}

impl<'b> Traces<'b> {
    /// No trace yet.
    pub(super) fn new(build: &'b Build) -> Self {
        let rates_per_s = fade_rates_per_s(build.stone.k_w_m_k / build.stone.rho_c_j_m3_k);
        Self {
            columns: Field::new(&build.trace_modes, MODES, &[], rates_per_s),
            flux_w_m2: Vec::new(),
            slot: vec![0; build.places.all.len()],
            active: Vec::new(),
            differed_k: vec![0.0; build.places.all.len()],
        }
    }

    fn face_k(&self, slot: usize) -> &[f64] {
        &self.columns.faces_k()[slot * MODES..(slot + 1) * MODES]
    }

    /// How much a place differs from the mean of its tiles, K.
    fn shows_k(&self, places: &Places, place: usize) -> f64 {
        let faces = self.columns.faces_k().as_chunks::<MODES>().0;
        let mut sums = [0.0; MODES];
        for (source, weights) in &places.shows[place] {
            let face = &faces[self.slot[*source]];
            sums = std::array::from_fn(|mode| sums[mode] + weights[mode] * face[mode]);
        }
        (sums[0] + sums[1]) + (sums[2] + sums[3])
    }

    /// How much a place differs from the mean of its tiles at a node below the face, K.
    fn shows_at_node_k(&self, places: &Places, place: usize, node: usize) -> f64 {
        let one = |(source, weights): &(usize, [f64; MODES])| {
            let at = |mode: usize| self.columns.at_node_k(self.slot[*source] * MODES + mode, node);
            weights.iter().enumerate().map(|(mode, w)| w * at(mode)).sum::<f64>()
        };
        places.shows[place].iter().filter(|(source, _)| self.slot[*source] > 0).map(one).sum()
    }

    /// Gives each place that is covered a trace, and drops those that have faded.
    fn keep(&mut self, lying: &[Lying], places: &Places) {
        for &(place, slot) in &self.active {
            let faded = self.face_k(slot).iter().all(|k| k.abs() < FADED_K);
            if faded && lying.iter().all(|piece| piece.place != place) {
                self.slot[place] = 0;
                self.columns.clear(slot);
            }
        }
        for piece in lying {
            if self.slot[piece.place] == 0 {
                let slot = (1..).find(|free| self.slot.iter().all(|taken| taken != free)).unwrap_or(0);
                self.columns.make_room((slot + 1) * MODES);
                self.columns.clear(slot);
                self.slot[piece.place] = slot;
            }
        }
        self.active = self.slot.iter().copied().enumerate().filter(|(_, slot)| *slot > 0).collect();
        for &(place, _) in &self.active {
            self.differed_k[place] = self.shows_k(places, place);
        }
    }

    /// Drives a trace for the next step: `given_w_m2` under its outline, and for each kelvin it differs the loss that belongs to what
    /// it differs by.
    fn drive(&mut self, slot: usize, given_w_m2: f64, loss_w_m2_k: impl Fn(f64) -> f64) {
        let own = slot * MODES..(slot + 1) * MODES;
        for (flux, &differs_k) in self.flux_w_m2[own.clone()].iter_mut().zip(&self.columns.faces_k()[own]) {
            *flux = given_w_m2 - loss_w_m2_k(differs_k) * differs_k;
        }
    }

    /// Conduction down and fading sideways.
    pub(super) fn advance(&mut self, step_s: f64) {
        if self.active.is_empty() {
            return;
        }
        self.columns.advance(step_s, &self.flux_w_m2, 0.0, &[]);
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
            places.all[place].reads.iter().map(|&(i, w)| w * self.floor.at_node_k(i, node)).sum::<f64>() + differs
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
        self.traces.drive(self.traces.slot[place], flux_w_m2, |_| 0.0);
        self.conduct(step_s, crate::hearth::burner::Output::default());
        self.time_s += step_s;
    }

    /// Takes note of what lies on the floor; call whenever that changes.
    pub fn lay(&mut self, lying: &[Lying], laws: &[BakeLaw]) {
        self.traces.keep(lying, &self.build.places);
        self.covered.fill(0.0);
        let mut absorptivity = vec![0.0; self.covered.len()];
        for piece in lying {
            let top = laws[piece.dish].top_absorptivity();
            for &(i, area) in &piece.cover {
                let share = area / self.build.cell_area_m2[i];
                self.covered[i] += share;
                absorptivity[i] += share * top;
            }
        }
        for (i, covered) in self.covered.iter().enumerate() {
            absorptivity[i] += (1.0 - covered) * self.emissivity;
            self.bare_m2[i] = (1.0 - covered) * self.build.cell_area_m2[i];
        }
        self.enclosure.cover(&absorptivity);
    }

    /// Tells what lies under each piece and what of each tile is bare, K above the room.
    pub(super) fn part(&mut self, lying: &[Lying]) {
        self.bare_k.clear();
        self.bare_k.extend_from_slice(self.floor.faces_k());
        self.under_k.clear();
        for piece in lying {
            let differs = self.traces.shows_k(&self.build.places, piece.place);
            self.under_k.push(self.build.places.all[piece.place].mean(self.floor.faces_k()) + differs);
            let share = |i: usize, area: f64| area / self.build.cell_area_m2[i];
            let bare: f64 = piece.cover.iter().map(|&(i, a)| a * (1.0 - self.covered[i])).sum::<f64>() / piece.area_m2;
            // Cold under the piece is warmth beside it, tile by tile.
            let beside = differs / bare.max(LEAST_BARE_SHARE);
            for &(i, area) in &piece.cover {
                self.bare_k[i] -= share(i, area) * beside;
            }
        }
    }

    /// Drives the traces for a step (the places of pieces, what each gives and its stone, K above the room): under a piece by what it takes beside what bare stone would get, else by what cold stone
    /// sends out and gives to the air less: between what the place has and what bare stone beside it has, or would without the trace
    /// where that is less. The loss is told of both, for radiation grows with more than the difference.
    pub(super) fn drive_traces(
        &mut self,
        given_w_m2: &[(usize, f64, f64)],
        loss_w_m2_k: impl Fn(f64, f64, &[(usize, f64)]) -> f64,
    ) {
        self.traces.flux_w_m2.resize(self.traces.columns.width(), 0.0);
        self.traces.flux_w_m2.fill(0.0);
        for index in 0..self.traces.active.len() {
            let (place, slot) = self.traces.active[index];
            let own = &self.build.places.all[place];
            // Where nothing lies how the place differed a while ago will do: the loss hardly changes with some kelvins.
            let a_while_ago_k = own.mean(self.floor.faces_k()) + self.traces.differed_k[place];
            let lying = given_w_m2.iter().find(|lying| lying.0 == place);
            let (given, over_k) = lying.map_or((0.0, a_while_ago_k), |&(_, given, under_k)| (given, under_k));
            let bare_k = own.mean(&self.bare_k);
            let loss = |differs_k: f64| {
                let warm_k = bare_k.min(over_k - differs_k);
                if warm_k - over_k > TANGENT_TO_K {
                    loss_w_m2_k(over_k, warm_k, &own.cover)
                } else {
                    loss_w_m2_k(a_while_ago_k, a_while_ago_k, &own.cover)
                }
            };
            self.traces.drive(slot, given, loss);
        }
    }
}
