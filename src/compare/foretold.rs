//! The forecast as the few colors that it is made of: which coats lie on each other, and what that looks like.

use crate::base::grid::Grid;
use crate::base::memo::{Allowance, Shared};
use crate::base::seed::Seed;
use crate::color::difference::{Lab, de2000, to_lab};
use crate::color::srgb::Linear;
use crate::fuse::settle::{FusedDisc, lies_from};
use crate::optics::colors::ColorField;
use crate::preview::Preview;
use crate::recipe::plan::Plan;
use std::collections::BTreeMap;

/// Cells across the disc that are looked at, in forecast and photo.
pub const CELLS: usize = 128;
/// A forecast is drawn so many times as fine, and its light mixed as a camera mixes it: between grains the bare blank shows.
pub const FINER: usize = 2;
/// Of the radius, what is looked at: the rim is rounded and lit on its own.
pub const WITHIN: f64 = 0.94;

/// One of the colors of a piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Color {
    /// The coats that lie there, bottom to top, by id; none where the blank is bare.
    pub coats: Vec<u32>,
    /// Its mean color, a perfect white being L* 100.
    pub color: Lab,
}

/// Colors on less of the disc than this are no row (by eye).
const LEAST_SHARE: f64 = 0.02;
/// Two colors nearer than this, CIEDE2000, are one: no photo tells them apart (by eye).
const ALIKE: f64 = 3.0;

/// The colors that a piece with this layout is made of, fused and by day, those on most of it first. Colors on little of it, and those like
/// another on more of it, are left out.
pub fn colors(preview: &mut Preview, plan: &Plan, seed: Seed) -> Vec<Color> {
    let (disc, field) = drawn(preview, plan, seed);
    let glass: Vec<Vec<f32>> = disc
        .coats
        .iter()
        .map(|coat| coarser(coat, |glass| [*glass]).map(|[glass]| glass).collect())
        .collect();
    let lies: Vec<f32> = glass.iter().map(|glass| lies_from(glass)).collect();
    let mut sums = BTreeMap::<Vec<u32>, (usize, [f64; 3])>::new();
    let mut all = 0;
    for (cell, color) in within(&field) {
        let coats = plan.coats.iter().enumerate().filter(|(at, _)| glass[*at][cell] > lies[*at]);
        let (count, sum) = sums.entry(coats.map(|(_, coat)| coat.sift.id).collect()).or_default();
        *count += 1;
        all += 1;
        (0..3).for_each(|k| sum[k] += f64::from(color[k]));
    }
    let mut found: Vec<_> =
        sums.into_iter().filter(|(_, (count, _))| *count as f64 >= LEAST_SHARE * f64::from(all)).collect();
    found.sort_by_key(|(_, (count, _))| std::cmp::Reverse(*count));
    let mean = |(count, sum): (usize, [f64; 3])| to_lab(sum.map(|light| (light / count as f64) as f32));
    told_apart(found.into_iter().map(|(coats, sum)| Color { coats, color: mean(sum) }))
}

/// What shows inside the rim of a layout, fused and by day, place by place.
pub fn places(preview: &mut Preview, plan: &Plan, seed: Seed) -> Vec<Lab> {
    let (_, field) = drawn(preview, plan, seed);
    within(&field).map(|(_, color)| to_lab(color)).collect()
}

fn drawn(preview: &mut Preview, plan: &Plan, seed: Seed) -> (Shared<FusedDisc>, Shared<ColorField>) {
    let mut all = Allowance::unlimited();
    let disc = preview.fused(plan, seed, FINER * CELLS, &mut all);
    let field = preview.colors(plan, seed, FINER * CELLS, &mut all);
    disc.and_then(|disc| Ok((disc, field?))).expect("an unlimited allowance never pauses")
}

/// Without those that look like one before them.
fn told_apart(sorted: impl Iterator<Item = Color>) -> Vec<Color> {
    sorted.fold(Vec::new(), |mut kept, one| {
        if kept.iter().all(|other: &Color| de2000(other.color, one.color) >= ALIKE) {
            kept.push(one);
        }
        kept
    })
}

/// The cells inside the rim, and what each looks like.
fn within(field: &ColorField) -> impl Iterator<Item = (usize, Linear)> {
    let grid = Grid::new(field.grid.disc(), CELLS);
    let most = WITHIN as f32 * grid.disc().radius();
    let inside = move |cell: &usize| {
        let (x, y) = (grid.x(cell % CELLS), grid.y(cell / CELLS));
        x * x + y * y < most * most
    };
    coarser(&field.cells, |[r, g, b, _]| [*r, *g, *b]).enumerate().filter(move |(cell, _)| inside(cell))
}

/// The mean of the drawn cells in each cell that is looked at.
fn coarser<T, const N: usize>(drawn: &[T], value: impl Fn(&T) -> [f32; N]) -> impl Iterator<Item = [f32; N]> {
    (0..CELLS * CELLS).map(move |cell| {
        let first = FINER * (cell / CELLS) * FINER * CELLS + FINER * (cell % CELLS);
        let parts =
            (0..FINER * FINER).map(|part| value(&drawn[first + part / FINER * FINER * CELLS + part % FINER]));
        let sum = parts.fold([0.0; N], |sum, part| std::array::from_fn(|k| sum[k] + part[k]));
        sum.map(|sum| sum / (FINER * FINER) as f32)
    })
}
