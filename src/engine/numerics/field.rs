//! Owns many columns carried by their modes, and their steps: each mode fades and is driven exactly while a flux is held.
//!
//! Steps and exchange run on vectors twice as wide where the machine has them; no lane meets another and nothing is contracted, so
//! both give the same bits.

use multiversion::multiversion;

use super::column::Grid;
use super::modes::Modes;

/// Columns lie side by side in blocks of this many.
pub const BLOCK: usize = 4;

/// What is left of each mode after a step, and what a unit flux adds to it, lane by lane.
#[derive(Clone, Debug, Default, PartialEq)]
struct Factor {
    step_s: f64,
    lanes: Vec<[[f64; BLOCK]; 2]>,
}

/// Many columns by their modes. Temperatures are relative to the room on the far side of the back film, K.
#[derive(Clone, Debug, PartialEq)]
pub struct Field<'m> {
    modes: &'m Modes,
    count: usize,
    /// Block by block, mode by mode, lane by lane: what the mode shows at the face, K.
    amounts: Vec<[f64; BLOCK]>,
    faces: Vec<f64>,
    /// Rates at which the lanes of a block fade besides, 1/s.
    fading_per_s: [f64; BLOCK],
    factor: Factor,
    /// Heat that came in by the faces and at the inner nodes since the account was opened, J, and each mode's amount then, K m2.
    came_j: [f64; 2],
    opened_k_m2: Vec<f64>,
}

impl<'m> Field<'m> {
    /// `count` columns, each starting with the same profile (K above the room by node). Within a block of four they may fade at
    /// rates of their own besides.
    #[must_use]
    pub fn new(modes: &'m Modes, count: usize, profile_k: &[f64], fading_per_s: [f64; BLOCK]) -> Self {
        let blocks = count.div_ceil(BLOCK);
        let mut field = Self {
            modes,
            count,
            amounts: vec![[0.0; BLOCK]; blocks * modes.count],
            faces: vec![0.0; blocks * BLOCK],
            fading_per_s,
            factor: Factor::default(),
            came_j: [0.0; 2],
            opened_k_m2: vec![0.0; modes.count],
        };
        field.add(profile_k);
        field
    }

    /// The grid the columns stand for.
    #[must_use]
    pub fn grid(&self) -> &'m Grid {
        &self.modes.grid
    }

    /// Columns with padding; a flux slice must be this long.
    #[must_use]
    pub fn width(&self) -> usize {
        self.faces.len()
    }

    /// Each column's face, K above the room.
    #[must_use]
    pub fn faces_k(&self) -> &[f64] {
        &self.faces[..self.count]
    }

    /// One column at one node, K above the room.
    #[must_use]
    pub fn at_node_k(&self, column: usize, node: usize) -> f64 {
        let (from, lane) = (column / BLOCK * self.modes.count, column % BLOCK);
        let shape = &self.modes.shape[node * self.modes.count..(node + 1) * self.modes.count];
        self.amounts[from..].iter().zip(shape).map(|(amounts, shape)| amounts[lane] * shape).sum()
    }

    /// One column at a depth, K above the room.
    #[must_use]
    pub fn at_depth_k(&self, column: usize, depth_m: f64) -> f64 {
        let (node, near, far) = self.grid().at_depth(depth_m);
        near * self.at_node_k(column, node) + far * self.at_node_k(column, node + 1)
    }

    /// Every column at one node, K above the room, block by block, the lanes of a block at once: what goes over all columns goes by
    /// this.
    fn blocks_at_node_k(&self, node: usize) -> impl Iterator<Item = [f64; BLOCK]> {
        let shape = &self.modes.shape[node * self.modes.count..(node + 1) * self.modes.count];
        self.amounts.chunks_exact(self.modes.count).map(move |block| {
            let sum = |sum: [f64; BLOCK], (amounts, shape): (&[f64; BLOCK], &f64)| {
                std::array::from_fn(|lane| sum[lane] + amounts[lane] * shape)
            };
            block.iter().zip(shape).fold([0.0; BLOCK], sum)
        })
    }

    /// The most of any column at one node, K above the room.
    #[must_use]
    pub fn most_at_node_k(&self, node: usize) -> f64 {
        self.blocks_at_node_k(node).flatten().take(self.count).fold(f64::NEG_INFINITY, f64::max)
    }

    /// Every column at a depth, K above the room.
    pub fn all_at_depth_k(&self, depth_m: f64) -> impl Iterator<Item = f64> {
        let (node, near, far) = self.grid().at_depth(depth_m);
        let both = self.blocks_at_node_k(node).zip(self.blocks_at_node_k(node + 1));
        both.flat_map(move |(a, b)| std::array::from_fn::<f64, BLOCK, _>(|lane| near * a[lane] + far * b[lane]))
            .take(self.count)
    }

    /// Adds a profile to every column.
    pub fn add(&mut self, profile_k: &[f64]) {
        let nodes = self.grid().nodes();
        let analysis = self.modes.analysis.chunks_exact(nodes);
        let parts: Vec<f64> =
            analysis.map(|row| row.iter().zip(profile_k).map(|(weight, k)| weight * k).sum()).collect();
        for block in self.amounts.chunks_exact_mut(parts.len()) {
            for (amounts, part) in block.iter_mut().zip(&parts) {
                amounts.iter_mut().for_each(|amount| *amount += part);
            }
        }
        self.show();
    }

    /// Multiplies all by a factor.
    pub fn scale(&mut self, factor: f64) {
        self.amounts.iter_mut().flatten().for_each(|amount| *amount *= factor);
        self.show();
    }

    /// Sets one block of columns to zero.
    pub fn clear(&mut self, block: usize) {
        let modes = self.modes.count;
        self.amounts[block * modes..(block + 1) * modes].fill([0.0; BLOCK]);
        self.faces[block * BLOCK..(block + 1) * BLOCK].fill(0.0);
    }

    /// Makes room for at least `count` columns; new ones begin at zero, old ones keep their place.
    pub fn make_room(&mut self, count: usize) {
        if count > self.count {
            self.count = count;
            self.faces.resize(count.div_ceil(BLOCK) * BLOCK, 0.0);
            self.amounts.resize(count.div_ceil(BLOCK) * self.modes.count, [0.0; BLOCK]);
        }
    }

    /// Works the faces out anew.
    fn show(&mut self) {
        let blocks = self.amounts.chunks_exact(self.modes.count).zip(self.faces.chunks_exact_mut(BLOCK));
        for (block, faces) in blocks {
            faces.fill(0.0);
            for amounts in block {
                faces.iter_mut().zip(amounts).for_each(|(face, amount)| *face += amount);
            }
        }
    }

    /// Each mode's amount added over the columns with the areas given, K m2.
    fn sums_k_m2(&self, area_m2: &[f64]) -> Vec<f64> {
        let mut sums = vec![0.0; self.modes.count];
        for (block, areas) in self.amounts.chunks_exact(self.modes.count).zip(area_m2.chunks(BLOCK)) {
            for (sum, amounts) in sums.iter_mut().zip(block) {
                *sum += amounts.iter().zip(areas).map(|(amount, area)| amount * area).sum::<f64>();
            }
        }
        sums
    }

    /// Heat in all columns above the room with the areas given, J.
    #[must_use]
    pub fn stored_j(&self, area_m2: &[f64]) -> f64 {
        self.sums_k_m2(area_m2).iter().zip(&self.modes.heat_j_m2_k).map(|(sum, heat)| sum * heat).sum()
    }

    /// By how much a face rises for each W/m2 that has flowed into it for a time, K m2/W.
    #[must_use]
    pub fn answer_k_m2_w(&self, held_for_s: f64) -> f64 {
        let modes = self.modes.rates_per_s.iter().zip(&self.modes.face_gain);
        modes.map(|(rate, gain)| gain * held_s(*rate, held_for_s)).sum()
    }

    /// Opens the account of what leaves by the back films.
    pub fn open_account(&mut self, area_m2: &[f64]) {
        self.came_j = [0.0; 2];
        self.opened_k_m2 = self.sums_k_m2(area_m2);
    }

    /// What has left by the back films since the account was opened, J, with the areas given: for each mode the integral of what it
    /// shows at the back, from how far it fell short of what drove it.
    #[must_use]
    pub fn left_j(&self, area_m2: &[f64]) -> f64 {
        let [face_j, inner_j] = self.came_j;
        let mut left_j = 0.0;
        for (mode, now) in self.sums_k_m2(area_m2).iter().enumerate() {
            let driven = self.modes.face_gain[mode] * face_j + self.modes.inner_gain[mode] * inner_j;
            left_j += self.modes.leaves_j_m2_k[mode] * (self.opened_k_m2[mode] - now + driven);
        }
        left_j
    }

    /// Advances by `step_s` with `face_w_m2` into each face (padded width) and a flux at the inner node of every column; the areas
    /// are for the account.
    pub fn advance(&mut self, step_s: f64, face_w_m2: &[f64], inner_w_m2: f64, area_m2: &[f64]) {
        if (self.factor.step_s - step_s).abs() > 0.0 {
            self.factor_for(step_s);
        }
        let faces = self.faces.as_chunks_mut().0;
        step_blocks(self.modes.count, &mut self.amounts, &self.factor.lanes, face_w_m2.as_chunks().0, faces);
        self.came_j[0] += step_s * super::linear::dot(&face_w_m2[..area_m2.len()], area_m2);
        if inner_w_m2.abs() > 0.0 {
            self.heat_inside(step_s, inner_w_m2);
            self.came_j[1] += step_s * inner_w_m2 * area_m2.iter().sum::<f64>();
        }
    }

    /// What a flux at the inner node adds over a step.
    fn heat_inside(&mut self, step_s: f64, inner_w_m2: f64) {
        let held = |rate: &f64| held_s(*rate, step_s);
        let added: Vec<f64> =
            self.modes.rates_per_s.iter().zip(&self.modes.inner_gain).map(|(r, g)| held(r) * g).collect();
        for block in self.amounts.chunks_exact_mut(added.len()) {
            for (amounts, added) in block.iter_mut().zip(&added) {
                amounts.iter_mut().for_each(|amount| *amount += added * inner_w_m2);
            }
        }
        self.show();
    }

    fn factor_for(&mut self, step_s: f64) {
        self.factor.step_s = step_s;
        self.factor.lanes.clear();
        let alike = self.fading_per_s.iter().all(|rate| (rate - self.fading_per_s[0]).abs() <= 0.0);
        for (rate, gain) in self.modes.rates_per_s.iter().zip(&self.modes.face_gain) {
            let mut lanes = [[0.0; BLOCK]; 2];
            for lane in 0..if alike { 1 } else { BLOCK } {
                let held = held_s(rate + self.fading_per_s[lane], step_s);
                (lanes[0][lane], lanes[1][lane]) = (1.0 - (rate + self.fading_per_s[lane]) * held, gain * held);
            }
            if alike {
                lanes = lanes.map(|lanes| [lanes[0]; BLOCK]);
            }
            self.factor.lanes.push(lanes);
        }
    }

    /// Conduction sideways through the first layer over `span_s`, explicit. Modes that fade within such a span are left out.
    pub fn spread(&mut self, span_s: f64, passes: &[Pass]) {
        let (count, slow) = (self.modes.count, self.modes.slow);
        spread_blocks([count, slow], &mut self.amounts, &self.modes.across, span_s, passes);
        self.show();
    }
}

/// The exchange of neighbours: cell by cell side by side in quads of modes, each pair passes on what it differs by, and what a cell
/// gained in its slow modes drives all of them.
#[multiversion(targets("x86_64+avx+avx2"))]
fn spread_blocks(
    [count, slow]: [usize; 2],
    amounts: &mut [[f64; BLOCK]],
    across: &[f64],
    span_s: f64,
    passes: &[Pass],
) {
    let quads = slow.div_ceil(BLOCK);
    let mut before = vec![[0.0; BLOCK]; amounts.len() / count * BLOCK * quads];
    for (block, cells) in amounts.chunks_exact(count).zip(before.chunks_exact_mut(BLOCK * quads)) {
        for (mode, amounts) in block[..slow].iter().enumerate() {
            (0..BLOCK).for_each(|lane| cells[lane * quads + mode / BLOCK][mode % BLOCK] = amounts[lane]);
        }
    }
    let mut gained = vec![[0.0; BLOCK]; before.len()];
    for pass in passes {
        let (head, tail) = gained.split_at_mut(pass.b * quads);
        let (to_a, to_b) = (&mut head[pass.a * quads..(pass.a + 1) * quads], &mut tail[..quads]);
        let (at_a, at_b) =
            (&before[pass.a * quads..(pass.a + 1) * quads], &before[pass.b * quads..(pass.b + 1) * quads]);
        exchange(at_a, at_b, [span_s * pass.by_a_w_m3_k, span_s * pass.by_b_w_m3_k], to_a, to_b);
    }
    let mut own = vec![[0.0; BLOCK]; slow];
    for (block, cells) in amounts.chunks_exact_mut(count).zip(gained.chunks_exact(BLOCK * quads)) {
        for (mode, own) in own.iter_mut().enumerate() {
            *own = std::array::from_fn(|lane| cells[lane * quads + mode / BLOCK][mode % BLOCK]);
        }
        for (amounts, weights) in block.iter_mut().zip(across.chunks_exact(slow)) {
            let mut sum = *amounts;
            for (weight, own) in weights.iter().zip(&own) {
                sum = std::array::from_fn(|lane| sum[lane] + weight * own[lane]);
            }
            *amounts = sum;
        }
    }
}

/// What two columns that touch pass to each other, all modes.
#[inline]
fn exchange(
    at_a: &[[f64; BLOCK]],
    at_b: &[[f64; BLOCK]],
    by: [f64; 2],
    to_a: &mut [[f64; BLOCK]],
    to_b: &mut [[f64; BLOCK]],
) {
    for ((a, b), (to_a, to_b)) in at_a.iter().zip(at_b).zip(to_a.iter_mut().zip(to_b)) {
        let differs: [f64; BLOCK] = std::array::from_fn(|lane| a[lane] - b[lane]);
        *to_a = std::array::from_fn(|lane| to_a[lane] - by[0] * differs[lane]);
        *to_b = std::array::from_fn(|lane| to_b[lane] + by[1] * differs[lane]);
    }
}

/// Two columns that touch, a before b, and what each gains for a kelvin's difference along a metre of height, by its own area.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pass {
    /// One column.
    pub a: usize,
    /// The other.
    pub b: usize,
    /// Conductivity times edge length over distance and area of a, W/(m3 K).
    pub by_a_w_m3_k: f64,
    /// The same by the area of b.
    pub by_b_w_m3_k: f64,
}

/// Each block over one step: each mode fades, is driven, and adds to the faces.
#[multiversion(targets("x86_64+avx+avx2"))]
fn step_blocks(
    count: usize,
    amounts: &mut [[f64; BLOCK]],
    factor: &[[[f64; BLOCK]; 2]],
    flux: &[[f64; BLOCK]],
    faces: &mut [[f64; BLOCK]],
) {
    for ((block, faces), flux) in amounts.chunks_exact_mut(count).zip(faces).zip(flux) {
        let mut sum = [0.0; BLOCK];
        for (amounts, [fade, gain]) in block.iter_mut().zip(factor) {
            let new: [f64; BLOCK] = std::array::from_fn(|lane| fade[lane] * amounts[lane] + gain[lane] * flux[lane]);
            *amounts = new;
            sum = std::array::from_fn(|lane| sum[lane] + new[lane]);
        }
        *faces = sum;
    }
}

/// (1 - e^(-rate t)) / rate.
fn held_s(rate_per_s: f64, step_s: f64) -> f64 {
    let fades = rate_per_s * step_s;
    if fades > f64::EPSILON { -libm::expm1(-fades) / rate_per_s } else { step_s }
}

#[cfg(test)]
mod tests;
