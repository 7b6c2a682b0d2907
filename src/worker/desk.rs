//! The desk: what an order needs of the worker. What is asked of it and what it says are bytes to the rest of the program, which is loaded
//! and runs without it until a first order is opened.

use super::orders::Orders;
use super::paper;
use super::protocol::{read, written};
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

/// The desk, with its memory.
#[derive(Debug, Default)]
pub struct Desk {
    orders: Orders,
    /// The job under way, as it was read.
    under_way: Option<(u32, DeskJob)>,
}

impl AtDesk for Desk {
    fn step(
        &mut self,
        preview: &mut Preview,
        id: u32,
        asked: &[u8],
    ) -> Result<Option<(Vec<u8>, bool)>, String> {
        let job = match self.under_way.take() {
            Some((of, job)) if of == id => job,
            _ => read(asked)?,
        };
        let (_, job) = self.under_way.insert((id, job));
        let said = match job {
            DeskJob::Order(asked) => {
                self.orders.step(preview, asked, id).map(|(outcome, whole)| (Said::Order(outcome), whole))
            }
            DeskJob::Paper(asked) => Some((Said::Paper(paper::sheets(asked)), true)),
        };
        // A job may ask more than one thing: what was told whole is over.
        if matches!(said, Some((_, true))) {
            self.under_way = None;
        }
        Ok(said.map(|(said, whole)| (written(&said), whole)))
    }
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::recipe::demo;
    use jiff::civil::date;

    fn job(pieces: u32) -> DeskJob {
        let order = Order::of(demo::ember_walk(), pieces);
        DeskJob::Order(Box::new(OrderJob {
            order,
            others: vec![Order::of(demo::ember_walk(), 1)],
            today: date(2026, 11, 30),
        }))
    }

    #[test]
    fn a_job_is_read_as_it_was_written() {
        assert_eq!(read(&written(&job(12))), Ok(job(12)));
    }

    #[test]
    fn what_is_no_job_is_refused_and_a_newer_job_is_read_anew() {
        let (mut desk, mut preview) = (Desk::default(), Preview::new());
        assert_eq!(desk.step(&mut preview, 1, &written(&job(1))), Ok(None));
        assert!(desk.step(&mut preview, 2, b"\x07").is_err());
        let faulty = written(&job(1_000_000));
        let (said, whole) = desk.step(&mut preview, 3, &faulty).unwrap().expect("at once");
        assert!(whole && matches!(read(&said), Ok(Said::Order(Err(_)))));
    }
}
