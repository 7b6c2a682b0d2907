//! A fired piece that is held against its forecast. It stays as it is while the maker is elsewhere.

use super::nav::Nav;
use crate::model::ids::{AreaId, LogId};
use crate::model::photo::{Mark, Photo};
use crate::words;
use dappledome::photo::frame::{Frame, Shape};
use dappledome::recipe::limits::PHOTO_WHITE;
use leptos::prelude::*;
use std::sync::Arc;
use web_sys::File;

/// A photo of the fired piece, and where on it what lies.
#[derive(Clone, Debug)]
pub struct FiredPhoto {
    /// The photo.
    pub photo: Arc<Photo>,
    /// The white.
    pub white: Frame,
    /// The disc.
    pub disc: Frame,
}

impl FiredPhoto {
    /// A photo with its marks where many lay them: the disc in its middle, the white in a corner.
    pub fn new(photo: Photo) -> Self {
        let (wide, high) = (f64::from(photo.size.0), f64::from(photo.size.1));
        let side = 0.7 * wide.min(high);
        let disc = Frame::at(Shape::Round, (0.5, 0.5), (side / wide, side / high), photo.size);
        let white = Frame::at(Shape::Rectangle, (0.1, 0.12), (0.12, 0.08), photo.size);
        Self { photo: Arc::new(photo), white, disc }
    }

    /// The marks, white first.
    pub fn marks(&self) -> Vec<Mark> {
        let mark = |name: &str, frame| Mark { name: name.into(), frame };
        vec![mark(words::WHITE_MARK, self.white), mark(words::DISC_MARK, self.disc)]
    }

    /// Takes the mark at this place elsewhere.
    pub fn put_mark(&mut self, at: usize, frame: Frame) {
        match at {
            0 => self.white = frame,
            _ => self.disc = frame,
        }
    }
}

/// How the two are compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// Color by color.
    Color,
    /// Place by place.
    Place,
    /// One wiped over the other.
    Wipe,
}

/// What is held against what.
#[derive(Clone, Copy)]
pub struct Against {
    /// The photo, with its marks.
    pub photo: RwSignal<Option<FiredPhoto>>,
    /// A file that waits to be read as one.
    pub waiting: RwSignal<Option<File>, LocalStorage>,
    /// How bright its white is, of a perfect white.
    pub white: RwSignal<f64>,
    /// The entry of the log that it is of.
    pub entry: RwSignal<Option<LogId>>,
    /// How they are compared.
    pub by: RwSignal<By>,
    /// How deep the coats lie that were laid as the maker sifts, mm.
    pub laid: RwSignal<Option<Vec<f64>>>,
}

impl Against {
    /// Nothing yet.
    pub fn new() -> Self {
        Self {
            photo: RwSignal::new(None),
            waiting: RwSignal::new_local(None),
            white: RwSignal::new(PHOTO_WHITE.usual),
            entry: RwSignal::new(None),
            by: RwSignal::new(By::Color),
            laid: RwSignal::new(None),
        }
    }

    /// Lays the area on the table, for an entry of the log or the piece as it lies there, with the photo in a file if there is one.
    pub fn open(&self, entry: Option<LogId>, file: Option<File>, nav: Nav) {
        if self.entry.get_untracked() != entry {
            self.photo.set(None);
            self.entry.set(entry);
        }
        self.waiting.set(file);
        nav.open_area(AreaId::AGAINST);
    }
}
