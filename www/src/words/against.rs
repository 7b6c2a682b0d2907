//! A fired piece against its forecast, in words.

use super::recipe::powder_of;
use super::text::{capital, listed, lower};
use dappledome::base::seed::Seed;
use dappledome::base::units::{Mm, fixed};
use dappledome::compare::hand::Told;
use dappledome::compare::row::{Row, Says};
use dappledome::orders::dates::month;
use dappledome::orders::model::Date;
use dappledome::recipe::Recipe;

/// The area.
pub const AGAINST: &str = "Fired against forecast";
/// The word that opens it from an entry of the log.
pub const HOLD_AGAINST: &str = "Hold it against its forecast";
/// The frame of the disc.
pub const DISC_MARK: &str = "disc";
/// Beside the word that chooses a photo.
pub const FIRED_PHOTO_HINT: &str = "of the fused disc from straight above, something white beside it, in one even light, without flash. Or drop it here. A slumped piece is compared by color alone.";
/// While it is worked out.
pub const COMPARING: &str = "Comparing…";
/// How they are compared.
pub const COMPARE_BY: &str = "Compare";
/// Color by color.
pub const BY_COLOR: &str = "by color";
/// Place by place.
pub const BY_PLACE: &str = "place by place";
/// One over the other.
pub const BY_WIPE: &str = "wipe";
/// What came out.
pub const FIRED_DISC: &str = "Fired, by your photo";
/// What was foretold.
pub const FORETOLD_DISC: &str = "Forecast, by day";
/// How far places are off.
pub const APART_DISC: &str = "Apart by 2, 4, 8 and more, from light to dark";
/// The rule that wipes.
pub const WIPE_SIDES: &str = "Fired to the left, forecast to the right";
/// Heads of the columns.
pub const AGAINST_HEADS: [&str; 4] = ["Color on the piece", "Forecast, fired", "Apart by", "What it says"];
/// Under the rows.
pub const COLORS_NOT_PLACES: &str = "Colors are compared, not places: two hands never sift alike. Pieces that are kept keep the glass they were kept with.";
/// Only writes it down.
pub const ONLY_NOTE: &str = "Only note it";
/// That it was done.
pub const NOTED: &str = "Noted in the log.";
/// Takes the hand for the piece.
pub const LAY_IT_SO: &str = "Lay this piece as I sift";
/// Once it has.
pub const LAID_SO: &str = "This piece is laid so.";

/// Which piece was fired.
pub fn fired_of(title: &str, seed: Seed) -> String {
    format!("{} {}", super::named(title), seed.0)
}

/// By how much the photo is turned.
pub fn turned_by(degrees: f64) -> String {
    match degrees.abs() {
        little if little < 1.0 => "not turned".into(),
        turned => format!("turned {}° to match", fixed(turned, 0)),
    }
}

/// Which coats lie on each other, the topmost first.
pub fn stack_of(recipe: &Recipe, coats: &[u32]) -> String {
    let Some((top, below)) = coats.split_last() else { return "The bare blank".into() };
    let under: Vec<String> = below.iter().rev().map(|coat| lower(&powder_of(recipe, *coat))).collect();
    let top = capital(&powder_of(recipe, *top));
    if under.is_empty() { top } else { format!("{top} over {}", listed(&under)) }
}

/// What a row says.
pub fn says(recipe: &Recipe, row: &Row) -> String {
    let Some(fired) = row.fired else { return "Not seen in the photo".into() };
    match fired.says {
        Says::AsReckoned => "As reckoned".into(),
        Says::AsIf(depth) => format!("As if {} mm deep", fixed(depth.0, 2)),
        Says::AsIfAndOther(depth) => format!("As if {} mm deep, and another jar", fixed(depth.0, 2)),
        Says::Other => "Another jar: no depth makes it so".into(),
        Says::Follows(coat) => format!("Follows {}", lower(&powder_of(recipe, coat))),
        Says::Light => "The white in the photo, or its light".into(),
    }
}

/// What came out in one sentence, and what of the rest.
pub fn came_out(recipe: &Recipe, worst: Option<&Row>) -> (String, &'static str) {
    let Some((row, off)) = worst.and_then(|row| Some((row, row.off()?))) else {
        return ("It came out as it was reckoned,".into(), "as near as a photo tells.");
    };
    let toward: Vec<String> = off.toward().into_iter().map(|toward| toward.word().into()).collect();
    let name = stack_of(recipe, &row.coats);
    let said = format!("{name} came out {}, by {}.", listed(&toward), fixed(row.apart(), 0));
    (said, "What else is off, and by what it may come, is said in its row.")
}

/// The name of a glass that is fitted to what came out.
pub fn refitted(old: &str, today: Date) -> String {
    format!("{old}, {}", month(today))
}

/// Fits it.
pub fn fit_it(name: &str) -> String {
    format!("Fit {} to what came out", capital(name))
}

/// That it was fitted.
pub fn is_fitted(name: &str) -> String {
    format!("{name} is on the shelf and in the piece.")
}

/// Says how much was sifted.
pub fn sifted_so(more: bool, depth: Mm) -> String {
    format!("I sifted {}: {} mm", if more { "more" } else { "less" }, fixed(depth.0, 2))
}

/// That it was taken so.
pub const TAKEN_AS_SIFTED: &str = "The coat lies as it was sifted.";

/// What several coats tell of the maker's hand.
pub fn my_hand(Told { deeper, covers }: Told, coats: usize) -> String {
    let depth = match deeper {
        deeper if (0.97..1.03).contains(&deeper) => "as deep as asked".to_owned(),
        deeper => format!("{} times as deep as asked", fixed(deeper, 2)),
    };
    let covered = match (100.0 * covers).round() {
        0.0 => "as much of the disc".to_owned(),
        more if more > 0.0 => format!("{more} points more of the disc"),
        less => format!("{} points less of the disc", -less),
    };
    format!("Your hand, by {coats} coats of fired pieces: {depth}, and {covered}.")
}

/// Another sentence in a note.
pub fn and_also(note: &str, said: &str) -> String {
    if note.contains(said) {
        note.into()
    } else if note.trim().is_empty() {
        said.into()
    } else {
        format!("{}\n{said}", note.trim_end())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::compare::row::Fired;
    use dappledome::recipe::demo;

    fn row(coats: &[u32], says: Says) -> Row {
        let fired = Fired { color: [30.0, 30.0, 20.0], share: 0.2, apart: 7.8, says };
        Row { coats: coats.into(), share: 0.2, foretold: [40.0, 20.0, 30.0], near: 2.5, fired: Some(fired) }
    }

    #[test]
    fn what_came_out_is_said() {
        let recipe = demo::ember_walk();
        let ids: Vec<u32> = recipe.coats.iter().map(|coat| coat.id).collect();
        assert_eq!(stack_of(&recipe, &[]), "The bare blank");
        assert_eq!(stack_of(&recipe, &ids[..2]), "Rust over straw");
        assert_eq!(stack_of(&recipe, &ids), "Coral over rust and straw");
        let rust = row(&ids[..2], Says::AsIf(Mm(0.58)));
        assert_eq!(says(&recipe, &rust), "As if 0.58 mm deep");
        assert_eq!(says(&recipe, &row(&ids, Says::Follows(ids[1]))), "Follows rust");
        let (said, _) = came_out(&recipe, Some(&rust));
        assert!(said.starts_with("Rust over straw came out ") && said.ends_with(", by 8."), "{said}");
        assert!(came_out(&recipe, None).0.starts_with("It came out as"));
        assert_eq!(
            (sifted_so(true, Mm(0.58)), turned_by(-12.2)),
            ("I sifted more: 0.58 mm".into(), "turned 12° to match".into())
        );
    }

    #[test]
    fn a_hand_and_a_note_are_said() {
        assert_eq!(
            my_hand(Told { deeper: 1.2, covers: 0.03 }, 4),
            "Your hand, by 4 coats of fired pieces: 1.20 times as deep as asked, and 3 points more of the disc."
        );
        assert_eq!(
            my_hand(Told { deeper: 1.0, covers: 0.0 }, 3),
            "Your hand, by 3 coats of fired pieces: as deep as asked, and as much of the disc."
        );
        assert_eq!(and_also("", "A."), "A.");
        assert_eq!(and_also("New jar.\n", "A."), "New jar.\nA.");
        assert_eq!(and_also("New jar.\nA.", "A."), "New jar.\nA.");
    }
}
