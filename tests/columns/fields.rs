//! The palette of the pictures: whole fields of hand-made beds and discs.

use super::bench::*;
use dappledome::base::disc::Disc;
use dappledome::base::grid::Grid;
use dappledome::base::scalar::exp;
use dappledome::base::units::Mm;
use dappledome::color::spectrum::BANDS;
use dappledome::fuse::settle::FusedDisc;
use dappledome::glass::catalogue::find;
use dappledome::layup::powder_bed::PowderBed;
use dappledome::optics::colors::{Palette, PaletteInputs};
use dappledome::recipe::{Coat, Side};

const CLEAR: [(&str, f64); 2] = [("clear", 3.0), ("clear", 3.0)];
const WHITE: [(&str, f64); 2] = [("clear", 3.0), ("white", 3.0)];

fn palette(sheets: &[(&str, f64)], coats: Vec<Coat>) -> Palette {
    Palette::new(&PaletteInputs::of(&plan(&recipe(sheets, coats))))
}

fn grid() -> Grid {
    Grid::new(Disc::new(Mm(160.0)), 24)
}

/// A disc with the same in every cell: coats, and what was put back.
fn disc(fused: &[f32], back: &[f32]) -> FusedDisc {
    let planes = |depths: &[f32]| depths.iter().map(|mm| vec![*mm; grid().len()]).collect();
    FusedDisc { grid: grid(), coats: planes(fused), mixture: planes(back) }
}

fn coats() -> Vec<Coat> {
    vec![even(1, "coral", 1.0), even(2, "chalk", 1.0), even(3, "lagoon", 1.0)]
}

/// Glasses and thicknesses of a column, sheets first.
fn column(sheets: &[(&str, f64)], fused: &[f32]) -> Vec<(&'static str, f64)> {
    let known = |id: &str| find(id).expect("a glass of the shelf").id;
    let mut column: Vec<_> = sheets.iter().map(|(id, mm)| (known(id), *mm)).collect();
    let layers = ["coral", "chalk", "lagoon"].iter().zip(fused);
    column.extend(layers.filter(|(_, mm)| **mm > 0.0).map(|(id, mm)| (*id, f64::from(*mm))));
    column
}

#[test]
fn a_bare_blank_is_its_sheets() {
    for sheets in [CLEAR, WHITE] {
        let palette = palette(&sheets, Vec::new());
        for ground in [0.0, 0.25, 0.9] {
            let want = Column::of(&sheets).look(f64::from(ground));
            near(&format!("{sheets:?} on {ground}"), palette.bare(ground), want, 5e-4);
        }
        near(&format!("through {sheets:?}"), palette.bare_through(), Column::of(&sheets).pass(), 5e-4);
    }
    assert!(palette(&CLEAR, Vec::new()).is_clear() && !palette(&WHITE, Vec::new()).is_clear());
}

/// Beer and Lambert along the disc, sheet by sheet by their share of the edge; scattered light is not lost.
#[test]
fn an_edge_is_tinted_by_the_way_along_it() {
    let sheets = [("clear", 1.0), ("pale_teal", 3.0), ("white", 2.0)];
    let palette = palette(&sheets, Vec::new());
    for length in [0.0, 5.0, 60.0, 160.0] {
        let tint: [f64; BANDS] = std::array::from_fn(|band| {
            let of = |(id, mm): &(&str, f64)| {
                let absorption = f64::from(find(id).expect("a glass").material.absorption[band]);
                exp(-absorption * length) * mm / 6.0
            };
            sheets.iter().map(of).sum()
        });
        near(&format!("{length} mm"), palette.edge_tint(length as f32), linear(tint), 1e-4);
    }
}

/// Baked tables against the model at thicknesses between their nodes, from both sides, with and without a coat in the middle.
#[test]
fn a_fused_disc_is_its_columns_from_either_side() {
    for sheets in [CLEAR, WHITE] {
        let palette = palette(&sheets, coats());
        for fused in [[0.037, 0.0113, 0.21], [0.3, 0.0, 0.02], [0.0, 0.41, 0.0], [0.005, 0.6, 0.6]] {
            let disc = disc(&fused, &[]);
            let mut layers = column(&sheets, &fused);
            for side in [Side::Out, Side::In] {
                let field = palette.fired(&disc, side, 0.3);
                let want = Column::of(&layers).look(0.3);
                let middle = grid().cell_at(3.0, 2.0);
                near(&format!("{side:?}, {layers:?}"), field.colors[middle], want, 5e-4);
                near("off the disc", field.colors[0], [0.0; 3], 0.0);
                layers.reverse();
            }
            let through = palette.through(&disc);
            let want = Column::of(&column(&sheets, &fused)).pass();
            near("through", through.colors[grid().cell_at(-20.0, 30.0)], want, 5e-4);
            near("its mean", through.mean, want, 5e-4);
        }
    }
}

/// What the sponge put back lies on top as one mixture, in proportion.
#[test]
fn what_was_put_back_is_one_mixture_on_top() {
    for sheets in [CLEAR, WHITE] {
        let palette = palette(&sheets, coats());
        let disc = disc(&[0.1, 0.0, 0.0], &[0.03, 0.02, 0.0]);
        let column = Column::of(&column(&sheets, &[0.1, 0.0, 0.0]));
        let mixed = column.with(Glass::of(&[("coral", 3.0), ("chalk", 2.0)]), 0.05);
        let at = grid().cell_at(10.0, -40.0);
        near("out", palette.fired(&disc, Side::Out, 0.3).colors[at], mixed.look(0.3), 2e-3);
        near("through", palette.through(&disc).colors[at], mixed.pass(), 2e-3);
        let mut from_in = Column::default().with(Glass::of(&[("coral", 3.0), ("chalk", 2.0)]), 0.05);
        from_in = from_in.with(Glass::of(&[("coral", 1.0)]), 0.1);
        from_in =
            sheets.iter().rev().fold(from_in, |column, (id, mm)| column.with(Glass::of(&[(id, 1.0)]), *mm));
        near("in", palette.fired(&disc, Side::In, 0.3).colors[at], from_in.look(0.3), 2e-3);
    }
}

/// The mean of what comes through is that of the cells the disc touches.
#[test]
fn the_mean_through_is_over_the_disc() {
    let palette = palette(&WHITE, coats());
    let mut half = disc(&[0.4, 0.0, 0.0], &[]);
    for row in 0..12 {
        half.coats[0][row * 24..(row + 1) * 24].fill(0.0);
    }
    let field = palette.through(&half);
    let [with, without] = [[0.4, 0.0, 0.0], [0.0; 3]].map(|fused| Column::of(&column(&WHITE, &fused)).pass());
    near("half and half", field.mean, std::array::from_fn(|i| (with[i] + without[i]) / 2.0), 5e-4);
}

/// Loose powder of one coat: whatever depth a cell has by the grains' luck, its color is that of a bed so deep, and the depths
/// average to what was sifted.
#[test]
fn loose_powder_has_the_color_of_its_depth() {
    for sheets in [CLEAR, WHITE] {
        let palette = palette(&sheets, vec![even(1, "rust", 0.2)]);
        let bed = PowderBed::sifted(grid(), vec![vec![0.1; grid().len()]]);
        let field = palette.loose(&bed, table() as f32);
        let base = Column::of(&sheets).base();
        let color = |depth: f64| linear(powder(base, &Glass::of(&[("rust", 1.0)]), depth, 0.4));
        let (mut sum, mut cells) = (0.0, 0.0);
        grid().each(|i, _, _| {
            let got = field.colors[i];
            // The blue of this powder falls as it gets deeper.
            let (mut low, mut high) = (0.0, 0.3);
            for _ in 0..40 {
                let middle = (low + high) / 2.0;
                if color(middle)[2] > f64::from(got[2]) { low = middle } else { high = middle }
            }
            near(&format!("{low} mm on {sheets:?}"), got, color(low), 2e-3);
            (sum, cells) = (sum + low, cells + 1.0);
        });
        let mean: f64 = sum / f64::from(cells);
        assert!((mean - 0.1).abs() < 0.005, "{mean} mm, sifted 0.1");
    }
}

/// One more layer on a cell's column, by day and lit.
#[test]
fn an_accent_is_a_layer_on_its_column() {
    let chalk = &find("chalk").expect("chalk").material;
    for sheets in [CLEAR, WHITE] {
        let disc = disc(&[0.1, 0.05, 0.0], &[]);
        let (day, lit) =
            palette(&sheets, coats()).with_on_top(&disc, grid().cell_at(0.0, 0.0), chalk, 1.3, 0.3);
        let want = Column::of(&column(&sheets, &[0.1, 0.05, 0.0])).with(Glass::of(&[("chalk", 1.0)]), 1.3);
        near("day", day, want.look(0.3), 5e-4);
        near("lit", lit, want.pass(), 5e-4);
    }
}
