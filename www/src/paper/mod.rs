//! Paper: the option sheet, as it will be printed, with the ways to print and save it.

mod picture;

use super::choice::table_word;
use super::dom::{El, el, memo};
use super::hand::Frame;
use super::state::{Area, Bench};
use super::tray::Tray;
use super::words;
use dappledome::base::seed::Seed;
use dappledome::picture::view::Light;
use dappledome::recipe::piece::letter;
use leptos::prelude::*;

/// Options on a page.
const ON_A_PAGE: usize = 4;

/// A size of paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Size {
    /// ISO 216: 210 x 297 mm.
    A4,
    /// ANSI/ASME Y14.1 A: 8 1/2 x 11 in.
    Letter,
}

impl Size {
    /// Width and height, mm.
    pub fn mm(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        }
    }

    /// The size that is usual where this browser is at home.
    fn usual() -> Self {
        let language = window().navigator().language().unwrap_or_default();
        let letter = ["en-US", "en-CA", "fr-CA", "es-MX", "en-PH", "es-CO", "es-CL", "es-VE"];
        if letter.contains(&language.as_str()) { Self::Letter } else { Self::A4 }
    }
}

/// The options of a sheet: those kept or, if none is, the piece itself.
fn options(bench: Bench) -> Vec<Seed> {
    let kept = bench.sisters.with(|sisters| sisters.kept.clone());
    if kept.is_empty() { vec![bench.seed.get()] } else { kept }
}

/// The sheet on the table.
pub fn paper(bench: Bench, tray: Tray) -> El {
    let size = RwSignal::new(Size::usual());
    let options = memo(move || options(bench));
    let said = RwSignal::new(String::new());
    let sizes = [(Size::A4, words::A4), (Size::Letter, words::LETTER)].map(|(one, word)| {
        table_word(word, move || size.set(one)).live_flag("aria-pressed", move || size.get() == one)
    });
    let print = move || {
        // A browser that cannot print says so itself.
        let _ = window().print();
    };
    let save = move || picture::save(bench, tray, options.get_untracked(), size.get_untracked(), said);
    let top = el("div", "tray-top")
        .with(el("h2", "").says(words::OPTION_SHEET))
        .with(el("span", "sizes").is("role", "group").is("aria-label", words::PAPER_SIZE).with_all(sizes))
        .with(table_word(words::PRINT, print))
        .with(table_word(words::SAVE_AS_PICTURE, save))
        .with(el("span", "note").is("role", "status").reads(move || said.get()))
        .with(el("span", "gap"))
        .with(table_word(words::CLOSE_PAPER, move || bench.area.set(Area::Piece)));
    let pages = move || {
        let options = options.get();
        options.chunks(ON_A_PAGE).enumerate().map(|(at, some)| page(bench, tray, at, some)).collect()
    };
    let pages = el("div", "pages")
        .class_when("a4", move || size.get() == Size::A4)
        .class_when("letter", move || size.get() == Size::Letter)
        .is("tabindex", "0")
        .is("role", "region")
        .is("aria-label", words::OPTION_SHEET)
        .holds(pages);
    el("section", "area paper-area").is("aria-label", words::PAPER).is("tabindex", "-1").with(top).with(pages)
}

fn page(bench: Bench, tray: Tray, number: usize, seeds: &[Seed]) -> El {
    let line = |word: &str| el("p", "fill-in").says(word).with(el("span", ""));
    let head = el("header", "page-head")
        .with(
            el("div", "")
                .with(el("h3", "").reads(move || bench.recipe.with(|recipe| recipe.title.clone())))
                .with(el("p", "").reads(move || bench.size())),
        )
        .with(el("div", "").with(line(words::FOR)).with(line(words::DATE)));
    let columns = el("div", "option-row heads")
        .with(el("span", ""))
        .with(el("span", "").says(words::BY_DAY))
        .with(el("span", "").says(words::LIT_FROM_WITHIN));
    let rows = seeds.iter().enumerate().map(|(at, seed)| row(tray, number * ON_A_PAGE + at, *seed));
    let empty = (seeds.len()..ON_A_PAGE).map(|_| el("div", "option-row empty"));
    let foot = el("footer", "page-foot")
        .with(el("span", "").says(words::SHEET_CAUTION))
        .with(el("span", "").says(words::DAPPLEDOME));
    el("article", "printed").with(head).with(columns).with_all(rows).with_all(empty).with(foot)
}

fn row(tray: Tray, at: usize, seed: Seed) -> El {
    let words = el("div", "option-words")
        .with(el("p", "option-letter").says(&letter(at)))
        .with(el("p", "").says(&words::seed(seed)))
        .with(el("p", "fill-in").says(words::PRICE).with(el("span", "")));
    let picture = |light: Light| {
        let name = words::option_picture(&letter(at), light == Light::Within);
        el("div", if light == Light::Within { "option-picture dusk" } else { "option-picture" })
            .is("role", "img")
            .is("aria-label", &name)
            .with(tray.option(seed, light))
    };
    el("div", "option-row").with(words).with(picture(Light::Day)).with(picture(Light::Within))
}

/// The frames a sheet needs: every option by day and lit.
pub fn frames(bench: Bench) -> Vec<(Frame, Seed)> {
    let lights = [Light::Day, Light::Within];
    let seeds = untrack(|| options(bench));
    seeds.into_iter().flat_map(|seed| lights.map(|light| (Frame::Option(seed, light), seed))).collect()
}
