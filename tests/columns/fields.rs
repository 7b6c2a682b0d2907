//! The palette of the pictures: whole fields of hand-made beds and discs.

use super::bench::*;
use super::haze::{Model, pass};
use dappledome::base::disc::Disc;
use dappledome::base::grid::Grid;
use dappledome::base::scalar::exp;
use dappledome::base::units::Mm;
use dappledome::color::spectrum::{BANDS, WAVELENGTHS};
use dappledome::fuse::settle::FusedDisc;
use dappledome::glass::catalogue::find;
use dappledome::layup::powder_bed::PowderBed;
use dappledome::optics::colors;
use dappledome::optics::edge::{Band, Edge};
use dappledome::optics::palette::{Palette, PaletteInputs};
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
    let known = |id: &str| &*find(id).expect("a glass of the shelf").id;
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

/// A band for each sheet, as wide as it is thick, from the inner face out: the lowest sheet first with the powder outside. An opal
/// sheet's edge is as light as thick opal glass on nothing, a clear one's takes more from the red end, which clear glass absorbs
/// more of along its length than green.
#[test]
fn an_edge_has_a_band_for_each_sheet() {
    let palette = palette(&[("clear", 1.0), ("pale_teal", 3.0), ("white", 2.0)], Vec::new());
    let Edge(bands) = palette.edge(Side::Out, [0.3; 3]);
    uptos(&bands, [1.0 / 6.0, 4.0 / 6.0, 1.0]);
    let [clear, teal, white] = bands[..] else { panic!("{bands:?}") };
    let thick = Column::of(&[("white", 30.0)]).look(0.0);
    near("white", white.shown, thick, 0.02);
    assert!(white.through[0] < white.shown[0] && white.through[0] > 0.0, "{white:?}");
    assert!(teal.shown[0] < teal.shown[1] && teal.shown[0] < clear.shown[0], "{teal:?} {clear:?}");
    let (shown, through) = (teal.shown[0] / teal.shown[1], teal.through[0] / teal.through[1]);
    assert!((shown - through).abs() < 1e-5, "one tint, whichever way light comes: {teal:?}");
}

/// With the powder inside, the uppermost sheet is the innermost; and a clear one outside an opal one looks like the blank and
/// passes what the piece passes, not the length of its glass.
#[test]
fn a_clear_edge_outside_opal_glass_is_lit_through_it() {
    let palette = palette(&[("clear", 1.0), ("pale_teal", 3.0), ("white", 2.0)], Vec::new());
    let passed = [0.3, 0.2, 0.1];
    let Edge(bands) = palette.edge(Side::In, passed);
    uptos(&bands, [2.0 / 6.0, 5.0 / 6.0, 1.0]);
    let look = palette.bare(colors::TABLE);
    for band in &bands[1..] {
        let (day, within) = (band.shown[0] / look[0], band.through[0] / passed[0]);
        for k in 0..3 {
            assert!((band.shown[k] / look[k] - day).abs() < 1e-5 && day > 1.0, "{band:?}");
            assert!((band.through[k] / passed[k] - within).abs() < 1e-5 && within < 1.0, "{band:?}");
        }
    }
}

/// In a clear disc light meets the powder on its way to the edge, and takes its hue: by day wherever the powder is, lit only if it
/// lies inside. What only dims changes nothing.
#[test]
fn powder_tints_the_edge_of_a_clear_disc() {
    let palette = palette(&[("clear", 3.0)], Vec::new());
    let bare = palette.bare_through();
    let edge = |side, share: [f32; 3]| palette.edge(side, [0, 1, 2].map(|k| bare[k] * share[k])).0[0];
    let (plain, dimmed) = (edge(Side::Out, [1.0; 3]), edge(Side::In, [0.5; 3]));
    let by_day = plain.shown.map(f64::from);
    near("dimmed", dimmed.shown, by_day, 1e-6);
    for side in [Side::Out, Side::In] {
        let tinted = edge(side, [0.5, 1.0, 0.25]);
        near("tinted by day", tinted.shown, [0.5 * by_day[0], by_day[1], 0.25 * by_day[2]], 1e-5);
        let within = if side == Side::In { 0.5 } else { 1.0 };
        assert!((tinted.through[0] / plain.through[0] - within).abs() < 1e-5, "{side:?}: {tinted:?}");
    }
}

fn uptos(bands: &[Band], uptos: [f32; 3]) {
    for (band, upto) in bands.iter().zip(uptos) {
        assert!((band.upto - upto).abs() < 1e-6, "{bands:?}");
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
                near(&format!("{side:?}, {layers:?}"), field.color(middle), want, 5e-4);
                near("off the disc", field.color(0), [0.0; 3], 0.0);
                layers.reverse();
            }
            let want = Column::of(&column(&sheets, &fused)).pass();
            near("its mean", palette.passed(&disc, Side::Out).through, want, 5e-4);
            let inside: Vec<_> = column(&sheets, &fused).into_iter().rev().collect();
            near("its inside", palette.passed(&disc, Side::Out).inside, Column::of(&inside).look(0.0), 5e-4);
            for (side, layers) in [(Side::Out, false), (Side::In, true)].map(|(side, turned)| {
                let mut layers = column(&sheets, &fused);
                if turned {
                    layers.reverse();
                }
                (side, layers)
            }) {
                let through = palette.through(&disc, side);
                let want = Column::of(&layers).pass();
                near(&format!("through, {side:?}"), through.color(grid().cell_at(-20.0, 30.0)), want, 5e-4);
            }
        }
    }
}

/// What the sponge put back lies on top, glass by glass; a single coat's lies with its own.
#[test]
fn what_was_put_back_lies_on_top() {
    let layers: [(&str, f64); 3] = [("coral", 0.1), ("coral", 0.03), ("chalk", 0.02)];
    let at = grid().cell_at(10.0, -40.0);
    for sheets in [CLEAR, WHITE] {
        let several = palette(&sheets, coats());
        let disc = disc(&[0.1, 0.0, 0.0], &[0.03, 0.02, 0.0]);
        let from_out: Vec<_> = sheets.into_iter().chain(layers).collect();
        let from_in: Vec<_> = from_out.iter().rev().copied().collect();
        for (side, column) in [(Side::Out, Column::of(&from_out)), (Side::In, Column::of(&from_in))] {
            near("seen", several.fired(&disc, side, 0.3).color(at), column.look(0.3), 5e-4);
            near("through", several.through(&disc, side).color(at), column.pass(), 5e-4);
        }
        let one = palette(&sheets, vec![even(1, "coral", 1.0)]);
        let disc = self::disc(&[0.1], &[0.03]);
        let all = Column::of(&[sheets[0], sheets[1], ("coral", 0.13)]);
        near("one coat", one.fired(&disc, Side::Out, 0.3).color(at), all.look(0.3), 5e-4);
    }
}

/// The mean of what comes through is over the disc: here half of it is bare.
#[test]
fn the_mean_through_is_over_the_disc() {
    let palette = palette(&WHITE, coats());
    let grid = Grid::new(Disc::new(Mm(160.0)), 256);
    let coral = (0..grid.len()).map(|cell| if cell < grid.len() / 2 { 0.0 } else { 0.4 }).collect();
    let none = vec![0.0; grid.len()];
    let half = FusedDisc { grid, coats: vec![coral, none.clone(), none], mixture: Vec::new() };
    let [with, without] = [[0.4, 0.0, 0.0], [0.0; 3]].map(|fused| Column::of(&column(&WHITE, &fused)).pass());
    let want = std::array::from_fn(|i| (with[i] + without[i]) / 2.0);
    near("half and half", palette.passed(&half, Side::Out).through, want, 0.03 * (without[1] - with[1]));
}

/// On a clear blank the haze of a cell is what of the passing light has scattered: none without opal, all behind much of it. The
/// straight beam is Beer and Lambert's between two faces.
#[test]
fn haze_is_the_share_that_scattered() {
    let palette = palette(&CLEAR, coats());
    let haze =
        |fused: &[f32]| palette.through(&disc(fused, &[]), Side::Out).cells[grid().cell_at(5.0, 5.0)][3];
    assert!(haze(&[0.3, 0.0, 0.2]).abs() < 1e-4 && haze(&[0.0, 1.0, 0.0]) > 0.9);
    for chalk in [0.01f32, 0.05, 0.2] {
        let middle = BANDS / 2;
        let slab = |id: &str, mm: f64| Glass::of(&[(id, 1.0)]).slab(middle, mm);
        let stack = [slab("clear", 3.0), slab("clear", 3.0), slab("chalk", f64::from(chalk))];
        let straight =
            exp(-stack.iter().map(|s| (s.absorption + s.scatter / 0.6) * s.thickness).sum::<f64>());
        let face = Model::Engine.normal(WAVELENGTHS[middle].into());
        let beam = (1.0 - face) * (1.0 - face) * straight / (1.0 - face * face * straight * straight);
        let want = 1.0 - beam / pass(&stack, face);
        assert!((f64::from(haze(&[0.0, chalk, 0.0])) - want).abs() < 2e-3, "{chalk} mm: {want}");
    }
    let white = self::palette(&WHITE, coats());
    let through = white.through(&disc(&[0.1; 3], &[]), Side::Out);
    assert!(through.cells.iter().all(|[.., haze]| *haze == 0.0), "nobody sees through white");
}

/// Loose powder lit from below: it passes what the blank passes, less what each bed turns back, bounces and all.
#[test]
fn loose_powder_passes_what_it_does_not_turn_back() {
    for sheets in [CLEAR, WHITE] {
        let palette = palette(&sheets, vec![even(1, "rust", 0.2)]);
        let bare = PowderBed::sifted(grid(), vec![vec![0.0; grid().len()]]);
        let at = grid().cell_at(2.0, 2.0);
        near("bare", palette.loose_through(&bare).color(at), Column::of(&sheets).pass(), 5e-4);
        near("bare by day", palette.loose(&bare, 0.3).color(at), Column::of(&sheets).look(0.3), 5e-4);
        let bed = PowderBed::sifted(grid(), vec![vec![0.1; grid().len()]]);
        let (seen, through) = (palette.loose(&bed, 0.0), palette.loose_through(&bed));
        // The same luck of the grains in both: the depth from what is seen, then what must come through.
        let base = Beds::on(&Column::of(&sheets), 0.0);
        let rust = Glass::of(&[("rust", 1.0)]);
        let (mut low, mut high) = (0.0, 0.3);
        let brighter = base.with(&rust, 0.3, 0.4).look()[0] > base.look()[0];
        for _ in 0..40 {
            let middle = (low + high) / 2.0;
            let is = base.with(&rust, middle, 0.4).look()[0] < f64::from(seen.color(at)[0]);
            if is == brighter { low = middle } else { high = middle }
        }
        let want = linear(base.with(&rust, low, 0.4).passes(Column::of(&sheets).passes()));
        near(&format!("{low} mm on {sheets:?}"), through.color(at), want, 2e-3);
    }
}

/// Loose powder of one coat: whatever depth a cell has by the grains' luck, its color is that of a bed so deep, and the depths
/// average to what was sifted.
#[test]
fn loose_powder_has_the_color_of_its_depth() {
    for sheets in [CLEAR, WHITE] {
        let palette = palette(&sheets, vec![even(1, "rust", 0.2)]);
        let bed = PowderBed::sifted(grid(), vec![vec![0.1; grid().len()]]);
        let field = palette.loose(&bed, table() as f32);
        let base = Beds::on(&Column::of(&sheets), table());
        let color = |depth: f64| base.with(&Glass::of(&[("rust", 1.0)]), depth, 0.4).look();
        let (mut sum, mut cells) = (0.0, 0.0);
        grid().each(|i, _, _| {
            let got = field.color(i);
            // The blue of this powder falls as it gets deeper.
            let (mut low, mut high) = (0.0, 0.3);
            for _ in 0..40 {
                let middle = (low + high) / 2.0;
                if color(middle)[2] > f64::from(got[2]) { low = middle } else { high = middle }
            }
            near(&format!("{low} mm on {sheets:?}"), got, color(low), 2e-3);
            (sum, cells) = (sum + low, cells + 1.0);
        });
        let mean: f64 = sum / cells;
        assert!((mean - 0.1).abs() < 0.005, "{mean} mm, sifted 0.1");
    }
}

/// One more layer on the powder of a cell's column, by day and lit, from either side.
#[test]
fn an_accent_is_a_layer_on_its_column() {
    let chalk = &find("chalk").expect("chalk").material;
    for sheets in [CLEAR, WHITE] {
        let disc = disc(&[0.1, 0.05, 0.0], &[]);
        let mut layers = column(&sheets, &[0.1, 0.05, 0.0]);
        layers.push(("chalk", 1.3));
        for side in [Side::Out, Side::In] {
            let palette = palette(&sheets, coats());
            let (day, lit, _) =
                palette.with_accent((&disc, grid().cell_at(0.0, 0.0)), (chalk, 1.3), side, 0.3);
            near(&format!("day, {side:?}"), day, Column::of(&layers).look(0.3), 5e-4);
            near(&format!("lit, {side:?}"), lit, Column::of(&layers).pass(), 5e-4);
            layers.reverse();
        }
    }
}
