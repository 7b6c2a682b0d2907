//! Errors in three numbers.

use super::table::worse;

/// Prints mean, 95th percentile and worst of so many errors, and gives the worst back; NaN counts as endless.
pub fn summed(what: &str, errors: &[f64]) -> f64 {
    let mut sizes: Vec<f64> = errors.iter().map(|error| worse(0.0, *error)).collect();
    sizes.sort_by(f64::total_cmp);
    let mean = sizes.iter().sum::<f64>() / sizes.len() as f64;
    let (p95, worst) = (sizes[sizes.len() * 95 / 100], sizes[sizes.len() - 1]);
    println!("{what}: {} of them, mean {mean:.4}, p95 {p95:.4}, worst {worst:.4}", sizes.len());
    worst
}
