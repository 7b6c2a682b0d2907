//! What an open coat shows: its fall and rules, its layout, and what can be done with the coat as a whole.

use super::choice::{button, choice, option, toggle, word};
use super::dom::{El, el, memo};
use super::finer::{finer, rules};
use super::parts::{self, Jar};
use super::rules::coat::{self as tables};
use super::rules::{Place, Rule};
use super::state::Bench;
use super::step::Unfolded;
use super::words;
use dappledome::base::notice::Step;
use dappledome::base::units::Mm;
use dappledome::recipe::limits::{self, MOST_COATS};
use dappledome::recipe::{Coat, Fall, Patches, ThickAndThin};
use leptos::prelude::*;
use std::mem::discriminant;

/// The body of the coat with this id.
pub fn coat(bench: Bench, id: u32, unfolded: RwSignal<Unfolded>) -> El {
    let kind = memo(move || {
        bench.recipe.with(|recipe| {
            recipe.coat(id).map(|coat| match coat.fall {
                Fall::Even { .. } => 0,
                Fall::Patches(_) => 1,
                Fall::ThickAndThin(_) => 2,
            })
        })
    });
    el("div", "body")
        .when(move || unfolded.get() == Unfolded::Powders, move || parts::jars(bench, Jar::Coat(id)))
        .when(move || unfolded.get() == Unfolded::Coat, move || menu(bench, id))
        .with(falls(bench, id))
        .holds(move || kind.get().map(|kind| of_kind(bench, id, kind)).unwrap_or_default())
        .with(layout(bench, id))
        .with(weights(bench, id))
}

type Finer = &'static [&'static [Rule]];

fn of_kind(bench: Bench, id: u32, kind: usize) -> Vec<El> {
    const FINER: [Finer; 3] = [
        &[tables::EVEN_FINER, tables::LAYOUT],
        &[tables::PATCHES_FINER, tables::LAYOUT],
        &[tables::THICK_AND_THIN_FINER, tables::LAYOUT],
    ];
    let first = [tables::EVEN, tables::PATCHES, tables::THICK_AND_THIN][kind];
    let place = Place { coat: id, at: 0 };
    vec![rules(bench, first, place), finer(bench, FINER[kind], place, Some(blend))]
}

fn blend(bench: Bench, place: Place) -> El {
    parts::blend(bench, Jar::Coat(place.coat), words::BLEND, words::BLEND_IN)
}

fn falls(bench: Bench, id: u32) -> El {
    let kinds = [
        Fall::Even { depth: Mm(limits::EVEN_DEPTH.usual) },
        Fall::Patches(Patches::usual()),
        Fall::ThickAndThin(ThickAndThin::usual()),
    ];
    let options = kinds.into_iter().map(|fall| {
        let kind = discriminant(&fall);
        let is = move |coat: &Coat| discriminant(&coat.fall) == kind;
        let chosen = move || bench.recipe.with(|recipe| recipe.coat(id).is_some_and(is));
        let word = words::fall(&fall);
        let choose = move || {
            if !bench.recipe.with_untracked(|recipe| recipe.coat(id).is_some_and(is)) {
                bench.edit(words::did::FALL, &|recipe| {
                    if let Some(coat) = recipe.coat_mut(id) {
                        fall_otherwise(coat, &fall);
                    }
                });
            }
        };
        option(word, chosen, choose)
    });
    choice(words::HOW_IT_FALLS, options)
}

/// Lets a coat fall in another way. What was usual for the old way becomes usual for the new one.
fn fall_otherwise(coat: &mut Coat, fall: &Fall) {
    let usual = |fall: &Fall| match fall {
        Fall::Patches(_) => limits::PATCH_UNEVENNESS.usual,
        Fall::Even { .. } | Fall::ThickAndThin(_) => limits::UNEVENNESS.usual,
    };
    if coat.unevenness == usual(&coat.fall) {
        coat.unevenness = usual(fall);
    }
    coat.fall = fall.clone();
}

fn layout(bench: Bench, id: u32) -> El {
    let powder =
        memo(move || bench.recipe.with(|recipe| recipe.coat(id).map(|coat| words::blend(&coat.powder))));
    let locked = move || {
        bench.recipe.with(|recipe| recipe.coat(id).is_some_and(|coat| coat.layout.locked_to.is_some()))
    };
    let lock = move || {
        let seed = bench.seed.get_untracked();
        bench.edit(words::did::LOCK, &|recipe| {
            if let Some(coat) = recipe.coat_mut(id) {
                if coat.layout.locked_to.is_some() {
                    coat.unlock();
                } else {
                    coat.lock(seed);
                }
            }
        });
    };
    let mirrored =
        move || bench.recipe.with(|recipe| recipe.coat(id).is_some_and(|coat| coat.layout.mirrored));
    let mirror = move || {
        bench.edit(words::did::MIRROR, &|recipe| {
            if let Some(coat) = recipe.coat_mut(id) {
                coat.layout.mirrored = !coat.layout.mirrored;
            }
        });
    };
    let reroll = move || {
        bench.edit(words::did::REROLL, &|recipe| {
            if let Some(coat) = recipe.coat_mut(id) {
                coat.sift_again();
            }
        });
    };
    let again = move || powder.get().map(|powder| button(&words::reroll(&powder), reroll));
    el("div", "buttons")
        .with(toggle(words::LOCK, locked, lock))
        .holds(move || again().into_iter().collect())
        .with(toggle(words::MIRROR, mirrored, mirror))
}

fn weights(bench: Bench, id: u32) -> El {
    let said = move || {
        bench.ticket.with(|ticket| {
            let coat = ticket.as_ref()?.coats.iter().find(|coat| coat.id == id)?;
            Some(words::coat_weights(coat.sifted.0, coat.left.0))
        })
    };
    el("p", "aside").reads(move || said().unwrap_or_default())
}

fn menu(bench: Bench, id: u32) -> El {
    let move_by = move |by: isize| {
        bench.edit(words::did::ORDER, &|recipe| {
            let Some(at) = recipe.coats.iter().position(|coat| coat.id == id) else { return };
            let to = at.saturating_add_signed(by).min(recipe.coats.len() - 1);
            recipe.coats.swap(at, to);
        });
    };
    let copy = move || {
        bench.edit(words::did::COPY, &|recipe| {
            let free = recipe.free_coat_id();
            let Some(at) = recipe.coats.iter().position(|coat| coat.id == id) else { return };
            if recipe.coats.len() < MOST_COATS {
                let copy = Coat { id: free, ..recipe.coats[at].clone() };
                recipe.coats.insert(at + 1, copy);
            }
        });
    };
    let take_out = move || {
        if bench.open.get_untracked() == Some(Step::Coat(id)) {
            bench.open.set(None);
        }
        bench.edit(words::did::COAT_OUT, &|recipe| recipe.coats.retain(|coat| coat.id != id));
    };
    el("div", "coat-menu")
        .with(word(words::MOVE_EARLIER, move || move_by(-1)))
        .with(word(words::MOVE_LATER, move || move_by(1)))
        .with(word(words::COPY, copy))
        .with(word(words::TAKE_OUT, take_out))
}
