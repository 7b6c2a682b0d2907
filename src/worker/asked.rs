//! What is asked of the desk, and what it says.

use super::as_text;
use crate::base::notice::Notice;
use crate::base::seed::Seed;
use crate::color::difference::Lab;
use crate::color::srgb::Linear;
use crate::compare::hand::Told;
use crate::compare::row::Row;
use crate::glass::glasses::Glasses;
use crate::optics::test_tile::Color;
use crate::orders::file;
use crate::orders::model::{Date, Order};
use crate::orders::worked::Worked;
use crate::paper::kind::Kind;
use crate::paper::sheet::{PaperSize, Sheet};
use crate::preview::Preview;
use crate::recipe::Recipe;
use crate::tiles::find::Found;
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::fmt::Debug;

/// Work for the desk. It has recipes and seeds of its own; those of the job that brings it are not looked at.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum DeskJob {
    /// What an order comes to.
    Order(Box<OrderJob>),
    /// Sheets of paper for an order that was worked out.
    Paper(Box<PaperJob>),
    /// A color among jars.
    Find(Box<FindJob>),
    /// What came out against what was foretold.
    Against(Box<AgainstJob>),
}

/// A fired piece to be held against its forecast.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct AgainstJob {
    /// The recipe.
    #[serde(with = "as_text")]
    pub recipe: Recipe,
    /// The layout.
    pub seed: Seed,
    /// What the photo shows of the disc, in [`CELLS`](crate::compare::foretold::CELLS) rows of as many cells, a perfect white being 1.
    pub photo: Vec<Option<Linear>>,
}

/// How a fired piece compares with its forecast.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Compared {
    /// Color by color, those on most of the piece first.
    pub rows: Vec<Row>,
    /// By so many degrees the photo is turned against the forecast, counterclockwise.
    pub turned: f64,
    /// Each cell of the forecast, none off the disc or where the photo shows nothing.
    pub cells: Vec<Option<Cell>>,
    /// What its coats tell of the maker's hand.
    pub told: Vec<Told>,
}

/// A color to be found among jars, for a coat.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FindJob {
    /// The recipe that the coat is of.
    #[serde(with = "as_text")]
    pub recipe: Recipe,
    /// The seed, by which it is weighed.
    pub seed: Seed,
    /// The coat's id.
    pub coat: u32,
    /// The jars, all of them powders.
    #[serde(serialize_with = "write_glasses", deserialize_with = "read_glasses")]
    pub jars: Glasses,
    /// The color.
    pub wanted: Lab,
    /// What it is looked at on.
    pub seen: SeenOn,
    /// Whether two jars may be taken.
    pub two: bool,
}

/// What powder is looked at on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SeenOn {
    /// What the coat really lies on, by day.
    Coat,
    /// An opaque white, by day.
    White,
    /// A clear sheet, lit from behind.
    Clear,
}

/// A cell of a fired piece, laid on its forecast.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Cell {
    /// What came out, on a screen.
    pub fired: Color,
    /// What was foretold, on a screen.
    pub foretold: Color,
    /// How far they are apart, CIEDE2000.
    pub apart: f32,
}

/// What was found, nearest first.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Finds {
    /// The ways; their jars are places in the list that was given.
    pub ways: Vec<Found>,
    /// Powder to weigh for one disc, mm³ for each mm of depth.
    pub area: f64,
}

/// An order to be put on paper.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PaperJob {
    /// The order, with all that it was worked out from.
    #[serde(serialize_with = "write_order", deserialize_with = "read_order")]
    pub order: Order,
    /// What it comes to.
    pub worked: Worked,
    /// What the maker wanted to do otherwise next time, line by line.
    pub next_time: Vec<Option<String>>,
    /// Which sheets.
    pub kind: Kind,
    /// The paper.
    pub paper: PaperSize,
    /// The day that is written on it.
    pub today: Date,
}

/// An order to be worked out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct OrderJob {
    /// The order, with all that it is worked out from.
    #[serde(serialize_with = "write_order", deserialize_with = "read_order")]
    pub order: Order,
    /// The other open orders, which have days and kiln too.
    #[serde(serialize_with = "write_orders", deserialize_with = "read_orders")]
    pub others: Vec<Order>,
    /// The day from which it is reckoned.
    pub today: Date,
}

/// What an order comes to, or every fault of it.
pub type OrderOutcome = Result<Box<Worked>, Vec<Notice>>;

/// What the desk says.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Said {
    /// What an order comes to; told once when every line was weighed once, and again when every layout was.
    Order(OrderOutcome),
    /// Sheets of paper; none if the order has none of this kind.
    Paper(Vec<Sheet>),
    /// Ways to a color; none if the recipe cannot be made or has no such coat.
    Found(Option<Finds>),
    /// How a fired piece compares; none if its recipe cannot be made.
    Compared(Option<Box<Compared>>),
}

/// Who does the desk's work.
pub trait AtDesk: Debug {
    /// One step of the job with this number: what there is to tell, as bytes, and whether that is all of it; none while there is nothing.
    ///
    /// # Errors
    /// What is wrong with the bytes, if they are no [`DeskJob`].
    fn step(
        &mut self,
        preview: &mut Preview,
        id: u32,
        asked: &[u8],
    ) -> Result<Option<(Vec<u8>, bool)>, String>;
}

fn write_glasses<S: Serializer>(glasses: &Glasses, to: S) -> Result<S::Ok, S::Error> {
    // Plain data with names for keys: nothing in it can fail to be written.
    to.serialize_str(&serde_json::to_string(glasses).unwrap_or_default())
}

fn read_glasses<'de, D: Deserializer<'de>>(from: D) -> Result<Glasses, D::Error> {
    serde_json::from_str(&String::deserialize(from)?).map_err(D::Error::custom)
}

fn write_order<S: Serializer>(order: &Order, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_str(&file::write(order))
}

fn read_order<'de, D: Deserializer<'de>>(from: D) -> Result<Order, D::Error> {
    file::read(&String::deserialize(from)?).map_err(D::Error::custom)
}

fn write_orders<S: Serializer>(orders: &[Order], to: S) -> Result<S::Ok, S::Error> {
    orders.iter().map(file::write).collect::<Vec<_>>().serialize(to)
}

fn read_orders<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<Order>, D::Error> {
    let texts = Vec::<String>::deserialize(from)?;
    texts.iter().map(|text| file::read(text).map_err(D::Error::custom)).collect()
}
