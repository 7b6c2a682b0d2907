//! The option sheet as pictures, with the piece inside each file.

use super::drawing;
use super::types::{ON_A_PAGE, OptionSheet, SHOWN_BY, SheetOption};
use crate::areas::finished_size::Sizes;
use crate::model::slots::PictureSlot;
use crate::services::download::{PieceTexts, save_picture};
use crate::state::pictures::Pictures;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::seed::Seed;
use dappledome::paper::sheet::PaperSize;
use leptos::prelude::*;

/// Saves the sheet.
#[derive(Clone, Copy)]
pub struct Saver {
    /// What came of it.
    pub said: RwSignal<String>,
    piece: Workpiece,
    pictures: Pictures,
}

impl Saver {
    /// Takes the contexts of the page.
    pub fn new() -> Self {
        Self { said: RwSignal::new(String::new()), piece: expect_context(), pictures: expect_context() }
    }

    /// Saves each page as a PNG, one after another; opened again, any of them brings back the piece with its shortlist.
    pub fn save(&self, seeds: &[Seed], sizes: &Sizes, paper: PaperSize) {
        let piece = self.piece.version().piece;
        let texts = PieceTexts { recipe: piece.write(), seed: piece.seed.to_string() };
        let options =
            seeds.iter().enumerate().map(|(at, seed)| self.option(*seed, sizes.beside(at))).collect();
        let finished_size = sizes.head();
        save_from(
            0,
            OptionSheet { paper, title: piece.recipe.title, finished_size, options },
            texts,
            self.said,
        );
    }

    fn option(&self, seed: Seed, size: String) -> SheetOption {
        let pictures = SHOWN_BY.map(|light| self.pictures.picture(PictureSlot::Option(seed, light)));
        SheetOption { seed, size, pictures }
    }
}

/// Saves the pages from one on.
fn save_from(number: usize, sheet: OptionSheet, texts: PieceTexts, said: RwSignal<String>) {
    let Some(page) = drawing::page(&sheet, number) else { return };
    let part = (sheet.options.len() > ON_A_PAGE).then_some(number + 1);
    let name = words::option_sheet_file(&sheet.title, part);
    save_picture(&page, name, texts.clone(), move |words| {
        // The paper may have been laid aside meanwhile.
        let _ = said.try_set(words);
        save_from(number + 1, sheet, texts, said);
    });
}
