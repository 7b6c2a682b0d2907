//! What the customer reads: on the screen and on the option sheet.

use super::page::file_name;
use super::recipe::dimensions;
use dappledome::base::shown::Units;
use dappledome::picture::view::Stage;
use dappledome::shop::ticket::Ticket;

/// The screen turned to the customer.
pub const FOR_THE_CUSTOMER: &str = "For the customer";
/// Chooses the large one.
pub const THIS_ONE: &str = "This one";
/// The glass lights up.
pub const TOUCH_THE_GLASS: &str = "Touch the glass to light it";
/// What a choice means.
pub const EACH_BY_HAND: &str = "Each is sifted by hand; yours will be its sister.";
/// Size of paper.
pub const PAPER_SIZE: &str = "Size of paper";
/// ISO 216.
pub const A4: &str = "A4";
/// ANSI.
pub const LETTER: &str = "Letter";
/// Opens the browser's printing.
pub const PRINT: &str = "Print";
/// Saves the sheet.
pub const SAVE_AS_PICTURE: &str = "Save as picture";
/// Back to the piece.
pub const CLOSE_PAPER: &str = "Close the paper";
/// Before the customer's name.
pub const FOR: &str = "For";
/// Before the date.
pub const DATE: &str = "Date";
/// Before the price.
pub const PRICE: &str = "Price";
/// Column of pictures.
pub const BY_DAY: &str = "By day";
/// Column of pictures.
pub const LIT_FROM_WITHIN: &str = "Lit from within";
/// At the foot of the sheet.
pub const SHEET_CAUTION: &str =
    "Each is sifted by hand: yours will be a sister of the one you choose. Colors are a forecast.";
/// The program's name.
pub const DAPPLEDOME: &str = "Dappledome";

/// An option by its letter.
pub fn option(letter: &str) -> String {
    format!("Option {letter}")
}

/// The customer's choice.
pub fn you_chose(letter: &str) -> String {
    format!("You chose {letter}")
}

/// The name of the customer's choice, as a step.
pub fn choice(letter: &str) -> String {
    format!("the choice of {letter}")
}

/// The size of the finished piece.
pub fn size(ticket: &Ticket, units: Units) -> String {
    dimensions(Stage::Domed, ticket, units)
}

/// A picture of an option.
pub fn option_picture(letter: &str, lit: bool) -> String {
    format!("Option {letter}, {}", if lit { "lit from within" } else { "by day" })
}

/// The name of a file with an option sheet, or with one part of it.
pub fn option_sheet_file(title: &str, part: Option<usize>) -> String {
    let part = part.map_or_else(String::new, |part| format!(" {part}"));
    file_name(&format!("{title} options{part}"), "png")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sheet_of_several_pages_is_several_files() {
        assert_eq!(option_sheet_file("Ember Walk", None), "ember-walk-options.png");
        assert_eq!(option_sheet_file("Ember Walk", Some(2)), "ember-walk-options-2.png");
    }
}
