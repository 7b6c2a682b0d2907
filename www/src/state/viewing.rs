//! How the piece is looked at.

use super::nav::Nav;
use crate::model::camera::Camera;
use crate::model::ids::PanelId;
use crate::words;
use dappledome::color::dichromacy::Sight;
use dappledome::color::illuminant::Illuminant;
use dappledome::picture::View;
use dappledome::picture::surroundings::Surroundings;
use dappledome::picture::view::{Light, Stage};
use leptos::prelude::*;

/// The lights, in order.
pub const LIGHTS: [Light; 3] = [Light::Day, Light::Within, Light::Gray];
/// The stages, in order.
pub const STAGES: [Stage; 3] = [Stage::Sifted, Stage::Fused, Stage::Domed];

/// How the piece is looked at.
#[derive(Clone, Copy, Debug)]
pub struct Viewing {
    /// The stage looked at.
    pub stage: RwSignal<Stage>,
    /// The light.
    pub light: RwSignal<Light>,
    /// The spectrum of the light. Small pictures, tray and paper stay in daylight.
    pub seen_in: RwSignal<Illuminant>,
    /// What the large dome stands in.
    pub around: RwSignal<Surroundings>,
    /// Whose eyes the large picture is seen by.
    pub sight: RwSignal<Sight>,
    /// Whether the large picture is shaded by how sure its colors are: as long as the slip about that lies there.
    pub by_sureness: Memo<bool>,
    /// Where the camera stands.
    pub camera: RwSignal<Camera>,
    /// Where the needle of the sink rule stands, minutes from when the hold of the slump begins; none if where the recipe ends.
    pub needle: RwSignal<Option<f64>>,
    /// The same as long as the slump is watched: what the dome is shown at.
    pub sunk: Memo<Option<f64>>,
    /// Side of the large picture, device pixels; none before it is laid out.
    pub pixels: RwSignal<Option<u32>>,
    /// Whether a picture has come. What takes long the first time waits for it, so that the page stands at once.
    pub drawn: RwSignal<bool>,
}

impl Viewing {
    /// The dome by day, straight.
    pub fn new(nav: Nav) -> Self {
        let needle = RwSignal::new(None);
        Self {
            needle,
            sunk: Memo::new(move |_| if nav.has_panel(PanelId::SINKING) { needle.get() } else { None }),
            stage: RwSignal::new(Stage::Domed),
            light: RwSignal::new(Light::Day),
            seen_in: RwSignal::default(),
            by_sureness: Memo::new(move |_| nav.has_panel(PanelId::HOW_SURE)),
            around: RwSignal::default(),
            sight: RwSignal::default(),
            camera: RwSignal::new(Camera::STRAIGHT),
            pixels: RwSignal::new(None),
            drawn: RwSignal::new(false),
        }
    }

    /// What the large picture shows, at this size in pixels, a dome as its recipe ends.
    pub fn view(&self, size: u32) -> View {
        let Camera { turn, tilt, zoom } = self.camera.get();
        let (stage, light) = (self.stage.get(), self.light.get());
        let (seen_in, sight) = (self.seen_in.get(), self.sight.get());
        let (around, by_sureness) = (self.around.get(), self.by_sureness.get());
        View {
            stage,
            light,
            size,
            cells: View::FINE_CELLS,
            turn,
            tilt,
            zoom,
            sunk: None,
            seen_in,
            sight,
            around,
            by_sureness,
        }
    }

    /// In what light and by whose eyes the piece is seen, in words; none by daylight and usual eyes, as all else is.
    pub fn otherwise(&self) -> Option<String> {
        if self.by_sureness.get() {
            return Some(words::SHADED.into());
        }
        let around = if self.shows_around() { self.around.get() } else { Surroundings::Studio };
        words::otherwise(self.illuminant(), around, self.sight.get())
    }

    /// The light that the colors are made for.
    pub fn illuminant(&self) -> Illuminant {
        View { seen_in: self.seen_in.get(), ..View::usual(Stage::Domed, self.light.get(), 1) }.illuminant()
    }

    /// Whether the picture shows what a piece stands in.
    pub fn shows_around(&self) -> bool {
        !self.flat() && self.light.get() != Light::Gray && !self.by_sureness.get()
    }

    /// Whether the piece lies flat.
    pub fn flat(&self) -> bool {
        self.stage.get() != Stage::Domed
    }

    /// The light after this one.
    pub fn next_light(&self) {
        let at = LIGHTS.iter().position(|light| *light == self.light.get_untracked());
        self.light.set(LIGHTS[(at.unwrap_or(0) + 1) % LIGHTS.len()]);
    }

    /// Turns and tilts by so many degrees.
    pub fn turn(&self, turn: f32, tilt: f32) {
        self.camera.update(|camera| *camera = camera.turned(turn, tilt));
    }

    /// Comes nearer by a factor.
    pub fn nearer(&self, factor: f32) {
        self.camera.update(|camera| *camera = camera.nearer(factor));
    }

    /// Puts the camera back where it was at first.
    pub fn straighten(&self) {
        self.camera.set(Camera::STRAIGHT);
    }
}
