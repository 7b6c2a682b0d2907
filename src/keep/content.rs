//! What is kept: pieces, orders, the maker's bench and entries of the log, each as the text of its own file.

use super::log::LogEntry;
use crate::base::notice::Notice;
use crate::base::seed::Seed;
use crate::orders::bench::Bench;
use crate::orders::file;
use crate::orders::model::Order;
use crate::recipe::piece::Piece;

/// What a text is kept as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A piece.
    Piece,
    /// An order, without what is the maker's.
    Order,
    /// The bench: there is one.
    Bench,
    /// An entry of the log.
    Entry,
}

impl Kind {
    /// All there are.
    pub const ALL: [Self; 4] = [Self::Order, Self::Bench, Self::Entry, Self::Piece];

    /// What it is called in a back-up.
    pub fn name(self) -> &'static str {
        match self {
            Self::Piece => "piece",
            Self::Order => "order",
            Self::Bench => "bench",
            Self::Entry => "entry",
        }
    }
}

/// What such a text holds.
#[derive(Clone, Debug, PartialEq)]
pub enum Content {
    /// A piece.
    Piece(Box<Piece>),
    /// An order.
    Order(Box<Order>),
    /// The bench.
    Bench(Box<Bench>),
    /// An entry of the log.
    Entry(Box<LogEntry>),
}

impl Content {
    /// Reads a text.
    ///
    /// # Errors
    /// The refusal of its own file.
    pub fn read(kind: Kind, text: &str) -> Result<Self, Notice> {
        match kind {
            Kind::Piece => Piece::read(text, Seed::default()).map(|piece| Self::Piece(Box::new(piece))),
            Kind::Order => file::read(text).map(|order| Self::Order(Box::new(order))),
            Kind::Bench => Bench::read(text).map(|bench| Self::Bench(Box::new(bench))),
            Kind::Entry => LogEntry::read(text).map(|entry| Self::Entry(Box::new(entry))),
        }
    }

    /// Its text.
    pub fn write(&self) -> String {
        match self {
            Self::Piece(piece) => piece.write(),
            Self::Order(order) => file::write(order),
            Self::Bench(bench) => bench.write(),
            Self::Entry(entry) => entry.write(),
        }
    }

    /// What it is kept as.
    pub fn kind(&self) -> Kind {
        match self {
            Self::Piece(_) => Kind::Piece,
            Self::Order(_) => Kind::Order,
            Self::Bench(_) => Kind::Bench,
            Self::Entry(_) => Kind::Entry,
        }
    }

    /// Its name; the bench has none.
    pub fn title(&self) -> &str {
        match self {
            Self::Piece(piece) => &piece.recipe.title,
            Self::Order(order) => &order.title,
            Self::Entry(entry) => &entry.recipe.title,
            Self::Bench(_) => "",
        }
    }

    /// The same under another name.
    pub fn titled(mut self, title: String) -> Self {
        match &mut self {
            Self::Piece(piece) => piece.recipe.title = title,
            Self::Order(order) => order.title = title,
            Self::Entry(entry) => entry.recipe.title = title,
            Self::Bench(_) => {}
        }
        self
    }
}
