//! How much of what lies below a sifted film is left bare: grains fall by chance, so a thin film has gaps.

use crate::base::scalar::{exp, ln};

/// A film that leaves more than this share bare is too thin to cover (a judgment: the usual coat leaves 0.11).
pub const MOST_BARE: f64 = 0.3;

/// Share that is left bare by powder that would fuse to `glass` mm, of grains `grain` mm wide: exp(-1.5 X/d), the Boolean model of
/// grains that fall by chance (own simulation: 0.833, 0.571, 0.319 for X/d of 0.125, 0.375, 0.75; `tests/published/powder.rs`).
pub fn bare(glass: f64, grain: f64) -> f64 {
    exp(-1.5 * glass / grain)
}

/// The glass, mm, that leaves this share bare.
pub fn glass_for(bare: f64, grain: f64) -> f64 {
    -ln(bare) * grain / 1.5
}
