//! The skin of fired glass: never quite flat, and that is what says it is glass.

use crate::base::seed::{Purpose, Seed};
use crate::layup::field::{Lattice, fractal};
use std::sync::OnceLock;

/// Height of the ripples of a fire-polished face (standard deviation, mm) and their width, mm (by eye).
const RIPPLE_HEIGHT: f32 = 0.04;
const RIPPLE_WIDTH: f32 = 22.0;

/// Slope of the fire polish along x and y at a place on the disc, mm per mm: the same skin lies on every piece. It is asked for before rows
/// are painted, not within: its own rows are made side by side.
pub fn ripples() -> &'static Lattice<2> {
    static SKIN: OnceLock<Lattice<2>> = OnceLock::new();
    SKIN.get_or_init(|| {
        let mut rng = Seed(7).stream(Purpose::Pores);
        let height: Lattice = fractal(&mut rng, RIPPLE_WIDTH, 2, 0.35, 100.0, 210.0);
        Lattice::new(200.0, 3.0, |x, y| {
            let slope = |dx: f32, dy: f32| height.sample(x + dx, y + dy) - height.sample(x - dx, y - dy);
            [slope(1.5, 0.0), slope(0.0, 1.5)].map(|rise| RIPPLE_HEIGHT * rise / 3.0)
        })
    })
}
