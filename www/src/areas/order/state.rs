//! What the parts of an order share.

use crate::services::ordering::Ordering;
use crate::state::announcer::Announcer;
use crate::state::glasses::OwnGlasses;
use crate::state::kilns::Kilns;
use crate::state::nav::Nav;
use crate::state::orders::Orders;
use crate::state::preferences::Preferences;
use crate::state::workpiece::Workpiece;
use dappledome::base::seed::Seed;
use dappledome::glass::glasses::Glasses;
use dappledome::orders::bench::Bench;
use dappledome::orders::model::{Line, Order};
use dappledome::orders::worked::Worked;
use leptos::prelude::*;

/// What the detail shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The layouts, and what one costs.
    Pieces,
    /// Sheets and loads.
    Cut,
    /// Grams.
    Weigh,
    /// Loads.
    Kiln,
    /// The maker's hours.
    Hours,
    /// Stems and joints.
    Stems,
}

/// A bar that is lifted off its day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lifted {
    /// Which doing.
    pub at: usize,
    /// Over which day, counted from the first.
    pub day: usize,
}

/// What the parts of an order share.
#[derive(Clone, Copy)]
pub struct OrderState {
    /// The orders, and the one that is open.
    pub orders: Orders,
    /// The piece on the table.
    pub piece: Workpiece,
    /// Where the maker is.
    pub nav: Nav,
    /// The maker's own glasses.
    own_glasses: OwnGlasses,
    /// The kiln.
    pub kilns: Kilns,
    /// Units.
    pub preferences: Preferences,
    /// The live region.
    pub announcer: Announcer,
    /// Picks layouts.
    pub ordering: Ordering,
    /// Whose rows are shown, of the lines.
    pub line: RwSignal<usize>,
    /// What the detail shows.
    pub part: RwSignal<Part>,
    /// The layout that was pressed last.
    pub pressed: RwSignal<usize>,
    /// The doing that the keys are at.
    pub at: RwSignal<usize>,
    /// The bar that is lifted.
    pub lifted: RwSignal<Option<Lifted>>,
    /// Whether changed recipes are to be left alone.
    pub as_ordered: RwSignal<bool>,
    /// Whether the bench of the day is shown in its place; nobody has said if none.
    pub today: RwSignal<Option<bool>>,
    /// The piece that the maker has gone to at the bench; the first that is not done if none.
    pub shown: RwSignal<Option<(usize, u32, Seed)>>,
    /// What there is to say of a number that was typed.
    pub said: RwSignal<Option<String>>,
}

impl OrderState {
    /// At rest. Takes the contexts of the page.
    pub fn new() -> Self {
        Self {
            orders: expect_context(),
            piece: expect_context(),
            nav: expect_context(),
            own_glasses: expect_context(),
            kilns: expect_context(),
            preferences: expect_context(),
            announcer: expect_context(),
            ordering: Ordering::of_contexts(),
            line: RwSignal::new(0),
            part: RwSignal::new(Part::Pieces),
            pressed: RwSignal::new(0),
            at: RwSignal::new(0),
            lifted: RwSignal::new(None),
            as_ordered: RwSignal::new(false),
            today: RwSignal::new(None),
            shown: RwSignal::new(None),
            said: RwSignal::new(None),
        }
    }

    /// Which line is shown, followed: there may be fewer by now.
    pub fn line(&self) -> usize {
        let lines = self.orders.with(|order| order.lines.len()).unwrap_or(0);
        self.line.get().min(lines.saturating_sub(1))
    }

    /// Something of the shown line, followed.
    pub fn of_line<T>(&self, look: impl FnOnce(&Line) -> T) -> Option<T> {
        let at = self.line();
        self.orders.with(|order| order.lines.get(at).map(look)).flatten()
    }

    /// The glasses that the order and the maker have names for, followed.
    pub fn glasses(&self) -> Glasses {
        self.own_glasses.named_with(&self.orders.with(Order::glasses).unwrap_or_default())
    }

    /// Something of what the order comes to, followed.
    pub fn worked<T>(&self, look: impl FnOnce(&Worked) -> T) -> Option<T> {
        self.orders.worked.with(|worked| worked.as_ref().map(|worked| look(worked)))
    }

    /// Changes the order.
    pub fn edit(&self, name: &str, change: impl FnOnce(&mut Order)) {
        self.said.set(None);
        self.orders.edit(name, change);
    }

    /// Changes the bench, or says why not.
    pub fn edit_bench(&self, name: &str, change: impl FnOnce(&mut Bench)) {
        let fault = self.orders.edit_bench(name, change).err();
        self.said.set(fault);
    }

    /// Shows another detail, or none if it is shown.
    pub fn show(&self, part: Part) {
        self.part.update(|now| *now = if *now == part { Part::Pieces } else { part });
    }
}
