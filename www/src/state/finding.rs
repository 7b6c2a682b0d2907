//! The color that is looked for, for which coat and among what. It stays as it is while the maker is elsewhere.

use super::nav::Nav;
use super::workpiece::Workpiece;
use crate::model::ids::AreaId;
use crate::model::photo::{Mark, Photo};
use crate::words;
use dappledome::color::difference::Lab;
use dappledome::photo::frame::{Frame, Shape};
use dappledome::worker::asked::SeenOn;
use leptos::prelude::*;
use std::sync::Arc;

/// A photo in which the color is ringed.
#[derive(Clone, Debug)]
pub struct Ringed {
    /// The photo.
    pub photo: Arc<Photo>,
    /// What is ringed.
    pub ring: Frame,
    /// Something white in it, if it is marked.
    pub white: Option<Frame>,
}

impl Ringed {
    /// A photo with the ring in its middle.
    pub fn new(photo: Photo) -> Self {
        let (wide, high) = (f64::from(photo.size.0), f64::from(photo.size.1));
        let side = 0.12 * wide.min(high);
        let ring = Frame::at(Shape::Round, (0.5, 0.5), (side / wide, side / high), photo.size);
        Self { photo: Arc::new(photo), ring, white: None }
    }

    /// Marks a white, or takes its mark off again.
    pub fn turn_white(&mut self) {
        let usual = Frame::at(Shape::Rectangle, (0.15, 0.2), (0.12, 0.12), self.photo.size);
        self.white = self.white.is_none().then_some(usual);
    }

    /// The marks, the ring first.
    pub fn marks(&self) -> Vec<Mark> {
        let mark = |name: &str, frame| Mark { name: name.into(), frame };
        let white = self.white.map(|frame| mark(words::WHITE_MARK, frame));
        [mark(words::RING_MARK, self.ring)].into_iter().chain(white).collect()
    }

    /// Takes the mark at this place elsewhere.
    pub fn put_mark(&mut self, at: usize, frame: Frame) {
        match at {
            0 => self.ring = frame,
            _ => self.white = Some(frame),
        }
    }
}

/// What is looked for.
#[derive(Clone, Copy)]
pub struct Finding {
    /// For the coat with this id.
    pub coat: RwSignal<u32>,
    /// The color; none before one is written down.
    pub wanted: RwSignal<Option<Lab>>,
    /// The photo that it is ringed in.
    pub photo: RwSignal<Option<Ringed>>,
    /// What it is looked at on.
    pub seen: RwSignal<SeenOn>,
    /// Whether among the maker's own glasses alone.
    pub own_only: RwSignal<bool>,
    /// Whether two jars may be taken.
    pub two: RwSignal<bool>,
}

impl Finding {
    /// No color yet.
    pub fn new() -> Self {
        Self {
            coat: RwSignal::new(0),
            wanted: RwSignal::new(None),
            photo: RwSignal::new(None),
            seen: RwSignal::new(SeenOn::Coat),
            own_only: RwSignal::new(false),
            two: RwSignal::new(true),
        }
    }

    /// Looks for one for this coat: lays the area on the table, with nothing tried yet.
    pub fn open(&self, coat: u32, piece: Workpiece, nav: Nav) {
        self.coat.set(coat);
        piece.trial.set(None);
        nav.open_area(AreaId::FIND);
    }
}
