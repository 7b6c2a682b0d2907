//! What is asked of the desk, and what it says.

use crate::base::notice::Notice;
use crate::orders::file;
use crate::orders::model::{Date, Order};
use crate::orders::worked::Worked;
use crate::paper::kind::Kind;
use crate::paper::sheet::{PaperSize, Sheet};
use crate::preview::Preview;
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
