//! Owns the reading of the embedded tables: comma-separated rows, comments after `#`, one line of column names.

/// Rows of a table, its column names left out. A field is trimmed; there are no quotes, so no field holds a comma.
pub fn rows(text: &str) -> impl Iterator<Item = Vec<&str>> {
    text.lines()
        .map(str::trim)
        .filter(|line| !line.is_empty() && !line.starts_with('#'))
        .skip(1)
        .map(|line| line.split(',').map(str::trim).collect())
}

/// How many rows a table has, for tests that none was lost on the way.
#[cfg(test)]
pub(super) fn count(text: &str) -> usize {
    rows(text).count()
}

/// A number of a field; none where it is infinite or none at all.
#[must_use]
pub fn number(field: &str) -> Option<f64> {
    crate::units::decimal::read(field)
}

/// Points `x:y x:y ...` of a piecewise linear property; none if empty or not in rising order of x.
#[must_use]
pub fn points(field: &str) -> Option<Vec<(f64, f64)>> {
    let points: Option<Vec<(f64, f64)>> = field
        .split_whitespace()
        .map(|pair| {
            let (x, y) = pair.split_once(':')?;
            Some((number(x)?, number(y)?))
        })
        .collect();
    points.filter(|points| !points.is_empty() && points.windows(2).all(|pair| pair[0].0 < pair[1].0))
}

/// A range `low..high`, low first.
#[must_use]
pub fn range(field: &str) -> Option<[f64; 2]> {
    let (low, high) = field.split_once("..")?;
    Some([number(low)?, number(high)?]).filter(|[low, high]| low <= high)
}

/// Piecewise linear between points, held at both ends.
#[must_use]
pub fn held_linear(points: &[(f64, f64)], x: f64) -> f64 {
    let (Some(first), Some(last)) = (points.first(), points.last()) else { return f64::NAN };
    if x <= first.0 {
        return first.1;
    }
    for pair in points.windows(2) {
        if x <= pair[1].0 {
            let share = (x - pair[0].0) / (pair[1].0 - pair[0].0);
            return pair[0].1 + share * (pair[1].1 - pair[0].1);
        }
    }
    last.1
}

/// Integral of [`held_linear`] from `from` to `to`, exactly: each piece is a straight line.
pub(super) fn held_linear_integral(points: &[(f64, f64)], from: f64, to: f64) -> f64 {
    if from > to {
        return -held_linear_integral(points, to, from);
    }
    let mut sum = 0.0;
    let mut at = from;
    for joint in points.iter().map(|point| point.0).filter(|&x| x > from && x < to).chain([to]) {
        sum += 0.5 * (held_linear(points, at) + held_linear(points, joint)) * (joint - at);
        at = joint;
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_held_at_its_ends_and_its_integral_is_its_area() {
        let points = points("0:1 10:3").expect("two points");
        assert_eq!(held_linear(&points, -5.0).to_bits(), 1.0_f64.to_bits());
        assert_eq!(held_linear(&points, 15.0).to_bits(), 3.0_f64.to_bits());
        assert!((held_linear(&points, 5.0) - 2.0).abs() < 1e-15);
        assert!((held_linear_integral(&points, -5.0, 15.0) - (5.0 + 20.0 + 15.0)).abs() < 1e-12);
        assert!((held_linear_integral(&points, 15.0, -5.0) + 40.0).abs() < 1e-12);
    }

    #[test]
    fn points_must_rise() {
        assert!(points("10:1 0:2").is_none());
        assert!(points("").is_none());
    }
}
