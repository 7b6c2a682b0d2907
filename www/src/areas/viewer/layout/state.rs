//! What the parts of the layout by hand share.

use super::drag::Drag;
use super::things::{Laying, Thing, Which};
use super::tool::HeldSponge;
use crate::areas::viewer::map::Map;
use crate::model::ids::AreaId;
use crate::state::announcer::Announcer;
use crate::state::nav::Nav;
use crate::state::preferences::Preferences;
use crate::state::viewing::Viewing;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::notice::Step;
use dappledome::base::seed::Seed;
use dappledome::base::shown::Units;
use dappledome::layup::accents::{self, Accent};
use dappledome::layup::outlines::{LyingPatch, lying};
use dappledome::recipe::plan::SiftPlan;
use dappledome::recipe::{Coat, Fall};
use leptos::html;
use leptos::prelude::*;
use std::sync::Arc;

/// The layout by hand.
#[derive(Clone, Copy)]
pub struct HandLayout {
    /// The piece.
    pub piece: Workpiece,
    /// How it is looked at.
    pub viewing: Viewing,
    /// What is open.
    pub nav: Nav,
    /// The units of what is said.
    pub units: RwSignal<Units>,
    /// Says the keys of the sponge.
    pub announcer: Announcer,
    /// The large picture, which has the focus while the sponge is in the hand.
    pub glass: NodeRef<html::Div>,
    /// The knob of the open coat.
    pub knob: NodeRef<html::Button>,
    /// What can be laid now; nothing on the dome.
    pub laying: Memo<Option<Laying>>,
    /// What lies there, lowest first. It stays while a drag is under way.
    pub things: Memo<Arc<Vec<Thing>>>,
    /// The patches among them.
    pub patches: Memo<Arc<Vec<LyingPatch>>>,
    /// The accents among them.
    pub accents: Memo<Vec<Accent>>,
    /// The drag under way.
    pub drag: RwSignal<Option<Drag>>,
    /// The pointer that is still down after its drag was put back; it does nothing more.
    pub spent: StoredValue<Option<i32>>,
    /// What has the focus.
    pub focused: RwSignal<Option<Which>>,
    /// What was just added: it takes the focus as it comes.
    pub fresh: StoredValue<Option<Which>>,
    /// The sponge in the hand.
    pub sponge: RwSignal<Option<HeldSponge>>,
}

impl HandLayout {
    /// Nothing held yet. Takes the contexts of the page.
    pub fn new() -> Self {
        let (piece, viewing, nav) = (expect_context::<Workpiece>(), expect_context(), expect_context());
        let laying = Memo::new(move |_| laying(piece, viewing, nav));
        let units = expect_context::<Preferences>().units;
        let drag: RwSignal<Option<Drag>> = RwSignal::new(None);
        let dragging = Memo::new(move |_| drag.read().is_some());
        let falls = Memo::new(move |_| fall(piece, laying.get()));
        let patches =
            still_while(dragging, move || Arc::new(falls.get().map_or_else(Vec::new, lying_patches)));
        let accents = still_while(dragging, move || accents_of(piece, laying.get()));
        Self {
            piece,
            viewing,
            nav,
            units,
            announcer: expect_context(),
            glass: NodeRef::new(),
            knob: NodeRef::new(),
            laying,
            things: Memo::new(move |_| {
                let (powder, units) = (powder_of(piece, laying.get()), units.get());
                let mut all: Vec<Thing> =
                    patches.read().iter().map(|patch| Thing::patch(&powder, patch, units)).collect();
                all.extend(accents.read().iter().map(|accent| Thing::accent(accent, units)));
                Arc::new(all)
            }),
            patches,
            accents,
            drag,
            spent: StoredValue::new(None),
            focused: RwSignal::new(None),
            fresh: StoredValue::new(None),
            sponge: RwSignal::new(None),
        }
    }

    /// Something about a thing that lies there; none if it does no more.
    pub fn of_thing<T>(&self, which: Which, about: impl FnOnce(&Thing) -> T) -> Option<T> {
        self.things.read().iter().find(|thing| thing.which == which).map(about)
    }

    /// Selects what was added last.
    pub fn select_added(&self) {
        let added = self.things.with_untracked(|all| all.iter().map(|one| one.which).rfind(Which::is_added));
        self.fresh.set_value(added);
        self.focused.set(added);
    }

    /// The coat whose patches can be laid.
    pub fn coat(&self) -> Option<u32> {
        match self.laying.get() {
            Some(Laying::Patches(id)) => Some(id),
            _ => None,
        }
    }

    /// Its powder, in words; empty for accents.
    pub fn powder(&self) -> String {
        powder_of(self.piece, self.laying.get())
    }

    /// How far it is turned, degrees.
    pub fn turn_of_coat(&self) -> Option<f64> {
        let id = self.coat()?;
        self.piece.recipe.read().coat(id).map(|coat| coat.layout.turned.0)
    }

    /// The sponge in the hand; none on the dome, which cannot be rubbed.
    pub fn sponging(&self) -> Option<HeldSponge> {
        let flat = self.viewing.flat();
        self.sponge.get().filter(|_| flat)
    }

    /// Where things are on the picture.
    pub fn map(&self) -> Map {
        let radius = self.piece.plan.read().made.1.disc.radius();
        Map::new(self.viewing.camera.get(), radius)
    }

    /// The same, outside of what follows it.
    pub fn map_now(&self) -> Map {
        untrack(|| self.map())
    }

    /// Where a place of the disc is seen.
    pub fn seen(&self, place: impl Fn() -> [f32; 2] + Send + Sync + 'static) -> Memo<(f32, f32)> {
        let layout = *self;
        Memo::new(move |_| layout.map().seen(place()))
    }
}

fn laying(piece: Workpiece, viewing: Viewing, nav: Nav) -> Option<Laying> {
    let flat = viewing.flat() && nav.is_on(AreaId::PIECE);
    match nav.step.get().filter(|_| flat)? {
        Step::Coat(id) => {
            let patchy = |coat: &Coat| matches!(coat.fall, Fall::Patches(_));
            let has = piece.recipe.read().coat(id).is_some_and(patchy);
            has.then_some(Laying::Patches(id))
        }
        Step::Accents => Some(Laying::Accents),
        _ => None,
    }
}

fn powder_of(piece: Workpiece, laying: Option<Laying>) -> String {
    let Some(Laying::Patches(id)) = laying else { return String::new() };
    words::powder_of(&piece.recipe.read(), id)
}

fn accents_of(piece: Workpiece, laying: Option<Laying>) -> Vec<Accent> {
    if laying != Some(Laying::Accents) {
        return Vec::new();
    }
    let seed = piece.seed.get();
    let plan = piece.plan.read().made.1.accents.clone();
    plan.map_or_else(Vec::new, |plan| accents::place(&plan, seed))
}

/// What is found, as it was before the drag while one is under way: what is held is drawn where the hand has it.
fn still_while<T: Clone + PartialEq + Send + Sync + 'static>(
    dragging: Memo<bool>,
    find: impl Fn() -> T + Send + Sync + 'static,
) -> Memo<T> {
    Memo::new(move |last: Option<&T>| {
        let dragging = dragging.get();
        match last {
            Some(last) if dragging => last.clone(),
            _ => find(),
        }
    })
}

fn lying_patches((plan, seed): (SiftPlan, Seed)) -> Vec<LyingPatch> {
    lying(&plan, seed)
}

/// How the coat whose patches can be laid falls, and with which seed.
fn fall(piece: Workpiece, laying: Option<Laying>) -> Option<(SiftPlan, Seed)> {
    let Some(Laying::Patches(id)) = laying else { return None };
    let seed = piece.seed.get();
    piece.plan.with(|plan| {
        let coat = plan.made.1.coat(id)?;
        Some((coat.sift.clone(), coat.sift.layout.locked_to.unwrap_or(seed)))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::areas::viewer::layout::drag::{Contact, Grip};
    use dappledome::picture::view::Stage;
    use dappledome::recipe::{Recipe, demo};

    fn layout_of(recipe: Recipe, step: Step) -> HandLayout {
        let nav = Nav::new();
        let viewing = Viewing::new(nav);
        provide_context(nav);
        provide_context(viewing);
        provide_context(Announcer::new());
        provide_context(Preferences::default());
        provide_context(Workpiece::new(nav));
        let layout = HandLayout::new();
        layout.piece.kept.set(recipe);
        viewing.stage.set(Stage::Fused);
        nav.step.set(Some(step));
        layout
    }

    /// What lies there before a change, while it is dragged, and after.
    fn through_a_drag(layout: HandLayout, change: impl FnOnce(&mut Recipe)) -> [Arc<Vec<Thing>>; 3] {
        let at = Contact { pointer: Some(1), px: (0, 0), seen: (0.5, 0.5), place: [0.0; 2] };
        let before = layout.things.get_untracked();
        let recipe = layout.piece.recipe.get_untracked();
        layout.drag.set(Some(Drag::new(Grip::Turn(0.0), &at, recipe)));
        layout.piece.kept.update(change);
        let meanwhile = layout.things.get_untracked();
        layout.drag.set(None);
        [before, meanwhile, layout.things.get_untracked()]
    }

    #[test]
    fn patches_stay_while_a_drag_is_under_way() {
        Owner::new().with(|| {
            let recipe = demo::all().into_iter().next().expect("there is a first one");
            let patchy = |coat: &&Coat| matches!(coat.fall, Fall::Patches(_));
            let id = recipe.coats.iter().find(patchy).expect("it has patches").id;
            let layout = layout_of(recipe, Step::Coat(id));
            let [before, meanwhile, after] = through_a_drag(layout, |recipe| {
                if let Some(coat) = recipe.coat_mut(id) {
                    coat.layout.mirrored = true;
                }
            });
            assert!(!before.is_empty());
            assert_eq!(before, meanwhile);
            assert_ne!(before, after);
        });
    }

    #[test]
    fn accents_stay_while_a_drag_is_under_way() {
        Owner::new().with(|| {
            let recipe = demo::all().into_iter().find(|recipe| recipe.accents.is_some());
            let layout = layout_of(recipe.expect("one has accents"), Step::Accents);
            let which = layout.accents.with_untracked(|accents| accents[0].which);
            let [before, meanwhile, after] = through_a_drag(layout, |recipe| {
                if let Some(accents) = &mut recipe.accents {
                    accents.move_accent(which, [1.0, 2.0]);
                }
            });
            assert_eq!(before, meanwhile);
            assert_ne!(before, after);
        });
    }

    #[test]
    fn nothing_is_laid_on_the_dome_or_beside_the_piece() {
        Owner::new().with(|| {
            let layout = layout_of(Recipe::bare(), Step::Accents);
            assert_eq!(layout.laying.get_untracked(), Some(Laying::Accents));
            layout.nav.open_area(AreaId::SHELF);
            assert_eq!(layout.laying.get_untracked(), None);
            layout.nav.close_area();
            layout.sponge.set(Some(HeldSponge::new()));
            assert!(untrack(|| layout.sponging()).is_some());
            layout.viewing.stage.set(Stage::Domed);
            assert_eq!(layout.laying.get_untracked(), None);
            assert_eq!(untrack(|| layout.sponging()), None);
        });
    }
}
