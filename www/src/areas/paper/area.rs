//! The sheet on the table.

use super::page::Page;
use super::print::size_and_print;
use super::saving::Saver;
use super::types::ON_A_PAGE;
use crate::areas::finished_size::Sizes;
use crate::controls::cautions::CautionsWord;
use crate::state::nav::Nav;
use crate::state::preferences::Preferences;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::seed::Seed;
use dappledome::paper::sheet::PaperSize;
use leptos::prelude::*;

/// The whole area.
#[component]
pub fn PaperArea() -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let options = Memo::new(move |_| options(piece));
    let preferences = expect_context::<Preferences>();
    let sizes = Memo::new(move |_| Sizes::of(&options.read(), piece, preferences));
    let paper = RwSignal::new(PaperSize::usual(&window().navigator().language().unwrap_or_default()));
    view! {
        <section class="area paper-area" aria-label=words::PAPER tabindex="-1">
            <TopLine options sizes paper />
            <div
                class="pages"
                class:a4=move || paper.get() == PaperSize::A4
                class:letter=move || paper.get() == PaperSize::Letter
                tabindex="0"
                role="region"
                aria-label=words::OPTION_SHEET
            >
                <For
                    each=move || 0..options.with(Vec::len).div_ceil(ON_A_PAGE)
                    key=|number| *number
                    children=move |number| view! { <Page number options sizes /> }
                />
            </div>
        </section>
    }
}

/// The options of a sheet: those kept or, if none is, the piece itself.
fn options(piece: Workpiece) -> Vec<Seed> {
    let kept = piece.sisters.read().kept_seeds();
    if kept.is_empty() { vec![piece.seed.get()] } else { kept }
}

#[component]
fn TopLine(
    /// The options.
    options: Memo<Vec<Seed>>,
    /// Their finished sizes.
    sizes: Memo<Sizes>,
    /// The size of the paper.
    paper: RwSignal<PaperSize>,
) -> impl IntoView {
    let (nav, saver) = (expect_context::<Nav>(), Saver::new());
    let save = move |_| saver.save(&options.get_untracked(), &sizes.get_untracked(), paper.get_untracked());
    view! {
        <div class="tray-top">
            <h2>{words::OPTION_SHEET}</h2>
            {size_and_print(paper)}
            <button class="table-word" on:click=save>
                {words::SAVE_AS_PICTURE}
            </button>
            <span class="note" role="status">
                {saver.said}
            </span>
            <span class="gap"></span>
            <CautionsWord class="table-word" />
            <button class="table-word" on:click=move |_| nav.close_area()>{words::CLOSE_PAPER}</button>
        </div>
    }
}
