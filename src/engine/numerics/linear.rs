//! Owns small dense linear systems: LU with partial pivoting (Golub & Van Loan, Matrix Computations, 3.4).

/// A factored square matrix.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Lu {
    size: usize,
    rows: Vec<f64>,
    order: Vec<usize>,
}

impl Lu {
    /// Factors a row-major `size` x `size` matrix. A singular matrix gives infinities in the answers, which callers check.
    #[must_use]
    pub fn new(size: usize, matrix: &[f64]) -> Self {
        let mut rows = matrix.to_vec();
        let mut order: Vec<usize> = (0..size).collect();
        for k in 0..size {
            let mut pivot = k;
            for i in k + 1..size {
                if rows[i * size + k].abs() > rows[pivot * size + k].abs() {
                    pivot = i;
                }
            }
            if pivot != k {
                order.swap(k, pivot);
                for j in 0..size {
                    rows.swap(k * size + j, pivot * size + j);
                }
            }
            for i in k + 1..size {
                let factor = rows[i * size + k] / rows[k * size + k];
                rows[i * size + k] = factor;
                for j in k + 1..size {
                    rows[i * size + j] -= factor * rows[k * size + j];
                }
            }
        }
        Self { size, rows, order }
    }

    /// Solves for one right-hand side.
    #[must_use]
    pub fn solve(&self, right: &[f64]) -> Vec<f64> {
        let n = self.size;
        let mut x: Vec<f64> = self.order.iter().map(|&i| right[i]).collect();
        for i in 0..n {
            for j in 0..i {
                x[i] -= self.rows[i * n + j] * x[j];
            }
        }
        for i in (0..n).rev() {
            for j in i + 1..n {
                x[i] -= self.rows[i * n + j] * x[j];
            }
            x[i] /= self.rows[i * n + i];
        }
        x
    }
}

/// Sum of products over four running sums: the order is fixed, so every build adds alike, and it runs on vectors.
#[must_use]
pub fn dot(a: &[f64], b: &[f64]) -> f64 {
    let (a4, a_rest) = a.as_chunks::<4>();
    let (b4, b_rest) = b.as_chunks::<4>();
    let mut sums = [0.0; 4];
    for (x, y) in a4.iter().zip(b4) {
        for lane in 0..4 {
            sums[lane] += x[lane] * y[lane];
        }
    }
    let rest: f64 = a_rest.iter().zip(b_rest).map(|(x, y)| x * y).sum();
    (sums[0] + sums[1]) + (sums[2] + sums[3]) + rest
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_small_system_solves() {
        let lu = Lu::new(3, &[0.0, 2.0, 1.0, 1.0, -1.0, 0.0, 3.0, 0.0, 4.0]);
        let x = lu.solve(&[7.0, -1.0, 15.0]);
        for (got, want) in x.iter().zip([1.0, 2.0, 3.0]) {
            assert!((got - want).abs() < 1e-12);
        }
    }
}
