//! What is stored of a piece, and what came of storing it.

use super::faults::StorageFault;
use super::ids::{LogId, OrderId, PieceId};
use dappledome::keep::content::Kind;
use dappledome::keep::log::LogEntry;
use dappledome::orders::model::Order;
use dappledome::recipe::piece::Piece;
use std::sync::Arc;
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

/// An entry of the log, and which one it is.
#[derive(Clone, Debug, PartialEq)]
pub struct LogRecord {
    /// Which one.
    pub id: LogId,
    /// What it says.
    pub entry: LogEntry,
    /// The same as it is stored.
    pub text: Arc<str>,
}

/// What is kept and cannot be read.
#[derive(Clone, Debug, PartialEq)]
pub struct Damaged {
    /// What it was.
    pub kind: Kind,
    /// Its number.
    pub id: u64,
    /// What is there.
    pub text: String,
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

/// A text as it is stored.
#[derive(Clone, Debug, PartialEq)]
pub struct Stored {
    /// Counted up at every change.
    pub revision: u32,
    /// When it was changed last, ms since 1970.
    pub changed: f64,
    /// The piece, order or whatever it is as JSON, or what else is there.
    pub text: String,
}

/// How many there are of each kind.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Kinds {
    /// Pieces.
    pub pieces: usize,
    /// Orders.
    pub orders: usize,
    /// Entries of the log.
    pub entries: usize,
    /// The bench: one or none.
    pub benches: usize,
}

impl Kinds {
    /// One more of this kind.
    pub fn add(&mut self, kind: Kind) {
        match kind {
            Kind::Piece => self.pieces += 1,
            Kind::Order => self.orders += 1,
            Kind::Entry => self.entries += 1,
            Kind::Bench => self.benches += 1,
        }
    }
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

/// All there is of one piece, order or entry of the log, as the browser's database holds it, to be put back as it was.
#[derive(Clone, Debug)]
pub struct Whole {
    /// What it is.
    pub kind: Kind,
    /// Its text.
    pub text: JsValue,
    /// Its card, if it is a piece.
    pub card: JsValue,
    /// Its small picture or its photo.
    pub picture: JsValue,
}

/// What is held in case the browser's database loses it, by its numbers.
pub type Held = Vec<(u64, Whole)>;

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
