//! The log, and orders, sheets and jars on the shelf, in words.

use super::recipe::pieces_of;
use super::shelf::named;
use super::text::capital;
use dappledome::base::units::{fixed, plain};
use dappledome::glass::glasses::Glasses;
use dappledome::keep::log::LogEntry;
use dappledome::orders::dates;
use dappledome::orders::model::{Date, Order, Sheets, Stock};

/// The area.
pub const LOG: &str = "Log";
/// Puts it aside.
pub const CLOSE_LOG: &str = "Close the log";
/// Looks for entries.
pub const SEARCH_LOG: &str = "Search words, glasses and dates";
/// There are no entries yet.
pub const NOTHING_FIRED: &str = "Nothing fired yet. Fire a piece, and write up here what came of it.";
/// No entry has what is searched.
pub const NO_ENTRY_FOUND: &str = "No firing has these words.";
/// Writes the firing of a program up.
pub const LOG_THIS: &str = "Log this firing";
/// Names of the columns.
pub const ASKED: &str = "asked";
/// And of what came of it.
pub const WAS: &str = "was";
/// The table.
pub const SET_AND_WAS: &str = "What was set, what was";
/// What the maker saw.
pub const WHAT_DIFFERED: &str = "What differed";
/// And wants to do.
pub const LOG_NEXT_TIME: &str = "Next time";
/// Where that note is seen again.
pub const NEXT_TIME_HELP: &str = "Shown when the piece is opened again, and printed on its make sheet.";
/// Chooses a photo.
pub const ADD_PHOTO: &str = "Add a photo";
/// Chooses another one.
pub const ANOTHER_PHOTO: &str = "Another photo";
/// Under a photo.
pub const FIRED: &str = "fired";
/// Under the picture beside it.
pub const FORECAST_PICTURE: &str = "forecast";
/// Takes something over from a firing.
pub const TAKE_IT_OVER: &str = "Take it over";
/// It was.
pub const TAKEN: &str = "Taken over: programs and prices reckon with it.";
/// The time at which it could be opened was.
pub const COOLING_TAKEN: &str = "Taken over: your kiln cools by it now.";
/// No cooling is like that.
pub const NO_COOLING: &str = "No kiln like yours cools like that. Look the time up again.";
/// What is asked and read in the table, by name.
pub const OUTCOMES: [&str; 9] =
    ["Top", "Hold", "Across", "High", "Powder used", "Energy", "Open at", "Whole", "Broken"];
/// The day of a firing.
pub const FIRED_ON: &str = "Fired on";
/// A day that cannot be.
pub const NOT_A_DAY: &str = "Write a day as 2026-11-30.";
/// Lays a note aside.
pub const NEXT_TIME_SAID: &str = "Next time:";

/// The orders on the shelf.
pub const SHELF_ORDERS: &str = "Orders";
/// The maker's pieces.
pub const PIECES: &str = "Pieces";
/// Kilns there are.
pub const KILNS: &str = "Kilns";
/// Molds there are.
pub const MOLDS: &str = "Molds";
/// Writes a jar down.
pub const ADD_JAR: &str = "Add a jar";
/// Writes sheets down.
pub const ADD_SHEETS: &str = "Add sheets";
/// The file of something that cannot be read.
pub const DAMAGED_FILE: &str = "damaged.json";
/// There are none.
pub const NO_ORDERS_YET: &str =
    "Nothing ordered yet. Open the ticket and order some, or drop an order file here.";
/// What is on hand.
pub const SHEETS_AND_JARS: &str = "Sheets and jars";
/// Nothing of it is written down.
pub const NOTHING_ON_HAND: &str =
    "Nothing written down. Orders reckon then as if everything were to be bought.";
/// Writes an order as a file.
pub const SAVE_ORDER: &str = "Save as a file";
/// What follows the words that jump, to those who do not see them.
pub const JUMP: &str = "On the shelf";

/// A word that jumps, with how many there are.
pub fn jump(word: &str, count: usize) -> String {
    if count == 0 { word.into() } else { format!("{word} {count}") }
}

/// A day: `30 Nov`, or `30 Nov 2025` of another year than today's.
pub fn log_date(day: Date, today: Date) -> String {
    let month = &dates::month_name(day)[..3];
    match day.year() == today.year() {
        true => format!("{month} {}", day.day()),
        false => format!("{month} {}, {}", day.day(), day.year()),
    }
}

/// Which firing of how many pieces an entry is about: `7 pieces, full fuse`.
pub fn what_fired(entry: &LogEntry) -> String {
    let pieces = entry.asked.sound.map_or_else(String::new, |pieces| format!("{}, ", pieces_of(pieces)));
    format!("{pieces}{}", entry.firing.name())
}

/// The same at length, under the name of an entry.
pub fn fired_for(entry: &LogEntry, today: Date) -> String {
    let order = if entry.order.is_empty() { String::new() } else { format!(", for {}", named(&entry.order)) };
    let seeds: Vec<String> = entry.seeds().map(|seed| seed.to_string()).collect();
    let s = if seeds.len() == 1 { "" } else { "s" };
    let (what, day) = (what_fired(entry), log_date(entry.date, today));
    capital(&format!("{what}, {day}, seed{s} {}{order}", super::listed(&seeds)))
}

/// Writes a load up, counted from 0, of so many.
pub fn log_load(at: usize, of: usize) -> String {
    if of == 1 { LOG_THIS.into() } else { format!("Log load {}", at + 1) }
}

/// How many entries there are, or are found.
pub fn firings_found(found: usize, all: usize, search: &str) -> String {
    if search.is_empty() { format!("{LOG} {all}") } else { format!("{LOG}, {found} of {all} with {search}") }
}

/// What a kiln took, and what was reckoned.
pub fn took(was: f64, asked: f64) -> String {
    format!("Your kiln took {} kWh where {} was reckoned.", fixed(was, 1), fixed(asked, 1))
}

/// The same where the kiln is a guess.
pub fn took_guessed(was: f64, asked: f64) -> String {
    format!(
        "A guessed kiln was reckoned to take {} kWh, and yours took {}. Describe your own on the shelf to take it over.",
        fixed(asked, 1),
        fixed(was, 1)
    )
}

/// How much later than reckoned a kiln could be opened, minutes, or earlier below 0.
pub fn opened_later(minutes: f64) -> String {
    let (time, late) =
        (super::hours_long(minutes.abs() / 60.0), if minutes < 0.0 { "earlier" } else { "later" });
    format!("Your kiln could be opened {time} {late} than reckoned.")
}

/// The same where the kiln is a guess.
pub fn opened_later_guessed(minutes: f64) -> String {
    format!(
        "{} A guessed kiln was reckoned with. Describe your own on the shelf to take it over.",
        opened_later(minutes)
    )
}

/// How many broke, and what prices reckon with.
pub fn broke(broken: u32, all: u32, reckoned: f64) -> String {
    format!(
        "In all firings written up {broken} of {all} broke: {} %. Your prices reckon with {} %.",
        plain((f64::from(broken) / f64::from(all) * 100.0).round()),
        plain((reckoned * 100.0).round())
    )
}

/// When an order is due, and how far that is.
pub fn due_in(due: Date, days: i32, today: Date) -> String {
    let when = match days {
        0 => "today".into(),
        1 => "tomorrow".into(),
        -1 => "yesterday: late".into(),
        2.. => format!("in {days} days"),
        _ => format!("{} days ago: late", -days),
    };
    format!("due {}, {when}", log_date(due, today))
}

/// An order in short: who, how many, when.
pub fn order_line(order: &Order, due: Option<String>) -> String {
    let count: u32 = order.lines.iter().map(|line| line.count).sum();
    let customer = (!order.customer.trim().is_empty()).then(|| named(&order.customer));
    let all = [customer, Some(pieces_of(count)), due];
    all.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// What an order is called.
pub fn order_name(order: &Order) -> String {
    let first = order.lines.first().map_or("", |line| &line.recipe.title);
    named(if order.title.trim().is_empty() { first } else { &order.title })
}

/// Sheets on hand, by their place.
pub fn sheets_line_of(glasses: &Glasses, stock: &Stock, at: usize) -> String {
    let Some(Sheets { glass: id, thickness, wide, deep, .. }) = stock.sheets.get(at) else {
        return String::new();
    };
    format!("{}, {thickness}, sheets of {wide} by {deep}", glasses.name(id))
}

/// A jar on hand, by its place.
pub fn jar_line_of(glasses: &Glasses, stock: &Stock, at: usize) -> String {
    stock.jars.get(at).map(|jar| format!("{}, powder", glasses.name(&jar.glass))).unwrap_or_default()
}

/// Something that is kept and cannot be read.
pub fn damaged_order() -> &'static str {
    "An order is damaged and cannot be read. It stays."
}

/// The same of an entry of the log.
pub fn damaged_entry() -> &'static str {
    "A firing of the log is damaged and cannot be read. It stays."
}

/// The same of the bench.
pub fn damaged_bench() -> &'static str {
    "Sheets, jars and prices are damaged and cannot be read. They stay beside what you write now."
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_said_from_today() {
        let day = |text: &str| text.parse::<Date>().unwrap();
        let said = |days| due_in(day("2026-12-18"), days, day("2026-11-30"));
        assert_eq!(said(18), "due Dec 18, in 18 days");
        assert_eq!(said(1), "due Dec 18, tomorrow");
        assert_eq!(said(-3), "due Dec 18, 3 days ago: late");
        assert_eq!(log_date(day("2025-01-02"), day("2026-11-30")), "Jan 2, 2025");
    }

    #[test]
    fn breakage_is_said_in_whole_percent() {
        assert_eq!(
            broke(3, 12, 0.08),
            "In all firings written up 3 of 12 broke: 25 %. Your prices reckon with 8 %."
        );
    }
}
