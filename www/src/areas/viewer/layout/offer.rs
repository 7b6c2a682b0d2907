//! What the line under the disc offers.

use super::state::HandLayout;
use super::things::Laying;
use dappledome::base::notice::Step;
use dappledome::recipe::Coat;
use leptos::prelude::*;

/// What the line under the disc offers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Offer {
    /// Nothing: there is no line.
    Nothing,
    /// Only the sponge can be taken.
    Sponge,
    /// What can be done to the patches of a coat.
    Patches {
        /// The coat.
        id: u32,
        /// Whether the hand did something to it already.
        by_hand: bool,
    },
    /// What can be done to the accents.
    Accents {
        /// Whether the hand did something to them already.
        by_hand: bool,
    },
    /// The sponge is in the hand.
    Sponging {
        /// Whether powder was rubbed off.
        rubbed: bool,
    },
}

/// Whether the line under the disc says anything.
pub fn has_line(layout: HandLayout) -> bool {
    offer(layout) != Offer::Nothing
}

/// What the line offers now.
pub fn offer(layout: HandLayout) -> Offer {
    let recipe = layout.piece.recipe;
    if layout.sponging().is_some() {
        return Offer::Sponging { rubbed: !recipe.read().sponged_off.is_empty() };
    }
    match layout.laying.get() {
        Some(Laying::Patches(id)) => {
            let moved = |coat: &Coat| !coat.layout.by_hand.is_empty();
            Offer::Patches { id, by_hand: recipe.read().coat(id).is_some_and(moved) }
        }
        Some(Laying::Accents) => {
            Offer::Accents { by_hand: recipe.read().accents.as_ref().is_some_and(|all| all.layout.by_hand()) }
        }
        None if matches!(layout.nav.step.get(), Some(Step::Sponge | Step::Coat(_))) => Offer::Sponge,
        None => Offer::Nothing,
    }
}
