//! What the customer reads: on the screen and on the option sheet.

use super::page::file_name;
use super::text::listed;

/// The screen turned to the customer.
pub const FOR_THE_CUSTOMER: &str = "For the customer";
/// Chooses the large one.
pub const THIS_ONE: &str = "This one";
/// Chooses it beside what was chosen.
pub const THIS_ONE_TOO: &str = "This one too";
/// Chooses it in place of what was chosen.
pub const THIS_ONE_INSTEAD: &str = "This one instead";
/// Lets go of it again.
pub const NOT_THIS_ONE: &str = "Not this one";
/// How many pieces the customer wants.
pub const HOW_MANY_PIECES: &str = "How many pieces";
/// One piece less.
pub const ONE_LESS: &str = "One less";
/// One piece more.
pub const ONE_MORE: &str = "One more";
/// The name of another number of pieces, as a step.
pub const HOW_MANY_STEP: &str = "how many the customer wants";
/// Turns the screen back to the maker.
pub const CLOSE_CUSTOMER: &str = "Close";
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
pub fn option(letter: &str, chosen: bool) -> String {
    format!("Option {letter}{}", if chosen { ", chosen" } else { "" })
}

/// The customer's choice; nothing before there is one.
pub fn you_chose(letters: &[String], pieces: Option<u32>) -> String {
    if letters.is_empty() {
        return String::new();
    }
    let pieces = match pieces {
        Some(1) => ", 1 piece".into(),
        Some(pieces) => format!(", {pieces} pieces in all"),
        None => String::new(),
    };
    format!("You chose {}{pieces}", listed(letters))
}

/// What was typed is no number of pieces.
pub fn number_of_pieces(most: u32) -> String {
    format!("Write how many pieces, from 1 to {most}.")
}

/// Chooses every option.
pub fn these(options: usize) -> String {
    const FEW: [&str; 11] =
        ["two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    match options.checked_sub(2).and_then(|at| FEW.get(at)) {
        Some(number) => format!("These {number}"),
        None => format!("These {options}"),
    }
}

/// The name of the customer's choice, as a step.
pub fn choice(letters: &[String]) -> String {
    if letters.is_empty() { "no choice".into() } else { format!("the choice of {}", listed(letters)) }
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
    fn a_choice_is_told_by_its_letters_and_number() {
        let letters = |all: &[&str]| all.iter().map(|letter| (*letter).to_owned()).collect::<Vec<_>>();
        assert_eq!(you_chose(&[], Some(3)), "");
        assert_eq!(you_chose(&letters(&["A"]), None), "You chose A");
        assert_eq!(you_chose(&letters(&["A", "C", "D"]), Some(12)), "You chose A, C and D, 12 pieces in all");
        assert_eq!(choice(&letters(&["A", "B"])), "the choice of A and B");
        assert_eq!([these(2), these(6), these(13)], ["These two", "These six", "These 13"]);
    }

    #[test]
    fn a_sheet_of_several_pages_is_several_files() {
        assert_eq!(option_sheet_file("Ember Walk", None), "ember-walk-options.png");
        assert_eq!(option_sheet_file("Ember Walk", Some(2)), "ember-walk-options-2.png");
    }
}
