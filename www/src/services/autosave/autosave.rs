//! Keeps what lies on the table.

use crate::model::ids::PieceId;
use crate::model::records::Stored;
use dappledome::recipe::piece::Piece;

/// Keeps what lies on the table.
#[derive(Clone, Copy)]
pub struct Autosave;

impl Autosave {
    /// Begins to keep what lies on the table.
    pub fn start() -> Self {
        Self
    }

    /// Saves what lies on the table, and whatever else waits.
    pub fn save_now(&self) {}

    /// Puts a piece from the shelf on the table.
    pub fn take_up(&self, _id: PieceId, _stored: &Stored, _piece: &Piece) {}

    /// A piece was taken off the shelf in this tab: on the table it stays as it is until it is changed.
    pub fn forget(&self, _id: PieceId) {}

    /// A piece came back on the shelf in this tab.
    pub fn back_again(&self, _id: PieceId) {}

    /// The other tab's piece comes on the table. What lay here can be had back by a step back.
    pub fn take_that_one(&self) {}

    /// This tab's piece becomes another one.
    pub fn keep_both(&self) {}

    /// Tells the shelf, and the other tabs, that a piece was changed or taken away.
    pub fn changed_on_shelf(&self, _id: PieceId) {}
}
