//! Glasses of the maker's own, which a piece brings along.

use dappledome::base::memo::Allowance;
use dappledome::base::notice::{Notice, Severity, Step};
use dappledome::base::seed::Seed;
use dappledome::base::units::{Celsius, Minutes, Mm};
use dappledome::glass::catalogue;
use dappledome::glass::glasses::Glasses;
use dappledome::glass::kind::{Family, Glass};
use dappledome::kiln::data::{Guess, Kiln};
use dappledome::picture::{Light, Stage, View};
use dappledome::preview::Preview;
use dappledome::recipe::piece::Piece;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::{Accents, Part, Recipe, demo, file, link, mend};
use dappledome::shop::ticket::{Ticket, ticket};

/// Rust under a name of the maker's own.
fn of_may() -> Glass {
    let rust = catalogue::find("rust").expect("it is in the catalogue").clone();
    Glass { id: "of_may".into(), name: "Rust, jar of May".into(), families: vec![Family::Iron], ..rust }
}

/// Ember Walk with this glass in the place of rust.
fn made_of(glass: &Glass) -> Recipe {
    let mut recipe = demo::ember_walk();
    for part in recipe.coats.iter_mut().flat_map(|coat| &mut coat.powder) {
        if part.glass == "rust" {
            part.glass.clone_from(&glass.id);
        }
    }
    recipe.bring(glass);
    recipe
}

fn plan(recipe: &Recipe) -> Plan {
    Plan::new(recipe).expect("it is sound").plan
}

fn weighed(recipe: &Recipe) -> Ticket {
    let kiln = Kiln::guess(Guess::SmallBrick);
    ticket(&mut Preview::new(), &plan(recipe), Seed(41), &kiln, &mut Allowance::unlimited())
        .expect("an unlimited allowance never pauses")
}

fn grams_of(ticket: &Ticket, glass: &str) -> f64 {
    ticket.powders.iter().find(|powder| powder.glass == glass).expect("it is weighed").one.0
}

#[test]
fn the_same_optics_under_another_name_are_the_same_picture() {
    let (demo, own) = (plan(&demo::ember_walk()), plan(&made_of(&of_may())));
    let view = View::usual(Stage::Domed, Light::Day, 96);
    let picture = |plan: &Plan| Preview::new().picture(plan, Seed(41), &view);
    assert_eq!(picture(&demo).hash(), picture(&own).hash());
    assert_eq!(own.coats[1].blend.shares[0].0.name, "Rust, jar of May");
}

#[test]
fn a_piece_brings_its_glasses_along_in_a_file_and_in_a_link() {
    let recipe = made_of(&of_may());
    assert_eq!(file::read(&file::write(&recipe)), Ok(recipe.clone()));
    let sent = Piece::new(recipe.clone(), Seed(41));
    let there = link::read(&link::write(&sent)).expect("it is a link").expect("it is sound");
    assert_eq!(there.recipe.glasses, recipe.glasses);
    assert!(Plan::new(&there.recipe).is_ok());
}

#[test]
fn a_glass_that_is_no_longer_in_the_piece_goes() {
    let mut recipe = made_of(&of_may());
    recipe.bring(catalogue::find("moss").expect("it is in the catalogue"));
    assert_eq!(recipe.glasses.0.len(), 1, "those of the catalogue need not be brought");
    recipe.drop_unused_glasses();
    assert_eq!(recipe.glasses.0.len(), 1);
    recipe.coats[1].powder = vec![Part { glass: "moss".into(), parts: 1.0 }];
    recipe.drop_unused_glasses();
    assert!(recipe.glasses.is_empty());
}

/// Twice as heavy a glass weighs twice as much; one that packs to 0.54 instead of 0.45 weighs 1.2 times as much, spoon for spoon
/// and mm for mm (m = t phi rho).
#[test]
fn grams_go_with_density_and_packing() {
    let usual = grams_of(&weighed(&made_of(&of_may())), "of_may");
    let heavy = Glass { density: 5.0, ..of_may() };
    let close = Glass { packing: Some(0.54), ..of_may() };
    for (glass, times) in [(heavy, 2.0), (close, 1.2)] {
        let got = grams_of(&weighed(&made_of(&glass)), "of_may") / usual;
        assert!((got - times).abs() < 1e-5, "{got} times, not {times}");
    }
}

/// A spoon of straw (0.45 of 2.5 g/cm³) and one of a glass with 0.54 of 5: 1.125 to 2.7 by weight, 0.45 to 0.54 of the fired glass.
#[test]
fn spoons_of_a_blend_are_shared_by_weight_and_by_glass() {
    let mut recipe = made_of(&Glass { density: 5.0, packing: Some(0.54), ..of_may() });
    recipe.coats[1].powder.push(Part { glass: "straw".into(), parts: 1.0 });
    let blend = plan(&recipe).coats[1].blend.clone();
    let glass: Vec<f32> = blend.shares.iter().map(|(_, share)| *share).collect();
    assert!((glass[0] - 0.54 / 0.99).abs() < 1e-6 && (glass[1] - 0.45 / 0.99).abs() < 1e-6, "{glass:?}");
    let weight: Vec<f64> = blend.shares_of_weight().map(|(_, share)| share).collect();
    assert!((weight[0] - 2.7 / 3.825).abs() < 1e-6, "{weight:?}");
    assert!((weight.iter().sum::<f64>() - 1.0).abs() < 1e-6);
    let one_mm = blend.weight(1000.0).0;
    assert!((one_mm - (1.125 + 2.7) / 2.0).abs() < 1e-5, "a cm³ of one spoon of each weighs {one_mm} g");
}

/// Bubbles scatter: a clear powder that fires milky shows on black what clear glass does not, and its sheet is as clear as before.
#[test]
fn milkiness_is_of_the_fired_powder_alone() {
    let clear = catalogue::find("clear").expect("it is in the catalogue").clone();
    let milky = Glass { id: "milky".into(), milkiness: 0.2, ..clear };
    assert!(milky.fired_powder().scatter.iter().all(|s| (*s - 0.2).abs() < 1e-6));
    let mut recipe = Recipe::bare();
    recipe.blank.sheets[0].glass = "milky".into();
    recipe.bring(&milky);
    assert!(!plan(&recipe).sheets[0].glass.material.scatters());
}

fn faults(glasses: Vec<Glass>) -> Vec<String> {
    let recipe = Recipe { glasses: Glasses(glasses), ..demo::ember_walk() };
    Plan::new(&recipe).map_or_else(|notices| notices.into_iter().map(|n| n.what).collect(), |_| Vec::new())
}

#[test]
fn what_is_wrong_with_a_glass_is_said() {
    let with = |change: fn(&mut Glass)| {
        let mut glass = of_may();
        change(&mut glass);
        faults(vec![glass])
    };
    assert_eq!(faults(vec![of_may()]), Vec::<String>::new());
    assert_eq!(with(|glass| glass.id = "rust".into()), ["An id that is taken."]);
    assert_eq!(with(|glass| glass.name = " ".into()), ["A glass without a name, or with a very long one."]);
    assert_eq!(with(|glass| glass.material.absorption[3] = f32::NAN), ["Optics of no glass."]);
    assert_eq!(with(|glass| glass.material.scatter[15] = -0.1), ["Optics of no glass."]);
    assert_eq!(with(|glass| glass.density = -1.0), ["Out of range."]);
    assert_eq!(with(|glass| glass.packing = Some(f64::NAN)), ["Out of range."]);
    assert_eq!(with(|glass| glass.grain = Mm(0.0)), ["Out of range."]);
    assert_eq!(with(|glass| glass.expansion = 20.0), ["Out of range."]);
    assert_eq!(with(|glass| glass.softening = Celsius(500.0)).len(), 1, "softening must lie above annealing");
    assert_eq!(faults(vec![of_may(), of_may()]), ["Two glasses with one id."]);
    assert_eq!(faults(vec![of_may(); 65]), ["Too many glasses."]);
}

/// What a plan is told that names one of these.
fn told(recipe: &Recipe, whats: &[&str]) -> Vec<Notice> {
    let notices = Plan::new(recipe).expect("it is sound").notices;
    notices.into_iter().filter(|notice| whats.contains(&notice.what.as_str())).collect()
}

const FIT: [&str; 2] = ["Won't fit.", "May not fit."];

/// The bands of the design: up to 0.1e-6/K apart is fine, up to 0.3 a test piece, beyond that a risk; the glass that shrinks more is pulled
/// (0.45 mm of powder is 0.2025 mm of glass on 6 mm: nearly all of 42 MPa for each 1e-6/K, less what bending lets go, by Timoshenko).
#[test]
fn what_will_not_fit_is_said_with_its_pull() {
    for (expansion, severity, why) in [
        (9.0, None, ""),
        (9.1, None, ""),
        (8.9, None, ""),
        (
            9.2,
            Some(Severity::Note),
            "shrinks 0.2 ppm/K more than the sheets: cold, rust, jar of may stays pulled by 7.4 MPa, more than it is trusted with.",
        ),
        (
            9.5,
            Some(Severity::Risk),
            "shrinks 0.5 ppm/K more than the sheets: cold, rust, jar of may stays pulled by 18.5 MPa, enough to crack it.",
        ),
        (
            8.5,
            Some(Severity::Risk),
            "shrinks 0.5 ppm/K less than the sheets: cold, the sheets stay pulled by 2.5 MPa, a light pull.",
        ),
    ] {
        let notices = told(&made_of(&Glass { expansion, ..of_may() }), &FIT);
        assert_eq!(notices.first().map(|notice| notice.severity), severity, "{expansion}");
        for Notice { step, why: said, .. } in &notices {
            assert_eq!(*step, Step::Coat(2));
            assert!(said.ends_with(why), "{said}");
        }
    }
}

/// A blend has the mean of its glasses, a sheet is held against the others, accents against the sheets.
#[test]
fn everything_that_touches_has_to_fit() {
    let stiff = Glass { expansion: 9.4, sheet: true, ..of_may() };
    let steps = |recipe: &Recipe| {
        told(recipe, &FIT).iter().map(|notice| (notice.step, notice.severity)).collect::<Vec<_>>()
    };
    let mut blend = made_of(&stiff);
    blend.coats[1].powder.push(Part { glass: "straw".into(), parts: 1.0 });
    assert_eq!(steps(&blend), [(Step::Coat(2), Severity::Note)], "half of 0.4");
    let mut sheet = demo::ember_walk();
    sheet.bring(&stiff);
    sheet.blank.sheets[0].glass = stiff.id.clone();
    assert_eq!(
        steps(&sheet),
        [(Step::Blank, Severity::Risk), (Step::Coat(1), Severity::Note), (Step::Coat(2), Severity::Note)],
        "0.4; 0.2 and 0.15 below the mean of the sheets, and 0.1 is fine"
    );
    let mut accents = demo::ember_walk();
    accents.bring(&stiff);
    accents.accents =
        Some(Accents { glasses: vec![Part { glass: stiff.id.clone(), parts: 1.0 }], ..Accents::default() });
    assert_eq!(steps(&accents), [(Step::Accents, Severity::Risk)]);
}

/// Sulfur or selenium beside copper, lead or silver (the table of families of the design); no other two.
#[test]
fn reactive_neighbors_are_said() {
    use Family::{Copper, Iron, Lead, Silver, Sulfur};
    let all = [Iron, Sulfur, Copper, Lead, Silver];
    for one in all {
        for other in all {
            let mut recipe = made_of(&Glass { families: vec![one], ..of_may() });
            recipe.bring(&Glass {
                id: "june".into(),
                name: "June".into(),
                families: vec![other],
                ..of_may()
            });
            recipe.coats[2].powder[0].glass = "june".into();
            let dark = [(Sulfur, Copper), (Sulfur, Lead), (Sulfur, Silver)];
            let want = dark.contains(&(one, other)) || dark.contains(&(other, one));
            let said: Vec<Step> = told(&recipe, &["May darken."]).iter().map(|notice| notice.step).collect();
            assert_eq!(said, if want { vec![Step::Coat(3)] } else { vec![] }, "{one:?} beside {other:?}");
        }
    }
}

/// Of a coat the uppermost sheet is a neighbor, the one below it is not; in a blend its glasses are neighbors.
#[test]
fn neighbors_are_what_touches() {
    let copper = Glass { families: vec![Family::Copper], sheet: true, ..of_may() };
    let sulfur = Glass { id: "june".into(), name: "June".into(), families: vec![Family::Sulfur], ..of_may() };
    let darkens = |change: &dyn Fn(&mut Recipe)| {
        let mut recipe = demo::ember_walk();
        recipe.bring(&copper);
        recipe.bring(&sulfur);
        change(&mut recipe);
        told(&recipe, &["May darken."]).len()
    };
    let on_sheet = |at: usize| {
        darkens(&move |recipe| {
            recipe.blank.sheets[at].glass = "of_may".into();
            recipe.coats[0].powder[0].glass = "june".into();
        })
    };
    assert_eq!((on_sheet(0), on_sheet(1)), (0, 1));
    assert_eq!(
        darkens(&|recipe| {
            let part = |glass: &str| Part { glass: glass.into(), parts: 1.0 };
            recipe.coats[0].powder = vec![part("of_may"), part("june")];
        }),
        1
    );
}

/// Ten minutes from 780 °C on and twenty below (common practice, no source), and holding it answers the notice.
#[test]
fn a_striker_needs_its_hold() {
    let striking = made_of(&Glass { strikes: true, ..of_may() });
    for (top, hold, needs) in
        [(790.0, 10.0, None), (790.0, 9.0, Some(10.0)), (779.0, 10.0, Some(20.0)), (779.0, 20.0, None)]
    {
        let mut recipe = striking.clone();
        (recipe.fuse.top, recipe.fuse.hold) = (Celsius(top), Minutes(hold));
        let said = told(&recipe, &["Must strike."]);
        assert_eq!(said.len(), usize::from(needs.is_some()), "{top} °C, {hold} min");
        for Notice { step, mend, .. } in said {
            mend::apply(&mut recipe, step, mend.expect("it can be held"));
            assert_eq!((Some(recipe.fuse.hold.0), step), (needs, Step::Fuse));
            assert!(recipe.programs.is_empty() && told(&recipe, &["Must strike."]).is_empty());
        }
    }
    // Accents are there for the tack fuse alone.
    let mut tacked = made_of(&of_may());
    tacked.glasses.0.push(Glass { id: "struck".into(), strikes: true, ..of_may() });
    tacked.accents =
        Some(Accents { glasses: vec![Part { glass: "struck".into(), parts: 1.0 }], ..Accents::default() });
    let said = told(&tacked, &["Must strike."]);
    let [Notice { step: Step::Accents, remedy, mend: Some(mend), .. }] = &said[..] else {
        panic!("{said:?}")
    };
    assert!(remedy.contains("Hold the tack 20 min"), "{remedy}");
    mend::apply(&mut tacked, Step::Accents, *mend);
    assert_eq!(tacked.accents.as_ref().map(|accents| accents.tack.hold), Some(Minutes(20.0)));
    assert!(tacked.programs.is_empty() && told(&tacked, &["Must strike."]).is_empty());
    let calm = Recipe { fuse: striking.fuse.clone(), ..made_of(&of_may()) };
    assert!(told(&calm, &["Must strike."]).is_empty());
}

/// What is sold for fusing, and every demo, is told nothing of its neighbors.
#[test]
fn the_demos_are_told_nothing() {
    for recipe in demo::all() {
        assert_eq!(Plan::new(&recipe).expect("it is sound").notices, [], "{}", recipe.title);
    }
}
