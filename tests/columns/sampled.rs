//! The core sample, taken of discs laid by hand.

use super::bench::*;
use dappledome::base::grid::Grid;
use dappledome::fuse::settle::FusedDisc;
use dappledome::layup::powder_bed::PowderBed;
use dappledome::optics::sample::{Sample, What, take};
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Recipe, Side};

/// A sample 20 mm right and 10 mm up, where each coat has so much fused glass and, put back, so much; loose it was twice that.
fn sample(plan: &Plan, fused: &[f32], back: &[f32]) -> Sample {
    let grid = Grid::new(plan.disc, 64);
    let plane = |depth: f32, elsewhere: f32| {
        let mut plane = vec![elsewhere; grid.len()];
        plane[grid.cell_at(20.0, 10.0)] = depth;
        plane
    };
    let planes =
        |depths: &[f32], times: f32| depths.iter().map(|mm| plane(mm * times, 9.0)).collect::<Vec<_>>();
    let disc = FusedDisc { grid, coats: planes(fused, 1.0), mixture: planes(back, 1.0) };
    let mut bed = PowderBed::sifted(grid, planes(fused, 2.0));
    bed.put_back = planes(back, 2.0).into_iter().map(Into::into).collect();
    take(plan, &bed, &disc, (20.0, 10.0))
}

fn bench(side: Side) -> Recipe {
    let coats = vec![even(4, "coral", 0.2), even(5, "slate", 0.2), even(6, "chalk", 0.2)];
    Recipe { powder_side: side, ..recipe(&[("clear", 3.0), ("pale_teal", 2.0)], coats) }
}

/// What each layer is, how thick fused and how deep loose; a speck below a thousandth is not listed.
#[test]
fn a_sample_lists_its_layers_from_the_outside() {
    let (fused, back) = ([0.3, 0.0009, 0.1], [0.002, 0.0, 0.05]);
    let out = sample(&plan(&bench(Side::Out)), &fused, &back);
    let listed = |sample: &Sample| {
        let rounded = |mm: f64| (mm * 1e4).round() / 1e4;
        sample
            .layers
            .iter()
            .map(|layer| (layer.what, rounded(layer.fused.0), layer.sifted.map(|mm| rounded(mm.0))))
            .collect::<Vec<_>>()
    };
    let want = [
        (What::PutBack, 0.052, Some(0.104)),
        (What::Coat(6), 0.1, Some(0.2)),
        (What::Coat(4), 0.3, Some(0.6)),
        (What::Sheet(1), 2.0, None),
        (What::Sheet(0), 3.0, None),
    ];
    assert_eq!(listed(&out), want);
    assert!((out.through().0 - 5.452).abs() < 1e-6 && (out.from_crown().0 - 500f64.sqrt()).abs() < 1e-5);
    let inside = sample(&plan(&bench(Side::In)), &fused, &back);
    let reversed: Vec<_> = want.into_iter().rev().collect();
    assert_eq!(listed(&inside), reversed, "with the powder inside, the sheets come first");
}

/// What a single coat put back is that coat's.
#[test]
fn one_coats_powder_put_back_keeps_its_name() {
    let one = sample(&plan(&bench(Side::Out)), &[0.0; 3], &[0.0, 0.02, 0.0]);
    assert_eq!(one.layers.first().map(|layer| layer.what), Some(What::Coat(5)));
}

/// Colors alone on white, and in place on all that lies below, from either side.
#[test]
fn a_samples_colors_are_its_columns() {
    let (fused, back) = ([0.3f32, 0.08, 0.1], [0.02f32, 0.0, 0.06]);
    let layers: [(&[(&str, f64)], f64); 6] = [
        (&[("clear", 1.0)], 3.0),
        (&[("pale_teal", 1.0)], 2.0),
        (&[("coral", 1.0)], 0.3),
        (&[("slate", 1.0)], 0.08),
        (&[("chalk", 1.0)], 0.1),
        (&[("coral", 0.02), ("chalk", 0.06)], 0.08),
    ];
    for side in [Side::Out, Side::In] {
        let mut from_below = layers.to_vec();
        if side == Side::In {
            from_below.reverse();
        }
        let mut got = sample(&plan(&bench(side)), &fused, &back).layers;
        got.reverse();
        assert_eq!(got.len(), layers.len());
        let mut column = Column::default();
        for (layer, (parts, thickness)) in got.iter().zip(from_below) {
            let alone = Column::default().with(Glass::of(parts), thickness).look(1.0);
            column = column.with(Glass::of(parts), thickness);
            same(&format!("{side:?}, alone {:?}", layer.what), layer.alone, by_day(alone));
            let what = format!("{side:?}, in place {:?}", layer.what);
            same(&what, layer.in_place, by_day(column.look(table())));
        }
    }
}

/// Past the rim the nearest cell of the disc is taken.
#[test]
fn a_sample_past_the_rim_is_of_the_rim() {
    let plan = plan(&bench(Side::Out));
    let grid = Grid::new(plan.disc, 64);
    let mut plane = vec![0.0; grid.len()];
    // 160 mm over 64 cells: the last full cell along the axis has its middle 2.5 - 1.25 mm from the rim.
    plane[grid.cell_at(77.4, 0.1)] = 0.25;
    let disc =
        FusedDisc { grid, coats: vec![plane.clone(), plane.clone(), plane.clone()], mixture: Vec::new() };
    let bed = PowderBed::sifted(grid, vec![plane.clone(), plane.clone(), plane]);
    for x in [77.4, 79.9, 200.0] {
        assert_eq!(take(&plan, &bed, &disc, (x, 0.1)).layers.len(), 5, "{x} mm right");
    }
    assert_eq!(take(&plan, &bed, &disc, (70.0, 0.1)).layers.len(), 2, "further in there is none");
}
