//! An order as it is edited and saved: plain data. Nothing here is checked; [`super::checks`] does that, and [`super::file`]
//! reads and writes it.

use super::progress::Progress;
use crate::base::data::data;
use crate::base::firing::Firing;
use crate::base::seed::Seed;
use crate::base::units::{Grams, Minutes, Mm};
use crate::glass::glasses::Glasses;
use crate::kiln::data::Kiln;
use crate::recipe::{Mold, Recipe};
use jiff::civil::Weekday;
use serde::{Deserialize, Serialize};

pub use jiff::civil::Date;

/// The version of the order format that this program writes and reads.
pub const VERSION: u32 = 1;

data! {
    /// What somebody has ordered, and all that the maker needs to know to make it.
    pub struct Order {
        /// Version of this format; must be present.
        pub version: u32,
        /// What the maker calls it.
        #[serde(default)]
        pub title: String,
        /// Who has ordered it.
        #[serde(default)]
        pub customer: String,
        /// The day by which it must be ready, as 2026-12-18; none if it does not matter.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[cfg_attr(not(target_arch = "wasm32"), schemars(with = "Option<String>"))]
        pub due: Option<Date>,
        /// The first day of work on it; as soon as can be if left out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[cfg_attr(not(target_arch = "wasm32"), schemars(with = "Option<String>"))]
        pub starts: Option<Date>,
        /// Days that the maker has chosen for some of its steps.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        pub wishes: Vec<Wish>,
        /// Its place among open orders: those with a greater number are made first, those without one in the turn in which they are due.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub ahead: Option<u32>,
        /// What is made: one line for each recipe, or for each option of it.
        pub lines: Vec<Line>,
        /// Spare pieces made for every ten of the whole order, rounded up once.
        #[serde(default = "spare_per_ten")]
        pub spare_per_ten: u32,
        /// Sheets and jars on hand.
        #[serde(default)]
        pub stock: Stock,
        /// How discs are cut out of sheets.
        #[serde(default)]
        pub cutting: Cutting,
        /// The kiln, as its own file has it; a guessed one if left out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        #[cfg_attr(not(target_arch = "wasm32"), schemars(with = "Option<serde_json::Map<String, serde_json::Value>>"))]
        pub kiln: Option<Kiln>,
        /// The molds that the maker owns; as many as fill the shelf if left out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub molds: Option<Vec<OwnedMold>>,
        /// When the maker works, and how long.
        #[serde(default)]
        pub work: Work,
        /// The maker's prices; none are needed for anything else.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub prices: Option<Prices>,
        /// What has been done of it at the bench.
        #[serde(default, skip_serializing_if = "Progress::is_empty")]
        pub progress: Progress,
    }
}

impl Order {
    /// An order of so many pieces of one recipe, all else as usual.
    pub fn of(recipe: Recipe, count: u32) -> Self {
        let line =
            Line { option: String::new(), recipe, piece: None, seeds: vec![Seed(1)], count, asked: None };
        Self {
            version: VERSION,
            title: String::new(),
            customer: String::new(),
            due: None,
            starts: None,
            wishes: Vec::new(),
            ahead: None,
            lines: vec![line],
            spare_per_ten: spare_per_ten(),
            stock: Stock::default(),
            cutting: Cutting::default(),
            kiln: None,
            molds: None,
            work: Work::default(),
            prices: None,
            progress: Progress::default(),
        }
    }

    /// Own glasses of all its lines.
    pub fn glasses(&self) -> Glasses {
        self.lines.iter().fold(Glasses::default(), |glasses, line| glasses.with(&line.recipe.glasses))
    }
}

data! {
    /// What is done to make an order.
    #[derive(Copy, Eq)]
    pub enum What {
        /// Discs are cut.
        Cut,
        /// Powder is sifted and dabbed.
        Sift,
        /// The kiln fires.
        Fire(Firing),
        /// Pieces are mounted.
        Mount,
    }
}

data! {
    /// A day that the maker has chosen: a step is not begun before it, though it may have to wait longer.
    #[derive(Copy)]
    pub struct Wish {
        /// The step.
        pub what: What,
        /// Pieces, in the order of making, that need not wait for it.
        #[serde(default)]
        pub after: u32,
        /// The day.
        #[cfg_attr(not(target_arch = "wasm32"), schemars(with = "String"))]
        pub not_before: Date,
    }
}

fn spare_per_ten() -> u32 {
    1
}

data! {
    /// Pieces of one recipe.
    pub struct Line {
        /// What the customer calls it, as the letter of an option.
        #[serde(default)]
        pub option: String,
        /// Its own copy of the recipe: what is changed on the shelf later does not change what was ordered.
        pub recipe: Recipe,
        /// The number under which the piece was kept that it was copied from; none if it never was.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub piece: Option<u64>,
        /// The layouts that are made. Fewer than pieces are made in turn, the first of them once more where it does not come out even.
        pub seeds: Vec<Seed>,
        /// Pieces wanted.
        pub count: u32,
        /// What the maker asks for one, wholesale; by cost and margin if left out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub asked: Option<f64>,
    }
}

impl Line {
    /// Pieces that are mounted: all that are wanted, if its recipe has a stem.
    pub fn mounted(&self) -> u32 {
        if self.recipe.stem.is_some() { self.count } else { 0 }
    }
}

data! {
    /// What is on hand.
    #[derive(Default)]
    pub struct Stock {
        /// Sheets of glass.
        #[serde(default)]
        pub sheets: Vec<Sheets>,
        /// Jars of powder.
        #[serde(default)]
        pub jars: Vec<Jar>,
    }
}

impl Stock {
    /// The jar of a powder, where one is written down.
    pub fn jar(&self, glass: &str) -> Option<&Jar> {
        self.jars.iter().find(|jar| jar.glass == glass)
    }

    /// The same to write in; one is written down if there is none.
    pub fn jar_mut(&mut self, glass: &str) -> &mut Jar {
        let at = self.jars.iter().position(|jar| jar.glass == glass).unwrap_or_else(|| {
            self.jars.push(Jar { glass: glass.into(), grams: None, price: None });
            self.jars.len() - 1
        });
        &mut self.jars[at]
    }
}

data! {
    /// Sheets of one glass and size.
    pub struct Sheets {
        /// Id of a sheet glass on the shelf.
        pub glass: String,
        /// Their thickness.
        pub thickness: Mm,
        /// From left to right.
        pub wide: Mm,
        /// From front to back.
        pub deep: Mm,
        /// How many are on hand; none says in which size they are bought.
        pub count: u32,
        /// Money for one; not known if left out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub price: Option<f64>,
    }
}

data! {
    /// A jar of powder.
    pub struct Jar {
        /// Id of a powder on the shelf.
        pub glass: String,
        /// What is in it; not written down if left out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub grams: Option<Grams>,
        /// Money for 100 g; not known if left out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub price: Option<f64>,
    }
}

data! {
    /// How discs are cut out of sheets.
    #[derive(Copy)]
    pub struct Cutting {
        /// Distance from the edge of a sheet that is kept free.
        pub edge: Mm,
        /// Distance between two discs.
        pub between: Mm,
    }
}

impl Default for Cutting {
    fn default() -> Self {
        Self { edge: Mm(10.0), between: Mm(6.0) }
    }
}

data! {
    /// Molds of one kind.
    pub struct OwnedMold {
        /// The mold as recipes name it.
        pub mold: Mold,
        /// What it takes up on the shelf, its rim included.
        pub across: Mm,
        /// How many.
        pub count: u32,
    }
}

/// A day of the week.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "they are the days of the week")]
pub enum Workday {
    Monday,
    Tuesday,
    Wednesday,
    Thursday,
    Friday,
    Saturday,
    Sunday,
}

impl Workday {
    /// Which day of the calendar it is.
    pub fn weekday(self) -> Weekday {
        match self {
            Self::Monday => Weekday::Monday,
            Self::Tuesday => Weekday::Tuesday,
            Self::Wednesday => Weekday::Wednesday,
            Self::Thursday => Weekday::Thursday,
            Self::Friday => Weekday::Friday,
            Self::Saturday => Weekday::Saturday,
            Self::Sunday => Weekday::Sunday,
        }
    }
}

data! {
    /// When the maker works, and how long each step takes. All usual values are proposals, no source.
    pub struct Work {
        /// The days of work.
        #[serde(default = "workdays")]
        pub days: Vec<Workday>,
        /// Time for hand work on one of them.
        #[serde(default = "a_day")]
        pub a_day: Minutes,
        /// Whether the kiln is also fired by day, not only from the evening on.
        #[serde(default)]
        pub fires_by_day: bool,
        /// Hand work for one piece.
        #[serde(default)]
        pub minutes: StepMinutes,
        /// Days that a mounted piece rests before it may go; what has no stem is not mounted and does not rest.
        #[serde(default = "cure_days")]
        pub cure_days: u32,
    }
}

fn workdays() -> Vec<Workday> {
    vec![Workday::Monday, Workday::Tuesday, Workday::Wednesday, Workday::Thursday, Workday::Friday]
}

fn a_day() -> Minutes {
    Minutes(360.0)
}

fn cure_days() -> u32 {
    7
}

impl Default for Work {
    fn default() -> Self {
        Self {
            days: workdays(),
            a_day: a_day(),
            fires_by_day: false,
            minutes: StepMinutes::default(),
            cure_days: cure_days(),
        }
    }
}

data! {
    /// Minutes of hand work for one piece, by step.
    #[derive(Copy)]
    pub struct StepMinutes {
        /// Cutting its discs.
        pub cut: Minutes,
        /// Sifting and dabbing.
        pub sift: Minutes,
        /// Loading it into the kiln, each time, and taking it out.
        pub load: Minutes,
        /// Mounting it on its stem, if its recipe has one.
        pub mount: Minutes,
    }
}

impl Default for StepMinutes {
    fn default() -> Self {
        Self { cut: Minutes(4.0), sift: Minutes(8.0), load: Minutes(2.0), mount: Minutes(6.0) }
    }
}

data! {
    /// The maker's prices, in whatever money.
    pub struct Prices {
        /// For an hour of hand work.
        pub hour: f64,
        /// Overhead of one piece.
        #[serde(default)]
        pub overhead: f64,
        /// Shelf paper, separator, frit and the like for one piece.
        #[serde(default)]
        pub consumables: f64,
        /// Stem and joint of one piece that has them; 0 before it is written down.
        #[serde(default)]
        pub stem: f64,
        /// Share of the pieces that break or fail.
        #[serde(default = "breakage")]
        pub breakage: f64,
        /// What is put on what a piece costs.
        #[serde(default)]
        pub gain: Gain,
        /// Retail, as a multiple of wholesale.
        #[serde(default = "retail")]
        pub retail: f64,
        /// What a card takes.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub card: Option<Card>,
        /// Fee of a fair; none if left out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub fair: Option<f64>,
        /// Tax on the price, as a share, as the maker enters it; none if left out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub tax: Option<f64>,
        /// What is paid when work begins, as a share of the whole price; 0 for nothing.
        #[serde(default = "to_begin")]
        pub to_begin: f64,
    }
}

impl Prices {
    /// What the maker writes their own over: proposals, no source.
    pub fn usual() -> Self {
        Self {
            hour: 24.0,
            overhead: 2.0,
            consumables: 0.5,
            stem: 0.0,
            breakage: breakage(),
            gain: Gain::default(),
            retail: retail(),
            card: None,
            fair: None,
            tax: None,
            to_begin: to_begin(),
        }
    }
}

fn breakage() -> f64 {
    0.08
}

fn retail() -> f64 {
    2.0
}

/// A third: common practice, no source.
fn to_begin() -> f64 {
    1.0 / 3.0
}

data! {
    /// What is put on what a piece costs.
    #[derive(Copy)]
    pub enum Gain {
        /// As a share of the price.
        Margin(f64),
        /// As a share of the cost.
        Markup(f64),
    }
}

impl Default for Gain {
    fn default() -> Self {
        Self::Margin(0.45)
    }
}

data! {
    /// What a card takes of each sale.
    #[derive(Copy)]
    pub struct Card {
        /// A share of what is charged.
        pub rate: f64,
        /// And a fixed sum.
        pub fixed: f64,
    }
}
