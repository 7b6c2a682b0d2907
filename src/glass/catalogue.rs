//! The catalogue: the glasses that every recipe can name without bringing them along.

use super::demo::{self, DemoGlass};
use super::kind::{Glass, Source};
use super::material::Material;
use super::measured::{PUBLISHED, WINDOW_GLASSES};
use crate::base::units::Celsius;
use crate::color::spectrum::{BANDS, Spectrum};
use std::sync::OnceLock;

/// Every glass of the catalogue, in the order it is offered. The window glasses are measured; all others are demo data.
pub fn all() -> &'static [Glass] {
    static SHELF: OnceLock<Vec<Glass>> = OnceLock::new();
    SHELF.get_or_init(|| {
        use demo::{CHALK, CLEAR, CORAL, HEATHER, LAGOON, MOSS, RUST, SHOAL, SLATE, STRAW, UMBER};
        let demo = vec![
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
        ];
        demo.into_iter().chain(WINDOW_GLASSES.map(window)).collect()
    })
}

/// The glass of this id.
pub fn find(id: &str) -> Option<&'static Glass> {
    all().iter().find(|glass| glass.id == id)
}

fn sheet(id: &str, name: &str, colorants: &[(&DemoGlass, f32)], powder: bool) -> Glass {
    Glass { sheet: true, powder, ..Glass::new(id, name, colored(colorants)) }
}

/// A powder; its expansion is off that of the sheets by so much, 1e-6/K.
fn powder(id: &str, name: &str, colorants: &[(&DemoGlass, f32)], off: f64) -> Glass {
    let glass = Glass::new(id, name, colored(colorants));
    Glass { powder: true, expansion: glass.expansion + off, ..glass }
}

/// A window glass. Its points are those of the standard soda-lime glass DGG I (second hand), its expansion that of EN 572-1.
fn window((id, name, absorption): (&str, &str, Spectrum)) -> Glass {
    Glass {
        sheet: true,
        softening: Celsius(721.0),
        annealing: Celsius(539.0),
        source: Source::Measured { published: PUBLISHED.into() },
        ..Glass::new(id, name, Material { absorption, scatter: [0.0; BANDS] })
    }
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
