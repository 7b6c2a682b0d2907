//! A color that is looked for, in words.

use super::text::{listed, lower};
use dappledome::base::units::fixed;
use dappledome::color::difference::Lab;
use dappledome::color::toward::Toward;
use dappledome::optics::test_tile::Color;
use dappledome::tiles::find::{Found, Way};

/// The area, and the word that opens it.
pub const FIND_A_COLOR: &str = "Find a color";
/// What is looked for.
pub const THIS_COLOR: &str = "This color";
/// Its field, in sRGB.
pub const WANTED_SRGB: &str = "This color in sRGB";
/// Its field, in Lab.
pub const WANTED_LAB: &str = "This color in Lab";
/// In the empty field.
pub const LAB_FOR_INSTANCE: &str = "Lab 46 22 21";
/// Between the two.
pub const OR: &str = "or";
/// The ring around it in a photo.
pub const RING_MARK: &str = "this color";
/// Beside the word that chooses a photo.
pub const RING_HINT: &str = "to ring it there: a wall, a cloth, a leaf. Or drop it here.";
/// Marks a white in the photo.
pub const MARK_WHITE: &str = "Mark a white in it";
/// Takes that mark off.
pub const NO_WHITE: &str = "Without a white";
/// What it is looked at on.
pub const SEEN: &str = "seen";
/// On a white.
pub const SEEN_ON_WHITE: &str = "on white";
/// On a clear sheet.
pub const SEEN_ON_CLEAR: &str = "on clear, lit";
/// Which jars.
pub const FROM_JARS: &str = "from";
/// All that there are.
pub const ALL_JARS: &str = "all jars";
/// The maker's own.
pub const OWN_JARS: &str = "only my own";
/// How many jars.
pub const AT_MOST: &str = "at most";
/// One jar.
pub const ONE_JAR: &str = "one jar";
/// Two jars.
pub const TWO_JARS: &str = "two";
/// Heads of the columns: what, how far apart, how sure, how much.
pub const FIND_HEADS: [&str; 4] = ["From your jars", "Apart by", "How sure", "On one disc"];
/// The rows.
pub const FINDS: &str = "Ways to this color";
/// Before a difference, to those who do not see the heads.
pub const APART_BY: &str = "apart by";
/// No color yet.
pub const TYPE_A_COLOR: &str = "Type the color you want, as #9A5F4C, 154 95 76 or Lab 46 22 21. The nearest ways to it are shown in the piece before any is kept.";
/// On the way.
pub const LOOKING: &str = "Looking among your jars…";
/// No jar to look among.
pub const NO_OWN_JARS: &str = "No glass of your own is a powder. Fire one tile, or look among all jars.";
/// What cannot be looked for.
pub const NO_COAT_TO_FIND_FOR: &str =
    "The recipe cannot be made as it stands, or has no such coat any more. Close this and mend it first.";
/// All of them are far off.
pub const NONE_REACHES: &str = "No jar of yours reaches it, alone or with another. The nearest are shown: change the color, or fire a tile of another glass.";
/// No room for two coats.
pub const NO_ROOM_FOR_TWO: &str = "One jar over another is left out: there is no room for one more coat.";
/// Under the rows.
pub const FIND_HALVES: &str = "Left half what you want, right half the glass. Blends and overlays are reckoned, not fired: sift a tile of the one you like.";
/// What is left out of the reckoning where there is a sponge.
pub const FIND_SPONGE: &str = " The sponge is not reckoned: it lifts first what lies on top.";
/// Lets coats that lie together fall by themselves.
pub const LET_GO: &str = "Let each fall by itself";

/// For which coat.
pub fn for_coat(name: &str) -> String {
    format!("for {name}")
}

/// What is tried.
pub fn trying(what: &str) -> String {
    format!("Trying {what}")
}

/// Puts it there.
pub fn put_it_in(coat: &str) -> String {
    format!("Put it in {coat}")
}

/// It is there.
pub fn is_put_in(what: &str, coat: &str) -> String {
    format!("{what} in place of {}. Undo takes it back.", lower(coat))
}

/// That two coats lie together.
pub fn lies_with(other: &str) -> String {
    format!("Lies together with {}, one exactly on the other: what moves one moves both.", lower(other))
}

/// What the coat really lies on: the names of what is below it, if anything is.
pub fn seen_over(below: &[String]) -> String {
    let below: Vec<String> = below.iter().map(|name| lower(name)).collect();
    if below.is_empty() { "on its blank".into() } else { format!("over {}", listed(&below)) }
}

/// A color in sRGB, as it is typed.
pub fn in_srgb([r, g, b]: Color) -> String {
    format!("#{r:02X}{g:02X}{b:02X}")
}

/// A color in Lab, as it is typed.
pub fn in_lab(lab: Lab) -> String {
    let [l, a, b] = lab.map(|x| fixed(x, 0));
    format!("Lab {l} {a} {b}")
}

/// What to sift; the names are those of the jars.
pub fn way(way: &Way, name: impl Fn(usize) -> String) -> String {
    let name = |jar| lower(&name(jar));
    match *way {
        Way::Alone { jar, .. } => format!("{} alone", name(jar)),
        Way::Blended { jars: [one, other], parts: [a, b], .. } => {
            format!("{a} {}, {b} {}", name(one), name(other))
        }
        Way::Over { jars: [lower, upper], .. } => format!("{} on {}", name(upper), name(lower)),
    }
}

/// How deep.
pub fn how_deep(way: &Way) -> String {
    match *way {
        Way::Alone { depth, .. } => format!("{} mm", fixed(depth, 2)),
        Way::Blended { depth, .. } => format!("blended, {} mm", fixed(depth, 2)),
        Way::Over { depths: [under, over], .. } => format!("{} on {} mm", fixed(over, 2), fixed(under, 2)),
    }
}

/// How near it comes, and in which direction it is off: to 2 hard to see, 5 plain (a judgment, as in the product's words).
pub fn how_near(found: &Found) -> String {
    let near = match found.apart {
        apart if apart <= 2.0 => return "the same to the eye".into(),
        apart if apart <= 5.0 => "close",
        apart if apart <= 10.0 => "a cousin",
        _ => "another color",
    };
    let toward: Vec<&str> = found.off.toward().into_iter().map(Toward::word).collect();
    format!("{near}: {}", toward.join(", "))
}

/// How far off it may be.
pub fn how_sure_found(sure: Option<f32>) -> String {
    sure.map_or_else(|| "invented".into(), |off| format!("±{}", fixed(f64::from(off).max(1.0), 0)))
}

/// Grams of each jar.
pub fn grams_of_each(grams: &[f64]) -> String {
    let grams: Vec<String> =
        grams.iter().map(|grams| fixed(*grams, if *grams < 0.995 { 2 } else { 1 })).collect();
    format!("{} g", listed(&grams))
}

/// What is ringed: how far its pixels lie apart, and whether a white tells their light.
pub fn ringed(spread: f64, white: bool) -> String {
    let light = if white { "beside the white, taken for paper" } else { "as the camera wrote it" };
    format!("The mean of what is ringed, {light}; spread {}.", fixed(spread, 1))
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::color::toward::Off;

    fn found(apart: f64, color: Lab, wanted: Lab) -> String {
        let way = Way::Alone { jar: 0, depth: 0.4 };
        how_near(&Found { way, color, apart, off: Off::new(color, wanted), sure: None })
    }

    #[test]
    fn how_near_it_is_and_in_which_direction_is_said() {
        let brown = [46.0, 22.0, 21.0];
        for (apart, said) in [
            (2.0, "the same to the eye"),
            (2.1, "close: lighter"),
            (10.0, "a cousin: lighter"),
            (10.1, "another color: lighter"),
        ] {
            assert_eq!(found(apart, [56.0, 22.0, 21.0], brown), said);
        }
    }

    #[test]
    fn a_way_is_said_as_it_is_sifted() {
        let names = ["Coral", "Lagoon"];
        let said = |one: &Way| (way(one, |jar| names[jar].into()), how_deep(one));
        let told = |what: &str, deep: &str| (what.to_owned(), deep.to_owned());
        let blend = Way::Blended { jars: [0, 1], parts: [4, 1], depth: 0.461 };
        assert_eq!(said(&blend), told("4 coral, 1 lagoon", "blended, 0.46 mm"));
        let over = Way::Over { jars: [0, 1], depths: [0.4, 0.06] };
        assert_eq!(said(&over), told("lagoon on coral", "0.06 on 0.40 mm"));
        assert_eq!(grams_of_each(&[2.24, 0.51]), "2.2 and 0.51 g");
        assert_eq!([in_srgb([154, 95, 76]), in_lab([45.6, 22.0, -0.2])], ["#9A5F4C", "Lab 46 22 0"]);
    }
}
