//! Stress between two glasses that were melted together: each wants to shrink by its own expansion, and they hold each other.
//!
//! S. Timoshenko 1925, Analysis of bi-metal thermostats, J. Opt. Soc. Am. 11, 233 (from memory, derived again), for plates of one
//! stiffness that are free to bend.

/// Young's modulus over one minus Poisson's ratio, MPa: 70 GPa and 0.2 (EN 572-1, second hand).
const STIFFNESS: f64 = 70_000.0 / (1.0 - 0.2);
/// From where a glass that anneals at 510 °C sets (its set point, about 500 °C) down to a room, K.
const FALL: f64 = 480.0;

/// A layer of glass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layer {
    /// Thickness, mm.
    pub thickness: f64,
    /// Thermal expansion, 1e-6/K.
    pub expansion: f64,
}

/// Stress in two layers, MPa: above zero it pulls.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stress {
    /// In the upper layer: at its free face and at the seam.
    pub upper: [f64; 2],
    /// In the lower layer: at the seam and at its free face.
    pub lower: [f64; 2],
}

impl Stress {
    /// The stress in a layer on another one, cooled from where both were set.
    pub fn of(upper: Layer, lower: Layer) -> Self {
        let h = upper.thickness + lower.thickness;
        let held = STIFFNESS * (upper.expansion - lower.expansion) * 1e-6 * FALL / h;
        // Held flat, they balance; let go, they bend toward the layer that shrinks more.
        let bending = 6.0 * held * upper.thickness * lower.thickness / (h * h);
        let at = |flat: f64, height: f64| flat - bending * (height - h / 2.0);
        let (up, low) = (held * lower.thickness, -held * upper.thickness);
        Self { upper: [at(up, h), at(up, lower.thickness)], lower: [at(low, lower.thickness), at(low, 0.0)] }
    }

    /// The strongest pull in each, upper and lower, MPa; 0 where all of it is pressed.
    pub fn pulls(&self) -> [f64; 2] {
        [self.upper, self.lower].map(|[one, other]| one.max(other).max(0.0))
    }
}

/// Several layers taken as one: so thick together, with the expansion of their mean.
pub fn together(layers: impl IntoIterator<Item = Layer>) -> Layer {
    let (thickness, sum) = layers.into_iter().fold((0.0, 0.0), |(thickness, sum), layer| {
        (thickness + layer.thickness, sum + layer.thickness * layer.expansion)
    });
    Layer { thickness, expansion: sum / thickness }
}
