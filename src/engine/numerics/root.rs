//! Owns the finding of roots of monotone functions: bisection (Press et al., Numerical Recipes, 9.1).

/// The root of `f` between `low` and `high`, to `tolerance` in the argument. `f` must change sign once between them; where it
/// does not, the end with the smaller value is given.
pub fn bisect(mut low: f64, mut high: f64, tolerance: f64, f: impl Fn(f64) -> f64) -> f64 {
    let (at_low, at_high) = (f(low), f(high));
    if (at_low > 0.0) == (at_high > 0.0) {
        return if at_low.abs() < at_high.abs() { low } else { high };
    }
    let rising = at_high > at_low;
    while high - low > tolerance {
        let middle = 0.5 * (low + high);
        if (f(middle) > 0.0) == rising {
            high = middle;
        } else {
            low = middle;
        }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_root_of_two() {
        assert!((bisect(0.0, 2.0, 1e-12, |x| x * x - 2.0) - 2.0_f64.sqrt()).abs() < 1e-11);
        assert!((bisect(0.0, 2.0, 1e-12, |x| 2.0 - x * x) - 2.0_f64.sqrt()).abs() < 1e-11);
    }
}
