//! Keeping pieces, the shelf, and the back-up, in words.

use super::{glass, pieces_of};
use crate::store::Fault;
use dappledome::recipe::Recipe;
use dappledome::recipe::limits::MOST_TITLE;
use js_sys::Date;
use wasm_bindgen::JsValue;

/// Looks for names of pieces and of glasses.
pub const SEARCH: &str = "Search names and glasses";
/// Nothing is kept yet.
pub const NO_PIECES: &str = "No pieces yet. Every change is kept here.";
/// The shelf while it is being read.
pub const READING: &str = "Looking at the shelf…";
/// Puts the shelf aside.
pub const CLOSE_SHELF: &str = "Close the shelf";
/// The recipes that come with the program.
pub const STARTS: &str = "Invented, to start from";
/// Takes a piece off the shelf.
pub const TAKE_AWAY: &str = "Take away";
/// Puts it back.
pub const PUT_BACK: &str = "Put back";
/// A piece without a name.
pub const UNNAMED: &str = "Unnamed";
/// Under a piece that cannot be read.
pub const DAMAGED: &str = "damaged";
/// Writes what is left of it as a file.
pub const SAVE_WHAT_IS_THERE: &str = "Save what is there";
/// Everything into one file.
pub const BACK_UP_ALL: &str = "Back up everything";
/// And back again.
pub const BRING_BACK_UP: &str = "Bring a back-up in";
/// The same in short, beside a fault.
pub const BACK_UP: &str = "Back up";
/// The same, where the browser has no more room.
pub const BACK_UP_TO_FILE: &str = "Back up to a file";
/// Puts the other tab's piece on the table.
pub const TAKE_THAT_ONE: &str = "Take that one";
/// Makes this tab's piece another one.
pub const KEEP_BOTH: &str = "Keep both";
/// Lays the question on the table again.
pub const CHOOSE: &str = "Choose";
/// What the conflict means.
pub const CONFLICT_HELP: &str = "Nothing is overwritten until you choose.";
/// Said of a piece that is on the table but no longer on the shelf.
pub const AWAY: &str = "Taken off the shelf. Kept again at the next change.";
/// Said when another tab's change was taken over.
pub const TAKEN_OVER: &str = "Changed in another tab, and taken over here.";
/// A step of the history: what another tab did.
pub const OTHER_TAB: &str = "the other tab's change";
/// While the first change is on its way.
pub const NOT_YET: &str = "Not saved yet";
/// The keys of the shelf.
pub const SHELF_KEYS: &str =
    "Arrows move, Enter takes a piece up, Delete takes it away, Tab goes to its words.";

/// When a piece was saved, under its name.
pub fn saved_at(time: f64) -> String {
    format!("Saved on this machine at {}", clock(time))
}

/// Why a piece is not kept.
pub fn not_kept(fault: Fault) -> &'static str {
    match fault {
        Fault::Full => "Not saved: this browser is full.",
        Fault::Forbidden => "Not kept: this browser forbids storage.",
        Fault::Newer => "Not kept: a newer Dappledome was here. Load the page again.",
        Fault::Blocked => "Not kept yet: close the other tabs of Dappledome.",
    }
}

/// Two tabs, one piece.
pub fn changed_elsewhere(time: f64) -> String {
    format!("Changed in another tab at {}.", clock(time))
}

/// The names of all glasses of a recipe, each once.
pub fn glasses_of(recipe: &Recipe) -> String {
    let sheets = recipe.blank.sheets.iter().map(|sheet| &sheet.glass);
    let parts = recipe.coats.iter().flat_map(|coat| &coat.powder);
    let accents = recipe.accents.iter().flat_map(|accents| &accents.glasses);
    let mut names: Vec<String> = Vec::new();
    for name in sheets.chain(parts.chain(accents).map(|part| &part.glass)).map(|id| glass(id)) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names.join(" ")
}

/// The name of a piece, or what it is called without one.
pub fn named(title: &str) -> &str {
    if title.trim().is_empty() { UNNAMED } else { title }
}

/// The name of the next piece beside those that are there: `Hedgerow (2)`.
pub fn numbered(title: &str, taken: impl Fn(&str) -> bool) -> String {
    let bare = match title.rsplit_once(" (") {
        Some((bare, rest)) if rest.strip_suffix(')').is_some_and(|n| n.parse::<u32>().is_ok()) => bare,
        _ => title,
    };
    (2u32..).map(|n| ended(bare, &format!(" ({n})"))).find(|name| !taken(name)).unwrap_or_default()
}

/// The name of a piece that came from a back-up and met another of its number.
pub fn from_back_up(title: &str) -> String {
    ended(title, " (from back-up)")
}

/// A name with an end, no longer than a name may be.
fn ended(title: &str, end: &str) -> String {
    let room = MOST_TITLE - end.chars().count();
    title.chars().take(room).collect::<String>() + end
}

/// The day of a change: `today 10:42`, `yesterday 10:42`, `Nov 3`, `Nov 3, 2025`.
pub fn day(time: f64, now: f64) -> String {
    const MONTHS: [&str; 12] =
        ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
    let date = |time: f64| Date::new(&JsValue::from_f64(time));
    let (then, today) = (date(time), date(now));
    let same = |a: &Date, b: &Date| {
        (a.get_full_year(), a.get_month(), a.get_date()) == (b.get_full_year(), b.get_month(), b.get_date())
    };
    if same(&then, &today) {
        return format!("today {}", clock(time));
    }
    if same(&then, &date(now - 86_400_000.0)) {
        return format!("yesterday {}", clock(time));
    }
    let month = MONTHS[then.get_month() as usize % 12];
    if then.get_full_year() == today.get_full_year() {
        format!("{month} {}", then.get_date())
    } else {
        format!("{month} {}, {}", then.get_date(), then.get_full_year())
    }
}

fn clock(time: f64) -> String {
    let date = Date::new(&JsValue::from_f64(time));
    format!("{:02}:{:02}", date.get_hours(), date.get_minutes())
}

/// How many pieces the shelf shows.
pub fn found(count: usize, searched: bool) -> String {
    match (count, searched) {
        (0, true) => "No piece has these words.".into(),
        (_, true) => format!("{} found", pieces_of(count as u32)),
        (_, false) => format!("{} on the shelf", pieces_of(count as u32)),
    }
}

/// A piece was taken away.
pub fn taken_away(title: &str) -> String {
    format!("{} taken away.", named(title))
}

/// A piece was put back.
pub fn back_again(title: &str) -> String {
    format!("{} is back.", named(title))
}

/// A word under a piece, to those who do not see under which.
pub fn done_to(word: &str, title: &str) -> String {
    format!("{word}: {title}")
}

/// A piece was copied.
pub fn copied_as(title: &str) -> String {
    format!("Copied as {title}.")
}

/// A piece that cannot be read.
pub fn cannot_be_read(title: &str) -> String {
    format!("{} is damaged and cannot be read. It stays on the shelf.", named(title))
}

/// The name of a back-up.
pub fn back_up_name(now: f64) -> String {
    let date = Date::new(&JsValue::from_f64(now));
    format!("dappledome-{}-{:02}-{:02}.json", date.get_full_year(), date.get_month() + 1, date.get_date())
}

/// What came of a back-up.
pub fn backed_up(name: &str, count: usize, saved: bool) -> String {
    if saved {
        format!("{} saved as {name}.", pieces_of(count as u32))
    } else {
        format!("This browser did not save {name}.")
    }
}

/// What came of bringing a back-up in. Nothing is said of what there is none of.
pub fn brought_in(new: usize, known: usize, unreadable: usize, unkept: Option<Fault>) -> String {
    let mut said = vec![format!("{} brought in", pieces_of(new as u32))];
    if known > 0 {
        said.push(format!("{known} {} here already", if known == 1 { "was" } else { "were" }));
    }
    if unreadable > 0 {
        said.push(format!("{unreadable} could not be read"));
    }
    let said = said.join(", ") + ".";
    unkept.map_or_else(|| said.clone(), |fault| format!("{said} {}", not_kept(fault)))
}
