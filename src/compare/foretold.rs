//! The forecast as the few colors that it is made of: which coats lie on each other, and what that looks like.

use crate::base::memo::{Allowance, Shared};
use crate::base::seed::Seed;
use crate::color::difference::{Lab, de2000, to_lab};
use crate::color::srgb::Linear;
use crate::fuse::settle::FusedDisc;
use crate::optics::colors::ColorField;
use crate::preview::Preview;
use crate::recipe::plan::Plan;
use std::collections::BTreeMap;

/// Cells across the disc that are looked at, in forecast and photo.
pub const CELLS: usize = 128;
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

/// A coat lies where it is at least this part of its mean depth where it lies at all: less is dust (by eye).
const LIES: f32 = 0.3;
/// Colors on less of the disc than this are no row (by eye).
const LEAST_SHARE: f64 = 0.02;
/// Two colors nearer than this, CIEDE2000, are one: no photo tells them apart (by eye).
const ALIKE: f64 = 3.0;

/// The colors that a piece with this layout is made of, fused and by day, those on most of it first. Colors on little of it, and those like
/// another on more of it, are left out.
pub fn colors(preview: &mut Preview, plan: &Plan, seed: Seed) -> Vec<Color> {
    let (disc, field) = drawn(preview, plan, seed);
    let lies = thresholds(&disc);
    let mut sums = BTreeMap::<Vec<u32>, (usize, [f64; 3])>::new();
    let mut all = 0;
    for (cell, color) in within(&field) {
        let coats = plan.coats.iter().enumerate().filter(|(at, _)| disc.coats[*at][cell] > lies[*at]);
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
    let disc = preview.fused(plan, seed, CELLS, &mut all);
    let field = preview.colors(plan, seed, CELLS, &mut all);
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
    let grid = field.grid;
    let most = WITHIN as f32 * grid.disc().radius();
    let inside = move |cell: &usize| {
        let (x, y) = (grid.x(cell % grid.n()), grid.y(cell / grid.n()));
        x * x + y * y < most * most
    };
    (0..grid.len()).filter(inside).map(|cell| (cell, field.colors[cell]))
}

/// For each coat, the glass from which on it lies there, mm.
fn thresholds(disc: &FusedDisc) -> Vec<f32> {
    let of = |glass: &Vec<f32>| {
        let there = glass.iter().filter(|glass| **glass > 1e-3);
        let (sum, count) = there.fold((0.0, 0.0), |(sum, count), glass| (sum + glass, count + 1.0_f32));
        if count > 0.0 { LIES * sum / count } else { f32::INFINITY }
    };
    disc.coats.iter().map(of).collect()
}
