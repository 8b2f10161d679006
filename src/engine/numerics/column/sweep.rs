//! Owns one step of many columns: both stages, a block of columns at a time, on the widest vectors the machine has.
//!
//! A block goes through both sweeps of both stages before the next one begins, so that it stays in the nearest cache; the row before
//! is carried in registers (through memory is half as fast). Which vectors there are is asked when the program runs
//! (`multiversion`). No column meets another and nothing is contracted, so every width gives the same bits.

use super::{Factor, GAMMA, LANES};
#[cfg(not(plain_vectors))]
use multiversion::{multiversion, target::match_target};

/// Columns of a block on wide vectors: the carried row just fits their registers. Measured against 8, 16 and 64.
const WIDEST: usize = 32;
/// The same on vectors of two.
const NARROWER: usize = 16;

/// What a step works on.
pub(super) struct Step<'a> {
    /// Node-major state, which is advanced.
    pub over_k: &'a mut [f64],
    /// Columns including padding: whole lanes.
    pub width: usize,
    /// The eliminated matrix.
    pub factor: &'a Factor,
    /// Flux into each face, W/m2.
    pub face_w_m2: &'a [f64],
    /// Flux at each node, the same in all columns, W/m2.
    pub source_w_m2: &'a [f64],
    /// Room for the right-hand sides of a block: see [`room`].
    pub rows: &'a mut [f64],
    /// The back node of every column in each stage, K: both are filled.
    pub back_k: [&'a mut [f64]; 2],
}

/// How long `rows` must be.
pub(super) fn room(nodes: usize) -> usize {
    nodes * WIDEST
}

/// Takes all columns through one step.
#[cfg(not(plain_vectors))]
#[multiversion(targets("x86_64+avx+avx2+avx512f+avx512vl+avx512dq+avx512bw+avx512cd", "x86_64+avx+avx2"))]
pub(super) fn march(step: &mut Step<'_>) {
    match_target! {
        "x86_64+avx2" => all::<WIDEST>(step),
        _ => all::<NARROWER>(step),
    }
}

/// The same on the vectors it is compiled for and no others, to be measured beside those that are chosen.
#[cfg(plain_vectors)]
pub(super) fn march(step: &mut Step<'_>) {
    if cfg!(target_feature = "avx2") { all::<WIDEST>(step) } else { all::<NARROWER>(step) }
}

/// All columns: as many at a time as suit the vectors, the rest lane by lane.
#[inline(always)]
fn all<const L: usize>(step: &mut Step<'_>) {
    let next = blocks::<L>(step, 0);
    blocks::<LANES>(step, next);
}

/// Whole blocks of so many columns from `from` on; returns where the rest begins.
#[inline(always)]
fn blocks<const L: usize>(step: &mut Step<'_>, from: usize) -> usize {
    let push = (1.0 - GAMMA) / GAMMA;
    let (keep, add) = (1.0 - push, push);
    let rows = step.rows.as_chunks_mut::<L>().0;
    let mut at = from;
    while at + L <= step.width {
        let (over, width) = (&mut *step.over_k, step.width);
        let face = row(step.face_w_m2, at);
        // Stage one starts from the state itself, stage two from the state pushed on by (1 - gamma)/gamma of stage one.
        let own = gather::<L>(over, width, at, step.factor, step.source_w_m2, face, rows);
        let first = solve::<L>(over, width, at, step.factor, own, rows, |old, new| keep * old + add * new);
        let own = gather::<L>(over, width, at, step.factor, step.source_w_m2, face, rows);
        let second = solve::<L>(over, width, at, step.factor, own, rows, |_, new| new);
        step.back_k[0][at..at + L].copy_from_slice(&first);
        step.back_k[1][at..at + L].copy_from_slice(&second);
        at += L;
    }
    at
}

/// One row of a block.
#[inline(always)]
fn row<const L: usize>(field: &[f64], from: usize) -> &[f64; L] {
    &field[from..from + L].as_chunks::<L>().0[0]
}

/// From the back to the face: right-hand sides with the deeper row folded in. The face's is returned, the others are left in `rows`.
#[inline(always)]
fn gather<const L: usize>(
    over: &[f64],
    width: usize,
    at: usize,
    factor: &Factor,
    source: &[f64],
    face: &[f64; L],
    rows: &mut [[f64; L]],
) -> [f64; L] {
    let nodes = source.len();
    let last = nodes - 1;
    let (inertia, upper, rows) = (&factor.inertia[..nodes], &factor.upper[..nodes], &mut rows[..nodes]);
    let shared = &factor.shared[..last];
    let mut carried = [0.0; L];
    {
        let (own, near) = (row::<L>(over, last * width + at), row::<L>(over, (last - 1) * width + at));
        let (weight, nearer, given) = (inertia[last], shared[last - 1], source[last]);
        for k in 0..L {
            carried[k] = weight * own[k] + nearer * near[k] + given;
        }
    }
    rows[last] = carried;
    for i in (1..last).rev() {
        let near = row::<L>(over, (i - 1) * width + at);
        let (own, deep) = (row::<L>(over, i * width + at), row::<L>(over, (i + 1) * width + at));
        let (weight, nearer, deeper) = (inertia[i], shared[i - 1], shared[i]);
        let (below, given) = (upper[i], source[i]);
        for k in 0..L {
            carried[k] = weight * own[k] + nearer * near[k] + deeper * deep[k] + below * carried[k] + given;
        }
        rows[i] = carried;
    }
    let (own, deep) = (row::<L>(over, at), row::<L>(over, width + at));
    let (weight, deeper, below, given) = (inertia[0], shared[0], upper[0], source[0]);
    for k in 0..L {
        carried[k] = weight * own[k] + deeper * deep[k] + below * carried[k] + given + face[k];
    }
    carried
}

/// From the face to the back: solves, and puts into the state what `becomes` makes of the old value and the solved one. Returns the
/// solved back row.
#[inline(always)]
fn solve<const L: usize>(
    over: &mut [f64],
    width: usize,
    at: usize,
    factor: &Factor,
    face: [f64; L],
    rows: &[[f64; L]],
    becomes: impl Fn(f64, f64) -> f64,
) -> [f64; L] {
    let nodes = factor.inverse.len();
    let (inverse, link, rows) = (&factor.inverse[..nodes], &factor.link[..nodes - 1], &rows[..nodes]);
    let mut carried = face;
    {
        let by = inverse[0];
        let own = &mut over[at..at + L];
        for k in 0..L {
            carried[k] *= by;
            own[k] = becomes(own[k], carried[k]);
        }
    }
    for i in 1..nodes {
        let (by, link) = (inverse[i], link[i - 1]);
        let own = &mut over[i * width + at..i * width + at + L];
        for k in 0..L {
            carried[k] = (rows[i][k] + link * carried[k]) * by;
            own[k] = becomes(own[k], carried[k]);
        }
    }
    carried
}
