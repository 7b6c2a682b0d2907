//! Loose powder: many small grains with air between them, pale because light turns back at every face.
//! Grain-layer model of Shkuratov, Starukhina, Hoffmann & Arnold 1999, Icarus 137, 235; what opal grains scatter inside
//! themselves is our own addition to it.

use super::film::between;
use super::kubelka_munk;
use super::surface::INDEX;
use super::table::{Between, NODES, Table};
use crate::base::lanes::Four;
use crate::base::scalar::{asinh, exp, lerp, ln};
use crate::color::spectrum::{BANDS, PARTS, Parts, Spectrum, from_parts, part};
use crate::glass::material::Material;

/// Absorption and scatter of one layer of grains, as Kubelka-Munk k and s.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GrainLayer {
    /// Share of light sent back by the layer.
    pub back: f64,
    /// Share of light passed on by the layer, through grains or between them.
    pub forward: f64,
    /// Kubelka-Munk absorption.
    pub k: f64,
    /// Kubelka-Munk scatter.
    pub s: f64,
}

/// One layer of grains whose glass absorbs `alpha_d` and scatters `scatter_d` (natural and Kubelka-Munk, per grain) and
/// fills the share `filled` of the space.
///
/// Without scatter this is the published layer. With it, a grain's glass is a Kubelka-Munk layer: what it sends back meets the
/// face it came in by, and what has once been turned back by a face goes either way, as in the paper.
pub fn grain_layer(alpha_d: f64, scatter_d: f64, filled: f64) -> GrainLayer {
    let n = INDEX;
    let normal = (n - 1.0) / (n + 1.0);
    let outside = normal * normal + 0.05;
    let outside_back = (0.28 * n - 0.20) * outside;
    let outside_forward = outside - outside_back;
    let inside = 1.04 - 1.0 / (n * n);
    let (enter, leave) = (1.0 - outside, 1.0 - inside);
    let (turned, pass) = kubelka_munk::layer(alpha_d, scatter_d);
    let kept = turned + pass;
    let around = 0.5 * enter * leave * inside * kept * kept / (1.0 - inside * kept);
    let back = filled * (outside_back + enter * leave * turned + around);
    let forward = filled * (outside_forward + enter * leave * pass + around) + 1.0 - filled;
    let a = (1.0 + back * back - forward * forward) / (2.0 * back);
    let b = (a * a - 1.0).max(0.0).sqrt();
    let s = if b < 1e-6 { back / forward } else { asinh(b * back / forward) / b };
    GrainLayer { back, forward, k: ((a - 1.0) * s).max(0.0), s }
}

/// A bed of loose grains of one powder, of one depth.
#[derive(Clone, Copy, Debug)]
pub struct PowderLayer {
    /// Share of light it sends back.
    pub back: Spectrum,
    /// Share of light it passes on.
    pub pass: Spectrum,
    /// Share of light that passes between its grains without touching one.
    pub gaps: f32,
}

/// A powder, ready to be laid at any depth.
#[derive(Clone, Debug)]
pub struct Powder {
    /// Kubelka-Munk absorption and scatter per mm of loose depth.
    per_mm: [(f64, f64); BANDS],
    /// Logarithm of the gaps' share per mm.
    gaps_per_mm: f64,
}

impl Powder {
    /// A powder of grains of `grain` mm packed to the share `packing`.
    pub fn new(material: &Material, grain: f32, packing: f32) -> Self {
        let grain = f64::from(grain);
        let per_mm = std::array::from_fn(|band| {
            let alpha_d = grain * f64::from(material.absorption[band]);
            let layer = grain_layer(alpha_d, grain * f64::from(material.scatter[band]), packing.into());
            // A bed of depth x has x / grain layers of grains.
            (layer.k / grain, layer.s / grain)
        });
        Self { per_mm, gaps_per_mm: ln(1.0 - f64::from(packing).min(0.999)) / grain }
    }

    /// A bed of it `depth` mm deep.
    pub fn layer(&self, depth: f64) -> PowderLayer {
        let mut layer = PowderLayer {
            back: [0.0; BANDS],
            pass: [0.0; BANDS],
            gaps: exp(self.gaps_per_mm * depth) as f32,
        };
        for (band, (k, s)) in self.per_mm.iter().enumerate() {
            let (r, t) = kubelka_munk::layer(k * depth, s * depth);
            (layer.back[band], layer.pass[band]) = (r as f32, t as f32);
        }
        layer
    }

    /// The powder baked up to `deepest` mm of loose depth.
    pub fn baked(&self, deepest: f32) -> Table<PowderLayer> {
        let unit = Table::<PowderLayer>::unit(deepest);
        Table::new(unit, (0..NODES).map(|i| self.layer(unit * (i * i) as f64)).collect())
    }
}

/// What shows of a bed of powder that is laid, coat by coat, on glass.
///
/// Powder is lit by, and sends light to, the whole half space: to it the glass's top face is a diffuse reflector too. Only what
/// passes every gap between grains both ways meets that face as the straight light of a mirror, which is left out as on
/// bare glass.
#[derive(Clone, Copy, Debug)]
pub struct Loose {
    back: Parts,
    through: Parts,
    gaps: f32,
}

/// What the top face of glass sends back of diffuse light.
const FACE: f32 = super::surface::DIFFUSE_OUTSIDE as f32;

impl Loose {
    /// Bare glass that shows, and passes, these spectra.
    pub fn on(shows: &Spectrum, passes: &Spectrum) -> Self {
        let parts = |spectrum: &Spectrum| std::array::from_fn(|p| part(spectrum, p));
        Self { back: parts(&shows.map(|back| back + FACE)), through: parts(passes), gaps: 1.0 }
    }

    /// Lays powder on it, interpolated between two depths.
    #[inline]
    pub fn lay(&mut self, (a, b, t): Between<PowderLayer>) {
        for p in 0..PARTS {
            let (r, pass) = (between!(a, b, t, back, p), between!(a, b, t, pass, p));
            let (back, through) = (&mut self.back[p], &mut self.through[p]);
            let bounces = pass / (-(r * *back) + 1.0);
            *back = r + pass * bounces * *back;
            *through *= bounces;
        }
        self.gaps *= a.gaps + (b.gaps - a.gaps) * t;
    }

    /// The spectrum that it sends back, a perfect white being 1.
    #[inline]
    pub fn shows(&self) -> Spectrum {
        let mirrored = FACE * self.gaps * self.gaps;
        from_parts(|p| self.back[p] - mirrored)
    }

    /// The spectrum that comes through, the lamp's own light being 1.
    #[inline]
    pub fn passes(&self) -> Spectrum {
        from_parts(|p| self.through[p])
    }
}
