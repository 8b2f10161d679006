//! Owns sorting: stable, and compiled once, because the standard sort is compiled anew for every comparison it is handed (some
//! 5 kB each in the page's program).

use std::cmp::Ordering;

/// Sorts numbers in rising order.
#[inline(never)]
pub fn rising(list: &mut [f64]) {
    list.sort_by(f64::total_cmp);
}

/// Sorts places of a list by what stands there; equals keep their order.
#[inline(never)]
pub fn places(list: &mut [usize], compare: &dyn Fn(usize, usize) -> Ordering) {
    list.sort_by(|&a, &b| compare(a, b));
}

/// Sorts a list; equals keep their order.
pub fn by<T>(list: &mut Vec<T>, compare: impl Fn(&T, &T) -> Ordering) {
    let mut order: Vec<usize> = (0..list.len()).collect();
    places(&mut order, &|a, b| compare(&list[a], &list[b]));
    let mut old: Vec<Option<T>> = std::mem::take(list).into_iter().map(Some).collect();
    list.extend(order.into_iter().filter_map(|place| old[place].take()));
}

#[cfg(test)]
mod tests {
    use super::{by, rising};

    #[test]
    fn equals_keep_their_order_and_numbers_rise() {
        let mut list = vec![(2, 'a'), (1, 'b'), (2, 'c'), (1, 'd')];
        by(&mut list, |a, b| a.0.cmp(&b.0));
        assert_eq!(list, [(1, 'b'), (1, 'd'), (2, 'a'), (2, 'c')]);
        let mut numbers = [3.0, -0.0, f64::INFINITY, 0.0];
        rising(&mut numbers);
        assert_eq!(numbers.map(f64::to_bits), [-0.0, 0.0, 3.0, f64::INFINITY].map(f64::to_bits));
    }
}
