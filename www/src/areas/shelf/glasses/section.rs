//! The glasses side by side, and the one that is opened.

use super::disc::disc;
use super::opened::opened;
use crate::dom::focus;
use crate::model::ids::AreaId;
use crate::services::download;
use crate::state::glasses::OwnGlasses;
use crate::state::nav::Nav;
use crate::words;
use dappledome::glass::catalogue;
use dappledome::glass::kind::Source;
use dappledome::recipe::shelf::Shelf;
use leptos::prelude::*;

/// The section.
pub fn glass_section() -> AnyView {
    let (own, nav) = (expect_context::<OwnGlasses>(), expect_context::<Nav>());
    // Which one is opened, and what there is to say of what was done.
    let (open, said) = (RwSignal::new(None::<String>), RwSignal::new(None::<String>));
    let ids = move |retired: bool| {
        own.with(|shelf| {
            let some = shelf.glasses.iter().filter(|own| own.retired == retired);
            some.map(|own| own.glass.id.clone()).collect::<Vec<_>>()
        })
    };
    let none = move || own.with(|shelf| shelf.glasses.is_empty()).then_some(words::NO_OWN_GLASSES);
    let of_catalogue = |invented: bool| {
        let some = catalogue::all().iter().filter(|glass| (glass.source == Source::Invented) == invented);
        some.map(|glass| glass.id.clone()).collect::<Vec<_>>()
    };
    let retired = Memo::new(move |_| own.with(|shelf| shelf.glasses.iter().any(|own| own.retired)));
    view! {
        <section class="kiln glasses" id="shelf-glasses" tabindex="-1" aria-label=words::GLASSES_ON_SHELF>
            <h3>{words::GLASSES_ON_SHELF}</h3>
            <p class="aside">{none}</p>
            <div class="buttons">
                <button class="button" on:click=move |_| nav.open_area(AreaId::TILE)>{words::MAKE_FROM_TILE}</button>
            </div>
            {list(move || ids(false), open)}
            <h4>{words::INVENTED_GLASSES}</h4>
            {list(move || of_catalogue(true), open)}
            <h4>{words::MEASURED_GLASSES}</h4>
            {list(move || of_catalogue(false), open)}
            <Show when=move || retired.get()>
                <h4>{words::RETIRED}</h4>
                {list(move || ids(true), open)}
            </Show>
            {gone(own, said)}
            <p class="refused" role="alert">{move || said.get()}</p>
            {move || open.get().map(|id| opened(id, open, said))}
            {as_file(own)}
        </section>
    }
    .into_any()
}

/// Glasses side by side.
fn list(ids: impl Fn() -> Vec<String> + Send + Sync + 'static, open: RwSignal<Option<String>>) -> AnyView {
    view! {
        <ul class="glass-list" role="list">
            <For each=ids key=Clone::clone let:id>
                {disc(id, open)}
            </For>
        </ul>
    }
    .into_any()
}

/// What was taken off last, and the word that puts it back.
fn gone(own: OwnGlasses, said: RwSignal<Option<String>>) -> impl IntoView {
    move || {
        let name = own.gone()?;
        Some(view! {
            <p role="status">
                {words::glass_taken_off(&name)} " "
                <button class="word" on:click=move |_| said.set(own.put_back().err())>
                    {words::PUT_BACK}
                </button>
            </p>
        })
    }
}

/// Saves the maker's own glasses as a file of their own.
fn as_file(own: OwnGlasses) -> impl IntoView {
    let said = RwSignal::new(None::<String>);
    let save = move |_| {
        let text = untrack(|| own.with(Shelf::write));
        let saved = download::text(words::SHELF_FILE, "application/json", &text);
        said.set(Some(words::saved_as(words::SHELF_FILE, saved)));
        focus::bring("shelf-glasses");
    };
    move || {
        let some = own.with(|shelf| !shelf.glasses.is_empty());
        some.then(|| {
            view! {
                <p class="aside">
                    <button class="word" on:click=save>{words::GLASSES_AS_FILE}</button>
                    " "
                    <span role="status">{move || said.get()}</span>
                </p>
            }
        })
    }
}
