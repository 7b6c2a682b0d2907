//! The size of the paper, and the way to the printer.

use crate::words;
use dappledome::paper::sheet::PaperSize;
use leptos::prelude::*;

/// The words for both.
pub fn size_and_print(paper: RwSignal<PaperSize>) -> AnyView {
    let print = move |_| {
        // A browser that cannot print says so itself.
        let _ = window().print();
    };
    view! {
        <span class="sizes" role="group" aria-label=words::PAPER_SIZE>
            <SizeOption size=PaperSize::A4 word=words::A4 paper />
            <SizeOption size=PaperSize::Letter word=words::LETTER paper />
        </span>
        <button class="table-word" on:click=print>
            {words::PRINT}
        </button>
    }
    .into_any()
}

#[component]
fn SizeOption(
    /// The size.
    size: PaperSize,
    /// Its word.
    word: &'static str,
    /// The size of the paper.
    paper: RwSignal<PaperSize>,
) -> impl IntoView {
    view! {
        <button
            class="table-word"
            aria-pressed=move || (paper.get() == size).to_string()
            on:click=move |_| paper.set(size)
        >
            {word}
        </button>
    }
}
