//! Place by place, for what was sifted by a map: how the photo is turned against the forecast, and how far each place is off.

use crate::base::scalar::sin_cos;
use crate::color::difference::{Lab, de76, to_lab};
use crate::optics::colors::ColorField;

/// A photo laid on the forecast.
#[derive(Clone, Debug, PartialEq)]
pub struct ByPlace {
    /// By so many degrees the photo is turned against the forecast, counterclockwise; -180 to 180.
    pub turned: f64,
    /// What came out and what was foretold in each cell of the forecast; none off the disc or where the photo shows nothing.
    pub cells: Vec<Option<(Lab, Lab)>>,
}

/// Degrees between two turns that are tried first, and then about the best of them.
const COARSE: f64 = 3.0;
const FINE: f64 = 0.5;
/// Of each so many rows and columns one is looked at while it is turned.
const EVERY: usize = 4;

/// Lays a photo, in `n` rows of `n` cells, on the forecast.
pub fn by_place(forecast: &ColorField, photo: &[Option<Lab>], n: usize) -> ByPlace {
    let shown: Vec<(Place, Lab)> = (0..n * n)
        .filter(|at| (at % n).is_multiple_of(EVERY) && (at / n).is_multiple_of(EVERY))
        .filter_map(|at| Some((place(at, n), photo[at]?)))
        .collect();
    let off = |turn: f64| -> f64 {
        shown.iter().map(|(at, color)| de76(foretold(forecast, rotated(*at, -turn)), *color)).sum()
    };
    let best = |about: f64, step: f64, steps: i32| {
        let turns = (-steps..=steps).map(|at| about + step * f64::from(at));
        let offs = turns.map(|turn| (turn, off(turn)));
        offs.min_by(|one, other| one.1.total_cmp(&other.1)).map_or(about, |(turn, _)| turn)
    };
    let turn = best(best(0.0, COARSE, (180.0 / COARSE) as i32), FINE, (COARSE / FINE) as i32);
    let cell = |at: usize| {
        let place = place(at, n);
        let seen = cell_at(photo, n, rotated(place, turn))?;
        (place.0 * place.0 + place.1 * place.1 < 1.0).then(|| (seen, foretold(forecast, place)))
    };
    ByPlace { turned: (turn + 180.0).rem_euclid(360.0) - 180.0, cells: (0..n * n).map(cell).collect() }
}

/// A place on the disc: shares of its radius to the right and up.
pub type Place = (f64, f64);

/// The middle of a cell of `n` rows of `n`.
pub fn place(at: usize, n: usize) -> Place {
    let along = |cell: usize| (2.0 * cell as f64 + 1.0) / n as f64 - 1.0;
    (along(at % n), -along(at / n))
}

/// What the photo shows at a place.
fn cell_at(photo: &[Option<Lab>], n: usize, (x, y): Place) -> Option<Lab> {
    let cell = |along: f64| ((0.5 * (along + 1.0) * n as f64) as usize).min(n - 1);
    photo[cell(-y) * n + cell(x)]
}

/// A place turned about the middle, degrees counterclockwise.
fn rotated((x, y): Place, degrees: f64) -> Place {
    let (sin, cos) = sin_cos(degrees.to_radians());
    (cos * x - sin * y, sin * x + cos * y)
}

fn foretold(forecast: &ColorField, (x, y): Place) -> Lab {
    let radius = forecast.grid.disc().radius();
    to_lab(forecast.sample(x as f32 * radius, y as f32 * radius))
}
