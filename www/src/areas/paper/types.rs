//! What a sheet of options is made of.

use crate::state::pictures::Picture;
use dappledome::base::seed::Seed;
use dappledome::paper::sheet::PaperSize;
use dappledome::picture::view::Light;

/// Options on a page.
pub const ON_A_PAGE: usize = 4;
/// The lights that each option is shown by, in the order of their columns.
pub const SHOWN_BY: [Light; 2] = [Light::Day, Light::Within];

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
