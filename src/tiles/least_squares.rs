//! Least squares for a handful of unknowns: Levenberg 1944 and Marquardt 1963 (J. Soc. Indust. Appl. Math. 11, 431; from memory),
//! with differences for derivatives.
//!
//! Own lines instead of a crate: for at most nine unknowns it takes none of a matrix library's, which the page would have to
//! carry, and every operation here is one that gives the same bits natively and in the browser.

/// Differences are taken this far. The residuals are of single precision (1e-5), so a smaller step would see
/// their noise.
const STEP: f64 = 2e-3;
/// No unknown goes further in one step.
const STRIDE: f64 = 4.0;
const ROUNDS: usize = 80;

/// Unknowns, and the sum of the squares of their residuals.
#[derive(Clone, Debug)]
pub struct Least {
    /// The unknowns.
    pub at: Vec<f64>,
    /// Sum of squares there.
    pub sum: f64,
}

/// The unknowns with the least sum of squared residuals that lies downhill from `start`. Residuals that are not numbers count as
/// endless. Stops once the sum is below `enough`.
pub fn least(start: &[f64], enough: f64, residuals: &impl Fn(&[f64]) -> Vec<f64>) -> Least {
    let mut now = residuals(start);
    let mut best = Least { at: start.to_vec(), sum: squares(&now) };
    let mut damping = 1e-2;
    for _ in 0..ROUNDS {
        if best.sum <= enough || damping > 1e9 {
            break;
        }
        let slopes = slopes(&best.at, &now, residuals);
        let before = best.sum;
        while damping <= 1e9 {
            let at = stepped(&best.at, &slopes, &now, damping);
            let next = residuals(&at);
            let sum = squares(&next);
            if sum < best.sum {
                (best, now) = (Least { at, sum }, next);
                damping = (damping * 0.2).max(1e-9);
                break;
            }
            damping *= 4.0;
        }
        if before - best.sum < 1e-7 * before {
            break;
        }
    }
    best
}

fn squares(residuals: &[f64]) -> f64 {
    let sum: f64 = residuals.iter().map(|r| r * r).sum();
    if sum.is_finite() { sum } else { f64::INFINITY }
}

/// The derivatives of all residuals by each unknown, from what they are here.
fn slopes(at: &[f64], now: &[f64], residuals: &impl Fn(&[f64]) -> Vec<f64>) -> Vec<Vec<f64>> {
    let slope = |unknown: usize| {
        let mut beside = at.to_vec();
        beside[unknown] += STEP;
        residuals(&beside).iter().zip(now).map(|(beside, now)| (beside - now) / STEP).collect()
    };
    (0..at.len()).map(slope).collect()
}

/// One damped step downhill.
fn stepped(at: &[f64], slopes: &[Vec<f64>], residuals: &[f64], damping: f64) -> Vec<f64> {
    let dot = |one: &[f64], other: &[f64]| one.iter().zip(other).map(|(a, b)| a * b).sum::<f64>();
    let n = at.len();
    let mut matrix: Vec<Vec<f64>> =
        slopes.iter().map(|row| slopes.iter().map(|column| dot(row, column)).collect()).collect();
    for i in 0..n {
        // An unknown that nothing depends on stays where it is.
        matrix[i][i] += damping * matrix[i][i] + 1e-9;
    }
    let down: Vec<f64> = slopes.iter().map(|slope| -dot(slope, residuals)).collect();
    let step = solved(matrix, down);
    at.iter().zip(step).map(|(at, step)| at + step.clamp(-STRIDE, STRIDE)).collect()
}

/// Solves a symmetric positive system (Cholesky).
fn solved(mut matrix: Vec<Vec<f64>>, mut right: Vec<f64>) -> Vec<f64> {
    let n = right.len();
    for i in 0..n {
        for j in 0..=i {
            let sum = matrix[i][j] - (0..j).map(|k| matrix[i][k] * matrix[j][k]).sum::<f64>();
            matrix[i][j] = if i == j { sum.max(1e-12).sqrt() } else { sum / matrix[j][j] };
        }
    }
    for i in 0..n {
        right[i] = (right[i] - (0..i).map(|k| matrix[i][k] * right[k]).sum::<f64>()) / matrix[i][i];
    }
    for i in (0..n).rev() {
        right[i] = (right[i] - (i + 1..n).map(|k| matrix[k][i] * right[k]).sum::<f64>()) / matrix[i][i];
    }
    right
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rosenbrock 1960: the least is 0 at (1, 1), at the end of a bent valley.
    #[test]
    fn a_bent_valley_is_followed_to_its_end() {
        let least = least(&[-1.2, 1.0], 1e-20, &|at| vec![10.0 * (at[1] - at[0] * at[0]), 1.0 - at[0]]);
        assert!(least.at.iter().all(|x| (x - 1.0).abs() < 1e-6), "{least:?}");
    }

    /// A line through four points, by hand: slope 1.4, 3.5 at the start (the usual example of linear regression).
    #[test]
    fn a_line_is_fitted_as_by_hand() {
        let points = [(1.0, 6.0), (2.0, 5.0), (3.0, 7.0), (4.0, 10.0)];
        let least =
            least(&[0.0, 0.0], 0.0, &|at| points.iter().map(|(x, y)| at[0] + at[1] * x - y).collect());
        assert!((least.at[0] - 3.5).abs() < 1e-4 && (least.at[1] - 1.4).abs() < 1e-4, "{least:?}");
        assert!((least.sum - 4.2).abs() < 1e-6);
    }

    #[test]
    fn what_is_no_number_is_left_where_it_was() {
        for least in [
            least(&[2.0], 0.0, &|_| vec![f64::NAN]),
            least(&[2.0], 0.0, &|at| vec![if at[0] == 2.0 { 1.0 } else { f64::NAN }]),
        ] {
            assert_eq!(least.at, [2.0]);
        }
        assert_eq!(least(&[2.0, 3.0], 0.0, &|_| vec![1.0]).at, [2.0, 3.0], "nothing depends on them");
    }
}
