//! One sort for all: of indices, by a comparison behind a reference. A sort of its own for each type weighs some 7 kB
//! in the browser, most of it laid out for lengths that nothing here has.

use std::cmp::Ordering;

/// The indices `0..count` in the order of a comparison; of equals the lower first.
pub fn ranked(count: usize, compare: &dyn Fn(usize, usize) -> Ordering) -> Vec<usize> {
    let mut indices: Vec<usize> = (0..count).collect();
    indices.sort_by(|a, b| compare(*a, *b));
    indices
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_equals_the_first_stays_first() {
        let values = [2.0, 1.0, 2.0, f64::NAN, 0.5];
        assert_eq!(ranked(5, &|a, b| values[b].total_cmp(&values[a])), [3, 0, 2, 1, 4]);
        assert!(ranked(0, &|_, _| Ordering::Equal).is_empty());
    }
}
