//! Molds on the shelf, in words.

use super::recipe::form;
use super::text::{lower, plain as clean};
use dappledome::base::units::plain;
use dappledome::recipe::Form;
use dappledome::recipe::molds::OwnMold;

/// Head of the molds on the shelf.
pub const YOUR_MOLDS: &str = "Molds";
/// While none of the maker's own is kept.
pub const INVENTED_MOLDS: &str = "Invented, no one’s molds. Write yours down, and these go.";
/// Once one is.
pub const OWN_MOLDS_ARE: &str = "Kept in this browser. One that is used is copied into the recipe; what you change here later changes no piece.";
/// Puts a mold into the recipe.
pub const USE_MOLD: &str = "Use it";
/// Instead, once it is there.
pub const MOLD_IN_USE: &str = "in this recipe";
/// Opens its numbers.
pub const CHANGE_MOLD: &str = "Change";
/// Lays the numbers aside.
pub const DONE_WITH_MOLD: &str = "Done";
/// Takes it off the shelf.
pub const DELETE_MOLD: &str = "Delete";
/// Writes the recipe's mold down as one of the maker's.
pub const ADD_MOLD: &str = "Write down this recipe’s mold";
/// What such a mold is called at first.
pub const MY_MOLD: &str = "My mold";
/// Its name.
pub const MOLD_NAME: &str = "Name";
/// A number of a mold.
pub const OPENING: &str = "Opening";
/// See above.
pub const DEPTH: &str = "Depth";
/// See above.
pub const BOTTOM: &str = "Bottom";
/// See above.
pub const CORNER: &str = "Corner radius";
/// See above.
pub const HOW_MANY: &str = "How many";
/// That no more molds are kept.
pub const TOO_MANY_MOLDS: &str = "The shelf is full of molds. Delete one first.";

/// A mold in one line behind its name, with its unit.
pub fn mold_in_words(own: &OwnMold) -> String {
    let mold = &own.mold;
    let bottom = match &mold.form {
        Form::FlatBottom { bottom, .. } | Form::Flare { bottom, .. } => format!(", bottom {bottom}"),
        Form::Bowl | Form::Hump => String::new(),
    };
    let size = format!("{} × {}", plain(mold.opening.0), mold.depth);
    format!("{} {size}{bottom}, {} of them", lower(form(&mold.form)), own.count)
}

/// A word of one of several molds, to those who do not see beside which it stands.
pub fn of_mold(word: &str, name: &str) -> String {
    format!("{word}: {}", clean(name))
}

/// That a mold is gone.
pub fn mold_deleted(name: &str) -> String {
    format!("{} deleted.", clean(name))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mold_is_said_in_a_line() {
        let said: Vec<String> = dappledome::recipe::molds::invented().iter().map(mold_in_words).collect();
        assert_eq!(said[0], "bowl 160 × 48 mm, 2 of them");
        assert_eq!(said[1], "flat bottom 140 × 30 mm, bottom 77 mm, 4 of them");
    }
}
