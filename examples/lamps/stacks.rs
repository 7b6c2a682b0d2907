//! Random smooth stacks of glass, their spectra at any wavelengths by the engine's own model of layers.

use dappledome::base::scalar::{exp, pow};
use dappledome::color::spectrum::{BANDS, Spectrum};
use dappledome::glass::material::Material;
use dappledome::optics::layer::Layer;
use dappledome::optics::stack::{Lit, Seen};
use dappledome::tiles::tile::{Bases, Over};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// An absorption band (middle and sigma, 1000/cm) or an edge (half and width, nm), and its strength.
enum Term {
    Band(f64, f64, f64),
    Edge(f64, f64, f64),
}

impl Term {
    fn at(&self, nm: f64) -> f64 {
        match *self {
            Self::Band(middle, sigma, strength) => {
                let off = (1e4 / nm - middle) / sigma;
                strength * exp(-0.5 * off * off)
            }
            Self::Edge(half, width, strength) => strength / (1.0 + exp((nm - half) / width)),
        }
    }
}

/// One layer: what absorbs in it, its scatter per mm at 550 nm and how much more of that blue has, its thickness in mm.
struct Lain {
    terms: Vec<Term>,
    scatter: (f64, f64),
    thickness: f64,
}

/// How a stack is looked at.
enum Look {
    White,
    Table,
    Lit,
}

/// Layers on a base.
pub struct Stack {
    layers: Vec<Lain>,
    look: Look,
}

/// So many stacks: one to four layers of 0.05 to 3 mm that absorb 0.05 to 6 at their strongest; three in ten layers scatter. No edge is
/// steeper than 8 nm.
pub fn stacks(count: usize, seed: u64) -> Vec<Stack> {
    let stack = |number: usize| {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        rng.set_stream(number as u64);
        let layers = (0..rng.random_range(1..=4)).map(|_| lain(&mut rng)).collect();
        let look = match rng.random_range(0..3) {
            0 => Look::White,
            1 => Look::Table,
            _ => Look::Lit,
        };
        Stack { layers, look }
    };
    (0..count).map(stack).collect()
}

fn between(rng: &mut ChaCha8Rng, least: f64, most: f64) -> f64 {
    least * pow(most / least, rng.random())
}

fn lain(rng: &mut ChaCha8Rng) -> Lain {
    let thickness = between(rng, 0.05, 3.0);
    let depth = between(rng, 0.05, 6.0);
    let terms = (0..rng.random_range(1..=4)).map(|_| {
        let strength = depth * between(rng, 0.1, 1.0) / thickness;
        if rng.random::<f64>() < 0.6 {
            Term::Band(rng.random_range(13.0..27.0), between(rng, 0.8, 4.0), strength)
        } else {
            Term::Edge(rng.random_range(420.0..680.0), between(rng, 8.0, 60.0), strength)
        }
    });
    let terms = terms.collect();
    let scatters = rng.random::<f64>() < 0.3;
    let scatter = if scatters { between(rng, 0.05, 3.0) } else { 0.0 };
    Lain { terms, scatter: (scatter, rng.random_range(0.0..1.5)), thickness }
}

impl Stack {
    /// What it shows at each of these wavelengths, nm: a perfect white is 1.
    pub fn shows(&self, nms: &[f64]) -> Vec<f64> {
        nms.chunks(BANDS)
            .flat_map(|some| {
                // Any sixteen are the model's bands. The last ones are filled up.
                let at = std::array::from_fn(|band| some.get(band).copied().unwrap_or(555.0));
                self.in_bands(at).into_iter().take(some.len()).map(f64::from)
            })
            .collect()
    }

    fn in_bands(&self, nms: [f64; BANDS]) -> Spectrum {
        let white = Bases::default().under(Over::White);
        let (mut seen, mut lit) =
            (if matches!(self.look, Look::White) { white } else { Seen::ground(0.36) }, Lit::lamp());
        for lain in &self.layers {
            let (at_550, blue) = lain.scatter;
            let material = Material {
                absorption: nms.map(|nm| lain.terms.iter().map(|term| term.at(nm)).sum::<f64>() as f32),
                scatter: nms.map(|nm| (at_550 * pow(550.0 / nm, blue)) as f32),
            };
            let layer = Layer::of(&material, lain.thickness);
            seen.lay((&layer, &layer, 0.0), material.scatters());
            lit.lay((&layer, &layer, 0.0), material.scatters());
        }
        if matches!(self.look, Look::Lit) { lit.shows_at(nms) } else { seen.shows() }
    }
}
