//! What is stored of a piece, and what came of storing it.

use super::faults::StorageFault;
use super::ids::{OrderId, PieceId};
use dappledome::orders::model::Order;
use dappledome::recipe::piece::Piece;
use wasm_bindgen::JsValue;

/// A piece as it stands, and which of the maker's pieces it is; none before its first change.
#[derive(Clone, Debug, PartialEq)]
pub struct Version {
    /// Which one.
    pub id: Option<PieceId>,
    /// How it stands.
    pub piece: Piece,
}

/// An order, and which of the maker's orders it is. What is the maker's and no customer's is not in it.
#[derive(Clone, Debug, PartialEq)]
pub struct OrderRecord {
    /// Which one.
    pub id: OrderId,
    /// How it stands.
    pub order: Order,
}

/// Where a piece came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// A link.
    Link,
    /// A file.
    File,
}

/// What the shelf knows of a piece without reading its recipe.
#[derive(Clone, Debug, PartialEq)]
pub struct Card {
    /// Which piece.
    pub id: PieceId,
    /// Its name.
    pub title: String,
    /// The names of its glasses, to be searched.
    pub glasses: String,
    /// When it was changed last, ms since 1970.
    pub changed: f64,
}

/// A piece as it is stored.
#[derive(Clone, Debug, PartialEq)]
pub struct Stored {
    /// Counted up at every change.
    pub revision: u32,
    /// When it was changed last, ms since 1970.
    pub changed: f64,
    /// The piece as JSON, or whatever else is there.
    pub text: String,
}

/// What came of saving.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Saved {
    /// It is kept, under this revision.
    As(u32),
    /// It was taken away meanwhile, elsewhere. Nothing was written.
    Gone,
    /// It was changed meanwhile, elsewhere, at this time. Nothing was written.
    Changed(f64),
}

/// Whether the piece on the table is kept.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SaveState {
    /// There is nothing to keep: a recipe that came with the program.
    Untouched,
    /// Since this time, ms since 1970.
    Since(f64),
    /// It was taken off the shelf, here or in another tab.
    Away,
    /// Another tab changed it at this time, and so did this one.
    Conflict(f64),
    /// It is not.
    Not(StorageFault),
}

/// All there is of one piece, as the browser's database holds it, to be put back as it was.
#[derive(Clone, Debug)]
pub struct Whole {
    /// The piece.
    pub piece: JsValue,
    /// Its card.
    pub card: JsValue,
    /// Its small picture.
    pub picture: JsValue,
}

/// Pieces that are held in case the browser's database loses them.
pub type Held = Vec<(PieceId, Whole)>;

/// A piece that was taken off the shelf.
#[derive(Clone, Debug)]
pub struct Deleted {
    /// Which one.
    pub id: PieceId,
    /// Its name.
    pub title: String,
    /// All there was of it.
    pub whole: Whole,
}
