//! Owns columns carried by their few slow modes: the same conduction as `column`, with a dozen numbers for each column, not forty.
//!
//! What matters of a column is how its face answers what flows into it, from a second to days. That answer is kept by Galerkin's
//! projection onto a rational Krylov space: the column's steady answers to a flux at the face that grows as e^(s t), for rates s
//! spread evenly by their logarithm (Ruhe, A. (1984) Linear Algebra Appl. 58:391-405; Grimme, E. (1997), Krylov projection methods
//! for model reduction, ch. 3: each rate is met with its slope). Its error falls with the number of rates as e^(-c n). The even
//! profile and the one that falls behind the first layer are in the space too, so that rested columns are exact and heat is
//! conserved to rounding. The projected pair of matrices is brought to diagonal form, and each mode then steps exactly under a
//! flux that is held: no step is too long for it.

use super::column::Grid;
use super::eigen::eigenvectors;

/// Rates the face's answer is met at, 1/s: from a second to a working day.
const RATES_PER_S: [f64; 2] = [3e-5, 1.0];
/// How many of them by default: after jumps of 37 kW/m2 the face is within 0.2 K, depths within 0.8 K.
pub const RATES: usize = 12;
/// How many fewer for a flux at an inner node: nobody reads it within seconds.
const INNER_FEWER: usize = 2;
/// Modes that fade faster than this pass no heat on sideways, 1/s: within their time it gets millimetres far.
const SIDEWAYS_PER_S: f64 = 1.0 / 20.0;
/// What of a vector is new to the space counts from this share on.
const NEW_SHARE: f64 = 1e-7;
/// ... if of its squares at least this share is stored heat: the box scheme's zigzag stores none.
const SMOOTH_SHARE: f64 = 1e-4;

/// A build-up's modes.
#[derive(Clone, Debug, PartialEq)]
pub struct Modes {
    pub(super) grid: Grid,
    pub(super) count: usize,
    /// How fast each mode fades, 1/s.
    pub(super) rates_per_s: Vec<f64>,
    /// Node by node what each mode shows there for a kelvin at the face.
    pub(super) shape: Vec<f64>,
    /// What a flux drives each mode by, K/s at the face for each W/m2: into the face, and at the inner node.
    pub(super) face_gain: Vec<f64>,
    pub(super) inner_gain: Vec<f64>,
    /// Mode by mode what each node's kelvin counts for.
    pub(super) analysis: Vec<f64>,
    /// Heat each mode holds for a kelvin at the face, J/(m2 K), and heat that leaves by the back as it fades by one.
    pub(super) heat_j_m2_k: Vec<f64>,
    pub(super) leaves_j_m2_k: Vec<f64>,
    /// How many of them, the slowest, pass heat on sideways, and what a difference in each drives each by: see `spread`.
    pub(super) slow: usize,
    pub(super) across: Vec<f64>,
}

/// The column's matrices, symmetric and tridiagonal.
struct Pair<'g> {
    grid: &'g Grid,
    mass: Vec<f64>,
}

impl<'g> Pair<'g> {
    fn new(grid: &'g Grid) -> Self {
        let shared = |i: usize| grid.shared_j_m2_k.get(i).copied().unwrap_or(0.0);
        let before = |i: usize| if i > 0 { shared(i - 1) } else { 0.0 };
        let mass = grid.capacity_j_m2_k.iter().enumerate().map(|(i, c)| c - shared(i) - before(i)).collect();
        Self { grid, mass }
    }

    /// Stored heat of one profile seen by another.
    fn stored(&self, a: &[f64], b: &[f64]) -> f64 {
        let own: f64 = self.mass.iter().zip(a).zip(b).map(|((m, a), b)| m * a * b).sum();
        let next: f64 =
            self.grid.shared_j_m2_k.iter().enumerate().map(|(i, m)| m * (a[i] * b[i + 1] + a[i + 1] * b[i])).sum();
        own + next
    }

    /// Conducted heat of one profile seen by another.
    fn conducted(&self, a: &[f64], b: &[f64]) -> f64 {
        let last = a.len() - 1;
        let through = self.grid.conductance_w_m2_k.iter().enumerate();
        let inside: f64 = through.map(|(i, g)| g * (a[i] - a[i + 1]) * (b[i] - b[i + 1])).sum();
        inside + self.grid.back_film_w_m2_k * a[last] * b[last]
    }

    /// The profile a unit flux at a node holds while it grows at a rate, times anything.
    fn answer(&self, node: usize, rate_per_s: f64) -> Vec<f64> {
        let (grid, nodes) = (self.grid, self.mass.len());
        let link = |i: usize| grid.conductance_w_m2_k[i] - rate_per_s * grid.shared_j_m2_k[i];
        let (mut pivot, mut right) = (vec![0.0; nodes], vec![0.0; nodes]);
        right[node] = 1.0;
        for i in 0..nodes {
            let to_back = grid.conductance_w_m2_k.get(i).copied().unwrap_or(grid.back_film_w_m2_k);
            pivot[i] = rate_per_s * self.mass[i] + to_back;
            if i > 0 {
                pivot[i] += grid.conductance_w_m2_k[i - 1] - link(i - 1) * link(i - 1) / pivot[i - 1];
                right[i] += link(i - 1) / pivot[i - 1] * right[i - 1];
            }
        }
        for i in (0..nodes).rev() {
            if i + 1 < nodes {
                right[i] += link(i) * right[i + 1];
            }
            right[i] /= pivot[i];
        }
        right
    }
}

/// Rates the answers are taken at, from the slowest.
fn rate_per_s(n: usize, rates: usize) -> f64 {
    let [slow, fast] = RATES_PER_S;
    slow * libm::pow(fast / slow, n as f64 / (rates - 1) as f64)
}

/// Vectors that span the space, orthonormal by stored heat. What zigzags from node to node holds none and has no place in it.
fn space(pair: &Pair<'_>, inner: Option<usize>, rates: usize) -> Vec<Vec<f64>> {
    let (grid, mut space) = (pair.grid, Vec::<Vec<f64>>::new());
    let joint = grid.depth_m[grid.joints[0]];
    let mut wanted = vec![vec![1.0; grid.nodes()], grid.depth_m.iter().map(|x| (x - joint).max(0.0)).collect()];
    wanted.extend((0..rates).map(|n| pair.answer(0, rate_per_s(n, rates))));
    if let Some(node) = inner {
        wanted.extend((0..rates - INNER_FEWER).map(|n| pair.answer(node, rate_per_s(n, rates))));
    }
    let size = |a: &[f64]| -> f64 { grid.capacity_j_m2_k.iter().zip(a).map(|(c, a)| c * a * a).sum() };
    for mut vector in wanted {
        let whole = size(&vector);
        for _ in 0..2 {
            for have in &space {
                let part = pair.stored(&vector, have);
                vector.iter_mut().zip(have).for_each(|(v, h)| *v -= part * h);
            }
        }
        let (left, new) = (size(&vector), pair.stored(&vector, &vector));
        if left > NEW_SHARE * NEW_SHARE * whole && new > SMOOTH_SHARE * left {
            let scale = 1.0 / new.sqrt();
            space.push(vector.iter().map(|v| scale * v).collect());
        }
    }
    space
}

/// The modes' profiles, orthonormal by stored heat.
fn profiles(pair: &Pair<'_>, space: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let size = space.len();
    let mut matrix: Vec<f64> =
        (0..size * size).map(|at| pair.conducted(&space[at / size], &space[at % size])).collect();
    let vectors = eigenvectors(size, &mut matrix);
    let profile = |mode: usize| {
        let mut sum = vec![0.0; space[0].len()];
        for (k, vector) in space.iter().enumerate() {
            sum.iter_mut().zip(vector).for_each(|(s, v)| *s += vectors[k * size + mode] * v);
        }
        sum
    };
    // The slowest first.
    let mut order: Vec<usize> = (0..size).collect();
    super::order::by(&mut order, |&a, &b| matrix[a * size + a].total_cmp(&matrix[b * size + b]));
    order.into_iter().map(profile).collect()
}

impl Modes {
    /// The modes of a build-up that is heated at its face, and at an inner node if one is given; its answer is met at so many rates
    /// (three or more, usually [`RATES`]).
    #[must_use]
    pub fn new(grid: &Grid, inner: Option<usize>, rates: usize) -> Self {
        let pair = Pair::new(grid);
        let profiles = profiles(&pair, &space(&pair, inner, rates));
        let (count, nodes) = (profiles.len(), grid.nodes());
        let (one, last) = (vec![1.0; nodes], nodes - 1);
        let mut modes = Self {
            grid: grid.clone(),
            count,
            rates_per_s: Vec::new(),
            shape: vec![0.0; nodes * count],
            face_gain: Vec::new(),
            inner_gain: Vec::new(),
            analysis: Vec::new(),
            heat_j_m2_k: Vec::new(),
            leaves_j_m2_k: Vec::new(),
            slow: 0,
            across: Vec::new(),
        };
        for (mode, profile) in profiles.iter().enumerate() {
            let face = profile[0];
            let rate = pair.conducted(profile, profile) / pair.stored(profile, profile);
            modes.rates_per_s.push(rate);
            (0..nodes).for_each(|node| modes.shape[node * count + mode] = profile[node] / face);
            modes.face_gain.push(face * face);
            modes.inner_gain.push(inner.map_or(0.0, |node| face * profile[node]));
            modes.heat_j_m2_k.push(pair.stored(profile, &one) / face);
            let film = grid.back_film_w_m2_k;
            modes.leaves_j_m2_k.push(if film > 0.0 { film * profile[last] / (rate * face) } else { 0.0 });
            let shared = |i: usize| grid.shared_j_m2_k.get(i).copied().unwrap_or(0.0);
            modes.analysis.extend((0..nodes).map(|i| {
                let before = if i > 0 { shared(i - 1) * profile[i - 1] } else { 0.0 };
                face * (pair.mass[i] * profile[i] + before + if i < last { shared(i) * profile[i + 1] } else { 0.0 })
            }));
        }
        modes.weigh_across(&profiles);
        modes
    }

    /// What each mode passes on sideways through the first layer: its height at each node, weighed by the modes there.
    fn weigh_across(&mut self, profiles: &[Vec<f64>]) {
        let (depth, joint) = (&self.grid.depth_m, self.grid.joints[0]);
        self.slow = self.rates_per_s.iter().filter(|&&rate| rate < SIDEWAYS_PER_S).count();
        self.across = vec![0.0; self.slow * self.slow];
        for node in 0..=joint {
            let near = if node == 0 { 0.0 } else { depth[node - 1] };
            let far = if node == joint { depth[node] } else { depth[node + 1] };
            for (to, drive) in profiles[..self.slow].iter().enumerate() {
                for (from, differ) in profiles[..self.slow].iter().enumerate() {
                    self.across[to * self.slow + from] +=
                        0.5 * (far - near) * drive[0] * drive[node] * differ[node] / differ[0];
                }
            }
        }
    }

    /// The grid they stand for.
    #[must_use]
    pub fn grid(&self) -> &Grid {
        &self.grid
    }

    /// How many there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.count
    }
}
