//! What is fired together.

use dappledome::base::firing::Firing;
use dappledome::base::notice::Severity;
use dappledome::base::units::{Minutes, Mm};
use dappledome::kiln::data::{Kiln, Shelf};
use dappledome::orders::checks::check;
use dappledome::orders::loads::{Loads, in_loads};
use dappledome::orders::model::{Line, Order, OwnedMold};
use dappledome::orders::pieces;
use dappledome::packing::Packings;
use dappledome::recipe::{Mold, Recipe, demo};

fn harbor() -> Kiln {
    Kiln::read(include_str!("../../examples/kilns/harbor.json")).unwrap()
}

fn molds(count: u32) -> Option<Vec<OwnedMold>> {
    Some(vec![OwnedMold { mold: Mold::default(), across: Mm(180.0), count }])
}

fn order(recipe: Recipe, count: u32) -> Order {
    Order { kiln: Some(harbor()), molds: molds(5), ..Order::of(recipe, count) }
}

fn loaded(order: &Order) -> Loads {
    let plans = check(order).unwrap().plans;
    Loads::new(order, &plans, &pieces::made(order), &mut Packings::default()).unwrap()
}

fn sizes(loads: &Loads, firing: Firing) -> Vec<u32> {
    let batches = loads.batches.iter().filter(|batch| batch.firing == firing);
    batches.flat_map(|batch| &batch.loads).map(|load| load.iter().map(|(_, count)| count).sum()).collect()
}

/// 520 mm of shelf, 20 of edge and 8 between: (520 - 40 + 8) / 84 = 5.81 radii hold seven discs of 160 mm, (480 + 8) / 94 = 5.19 five
/// molds of 180 (5.732 for seven, 4.828 for five and 5.328 for six: the table of circles in a square).
#[test]
fn twelve_and_two_spare_are_five_firings() {
    let loads = loaded(&order(demo::ember_walk(), 12));
    assert_eq!(sizes(&loads, Firing::FullFuse), [7, 7]);
    assert_eq!(sizes(&loads, Firing::Slump), [5, 5, 4]);
    let [fuse, slump] = &loads.batches[..] else { panic!("{loads:?}") };
    assert_eq!((fuse.across.0, slump.across.0), (160.0, 180.0), "a mold is wider than its piece");
    assert!((loads.kwh() - 2.0 * fuse.kwh - 3.0 * slump.kwh).abs() < 1e-9 && loads.firings() == 5);
    assert!((loads.hours() - 2.0 * fuse.hours - 3.0 * slump.hours).abs() < 1e-9);
}

#[test]
fn molds_limit_a_slump_and_nothing_else() {
    let few = Order { molds: molds(3), ..order(demo::ember_walk(), 12) };
    let loads = loaded(&few);
    assert_eq!(sizes(&loads, Firing::FullFuse), [7, 7]);
    assert_eq!(sizes(&loads, Firing::Slump), [3, 3, 3, 3, 2]);
    assert!(loads.batches[1].molds_limit && !loads.batches[0].molds_limit);
    let none = Order { molds: None, ..few.clone() };
    assert!(loaded(&none).notices.iter().any(|notice| notice.what == "No molds written down."));
    assert!(!loaded(&none).notices.iter().any(|notice| notice.what == "A guessed kiln."));
    let guessed = loaded(&Order { kiln: None, ..few.clone() });
    assert!(guessed.guess && guessed.notices.iter().any(|notice| notice.what == "A guessed kiln."));
    let mut other = few;
    other.molds.as_mut().unwrap()[0].mold.depth = Mm(40.0);
    assert!(loaded(&other).notices.iter().any(|notice| notice.what == "No mold for a piece."));
}

#[test]
fn colors_of_one_program_share_a_load_and_others_do_not() {
    let mut both = order(demo::ember_walk(), 6);
    let line = |recipe: Recipe, count| Line { recipe, count, ..both.lines[0].clone() };
    let hedgerow = demo::all().into_iter().find(|recipe| recipe.title == "Hedgerow").unwrap();
    let mut thick = Recipe::bare();
    thick.blank.sheets.push(thick.blank.sheets[0].clone());
    let (colors, thicker) = (line(hedgerow, 6), line(thick, 2));
    both.lines.push(colors);
    let loads = loaded(&both);
    assert_eq!(sizes(&loads, Firing::FullFuse), [7, 7], "as twelve of one color");
    assert_eq!(loads.batches[0].loads[0], [(0, 7)]);
    assert_eq!(loads.batches[1].loads[1], [(0, 2), (1, 3)], "the second slump has both");
    both.lines[1] = thicker;
    assert_eq!(loaded(&both).batches.iter().filter(|batch| batch.firing == Firing::FullFuse).count(), 2);
}

/// Two molds that take up as much, fired by one program: each piece still needs its own.
#[test]
fn pieces_of_two_molds_do_not_share_a_slump() {
    let mut both = order(Recipe::bare(), 4);
    both.lines[0].recipe.slump.hold = Some(Minutes(20.0));
    let mut flatter = both.lines[0].clone();
    flatter.recipe.mold.depth = Mm(44.0);
    let mut owned = molds(2).unwrap();
    owned.push(OwnedMold { mold: flatter.recipe.mold.clone(), across: Mm(180.0), count: 3 });
    both.lines.push(flatter);
    both.molds = Some(owned);
    let loads = loaded(&both);
    let slumps: Vec<u32> =
        loads.batches.iter().filter(|of| of.firing == Firing::Slump).map(|of| of.holds).collect();
    assert_eq!(slumps, [2, 3], "as many as there are of each mold");
}

#[test]
fn a_disc_wider_than_the_shelf_is_told() {
    let mut small = order(Recipe::bare(), 2);
    small.kiln.as_mut().unwrap().shelf = Shelf::Round { across: Mm(190.0) };
    let loads = loaded(&small);
    let told = loads.notices.iter().filter(|notice| notice.severity == Severity::Fault);
    assert!(
        told.clone().count() == 2 && told.clone().all(|notice| notice.what == "Wider than its shelf."),
        "{loads:?}"
    );
}

#[test]
fn every_piece_is_in_one_load() {
    for holds in 1..9 {
        let loads = in_loads(&[(0, 5), (1, 0), (2, 9)], holds);
        let of = |line| loads.iter().flatten().filter(|of| of.0 == line).map(|of| of.1).sum::<u32>();
        assert_eq!((of(0), of(1), of(2)), (5, 0, 9));
        let sizes: Vec<u32> = loads.iter().map(|load| load.iter().map(|of| of.1).sum()).collect();
        let (last, full) = sizes.split_last().unwrap();
        assert!(full.iter().all(|size| *size == holds) && *last <= holds, "{sizes:?}");
    }
}
