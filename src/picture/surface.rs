//! The skin of fired glass: never quite flat, and that is what says it is glass.

use crate::base::seed::{Purpose, Seed};
use crate::layup::field::{Lattice, fractal};
use std::sync::OnceLock;

/// Height of the ripples of a fire-polished face (standard deviation, mm) and their width, mm.
const RIPPLE_HEIGHT: f32 = 0.04;
const RIPPLE_WIDTH: f32 = 22.0;

/// Slope of the fire polish along x and y at a place on the disc, mm per mm. The same skin lies on every piece.
pub fn ripple(x: f32, y: f32) -> (f32, f32) {
    static SKIN: OnceLock<(Lattice, Lattice)> = OnceLock::new();
    let (right, up) = SKIN.get_or_init(|| {
        let mut rng = Seed(7).stream(Purpose::Pores);
        let height = fractal(&mut rng, RIPPLE_WIDTH, 2, 0.35, 100.0, 210.0);
        let slope = |dx: f32, dy: f32| {
            Lattice::new(200.0, 3.0, |x, y| {
                RIPPLE_HEIGHT * (height.sample(x + dx, y + dy) - height.sample(x - dx, y - dy)) / 3.0
            })
        };
        (slope(1.5, 0.0), slope(0.0, 1.5))
    });
    (right.sample(x, y), up.sample(x, y))
}
