//! Has sisters drawn by as many workers as there are cores: those that are looked at, and no others.

use super::pool::RenderPool;
use super::program::Program;
use super::request::{Item, Request, Response};
use super::sister_jobs::{MadeBy, SisterJobs};
use crate::dom::timer::Timer;
use crate::model::ids::AreaId;
use crate::model::slots::PictureSlot;
use crate::state::announcer::Announcer;
use crate::state::kilns::Kilns;
use crate::state::nav::Nav;
use crate::state::orders::Orders;
use crate::state::pictures::Pictures;
use crate::state::results::Results;
use crate::state::tray::Tray;
use crate::state::viewing::Viewing;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::seed::Seed;
use dappledome::kiln::data::Kiln;
use dappledome::orders::model::Order;
use dappledome::picture::View;
use dappledome::picture::view::{Light, Stage};
use dappledome::recipe::Recipe;
use dappledome::shop::sisters::Features;
use leptos::prelude::*;
use std::rc::Rc;
use std::sync::Arc;
use std::time::Duration;

/// Side of a sister's picture, pixels: twice its size on the page, for fine screens.
const SIDE: u32 = 224;
/// Side of a lifted sister's picture, pixels.
const LIFTED_SIDE: u32 = 560;
/// Side of an option's picture, pixels: 300 to the inch on paper.
const OPTION_SIDE: u32 = 800;
/// Side of a picture on an order's paper, pixels.
const PRINTED_SIDE: u32 = 560;
/// After a change of the recipe the tray's edge waits so long before it is drawn anew.
const REST: Duration = Duration::from_millis(350);

/// Sisters, and what tells each from the others.
type Measured = Vec<(Seed, Features)>;

/// Who waits until these sisters are weighed and measured, each for its slot.
#[derive(Default)]
struct Waiting {
    sisters: Vec<(Seed, PictureSlot)>,
    then: Option<Box<dyn FnOnce(Measured)>>,
}

/// Calls who waits, if all is known by now.
fn answer(waiting: StoredValue<Waiting, LocalStorage>, results: Results) {
    let all = waiting.with_value(|waiting| {
        let one = |(seed, slot): &(Seed, PictureSlot)| Some((*seed, measured(results, *slot)?));
        waiting.sisters.iter().map(one).collect::<Option<Measured>>()
    });
    let Some(all) = all else { return };
    // Whoever is called may wait for others.
    let waited = waiting.try_update_value(std::mem::take).and_then(|waited| waited.then);
    if let Some(then) = waited {
        then(all);
    }
}

/// What was measured for a slot; none if it is not yet.
fn measured(results: Results, slot: PictureSlot) -> Option<Features> {
    match slot {
        PictureSlot::Compared(line, seed) => {
            results.compared.with_untracked(|known| known.get(&(line, seed)).cloned())
        }
        PictureSlot::Measured(seed) => results.features.with_untracked(|known| known.get(&seed).cloned()),
        _ => None,
    }
}

/// Has the sisters drawn.
#[derive(Clone, Copy)]
pub struct SisterRenderer {
    pool: StoredValue<RenderPool, LocalStorage>,
    jobs: StoredValue<SisterJobs>,
    timer: Timer,
    waiting: StoredValue<Waiting, LocalStorage>,
    piece: Workpiece,
    kilns: Kilns,
    viewing: Viewing,
    nav: Nav,
    orders: Orders,
    results: Results,
    tray: Tray,
    pictures: Pictures,
}

impl SisterRenderer {
    /// Begins to draw what is looked at, as long as the present owner lives. Takes the contexts of the page.
    pub fn start(program: Program) -> Self {
        let (results, pictures): (Results, Pictures) = (expect_context(), expect_context());
        let announcer: Announcer = expect_context();
        let waiting = StoredValue::new_local(Waiting::default());
        let bring = move |response| match response {
            Response::Picture(slot, picture) => pictures.bring(slot, picture),
            Response::Features(slot, features) => {
                match slot {
                    PictureSlot::Compared(line, seed) => {
                        results.compared.update(|known| drop(known.insert((line, seed), features)));
                    }
                    PictureSlot::Sister(seed) | PictureSlot::Measured(seed) => {
                        results.features.update(|known| drop(known.insert(seed, features)));
                    }
                    _ => {}
                }
                answer(waiting, results);
            }
            Response::Stopped => announcer.say(words::STOPPED),
            Response::Ticket(seed, ticket) => results.option_tickets.update(|known| {
                known.insert(seed, *ticket);
            }),
            Response::Sample(..) | Response::HowSure(_) | Response::Desk(_) | Response::AllOf(_) => {}
        };
        let sisters = Self {
            pool: StoredValue::new_local(RenderPool::new(program, Rc::new(bring))),
            jobs: StoredValue::new(SisterJobs::default()),
            timer: Timer::new(),
            waiting,
            piece: expect_context(),
            kilns: expect_context(),
            viewing: expect_context(),
            nav: expect_context(),
            orders: expect_context(),
            results,
            tray: expect_context(),
            pictures,
        };
        pictures.on_look(move || sisters.draw_soon());
        Effect::new(move || {
            // Everything that is drawn depends on these.
            sisters.piece.made();
            sisters.piece.by_hand.track();
            sisters.piece.sisters.track();
            sisters.viewing.light.track();
            sisters.viewing.drawn.track();
            sisters.nav.area.get();
            sisters.orders.list.track();
            sisters.draw_soon();
        });
        sisters
    }

    /// Stops the filling of the tray: what is not drawn yet is not laid.
    pub fn stop(&self) {
        let drawn = self.tray.seeds.with_untracked(|seeds| {
            self.results
                .features
                .with_untracked(|known| seeds.iter().filter(|seed| known.contains_key(seed)).count())
        });
        self.tray.lay_only(drawn);
    }

    /// Has sisters weighed and measured, each for a slot that says by which recipe, and calls with what tells them apart once all of
    /// them are, instead of whoever waited for others.
    pub fn measure(
        &self,
        seeds: Vec<Seed>,
        slot: impl Fn(Seed) -> PictureSlot,
        then: impl FnOnce(Measured) + 'static,
    ) {
        let sisters = seeds.into_iter().map(|seed| (seed, slot(seed))).collect();
        self.waiting.set_value(Waiting { sisters, then: Some(Box::new(then)) });
        answer(self.waiting, self.results);
        self.draw_soon();
    }

    /// Nobody waits for measured sisters any more.
    pub fn measure_no_more(&self) {
        // The page may be going with it.
        let _ = self.waiting.try_update_value(|waiting| *waiting = Waiting::default());
    }

    /// Draws what is looked at: at once on the tray, beside the piece a moment after the last change. The first picture of
    /// the piece itself comes before all.
    fn draw_soon(self) {
        if self.viewing.drawn.try_get_untracked() != Some(true) {
            return;
        }
        let beside = self.nav.area.get_untracked() == AreaId::PIECE;
        let wait = if beside { REST } else { Duration::ZERO };
        self.timer.start(wait, move || self.draw());
    }

    fn draw(self) {
        let laid = self.tray.seeds.get_untracked();
        let keep = |slot| matches!(slot, PictureSlot::Sister(seed) if laid.contains(&seed));
        let looked_at = self.pictures.looked_at();
        let mut sisters: Vec<_> =
            looked_at.into_iter().filter(|slot| view(*slot, Light::Day).is_some()).collect();
        self.waiting.with_value(|waiting| {
            sisters.extend(waiting.sisters.iter().map(|(_, slot)| *slot));
        });
        let sisters = without_twice_measured(&sisters);
        let ordered = untrack(|| self.ordered());
        let made_by = |slot| untrack(|| self.made_by(slot, &ordered));
        let next = self.jobs.try_update_value(|jobs| jobs.next(&sisters, keep, made_by)).unwrap_or_default();
        if next.stale {
            self.tray.answer.set(String::new());
        }
        self.forget(&next.dropped);
        self.forget_tickets(&next.dropped);
        self.pictures.forget_all_but(|slot| view(slot, Light::Day).is_none() || keep(slot));
        // Nothing of an option hangs on the kiln but its hours, and those are not said: a later kiln asks for none anew.
        let kiln = self.kilns.kiln.get_untracked();
        self.pool.with_value(|pool| {
            pool.forget(&next.dropped);
            for (slot, MadeBy { recipe, light }) in next.ask {
                let Some((seed, items)) = items(slot, light, &kiln) else { continue };
                pool.ask(slot, Request { recipe: Recipe::clone(&recipe), seed, items });
            }
        });
    }

    /// What a slot's picture is drawn by: an option as it was kept, another sister as the recipe shows her.
    fn made_by(&self, slot: PictureSlot, ordered: &[Arc<Recipe>]) -> Option<MadeBy> {
        let (recipe, light) = match slot {
            PictureSlot::Sister(seed) | PictureSlot::Lifted(seed) | PictureSlot::Measured(seed) => {
                (self.piece.sister(seed), self.viewing.light.get())
            }
            PictureSlot::Shortlisted(seed) => (self.piece.option(seed)?, self.viewing.light.get()),
            PictureSlot::Option(seed, light) => (self.piece.offered(seed), light),
            PictureSlot::Ordered(line, _) | PictureSlot::Compared(line, _) => {
                (ordered.get(line)?.clone(), Light::Day)
            }
            PictureSlot::Printed(line, _, _, light) => (ordered.get(line)?.clone(), light),
            _ => return None,
        };
        Some(MadeBy { recipe, light })
    }

    /// The recipes of the lines of the open order, once for all of their pieces.
    fn ordered(&self) -> Vec<Arc<Recipe>> {
        let recipes = |order: &Order| order.lines.iter().map(|line| Arc::new(line.recipe.clone())).collect();
        self.orders.with(recipes).unwrap_or_default()
    }

    /// The tickets of options that are not on the shortlist any more, or are other ones.
    fn forget_tickets(&self, dropped: &[PictureSlot]) {
        let gone = |seed: &Seed| dropped.contains(&PictureSlot::Shortlisted(*seed));
        if self.results.option_tickets.with_untracked(|tickets| tickets.keys().any(gone)) {
            self.results.option_tickets.update(|tickets| tickets.retain(|seed, _| !gone(seed)));
        }
    }

    /// What is known of sisters that are not drawn any more.
    fn forget(&self, dropped: &[PictureSlot]) {
        let known = |seed: &Seed| {
            [PictureSlot::Sister(*seed), PictureSlot::Measured(*seed)]
                .iter()
                .any(|slot| !dropped.contains(slot) && self.jobs.with_value(|jobs| jobs.has_asked(slot)))
        };
        if self.results.features.with_untracked(|features| !features.keys().all(known)) {
            self.results.features.update(|features| features.retain(|seed, _| known(seed)));
        }
        let gone = |(line, seed): &(usize, Seed)| dropped.contains(&PictureSlot::Compared(*line, *seed));
        self.results.compared.update(|compared| compared.retain(|of, _| !gone(of)));
    }
}

/// The slots, each once; a sister that is drawn on the tray is measured along with it.
fn without_twice_measured(slots: &[PictureSlot]) -> Vec<PictureSlot> {
    let mut once = Vec::new();
    for slot in slots {
        let drawn =
            matches!(slot, PictureSlot::Measured(seed) if slots.contains(&PictureSlot::Sister(*seed)));
        if !drawn && !once.contains(slot) {
            once.push(*slot);
        }
    }
    once
}

/// What is asked for a sister's slot, and for which seed; nothing for other slots.
fn items(slot: PictureSlot, light: Light, kiln: &Kiln) -> Option<(Seed, Vec<Item>)> {
    if let PictureSlot::Measured(seed) | PictureSlot::Compared(_, seed) = slot {
        return Some((seed, vec![Item::Features(slot)]));
    }
    let (seed, view) = view(slot, light)?;
    let mut items = vec![Item::Picture(slot, view)];
    match slot {
        PictureSlot::Sister(_) => items.push(Item::Features(slot)),
        PictureSlot::Shortlisted(_) => items.push(Item::Ticket(Box::new(kiln.clone()))),
        _ => {}
    }
    Some((seed, items))
}

/// Which seed a sister's slot shows, and how; nothing for other slots.
fn view(slot: PictureSlot, light: Light) -> Option<(Seed, View)> {
    match slot {
        PictureSlot::Sister(seed) | PictureSlot::Shortlisted(seed) | PictureSlot::Ordered(_, seed) => {
            Some((seed, View { cells: View::DRAFT_CELLS, ..View::usual(Stage::Fused, light, SIDE) }))
        }
        PictureSlot::Lifted(seed) => Some((seed, View::usual(Stage::Fused, light, LIFTED_SIDE))),
        PictureSlot::Option(seed, light) => {
            Some((seed, View { cells: View::FINE_CELLS, ..View::usual(Stage::Domed, light, OPTION_SIDE) }))
        }
        PictureSlot::Printed(_, seed, stage, light) => {
            Some((seed, View { cells: View::FINE_CELLS, ..View::usual(stage, light, PRINTED_SIDE) }))
        }
        _ => None,
    }
}
