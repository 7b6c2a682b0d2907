//! Keeping pieces, the shelf, and the back-up, in words.

use super::recipe::pieces_of;
use super::text::{listed, plain};
use crate::model::faults::StorageFault;
use crate::model::local_time::LocalTime;
use crate::model::records::Kinds;
use dappledome::base::seed::Seed;
use dappledome::recipe::Recipe;
use dappledome::recipe::limits::MOST_TITLE;

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
pub const BRING_BACK_UP: &str = "Bring in a back-up";
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
pub const AWAY: &str = "Taken away from the shelf. Kept again at the next change.";
/// Said when another tab's change was taken over.
pub const TAKEN_OVER: &str = "Changed in another tab, and taken over here.";
/// A step of the history: what another tab did.
pub const OTHER_TAB: &str = "the other tab's change";
/// While a change is on its way.
pub const SAVING: &str = "Saving";
/// The keys of the shelf.
pub const SHELF_KEYS: &str =
    "Arrows move, Enter takes a piece up, Delete takes it away, Tab goes to its words.";

/// Two tabs have written on the bench, or a back-up brought another one.
pub const BENCH_ELSEWHERE: &str = "There are other sheets, jars, hours and prices, from another tab or a file. Both are kept until you close the page.";
/// Takes the other ones instead.
pub const TAKE_OTHERS: &str = "Take those instead";

/// When a piece was saved, under its name.
pub fn saved_at(time: &LocalTime) -> String {
    format!("Saved in this browser at {}", clock(time))
}

/// Why a piece is not kept.
pub fn not_kept(fault: StorageFault) -> &'static str {
    match fault {
        StorageFault::Full => "Not saved: this browser is full.",
        StorageFault::Disk => "Not saved: the disk is full.",
        StorageFault::Broken => "Not saved: the browser's storage does not answer.",
        StorageFault::Forbidden => "Not saved: this browser forbids storage.",
        StorageFault::Newer => "Not saved: a newer Dappledome was here. Load the page again.",
        StorageFault::Blocked => "Not saved yet: close the other tabs of Dappledome.",
    }
}

/// Two tabs, one piece.
pub fn changed_elsewhere(time: &LocalTime) -> String {
    format!("Changed in another tab at {}.", clock(time))
}

/// The names of all glasses of a recipe, each once.
pub fn glasses_of(recipe: &Recipe) -> String {
    let mut names: Vec<String> = Vec::new();
    for name in recipe.glass_ids().map(|id| recipe.glasses.name(id)) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names.join(" ")
}

/// The name of a piece as it is shown, or what it is called without one.
pub fn named(title: &str) -> String {
    let shown = plain(title);
    if shown.trim().is_empty() { UNNAMED.into() } else { shown }
}

/// Orders, or entries of the log, that two tabs have changed.
pub fn both_kept(title: &str) -> String {
    format!("{} was changed in another tab too. Both are kept.", named(title))
}

/// Something was taken away here that another tab has changed.
pub fn changed_and_stays(title: &str) -> String {
    format!("{} was changed in another tab, so it stays.", named(title))
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

/// A piece whose day is not known.
const NO_DAY: &str = "day not known";

/// The day of a change: `today 10:42`, `yesterday 10:42`, `Nov 3`, `Nov 3, 2025`.
pub fn day(time: &LocalTime, today: &LocalTime, yesterday: &LocalTime) -> String {
    const MONTHS: [&str; 12] =
        ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
    if time.same_day(today) {
        return format!("today {}", clock(time));
    }
    if time.same_day(yesterday) {
        return format!("yesterday {}", clock(time));
    }
    let month = MONTHS[(time.month as usize + 11) % 12];
    if !(1971..=9999).contains(&time.year) {
        return NO_DAY.into();
    }
    if time.year == today.year {
        format!("{month} {}", time.day)
    } else {
        format!("{month} {}, {}", time.day, time.year)
    }
}

fn clock(time: &LocalTime) -> String {
    format!("{:02}:{:02}", time.hour, time.minute)
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
    format!("{word}: {}", named(title))
}

/// A piece was copied.
pub fn copied_as(title: &str, seed: Seed) -> String {
    format!("Copied as {}, with fresh seeds from {seed} on and no shortlist.", named(title))
}

/// A piece that cannot be read.
pub fn cannot_be_read(title: &str) -> String {
    format!("{} is damaged and cannot be read. It stays on the shelf.", named(title))
}

/// Pieces, orders or entries of the log that were kept here are not here any more.
pub fn lost(count: usize) -> String {
    if count == 1 {
        return "1 piece, order or firing that was kept in this browser cannot be found.".into();
    }
    format!("{count} pieces, orders or firings that were kept in this browser cannot be found.")
}

/// What that means, and what to do.
pub const LOST_MORE: &str = "The browser has lost or cleared what it kept. If you have a back-up, bring it in: it overwrites nothing.";

/// The name of a back-up.
pub fn back_up_name(now: &LocalTime) -> String {
    format!("dappledome-{}-{:02}-{:02}.json", now.year, now.month, now.day)
}

/// So many pieces, and orders and firings if there are any.
fn counted(count: Kinds) -> String {
    let mut said = vec![pieces_of(count.pieces as u32)];
    for (count, one, many) in [(count.orders, "1 order", "orders"), (count.entries, "1 firing", "firings")] {
        match count {
            0 => {}
            1 => said.push(one.into()),
            _ => said.push(format!("{count} {many}")),
        }
    }
    if count.benches > 0 {
        said.push("sheets, jars and prices".into());
    }
    listed(&said)
}

/// What came of a back-up.
pub fn backed_up(name: &str, count: Kinds, saved: bool, all: bool) -> String {
    if !saved {
        return format!("This browser did not save {name}.");
    }
    let rest = if all { "" } else { " Others may be missing: they cannot be read now. Back up again later." };
    format!("{} saved as {name}.{rest}", counted(count))
}

/// What came of bringing a back-up in. Nothing is said of what there is none of.
pub fn brought_in(new: Kinds, known: usize, unreadable: usize, unkept: Option<StorageFault>) -> String {
    let mut said = vec![format!("{} brought in", counted(new))];
    if known > 0 {
        said.push(format!("{known} {} here already", if known == 1 { "was" } else { "were" }));
    }
    if unreadable > 0 {
        said.push(format!("{unreadable} could not be read"));
    }
    let said = said.join(", ") + ".";
    unkept.map_or_else(|| said.clone(), |fault| format!("{said} {}", not_kept(fault)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(year: u32, month: u32, day: u32) -> LocalTime {
        LocalTime { year, month, day, hour: 9, minute: 5 }
    }

    #[test]
    fn a_day_is_said_as_shortly_as_can_be() {
        let (today, yesterday) = (at(2026, 1, 1), at(2025, 12, 31));
        let said = |time| day(&time, &today, &yesterday);
        assert_eq!(said(at(2026, 1, 1)), "today 09:05");
        assert_eq!(said(at(2025, 12, 31)), "yesterday 09:05");
        assert_eq!(said(at(2025, 12, 30)), "Dec 30, 2025");
        assert_eq!(day(&at(2026, 11, 3), &at(2026, 11, 27), &at(2026, 11, 26)), "Nov 3");
        for year in [0, 1970, 300_000] {
            assert_eq!(said(at(year, 1, 1)), NO_DAY, "{year}");
        }
    }

    #[test]
    fn a_second_piece_of_a_name_has_the_next_number() {
        let taken = ["Hedgerow (2)", "Hedgerow (3)"];
        assert_eq!(numbered("Hedgerow", |name| taken.contains(&name)), "Hedgerow (4)");
        assert_eq!(numbered("Hedgerow (2)", |_| false), "Hedgerow (2)");
        assert_eq!(numbered("Hedgerow (big)", |_| false), "Hedgerow (big) (2)");
        let long = "x".repeat(MOST_TITLE);
        assert_eq!(numbered(&long, |_| false).chars().count(), MOST_TITLE);
    }

    #[test]
    fn nothing_is_said_of_what_there_is_none_of() {
        let pieces = |pieces| Kinds { pieces, ..Kinds::default() };
        assert_eq!(brought_in(pieces(1), 0, 0, None), "1 piece brought in.");
        let all = Kinds { orders: 1, entries: 2, ..pieces(3) };
        assert_eq!(brought_in(all, 0, 0, None), "3 pieces, 1 order and 2 firings brought in.");
        let said = brought_in(pieces(2), 1, 3, Some(StorageFault::Full));
        assert!(said.starts_with("2 pieces brought in, 1 was here already, 3 could not be read."), "{said}");
        assert!(said.ends_with(not_kept(StorageFault::Full)));
    }
}
