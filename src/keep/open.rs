//! Opening bytes without being told what they are: a recipe, a piece, a picture with its recipe inside, an order,
//! or a back-up.

use super::backup;
use crate::base::notice::{Notice, Severity, Step};
use crate::base::seed::Seed;
use crate::orders::file;
use crate::orders::model::Order;
use crate::picture::png;
use crate::recipe::piece::Piece;
use crate::recipe::shelf::Shelf;

/// The most bytes that are read at all. The largest picture that Dappledome saves is smaller.
pub const MOST_BYTES: usize = 64 << 20;

/// What was opened.
#[derive(Clone, Debug, PartialEq)]
pub enum Opened {
    /// A piece.
    Piece(Box<Piece>),
    /// An order.
    Order(Box<Order>),
    /// Glasses of somebody's own.
    Glasses(Shelf),
    /// A back-up of many, as text for [`backup::read`].
    Backup(String),
}

/// Why nothing was opened.
#[derive(Clone, Debug, PartialEq)]
pub enum OpenFault {
    /// The bytes are neither text nor a picture that could hold a piece.
    NotAPiece,
    /// What is wrong with them, of severity *fault*.
    Faulty(Notice),
}

/// What these bytes hold. A recipe alone gets the given seed.
///
/// # Errors
/// An [`OpenFault`] that says what is wrong with them.
pub fn open(bytes: &[u8], seed: Seed) -> Result<Opened, OpenFault> {
    let opened = if bytes.starts_with(png::SIGNATURE) {
        in_picture(bytes, seed)
    } else {
        let text = std::str::from_utf8(bytes).map_err(|_| OpenFault::NotAPiece)?;
        in_text(text.trim_start_matches('\u{feff}'), seed)
    };
    opened.map_err(OpenFault::Faulty)
}

fn in_text(text: &str, seed: Seed) -> Result<Opened, Notice> {
    match backup::read(text) {
        Some(found) => found.map(|_| Opened::Backup(text.into())),
        None if is_order(text) => file::read(text).map(|order| Opened::Order(Box::new(order))),
        None if is_shelf(text) => Shelf::read(text).map(Opened::Glasses).map_err(first_of),
        None => piece_in(text, seed),
    }
}

/// Whether a text is a shelf of glasses: it has glasses, and no blank that they could be of.
fn is_shelf(text: &str) -> bool {
    let has = |field: &str| backup::names(text).any(|name| name == field);
    has("\"glasses\"") && !has("\"blank\"") && !has("\"recipe\"")
}

/// The first of several faults; there is one.
fn first_of(faults: Vec<Notice>) -> Notice {
    let no_fault = || Notice::new(Severity::Fault, Step::Recipe, "No shelf file.", "", "");
    faults.into_iter().next().unwrap_or_else(no_fault)
}

/// Whether a text is an order, whole or damaged: an order has lines, and a recipe or a piece has none.
fn is_order(text: &str) -> bool {
    backup::names(text).any(|name| name == "\"lines\"")
}

fn in_picture(bytes: &[u8], seed: Seed) -> Result<Opened, Notice> {
    let text = png::text(bytes, png::RECIPE_KEYWORD).ok_or_else(|| {
        Notice::new(
            Severity::Fault,
            Step::Recipe,
            "A picture without a recipe in it.",
            "Only pictures that Dappledome saved hold one, and some programs take it out when they pass a picture on.",
            "Choose the picture as it was saved, or the recipe file.",
        )
    })?;
    let own = png::text(bytes, png::SEED_KEYWORD).and_then(|seed| seed.trim().parse().ok());
    piece_in(&text, own.map_or(seed, Seed))
}

fn piece_in(text: &str, seed: Seed) -> Result<Opened, Notice> {
    Piece::read(text, seed).map(|piece| Opened::Piece(Box::new(piece)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::glass::catalogue;
    use crate::glass::kind::Glass;
    use crate::picture::Pixmap;
    use crate::recipe::{demo, file as recipe_file};

    #[test]
    fn a_picture_opens_its_piece() {
        let recipe = demo::ember_walk();
        let text = recipe_file::write(&recipe);
        let texts = [(png::RECIPE_KEYWORD, text.as_str()), (png::SEED_KEYWORD, "47")];
        let picture = png::encode(&Pixmap::filled(2, 2, [9; 3]), &texts);
        let piece = Box::new(Piece::new(recipe, Seed(47)));
        assert_eq!(open(&picture, Seed(1)), Ok(Opened::Piece(piece)));
    }

    #[test]
    fn a_back_up_is_told_from_a_piece() {
        let text = format!("{}{}", backup::HEAD, backup::TAIL);
        assert_eq!(open(format!("\u{feff}{text}").as_bytes(), Seed(1)), Ok(Opened::Backup(text)));
        assert!(open(b"{\"version\":9,\"kept\":[]}", Seed(1)).is_err());
    }

    #[test]
    fn an_order_is_told_from_a_piece_even_where_it_is_broken() {
        let order = Order::of(demo::ember_walk(), 12);
        let text = file::write(&order);
        assert_eq!(open(text.as_bytes(), Seed(1)), Ok(Opened::Order(Box::new(order))));
        for broken in [&text[..text.len() / 2], &text.replace("\"count\": 12", "\"count\": -12")] {
            let fault = open(broken.as_bytes(), Seed(1)).unwrap_err();
            let what = "An order file with a mistake in it.";
            assert!(matches!(&fault, OpenFault::Faulty(notice) if notice.what == what), "{fault:?}");
        }
    }

    #[test]
    fn a_shelf_is_told_from_a_piece_that_brings_its_glasses_along() {
        let rust = catalogue::find("rust").expect("it is in the catalogue");
        let own = Glass { id: "of_may".into(), ..rust.clone() };
        let mut shelf = Shelf::default();
        shelf.put(own.clone());
        assert_eq!(open(shelf.write().as_bytes(), Seed(1)), Ok(Opened::Glasses(shelf.clone())));
        let newer = shelf.write().replace("\"version\": 1", "\"version\": 2, \"jars\": 3");
        let fault = open(newer.as_bytes(), Seed(1)).unwrap_err();
        let what = "A shelf file of another version.";
        assert!(matches!(&fault, OpenFault::Faulty(notice) if notice.what == what), "{fault:?}");
        let mut recipe = demo::ember_walk();
        recipe.glasses.take_in(own);
        let text = recipe_file::write(&recipe);
        assert!(matches!(open(text.as_bytes(), Seed(1)), Ok(Opened::Piece(_))));
    }

    #[test]
    fn what_is_something_else_is_refused() {
        let plain = png::encode(&Pixmap::filled(2, 2, [9; 3]), &[]);
        for (bytes, what) in [
            (&plain[..], "A picture without a recipe in it."),
            (b"", "The recipe file ends too early."),
            (b"hello", "Not a recipe file."),
        ] {
            let fault = open(bytes, Seed(1)).unwrap_err();
            assert!(matches!(fault, OpenFault::Faulty(notice) if notice.what == what));
        }
        assert_eq!(open(b"PK\x03\x04\xff\xfe", Seed(1)), Err(OpenFault::NotAPiece));
    }
}
