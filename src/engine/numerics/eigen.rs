//! Owns eigenvalues and eigenvectors of small symmetric matrices: cyclic Jacobi rotations (Golub & Van Loan, Matrix
//! Computations, 8.5).

/// Sweeps after which the search is given up; six or seven suffice for the sizes met.
const SWEEPS: usize = 40;

/// Turns a symmetric row-major `size` x `size` matrix into its eigenvalues, on its diagonal, and gives the eigenvectors: column by
/// column in a row-major matrix, orthonormal, in no order of size.
#[must_use]
pub fn eigenvectors(size: usize, matrix: &mut [f64]) -> Vec<f64> {
    let mut vectors = vec![0.0; size * size];
    (0..size).for_each(|i| vectors[i * size + i] = 1.0);
    let least = 1e-3 * f64::EPSILON * (0..size).map(|i| matrix[i * size + i].abs()).sum::<f64>();
    for _ in 0..SWEEPS {
        let mut turned = false;
        for p in 0..size {
            for q in p + 1..size {
                turned |= rotate(size, matrix, &mut vectors, (p, q), least);
            }
        }
        if !turned {
            break;
        }
    }
    vectors
}

/// Rotates rows and columns p and q so that the element between them vanishes; `false` where it already does, or is `least`.
fn rotate(size: usize, matrix: &mut [f64], vectors: &mut [f64], (p, q): (usize, usize), least: f64) -> bool {
    let (off, first, second) = (matrix[p * size + q], matrix[p * size + p], matrix[q * size + q]);
    if off.abs() <= least.max(f64::EPSILON * (first * second).abs().sqrt()) {
        return false;
    }
    let theta = (second - first) / (2.0 * off);
    let tangent = 1.0_f64.copysign(theta) / (theta.abs() + (theta * theta + 1.0).sqrt());
    let cosine = 1.0 / (tangent * tangent + 1.0).sqrt();
    let sine = tangent * cosine;
    for k in 0..size {
        let (a, b) = (matrix[k * size + p], matrix[k * size + q]);
        (matrix[k * size + p], matrix[k * size + q]) = (cosine * a - sine * b, sine * a + cosine * b);
    }
    for k in 0..size {
        let (a, b) = (matrix[p * size + k], matrix[q * size + k]);
        (matrix[p * size + k], matrix[q * size + k]) = (cosine * a - sine * b, sine * a + cosine * b);
        let (a, b) = (vectors[k * size + p], vectors[k * size + q]);
        (vectors[k * size + p], vectors[k * size + q]) = (cosine * a - sine * b, sine * a + cosine * b);
    }
    (matrix[p * size + q], matrix[q * size + p]) = (0.0, 0.0);
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_second_difference_has_its_closed_form() {
        // Eigenvalues of the n x n second difference: 2 - 2 cos(k pi / (n + 1)).
        let n = 7;
        let element = |i: usize, j: usize| [2.0, -1.0, 0.0][i.abs_diff(j).min(2)];
        let original: Vec<f64> = (0..n * n).map(|at| element(at / n, at % n)).collect();
        let mut matrix = original.clone();
        let vectors = eigenvectors(n, &mut matrix);
        let mut got: Vec<f64> = (0..n).map(|i| matrix[i * n + i]).collect();
        got.sort_by(f64::total_cmp);
        for (k, got) in got.iter().enumerate() {
            let angle = (k + 1) as f64 * std::f64::consts::PI / (n + 1) as f64;
            assert!((got - (2.0 - 2.0 * libm::cos(angle))).abs() < 1e-14, "{k}: {got}");
        }
        for mode in 0..n {
            for row in 0..n {
                let image: f64 = (0..n).map(|k| original[row * n + k] * vectors[k * n + mode]).sum();
                assert!((image - matrix[mode * n + mode] * vectors[row * n + mode]).abs() < 1e-14);
            }
        }
    }
}
