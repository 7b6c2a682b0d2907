//! One layer, baked: everything a pixel loop needs of it as tables over thickness, so that a pixel costs
//! interpolations and multiplications only.

use super::kubelka_munk;
use super::loose_powder::grain_layer;
use crate::base::scalar::{Bounds, exp};
use crate::color::spectrum::{BANDS, Spectrum};
use crate::glass::material::Material;

/// How much longer the path of light that bounces inside a layer is than its thickness.
const BOUNCE_PATH: f64 = 2.1;

/// A fired layer of one thickness. "Direct" light crosses on its way in or out; "bouncing" light has been turned
/// back by the surface. Each has its own absorption: the two-pass rule.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Layer {
    /// Transmittance for direct light.
    pub direct_t: Spectrum,
    /// Reflectance for direct light.
    pub direct_r: Spectrum,
    /// Transmittance for bouncing light.
    pub bounce_t: Spectrum,
    /// Reflectance for bouncing light.
    pub bounce_r: Spectrum,
    /// Straight transmittance, exp(-alpha x): what a clear sheet passes.
    pub straight: Spectrum,
    /// Straight transmittance along the mean path of diffuse light, exp(-1.13 alpha x).
    pub slant: Spectrum,
    /// exp(-2 S x): the share of light that is not scattered.
    pub unscattered: Spectrum,
}

/// The absorption per thickness that direct light meets: 1.065 alpha in clear glass, rising to the diffuse value
/// 2 alpha with the scatter `s` of the layer (own fit to Monte Carlo, rms 0.011).
pub fn direct_path(s: f64) -> f64 {
    2.0 - 0.935 * exp(-3.2 * s)
}

impl Layer {
    /// A layer of `thickness` mm.
    pub fn of(material: &Material, thickness: f64) -> Self {
        let mut layer = Self::default();
        for band in 0..BANDS {
            let tau = f64::from(material.absorption[band]) * thickness;
            let s = f64::from(material.scatter[band]) * thickness;
            let (r, t) = kubelka_munk::layer(tau * direct_path(s), s);
            (layer.direct_r[band], layer.direct_t[band]) = (r as f32, t as f32);
            let (r, t) = kubelka_munk::layer(tau * BOUNCE_PATH, s);
            (layer.bounce_r[band], layer.bounce_t[band]) = (r as f32, t as f32);
            layer.straight[band] = exp(-tau) as f32;
            layer.slant[band] = exp(-1.13 * tau) as f32;
            layer.unscattered[band] = exp(-2.0 * s) as f32;
        }
        layer
    }
}

/// Absorption and scatter of a thin layer that is a mixture: sums over its glasses of share times thickness.
#[derive(Clone, Copy, Debug, Default)]
pub struct Mixture {
    /// Sum of alpha x.
    pub absorbing: Spectrum,
    /// Sum of S x.
    pub scattering: Spectrum,
}

impl Mixture {
    /// Adds `thickness` mm of a glass.
    #[inline]
    pub fn add(&mut self, absorption: &Spectrum, scatter: &Spectrum, thickness: f32) {
        for band in 0..BANDS {
            self.absorbing[band] += absorption[band] * thickness;
            self.scattering[band] += scatter[band] * thickness;
        }
    }

    /// The mixture as a fired layer. It is thin, so every function is a short series.
    #[inline]
    pub fn fired(&self) -> Layer {
        let mut layer = Layer::default();
        for band in 0..BANDS {
            let (tau, s) = (self.absorbing[band], self.scattering[band]);
            // 2 - 0.935 exp(-3.2 s), by the Padé form of the exponential.
            let y = 1.6 * s;
            let direct = 2.0 - 0.935 * (1.0 - y + y * y / 3.0) / (1.0 + y + y * y / 3.0);
            (layer.direct_r[band], layer.direct_t[band]) = kubelka_munk::thin_layer(tau * direct, s);
            (layer.bounce_r[band], layer.bounce_t[band]) =
                kubelka_munk::thin_layer(tau * BOUNCE_PATH as f32, s);
            layer.straight[band] = thin_exp(-tau);
            layer.slant[band] = thin_exp(-1.13 * tau);
            layer.unscattered[band] = thin_exp(-2.0 * s);
        }
        layer
    }
}

/// exp(x) for small negative x, by a Padé form: 1e-5 at -1.
#[inline]
fn thin_exp(x: f32) -> f32 {
    let (odd, even) = (0.5 * x * (1.0 + x * x / 60.0), 1.0 + x * x / 10.0);
    ((even + odd) / (even - odd)).at_least(0.0)
}

/// Points of a table.
const NODES: usize = 256;

/// A table of spectra over thickness, from 0 in even steps.
#[derive(Clone, Debug)]
pub struct Baked<T> {
    per_mm: f32,
    nodes: Vec<T>,
}

/// A layer's table with what does not scatter told apart, since it folds faster.
#[derive(Clone, Debug)]
pub struct BakedLayer {
    /// Whether the glass scatters at all.
    pub scatters: bool,
    table: Baked<Layer>,
}

impl BakedLayer {
    /// Bakes a glass up to `deepest` mm.
    pub fn new(material: &Material, deepest: f32) -> Self {
        let step = f64::from(deepest.at_least(1e-3)) / (NODES - 1) as f64;
        let nodes = (0..NODES).map(|i| Layer::of(material, step * i as f64)).collect();
        Self { scatters: material.scatters(), table: Baked { per_mm: (1.0 / step) as f32, nodes } }
    }

    /// The two nodes about a thickness and how far between them it lies.
    #[inline]
    pub fn at(&self, thickness: f32) -> (&Layer, &Layer, f32) {
        self.table.at(thickness)
    }
}

impl<T> Baked<T> {
    #[inline]
    fn at(&self, thickness: f32) -> (&T, &T, f32) {
        let u = (thickness * self.per_mm).clamp(0.0, (NODES - 1) as f32 - 0.001);
        let i = u as usize;
        (&self.nodes[i], &self.nodes[i + 1], u - i as f32)
    }
}

/// A bed of loose grains of one powder, baked over its depth.
#[derive(Clone, Debug)]
pub struct BakedPowder {
    table: Baked<(Spectrum, Spectrum)>,
    /// Kubelka-Munk absorption per mm of loose depth.
    pub absorption: Spectrum,
    /// Kubelka-Munk scatter per mm of loose depth.
    pub scatter: Spectrum,
}

impl BakedPowder {
    /// Bakes a powder of grains of `grain` mm packed to the share `packing`, up to `deepest` mm of loose depth.
    pub fn new(material: &Material, grain: f32, packing: f32, deepest: f32) -> Self {
        let (mut absorption, mut scatter) = ([0.0; BANDS], [0.0; BANDS]);
        for band in 0..BANDS {
            let layer = grain_layer(f64::from(material.absorption[band] * grain), packing.into());
            // A bed of depth x has x / grain layers of grains.
            absorption[band] = (layer.k / f64::from(grain)) as f32;
            scatter[band] = (layer.s / f64::from(grain)) as f32;
        }
        let step = f64::from(deepest.at_least(1e-3)) / (NODES - 1) as f64;
        let node = |i: usize| {
            let mut node = ([0.0; BANDS], [0.0; BANDS]);
            for band in 0..BANDS {
                let x = step * i as f64;
                let (r, t) =
                    kubelka_munk::layer(f64::from(absorption[band]) * x, f64::from(scatter[band]) * x);
                (node.0[band], node.1[band]) = (r as f32, t as f32);
            }
            node
        };
        Self {
            table: Baked { per_mm: (1.0 / step) as f32, nodes: (0..NODES).map(node).collect() },
            absorption,
            scatter,
        }
    }

    /// (reflectance, transmittance) at the two nodes about a depth, and how far between them it lies.
    #[inline]
    pub fn at(&self, depth: f32) -> (&(Spectrum, Spectrum), &(Spectrum, Spectrum), f32) {
        self.table.at(depth)
    }
}
