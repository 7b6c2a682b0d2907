//! Nothing lost: the piece on the table is kept as it is changed, and what is kept is never overwritten unseen.
//!
//! Saving waits until the hand rests, two seconds at most; a piece that leaves the table is saved first. Other tabs are
//! told, and a tab whose piece was changed elsewhere takes the change over if it has none of its own, or else asks.

pub(super) mod kept;
mod other_tabs;
mod proof;
mod queue;
mod recovery;
mod service;
mod start;
pub(super) mod unsaved;

pub use service::Autosave;
