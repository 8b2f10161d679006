//! Owns one column on a bench: the engine's own conduction with the faces held as a textbook holds them.

use crate::numerics::column::{Columns, DEFAULT_FINENESS, Fineness, Grid, Inner, LANES, Slab};
use crate::numerics::field::{BLOCK, Field};
use crate::numerics::modes::{Modes, RATES};

/// How finely a case is run.
#[derive(Clone, Copy, Debug)]
pub struct Grain {
    /// What it is called on the list.
    pub name: &'static str,
    /// The cut of the stone.
    pub fineness: Fineness,
    /// Rates at which a column's answer is met where it is carried by its modes, as the oven carries it; none where by its nodes.
    pub rates: Option<usize>,
    /// Step, s.
    pub step_s: f64,
    /// Tolerance promised for it, share of the change of the face.
    pub share: f64,
}

/// The oven's own cut, by nodes.
pub const USUAL: Grain =
    Grain { name: "usual grid", fineness: DEFAULT_FINENESS, rates: None, step_s: 1.0, share: 0.005 };
/// As the oven runs: the same cut carried by its modes.
pub const MODES: Grain = Grain { name: "modes of the usual grid", rates: Some(RATES), ..USUAL };
/// By nodes, so fine that only the method is left.
pub const FINE: Grain = Grain {
    name: "fine grid",
    rates: None,
    fineness: Fineness { first_m: 0.000_1, growth: 1.04, coarsest_m: 0.002 },
    step_s: 0.1,
    share: 0.000_5,
};

/// A build-up, cut as a grain has it.
#[derive(Clone, Debug)]
pub struct Cut {
    grid: Grid,
    modes: Option<Modes>,
}

impl Cut {
    /// The build-up, where wanted with a burner under a layer.
    pub fn new(slabs: &[Slab], back_film_w_m2_k: f64, grain: Grain, burner: Option<usize>) -> Self {
        let grid = Grid::new(slabs, back_film_w_m2_k, grain.fineness);
        let inner = burner.map(|layer| grid.joints[layer]);
        let modes = grain.rates.map(|rates| Modes::new(&grid, inner, rates));
        Self { grid, modes }
    }
}

/// A column either way.
#[derive(Clone, Debug)]
enum Body<'c> {
    Nodes(Box<Columns>),
    Modes(Field<'c>),
}

/// One column and its clock. Temperatures are degC with the far room at `room_c`.
#[derive(Clone, Debug)]
pub struct Bench<'c> {
    body: Body<'c>,
    room_c: f64,
    /// Seconds since the start.
    pub time_s: f64,
    /// Heat that entered by the face, J/m2.
    pub entered_j_m2: f64,
}

impl<'c> Bench<'c> {
    /// An even column.
    pub fn new(cut: &'c Cut, start_c: f64, room_c: f64) -> Self {
        let profile = vec![start_c - room_c; cut.grid.nodes()];
        let body = match &cut.modes {
            None => Body::Nodes(Box::new(Columns::new(cut.grid.clone(), 1, &profile))),
            Some(modes) => Body::Modes(Field::new(modes, 1, &profile, [0.0; BLOCK])),
        };
        Self { body, room_c, time_s: 0.0, entered_j_m2: 0.0 }
    }

    /// Two bodies, each even at its own temperature, brought together; their outer faces closed. The node
    /// at the joint, which belongs to both, starts at their mean by heat capacity, so that no heat is made up.
    pub fn two_bodies(slabs: &[Slab; 2], fineness: Fineness, first_c: f64, second_c: f64) -> Self {
        let grid = Grid::new(slabs, 0.0, fineness);
        let joint = grid.joints[0];
        let (near, far) = (grid.shared_j_m2_k[joint - 1], grid.shared_j_m2_k[joint]);
        let between = (near * first_c + far * second_c) / (near + far);
        let profile: Vec<f64> = (0..grid.nodes())
            .map(|node| match node.cmp(&joint) {
                std::cmp::Ordering::Less => first_c,
                std::cmp::Ordering::Equal => between,
                std::cmp::Ordering::Greater => second_c,
            })
            .collect();
        Self {
            body: Body::Nodes(Box::new(Columns::new(grid, 1, &profile))),
            room_c: 0.0,
            time_s: 0.0,
            entered_j_m2: 0.0,
        }
    }

    fn grid(&self) -> &Grid {
        match &self.body {
            Body::Nodes(columns) => columns.grid(),
            Body::Modes(field) => field.grid(),
        }
    }

    /// At a node, K above the far room.
    fn node_k(&self, node: usize) -> f64 {
        match &self.body {
            Body::Nodes(columns) => columns.row_k(node)[0],
            Body::Modes(field) => field.at_node_k(0, node),
        }
    }

    /// Heat in the first layer above a temperature, J/m2: each interval at the mean of its two ends.
    pub fn layer_j_m2(&self, above_c: f64) -> f64 {
        let grid = self.grid();
        let over = |node: usize| self.node_k(node) + self.room_c - above_c;
        (0..grid.joints[0]).map(|i| 2.0 * grid.shared_j_m2_k[i] * (over(i) + over(i + 1))).sum()
    }

    /// The face, degC.
    pub fn face_c(&self) -> f64 {
        let over_k = match &self.body {
            Body::Nodes(columns) => columns.row_k(0)[0],
            Body::Modes(field) => field.faces_k()[0],
        };
        over_k + self.room_c
    }

    /// At a depth, degC.
    pub fn at_c(&self, depth_m: f64) -> f64 {
        let over_k = match &self.body {
            Body::Nodes(columns) => columns.at_depth_k(0, depth_m),
            Body::Modes(field) => field.at_depth_k(0, depth_m),
        };
        over_k + self.room_c
    }

    /// At the joint under a layer, degC.
    pub fn joint_c(&self, layer: usize) -> f64 {
        self.node_k(self.grid().joints[layer]) + self.room_c
    }

    /// Mean over the depth of a column of one stone, degC.
    pub fn mean_c(&self) -> f64 {
        let capacity: f64 = self.grid().capacity_j_m2_k.iter().sum();
        self.stored_j_m2() / capacity + self.room_c
    }

    /// Heat above the far room, J/m2.
    pub fn stored_j_m2(&self) -> f64 {
        match &self.body {
            Body::Nodes(columns) => columns.stored_j(&[1.0]),
            Body::Modes(field) => field.stored_j(&[1.0]),
        }
    }

    /// One step with a flux into the face and another into the joint under a layer: the one the cut has its burner under.
    pub fn push(&mut self, step_s: f64, face_w_m2: f64, under: Option<(usize, f64)>) {
        match &mut self.body {
            Body::Nodes(columns) => {
                let inner = under.map(|(layer, flux_w_m2)| Inner { node: columns.grid().joints[layer], flux_w_m2 });
                columns.advance(step_s, &[face_w_m2; LANES], inner, &[1.0]);
            }
            Body::Modes(field) => {
                let inner_w_m2 = under.map_or(0.0, |(_, flux_w_m2)| flux_w_m2);
                field.advance(step_s, &[face_w_m2; BLOCK], inner_w_m2, &[1.0]);
            }
        }
        self.entered_j_m2 += step_s * face_w_m2;
        self.time_s += step_s;
    }

    /// Runs until a time with a fixed flux, in equal steps no longer than given.
    pub fn flux_until(&mut self, until_s: f64, step_s: f64, face_w_m2: f64) {
        for dt in equal_steps(until_s - self.time_s, step_s) {
            self.push(dt, face_w_m2, None);
        }
    }

    /// Runs until a time with a flux that follows the face: two passes a step, the second with the mean of what the face asks
    /// for before and after. What is followed grows smooth with time, and so the steps may grow to a hundredth of the time.
    pub fn follow_until(&mut self, until_s: f64, step_s: f64, flux_w_m2: impl Fn(f64) -> f64) {
        while self.time_s < until_s - 1e-9 {
            let dt = (0.01 * self.time_s).clamp(step_s, 40.0 * step_s).min(until_s - self.time_s);
            self.follow(dt, &flux_w_m2);
        }
    }

    /// The same with even steps, for what has just changed.
    pub fn follow_evenly(&mut self, until_s: f64, step_s: f64, flux_w_m2: impl Fn(f64) -> f64) {
        for dt in equal_steps(until_s - self.time_s, step_s) {
            self.follow(dt, &flux_w_m2);
        }
    }

    /// One step under a flux that follows the face.
    fn follow(&mut self, step_s: f64, flux_w_m2: &impl Fn(f64) -> f64) {
        let before = flux_w_m2(self.face_c());
        let mut after = before;
        for _ in 0..PASSES {
            let mut tried = self.clone();
            tried.push(step_s, 0.5 * (before + after), None);
            after = flux_w_m2(tried.face_c());
        }
        self.push(step_s, 0.5 * (before + after), None);
    }

    /// Mean flux that holds the face at a temperature over a span, in a few steps, W/m2.
    pub fn hold_over(&mut self, span_s: f64, face_c: f64) -> f64 {
        let steps = 8;
        let sum: f64 = (0..steps).map(|_| self.hold(span_s / f64::from(steps), face_c)).sum();
        sum / f64::from(steps)
    }

    /// One step that ends with the face at a temperature; the flux that does it, W/m2. The answer is linear in the flux.
    pub fn hold(&mut self, step_s: f64, face_c: f64) -> f64 {
        let tried = |flux: f64| {
            let mut copy = self.clone();
            copy.push(step_s, flux, None);
            copy.face_c()
        };
        let (none, some) = (tried(0.0), tried(PROBE_W_M2));
        let flux = (face_c - none) / (some - none) * PROBE_W_M2;
        self.push(step_s, flux, None);
        flux
    }
}

/// Passes in which a flux that follows the face settles.
const PASSES: usize = 3;
/// Flux with which the face's answer to a flux is measured, W/m2.
const PROBE_W_M2: f64 = 1000.0;

/// Steps of equal length, none longer than `step_s`, that fill `span_s`.
fn equal_steps(span_s: f64, step_s: f64) -> impl Iterator<Item = f64> {
    let count = (span_s / step_s - 1e-9).ceil().max(0.0);
    std::iter::repeat_n(span_s / count.max(1.0), count as usize)
}
