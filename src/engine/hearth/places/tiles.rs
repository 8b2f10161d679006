//! Owns how the exchange of the plan's tiles spreads a trace sideways, for pairs of places near each other.
//!
//! The tiles' exchange is dT/dt = -a L T, so that after a time t it leaves e^(-a t L). The exponential is summed in Chebyshev
//! polynomials of L (Tal-Ezer, H. & Kosloff, R. (1984) J. Chem. Phys. 81:3967-3971), to rounding: one sweep over the polynomials
//! serves all ages at once and all places side by side.

use super::Place;
use crate::hearth::plan::FloorPlan;

/// What is left out of the sum, as a share of the trace.
const LEFT_OUT: f64 = 1e-10;

/// An edge of the plan as the exchange sees it.
struct Passing {
    a: usize,
    b: usize,
    by_a: f64,
    by_b: f64,
}

/// Shares of each pair's trace left over the reader by age: `pairs` are (reader, source), `ages_m` lengths sqrt(a t).
pub(super) fn left<const AGES: usize>(
    plan: &FloorPlan,
    places: &[Place],
    pairs: &[(usize, usize)],
    ages_m: &[f64; AGES],
) -> Vec<[f64; AGES]> {
    let (cells, count) = (plan.cells.len(), places.len());
    let mut field = vec![0.0; cells * count];
    for (q, place) in places.iter().enumerate() {
        for &(i, area) in &place.cover {
            field[i * count + q] = area / plan.cells[i].area_m2;
        }
    }
    let per =
        |edge: &crate::hearth::plan::Edge, cell: usize| edge.length_m / (edge.distance_m * plan.cells[cell].area_m2);
    let mut edges: Vec<Passing> =
        plan.edges.iter().map(|e| Passing { a: e.a, b: e.b, by_a: per(e, e.a), by_b: per(e, e.b) }).collect();
    let mut rate = vec![f64::MIN_POSITIVE; cells];
    for edge in &edges {
        rate[edge.a] += edge.by_a;
        rate[edge.b] += edge.by_b;
    }
    // Gershgorin: no eigenvalue of L is over twice the largest rate. x = L / half - 1 lies within -1..1.
    let half = rate.iter().copied().fold(0.0, f64::max);
    edges.iter_mut().for_each(|edge| (edge.by_a, edge.by_b) = (edge.by_a / half, edge.by_b / half));
    let weights = weights(&ages_m.map(|age| age * age * half));
    let mut shares = vec![[0.0; AGES]; pairs.len()];
    let mut before = vec![0.0; cells * count];
    for (k, weights) in weights.iter().enumerate() {
        if k > 0 {
            // T1 = x T0, then T(k+1) = 2 x T(k) - T(k-1).
            let twice = if k == 1 { 1.0 } else { 2.0 };
            apply(&edges, count, twice, &field, &mut before);
            std::mem::swap(&mut field, &mut before);
        }
        for (shares, &(reader, source)) in shares.iter_mut().zip(pairs) {
            let seen: f64 = places[reader].reads.iter().map(|&(i, part)| part * field[i * count + source]).sum();
            shares.iter_mut().zip(weights).for_each(|(share, weight)| *share += weight * seen);
        }
    }
    shares
}

/// Turns `before` into `twice` x `field` less itself.
fn apply(edges: &[Passing], count: usize, twice: f64, field: &[f64], before: &mut [f64]) {
    before.iter_mut().zip(field).for_each(|(b, f)| *b = -twice * f - *b);
    for edge in edges {
        let (head, tail) = before.split_at_mut(edge.b * count);
        let (to_a, to_b) = (&mut head[edge.a * count..(edge.a + 1) * count], &mut tail[..count]);
        let a = &field[edge.a * count..(edge.a + 1) * count];
        let b = &field[edge.b * count..(edge.b + 1) * count];
        let (by_a, by_b) = (twice * edge.by_a, twice * edge.by_b);
        for q in 0..count {
            let differs = a[q] - b[q];
            to_a[q] += by_a * differs;
            to_b[q] -= by_b * differs;
        }
    }
}

/// Weight of each polynomial in e^(-z (1 + x)) for each z, by Gauss-Chebyshev quadrature; as many polynomials as count.
fn weights<const AGES: usize>(z: &[f64; AGES]) -> Vec<[f64; AGES]> {
    let most = z.iter().copied().fold(0.0, f64::max);
    let nodes = 48 + 16 * most.sqrt().ceil() as usize;
    let step = core::f64::consts::PI / nodes as f64;
    let cosines: Vec<f64> = (0..2 * nodes).map(|n| libm::cos(n as f64 * step)).collect();
    // At the nodes between: cos(k (j + 1/2) step), by the half steps' own table.
    let halves: Vec<f64> = (0..2 * nodes).map(|n| libm::cos((n as f64 + 0.5) * step)).collect();
    let values: Vec<[f64; AGES]> = (0..nodes).map(|j| z.map(|z| libm::exp(-z * (1.0 + halves[j])))).collect();
    let at = |k: usize, j: usize| {
        let turn = k * (2 * j + 1) % (4 * nodes);
        if turn.is_multiple_of(2) { cosines[turn / 2] } else { halves[turn / 2] }
    };
    let mut weights = Vec::new();
    for k in 0..nodes {
        let mut sums = [0.0; AGES];
        for (j, values) in values.iter().enumerate() {
            let cosine = at(k, j);
            sums.iter_mut().zip(values).for_each(|(sum, value)| *sum += cosine * value);
        }
        let scale = if k == 0 { 1.0 } else { 2.0 } / nodes as f64;
        let row = sums.map(|sum| scale * sum);
        if k > 0 && row.iter().all(|weight| weight.abs() < LEFT_OUT) {
            break;
        }
        weights.push(row);
    }
    weights
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sum_is_the_exponential() {
        let z = [0.0, 0.3, 4.0, 25.0, 300.0];
        let weights = weights(&z);
        for x in [-1.0, -0.7, 0.0, 0.2, 0.99, 1.0] {
            let mut sums = [0.0; 5];
            for (k, row) in weights.iter().enumerate() {
                let polynomial = libm::cos(k as f64 * libm::acos(x));
                sums.iter_mut().zip(row).for_each(|(sum, weight)| *sum += weight * polynomial);
            }
            for (z, sum) in z.iter().zip(sums) {
                assert!((sum - libm::exp(-z * (1.0 + x))).abs() < 1e-8, "{z} {x}: {sum}");
            }
        }
    }
}
