//! What pieces, areas and panels are called by.

use dappledome::base::seed::Seed;

/// The seed of a piece that nobody has rolled yet.
pub const FIRST_SEED: Seed = Seed(41);

/// Seeds by chance are below this: short enough to be read out.
const ROLLED: f64 = 10_000.0;

/// A seed by chance.
pub fn rolled() -> Seed {
    Seed((js_sys::Math::random() * ROLLED) as u32)
}

/// Which of the maker's pieces one is, for good.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct PieceId(pub u64);

impl PieceId {
    /// A number that no other piece has: one of 2^52, by chance.
    pub fn fresh() -> Self {
        Self((js_sys::Math::random() * (1u64 << 52) as f64) as u64)
    }
}

/// Which of the maker's orders one is, for good.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct OrderId(pub u64);

impl OrderId {
    /// A number that no other order has: one of 2^52, by chance.
    pub fn fresh() -> Self {
        Self(PieceId::fresh().0)
    }
}

/// Which entry of the log one is, for good.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct LogId(pub u64);

impl LogId {
    /// A number that no other entry has: one of 2^52, by chance.
    pub fn fresh() -> Self {
        Self(PieceId::fresh().0)
    }
}

/// Which area lies on the table. An area of its own folder names its own; those that other parts go to stand here.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct AreaId(pub &'static str);

impl AreaId {
    /// The piece, large: what is there when nothing else lies on the table.
    pub const PIECE: Self = Self("piece");
    /// Its sisters, side by side.
    pub const TRAY: Self = Self("tray");
    /// The shortlist, turned to the customer.
    pub const CUSTOMER: Self = Self("customer");
    /// The option sheet.
    pub const PAPER: Self = Self("paper");
    /// The programs of its firings.
    pub const FIRINGS: Self = Self("firings");
    /// The log.
    pub const LOG: Self = Self("log");
    /// A fired piece against its forecast.
    pub const AGAINST: Self = Self("against");
    /// A color that is looked for.
    pub const FIND: Self = Self("find");
    /// From a tile to a glass.
    pub const TILE: Self = Self("tile");
    /// The open order.
    pub const ORDER: Self = Self("order");
    /// The paper of the open order.
    pub const ORDER_PAPER: Self = Self("order-paper");
    /// The maker's pieces.
    pub const SHELF: Self = Self("shelf");
}

/// Which panel lies under the piece. A panel's folder names its own; those that other parts open stand here.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct PanelId(pub &'static str);

impl PanelId {
    /// The welcome, until the first change.
    pub const WELCOME: Self = Self("welcome");
    /// A file that could not be opened.
    pub const REFUSED: Self = Self("refused");
    /// The worker broke again and again.
    pub const STOPPED: Self = Self("stopped");
    /// A newer version of the page can be used.
    pub const NEW_VERSION: Self = Self("new-version");
    /// A newer version of the page did not open: this is the one before.
    pub const WENT_BACK: Self = Self("went-back");
    /// Pieces that were kept here are not here any more.
    pub const LOST: Self = Self("lost");
    /// Another tab changed the same piece.
    pub const CONFLICT: Self = Self("conflict");
    /// The layers at one place.
    pub const SAMPLE: Self = Self("sample");
    /// The disc sinking into its mold.
    pub const SINKING: Self = Self("sinking");
    /// What light the piece is seen in, and by whose eyes.
    pub const SEEN_IN: Self = Self("seen-in");
    /// How sure the colors of the piece are.
    pub const HOW_SURE: Self = Self("how-sure");
    /// What can do harm.
    pub const CAUTIONS: Self = Self("cautions");
}
