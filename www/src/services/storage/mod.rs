//! The maker's pieces in this browser: each as text with a revision, a card with its name and day, and a small picture.

mod db;
mod pieces;
mod records;

pub use pieces::{add, cards, look, piece, put_back, save, save_picture, take_away};
