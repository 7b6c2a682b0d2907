//! What was done, as *Undo* names it.

/// Another powder in the jar.
pub const POWDER: &str = "powder";
/// Another glass in a blend, or one less.
pub const BLEND: &str = "blend";
/// Another name for the piece.
pub const NAME: &str = "name";
/// The sponge came or went.
pub const SPONGE: &str = "sponge";
/// Accents came.
pub const ACCENTS: &str = "accents";
/// A coat came.
pub const ADDED_COAT: &str = "added coat";
/// A coat falls in another way.
pub const FALL: &str = "how it falls";
/// A layout was locked or let go.
pub const LOCK: &str = "lock";
/// A layout was mirrored.
pub const MIRROR: &str = "mirror";
/// One coat was sifted again.
pub const REROLL: &str = "re-roll";
/// A coat is sifted earlier or later.
pub const ORDER: &str = "order of coats";
/// A coat was copied.
pub const COPY: &str = "copy of a coat";
/// A glass was fitted to what came out.
pub const REFITTED: &str = "fitted glass";
/// A coat lies as it was sifted.
pub const SIFTED_SO: &str = "as it was sifted";
/// All coats lie as the maker sifts.
pub const MY_HAND: &str = "my hand";
/// A coat went.
pub const COAT_OUT: &str = "coat taken out";
/// A sheet came.
pub const ADDED_SHEET: &str = "added sheet";
/// Another glass for a sheet.
pub const SHEET: &str = "sheet";
/// A sheet went.
pub const SHEET_OUT: &str = "sheet taken out";
/// Accents went.
pub const ACCENTS_OUT: &str = "accents taken out";
/// A stem came.
pub const STEM: &str = "stem";
/// A stem went.
pub const STEM_OUT: &str = "stem taken out";
/// Another pipe.
pub const PIPE: &str = "pipe";
/// Another stopper.
pub const STOPPER: &str = "stopper";
/// Silicone elsewhere.
pub const JOINT: &str = "joint";
/// The other face on the stem.
pub const SET_ON: &str = "face on the stem";
/// Another form of mold.
pub const MOLD: &str = "mold";
/// The other side is outside.
pub const SIDE: &str = "powder side";
/// Another seed.
pub const SEED: &str = "seed";
/// How long the slump is held.
pub const SLUMP_HOLD: &str = "hold of the slump";
/// Mold and disc for a finished size.
pub const FINISHED_SIZE: &str = "finished size";
/// Sheets and jars on hand.
pub const STOCK: &str = "sheets and jars";
/// What broke was taken over into the prices.
pub const BREAKAGE: &str = "breakage";
/// A glass came, went or changed.
pub const GLASSES: &str = "glasses";
/// A color that was looked for was put into a coat.
pub const FOUND: &str = "a color found";
/// Coats that lay together were let go.
pub const LET_GO: &str = "coats let go";
