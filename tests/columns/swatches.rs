//! Swatches, test tiles and what a glass would look like where it is offered.

use super::bench::*;
use dappledome::glass::catalogue::find;
use dappledome::optics::colors::LAMP;
use dappledome::optics::test_tile::{
    Ground, blank_swatch, fired_pair, sheet_swatch, strip, swatch, swatch_depth,
};
use dappledome::recipe::Recipe;

const BLANKS: [&[(&str, f64)]; 4] = [
    &[("clear", 3.0), ("white", 3.0)],
    &[("white", 2.0)],
    &[("clear", 3.0), ("clear", 2.0)],
    &[("pale_teal", 4.0)],
];

fn on_table(column: &Column) -> Beds {
    Beds::on(column, table())
}

/// One layer over a known base: fired, a coat `depth` mm deep is `packing * depth` mm of glass; loose, it is
/// `depth / grain` layers of grains.
#[test]
fn a_swatch_is_its_column() {
    for blank in BLANKS {
        for (glass, depth) in [("rust", 0.3), ("chalk", 0.1), ("chalk", 0.8), ("lagoon", 1.2), ("clear", 0.5)]
        {
            let plan = plan(&recipe(blank, vec![even(7, glass, depth)]));
            let (loose, fired) = swatch(&plan, 7).expect("coat 7");
            let what = format!("{glass} {depth} on {blank:?}");
            let (base, powdered) = (Column::of(blank), Glass::of(&[(glass, 1.0)]));
            same(&format!("loose {what}"), loose, by_day(on_table(&base).with(&powdered, depth, 0.4).look()));
            same(&format!("fired {what}"), fired, by_day(base.with(powdered, 0.4 * depth).look(table())));
            assert_eq!(swatch(&plan, 8), None, "there is no coat 8");
        }
    }
}

/// The same with a blend, spoon by spoon.
#[test]
fn a_blend_mixes_by_its_parts() {
    let parts = [("rust", 3.0), ("chalk", 1.0)];
    let plan = plan(&recipe(BLANKS[0], vec![blended(even(1, "rust", 0.5), &parts)]));
    let (loose, fired) = swatch(&plan, 1).expect("coat 1");
    let base = Column::of(BLANKS[0]);
    same("loose", loose, by_day(on_table(&base).with(&Glass::of(&parts), 0.5, 0.4).look()));
    same("fired", fired, by_day(base.with(Glass::of(&parts), 0.2).look(table())));
}

/// Coats below count from half of the disc on; thick and thin counts as 0.3 of the way from thin to thick.
#[test]
fn a_swatch_lies_on_what_covers_most_of_the_disc() {
    let coats = vec![
        even(1, "coral", 0.2),
        patches(2, "slate", 0.6, 0.5),
        patches(3, "umber", 0.6, 0.49),
        thick_and_thin(4, "straw", 0.1, 1.1),
        even(5, "moss", 0.15),
    ];
    let depths = coats.iter().map(|coat| swatch_depth(&coat.fall)).collect::<Vec<f32>>();
    for (depth, want) in depths.iter().zip([0.2, 0.6, 0.6, 0.4, 0.15]) {
        assert!((depth - want).abs() < 1e-6, "{depths:?}");
    }
    let plan = plan(&recipe(BLANKS[0], coats));
    let (loose, fired) = swatch(&plan, 5).expect("coat 5");
    let (mut below, mut column) = (on_table(&Column::of(BLANKS[0])), Column::of(BLANKS[0]));
    for (glass, depth) in [("coral", 0.2), ("slate", 0.6), ("straw", 0.4), ("moss", 0.15)] {
        below = below.with(&Glass::of(&[(glass, 1.0)]), depth, 0.4);
        column = column.with(Glass::of(&[(glass, 1.0)]), 0.4 * depth);
    }
    same("loose", loose, by_day(below.look()));
    same("fired", fired, by_day(column.look(table())));
}

/// From thin to thick, by day and lit: by a lamp of one color, so bright that the bare blank has a luminance of 0.84 (by eye) but
/// for what hardly passes any.
#[test]
fn a_strip_goes_from_thin_to_thick() {
    let depths = [0.0, 0.05, 0.3, 1.0, 2.5];
    for blank in BLANKS {
        let plan = plan(&recipe(blank, vec![even(1, "chalk", 0.2), patches(2, "heather", 0.4, 0.2)]));
        let [day, lit] = [false, true].map(|within| strip(&plan, 2, &depths, within));
        let lit_by = |color: [f64; 3]| std::array::from_fn(|k| color[k] * f64::from(LAMP[k]));
        let lamp = 0.84 / luminance(lit_by(Column::of(blank).pass())).max(0.02);
        for (at, depth) in depths.iter().enumerate() {
            let column = Column::of(blank).with(Glass::of(&[("chalk", 1.0)]), 0.08);
            let column = column.with(Glass::of(&[("heather", 1.0)]), 0.4 * f64::from(*depth));
            same(&format!("day, {depth} on {blank:?}"), day[at], by_day(column.look(table())));
            same(&format!("lit, {depth} on {blank:?}"), lit[at], codes(lit_by(column.pass()), lamp));
        }
        assert!(strip(&plan, 3, &depths, false).is_empty(), "there is no coat 3");
    }
}

/// Frit is one layer of grains of its own size, loose; a lump of glass, fired.
#[test]
fn frit_is_one_layer_of_its_own_grains() {
    let plan = plan(&recipe(BLANKS[1], vec![even(1, "straw", 0.3)]));
    let rust = find("rust").expect("rust");
    let (below, glass) = (Column::of(BLANKS[1]), Glass::of(&[("rust", 1.0)]));
    let straw = Glass::of(&[("straw", 1.0)]);
    let (loose, fired) = Ground::on_all(&plan).frit(rust, 1.5, 0.7);
    let straws = on_table(&below).with(&straw, 0.3, 0.4);
    same("loose", loose, by_day(straws.with_grains(&glass, 1.5, 1.5, 0.4).look()));
    same("fired", fired, by_day(below.with(straw, 0.12).with(glass, 0.7).look(table())));
    // In the place of the coat it lies on the sheet, and so does powder.
    let (loose, fired) = Ground::of_coat(&plan, 1).powder(rust, 0.25);
    let (below, glass) = (Column::of(BLANKS[1]), Glass::of(&[("rust", 1.0)]));
    same("loose", loose, by_day(on_table(&below).with(&glass, 0.25, 0.4).look()));
    same("fired", fired, by_day(below.with(glass, 0.1).look(table())));
}

#[test]
fn a_sheet_is_shown_alone_and_in_its_place() {
    let plan = plan(&recipe(BLANKS[0], vec![even(1, "straw", 0.3)]));
    let teal = find("pale_teal").expect("pale teal");
    let (alone, there) = sheet_swatch(&plan, 0, teal).expect("a lower sheet");
    same("alone", alone, by_day(Column::of(&[("pale_teal", 3.0)]).look(table())));
    same("below", there, by_day(Column::of(&[("pale_teal", 3.0), ("white", 3.0)]).look(table())));
    let (_, there) = sheet_swatch(&plan, 1, teal).expect("an upper sheet");
    same("above", there, by_day(Column::of(&[("clear", 3.0), ("pale_teal", 3.0)]).look(table())));
    same("blank", blank_swatch(&plan), by_day(Column::of(BLANKS[0]).look(table())));
}

/// Two coats as they fire, the upper on the lower, at their usual depths; nothing of what lies between or below.
#[test]
fn a_pair_is_the_lower_and_the_upper_on_it() {
    let coats = vec![even(1, "umber", 0.5), even(2, "straw", 0.3), patches(3, "heather", 0.4, 0.3)];
    let recipe: Recipe = recipe(BLANKS[0], coats);
    let (under, over) = fired_pair(&plan(&recipe), 1, 2);
    let lower = Column::of(BLANKS[0]).with(Glass::of(&[("straw", 1.0)]), 0.12);
    near("under", under, lower.look(table()), 5e-4);
    near("over", over, lower.with(Glass::of(&[("heather", 1.0)]), 0.16).look(table()), 5e-4);
}
