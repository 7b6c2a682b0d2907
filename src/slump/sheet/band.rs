//! Symmetric equations whose unknowns know only their near neighbors, solved by Cholesky's way.

/// How far from the diagonal a coefficient lies at most: three nodes of two unknowns each know each other.
pub const REACH: usize = 5;

/// A row of the lower half: the coefficients of the five unknowns before, then the one on the diagonal.
type Row = [f64; REACH + 1];

/// The lower half of a symmetric matrix.
#[derive(Clone, Debug, Default)]
pub struct Band {
    rows: Vec<Row>,
}

/// The equations have no single answer: something is free to move without resistance.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Singular;

impl Band {
    /// All zero, of so many unknowns.
    pub fn clear(&mut self, unknowns: usize) {
        self.rows.clear();
        self.rows.resize(unknowns, [0.0; REACH + 1]);
    }

    /// Makes this a copy of another.
    pub fn copy(&mut self, from: &Self) {
        self.rows.clone_from(&from.rows);
    }

    /// Adds `weight g gᵀ` to the unknowns from `first` on, of which there are at most six.
    #[inline]
    pub fn add<const N: usize>(&mut self, first: usize, weight: f64, g: &[f64; N]) {
        for (i, row) in self.rows[first..first + N].iter_mut().enumerate() {
            let scaled = weight * g[i];
            for (into, other) in row[REACH - i..].iter_mut().zip(&g[..=i]) {
                *into += scaled * other;
            }
        }
    }

    /// Takes an unknown out of the equations: it is zero.
    pub fn hold(&mut self, unknown: usize) {
        self.rows[unknown] = [0.0; REACH + 1];
        self.rows[unknown][REACH] = 1.0;
        let after = self.rows[unknown + 1..].iter_mut().take(REACH);
        for (below, row) in after.enumerate() {
            row[REACH - 1 - below] = 0.0;
        }
    }

    /// Replaces the matrix by its factor L, where L Lᵀ is the matrix; on the diagonal stands one over L's.
    ///
    /// # Errors
    /// If it is not positive.
    pub fn factor(&mut self) -> Result<(), Singular> {
        for i in 0..self.rows.len() {
            let mut row = self.rows[i];
            for k in REACH.saturating_sub(i)..REACH {
                let other = &self.rows[i + k - REACH];
                let mut sum = row[k];
                for p in 0..k {
                    sum -= row[p] * other[p + REACH - k];
                }
                row[k] = sum * other[REACH];
            }
            let pivot = row[REACH] - row[..REACH].iter().map(|l| l * l).sum::<f64>();
            // What is no number fails here too.
            if !(pivot > 0.0 && pivot < f64::INFINITY) {
                return Err(Singular);
            }
            row[REACH] = 1.0 / pivot.sqrt();
            self.rows[i] = row;
        }
        Ok(())
    }

    /// Turns the right side into the answer, once factored.
    pub fn solve(&self, x: &mut [f64]) {
        for (i, row) in self.rows.iter().enumerate() {
            let mut sum = x[i];
            for k in REACH.saturating_sub(i)..REACH {
                sum -= row[k] * x[i + k - REACH];
            }
            x[i] = sum * row[REACH];
        }
        for (i, row) in self.rows.iter().enumerate().rev() {
            x[i] *= row[REACH];
            for k in REACH.saturating_sub(i)..REACH {
                x[i + k - REACH] -= row[k] * x[i];
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A matrix made of outer products, and the right side that belongs to a chosen answer.
    fn made(unknowns: usize) -> (Band, Vec<Vec<f64>>) {
        let (mut band, mut full) = (Band::default(), vec![vec![0.0; unknowns]; unknowns]);
        band.clear(unknowns);
        for first in 0..=unknowns - 6 {
            let g: [f64; 6] =
                std::array::from_fn(|i| ((first * 7 + i * 13) % 11) as f64 - 4.0 + 0.1 * i as f64);
            band.add(first, 0.5 + first as f64, &g);
            for i in 0..6 {
                for j in 0..6 {
                    full[first + i][first + j] += (0.5 + first as f64) * g[i] * g[j];
                }
            }
        }
        for i in 0..unknowns {
            band.add(i, 3.0, &[1.0]);
            full[i][i] += 3.0;
        }
        (band, full)
    }

    #[test]
    fn the_answer_that_was_chosen_comes_back() {
        let (mut band, full) = made(23);
        let want: Vec<f64> = (0..23).map(|i| f64::from(i * i % 17) - 6.5).collect();
        let mut x: Vec<f64> =
            full.iter().map(|row| row.iter().zip(&want).map(|(a, b)| a * b).sum()).collect();
        band.factor().unwrap();
        band.solve(&mut x);
        for (got, want) in x.iter().zip(&want) {
            assert!((got - want).abs() < 1e-9, "{got}, not {want}");
        }
    }

    #[test]
    fn what_is_held_stays_and_the_others_do_as_without_it() {
        let (mut band, full) = made(15);
        let mut want: Vec<f64> = (0..15).map(|i| f64::from(i) - 3.5).collect();
        want[6] = 0.0;
        let mut x: Vec<f64> =
            full.iter().map(|row| row.iter().zip(&want).map(|(a, b)| a * b).sum()).collect();
        x[6] = 0.0;
        band.hold(6);
        band.factor().unwrap();
        band.solve(&mut x);
        for (got, want) in x.iter().zip(&want) {
            assert!((got - want).abs() < 1e-9, "{got}, not {want}");
        }
    }

    #[test]
    fn what_has_no_single_answer_says_so() {
        let mut band = Band::default();
        band.clear(4);
        band.add(0, 1.0, &[1.0, -1.0, 1.0, -1.0]);
        assert_eq!(band.factor(), Err(Singular));
        band.clear(1);
        band.add(0, f64::NAN, &[1.0]);
        assert_eq!(band.factor(), Err(Singular));
    }
}
