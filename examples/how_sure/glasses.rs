//! Invented true glasses: colorants of `colorants.csv` with everything about them off a little, and smooth spectra of no family.

use dappledome::base::scalar::{exp, pow};
use dappledome::color::spectrum::{BANDS, Spectrum, WAVELENGTHS};
use dappledome::glass::demo;
use dappledome::glass::material::Material;
use rand::RngExt;
use rand_chacha::ChaCha8Rng;

/// One absorption band or edge.
#[derive(Clone, Copy, Debug)]
pub enum Term {
    /// Middle and sigma, 1000/cm.
    Gauss(f64, f64),
    /// Where it is half, and its width, nm: absorbs below.
    Edge(f64, f64),
    /// Where it is 1, and how fast it falls, nm.
    Tail(f64, f64),
}

impl Term {
    fn at(self, nm: f64) -> f64 {
        match self {
            Self::Gauss(middle, sigma) => {
                let off = (1e4 / nm - middle) / sigma;
                exp(-0.5 * off * off)
            }
            Self::Edge(half, width) => 1.0 / (1.0 + exp((nm - half) / width)),
            Self::Tail(from, fall) => exp(-(nm - from) / fall),
        }
    }

    /// The same, off a little.
    fn jittered(self, rng: &mut ChaCha8Rng) -> Self {
        let mut near = |value: f64, share: f64| value * (1.0 + share * gauss(rng));
        match self {
            Self::Gauss(middle, sigma) => Self::Gauss(near(middle, 0.015), near(sigma, 0.15).abs()),
            Self::Edge(half, width) => Self::Edge(near(half, 0.015), near(width, 0.15).abs()),
            Self::Tail(from, fall) => Self::Tail(from, near(fall, 0.15).abs()),
        }
    }
}

/// A standard normal number.
pub fn gauss(rng: &mut ChaCha8Rng) -> f64 {
    // The sum of twelve uniform numbers, less its mean: close enough to the tails that a percentile asks for.
    (0..12).map(|_| rng.random::<f64>()).sum::<f64>() - 6.0
}

/// A number between two, evenly in its logarithm.
pub fn between(rng: &mut ChaCha8Rng, least: f64, most: f64) -> f64 {
    least * pow(most / least, rng.random())
}

/// What is absorbed per mm at any wavelength.
pub struct Absorbs {
    /// Its terms with their strengths.
    pub terms: Vec<(f64, Term)>,
    peak: f64,
    most: f64,
}

impl Absorbs {
    /// As these terms go together, so strong that `peak` is absorbed in the strongest band.
    pub fn scaled(terms: Vec<(f64, Term)>, peak: f64) -> Self {
        let raw = Self { terms, peak: 1.0, most: 1.0 };
        let most = WAVELENGTHS.iter().map(|nm| raw.at((*nm).into())).fold(1e-9, f64::max);
        Self { peak, most, ..raw }
    }

    /// Per mm.
    pub fn at(&self, nm: f64) -> f64 {
        self.terms.iter().map(|(strength, term)| strength * term.at(nm)).sum::<f64>() * self.peak / self.most
    }
}

/// Colorants: the terms of each with their strengths.
pub struct Colorants(Vec<Vec<(f64, Term)>>);

impl Colorants {
    /// Those of `colorants.csv`.
    pub fn read() -> Self {
        let mut all: Vec<(&str, Vec<(f64, Term)>)> = Vec::new();
        for line in include_str!("colorants.csv").lines().skip(2) {
            let fields: Vec<&str> = line.split(',').collect();
            let number = |at: usize| fields[at].parse::<f64>().expect("a number");
            let term = match fields[3] {
                "gauss_wavenumber" => Term::Gauss(number(4), number(5)),
                "logistic_edge" => Term::Edge(number(4), number(5)),
                "uv_exponential" => Term::Tail(number(4), number(5)),
                kind => panic!("no such kind: {kind}"),
            };
            match all.last_mut().filter(|(name, _)| *name == fields[0]) {
                Some((_, terms)) => terms.push((number(2), term)),
                None => all.push((fields[0], vec![(number(2), term)])),
            }
        }
        Self(all.into_iter().map(|(_, terms)| terms).collect())
    }

    /// A transparent glass whose strongest band absorbs `peak` per mm.
    pub fn transparent(&self, rng: &mut ChaCha8Rng, peak: f64) -> Material {
        let absorbs = self.drawn(rng, peak);
        let absorption = std::array::from_fn(|band| {
            demo::CLEAR.absorption[band] + absorbs.at(WAVELENGTHS[band].into()) as f32
        });
        Material { absorption, scatter: [0.0; BANDS] }
    }

    /// What such a glass absorbs beside clear glass.
    pub fn drawn(&self, rng: &mut ChaCha8Rng, peak: f64) -> Absorbs {
        let terms = if rng.random::<f64>() < 0.6 { self.mixed(rng) } else { of_no_family(rng) };
        Absorbs::scaled(terms, peak)
    }

    /// One to three colorants, each off a little.
    fn mixed(&self, rng: &mut ChaCha8Rng) -> Vec<(f64, Term)> {
        let mut terms = Vec::new();
        for _ in 0..rng.random_range(1..=3) {
            let strength = between(rng, 0.15, 1.0);
            for (relative, term) in &self.0[rng.random_range(0..self.0.len())] {
                terms.push((strength * relative * exp(0.2 * gauss(rng)), term.jittered(rng)));
            }
        }
        terms
    }
}

/// Wide bands and soft edges anywhere.
fn of_no_family(rng: &mut ChaCha8Rng) -> Vec<(f64, Term)> {
    (0..rng.random_range(1..=4))
        .map(|_| {
            let strength = between(rng, 0.1, 1.0);
            let term = if rng.random::<f64>() < 0.6 {
                Term::Gauss(rng.random_range(13.0..27.0), between(rng, 0.8, 4.0))
            } else {
                Term::Edge(rng.random_range(420.0..680.0), between(rng, 10.0, 60.0))
            };
            (strength, term)
        })
        .collect()
}

/// Scatter per mm, from that at 550 nm; finer inclusions scatter blue more.
pub fn scatter(rng: &mut ChaCha8Rng, at_550: f64) -> Spectrum {
    let steepness = rng.random_range(0.0..1.5);
    WAVELENGTHS.map(|nm| (at_550 * pow(550.0 / f64::from(nm), steepness)) as f32)
}
