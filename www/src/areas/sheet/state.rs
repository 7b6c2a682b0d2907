//! What the parts of the sheet share: the steps as they lie on the page, and what an open coat has drawn out.

use crate::state::nav::Nav;
use dappledome::base::notice::Step;
use leptos::html;
use leptos::prelude::*;
use web_sys::{ScrollIntoViewOptions, ScrollLogicalPosition};

/// What an open coat has drawn out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CoatDrawer {
    /// The choice of powders.
    Powders,
    /// What can be done with the coat.
    Menu,
}

/// A number for good for each step, for the list's keys and the elements' ids.
pub fn step_number(step: Step) -> u64 {
    match step {
        Step::Recipe => 0,
        Step::Ticket => 1,
        Step::Blank => 2,
        Step::Sponge => 3,
        Step::Fuse => 4,
        Step::Accents => 5,
        Step::Slump => 6,
        Step::Stem => 7,
        Step::Coat(id) => 16 + u64::from(id),
    }
}

/// The steps as they lie on the page, to be brought into view.
#[derive(Clone, Copy)]
pub struct StepItems {
    items: StoredValue<Vec<(Step, NodeRef<html::Li>)>>,
    /// The coat that is just being added: it begins with its powders drawn out.
    added: StoredValue<Option<Step>>,
}

impl StepItems {
    /// None yet.
    pub fn new() -> Self {
        Self { items: StoredValue::new(Vec::new()), added: StoredValue::new(None) }
    }

    /// An item of the list registers itself, until the present owner is cleaned up.
    pub fn register(&self, step: Step, item: NodeRef<html::Li>) {
        let items = *self;
        items.items.update_value(|items| items.push((step, item)));
        on_cleanup(move || {
            // The whole sheet may be going.
            let _ = items.items.try_update_value(|items| items.retain(|(other, _)| *other != step));
        });
    }

    /// Has the coat that is being added begin with its powders drawn out.
    pub fn draw_out_powders_of(&self, step: Step) {
        self.added.set_value(Some(step));
    }

    /// What a step begins with.
    pub fn first_drawer(&self, step: Step) -> Option<CoatDrawer> {
        let is_new = self.added.get_value() == Some(step);
        if is_new {
            self.added.set_value(None);
        }
        is_new.then_some(CoatDrawer::Powders)
    }

    /// Brings a step to the top, once it is there.
    pub fn show(&self, step: Step) {
        self.once_there(step, |item| item.scroll_into_view());
    }

    /// Brings as much of a step as fits into view, once it has unfolded.
    pub fn show_whole(&self, step: Step) {
        self.once_there(step, |item| {
            let options = ScrollIntoViewOptions::new();
            options.set_block(ScrollLogicalPosition::Nearest);
            item.scroll_into_view_with_scroll_into_view_options(&options);
        });
    }

    fn once_there(self, step: Step, scroll: fn(&web_sys::HtmlLiElement)) {
        request_animation_frame(move || {
            let found = self.items.try_with_value(|items| {
                items.iter().find(|(other, _)| *other == step).and_then(|(_, item)| item.get_untracked())
            });
            if let Some(item) = found.flatten() {
                scroll(&item);
            }
        });
    }
}

/// Opens the ticket where it can be seen, however far the list is scrolled, or closes it.
pub fn toggle_ticket(nav: Nav, items: StepItems) {
    nav.toggle_step(Step::Ticket);
    items.show(Step::Ticket);
}
