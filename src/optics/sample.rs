//! A core sample: the layers at one place of the piece in optical order, each with its thickness and its colors.

use super::colors::{TABLE, WHITE};
use super::layer::Layer;
use super::stack::Seen;
use super::test_tile::Color;
use crate::base::grid::Grid;
use crate::base::units::Mm;
use crate::color::spectrum::to_linear;
use crate::color::srgb::{encode, pull_in};
use crate::fuse::settle::FusedDisc;
use crate::glass::material::Material;
use crate::layup::powder_bed::PowderBed;
use crate::recipe::Side;
use crate::recipe::plan::Plan;
use serde::{Deserialize, Serialize};

/// The layers at one place, outermost first.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Sample {
    /// The place on the flat disc, mm to the right.
    pub x: f32,
    /// The place on the flat disc, mm up.
    pub y: f32,
    /// The layers.
    pub layers: Vec<SampleLayer>,
}

/// One layer of a core sample.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SampleLayer {
    /// What it is.
    pub what: What,
    /// Thickness fused.
    pub fused: Mm,
    /// Depth of the loose powder it was; none for sheet glass.
    pub sifted: Option<Mm>,
    /// Its color by itself, on white.
    pub alone: Color,
    /// The color of everything up to it: what one would see if the layers over it were not there.
    pub in_place: Color,
}

/// What a layer is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum What {
    /// A sheet of the blank, counted from the bottom.
    Sheet(usize),
    /// The coat with this id.
    Coat(u32),
    /// Powder that the sponge put back, of more than one coat.
    PutBack,
}

impl Sample {
    /// Distance from the crown, along the glass.
    pub fn from_crown(&self) -> Mm {
        Mm(f64::from((self.x * self.x + self.y * self.y).sqrt()))
    }

    /// The whole thickness.
    pub fn through(&self) -> Mm {
        Mm(self.layers.iter().map(|layer| layer.fused.0).sum())
    }
}

/// Powder thinner than this when fused, mm, is not listed: a thousandth of it could not be told from dust.
const LEAST: f32 = 1e-3;

/// One layer before its colors are known: its optics, whether it scatters.
struct Raw {
    what: What,
    fused: f32,
    sifted: Option<f32>,
    layer: Layer,
    scatters: bool,
}

/// Takes a core sample at (x, y) mm of the disc; the bed and the fused disc lie on grids of the same size.
pub fn take(plan: &Plan, bed: &PowderBed, disc: &FusedDisc, (x, y): (f32, f32)) -> Sample {
    let cell = place(&disc.grid, x, y);
    let mut raw: Vec<Raw> = plan.sheets.iter().enumerate().map(sheet).collect();
    for (at, coat) in plan.coats.iter().enumerate() {
        let fused = disc.coats[at][cell];
        if fused >= LEAST {
            let material = &coat.blend.material;
            raw.push(Raw {
                what: What::Coat(coat.sift.id),
                fused,
                sifted: Some(bed.coats[at][cell]),
                layer: Layer::of(material, fused.into()),
                scatters: material.scatters(),
            });
        }
    }
    raw.extend(put_back(plan, bed, disc, cell));
    if plan.side == Side::In {
        raw.reverse();
    }
    // Colors are folded from the bottom up, and told from the top down.
    let mut seen = Seen::ground(TABLE);
    let mut layers: Vec<SampleLayer> = raw
        .iter()
        .map(|raw| {
            seen.lay((&raw.layer, &raw.layer, 0.0), raw.scatters);
            let mut alone = Seen::ground(1.0);
            alone.lay((&raw.layer, &raw.layer, 0.0), raw.scatters);
            SampleLayer {
                what: raw.what,
                fused: Mm(raw.fused.into()),
                sifted: raw.sifted.map(|mm| Mm(mm.into())),
                alone: shown(&alone),
                in_place: shown(&seen),
            }
        })
        .collect();
    layers.reverse();
    Sample { x, y, layers }
}

/// The cell that holds a place, or the nearest one on the disc.
fn place(grid: &Grid, x: f32, y: f32) -> usize {
    let most = grid.disc().radius() - grid.cell();
    let r = (x * x + y * y).sqrt();
    let pull = if r > most { most / r } else { 1.0 };
    grid.cell_at(x * pull, y * pull)
}

fn sheet((at, sheet): (usize, &crate::recipe::plan::PlannedSheet)) -> Raw {
    let material = &sheet.glass.material;
    Raw {
        what: What::Sheet(at),
        fused: sheet.thickness,
        sifted: None,
        layer: Layer::of(material, sheet.thickness.into()),
        scatters: material.scatters(),
    }
}

fn put_back(plan: &Plan, bed: &PowderBed, disc: &FusedDisc, cell: usize) -> Option<Raw> {
    let lie = || disc.mixture.iter().zip(&bed.put_back).zip(&plan.coats);
    let there: Vec<_> = lie().filter(|((plane, _), _)| plane[cell] > 1e-5).collect();
    let fused: f32 = there.iter().map(|((plane, _), _)| plane[cell]).sum();
    let sifted: f32 = there.iter().map(|((_, loose), _)| loose[cell]).sum();
    let material =
        Material::blend(there.iter().map(|((plane, _), coat)| (&coat.blend.material, plane[cell] / fused)));
    let what = match there[..] {
        [(_, only)] => What::Coat(only.sift.id),
        _ => What::PutBack,
    };
    (fused >= LEAST).then(|| Raw {
        what,
        fused,
        sifted: Some(sifted),
        layer: Layer::of(&material, fused.into()),
        scatters: material.scatters(),
    })
}

fn shown(seen: &Seen) -> Color {
    encode(pull_in(to_linear(&seen.shows())).map(|c| c * WHITE))
}
