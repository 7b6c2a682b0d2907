//! The desk of the page: has orders worked out and put on paper as soon as one is looked at.

use super::orders::OrderRenderer;
use super::own_worker::keep_asking;
use super::paper;
use super::program::Program;
use dappledome::worker::asked::{DeskJob, Said};
use leptos::prelude::*;

/// The desk, which opens with the first order.
#[derive(Clone, Copy)]
pub struct Desk {
    /// What its workers run.
    program: StoredValue<Program, LocalStorage>,
    /// Whether it is open.
    open: StoredValue<bool>,
    /// Who owns what it starts: the page.
    owner: StoredValue<WeakOwner>,
}

impl Desk {
    /// A desk that is not open yet; what it starts later lives as long as the present owner.
    pub fn new(program: Program) -> Self {
        let owner = Owner::current().unwrap_or_default().downgrade();
        Self {
            program: StoredValue::new_local(program),
            open: StoredValue::new(false),
            owner: StoredValue::new(owner),
        }
    }

    /// Opens it, once. Takes the contexts of the page.
    pub fn open(&self) {
        if let (false, Some(owner)) = (self.open.get_value(), self.owner.get_value().upgrade()) {
            self.open.set_value(true);
            owner.with(|| {
                OrderRenderer::start(self.program.get_value());
                paper::start(self.program.get_value());
            });
        }
    }

    /// Has each job done that there comes to be, by a worker of its own, as long as the present owner lives; the newest wins.
    pub fn keep_asking(
        &self,
        name: &'static str,
        job: impl Fn() -> Option<DeskJob> + 'static,
        bring: impl Fn(Said) + 'static,
    ) {
        keep_asking(name, self.program.get_value(), job, bring);
    }
}
