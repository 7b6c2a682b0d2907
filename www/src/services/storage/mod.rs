//! The maker's pieces in this browser: each as text with a revision, a card with its name and day, and a small picture.

mod db;
mod lasting;
mod pieces;
mod records;

pub use db::{close_for_long, doubt, go_on_in_doubt, trust};
pub use lasting::{Promise, ask_to_last, promised};
pub use pieces::{add, all, cards, ids, look, make_good, piece, put_back, save, save_picture, take_away};
pub use records::read_stored;
