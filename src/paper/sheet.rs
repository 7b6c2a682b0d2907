//! A sheet of paper as plain data. Lengths in mm from its upper left corner, down and to the right; sizes of letters in points.

use crate::base::seed::Seed;
use crate::picture::view::{Light, Stage};
use serde::{Deserialize, Serialize};

/// A size of paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum PaperSize {
    /// ISO 216: 210 x 297 mm.
    A4,
    /// ANSI/ASME Y14.1 A: 8 1/2 x 11 in.
    Letter,
}

/// Where letters are 8 1/2 x 11 in: languages with their countries.
const LETTER_AT_HOME: [&str; 8] = ["en-US", "en-CA", "fr-CA", "es-MX", "en-PH", "es-CO", "es-CL", "es-VE"];

impl PaperSize {
    /// Width and height, mm.
    pub fn mm(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        }
    }

    /// The size that is usual where a language, with its country, is at home.
    pub fn usual(language: &str) -> Self {
        if LETTER_AT_HOME.contains(&language) { Self::Letter } else { Self::A4 }
    }
}

/// A place, mm.
pub type Point = (f64, f64);

/// One side of one sheet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Sheet {
    /// The paper.
    pub paper: PaperSize,
    /// What stands on it, the lowest first.
    pub items: Vec<Item>,
}

/// Something on a sheet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Item {
    /// Words on one line.
    Words(Words),
    /// Lines and areas.
    Path(Path),
    /// A circle: middle and radius.
    Circle(Point, f64, Look),
    /// A picture.
    Picture(Picture),
    /// What shows of other things through a window: upper left corner, width and height.
    Window(Point, (f64, f64), Vec<Item>),
}

/// The weight of letters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Face {
    /// As usual.
    Regular,
    /// In weight.
    Bold,
}

/// Which end of words stands at their place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Anchor {
    /// They begin there.
    Start,
    /// Their middle is there.
    Middle,
    /// They end there.
    End,
}

/// Words on one line.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Words {
    /// A place on the line that they stand on.
    pub at: Point,
    /// Which of their ends is there.
    pub anchor: Anchor,
    /// Size, points.
    pub size: f64,
    /// Weight.
    pub face: Face,
    /// Whether they step back behind the others.
    pub quiet: bool,
    /// The words.
    pub text: String,
}

/// How a path is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Look {
    /// Width of its line, mm; 0 for none.
    pub line: f64,
    /// Whether the line is dashed.
    pub dashed: bool,
    /// How light it is filled, 0 black to 255 white; none for no fill. Holes by the even-odd rule.
    pub fill: Option<u8>,
}

/// Lines and areas.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Path {
    /// Its parts, each from point to point.
    pub parts: Vec<Vec<Point>>,
    /// Whether each part ends where it began.
    pub closed: bool,
    /// How it is drawn.
    pub look: Look,
}

/// A picture of a piece.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Picture {
    /// The upper left corner of its frame.
    pub at: Point,
    /// Width and height of its frame. What is square is cut to it by [`cut`].
    pub frame: (f64, f64),
    /// Whether only the disc in it is shown, as wide as the frame.
    pub round: bool,
    /// Which line of the order.
    pub line: usize,
    /// Which layout.
    pub seed: Seed,
    /// At which stage.
    pub stage: Stage,
    /// By which light.
    pub light: Light,
}

/// The middle of a square picture, cut to the shape of a frame: left, top, width and height. It fills the frame's width and as
/// much of its height as the dome needs.
pub fn cut(side: f64, (width, height): (f64, f64)) -> [f64; 4] {
    let scale = (side / width).min(side / height);
    let (cut_width, cut_height) = (width * scale, height * scale);
    [(side - cut_width) / 2.0, (side - cut_height) * 0.47, cut_width, cut_height]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_paper_is_the_one_usual_at_home() {
        assert_eq!(PaperSize::usual("en-US"), PaperSize::Letter);
        assert_eq!(["de-DE", "en-GB", ""].map(PaperSize::usual), [PaperSize::A4; 3]);
    }

    #[test]
    fn a_picture_is_cut_to_its_frame_and_to_nothing_outside_itself() {
        for frame in [(70.0, 55.0), (55.0, 70.0), (60.0, 60.0)] {
            let [left, top, width, height] = cut(800.0, frame);
            assert!((width / height - frame.0 / frame.1).abs() < 1e-9);
            assert!(left >= 0.0 && top >= 0.0 && left + width <= 800.0 && top + height <= 800.0);
            assert!((width.max(height) - 800.0).abs() < 1e-9, "no more is cut off than must be");
        }
    }
}
