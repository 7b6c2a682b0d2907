//! Round numbers along an axis.

/// The round step, of 1, 2 and 5 and their tenfolds, that parts a length into at most so many.
pub fn round_step(length: f64, most: f64) -> f64 {
    let least = length / most;
    let ten = power_of_ten(least);
    let step =
        [1.0, 2.0, 5.0, 10.0].into_iter().map(|one| one * ten).find(|step| *step >= least * (1.0 - 1e-9));
    step.unwrap_or(10.0 * ten)
}

/// The multiples of a step between two values.
pub fn multiples(step: f64, from: f64, to: f64) -> impl DoubleEndedIterator<Item = f64> {
    let (first, last) = ((from / step - 1e-9).ceil() as i64, (to / step + 1e-9).floor() as i64);
    (first..=last).map(move |at| at as f64 * step)
}

/// The largest power of ten that is no more than a value.
fn power_of_ten(value: f64) -> f64 {
    let mut ten = 1.0;
    while ten > value && ten > 1e-6 {
        ten /= 10.0;
    }
    while 10.0 * ten <= value && ten < 1e6 {
        ten *= 10.0;
    }
    ten
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_round_and_wide_enough() {
        assert_eq!(
            [48.0, 60.0, 100.0, 101.0].map(|length| round_step(length, 5.0)),
            [10.0, 20.0, 20.0, 50.0]
        );
        assert!((round_step(1.9, 4.0) - 0.5).abs() < 1e-9);
        assert_eq!(multiples(20.0, -45.0, 40.0).collect::<Vec<_>>(), [-40.0, -20.0, 0.0, 20.0, 40.0]);
    }
}
