//! What is written at once, because it is short: which piece lay on the table, and a change that a page going out of
//! sight has no time to keep otherwise.

use crate::dom::local;
use crate::model::ids::PieceId;

/// Which piece lay on the table.
const LAST: &str = "dappledome.last";
/// Begins the name of a change that was not kept; the piece's number follows.
const UNSAVED: &str = "dappledome.unsaved.";

/// A change that was not kept.
#[derive(Debug, PartialEq)]
pub struct Unsaved {
    /// The piece that was changed.
    pub id: PieceId,
    /// The revision that it was made on; none for a new piece.
    pub known: Option<u32>,
    /// The piece as JSON.
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
pub fn write(unsaved: &Unsaved) {
    // Where there is no room for it, saving it in the usual way may still do.
    local::keep(&name(unsaved.id), &line(unsaved));
}

/// Drops the change of a piece, because it is kept.
pub fn drop_one(id: PieceId) {
    local::forget(&name(id));
}

/// All changes that were not kept.
pub fn all() -> Vec<Unsaved> {
    let Some(storage) = local::of_browser() else { return Vec::new() };
    local::names().iter().filter_map(|name| read(name, &storage.get_item(name).ok().flatten()?)).collect()
}

fn name(id: PieceId) -> String {
    format!("{UNSAVED}{}", id.0)
}

/// The revision, if there is one, a space, and the piece.
fn line(unsaved: &Unsaved) -> String {
    let known = unsaved.known.map_or_else(String::new, |known| known.to_string());
    format!("{known} {}", unsaved.text)
}

fn read(name: &str, line: &str) -> Option<Unsaved> {
    let id = PieceId(name.strip_prefix(UNSAVED)?.parse().ok()?);
    let (known, text) = line.split_once(' ')?;
    Some(Unsaved { id, known: known.parse().ok(), text: text.into() })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_down_is_read_again() {
        for known in [None, Some(12)] {
            let unsaved = Unsaved { id: PieceId(7), known, text: "{ \"a\": 1 }".into() };
            assert_eq!(read(&name(unsaved.id), &line(&unsaved)), Some(unsaved));
        }
    }

    #[test]
    fn what_else_the_browser_keeps_is_no_change() {
        assert_eq!(read(LAST, "3 {}"), None);
        assert_eq!(read("dappledome.unsaved.seven", "3 {}"), None);
        assert_eq!(read("dappledome.unsaved.7", "{}"), None, "no revision, not even none");
        let damaged = Unsaved { id: PieceId(7), known: None, text: "{}".into() };
        assert_eq!(read("dappledome.unsaved.7", "three {}"), Some(damaged), "kept as a new piece");
    }
}
