//! What the parts of the area share: what the photo shows, and how it compares.

use crate::services::render::desk::Desk;
use crate::state::against::{Against, FiredPhoto};
use crate::state::announcer::Announcer;
use crate::state::log::Log;
use crate::state::nav::Nav;
use crate::state::workpiece::Workpiece;
use dappledome::base::notice::Notice;
use dappledome::color::srgb::Linear;
use dappledome::compare::foretold::CELLS;
use dappledome::photo::disc::cells;
use dappledome::photo::light::Light;
use dappledome::photo::pixels::clipped;
use dappledome::recipe::plan::Plan;
use dappledome::worker::asked::{AgainstJob, Compared, DeskJob, Said};
use leptos::prelude::*;
use std::sync::Arc;

/// What a photo shows of the disc.
#[derive(Clone, Debug, PartialEq)]
pub struct OnDisc {
    /// By which share the light falls off over what is marked; or why the white tells nothing.
    pub light: Result<f64, Notice>,
    /// Whether some of the disc is as bright as the camera can tell.
    pub clipped: bool,
    /// The disc, cell by cell; nothing without light.
    pub cells: Arc<Vec<Option<Linear>>>,
}

/// The parts.
#[derive(Clone, Copy)]
pub struct AgainstState {
    /// What is held against what.
    pub against: Against,
    /// The piece.
    pub piece: Workpiece,
    /// The log.
    pub log: Log,
    /// Where the maker is.
    pub nav: Nav,
    /// Says what was done.
    pub announcer: Announcer,
    /// What the photo shows; none without one.
    pub shown: Memo<Option<OnDisc>>,
    /// How it compares; none before that is known, and where the recipe cannot be made.
    pub compared: RwSignal<Option<Arc<Compared>>>,
}

impl AgainstState {
    /// Keeps comparing as long as the present owner lives. Takes the contexts of the page.
    pub fn start() -> Self {
        let against = expect_context::<Against>();
        let shown =
            Memo::new(move |_| against.photo.with(|fired| on_disc(fired.as_ref()?, against.white.get())));
        let state = Self {
            against,
            piece: expect_context(),
            log: expect_context(),
            nav: expect_context(),
            announcer: expect_context(),
            shown,
            compared: RwSignal::new(None),
        };
        expect_context::<Desk>().keep_asking("against", move || state.job(), move |said| state.bring(said));
        state
    }

    fn job(&self) -> Option<DeskJob> {
        let cells = self.shown.with(|shown| shown.as_ref().map(|shown| Arc::clone(&shown.cells)))?;
        let job = AgainstJob {
            recipe: self.piece.recipe.get(),
            seed: self.piece.seed.get(),
            photo: cells.to_vec(),
        };
        (!job.photo.is_empty()).then(|| DeskJob::Against(Box::new(job)))
    }

    fn bring(&self, said: Said) {
        if let Said::Compared(compared) = said {
            self.compared.set(compared.map(|compared| Arc::new(*compared)));
        }
    }

    /// How it compares, followed; none while the photo tells nothing.
    pub fn comparison(&self) -> Option<Arc<Compared>> {
        let told = self.shown.with(|shown| shown.as_ref().is_some_and(|shown| shown.light.is_ok()));
        if told { self.compared.get() } else { None }
    }

    /// The plan of the piece, if it can be made.
    pub fn plan(&self) -> Option<Plan> {
        self.piece.recipe.with(|recipe| Plan::new(recipe).ok()).map(|planned| planned.plan)
    }
}

fn on_disc(fired: &FiredPhoto, white: f64) -> Option<OnDisc> {
    let pixels = fired.photo.pixels()?;
    Some(match Light::on(&pixels, &fired.white) {
        Err(notice) => OnDisc { light: Err(notice), clipped: false, cells: Arc::default() },
        Ok(light) => OnDisc {
            light: Ok(light.falls_off(&[fired.white, fired.disc])),
            clipped: clipped(&pixels.samples(&fired.disc)) > 0.0,
            cells: Arc::new(cells(&pixels, &fired.disc, (&light, white), CELLS)),
        },
    })
}
