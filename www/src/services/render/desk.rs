//! The desk of the page: has orders worked out and put on paper as soon as one is looked at.

use super::orders::OrderRenderer;
use super::paper;
use super::program::Program;
use leptos::prelude::*;

/// The desk, which opens with the first order.
#[derive(Clone, Copy)]
pub struct Desk {
    /// What its workers run; none once they do.
    program: StoredValue<Option<Program>, LocalStorage>,
    /// Who owns what it starts: the page.
    owner: StoredValue<WeakOwner>,
}

impl Desk {
    /// A desk that is not open yet; what it starts later lives as long as the present owner.
    pub fn new(program: Program) -> Self {
        let owner = Owner::current().unwrap_or_default().downgrade();
        Self { program: StoredValue::new_local(Some(program)), owner: StoredValue::new(owner) }
    }

    /// Opens it, once. Takes the contexts of the page.
    pub fn open(&self) {
        let program = self.program.try_update_value(Option::take).flatten();
        if let (Some(program), Some(owner)) = (program, self.owner.get_value().upgrade()) {
            owner.with(|| {
                OrderRenderer::start(program.clone());
                paper::start(program);
            });
        }
    }
}
