//! Tables of numbers from `tests/data`.

use std::fs;
use std::path::Path;

/// The rows of a table; a field that is no number reads as NaN, so that no comparison with it can pass.
pub fn rows(name: &str) -> Vec<Vec<f64>> {
    let number = |field: &String| field.parse().unwrap_or(f64::NAN);
    words(name).iter().map(|row| row.iter().map(number).collect()).collect()
}

/// The rows of a table as they are written, without the lines about it and the names of its columns.
pub fn words(name: &str) -> Vec<Vec<String>> {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data").join(name);
    let text = fs::read_to_string(&file).unwrap_or_else(|fault| panic!("{}: {fault}", file.display()));
    let lines = text.lines().filter(|line| !line.starts_with('#')).skip(1);
    lines.map(|line| line.split(',').map(str::to_owned).collect()).collect()
}

/// The larger of the worst error so far and this one; NaN counts as endless.
pub fn worse(worst: f64, error: f64) -> f64 {
    if error.is_nan() { f64::INFINITY } else { worst.max(error.abs()) }
}

/// Fails if `got` is further than `tolerance` from `want`.
#[track_caller]
pub fn near(what: &str, got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{what}: {got}, not {want} (within {tolerance})");
}
