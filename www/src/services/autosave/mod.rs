//! Nothing lost: the piece on the table is kept as it is changed, and what is kept is never overwritten unseen.

mod autosave;

pub use autosave::Autosave;
