//! Lays on the table what came from outside, or says why not; the piece on the table stays until then.

use super::sort::Refused;
use crate::model::ids::AreaId;
use crate::model::records::Origin;
use crate::state::glasses::OwnGlasses;
use crate::state::nav::{Nav, Refusal};
use crate::state::orders::Orders;
use crate::state::saving::Saving;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::orders::bench::Bench;
use dappledome::orders::model::Order;
use dappledome::recipe::piece::Piece;
use dappledome::recipe::shelf::Shelf;
use leptos::prelude::*;

/// Where it goes.
#[derive(Clone, Copy)]
pub struct Intake {
    piece: Workpiece,
    orders: Orders,
    glasses: OwnGlasses,
    nav: Nav,
    saving: Saving,
}

impl Intake {
    /// Takes the contexts of the page.
    pub fn of_contexts() -> Self {
        Self {
            piece: expect_context(),
            orders: expect_context(),
            glasses: expect_context(),
            nav: expect_context(),
            saving: expect_context(),
        }
    }

    /// Takes up a piece.
    pub fn take_up(&self, piece: &Piece, origin: Origin) {
        self.piece.take_up(&words::opening(&piece.recipe.title), None, piece);
        self.nav.close_panel();
        self.piece.origin.set(Some(origin));
    }

    /// Takes an order in and opens it. The bench that it may have with it is given back.
    pub fn take_order(&self, order: Order) -> Bench {
        let (order, bench) = Bench::lifted_off(order);
        self.orders.begin(order);
        self.nav.close_panel();
        self.nav.open_area(AreaId::ORDER);
        bench
    }

    /// Puts glasses on the shelf, beside those that are there, and shows it.
    pub fn take_glasses(&self, shelf: &Shelf) {
        match self.glasses.bring_in(shelf) {
            Ok(new) => {
                self.nav.close_panel();
                self.nav.open_area(AreaId::SHELF);
                self.saving.note.set(words::glasses_came(new, shelf.unread().as_ref()));
            }
            Err(reason) => self.refuse(Refused { what: words::GLASSES_REFUSED.into(), reason }),
        }
    }

    /// Says why nothing was taken up.
    pub fn refuse(&self, Refused { what, reason }: Refused) {
        let why = self.piece.recipe.with_untracked(|recipe| words::refused(&reason, &recipe.title));
        self.nav.refuse(Refusal { what, why });
    }
}
