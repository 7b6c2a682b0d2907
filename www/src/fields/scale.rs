//! The scale of a number: where a value stands on it, which value stands there, and which values are tidy.

use dappledome::base::scalar;
use dappledome::recipe::limits::Limit;

/// Where on its scale a value stands, 0 to 1.
pub fn position(limit: &Limit, value: f64) -> f64 {
    let share = if limit.by_ratio {
        scalar::ln(value.max(1e-6) / limit.least) / scalar::ln(limit.most / limit.least)
    } else {
        (value - limit.least) / (limit.most - limit.least)
    };
    if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.0 }
}

/// The value at a place on the scale, 0 to 1.
pub fn value_at(limit: &Limit, share: f64) -> f64 {
    let share = share.clamp(0.0, 1.0);
    if limit.by_ratio {
        limit.least * scalar::pow(limit.most / limit.least, share)
    } else {
        limit.least + share * (limit.most - limit.least)
    }
}

/// The nearest value within the range that is a whole number of `step`s from zero.
pub fn tidy(limit: &Limit, step: f64, value: f64) -> f64 {
    let stepped = (value.clamp(limit.least, limit.most) / step).round() * step;
    // Ten thousandths: the sum of many steps must not show as 0.30000000000000004 in a saved recipe.
    ((stepped * 1e4).round() / 1e4).clamp(limit.least, limit.most)
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::recipe::limits;

    #[test]
    fn a_value_stands_where_it_is_found_again() {
        for limit in [limits::DISC, limits::MOVED, limits::EVEN_DEPTH, limits::PATCH_SIZE] {
            for n in 0..=20 {
                let share = f64::from(n) / 20.0;
                let value = value_at(&limit, share);
                assert!(limit.holds(value), "{value} on {limit:?}");
                assert!((position(&limit, value) - share).abs() < 1e-12, "{value} on {limit:?}");
            }
        }
        assert_eq!(value_at(&limits::DISC, 0.5), 225.0, "halfway by difference");
        assert!((value_at(&limits::EVEN_DEPTH, 0.5) - 0.3).abs() < 1e-12, "halfway by ratio");
    }

    #[test]
    fn nothing_stands_off_the_scale() {
        for limit in [limits::DISC, limits::EVEN_DEPTH] {
            let places = [limit.least - 1.0, limit.most + 1.0, f64::NAN].map(|value| position(&limit, value));
            assert_eq!(places[..2], [0.0, 1.0]);
            assert!((0.0..=1.0).contains(&places[2]));
            assert_eq!(
                [-1.0, 2.0].map(|share| tidy(&limit, limit.step, value_at(&limit, share))),
                [limit.least, limit.most]
            );
        }
    }

    #[test]
    fn a_tidy_value_has_no_dust_behind_it() {
        let limit = limits::SHEET;
        let tidied = tidy(&limit, 0.1, 1.0 + 0.1 + 0.1 + 0.1);
        assert_eq!(tidied.to_string(), "1.3");
        assert_eq!(tidy(&limits::COVERAGE, 0.1, 0.1 + 0.2).to_string(), "0.3");
        assert_eq!(tidy(&limits::DISC, 1.0, 160.4), 160.0);
        assert_eq!(tidy(&limits::EVEN_DEPTH, 0.5, 0.0), 0.03, "within its range whatever the step");
    }
}
