//! The words under the disc: what the hand can do to the open coat or to the accents.

use super::sponge::WIDTHS;
use super::{ByHand, Laying};
use crate::choice::table_word;
use crate::dom::{El, el, memo};
use crate::words;
use dappledome::base::notice::Step;
use dappledome::base::units::Mm;
use dappledome::preview::Point;
use dappledome::recipe::{Fall, Patches, Place};
use leptos::prelude::*;
use web_sys::KeyboardEvent;

#[derive(Clone, Copy, PartialEq)]
enum Shown {
    Nothing,
    /// Only the sponge can be taken.
    Sponge,
    Patches {
        id: u32,
        by_hand: bool,
    },
    Accents {
        by_hand: bool,
    },
    /// The sponge is in the hand; whether powder was rubbed off.
    Sponging(bool),
}

impl ByHand {
    /// Whether the line under the disc says anything.
    pub fn has_line(&self) -> bool {
        self.shown() != Shown::Nothing
    }

    fn shown(&self) -> Shown {
        let recipe = self.bench.recipe;
        if self.sponging().is_some() {
            return Shown::Sponging(recipe.with(|recipe| !recipe.sponged_off.is_empty()));
        }
        match self.laying.get() {
            Some(Laying::Patches(id)) => {
                let moved = |coat: &dappledome::recipe::Coat| !coat.layout.by_hand.is_empty();
                Shown::Patches { id, by_hand: recipe.with(|recipe| recipe.coat(id).is_some_and(moved)) }
            }
            Some(Laying::Accents) => Shown::Accents {
                by_hand: recipe
                    .with(|recipe| recipe.accents.as_ref().is_some_and(|all| all.layout.by_hand())),
            },
            None => {
                let about_powder = matches!(self.bench.open.get(), Some(Step::Sponge | Step::Coat(_)));
                if about_powder { Shown::Sponge } else { Shown::Nothing }
            }
        }
    }
}

/// The line.
pub fn line(hand: ByHand) -> El {
    let shown = memo(move || hand.shown());
    let of = move || match shown.get() {
        Shown::Nothing => Vec::new(),
        Shown::Sponge => vec![sponge(hand)],
        Shown::Patches { id, by_hand } => of_patches(hand, id, by_hand),
        Shown::Accents { by_hand } => of_accents(hand, by_hand),
        Shown::Sponging(rubbed) => of_sponge(hand, rubbed),
    };
    el("div", "hand-line")
        .is("role", "group")
        .is("aria-label", words::BY_HAND)
        .class_when("hidden", move || shown.get() == Shown::Nothing)
        .on("keydown", move |event: &KeyboardEvent| {
            if event.key() == "Escape" && hand.key(event) {
                event.prevent_default();
                event.stop_propagation();
            }
        })
        .holds(of)
}

fn sponge(hand: ByHand) -> El {
    table_word(words::SPONGE_OFF_BY_HAND, move || hand.take_sponge())
}

/// Where the next thing is laid: where the glass was last tapped, or at the crown.
fn tapped(hand: ByHand) -> Place {
    match hand.bench.sampling.get_untracked() {
        Point::Place(x, y) => [x.into(), y.into()],
        Point::Seen(..) => [0.0; 2],
    }
}

fn of_patches(hand: ByHand, id: u32, by_hand: bool) -> Vec<El> {
    let bench = hand.bench;
    let powder = hand.powder();
    let mirror = move || {
        bench.edit("mirror", &|recipe| {
            if let Some(coat) = recipe.coat_mut(id) {
                coat.layout.mirrored = !coat.layout.mirrored;
            }
        });
    };
    let add = {
        let name = words::patch_added(&powder);
        move || {
            let (seed, at) = (bench.seed.get_untracked(), tapped(hand));
            bench.edit(&name, &|recipe| {
                let Some(coat) = recipe.coat_mut(id) else { return };
                let Fall::Patches(Patches { size: across, .. }) = coat.fall else { return };
                // A coat that was laid full takes no more.
                let _ = coat.add_patch(seed, at, across);
            });
        }
    };
    let back = move || {
        bench.edit(words::BACK_TO_HOW_IT_FELL_STEP, &|recipe| {
            if let Some(coat) = recipe.coat_mut(id) {
                coat.back_to_how_it_fell();
            }
        });
    };
    let mut all = vec![
        table_word(&words::mirror_coat(&powder), mirror),
        table_word(words::ADD_A_PATCH, add),
        sponge(hand),
    ];
    if by_hand {
        all.push(table_word(words::BACK_TO_HOW_IT_FELL, back));
    }
    all
}

fn of_accents(hand: ByHand, by_hand: bool) -> Vec<El> {
    let bench = hand.bench;
    let add = move || {
        let (seed, at) = (bench.seed.get_untracked(), tapped(hand));
        bench.edit(words::ACCENT_ADDED, &|recipe| {
            let Some(accents) = &mut recipe.accents else { return };
            let size = Mm((accents.grade_from.0 + accents.grade_to.0) / 2.0);
            // A ring that is full takes no more.
            let _ = accents.add_accent(seed, at, size, None);
        });
    };
    let back = move || {
        bench.edit(words::BACK_TO_HOW_IT_FELL_STEP, &|recipe| {
            if let Some(accents) = &mut recipe.accents {
                accents.back_to_how_they_fell();
            }
        });
    };
    let mut all = vec![table_word(words::ADD_AN_ACCENT, add)];
    if by_hand {
        all.push(table_word(words::BACK_TO_HOW_THEY_FELL, back));
    }
    all
}

fn of_sponge(hand: ByHand, rubbed: bool) -> Vec<El> {
    let bench = hand.bench;
    let width = |width: f64| {
        let chosen = move || hand.sponge.get().is_some_and(|sponge| sponge.width == width);
        table_word(&words::sponge_width(width), move || hand.widen(width)).live_flag("aria-pressed", chosen)
    };
    let mut all: Vec<El> = WIDTHS.into_iter().map(width).collect();
    if rubbed {
        let put_back = move || bench.edit(words::POWDER_PUT_BACK, &|recipe| recipe.sponged_off.clear());
        all.push(table_word(words::PUT_POWDER_BACK, put_back));
    }
    all.push(table_word(words::DONE, move || hand.lay_sponge_aside()));
    all
}
