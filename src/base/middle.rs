//! The middle one of some numbers, which a few that are far off do not move.

/// The middle one by size, of two middle ones the larger; none of none.
pub fn middle(mut values: Vec<f64>) -> Option<f64> {
    let at = values.len() / 2;
    (!values.is_empty()).then(|| *values.select_nth_unstable_by(at, f64::total_cmp).1)
}

#[cfg(test)]
mod tests {
    use super::middle;

    #[test]
    fn what_is_far_off_does_not_move_it() {
        assert_eq!(middle(vec![3.0, -90.0, 2.0]), Some(2.0));
        assert_eq!(middle(vec![4.0, 1e9, 2.0, 3.0]), Some(4.0));
        assert_eq!((middle(vec![7.0]), middle(Vec::new())), (Some(7.0), None));
    }
}
