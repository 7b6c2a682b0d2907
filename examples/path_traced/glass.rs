//! Glass as light meets it: its faces, and its layers with what they absorb and scatter in every band.

use dappledome::base::scalar::{exp, ln};
use dappledome::color::spectrum::{BANDS, WEIGHTS};
use dappledome::glass::material::Material;
use dappledome::optics::surface::INDEX;

/// One value per band.
pub type Bands = [f64; BANDS];

/// Kubelka-Munk's scatter as a share of isotropic scattering, both per mm (own fit to Monte Carlo: optics).
const SHARE_BACK: f64 = 0.6;

/// What a ray does at a face.
#[derive(Clone, Copy, Debug)]
pub struct Face {
    /// Share of the light that is reflected, unpolarized (Fresnel).
    pub reflected: f64,
    /// Cosine to the normal beyond the face.
    pub beyond: f64,
    /// Index before the face over that behind it.
    pub ratio: f64,
}

impl Face {
    /// At a cosine of incidence, from inside the glass or from air.
    pub fn at(cosine: f64, from_inside: bool) -> Self {
        let ratio = if from_inside { INDEX } else { 1.0 / INDEX };
        let sine2 = ratio * ratio * (1.0 - cosine * cosine);
        if sine2 >= 1.0 {
            return Self { reflected: 1.0, beyond: 0.0, ratio };
        }
        let beyond = (1.0 - sine2).sqrt();
        let across = (ratio * cosine - beyond) / (ratio * cosine + beyond);
        let along = (cosine - ratio * beyond) / (cosine + ratio * beyond);
        Self { reflected: 0.5 * (across * across + along * along), beyond, ratio }
    }
}

/// A kind of glass, per mm.
#[derive(Clone, Debug)]
pub struct Kind {
    absorption: Bands,
    /// Isotropic scattering.
    pub scattering: Bands,
    ln_scattering: Bands,
}

impl Kind {
    /// From its absorption and isotropic scattering per mm.
    pub fn new(absorption: Bands, scattering: Bands) -> Self {
        Self { absorption, scattering, ln_scattering: scattering.map(ln) }
    }

    /// From a material of the engine.
    pub fn of(material: &Material) -> Self {
        Self::new(material.absorption.map(f64::from), material.scatter.map(|s| f64::from(s) / SHARE_BACK))
    }
}

/// A layer: how deep below the upper face it ends, mm, and of which kind of glass it is.
pub type Layer = (f64, usize);

/// Layers from the upper face down, with and without the coats.
#[derive(Clone, Debug)]
pub struct Stack {
    /// The kinds of glass.
    pub kinds: Vec<Kind>,
    /// The layers where there is powder.
    pub coated: Vec<Layer>,
    /// The layers of the bare rim.
    pub bare: Vec<Layer>,
    /// Radius on the flat disc at which the bare rim begins, mm.
    pub coated_to: f64,
}

impl Stack {
    /// The kind of glass at a depth and a radius on the flat disc, and how far it is at least to another one, mm.
    pub fn at(&self, depth: f64, flat_radius: impl FnOnce() -> f64) -> (usize, f64) {
        let (layers, mut room) = if self.coated == self.bare {
            (&self.bare, f64::MAX)
        } else {
            let s = flat_radius();
            // The flat radius grows nowhere faster than 1.1 mm per mm.
            let room = (s - self.coated_to).abs() / 1.1;
            (if s < self.coated_to { &self.coated } else { &self.bare }, room)
        };
        let mut kind = layers[layers.len() - 1].1;
        for (end, this) in layers.iter().rev().skip(1).rev() {
            room = room.min((end - depth).abs());
            if depth < *end {
                kind = *this;
                break;
            }
        }
        (kind, room)
    }
}

/// Most kinds of glass in one piece.
const KINDS: usize = 6;

/// What a path has met: how long it went in each kind of glass, mm, and how often it was scattered there.
#[derive(Clone, Copy, Debug, Default)]
pub struct Tally {
    length: [f64; KINDS],
    scattered: [u32; KINDS],
}

impl Tally {
    /// Goes on in a kind of glass.
    pub fn go(&mut self, kind: usize, length: f64) {
        self.length[kind] += length;
    }

    /// Scatters in a kind of glass.
    pub fn scatter(&mut self, kind: usize) {
        self.scattered[kind] += 1;
    }

    /// Weight of the path per band. One band, by chance, chose the free paths; that any other might have chosen the same
    /// ones is in the balance heuristic (Veach 1997; Wilkie et al. 2014, Comput. Graph. Forum 33; from memory), which keeps
    /// every weight below the number of bands.
    pub fn weights(&self, kinds: &[Kind]) -> Bands {
        let mut absorbed = [0.0; BANDS];
        let mut chosen = [0.0; BANDS];
        for (i, kind) in kinds.iter().enumerate() {
            if self.length[i] > 0.0 {
                let times = f64::from(self.scattered[i]);
                for band in 0..BANDS {
                    absorbed[band] += kind.absorption[band] * self.length[i];
                    if times > 0.0 {
                        chosen[band] += times * kind.ln_scattering[band];
                    }
                    chosen[band] -= kind.scattering[band] * self.length[i];
                }
            }
        }
        let most = chosen.iter().copied().fold(f64::MIN, f64::max);
        let likely = chosen.map(|c| exp(c - most));
        let mean = likely.iter().sum::<f64>() / BANDS as f64;
        std::array::from_fn(|band| exp(-absorbed[band]) * likely[band] / mean)
    }
}

/// Linear sRGB of a spectrum seen by daylight.
pub fn to_linear(bands: &Bands) -> [f64; 3] {
    WEIGHTS.map(|row| row.iter().zip(bands).map(|(weight, value)| f64::from(*weight) * value).sum())
}
