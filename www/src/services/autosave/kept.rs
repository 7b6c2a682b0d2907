//! Which pieces, orders and entries of the log were kept in this browser, noted apart from its database: should that be
//! damaged, lost or cleared, it is known that there were some.

use super::unsaved;
use crate::dom::local;

/// Begins the name of a note; the number follows.
const KEPT: &str = "dappledome.kept.";

/// Notes that something is kept under a number.
pub fn note(id: u64) {
    local::keep(&name(id), "yes");
}

/// It is kept no more, and that is known.
pub fn forget(id: u64) {
    local::forget(&name(id));
}

/// Notes those that are there, and gives those that were kept and are not there any more.
pub fn missing(there: &[u64]) -> Vec<u64> {
    let noted: Vec<u64> = local::names().iter().filter_map(|name| id_of(name)).collect();
    there.iter().filter(|id| !noted.contains(id)).for_each(|id| note(*id));
    gone(&noted, unsaved::last().map(|id| id.0), there)
}

/// What is gone of what was noted; without a note the piece that lay on the table last is known of all the same.
fn gone(noted: &[u64], last: Option<u64>, there: &[u64]) -> Vec<u64> {
    let last = last.filter(|_| noted.is_empty());
    noted.iter().copied().chain(last).filter(|id| !there.contains(id)).collect()
}

fn name(id: u64) -> String {
    format!("{KEPT}{id}")
}

fn id_of(name: &str) -> Option<u64> {
    name.strip_prefix(KEPT)?.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    const A: u64 = 1;
    const B: u64 = 2;

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
