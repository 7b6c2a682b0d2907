//! The bench on a day of work, in words.

use dappledome::base::seed::Seed;
use dappledome::base::units::{Grams, fixed};
use dappledome::orders::dates;
use dappledome::orders::model::Date;

/// Opens it.
pub const TODAY: &str = "Today";
/// Back to all of the order.
pub const WHOLE_ORDER: &str = "Whole order";
/// Between two weights of a jar.
pub const JAR_WEIGHS: &str = "Jar weighs";
/// See above.
pub const BEFORE: &str = "before";
/// See above.
pub const AFTER: &str = "after";
/// A piece that broke.
pub const BROKE: &str = "This one broke";
/// It did not.
pub const DID_NOT_BREAK: &str = "It did not break";
/// Goes on to the first piece that is not done.
pub const NEXT_PIECE: &str = "Next piece";
/// Everything is sifted and dabbed.
pub const ALL_DABBED: &str = "Every piece is sifted and dabbed.";
/// Above what else is done on this day.
pub const AND_TODAY: &str = "And today";
/// Above what is done later.
pub const NOTHING_TODAY: &str = "Nothing else is to be done today.";
/// Keeps the screen on.
pub const KEEP_SCREEN_ON: &str = "Keep the screen on";
/// The browser has no such thing.
pub const CANNOT_KEEP_ON: &str = "This browser cannot keep the screen on.";
/// The browser does not want to.
pub const NOT_KEPT_ON: &str = "The browser does not keep the screen on now; it may on a charger.";
/// Beside the work.
pub const WHILE_YOU_SIFT: &str = "Fitted respirator while you sift. Wipe up wet, never sweep or blow.";
/// What was done, for *Undo*.
pub const DID_JAR: &str = "weight of a jar";
/// What was done, for *Undo*.
pub const DID_BREAK: &str = "a piece that broke";

/// The day.
pub fn today(date: Date) -> String {
    format!("{TODAY}, {}", dates::short(date))
}

/// Which piece is shown.
pub fn piece_of(seed: Seed, at: usize, of: usize) -> String {
    format!("Seed {seed}, {} of {of}", at + 1)
}

/// To the piece before.
pub fn before_it(seed: Seed) -> String {
    format!("‹ {seed}")
}

/// To the piece behind.
pub fn behind_it(seed: Seed) -> String {
    format!("{seed} ›")
}

/// A step is done.
pub fn done(step: &str) -> String {
    format!("{step} done")
}

/// What went out of a jar.
pub fn used(grams: Grams) -> String {
    format!(": {} g used", fixed(grams.0, 1))
}

/// How many pieces are done.
pub fn done_of(done: usize, of: usize) -> String {
    format!("{done} of {of} done")
}

/// One more is made.
pub fn piece_broke(seed: Seed, made: usize) -> String {
    format!("Seed {seed} broke. One more of it is planned: {made} in all.")
}
