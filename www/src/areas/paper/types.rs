//! What a sheet of options is made of.

use crate::state::pictures::Picture;
use dappledome::base::seed::Seed;
use dappledome::picture::view::Light;

/// Options on a page.
pub const ON_A_PAGE: usize = 4;
/// The lights that each option is shown by, in the order of their columns.
pub const SHOWN_BY: [Light; 2] = [Light::Day, Light::Within];

/// Where letters are 8 1/2 x 11 in: languages with their countries.
const LETTER_AT_HOME: [&str; 8] = ["en-US", "en-CA", "fr-CA", "es-MX", "en-PH", "es-CO", "es-CL", "es-VE"];

/// A size of paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PaperSize {
    /// ISO 216: 210 x 297 mm.
    A4,
    /// ANSI/ASME Y14.1 A: 8 1/2 x 11 in.
    Letter,
}

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

/// All that is drawn on a sheet.
#[derive(Clone, Debug)]
pub struct OptionSheet {
    /// The size of its paper.
    pub paper: PaperSize,
    /// The name of the piece.
    pub title: String,
    /// Its finished size, in words; nothing if the options have sizes of their own.
    pub finished_size: String,
    /// The options, in order.
    pub options: Vec<SheetOption>,
}

/// One option on a sheet.
#[derive(Clone, Debug)]
pub struct SheetOption {
    /// Its seed.
    pub seed: Seed,
    /// Its own finished size, in words; nothing if it is that of all.
    pub size: String,
    /// Its pictures by the lights it is shown by, as far as they have been drawn.
    pub pictures: [Option<Picture>; 2],
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_paper_is_the_one_usual_at_home() {
        assert_eq!(PaperSize::usual("en-US"), PaperSize::Letter);
        assert_eq!(["de-DE", "en-GB", ""].map(PaperSize::usual), [PaperSize::A4; 3]);
    }
}
