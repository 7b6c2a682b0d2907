//! The tray in words.

use super::recipe::{blend, grams, pieces_of};
use super::text::{listed, lower};
use dappledome::base::seed::Seed;
use dappledome::base::units::fixed;
use dappledome::recipe::Recipe;
use dappledome::recipe::sisters::MOST_KEPT;
use dappledome::shop::order::Order;
use dappledome::shop::sisters::{Features, Spread};

/// Pieces side by side.
pub const TRAY: &str = "Tray";
/// The discs on it.
pub const SISTERS: &str = "Sisters";
/// Lays more.
pub const MORE_SISTERS: &str = "12 more sisters";
/// Stops the filling.
pub const STOP: &str = "Stop";
/// Back to the piece.
pub const CLOSE_TRAY: &str = "Close the tray";
/// The sister pointed at.
pub const POINTED_AT: &str = "The sister pointed at";
/// Takes a sister's seed.
pub const WORK_ON_IT: &str = "Work on it";
/// Puts a sister on the shortlist.
pub const KEEP: &str = "Keep";
/// Takes her off again.
pub const TAKE_OFF: &str = "Take off the list";
/// Compares her.
pub const LIFT_BESIDE: &str = "Lift beside";
/// Ends that.
pub const LAY_BACK: &str = "Lay back";
/// Not to be seen again.
pub const PUT_AWAY: &str = "Put away";
/// Sets chosen by the program.
pub const PICK_A_SET: &str = "Pick a set for me";
/// Before the number of a set.
pub const SET_OF: &str = "Pick a set of";
/// A set to be picked.
pub const THAT_BELONG_TOGETHER: &str = "that belong together";
/// A set to be picked.
pub const AS_DIFFERENT: &str = "as different as can be";
/// The name of picking a set, as a step.
pub const A_SET: &str = "a picked set";
/// How two lifted sisters lie.
pub const HOW_TO_COMPARE: &str = "How to compare";
/// Side by side.
pub const BESIDE: &str = "Beside";
/// One over the other.
pub const WIPE: &str = "Wipe";
/// Each in the other's place.
pub const SWAP: &str = "Swap";
/// The edge between two sisters.
pub const WIPE_EDGE: &str = "Edge between the two";
/// Only one is lifted.
pub const LIFT_ANOTHER: &str = "Lift another beside it: point at one, then Lift beside.";
/// Shows an option as the recipe shows her now.
pub const TAKE_THE_CHANGE: &str = "Take the change";
/// Makes the recipe what it was when an option was kept.
pub const BACK_TO_IT: &str = "Go back to it as kept";
/// The sisters kept.
pub const SHORTLIST: &str = "Shortlist";
/// Turns the screen to the customer.
pub const SHOW_CUSTOMER: &str = "Show the customer";
/// The sheet of options.
pub const OPTION_SHEET: &str = "Option sheet";

/// A seed by its name.
pub fn seed(seed: Seed) -> String {
    format!("Seed {seed}")
}

/// Progress while the tray fills.
pub fn laid((drawn, of): (usize, usize)) -> String {
    format!("{drawn} of {of} laid")
}

/// Pulls a sister in from the edge.
pub fn pull_in(seed: Seed) -> String {
    format!("Pull in seed {seed}")
}

/// The name of keeping a sister, as a step.
pub fn kept(seed: Seed) -> String {
    format!("{seed} kept")
}

/// The name of taking one off the shortlist.
pub fn taken_off(seed: Seed) -> String {
    format!("{seed} taken off the list")
}

/// The name of putting one away.
pub fn put_away(seed: Seed) -> String {
    format!("{seed} put away")
}

/// There is no room on the shortlist.
pub fn shortlist_full() -> String {
    format!("The shortlist is full: {MOST_KEPT} options. Take one off the list first.")
}

/// The name of going back to an option, as a step.
pub fn gone_back_to(seed: Seed) -> String {
    format!("{seed} as it was kept")
}

/// The name of taking the change of the recipe over for options, as a step.
pub fn change_taken(options: usize) -> String {
    if options == 1 {
        "change taken for 1 option".into()
    } else {
        format!("change taken for {options} options")
    }
}

/// Options that were kept before the recipe changed.
pub fn moved_on(letters: &[String]) -> String {
    let (was, them) = if letters.len() == 1 { ("was", "it") } else { ("were", "them") };
    format!("The recipe has changed since {} {was} kept. The customer sees {them} as kept.", listed(letters))
}

/// How many are kept.
pub fn kept_count(n: usize) -> String {
    if n == 0 { "none kept yet".into() } else { format!("{n} kept") }
}

/// An option on the ledge.
pub fn option_disc(letter: &str, seed: Seed, chosen: bool, moved_on: bool) -> String {
    let chosen = if chosen { ", the customer's choice" } else { "" };
    let moved_on = if moved_on { ", as kept before the recipe changed" } else { "" };
    format!("{letter}, seed {seed}{chosen}{moved_on}")
}

/// What options come to.
pub fn order_sum(order: &Order, chosen: &[String]) -> String {
    let what = match chosen {
        [] if order.pieces as usize == order.made.len() => "One of each".into(),
        [] => "Shared out over all".into(),
        chosen => format!("Chosen: {}", listed(chosen)),
    };
    let all: f64 = order.powders.iter().map(|powder| powder.ready.0).sum();
    let discs: u32 = order.discs.iter().map(|disc| disc.count).sum();
    let spares = if order.spares > 0 { format!(" ({} spare)", order.spares) } else { String::new() };
    let (least, most) = (grams(order.powder_for_one.least.0), grams(order.powder_for_one.most.0));
    let each = if least == most { least } else { format!("{least} to {most}") };
    format!(
        "{what}. {}{spares}, {} of powder to have ready, {each} for a piece; {discs} discs.",
        pieces_of(order.pieces),
        grams(all)
    )
}

/// A sister's seed and powder.
pub fn seed_and_grams(seed: Seed, features: Option<&Features>) -> String {
    features.map_or_else(|| seed.to_string(), |features| format!("{seed}  {}", grams(features.grams.0)))
}

/// A sister to those who do not see her; it begins with what stands under her.
pub fn sister_cell(recipe: &Recipe, of: Seed, letter: Option<&str>, features: Option<&Features>) -> String {
    let name = letter.map_or_else(|| seed(of), |letter| format!("{letter} {of}, kept"));
    let shows =
        features.map_or_else(|| ", being laid".into(), |f| format!(", {}", self::features(recipe, f)));
    format!("{name}{shows}")
}

/// What a sister shows of each coat, and what lies on her.
pub fn features(recipe: &Recipe, features: &Features) -> String {
    let mut said: Vec<String> = features
        .shows
        .iter()
        .map(|(id, share)| format!("{} {} %", lower(&coat_name(recipe, *id)), fixed(share * 100.0, 0)))
        .collect();
    said.push(format!("bare {} %", fixed(features.bare * 100.0, 0)));
    said.push(grams(features.grams.0));
    said.join(", ")
}

fn coat_name(recipe: &Recipe, id: u32) -> String {
    recipe.coat(id).map_or_else(|| "powder".into(), |coat| blend(&recipe.glasses, &coat.powder))
}

/// Where the wipe's edge is.
pub fn wiped(one: Seed, other: Seed, share: f64) -> String {
    format!("{} % of {one}, the rest of {other}", fixed(share, 0))
}

/// Two sisters compared in a sentence: the coat whose share differs most, and whether more of the blank is left bare.
pub fn compared(recipe: &Recipe, (one, a): (Seed, &Features), (other, b): (Seed, &Features)) -> String {
    let pairs = a.shows.iter().zip(&b.shows).map(|((id, a), (_, b))| (*id, *a, *b));
    let most = pairs.max_by(|x, y| (x.1 - x.2).abs().total_cmp(&(y.1 - y.2).abs()));
    let Some((id, of_a, of_b)) = most.filter(|(_, a, b)| (a - b).abs() >= 0.01) else {
        return format!("{one} and {other} carry the same to a hundredth of the disc.");
    };
    let (more, high, low) = if of_a > of_b { (one, of_a, of_b) } else { (other, of_b, of_a) };
    let bare = if more == one { a.bare - b.bare } else { b.bare - a.bare };
    let bare = match bare {
        bare if bare > 0.01 => ", and leaves more of the blank bare",
        bare if bare < -0.01 => ", and leaves less of the blank bare",
        _ => "",
    };
    let name = lower(&coat_name(recipe, id));
    format!(
        "{more} carries more {name}, {} % of the disc against {} %{bare}.",
        fixed(high * 100.0, 0),
        fixed(low * 100.0, 0)
    )
}

/// Sisters are weighed and measured for a set.
pub fn looking_through(pool: usize) -> String {
    format!("Looking through {pool} sisters…")
}

/// A picked set, and by how much it belongs together or differs.
pub fn picked(recipe: &Recipe, (seeds, pool): (&[Seed], usize), spread: &Spread, together: bool) -> String {
    let names: Vec<String> = seeds.iter().map(Seed::to_string).collect();
    let all = listed(&names);
    let (low, high) = (spread.grams.0.0, spread.grams.1.0);
    let coat = |said: &dyn Fn(&str, f64, f64) -> String| {
        spread
            .coat
            .map_or_else(String::new, |(id, low, high)| said(&lower(&coat_name(recipe, id)), low, high))
    };
    if together {
        let coat = coat(&|name, low, high| {
            format!("{name} within {} % of the disc, ", fixed((high - low) * 100.0, 0))
        });
        let color = match spread.color {
            color if color < 2.3 => "no difference in mean color to be seen".into(),
            color => format!("mean colors {} apart, of which 2.3 are just seen", fixed(color, 1)),
        };
        let verdict = if spread.belongs_together() {
            "belong together"
        } else {
            "are the nearest to each other, and can still be told apart"
        };
        format!(
            "Of {pool} sisters, {all} {verdict}: {coat}powder within {}, {color}. They are the shortlist now.",
            grams(high - low)
        )
    } else {
        let coat = coat(&|name, low, high| {
            format!("{name} from {} to {} % of the disc, ", fixed(low * 100.0, 0), fixed(high * 100.0, 0))
        });
        format!(
            "Of {pool} sisters, {all} differ as much as can be: {coat}powder from {} to {}. They are the shortlist now.",
            grams(low),
            grams(high)
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::base::units::{Grams, Mm};
    use dappledome::recipe::{Coat, Fall};
    use dappledome::shop::sisters::spread;
    use dappledome::shop::ticket::{DiscCut, PowderGrams};

    const ONE: Seed = Seed(1);
    const TWO: Seed = Seed(2);

    fn two_coats() -> Recipe {
        let coat = |id, glass| Coat::new(id, glass, Fall::Even { depth: Mm(0.2) });
        Recipe { coats: vec![coat(1, "straw"), coat(2, "rust")], ..Recipe::bare() }
    }

    /// A sister with these shares of straw and rust.
    fn sister(straw: f64, rust: f64) -> Features {
        let shows = vec![(1, straw), (2, rust)];
        Features { shows, bare: 1.0 - straw - rust, mean: [50.0, 0.0, 0.0], grams: Grams(4.0 + straw) }
    }

    #[test]
    fn a_sister_is_told_by_what_she_shows() {
        let recipe = two_coats();
        let one = sister(0.25, 0.5);
        assert_eq!(features(&recipe, &one), "straw 25 %, rust 50 %, bare 25 %, 4.3 g");
        assert_eq!(sister_cell(&recipe, ONE, None, None), "Seed 1, being laid");
        let said = sister_cell(&recipe, ONE, Some("B"), Some(&one));
        assert_eq!(said, "B 1, kept, straw 25 %, rust 50 %, bare 25 %, 4.3 g");
    }

    #[test]
    fn two_are_compared_by_the_coat_that_differs_most() {
        let recipe = two_coats();
        let said = |a: &Features, b: &Features| compared(&recipe, (ONE, a), (TWO, b));
        assert_eq!(
            said(&sister(0.25, 0.5), &sister(0.35, 0.2)),
            "1 carries more rust, 50 % of the disc against 20 %, and leaves less of the blank bare."
        );
        assert_eq!(
            said(&sister(0.25, 0.2), &sister(0.05, 0.45)),
            "2 carries more rust, 45 % of the disc against 20 %, and leaves less of the blank bare."
        );
        assert_eq!(
            said(&sister(0.25, 0.5), &sister(0.25, 0.505)),
            "1 and 2 carry the same to a hundredth of the disc."
        );
    }

    #[test]
    fn a_set_belongs_together_only_when_it_does() {
        let (a, b) = (sister(0.25, 0.5), sister(0.26, 0.5));
        let said = picked(&two_coats(), (&[ONE, TWO], 48), &spread(&[&a, &b]).unwrap(), true);
        assert!(
            said.starts_with("Of 48 sisters, 1 and 2 belong together: straw within 1 % of the disc"),
            "{said}"
        );
    }

    #[test]
    fn an_order_is_told_by_what_it_takes() {
        let gram = |least, most| dappledome::shop::order::Spread {
            least: Grams(least),
            mean: Grams(5.0),
            most: Grams(most),
        };
        let order = |least, most| Order {
            pieces: 14,
            spares: 2,
            made: vec![14],
            powders: vec![PowderGrams { glass: "straw".into(), one: Grams(5.0), ready: Grams(70.0) }],
            powder_for_one: gram(least, most),
            discs: vec![DiscCut {
                glass: "clear".into(),
                thickness: Mm(3.0),
                diameter: Mm(160.0),
                each: 2,
                count: 28,
            }],
            accents: Vec::new(),
        };
        assert_eq!(
            order_sum(&order(4.5, 5.5), &["A".into(), "C".into()]),
            "Chosen: A and C. 14 pieces (2 spare), 70.0 g of powder to have ready, 4.5 g to 5.5 g for a piece; 28 discs."
        );
        assert!(
            order_sum(&order(5.0, 5.0), &[]).starts_with("Shared out over all. 14 pieces (2 spare), 70.0 g")
        );
    }

    #[test]
    fn a_set_is_told_by_how_far_it_spreads() {
        let (a, b) = (sister(0.25, 0.5), sister(0.5, 0.45));
        let spread = spread(&[&a, &b]).unwrap();
        let said = |together| picked(&two_coats(), (&[ONE, TWO], 48), &spread, together);
        assert_eq!(
            said(true),
            "Of 48 sisters, 1 and 2 are the nearest to each other, and can still be told apart: straw within 25 % of the \
            disc, powder within 0.25 g, no difference in mean color to be seen. They are the shortlist now."
        );
        assert_eq!(
            said(false),
            "Of 48 sisters, 1 and 2 differ as much as can be: straw from 25 to 50 % of the disc, powder from 4.3 g to 4.5 g. They \
            are the shortlist now."
        );
    }
}
