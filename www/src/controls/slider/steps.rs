//! What keys do with a value.

use crate::fields::scale::tidy;
use crate::fields::types::Unit;
use dappledome::recipe::limits::Limit;

/// Steps that *page up* goes.
const PAGE: f64 = 10.0;

/// The value that a key moves a thumb to from `now`, in `fine` steps or whole ones; none for keys that move nothing.
pub fn after_key(key: &str, fine: bool, unit: Unit, limit: &Limit, now: f64) -> Option<f64> {
    let step = if fine { finest(unit, limit) } else { limit.step };
    Some(match key {
        "ArrowRight" | "ArrowUp" => tidy(limit, step, now + step),
        "ArrowLeft" | "ArrowDown" => tidy(limit, step, now - step),
        "PageUp" => tidy(limit, limit.step, now + PAGE * limit.step),
        "PageDown" => tidy(limit, limit.step, now - PAGE * limit.step),
        "Home" => limit.least,
        "End" => limit.most,
        "Backspace" => limit.usual,
        _ => return None,
    })
}

/// Whether a key is the first letter of a number.
pub fn begins_number(key: &str) -> bool {
    key.len() == 1
        && key.starts_with(|letter: char| letter.is_ascii_digit() || matches!(letter, '-' | '.' | ','))
}

/// A tenth of a step, or the least that a value is written with.
fn finest(unit: Unit, limit: &Limit) -> f64 {
    if unit.whole() { limit.step } else { f64::max(limit.step / 10.0, 0.01 / unit.factor()) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::recipe::limits;

    #[test]
    fn arrows_go_a_step_and_pages_ten() {
        let to = |key| after_key(key, false, Unit::Mm, &limits::PATCH_DEPTH, 0.45);
        assert_eq!(["ArrowRight", "ArrowUp"].map(to), [Some(0.46); 2]);
        assert_eq!(["ArrowLeft", "ArrowDown"].map(to), [Some(0.44); 2]);
        assert_eq!(["PageUp", "PageDown"].map(to), [Some(0.55), Some(0.35)]);
        assert_eq!(["Home", "End", "Backspace"].map(to), [Some(0.03), Some(3.0), Some(0.45)]);
        assert_eq!(["Enter", "Escape", "5", "Tab"].map(to), [None; 4]);
    }

    #[test]
    fn fine_steps_are_tenths_unless_they_would_not_be_written() {
        let right = |unit, limit: &Limit, now| after_key("ArrowRight", true, unit, limit, now);
        assert_eq!(right(Unit::Mm, &limits::SHEET, 3.0), Some(3.01));
        assert_eq!(right(Unit::Mm, &limits::PATCH_DEPTH, 0.45), Some(0.46), "hundredths of a mm are written");
        assert_eq!(right(Unit::Share, &limits::COVERAGE, 0.34), Some(0.341), "tenths of a percent");
        assert_eq!(right(Unit::Count, &limits::PIECES, 3.0), Some(4.0), "there are only whole pieces");
        let page = after_key("PageUp", true, Unit::Mm, &limits::SHEET, 3.0);
        assert_eq!(page, Some(4.0), "pages are never fine");
    }

    #[test]
    fn steps_stay_within_the_range_and_leave_no_dust() {
        let limit = &limits::SHEET;
        let mut value = limit.least;
        for _ in 0..20 {
            value = after_key("ArrowRight", false, Unit::Mm, limit, value).unwrap();
            assert!(value.to_string().len() <= 3, "{value}");
        }
        assert_eq!(value, 3.0);
        assert_eq!(after_key("PageDown", false, Unit::Mm, limit, 1.2), Some(limit.least));
        assert_eq!(after_key("ArrowUp", false, Unit::Mm, limit, limit.most), Some(limit.most));
    }

    #[test]
    fn only_letters_of_numbers_begin_one() {
        assert!(["0", "9", "-", ".", ","].into_iter().all(begins_number));
        assert!(!["a", "F2", "", "−", "10", " "].into_iter().any(begins_number));
    }
}
