//! An order in words: what it takes, when it is done, and what it costs.

use super::firings::firing;
use super::recipe::{discs_of, grams, pieces_of};
use super::text::lower;
use dappledome::base::seed::Seed;
use dappledome::base::units::{fixed, plain};
use dappledome::orders::dates;
use dappledome::orders::days::{Change, Days, Doing, Earlier, Pace, What};
use dappledome::orders::model::Date;
use dappledome::orders::weigh::PowderNeed;

/// The area.
pub const ORDER_AREA: &str = "Order";
/// Lays it aside.
pub const CLOSE_ORDER: &str = "Close the order";
/// Orders what the ticket is for.
pub const ORDER_THESE: &str = "Order these";
/// Its name.
pub const ORDER_NAME: &str = "Name of the order";
/// Who has ordered it.
pub const ORDERED_BY: &str = "Ordered by";
/// The day by which it is to be ready.
pub const DUE: &str = "Due";
/// There is none.
pub const NOTHING_ORDERED: &str =
    "Nothing ordered yet. Open the ticket at the head of the sheet, write how many, and press Order these.";
/// Heads of two columns.
pub const ON_HAND: &str = "on hand";
/// What is short.
pub const TO_BUY: &str = "to buy";
/// Nothing is short.
pub const ENOUGH: &str = "enough";
/// The bars of the days.
pub const DAYS: &str = "Days";
/// How the bars are moved by keys.
pub const DAYS_KEYS: &str =
    "Arrows walk. Space lifts, left and right move by a day, Space sets down, Escape lets go.";
/// It is being worked out.
pub const WORKING_OUT: &str = "Working it out";
/// The layouts of a line.
pub const PIECES_OF_ORDER: &str = "Pieces";
/// A spare piece.
pub const SPARE: &str = "spare";
/// Picks layouts.
pub const AND_THE_NEAREST: &str = "The first and those nearest to it";
/// Picks layouts otherwise.
pub const DIFFERENT_LAYOUTS: &str = "As different as can be";
/// Takes another layout in place of one.
pub const SWAP_ONE: &str = "Swap one";
/// A layout by hand.
pub const ITS_SEED: &str = "its seed";
/// Pieces that are wanted.
pub const TO_SELL: &str = "to sell";
/// Spare ones.
pub const SPARE_PER_TEN: &str = "spare per ten of all";
/// What one costs.
pub const WHAT_ONE_COSTS: &str = "What one costs";
/// No prices.
pub const NO_PRICES: &str = "No prices yet.";
/// They are not needed.
pub const NONE_NEEDED: &str = "Grams, cuts and days need none.";
/// Begins with proposals.
pub const WRITE_YOURS: &str = "Write yours";
/// No more prices.
pub const WITHOUT_PRICES: &str = "Without prices";
/// They are proposals.
pub const PRICES_ARE_YOURS: &str =
    "Proposals to be written over. They stay on this machine, in no link and on no paper for a customer.";
/// The cut list.
pub const CUT: &str = "Cut";
/// Where the discs lie.
pub const CENTERS: &str = "Centers";
/// The loads.
pub const KILN_LOADS: &str = "Kiln loads";
/// Weighing out.
pub const WEIGH: &str = "Weigh";
/// A file of it.
pub const AS_A_TABLE_FILE: &str = "As a table file";
/// There is more in the jar than was written down.
pub const I_HAVE_MORE: &str = "I have more";
/// No longer before the other orders.
pub const IN_ITS_TURN: &str = "In its turn again";
/// The list of what to buy.
pub const LIST_TO_BUY: &str = "List to buy";
/// Nothing to buy.
pub const NOTHING_TO_BUY: &str = "Nothing: all of it is on hand.";
/// The maker's hours.
pub const YOUR_HOURS: &str = "Your days and hours";
/// Hand work on a day.
pub const HAND_WORK_A_DAY: &str = "Hand work on a day";
/// Whether the kiln is fired by day.
pub const FIRES_BY_DAY: &str = "Fires by day as well";
/// No chosen days.
pub const LET_GO_OF_DAYS: &str = "As early as can be";
/// Leaves the order as it is.
pub const KEEP_AS_ORDERED: &str = "Keep as ordered";
/// To the shelf with kiln and molds.
pub const DESCRIBE_YOURS: &str = "Describe yours";
/// Foot of the order.
pub const COSTS_YOU: &str = "Costs you, each";
/// What is asked.
pub const WHOLESALE: &str = "Wholesale";
/// What is asked by the piece.
pub const RETAIL: &str = "Retail";
/// Everything.
pub const THIS_ORDER: &str = "This order";
/// With tax.
pub const WITH_TAX: &str = "With tax";
/// Papers.
pub const QUOTE: &str = "Quote";
/// Papers.
pub const SIFT_MAP: &str = "Sift map";
/// Papers.
pub const LABELS: &str = "Label, care card";
/// Papers.
pub const MAKE_SHEET: &str = "Make sheet";

/// What was done, for *Undo*.
pub const DID_LAYOUTS: &str = "layouts";
/// What was done, for *Undo*.
pub const DID_COUNT: &str = "number of pieces";
/// What was done, for *Undo*.
pub const DID_ORDER: &str = "order";
/// What was done, for *Undo*.
pub const DID_DAYS: &str = "days";
/// What was done, for *Undo*.
pub const DID_PRICES: &str = "prices";
/// What was done, for *Undo*.
pub const DID_STOCK: &str = "stock";
/// What was done, for *Undo*.
pub const DID_HOURS: &str = "hours";
/// What was done, for *Undo*.
pub const DID_RECIPE: &str = "recipe of the order";

/// Short names of the days of the week.
pub const WEEKDAYS: [&str; 7] = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];

/// Orders what the customer has chosen.
pub fn order_like(pieces: u32, letters: &[String]) -> String {
    format!("Order {pieces} like {}", super::listed(letters))
}

/// A day as it is said: 18 December.
pub fn long_day(date: Date) -> String {
    format!("{} {}", date.day(), dates::month_name(date))
}

/// Head of a day's column.
pub fn day_head(date: Date) -> String {
    format!("{} {}", &dates::weekday_name(date)[..1], date.day())
}

/// A number of things.
pub fn counted(count: i64, thing: &str) -> String {
    format!("{count} {thing}{}", if count == 1 { "" } else { "s" })
}

/// What is done.
pub fn what(what: What) -> String {
    match what {
        What::Cut => "Cut".into(),
        What::Sift => "Sift and dab".into(),
        What::Fire(of) => firing(of),
        What::Mount => "Mount".into(),
    }
}

/// Something that is done on a day.
pub fn doing(doing: &Doing) -> String {
    let until = doing.fires.map(|(at, hours)| format!(", on at {}, {} h", clock(at), fixed(hours, 1)));
    let (what, pieces) = (what(doing.what), pieces_of(doing.pieces));
    format!("{}: {what}, {pieces}{}", dates::short(doing.day), until.unwrap_or_default())
}

/// An hour on the clock.
fn clock(hours: f64) -> String {
    let minutes = (hours * 60.0).round() as u32;
    format!("{:02}:{:02}", minutes / 60 % 24, minutes % 60)
}

/// A step was moved, and what comes of it.
pub fn step_moved(step: What, to: Option<Date>, ready: Date) -> String {
    let to = to.map_or_else(String::new, |to| format!(" to {}", dates::short(to)));
    format!("{} moved{to}. Ready {}.", what(step), long_day(ready))
}

/// A lifted bar.
pub fn lifted(step: What, to: Date) -> String {
    format!("{} lifted: {}", what(step), dates::short(to))
}

/// What sets the pace.
pub fn pace(pace: Pace, nights: usize) -> String {
    match pace {
        Pace::Kiln(_) => format!("The kiln sets the pace: {}.", counted(nights as i64, "firing")),
        Pace::Hands(_) => "Hand work sets the pace.".into(),
        Pace::Neither => "Kiln and hand work keep pace.".into(),
    }
}

/// When it is ready.
pub fn ready(days: &Days) -> String {
    let hand = match days.in_hand {
        Some(late) if late < 0 => format!(", {} late", counted(-late, "day")),
        Some(spare) => format!(", {} in hand", counted(spare, "day")),
        None => String::new(),
    };
    format!("Ready {}{hand}.", dates::short(days.ready))
}

/// Hand work in all.
pub fn hand_work(minutes: f64) -> String {
    format!("Hand work takes {} in all.", super::hours_long(minutes / 60.0))
}

/// What makes it earlier, and by how much.
pub fn earlier(earlier: &Earlier) -> String {
    format!("{}: ready {}", change(earlier.change), dates::short(earlier.ready))
}

fn change(change: Change) -> &'static str {
    change.words()
}

/// Makes a day the due date.
pub fn due_on(date: Date) -> String {
    format!("Due {}", long_day(date))
}

/// What lies beyond the days that are drawn.
pub fn beyond(last: Date, later: usize, ready: Date) -> String {
    let steps = counted(later as i64, "step");
    format!("Days are drawn to {}: {steps} later than that, ready {}.", dates::day(last), dates::day(ready))
}

/// Another order beside this one.
pub fn beside(title: &str, ready: Date) -> String {
    format!("Beside it, {}: ready {}.", super::text::plain(title), dates::short(ready))
}

/// Grams that are short.
pub fn short(short: f64) -> String {
    format!("{} short", grams(short))
}

/// Sheets to buy.
pub fn sheets_to_buy(count: u32, of: &str) -> String {
    format!("{count} {}", lower(of))
}

/// Loads of a firing.
pub fn loads(count: usize) -> String {
    counted(count as i64, "load")
}

/// How many a load holds.
pub fn holds(count: u32, molds: bool) -> String {
    if molds { counted(count.into(), "mold") } else { format!("holds {count}") }
}

/// Energy.
pub fn kwh(kwh: f64) -> String {
    format!("{} kWh", fixed(kwh, 1))
}

/// A share.
pub fn percent(share: f64) -> String {
    format!("{} %", fixed(share * 100.0, 0))
}

/// How the line's count is said.
pub fn made_and_sold(made: u32, sold: u32) -> String {
    format!("{made} made, {sold} sold")
}

/// A piece of the order.
pub fn ordered_piece(seed: Seed, spare: bool) -> String {
    if spare { format!("Seed {}, {SPARE}", seed.0) } else { format!("Seed {}", seed.0) }
}

/// A recipe was changed after it was ordered.
pub fn has_changed(title: &str) -> String {
    format!("{} has changed since.", super::text::plain(title))
}

/// What is cut of one glass.
pub fn cut_of(of: &str, thickness: &str, discs: usize, waste: f64) -> String {
    format!("{of}, {thickness}: {}, {} left over", discs_of(discs as u32), percent(waste))
}

/// A sheet of the cut list.
pub fn sheet(wide: f64, deep: f64, alike: usize, bought: bool) -> String {
    let buy = if bought { ", to buy" } else { "" };
    format!("{} of {} × {}{buy}", counted(alike as i64, "sheet"), plain(wide), plain(deep))
}

/// A kiln load.
pub fn load_words(of: What, loads: &[u32]) -> String {
    let loads: Vec<String> = loads.iter().map(u32::to_string).collect();
    format!("{}, {}", what(of), super::listed(&loads))
}

/// A powder runs out.
pub fn runs_out(of: &str, day: Option<Date>) -> String {
    match day {
        Some(date) => format!("{of} runs out on {}.", dates::short(date)),
        None => format!("{of} runs out."),
    }
}

/// What to do about it.
pub fn mix_both(there: f64, needed: f64) -> String {
    format!(
        "{} in the jar, {} to sift. A new jar may fire to another shade: sift one tile of it first, or mix both before you begin.",
        grams(there),
        grams(needed)
    )
}

/// What of a powder is on the list to buy: what is needed, and as how much it is bought.
pub fn powder_to_buy(need: &PowderNeed) -> String {
    let cost = need.cost().map_or_else(String::new, |cost| format!(", {}", super::money(cost)));
    format!("{}: buy {} g{cost}", grams(need.to_buy.0), plain(need.bought().0))
}

/// The same where the powder runs out.
pub fn on_the_list(need: &PowderNeed) -> String {
    format!("On the list to buy: {} g.", plain(need.bought().0))
}

/// As many as the jars suffice for.
pub fn sift_discs(count: u32) -> String {
    format!("Sift {}", discs_of(count))
}

/// What has no price.
pub fn no_price(missing: &[String]) -> String {
    format!("No price yet, since these have none: {}.", missing.join("; "))
}

/// When a fair is paid for.
pub fn fair_pays(pieces: Option<f64>) -> String {
    pieces.map_or_else(
        || "At a fair: no number of pieces pays for it at this price.".into(),
        |pieces| format!("At a fair: {} sold pay for it.", pieces_of(pieces.ceil() as u32)),
    )
}

/// Name of a file of what to weigh and buy.
pub fn table_file(title: &str) -> String {
    super::file_name(title, "csv")
}
