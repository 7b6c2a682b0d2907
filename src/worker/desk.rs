//! The desk: what an order, or a color that is looked for, needs of the worker. What is asked of it and what it says are bytes to the
//! rest of the program, which is loaded and runs without it until the first of them.

use super::asked::{AtDesk, DeskJob, Said};
use super::orders::Orders;
use super::protocol::{read, written};
use super::{against, find, paper};
use crate::preview::Preview;

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
            DeskJob::Against(asked) => Some((Said::Compared(against::compared(preview, asked)), true)),
            DeskJob::Find(asked) => Some((Said::Found(find::found(asked)), true)),
        };
        // A job may ask more than one thing: what was told whole is over.
        if matches!(said, Some((_, true))) {
            self.under_way = None;
        }
        Ok(said.map(|(said, whole)| (written(&said), whole)))
    }
}

#[cfg(test)]
mod tests {
    use super::super::asked::OrderJob;
    use super::*;
    use crate::orders::model::Order;
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
