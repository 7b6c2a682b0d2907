//! What is the maker's in this browser: pieces, orders, the bench and the log, each as text with a revision; a piece has a card with its
//! name and day, and a small picture besides, an entry of the log its photo.

mod db;
mod lasting;
mod pieces;
mod records;
mod texts;

pub use db::{close_for_long, doubt, go_on_in_doubt, trust};
pub use lasting::{Promise, ask_to_last, promised};
pub use pieces::{add, cards, look, piece, put_back, save, save_picture, take_away};
pub use records::read_stored;
pub use texts::{all, ids, make_good, photo, save_photo, save_text, take_off, text, texts};
