//! Begins an order from the piece on the table, and picks the layouts that are made.

use crate::model::ids::AreaId;
use crate::model::slots::PictureSlot;
use crate::services::render::sisters::SisterRenderer;
use crate::state::nav::Nav;
use crate::state::orders::Orders;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::seed::Seed;
use dappledome::orders::begin::{Chosen, like};
use dappledome::orders::model::Order;
use dappledome::shop::sisters::{Features, as_different_as_can_be, nearest};
use leptos::prelude::*;
use std::sync::Arc;

/// So many layouts are looked through.
const POOL: u32 = 48;

/// Which layouts are picked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pick {
    /// The first one and those nearest to it.
    Nearest,
    /// As different as can be.
    Different,
}

/// Begins orders.
#[derive(Clone, Copy)]
pub struct Ordering {
    piece: Workpiece,
    orders: Orders,
    nav: Nav,
    renderer: SisterRenderer,
}

impl Ordering {
    /// Takes the contexts of the page.
    pub fn of_contexts() -> Self {
        Self {
            piece: expect_context(),
            orders: expect_context(),
            nav: expect_context(),
            renderer: expect_context(),
        }
    }

    /// Orders what the ticket is for: as many like the piece on the table.
    pub fn these(&self) {
        let (recipe, seed) = (untrack(|| self.piece.made()).0.clone(), self.piece.seed.get_untracked());
        let pieces = recipe.batch.pieces;
        self.begin(&[Chosen { letter: String::new(), recipe, seed, piece: self.number() }], pieces);
    }

    /// Orders what the customer has chosen.
    pub fn chosen(&self) {
        let piece = self.number();
        let for_ticket = self.piece.recipe.with_untracked(|recipe| recipe.batch.pieces);
        let (chosen, pieces) = self.piece.sisters.with_untracked(|sisters| {
            let (seeds, pieces) = sisters.wanted(for_ticket);
            let one = |seed: &Seed| {
                let recipe = Arc::unwrap_or_clone(sisters.option(*seed)?.recipe.clone());
                Some(Chosen { letter: sisters.letter(*seed)?, recipe, seed: *seed, piece })
            };
            (seeds.iter().filter_map(one).collect::<Vec<_>>(), pieces)
        });
        self.begin(&chosen, pieces);
    }

    /// The number under which the piece on the table is kept.
    fn number(&self) -> Option<u64> {
        self.piece.id.get_untracked().map(|id| id.0)
    }

    fn begin(&self, chosen: &[Chosen], pieces: u32) {
        if chosen.is_empty() {
            return;
        }
        self.orders.begin(like(chosen, pieces));
        self.nav.open_area(AreaId::ORDER);
        if let [_] = chosen {
            let line = untrack(|| self.orders.with(|order| order.lines.len())).unwrap_or(1) - 1;
            let orders = self.orders;
            self.pick(line, Pick::Nearest, move |seeds| orders.amend(|order| take(order, line, seeds)));
        }
    }

    /// Picks the layouts of a line anew; that can be taken back.
    pub fn pick_anew(&self, line: usize, kind: Pick) {
        let orders = self.orders;
        self.pick(line, kind, move |seeds| {
            orders.edit(words::DID_LAYOUTS, |order| take(order, line, seeds));
        });
    }

    fn pick(&self, line: usize, kind: Pick, then: impl FnOnce(Vec<Seed>) + 'static) {
        let seeds = untrack(|| self.orders.with(|order| Some(order.lines.get(line)?.seeds.clone())));
        let seeds = seeds.flatten().unwrap_or_default();
        let Some(first) = seeds.first().copied() else { return };
        let (n, orders, open) = (seeds.len(), self.orders, self.orders.open.get_untracked());
        let pool = POOL.max(2 * n as u32);
        let seeds = (0..pool).map(|after| Seed(first.0.wrapping_add(after))).collect();
        let compared = move |seed| PictureSlot::Compared(line, seed);
        self.renderer.measure(seeds, compared, move |measured| {
            if orders.open.get_untracked() == open {
                let features: Vec<Features> = measured.iter().map(|(_, one)| one.clone()).collect();
                let picked = match kind {
                    Pick::Nearest => nearest(&features, 0, n),
                    Pick::Different => as_different_as_can_be(&features, n),
                };
                then(picked.into_iter().map(|at| measured[at].0).collect());
            }
        });
    }
}

fn take(order: &mut Order, line: usize, seeds: Vec<Seed>) {
    if let Some(line) = order.lines.get_mut(line) {
        line.seeds = seeds;
    }
}
