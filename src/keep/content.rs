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
    Piece(Piece),
    /// An order.
    Order(Order),
    /// The bench.
    Bench(Bench),
    /// An entry of the log.
    Entry(LogEntry),
}

impl Content {
    /// Reads a text.
    ///
    /// # Errors
    /// The refusal of its own file.
    #[inline]
    pub fn read(kind: Kind, text: &str) -> Result<Self, Notice> {
        match kind {
            Kind::Piece => Piece::read(text, Seed::default()).map(Self::Piece),
            Kind::Order => file::read(text).map(Self::Order),
            Kind::Bench => Bench::read(text).map(Self::Bench),
            Kind::Entry => LogEntry::read(text).map(Self::Entry),
        }
    }

    /// Its text.
    #[inline]
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
