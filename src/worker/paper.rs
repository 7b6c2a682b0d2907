//! Paper for an order that was worked out.

use super::asked::PaperJob;
use crate::paper::content::{Content, Piece};
use crate::paper::sheet::Sheet;

/// The sheets; none for an order with faults, which was never worked out.
pub fn sheets(asked: &PaperJob) -> Vec<Sheet> {
    let PaperJob { order, worked, next_time, kind, paper, today } = asked;
    let Ok(mut pieces) = Piece::all(order, worked) else { return Vec::new() };
    for (piece, note) in pieces.iter_mut().zip(next_time) {
        piece.next_time.clone_from(note);
    }
    kind.sheets(&Content { order, worked, pieces: &pieces, today: *today, paper: *paper })
}
