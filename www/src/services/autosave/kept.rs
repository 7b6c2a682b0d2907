//! Which pieces were kept in this browser, noted apart from its database: should that be damaged, lost or cleared, it is
//! known that there were pieces.

use super::unsaved;
use crate::dom::local;
use crate::model::ids::PieceId;

/// Begins the name of a note; the piece's number follows.
const KEPT: &str = "dappledome.kept.";

/// Notes that a piece is kept.
pub fn note(id: PieceId) {
    local::keep(&name(id), "yes");
}

/// A piece is kept no more, and that is known.
pub fn forget(id: PieceId) {
    local::forget(&name(id));
}

/// Notes those that are there, and gives those that were kept and are not there any more.
pub fn missing(there: &[PieceId]) -> Vec<PieceId> {
    let noted: Vec<PieceId> = local::names().iter().filter_map(|name| id_of(name)).collect();
    there.iter().filter(|id| !noted.contains(id)).for_each(|id| note(*id));
    gone(&noted, unsaved::last(), there)
}

/// What is gone of what was noted; without a note the piece that lay on the table last is known of all the same.
fn gone(noted: &[PieceId], last: Option<PieceId>, there: &[PieceId]) -> Vec<PieceId> {
    let last = last.filter(|_| noted.is_empty());
    noted.iter().copied().chain(last).filter(|id| !there.contains(id)).collect()
}

fn name(id: PieceId) -> String {
    format!("{KEPT}{}", id.0)
}

fn id_of(name: &str) -> Option<PieceId> {
    name.strip_prefix(KEPT)?.parse().ok().map(PieceId)
}

#[cfg(test)]
mod tests {
    use super::*;

    const A: PieceId = PieceId(1);
    const B: PieceId = PieceId(2);

    #[test]
    fn what_was_noted_and_is_not_there_is_missing() {
        let table = [
            (&[][..], None, &[][..], &[][..]),
            (&[A, B], Some(A), &[A, B], &[]),
            (&[A, B], Some(A), &[A], &[B]),
            (&[A, B], None, &[], &[A, B]),
            // Local storage of an older version, or a damaged one, has no notes.
            (&[], Some(A), &[], &[A]),
            (&[], Some(A), &[A, B], &[]),
            // The last one was taken away, and that was noted.
            (&[B], Some(A), &[B], &[]),
        ];
        for (noted, last, there, missing) in table {
            assert_eq!(gone(noted, last, there), missing, "{noted:?} {last:?} {there:?}");
        }
    }

    #[test]
    fn a_note_is_read_again() {
        assert_eq!(id_of(&name(A)), Some(A));
        assert_eq!(id_of("dappledome.last"), None);
    }
}
