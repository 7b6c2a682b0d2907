//! What can be wrong with an order: every fault at once, and the plans of its recipes if there is none.

use super::limits::{self, MOST_LINES, MOST_NAME, MOST_PIECES, MOST_STOCK};
use super::model::{Cutting, Gain, Line, Order, OwnedMold, Prices, Stock, VERSION, Work};
use crate::base::notice::{Notice, Step};
use crate::glass::glasses::Glasses;
use crate::kiln::checks as kiln_checks;
use crate::recipe::check::Check;
use crate::recipe::limits as recipe_limits;
use crate::recipe::plan::{Plan, Planned};
use jiff::civil::Date;

/// Where the faults of an order belong.
const STEP: Step = Step::Ticket;

/// An order that can be made: the plan of each line, and what the maker should know.
#[derive(Clone, Debug)]
pub struct Checked {
    /// The plan of each line, in order.
    pub plans: Vec<Plan>,
    /// Risks and notes of the recipes.
    pub notices: Vec<Notice>,
}

/// Checks an order from end to end.
///
/// # Errors
/// Every fault of the order, of its kiln and of its recipes, if there is one.
pub fn check(order: &Order) -> Result<Checked, Vec<Notice>> {
    let mut check = Check::default();
    head(&mut check, order);
    lines(&mut check, &order.lines);
    all_pieces(&mut check, order);
    progress(&mut check, order);
    molds(&mut check, order.molds.as_deref().unwrap_or_default());
    all_of_bench(
        &mut check,
        &order.glasses(),
        &order.stock,
        order.cutting,
        &order.work,
        order.prices.as_ref(),
    );
    let kiln = order.kiln.as_ref().map(kiln_checks::check).unwrap_or_default();
    let (plans, of_recipes) = plans(&order.lines);
    let mut faults = match check.finish() {
        Ok(notices) | Err(notices) => notices,
    };
    faults.extend(kiln);
    match plans {
        Some(plans) if faults.is_empty() => Ok(Checked { plans, notices: of_recipes }),
        Some(_) => Err(faults),
        None => Err([faults, of_recipes].concat()),
    }
}

/// Every fault of what is the maker's.
pub fn bench(
    glasses: &Glasses,
    stock: &Stock,
    cutting: Cutting,
    work: &Work,
    prices: Option<&Prices>,
) -> Vec<Notice> {
    let mut check = Check::default();
    all_of_bench(&mut check, glasses, stock, cutting, work, prices);
    check.finish().err().unwrap_or_default()
}

fn all_of_bench(
    check: &mut Check,
    glasses: &Glasses,
    of_stock: &Stock,
    of_cutting: Cutting,
    of_work: &Work,
    of_prices: Option<&Prices>,
) {
    stock(check, glasses, of_stock);
    cutting(check, of_cutting);
    work(check, of_work);
    if let Some(given) = of_prices {
        prices(check, given);
    }
}

fn head(check: &mut Check, order: &Order) {
    if order.version != VERSION {
        let why = format!("It says version {}; this program reads version {VERSION}.", order.version);
        check.fault(STEP, "An order of another version.", why, "Use a newer Dappledome, or write it anew.");
    }
    for (name, text) in [("The title", &order.title), ("The customer's name", &order.customer)] {
        short(check, name, text);
    }
    for (name, date) in [("The due date", order.due), ("The first day", order.starts)] {
        if let Some(date) = date {
            in_our_days(check, name, date);
        }
    }
    many(check, "chosen days", order.wishes.len());
    for wish in &order.wishes {
        in_our_days(check, "A chosen day", wish.not_before);
    }
    check.range(STEP, "Spare pieces per ten", order.spare_per_ten.into(), recipe_limits::SPARE, "");
}

fn short(check: &mut Check, name: &str, text: &str) {
    let letters = text.chars().count();
    if letters > MOST_NAME {
        let why = format!("{name} has {letters} letters.");
        check.fault(STEP, "A very long name.", why, format!("Use at most {MOST_NAME} letters."));
    }
}

fn in_our_days(check: &mut Check, name: &str, date: Date) {
    let (first, last) = limits::YEARS;
    if date.year() < first || date.year() > last {
        let why = format!("{name} is {date}.");
        check.fault(STEP, "A day far away.", why, format!("Use a year from {first} to {last}."));
    }
}

/// Whether a day may be reckoned from.
///
/// # Errors
/// A fault if it lies far away.
pub fn today(date: Date) -> Result<(), Vec<Notice>> {
    let mut check = Check::default();
    in_our_days(&mut check, "Today", date);
    check.finish().map(|_| ())
}

fn lines(check: &mut Check, lines: &[Line]) {
    if lines.is_empty() || lines.len() > MOST_LINES {
        check.fault(
            STEP,
            if lines.is_empty() { "Nothing ordered yet." } else { "Too many lines." },
            format!("The order has {} lines.", lines.len()),
            format!("Order one to {MOST_LINES} recipes."),
        );
    }
    for line in lines {
        short(check, "The name of an option", &line.option);
        check.range(STEP, &format!("The pieces of {}", name(line)), line.count.into(), limits::COUNT, "");
        if line.seeds.is_empty() || line.seeds.len() > MOST_PIECES as usize {
            let why = format!("{} has {} seeds.", name(line), line.seeds.len());
            let remedy = format!("Give one to {MOST_PIECES}: the layouts that are made.");
            check.fault(STEP, "Which layouts?", why, remedy);
        }
        if let Some(asked) = line.asked {
            money(check, &format!("The price asked for {}", name(line)), asked);
        }
    }
}

/// Nothing may have been done to pieces that are not made, and a jar weighs what a jar can.
fn progress(check: &mut Check, order: &Order) {
    let made = super::pieces::made(order);
    let known = &order.progress.pieces;
    if known.len() > MOST_PIECES as usize {
        let why = format!("It tells of {} pieces.", known.len());
        check.fault(STEP, "Work on too many pieces.", why, format!("An order has at most {MOST_PIECES}."));
        return;
    }
    for (at, done) in known.iter().enumerate() {
        let there = made.get(done.line).is_some_and(|made| done.piece < *made);
        let twice = known[..at].iter().any(|other| (other.line, other.piece) == (done.line, done.piece));
        if !there || twice || done.coats.len() > recipe_limits::MOST_COATS {
            let why = format!(
                "Piece {} of line {} is {}.",
                done.piece,
                done.line,
                if twice { "told of twice" } else { "none of this order" }
            );
            check.fault(STEP, "Work on a piece that is not made.", why, "Take it out of what was done.");
            return;
        }
        for grams in done.coats.iter().flat_map(|coat| [coat.before, coat.after]).flatten() {
            check.range(STEP, "What a jar weighs", grams.0, limits::JAR, "g");
        }
    }
}

/// What a line is called, for the maker to know which one is meant.
pub fn name(line: &Line) -> String {
    let recipe: String = line.recipe.title.chars().take(MOST_NAME).collect();
    let recipe = if recipe.is_empty() { "a piece without a name".into() } else { recipe };
    let option: String = line.option.chars().take(MOST_NAME).collect();
    if option.is_empty() { recipe } else { format!("{option}, {recipe}") }
}

fn all_pieces(check: &mut Check, order: &Order) {
    let pieces = super::pieces::to_make(order);
    if pieces > MOST_PIECES && order.lines.iter().all(|line| limits::COUNT.holds(line.count.into())) {
        let why = format!("With its spares the order comes to {pieces} pieces.");
        check.fault(
            STEP,
            "Too many pieces.",
            why,
            format!("Make at most {MOST_PIECES} in one order: divide it."),
        );
    }
}

/// Checks what is on hand. A glass that nobody here knows is somebody's own, and nothing in this order is made of it.
fn stock(check: &mut Check, glasses: &Glasses, stock: &Stock) {
    many(check, "kinds of sheets", stock.sheets.len());
    many(check, "jars", stock.jars.len());
    for sheets in &stock.sheets {
        if glasses.find(&sheets.glass).is_some_and(|glass| !glass.sheet) {
            check.unknown_glass(STEP, &sheets.glass, "sheet");
        }
        check.length(STEP, "The thickness of a sheet", sheets.thickness, recipe_limits::SHEET);
        check.length(STEP, "The width of a sheet", sheets.wide, limits::SHEET_SIDE);
        check.length(STEP, "The depth of a sheet", sheets.deep, limits::SHEET_SIDE);
        check.range(STEP, "The number of sheets", sheets.count.into(), limits::SHEETS, "");
        money(check, "The price of a sheet", sheets.price.unwrap_or(0.0));
    }
    for jar in &stock.jars {
        if glasses.find(&jar.glass).is_some_and(|glass| !glass.powder) {
            check.unknown_glass(STEP, &jar.glass, "powder");
        }
        check.range(STEP, "The powder in a jar", jar.grams.map_or(0.0, |grams| grams.0), limits::JAR, "g");
        money(check, "The price of 100 g", jar.price.unwrap_or(0.0));
    }
}

fn many(check: &mut Check, things: &str, count: usize) {
    if count > MOST_STOCK {
        let why = format!("There are {count} {things}.");
        check.fault(STEP, "More than a studio holds.", why, format!("Write down at most {MOST_STOCK}."));
    }
}

fn money(check: &mut Check, name: &str, sum: f64) {
    check.range(STEP, name, sum, limits::MONEY, "");
}

fn cutting(check: &mut Check, cutting: Cutting) {
    check.length(STEP, "The free edge of a sheet", cutting.edge, limits::EDGE);
    check.length(STEP, "The distance between two discs", cutting.between, limits::BETWEEN);
}

fn molds(check: &mut Check, molds: &[OwnedMold]) {
    many(check, "kinds of molds", molds.len());
    for owned in molds {
        check.length(STEP, "What a mold takes up", owned.across, limits::MOLD_ACROSS);
        check.range(STEP, "The number of molds", owned.count.into(), limits::MOLDS, "");
        if owned.across < owned.mold.opening {
            let why = format!("A mold of {} inside cannot be {} across.", owned.mold.opening, owned.across);
            check.fault(STEP, "Narrower than its inside.", why, "Measure its rim from outside.");
        }
    }
}

fn work(check: &mut Check, work: &Work) {
    if work.days.is_empty() {
        let why = "The order names no day of the week on which anybody works.".into();
        check.fault(STEP, "No workday.", why, "Give at least one.");
    }
    check.range(STEP, "The time for hand work on a day", work.a_day.0, limits::A_DAY, "min");
    let minutes = &work.minutes;
    for (name, time) in [
        ("Cutting", minutes.cut),
        ("Sifting", minutes.sift),
        ("Loading", minutes.load),
        ("Mounting", minutes.mount),
    ] {
        check.range(STEP, &format!("{name} of one piece"), time.0, limits::STEP, "min");
    }
    check.range(STEP, "The days of rest", work.cure_days.into(), limits::CURE, "days");
}

fn prices(check: &mut Check, prices: &Prices) {
    for (name, sum) in [
        ("The price of an hour", prices.hour),
        ("Overhead", prices.overhead),
        ("The price of paper and separator", prices.consumables),
        ("The price of a stem", prices.stem),
        ("The fee of the fair", prices.fair.unwrap_or(0.0)),
        ("What a card takes", prices.card.map_or(0.0, |card| card.fixed)),
    ] {
        money(check, name, sum);
    }
    check.share(STEP, "Breakage", prices.breakage, limits::BREAKAGE);
    match prices.gain {
        Gain::Margin(share) => check.share(STEP, "The margin", share, limits::MARGIN),
        Gain::Markup(share) => check.share(STEP, "The markup", share, limits::MARKUP),
    };
    check.range(STEP, "Retail over wholesale", prices.retail, limits::RETAIL, "");
    check.share(STEP, "What a card takes", prices.card.map_or(0.0, |card| card.rate), limits::CARD);
    check.share(STEP, "Tax", prices.tax.unwrap_or(0.0), limits::TAX);
    check.share(STEP, "What is paid to begin", prices.to_begin, limits::TO_BEGIN);
}

/// The plans of all lines with their risks and notes, or none with every notice of those that cannot be made.
fn plans(lines: &[Line]) -> (Option<Vec<Plan>>, Vec<Notice>) {
    let (mut plans, mut notices, mut faults) = (Vec::new(), Vec::new(), Vec::new());
    for line in lines {
        match Plan::new(&line.recipe) {
            Ok(Planned { plan, notices: found }) => {
                plans.push(plan);
                notices.extend(found.into_iter().map(|notice| of_line(line, notice)));
            }
            Err(found) => faults.extend(found.into_iter().map(|notice| of_line(line, notice))),
        }
    }
    if faults.is_empty() { (Some(plans), notices) } else { (None, faults) }
}

/// The same notice, with the piece that it is about.
pub fn of_line(line: &Line, notice: Notice) -> Notice {
    Notice { what: format!("{}: {}", name(line), notice.what), ..notice }
}
