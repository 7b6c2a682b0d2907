//! The engine against the outside world: published tables, formulas with known answers, and independent simulations.
//! Each check names its source beside it or in the head of its table.

#[path = "published/chance.rs"]
mod chance;
#[path = "published/color.rs"]
mod color;
#[path = "published/optics.rs"]
mod optics;
#[path = "published/powder.rs"]
mod powder;
#[path = "published/shop.rs"]
mod shop;
#[path = "published/slump.rs"]
mod slump;

/// The rows of a table that begin with a number, as numbers; words count as NaN.
fn rows(text: &str) -> Vec<Vec<f64>> {
    let number = |word: &str| word.trim().parse().unwrap_or(f64::NAN);
    text.lines()
        .filter(|line| line.starts_with(|first: char| first.is_ascii_digit()))
        .map(|line| line.split(',').map(number).collect())
        .collect()
}

/// Fails with both numbers unless they agree.
#[track_caller]
fn near(what: &str, got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{what}: {got}, published {want}, tolerance {tolerance}");
}
