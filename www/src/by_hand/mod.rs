//! Layout by hand on the flat glass: the open coat's patches, or the accents, outlined to be moved and taken off; a
//! knob that turns the coat; the corner of a sponge.

mod drag;
mod handles;
mod line;
mod map;
mod marks;
mod sponge;

pub use handles::handles;
pub use line::line;
pub use marks::marks;
pub use sponge::ring;

use super::dom::memo;
use super::state::{Area, Bench};
use super::words;
use dappledome::base::notice::Step;
use dappledome::base::seed::Seed;
use dappledome::base::units::fixed;
use dappledome::layup::accents::{self, Accent};
use dappledome::layup::outlines::{LyingPatch, lying};
use dappledome::picture::view::Stage;
use dappledome::recipe::plan::SiftPlan;
use dappledome::recipe::{Coat, Fall, Place, Recipe, WhichAccent, WhichPatch};
use drag::Drag;
use leptos::prelude::*;
use sponge::Sponging;
use std::sync::Arc;

/// What can be laid by hand now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Laying {
    /// The patches of the coat with this id.
    Patches(u32),
    /// The accents.
    Accents,
}

/// What to call a thing by that lies there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Which {
    /// A patch of the open coat.
    Patch(WhichPatch),
    /// An accent.
    Accent(WhichAccent),
}

/// A thing that can be moved.
#[derive(Clone, Debug, PartialEq)]
pub struct Thing {
    /// What to call it by.
    pub which: Which,
    /// Its middle on the disc, mm.
    pub middle: [f32; 2],
    /// What it is, in words.
    pub name: String,
    /// Its outline on the disc as a path of lines, mm.
    pub path: String,
}

/// What the parts of the layout by hand share.
#[derive(Clone, Copy)]
pub struct ByHand {
    /// The page.
    pub bench: Bench,
    /// What can be laid now; nothing on the dome.
    pub laying: Memo<Option<Laying>>,
    /// What lies there, lowest first. It stays while a drag is under way.
    things: Memo<Arc<Vec<Thing>>>,
    patches: Memo<Arc<Vec<LyingPatch>>>,
    accents: Memo<Vec<Accent>>,
    drag: RwSignal<Option<Drag>>,
    /// The pointer that is still down after its drag was put back; it does nothing more.
    spent: StoredValue<Option<i32>>,
    /// What has the focus.
    focused: RwSignal<Option<Which>>,
    /// The sponge in the hand.
    sponge: RwSignal<Option<Sponging>>,
}

impl ByHand {
    /// Nothing held yet.
    pub fn new(bench: Bench) -> Self {
        let laying = memo(move || laying(bench));
        let drag: RwSignal<Option<Drag>> = RwSignal::new(None);
        let patches = patches(bench, laying, drag);
        let accents = memo(move || {
            let here = laying.get() == Some(Laying::Accents);
            let seed = bench.seed.get();
            let plan = move || bench.board.with(|board| board.made.1.accents.clone());
            plan().filter(|_| here).map_or_else(Vec::new, |plan| accents::place(&plan, seed))
        });
        let things = Memo::new_with_compare(
            move |_| {
                let powder = coat_name(bench, laying.get());
                let mut all: Vec<Thing> =
                    patches.with(|list| list.iter().map(|one| patch_thing(&powder, one)).collect());
                all.extend(accents.get().iter().map(accent_thing));
                Arc::new(all)
            },
            |old, new| old != new,
        );
        let (focused, sponge) = (RwSignal::new(None), RwSignal::new(None));
        let spent = StoredValue::new(None);
        Self { bench, laying, things, patches, accents, drag, spent, focused, sponge }
    }

    /// Something about a thing that lies there; none if it does no more.
    fn of_thing<T>(&self, which: Which, about: impl FnOnce(&Thing) -> T) -> Option<T> {
        self.things.with(|things| things.iter().find(|thing| thing.which == which).map(about))
    }

    /// The coat whose patches can be laid.
    fn coat(&self) -> Option<u32> {
        match self.laying.get() {
            Some(Laying::Patches(id)) => Some(id),
            _ => None,
        }
    }

    /// Moves a thing from where it lies by so much on the disc.
    fn shift(&self, which: Which, by: Place) {
        let Some(middle) = untrack(|| self.of_thing(which, |thing| thing.middle)) else { return };
        let (hand, seed) = (*self, self.bench.seed.get_untracked());
        self.bench.edit(&untrack(|| hand.move_name()), &|recipe| {
            hand.moved(recipe, seed, which, middle, by);
        });
    }

    /// Moves a thing in a recipe, from this place by so much.
    fn moved(&self, recipe: &mut Recipe, seed: Seed, which: Which, from: [f32; 2], by: Place) {
        // What has no room any more stays where it is.
        let _ = match which {
            Which::Patch(patch) => untrack(|| self.coat())
                .and_then(|id| recipe.coat_mut(id))
                .is_some_and(|coat| coat.move_patch(seed, patch, by)),
            Which::Accent(accent) => {
                let to = [f64::from(from[0]) + by[0], f64::from(from[1]) + by[1]];
                recipe.accents.as_mut().is_some_and(|accents| accents.move_accent(seed, accent, to))
            }
        };
    }

    /// Takes a thing off.
    fn take_off(&self, which: Which) {
        let (seed, id) = (self.bench.seed.get_untracked(), untrack(|| self.coat()));
        let name = untrack(|| words::off_step(&coat_name(self.bench, self.laying.get())));
        self.bench.edit(&name, &|recipe| {
            let _ = match which {
                Which::Patch(patch) => {
                    id.and_then(|id| recipe.coat_mut(id)).is_some_and(|coat| coat.take_off_patch(seed, patch))
                }
                Which::Accent(accent) => {
                    recipe.accents.as_mut().is_some_and(|accents| accents.take_off_accent(seed, accent))
                }
            };
        });
    }

    fn move_name(&self) -> String {
        words::move_step(&coat_name(self.bench, self.laying.get()))
    }
}

fn laying(bench: Bench) -> Option<Laying> {
    let flat = bench.stage.get() != Stage::Domed && bench.area.get() == Area::Piece;
    match bench.open.get().filter(|_| flat)? {
        Step::Coat(id) => {
            let patchy = |coat: &Coat| matches!(coat.fall, Fall::Patches(_));
            let has = bench.recipe.with(|recipe| recipe.coat(id).is_some_and(patchy));
            has.then_some(Laying::Patches(id))
        }
        Step::Accents => Some(Laying::Accents),
        _ => None,
    }
}

/// The powder of the coat, in words; empty for accents.
fn coat_name(bench: Bench, laying: Option<Laying>) -> String {
    let Some(Laying::Patches(id)) = laying else { return String::new() };
    bench.recipe.with(|recipe| words::powder_of(recipe, id))
}

/// The patches, found anew only when the coat falls otherwise, and not while the hand moves one: what is held is drawn
/// where the hand has it.
fn patches(
    bench: Bench,
    laying: Memo<Option<Laying>>,
    drag: RwSignal<Option<Drag>>,
) -> Memo<Arc<Vec<LyingPatch>>> {
    let dragging = memo(move || drag.with(Option::is_some));
    let falls: Memo<Option<(SiftPlan, Seed)>> = memo(move || {
        let Some(Laying::Patches(id)) = laying.get() else { return None };
        let seed = bench.seed.get();
        bench.board.with(|board| {
            let coat = board.made.1.coats.iter().find(|coat| coat.sift.id == id)?;
            Some((coat.sift.clone(), coat.sift.layout.locked_to.unwrap_or(seed)))
        })
    });
    Memo::new_with_compare(
        move |last: Option<&Arc<Vec<LyingPatch>>>| {
            let falls = falls.get();
            match (dragging.get(), last) {
                (true, Some(last)) => last.clone(),
                _ => Arc::new(falls.map_or_else(Vec::new, |(plan, seed)| lying(&plan, seed))),
            }
        },
        |old, new| old != new,
    )
}

fn patch_thing(powder: &str, patch: &LyingPatch) -> Thing {
    let mut path = String::new();
    for outline in &patch.outlines {
        for (at, [x, y]) in outline.iter().enumerate() {
            path.push_str(&format!("{}{} {}", if at == 0 { 'M' } else { 'L' }, fixed(*x, 2), fixed(*y, 2)));
        }
        path.push('Z');
    }
    let name = words::patch(powder, patch.share, patch.middle);
    Thing { which: Which::Patch(patch.which), middle: patch.middle, name, path }
}

fn accent_thing(accent: &Accent) -> Thing {
    // A little wider than the glass, so that the glass is seen within.
    let r = 0.5 * accent.size + 0.8;
    let (x, y) = (accent.x, accent.y);
    let path = format!(
        "M{} {}a{} {} 0 1 0 {} 0a{} {} 0 1 0 {} 0",
        fixed(x - r, 2),
        fixed(y, 2),
        fixed(r, 2),
        fixed(r, 2),
        fixed(2.0 * r, 2),
        fixed(r, 2),
        fixed(r, 2),
        fixed(-2.0 * r, 2)
    );
    Thing { which: Which::Accent(accent.which), middle: [x, y], name: words::accent([x, y]), path }
}
