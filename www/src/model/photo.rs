//! A photo that colors are taken from.

use dappledome::photo::frame::{Frame, Size};
use dappledome::photo::pixels::Pixels;

/// A photo, upright and in sRGB, as large as it is read.
#[derive(Debug)]
pub struct Photo {
    /// The name of its file.
    pub name: String,
    /// Width and height, pixels.
    pub size: Size,
    /// Its pixels: rows of red, green, blue and alpha.
    pub rgba: Vec<u8>,
    /// How many pixels were taken, if it was made smaller.
    pub smaller_from: Option<f64>,
}

impl Photo {
    /// Its pixels to be read; none if they are not as many as they should be.
    pub fn pixels(&self) -> Option<Pixels<'_>> {
        Pixels::new(self.size, &self.rgba)
    }
}

/// Why a file is no photo to take colors from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PhotoFault {
    /// This browser reads no picture in it.
    None,
    /// So small, pixels.
    Small(Size),
}

/// A place that is marked on a photo, under a name.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// What it is called.
    pub name: String,
    /// Where it is.
    pub frame: Frame,
}
