//! The shelf: every glass a recipe can name.

use super::demo::{self, DemoGlass};
use super::material::Material;
use crate::base::units::Celsius;
use crate::color::spectrum::BANDS;
use std::sync::OnceLock;

/// A glass on the shelf.
#[derive(Debug)]
pub struct Glass {
    /// What recipes call it.
    pub id: &'static str,
    /// What the maker calls it.
    pub name: &'static str,
    /// Whether it is sold as sheet.
    pub sheet: bool,
    /// Whether it is sold as powder and frit.
    pub powder: bool,
    /// Its optics.
    pub material: Material,
    /// Median grain of the powder, mm, as light sees it when loose.
    pub grain: f32,
    /// Mean grain of the powder by sieve, mm: a bed much thinner than this lies as scattered specks.
    pub sieve: f32,
    /// Thermal expansion, 1e-6/K.
    pub expansion: f64,
    /// Softening point: 10^6.65 Pa s.
    pub softening: Celsius,
    /// Annealing point: 10^12 Pa s.
    pub annealing: Celsius,
}

/// Density of glass, g/cm³: soda-lime glass as EN 572-1 gives it; colored glasses differ a little.
pub const DENSITY: f64 = 2.5;

/// Every glass on the shelf, in the order it is offered. All of them are demo data.
pub fn all() -> &'static [Glass] {
    static SHELF: OnceLock<Vec<Glass>> = OnceLock::new();
    SHELF.get_or_init(|| {
        use demo::{CHALK, CLEAR, CORAL, HEATHER, LAGOON, MOSS, RUST, SHOAL, SLATE, STRAW, UMBER};
        vec![
            sheet("clear", "Clear", &[(&CLEAR, 1.0)], true),
            sheet("white", "White", &[(&CHALK, 1.0)], false),
            sheet("pale_teal", "Pale teal", &[(&SHOAL, 0.18)], false),
            powder("straw", "Straw", &[(&STRAW, 3.5), (&RUST, 0.3)], 0.0),
            powder("rust", "Rust", &[(&RUST, 3.5), (&CORAL, 3.5)], 0.05),
            powder("coral", "Coral", &[(&CORAL, 5.0)], 0.1),
            powder("umber", "Umber", &[(&UMBER, 3.0), (&CORAL, 1.0)], 0.05),
            powder("moss", "Moss", &[(&MOSS, 2.4), (&UMBER, 1.0)], 0.0),
            powder("heather", "Heather", &[(&HEATHER, 3.5)], -0.05),
            powder("slate", "Slate", &[(&SLATE, 5.0)], -0.1),
            powder("lagoon", "Lagoon", &[(&LAGOON, 2.0), (&SLATE, 1.0)], -0.05),
            powder("chalk", "Chalk", &[(&CHALK, 1.0)], 0.0),
        ]
    })
}

/// The glass of this id.
pub fn find(id: &str) -> Option<&'static Glass> {
    all().iter().find(|glass| glass.id == id)
}

fn sheet(id: &'static str, name: &'static str, colorants: &[(&DemoGlass, f32)], powder: bool) -> Glass {
    let material = colored(colorants);
    let (grain, sieve, expansion) = (0.04, 0.08, demo::EXPANSION);
    let (softening, annealing) = (demo::SOFTENING, demo::ANNEALING);
    Glass { id, name, sheet: true, powder, material, grain, sieve, expansion, softening, annealing }
}

/// A powder; its expansion is off that of the sheets by so much, 1e-6/K.
fn powder(id: &'static str, name: &'static str, colorants: &[(&DemoGlass, f32)], off: f64) -> Glass {
    let sheet = sheet(id, name, colorants, true);
    Glass { sheet: false, expansion: sheet.expansion + off, ..sheet }
}

/// Clear glass with colorants added, each at a multiple of its demo strength.
fn colored(colorants: &[(&DemoGlass, f32)]) -> Material {
    let mut material = Material { absorption: demo::CLEAR.absorption, scatter: [0.0; BANDS] };
    for (colorant, strength) in colorants {
        for band in 0..BANDS {
            let added = colorant.absorption[band] - demo::CLEAR.absorption[band];
            material.absorption[band] += strength * added;
            material.scatter[band] += strength * colorant.scatter[band];
        }
    }
    material
}
