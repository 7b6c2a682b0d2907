//! What is written at once, because it is short: which piece lay on the table, and a change of a piece, an order, the bench or the
//! log that a page going out of sight has no time to keep otherwise.

use crate::dom::local;
use crate::model::ids::PieceId;
use dappledome::keep::content::Kind;

/// Which piece lay on the table.
const LAST: &str = "dappledome.last";
/// Begins the name of a change that was not kept; the number follows, behind the kind of what is no piece.
const UNSAVED: &str = "dappledome.unsaved.";

/// A change that was not kept.
#[derive(Debug, PartialEq)]
pub struct Unsaved {
    /// The number of what was changed.
    pub id: u64,
    /// The revision that it was made on; none for something new.
    pub known: Option<u32>,
    /// It as JSON.
    pub text: String,
}

/// The piece that lay on the table last in this tab, or else in this browser.
pub fn last() -> Option<PieceId> {
    let storages = [local::of_tab(), local::of_browser()].into_iter().flatten();
    let mut numbers = storages.filter_map(|storage| storage.get_item(LAST).ok().flatten()?.parse().ok());
    numbers.next().map(PieceId)
}

/// Remembers which piece lies on the table.
pub fn remember(id: PieceId) {
    for storage in [local::of_tab(), local::of_browser()].into_iter().flatten() {
        // Without it the piece that was changed last lies there next time.
        let _ = storage.set_item(LAST, &id.0.to_string());
    }
}

/// A piece that is not there any more did not lie on the table last.
pub fn forget(id: PieceId) {
    let storages = [local::of_tab(), local::of_browser()].into_iter().flatten();
    for storage in storages.filter(|_| last() == Some(id)) {
        // One that stays is asked for once more.
        let _ = storage.remove_item(LAST);
    }
}

/// Writes a change down.
pub fn write(kind: Kind, unsaved: &Unsaved) {
    // Where there is no room for it, saving it in the usual way may still do.
    local::keep(&name(kind, unsaved.id), &line(unsaved));
}

/// Drops a change, because it is kept.
pub fn drop_one(kind: Kind, id: u64) {
    local::forget(&name(kind, id));
}

/// All changes of a kind that were not kept.
pub fn all(kind: Kind) -> Vec<Unsaved> {
    let Some(storage) = local::of_browser() else { return Vec::new() };
    local::names()
        .iter()
        .filter_map(|name| read(kind, name, &storage.get_item(name).ok().flatten()?))
        .collect()
}

fn name(kind: Kind, id: u64) -> String {
    format!("{}{id}", beginning(kind))
}

fn beginning(kind: Kind) -> String {
    if kind == Kind::Piece { UNSAVED.into() } else { format!("{UNSAVED}{}.", kind.name()) }
}

/// The revision, if there is one, a space, and the text.
fn line(unsaved: &Unsaved) -> String {
    let known = unsaved.known.map_or_else(String::new, |known| known.to_string());
    format!("{known} {}", unsaved.text)
}

fn read(kind: Kind, name: &str, line: &str) -> Option<Unsaved> {
    let id = name.strip_prefix(&beginning(kind))?.parse().ok()?;
    let (known, text) = line.split_once(' ')?;
    Some(Unsaved { id, known: known.parse().ok(), text: text.into() })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_down_is_read_again() {
        for known in [None, Some(12)] {
            for kind in Kind::ALL {
                let unsaved = Unsaved { id: 7, known, text: "{ \"a\": 1 }".into() };
                let (name, line) = (name(kind, unsaved.id), line(&unsaved));
                assert_eq!(read(kind, &name, &line), Some(unsaved));
                let of_others = Kind::ALL.into_iter().filter(|other| *other != kind);
                assert!(of_others.filter_map(|other| read(other, &name, &line)).next().is_none());
            }
        }
    }

    #[test]
    fn what_else_the_browser_keeps_is_no_change() {
        assert_eq!(read(Kind::Piece, LAST, "3 {}"), None);
        assert_eq!(read(Kind::Piece, "dappledome.unsaved.seven", "3 {}"), None);
        assert_eq!(read(Kind::Piece, "dappledome.unsaved.7", "{}"), None, "no revision, not even none");
        let damaged = Unsaved { id: 7, known: None, text: "{}".into() };
        assert_eq!(
            read(Kind::Piece, "dappledome.unsaved.7", "three {}"),
            Some(damaged),
            "kept as a new piece"
        );
    }
}
