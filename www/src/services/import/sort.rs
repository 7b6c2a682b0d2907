//! What came from outside: a piece, an order, a back-up, or something to be refused. Plain data.

use crate::model::ids::FIRST_SEED;
use crate::model::records::Origin;
use crate::words;
use dappledome::base::notice::{Notice, Severity};
use dappledome::keep::open::{MOST_BYTES, OpenFault, Opened, open};
use dappledome::orders::checks::check;
use dappledome::orders::model::Order;
use dappledome::recipe::link;
use dappledome::recipe::piece::Piece;
use dappledome::recipe::plan::Plan;
use dappledome::recipe::shelf::Shelf;

/// What came.
#[derive(Clone, Debug, PartialEq)]
pub enum Arrived {
    /// A back-up, as text.
    Backup(String),
    /// A piece that can be made.
    Piece(Box<Piece>, Origin),
    /// An order that can be made.
    Order(Box<Order>),
    /// Glasses of somebody's own.
    Glasses(Shelf),
    /// Nothing that can be opened.
    Refused(Refused),
}

/// Why something was refused.
#[derive(Clone, Debug, PartialEq)]
pub struct Refused {
    /// What it is.
    pub what: String,
    /// Why it was refused, and what to do.
    pub reason: String,
}

/// What a file of this name holds.
pub fn file(name: &str, bytes: &[u8]) -> Arrived {
    let is_recipe = bytes.trim_ascii_start().first() == Some(&b'{');
    match open(bytes, FIRST_SEED) {
        Ok(Opened::Backup(text)) => Arrived::Backup(text),
        Ok(Opened::Piece(piece)) => whole(name, *piece, Origin::File),
        Ok(Opened::Order(order)) => whole_order(name, order),
        Ok(Opened::Glasses(shelf)) => Arrived::Glasses(shelf),
        Err(OpenFault::Faulty(notice)) if is_recipe || words::is_png(name) => faulty(notice),
        Err(_) => not_a_piece(name, words::sort_of_file(name)),
    }
}

/// What a text holds that was pasted: a link, or what could be in a file.
pub fn pasted(text: &str) -> Arrived {
    let found = text.split_once('#').and_then(|(_, fragment)| link::read(fragment.trim()));
    found.map_or_else(|| file(words::THE_CLIPBOARD, text.as_bytes()), in_link)
}

/// What was found in a link.
pub fn in_link(found: Result<Piece, Notice>) -> Arrived {
    match found {
        Ok(piece) => whole(words::A_LINK, piece, Origin::Link),
        Err(notice) => faulty(notice),
    }
}

/// Why a file of this many bytes is not read at all; none if it is.
pub fn too_large(name: &str, bytes: f64) -> Option<Arrived> {
    let why = || words::too_large(bytes / 1024.0, MOST_BYTES / 1024);
    (bytes > MOST_BYTES as f64).then(|| not_a_piece(name, &why()))
}

/// A file that the browser could not read.
pub fn unreadable(name: &str) -> Arrived {
    refused(words::not_a_piece(name), words::UNREADABLE_FILE.into())
}

fn whole(name: &str, piece: Piece, origin: Origin) -> Arrived {
    match Plan::new(&piece.recipe) {
        Ok(_) => Arrived::Piece(Box::new(piece), origin),
        Err(notices) => cannot_be_made(name, &notices),
    }
}

fn whole_order(name: &str, order: Box<Order>) -> Arrived {
    match check(&order) {
        Ok(_) => Arrived::Order(order),
        Err(notices) => cannot_be_made(name, &notices),
    }
}

fn cannot_be_made(name: &str, notices: &[Notice]) -> Arrived {
    let faults: Vec<&Notice> = notices.iter().filter(|notice| notice.severity == Severity::Fault).collect();
    refused(words::cannot_be_made(name), words::faults(&faults))
}

fn faulty(notice: Notice) -> Arrived {
    refused(notice.what, format!("{} {}", notice.why, notice.remedy))
}

fn not_a_piece(name: &str, why: &str) -> Arrived {
    refused(words::not_a_piece(name), format!("{why} {}", words::OPENS))
}

fn refused(what: String, reason: String) -> Arrived {
    Arrived::Refused(Refused { what, reason })
}

/// Whether a file of this name is a photo, of a fired piece that is. (A PNG may be a picture of ours, with its recipe.)
pub fn is_photo(name: &str) -> bool {
    let ending = name.rsplit_once('.').map(|(_, ending)| ending.to_lowercase());
    ending.is_some_and(|ending| ["jpg", "jpeg", "webp", "avif", "heic"].contains(&ending.as_str()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::base::seed::Seed;
    use dappledome::keep::backup;
    use dappledome::orders::file as order_file;
    use dappledome::picture::{Pixmap, png};
    use dappledome::recipe::{demo, file as recipe_file};

    fn picture(texts: &[(&str, &str)]) -> Vec<u8> {
        png::encode(&Pixmap::filled(2, 2, [9; 3]), texts)
    }

    fn came(arrived: Arrived) -> (Piece, Origin) {
        match arrived {
            Arrived::Piece(piece, origin) => (*piece, origin),
            other => panic!("{other:?}"),
        }
    }

    fn reason(arrived: Arrived, what: &str) -> String {
        match arrived {
            Arrived::Refused(refused) if refused.what == what => refused.reason,
            other => panic!("{other:?} instead of {what}"),
        }
    }

    fn unmakeable() -> String {
        let mut recipe = demo::ember_walk();
        recipe.blank.sheets.clear();
        recipe_file::write(&recipe)
    }

    #[test]
    fn recipes_pictures_and_back_ups_are_opened_whatever_they_are_called() {
        let recipe = demo::ember_walk();
        let text = recipe_file::write(&recipe);
        let with_recipe = picture(&[(png::RECIPE_KEYWORD, &text), (png::SEED_KEYWORD, "47")]);
        for (name, bytes, seed) in [
            ("ember.json", text.as_bytes(), FIRST_SEED),
            ("ember.txt", text.as_bytes(), FIRST_SEED),
            ("ember.png", &with_recipe, Seed(47)),
            ("ember.xlsx", &with_recipe, Seed(47)),
        ] {
            let piece = Piece::new(recipe.clone(), seed);
            assert_eq!(came(file(name, bytes)), (piece, Origin::File), "{name}");
        }
        let all = format!("{}{}", backup::HEAD, backup::TAIL);
        assert_eq!(file("all.png", all.as_bytes()), Arrived::Backup(all.clone()));
    }

    #[test]
    fn what_is_nothing_of_ours_is_told_by_its_name() {
        let not_text = b"PK\x03\x04\xff\xfe";
        for (name, bytes, sort) in [
            ("glass.xlsx", &not_text[..], "That is a spreadsheet."),
            ("glass.png", &not_text[..], "That is a picture."),
            ("notes.txt", b"hello", "That is a document."),
            ("dome.jpg", &picture(&[]), "That is a picture."),
        ] {
            let why = reason(file(name, bytes), &words::not_a_piece(name));
            assert_eq!(why, format!("{sort} {}", words::OPENS), "{name}");
        }
    }

    #[test]
    fn what_could_be_ours_is_told_what_is_wrong_with_it() {
        for (name, bytes, what) in [
            ("dome.png", &picture(&[])[..], "A picture without a recipe in it."),
            ("dome.png", b"hello", "Not a recipe file."),
            ("dome.txt", b" {", "The recipe file ends too early."),
            ("dome.json", unmakeable().as_bytes(), &words::cannot_be_made("dome.json")),
        ] {
            assert!(!reason(file(name, bytes), what).is_empty());
        }
    }

    #[test]
    fn an_order_is_taken_in_and_one_that_cannot_be_made_is_told() {
        let order = Order::of(demo::ember_walk(), 12);
        let text = order_file::write(&order);
        assert_eq!(file("harborside.json", text.as_bytes()), Arrived::Order(Box::new(order)));
        let none = text.replace("\"count\": 12", "\"count\": 0");
        let said =
            reason(file("harborside.json", none.as_bytes()), &words::cannot_be_made("harborside.json"));
        assert!(said.contains("The pieces of Ember Walk is 0"), "{said}");
        reason(file("harborside.json", &text.as_bytes()[..900]), "An order file with a mistake in it.");
    }

    #[test]
    fn links_are_found_in_what_was_pasted() {
        let piece = Piece::new(demo::ember_walk(), Seed(5));
        let fragment = link::write(&piece);
        assert_eq!(came(pasted(&format!("look: here/# {fragment} "))), (piece.clone(), Origin::Link));
        assert_eq!(came(pasted(&piece.write())), (piece, Origin::File));
        let damaged = &fragment[..fragment.len() / 2];
        assert!(matches!(pasted(&format!("here/#{damaged}")), Arrived::Refused(_)));
        reason(pasted("hello # there"), &words::not_a_piece(words::THE_CLIPBOARD));
    }

    #[test]
    fn a_file_of_the_most_bytes_is_read_and_a_larger_one_is_not() {
        assert_eq!(too_large("a.png", MOST_BYTES as f64), None);
        let refused = too_large("a.png", MOST_BYTES as f64 + 1.0).unwrap();
        assert!(reason(refused, &words::not_a_piece("a.png")).ends_with(words::OPENS));
        assert_eq!(reason(unreadable("a.png"), &words::not_a_piece("a.png")), words::UNREADABLE_FILE);
    }

    #[test]
    fn a_photo_is_told_by_its_name() {
        for name in ["fired.jpg", "IMG_1.JPEG", "a.b.webp"] {
            assert!(is_photo(name), "{name}");
        }
        for name in ["ember.png", "ember.json", "jpg", ""] {
            assert!(!is_photo(name), "{name}");
        }
    }
}
