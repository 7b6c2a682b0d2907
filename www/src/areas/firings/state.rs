//! What the parts of the programs share.

use crate::state::fired::Fired;
use crate::state::kilns::Kilns;
use crate::state::nav::Nav;
use crate::state::preferences::Preferences;
use crate::state::workpiece::Workpiece;
use dappledome::base::firing::{Firing, SegmentName};
use dappledome::kiln::piece::Piece;
use dappledome::kiln::program::Program;
use leptos::prelude::*;

/// What the parts of the programs share.
#[derive(Clone, Copy)]
pub struct ProgramsState {
    /// The recipe.
    pub piece: Workpiece,
    /// What its firings come to.
    pub fired: Fired,
    /// The kiln, and when it is switched on.
    pub kilns: Kilns,
    /// Which program is open.
    pub nav: Nav,
    /// Units.
    pub preferences: Preferences,
    /// The segment that the keyboard or the pointer is at: its part of the curve stands in weight.
    pub pointed: RwSignal<Option<SegmentName>>,
    /// The segment whose reasons are open.
    pub reasons: RwSignal<Option<SegmentName>>,
    /// What there is to say of a number that was typed.
    pub said: RwSignal<Option<String>>,
}

impl ProgramsState {
    /// At rest. Takes the contexts of the page.
    pub fn new() -> Self {
        Self {
            piece: expect_context(),
            fired: expect_context(),
            kilns: expect_context(),
            nav: expect_context(),
            preferences: expect_context(),
            pointed: RwSignal::new(None),
            reasons: RwSignal::new(None),
            said: RwSignal::new(None),
        }
    }

    /// The firings of the recipe, in the order of making, followed.
    pub fn firings(&self) -> Vec<Firing> {
        dappledome::kiln::firings::of(&self.piece.made().1)
    }

    /// The firing whose program is open: the one that was asked for, or else the first, followed.
    pub fn open(&self) -> Firing {
        let asked = self.nav.firing.get();
        if self.firings().contains(&asked) { asked } else { Firing::FullFuse }
    }

    /// Opens another one.
    pub fn show(&self, firing: Firing) {
        self.pointed.set(None);
        self.reasons.set(None);
        self.said.set(None);
        self.nav.firing.set(firing);
    }

    /// The program of a firing, kept up to date.
    pub fn program(self, firing: Firing) -> Memo<Option<Program>> {
        Memo::new(move |_| self.fired.program(firing))
    }

    /// What heat sees of the piece in a firing, followed; none where a glass has no viscosity.
    pub fn seen(&self, firing: Firing) -> Option<Piece> {
        Piece::new(&self.piece.made().1, firing).ok()
    }
}
