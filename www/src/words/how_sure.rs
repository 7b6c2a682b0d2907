//! How sure the colors of a piece are, in words.

use super::orders::percent;
use super::recipe::powder_of;
use super::text::lower;
use dappledome::base::scalar::Bounds;
use dappledome::base::units::fixed;
use dappledome::recipe::Recipe;
use dappledome::tiles::next_tile::{NextTile, On};
use dappledome::tiles::places::{Class, HowSure};
use dappledome::tiles::sureness::Sureness;

/// Head of the slip.
pub const HOW_SURE: &str = "How sure";
/// Before the word that opens it.
pub const COLORS: &str = "Colors";
/// On that word.
pub const HOW_SURE_TITLE: &str = "How sure the colors are, and which tile would help";
/// Under the piece while it is.
pub const SHADED: &str = "Shaded by how sure its colors are.";
/// Before the grays and what they mean.
pub const SHADES: &str = "Darker is less sure:";
/// Under all.
pub const WHAT_SURE_MEANS: &str = "Nineteen of twenty places come nearer than that: 2 is hard to see, 5 is plain. Two hands and two kilns come on \
    top; the blank, and what tiles are fired on, is taken as known; accents are left out. Depths in mm, loose.";

/// Less than this of the disc is not told of.
pub const SOME: f32 = 0.005;

fn made_up(how: &HowSure) -> f32 {
    how.shares[Class::MadeUp as usize]
}

/// So far off, in whole steps: less than one is not seen.
fn plus_minus(off: f32) -> String {
    format!("±{}", fixed(f64::from(off).max(1.0), 0))
}

/// How sure, behind *Colors*; nothing where no powder lies.
pub fn about_sure(how: &HowSure) -> Option<String> {
    match (how.about, made_up(how)) {
        (None, made_up) => (made_up >= SOME).then(|| "invented".into()),
        (Some(off), made_up) if made_up < SOME => Some(format!("about {}", plus_minus(off))),
        (Some(off), made_up) => {
            Some(format!("about {}, {} invented", plus_minus(off), percent(made_up.into())))
        }
    }
}

/// The same as a sentence.
pub fn sure_over_piece(how: &HowSure) -> String {
    let off = how.about.map(|off| format!("About {} where glasses are known", plus_minus(off)));
    let worst = how.places.iter().filter_map(|place| place.off).reduce(f32::at_least);
    let worst = worst.filter(|worst| how.about.is_some_and(|off| worst - off >= 1.0));
    let worst = worst.map(|worst| format!(", {} at worst", plus_minus(worst)));
    let made_up = (made_up(how) >= SOME).then(|| match off {
        Some(_) => format!("; {} is invented", percent(made_up(how).into())),
        None => "Invented: nobody knows how near your jars come".into(),
    });
    [off, worst, made_up].into_iter().flatten().collect()
}

/// A gray of the shaded piece.
pub fn sure_class(class: Class) -> &'static str {
    match class {
        Class::One => "to ±1, or bare",
        Class::Two => "to ±2",
        Class::Four => "to ±4",
        Class::More => "more",
        Class::MadeUp => "invented",
    }
}

/// What the colors of a glass rest on, and how deep it is used.
pub fn rests_on(sureness: &Sureness, [thin, deep]: [f32; 2]) -> String {
    let mm = |depth: f32| fixed(f64::from(depth), 2);
    let from = match sureness {
        Sureness::Invented => "invented".to_owned(),
        Sureness::Measured(_) => "measured".to_owned(),
        Sureness::Tiles(evidence) => match evidence.depths() {
            [one] => format!("one tile, {}", mm(*one)),
            [first, .., last] => {
                format!("{} tiles, {} to {}", evidence.depths().len(), mm(*first), mm(*last))
            }
            [] => "no tile over white".to_owned(),
        },
    };
    format!("{from}; used {} to {}", mm(thin), mm(deep))
}

/// How far off a color may be; a question if nobody knows.
pub fn off_by(off: Option<f32>) -> String {
    off.map_or_else(|| "±?".into(), plus_minus)
}

/// The tile to fire, and what it would bring.
pub fn fire_tile(next: NextTile) -> String {
    let depth = fixed(f64::from(next.depth), 2);
    let then = plus_minus(next.then);
    match next.on {
        On::White => format!("Fire a tile, {depth} mm: {then}"),
        On::Black => format!("One on black, {depth} mm: {then}"),
        On::Both => format!("White, black, {depth} mm: {then}"),
    }
}

/// Said where another glass lies on the bench for tiles.
pub const ANOTHER_LIES_THERE: &str =
    "Another glass lies here that you have begun: put it on the shelf, or empty it, and press again.";

/// The same to those who do not see the glass beside it.
pub fn fire_tile_of(glass: &str, next: NextTile) -> String {
    format!("{}. {glass}", fire_tile(next))
}

/// Coats on each other, the uppermost first: `Coral over rust over straw`.
pub fn over_each_other(recipe: &Recipe, coats: &[u32]) -> String {
    let mut names = coats.iter().rev().map(|id| powder_of(recipe, *id));
    let first = names.next().unwrap_or_default();
    names.fold(first, |all, name| format!("{all} over {}", lower(&name)))
}

/// How much of the disc, and why it is less sure.
pub fn share_of_disc(share: f32) -> String {
    format!("{}, never fired so", percent(share.into()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::tiles::places::Place;

    fn how(about: Option<f32>, made_up: f32, worst: f32) -> HowSure {
        let place = Place { coats: vec![1, 2], share: 0.1, off: about.map(|_| worst) };
        HowSure {
            about,
            shares: [1.0 - made_up, 0.0, 0.0, 0.0, made_up],
            places: vec![place],
            used: Vec::new(),
        }
    }

    #[test]
    fn the_line_says_what_is_known_and_what_is_invented() {
        assert_eq!(about_sure(&how(Some(2.2), 0.0, 3.0)).as_deref(), Some("about ±2"));
        assert_eq!(about_sure(&how(Some(0.3), 0.25, 3.0)).as_deref(), Some("about ±1, 25 % invented"));
        assert_eq!(about_sure(&how(None, 0.9, 3.0)).as_deref(), Some("invented"));
        assert_eq!(about_sure(&how(None, 0.0, 3.0)), None);
    }

    #[test]
    fn the_sentence_has_the_worst_where_it_is_worse() {
        assert_eq!(
            sure_over_piece(&how(Some(2.2), 0.25, 6.1)),
            "About ±2 where glasses are known, ±6 at worst; 25 % is invented"
        );
        assert_eq!(sure_over_piece(&how(Some(2.2), 0.0, 2.9)), "About ±2 where glasses are known");
        assert!(sure_over_piece(&how(None, 0.9, 0.0)).starts_with("Invented: nobody knows"));
    }
}
