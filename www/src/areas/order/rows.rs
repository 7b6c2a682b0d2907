//! The rows of an order: each step of the shown line's recipe with what it takes, as plain data.

use crate::areas::sheet::{name, steps_of, summary};
use crate::words;
use dappledome::base::firing::Firing;
use dappledome::base::notice::Step;
use dappledome::base::shown::Units;
use dappledome::orders::days::What;
use dappledome::orders::model::{Line, Stock};
use dappledome::orders::weigh::{CoatNeed, PowderNeed};
use dappledome::orders::worked::Worked;
use dappledome::recipe::Recipe;

/// A step of the recipe, and what it takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Which step.
    pub step: Step,
    /// When it is done.
    pub what: What,
    /// What it is called.
    pub name: String,
    /// What it says.
    pub said: String,
    /// What it takes in all.
    pub all: String,
    /// What is on hand.
    pub on_hand: String,
    /// What is to be bought.
    pub to_buy: String,
    /// Whether that is short.
    pub short: bool,
    /// Whether the next one stands a little apart, as in the recipe.
    pub apart: bool,
}

/// The rows of a line.
pub fn rows(line: &Line, at: usize, stock: &Stock, worked: Option<&Worked>, units: Units) -> Vec<Row> {
    let recipe = &line.recipe;
    let steps = steps_of(recipe, false);
    let row = |(at_step, step): (usize, Step)| {
        let what = done_by(step);
        let [all, on_hand, to_buy] =
            worked.map(|worked| numbers(recipe, step, at, stock, worked)).unwrap_or_default();
        let short = worked.is_some_and(|worked| is_short(step, at, worked));
        Row {
            step,
            what,
            name: name(step, recipe),
            said: units.text(&summary(step, recipe, None, units)),
            all,
            on_hand,
            to_buy,
            short,
            apart: stands_apart(step, steps.get(at_step + 1).copied()),
        }
    };
    steps.iter().copied().enumerate().map(row).collect()
}

/// Whether a step stands a little apart from the next one: around what is sifted, and each firing for itself.
fn stands_apart(step: Step, next: Option<Step>) -> bool {
    matches!(step, Step::Blank | Step::Fuse | Step::Accents) || next == Some(Step::Fuse)
}

/// In which of the tasks a step is done.
fn done_by(step: Step) -> What {
    match step {
        Step::Fuse => What::Fire(Firing::FullFuse),
        Step::Accents => What::Fire(Firing::TackFuse),
        Step::Slump => What::Fire(Firing::Slump),
        Step::Coat(_) | Step::Sponge => What::Sift,
        Step::Stem => What::Mount,
        Step::Blank | Step::Ticket | Step::Recipe => What::Cut,
    }
}

/// What a step takes in all, what is on hand of it, and what is to be bought.
fn numbers(recipe: &Recipe, step: Step, line: usize, stock: &Stock, worked: &Worked) -> [String; 3] {
    match step {
        Step::Blank => blank(recipe, line, stock, worked),
        Step::Coat(id) => coat(id, line, worked),
        Step::Fuse => firing(Firing::FullFuse, worked),
        Step::Accents => firing(Firing::TackFuse, worked),
        Step::Slump => firing(Firing::Slump, worked),
        Step::Stem => stem(line, worked),
        _ => Default::default(),
    }
}

fn blank(recipe: &Recipe, line: usize, stock: &Stock, worked: &Worked) -> [String; 3] {
    let made = worked.lines.get(line).map_or(0, |line| line.made);
    let used = |glass: &str| recipe.blank.sheets.iter().any(|sheet| sheet.glass == glass);
    let there: u32 =
        stock.sheets.iter().filter(|sheets| used(&sheets.glass)).map(|sheets| sheets.count).sum();
    let buy: Vec<String> = worked
        .cuts
        .iter()
        .filter(|list| list.to_buy > 0)
        .map(|list| words::sheets_to_buy(list.to_buy, &recipe.glasses.name(&list.glass)))
        .collect();
    let buy = if buy.is_empty() { words::ENOUGH.into() } else { buy.join(", ") };
    [words::discs_of(made * recipe.blank.sheets.len() as u32), words::counted(there.into(), "sheet"), buy]
}

fn stem(line: usize, worked: &Worked) -> [String; 3] {
    let Some(Some((_, count))) = worked.stems.lines.get(line) else { return Default::default() };
    [words::stems(*count), String::new(), words::tubes(worked.stems.tubes)]
}

fn coat(id: u32, line: usize, worked: &Worked) -> [String; 3] {
    let Some(coat) = worked.weighed.coats.iter().find(|coat| coat.line == line && coat.coat == id) else {
        return Default::default();
    };
    let all: f64 = coat.all.iter().map(|part| part.grams.0).sum();
    let needs = powders(coat, worked);
    let sum = |of: fn(&PowderNeed) -> f64| needs.iter().map(|need| of(need)).sum::<f64>();
    let (short, buy) = (sum(|need| need.short().0), sum(|need| need.to_buy.0));
    let there = if needs.iter().all(|need| need.on_hand.is_some()) {
        words::grams(sum(|need| need.on_hand.map_or(0.0, |grams| grams.0)))
    } else {
        words::NOT_WRITTEN.into()
    };
    let buy = match (short > 0.0, buy > 0.0) {
        (true, _) => words::short(short),
        (false, true) => words::grams(buy),
        (false, false) => words::ENOUGH.into(),
    };
    [words::grams(all), there, buy]
}

/// What the order needs of each powder of a coat.
fn powders<'a>(coat: &CoatNeed, worked: &'a Worked) -> Vec<&'a PowderNeed> {
    let of_it = |need: &&PowderNeed| coat.all.iter().any(|part| part.glass == need.glass);
    worked.weighed.powders.iter().filter(of_it).collect()
}

/// Whether a jar of a coat is known to hold too little.
fn is_short(step: Step, line: usize, worked: &Worked) -> bool {
    let mut coats = worked.weighed.coats.iter();
    let coat = coats.find(|coat| coat.line == line && step == Step::Coat(coat.coat));
    coat.is_some_and(|coat| powders(coat, worked).iter().any(|need| need.short().0 > 0.0))
}

fn firing(firing: Firing, worked: &Worked) -> [String; 3] {
    let batches = worked.loads.batches.iter().filter(|batch| batch.firing == firing);
    let loads = batches.clone().map(|batch| batch.loads.len()).sum();
    let kwh: f64 = batches.clone().map(|batch| batch.kwh * batch.loads.len() as f64).sum();
    let holds = batches.clone().map(|batch| batch.holds).max();
    let Some(holds) = holds else { return Default::default() };
    let molds = batches.clone().any(|batch| batch.molds_limit);
    [words::loads(loads), words::holds(holds, molds), words::kwh(kwh)]
}
