//! The paper of the open order, as it will be printed.

use super::drawn::DrawnSheet;
use super::print::size_and_print;
use crate::controls::cautions::CautionsWord;
use crate::state::nav::Nav;
use crate::state::order_paper::OrderPaper;
use crate::words;
use dappledome::paper::kind::Kind;
use dappledome::paper::sheet::PaperSize;
use leptos::prelude::*;

/// The kinds of sheets, in the order of their words.
const KINDS: [Kind; 4] = [Kind::MakeSheet, Kind::Quote, Kind::SiftMap, Kind::Labels];

/// The whole area.
#[component]
pub fn OrderPaperArea() -> impl IntoView {
    let (nav, paper) = (expect_context::<Nav>(), expect_context::<OrderPaper>());
    let kinds = KINDS.map(|kind| {
        let chosen = move || (paper.kind.get() == kind).to_string();
        view! {
            <button class="table-word" aria-pressed=chosen on:click=move |_| paper.kind.set(kind)>
                {kind.name()}
            </button>
        }
        .into_any()
    });
    view! {
        <section class="area paper-area" aria-label=words::ORDERS_PAPER tabindex="-1">
            <div class="tray-top">
                <h2>{words::ORDERS_PAPER}</h2>
                <span class="sizes" role="group" aria-label=words::WHICH_SHEETS>
                    {kinds.into_iter().collect_view()}
                </span>
                {size_and_print(paper.size)}
                <span class="gap"></span>
                <CautionsWord class="table-word" />
                <button class="table-word" on:click=move |_| nav.close_area()>
                    {words::CLOSE_PAPER}
                </button>
            </div>
            <div
                class="pages"
                class:a4=move || paper.size.get() == PaperSize::A4
                class:letter=move || paper.size.get() == PaperSize::Letter
                tabindex="0"
                role="region"
                aria-label=move || paper.kind.get().name()
            >
                {move || pages(paper)}
            </div>
        </section>
    }
}

/// The pages of the chosen kind; a word where there are none, or none yet.
fn pages(paper: OrderPaper) -> AnyView {
    let laid_out = paper.sheets.get().filter(|(kind, _)| *kind == paper.kind.get());
    let said = match laid_out {
        None => words::LAYING_OUT,
        Some((_, sheets)) if sheets.is_empty() => words::NO_SIFT_MAP,
        Some((_, sheets)) => {
            return sheets
                .iter()
                .map(|sheet| view! { <DrawnSheet sheet=sheet.clone() /> }.into_any())
                .collect_view()
                .into_any();
        }
    };
    view! { <p class="note" role="status">{said}</p> }.into_any()
}
