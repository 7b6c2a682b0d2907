//! Has the open order worked out, by a worker of its own that starts with the first order.

use super::own_worker::keep_asking;
use super::program::Program;
use crate::dom::clock;
use crate::state::announcer::Announcer;
use crate::state::kilns::Kilns;
use crate::state::molds::Molds;
use crate::state::orders::Orders;
use crate::words;
use dappledome::orders::bench;
use dappledome::orders::model::{Order, OwnedMold};
use dappledome::worker::asked::{DeskJob, OrderJob, Said};
use leptos::prelude::*;

/// What it works from, and where it says what came.
#[derive(Clone, Copy)]
pub struct OrderRenderer {
    orders: Orders,
    kilns: Kilns,
    molds: Molds,
    announcer: Announcer,
}

impl OrderRenderer {
    /// Takes the contexts of the page.
    pub fn of_contexts() -> Self {
        Self {
            orders: expect_context(),
            kilns: expect_context(),
            molds: expect_context(),
            announcer: expect_context(),
        }
    }

    /// Keeps the open order worked out as long as the present owner lives. Takes the contexts of the page.
    pub fn start(program: Program) {
        let parts = Self::of_contexts();
        let job = move || parts.job().map(|job| DeskJob::Order(Box::new(job)));
        keep_asking("order", program, job, move |said| parts.bring(said));
    }

    /// The open order and the others, as the maker makes them.
    pub fn job(&self) -> Option<OrderJob> {
        let order = self.orders.opened()?;
        let bench = self.orders.bench.get();
        let (kiln, molds) = (self.kilns.kiln.get(), self.molds());
        let whole = |order: &Order| bench.laid_under(order, Some(kiln.clone()), molds.clone());
        let others = self.orders.others().iter().map(whole).collect();
        Some(OrderJob { order: whole(&order), others, today: clock::today() })
    }

    /// The maker's own molds; none before any are written down.
    fn molds(&self) -> Option<Vec<OwnedMold>> {
        (!self.molds.are_invented()).then(|| bench::owned(&self.molds.own()))
    }

    fn bring(&self, said: Said) {
        let Said::Order(outcome) = said else { return };
        self.orders.take(outcome);
        if let Some((what, to, ready)) = self.orders.moved() {
            self.announcer.say(words::step_moved(what, to, ready));
        }
    }
}
