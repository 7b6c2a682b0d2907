//! Has the piece drawn: the large picture, the thumbnails and the ticket, whenever what they show has changed.

use super::client::RenderClient;
use super::program::Program;
use super::request::{Item, Request, Response};
use super::sampled;
use crate::model::demos::demos;
use crate::model::ids::{AreaId, FIRST_SEED, PanelId};
use crate::model::slots::PictureSlot;
use crate::state::announcer::Announcer;
use crate::state::fired::Fired;
use crate::state::kilns::Kilns;
use crate::state::nav::Nav;
use crate::state::notices::pressing;
use crate::state::pictures::{Picture, Pictures};
use crate::state::preferences::Preferences;
use crate::state::results::{Rested, Results};
use crate::state::sinking::Sinking;
use crate::state::viewing::{STAGES, Viewing};
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::seed::Seed;
use dappledome::picture::View;
use dappledome::picture::view::{Light, Stage};
use dappledome::recipe::Recipe;
use leptos::prelude::*;
use std::collections::HashMap;
use std::rc::Rc;
use std::time::Duration;

/// Side of a small picture, pixels: twice its size on the page, for fine screens.
const SMALL: u32 = 168;
/// How often the worker is looked after.
const WATCH: Duration = Duration::from_secs(5);

/// Who waits for a picture that belongs to no canvas.
type Waiting = HashMap<PictureSlot, Box<dyn FnOnce(Picture)>>;

/// Has the piece drawn by a worker of its own.
#[derive(Clone, Copy)]
pub struct PieceRenderer {
    client: StoredValue<RenderClient, LocalStorage>,
    waiting: StoredValue<Waiting, LocalStorage>,
    piece: Workpiece,
    kilns: Kilns,
    viewing: Viewing,
    sinking: Sinking,
}

/// What it shows, and where it says what came.
#[derive(Clone, Copy)]
struct Parts {
    piece: Workpiece,
    fired: Fired,
    viewing: Viewing,
    nav: Nav,
    results: Results,
    pictures: Pictures,
    preferences: Preferences,
    announcer: Announcer,
    waiting: StoredValue<Waiting, LocalStorage>,
}

impl PieceRenderer {
    /// Starts the worker and keeps it asked for what the page shows, as long as the present owner lives. Takes the contexts
    /// of the page.
    pub fn start(program: Program) -> Self {
        let waiting = StoredValue::new_local(Waiting::new());
        let parts = Parts {
            piece: expect_context(),
            fired: expect_context(),
            viewing: expect_context(),
            nav: expect_context(),
            results: expect_context(),
            pictures: expect_context(),
            preferences: expect_context(),
            announcer: expect_context(),
            waiting,
        };
        let client = RenderClient::new("piece", program, Rc::new(move |response| parts.bring(response)));
        let renderer = Self {
            client: StoredValue::new_local(client),
            waiting,
            piece: parts.piece,
            kilns: expect_context(),
            viewing: parts.viewing,
            sinking: expect_context(),
        };
        renderer.keep_asking(parts.results);
        renderer.draw_demos(parts.pictures);
        renderer.look_after();
        renderer
    }

    /// Draws the same once more.
    pub fn draw_again(&self) {
        if let Some(pixels) = self.viewing.pixels.get_untracked() {
            self.ask(untrack(|| self.request(pixels, false)));
        }
    }

    /// Has a small dome drawn when there is time, and gives it.
    pub fn draw_some_time(
        &self,
        slot: PictureSlot,
        recipe: &Recipe,
        seed: Seed,
        give: impl FnOnce(Picture) + 'static,
    ) {
        self.waiting.update_value(|waiting| {
            waiting.insert(slot, Box::new(give));
        });
        self.ask_some_time(slot, Stage::Domed, recipe, seed);
    }

    /// Asks for a core sample, instead of any that was asked for before.
    pub fn ask_sample(&self, request: Request) {
        self.client.with_value(|client| client.ask_sample(request));
    }

    fn ask(&self, request: Request) {
        self.client.with_value(|client| client.ask(request));
    }

    /// Has a small picture drawn for the canvases of its slot when there is time.
    pub fn ask_some_time(&self, slot: PictureSlot, stage: Stage, recipe: &Recipe, seed: Seed) {
        let items = vec![Item::Picture(slot, small(stage, Light::Day))];
        let request = Request { recipe: recipe.clone(), seed, items };
        self.client.with_value(|client| client.ask_some_time(request));
    }

    fn keep_asking(self, results: Results) {
        let last: StoredValue<Option<Request>, LocalStorage> = StoredValue::new_local(None);
        Effect::new(move || {
            let Some(pixels) = self.viewing.pixels.get() else { return };
            // What cannot be made leaves the piece as it last was, to be looked at all the same.
            let made = self.piece.made();
            let (seed, light) = (self.piece.seed.get(), self.viewing.light.get());
            let kiln = self.kilns.kiln.get();
            let known = results.rested.with_untracked(|rested| {
                rested.as_ref().is_some_and(|rested| {
                    rested.recipe == made.0
                        && rested.seed == seed
                        && rested.light == light
                        && rested.kiln == kiln
                })
            });
            let request = self.request(pixels, known);
            if last.with_value(|last| last.as_ref() != Some(&request)) {
                last.set_value(Some(request.clone()));
                self.ask(request);
            }
        });
    }

    /// What the page shows: a draft, the ticket and the thumbnails unless they are known, and the fine picture.
    fn request(&self, pixels: u32, known: bool) -> Request {
        let fine = self.sinking.view(pixels);
        let mut items = vec![Item::Picture(PictureSlot::Glass, fine.quick())];
        if !known {
            items.push(Item::Ticket(Box::new(self.kilns.kiln.get())));
            let thumbnail = |stage| Item::Picture(PictureSlot::Thumbnail(stage), small(stage, fine.light));
            items.extend(STAGES.map(thumbnail));
            items.push(Item::HowSure(small(Stage::Fused, fine.light)));
        }
        items.push(Item::Picture(PictureSlot::Glass, fine));
        Request { recipe: self.piece.made().0.clone(), seed: self.piece.seed.get(), items }
    }

    /// The recipes that come with the program are drawn once somebody looks at them, when there is time.
    fn draw_demos(self, pictures: Pictures) {
        let asked: StoredValue<Vec<PictureSlot>> = StoredValue::new(Vec::new());
        pictures.on_look(move || {
            for slot in pictures.looked_at() {
                let PictureSlot::Demo(at, stage) = slot else { continue };
                if !asked.with_value(|asked| asked.contains(&slot)) {
                    asked.update_value(|asked| asked.push(slot));
                    self.ask_some_time(slot, stage, &demos()[at], FIRST_SEED);
                }
            }
        });
    }

    fn look_after(self) {
        let look = move || {
            // The page may be going; then there is nothing to look after.
            let _ = self.client.try_with_value(RenderClient::look_after);
        };
        // A failed interval costs only the watch over a worker that vanished without a word.
        if let Ok(watch) = set_interval_with_handle(look, WATCH) {
            on_cleanup(move || watch.clear());
        }
    }
}

impl Parts {
    fn bring(&self, response: Response) {
        match response {
            Response::Picture(slot, picture) => self.bring_picture(slot, picture),
            Response::Ticket(_, ticket) => {
                // Until all of its request has come, nothing is known: one given up after its ticket must be made good.
                self.results.rested.set(None);
                self.results.ticket.set(Some(*ticket));
            }
            Response::AllOf(request) => {
                if self.nav.has_panel_now(PanelId::STOPPED) {
                    self.nav.close_panel();
                }
                self.rest(*request);
            }
            Response::Sample(point, sample) => {
                let sample = sample.map(|sample| *sample);
                let units = self.preferences.units.get_untracked();
                if let Some(said) = sampled::bring(self.piece, self.results, self.nav, units, point, sample) {
                    self.announcer.say(said);
                }
            }
            Response::HowSure(how) => self.results.how_sure.set(Some(how)),
            Response::Features(..) | Response::Desk(_) => {}
            Response::Stopped => self.nav.open_panel(PanelId::STOPPED),
        }
    }

    fn bring_picture(&self, slot: PictureSlot, picture: Picture) {
        let waiting = self.waiting.try_update_value(|waiting| waiting.remove(&slot)).flatten();
        match waiting {
            Some(give) => give(picture),
            None => self.pictures.bring(slot, picture),
        }
        if !self.viewing.drawn.get_untracked() {
            self.viewing.drawn.set(true);
        }
    }

    /// Everything of a request has come.
    fn rest(&self, request: Request) {
        let thumbnail = request.pictures().find(|(slot, _)| matches!(slot, PictureSlot::Thumbnail(_)));
        let (Some((_, view)), Some(kiln)) = (thumbnail, request.kiln().cloned()) else { return };
        let Request { recipe, seed, .. } = request;
        self.results.rested.set(Some(Rested { recipe, seed, light: view.light, kiln }));
        let remarks = untrack(|| pressing(self.piece, self.fired, self.nav).len());
        let units = self.preferences.units.get_untracked();
        let fired = [AreaId::FIRINGS, AreaId::SHELF].contains(&self.nav.area.get_untracked());
        let said = self.results.ticket.with_untracked(|ticket| {
            let kiln = self.results.rested.with_untracked(|rested| {
                rested.as_ref().filter(|_| fired).map(|rested| rested.kiln.name.clone())
            });
            let said = |ticket| words::at_rest(ticket, kiln.as_deref(), remarks, units);
            ticket.as_ref().map_or_else(String::new, said)
        });
        self.announcer.say(said);
    }
}

fn small(stage: Stage, light: Light) -> View {
    View { cells: View::DRAFT_CELLS, ..View::usual(stage, light, SMALL) }
}
