//! The area as a whole.

use super::ladder::ladder_of;
use super::photo::{photo_part, white_part};
use super::state::TileBench;
use super::tiles::tile_rows;
use crate::controls::cautions::CautionsWord;
use crate::controls::number::NumberRow;
use crate::controls::photo::PhotoIntake;
use crate::fields::types::Unit;
use crate::model::ids::AreaId;
use crate::state::announcer::Announcer;
use crate::state::glasses::OwnGlasses;
use crate::state::nav::Nav;
use crate::state::tile_draft::{Draft, TileDesk};
use crate::words;
use dappledome::base::notice::Notice;
use dappledome::recipe::limits::{DENSITY, Limit, MILKINESS_OF_OPAL, PACKING, WHITE_LOOKS};
use leptos::prelude::*;

/// The area.
pub fn tile_area() -> AnyView {
    let nav = expect_context::<Nav>();
    let bench = TileBench::new();
    let TileDesk { remark: said, .. } = expect_context();
    on_cleanup(move || {
        // The page may be going with it.
        let _ = said.try_set(None);
    });
    let intake = PhotoIntake::new(move |photo| bench.draft.update(|draft| draft.take_photo(photo)));
    let photographed = move || bench.draft.with(|draft| draft.photo.is_some());
    view! {
        <section class="area tile-area" aria-label=words::FROM_A_TILE tabindex="-1">
            <div class="tray-top">
                <h2>{words::FROM_A_TILE}</h2>
                <span class="gap"></span>
                <CautionsWord class="table-word" />
                <button class="table-word" on:click=move |_| nav.close_area()>{words::LEAVE_TILE}</button>
            </div>
            <div
                class="kiln-paper tile-paper"
                class:photographed=photographed
                on:drop=move |event| intake.take_dropped(&event)
            >
                <p class="aside tile-how">{words::HOW_TO_TILE}</p>
                {photo_part(bench, intake)}
                <div class="tile-side">
                    {white_part(bench, said)} {tile_rows(bench, said)}
                    <dl class="kiln-numbers tile-numbers">{numbers(bench, said)}</dl>
                    <p class="refused" role="alert">{move || said.get()}</p>
                    {doubts(bench)}
                </div>
                {ladder_of(bench)}
                {shelve(bench, said)}
            </div>
        </section>
    }
    .into_any()
}

/// White, spoon, density and milkiness.
fn numbers(bench: TileBench, said: RwSignal<Option<String>>) -> AnyView {
    let row = |label, unit, limit: Limit, get: fn(&Draft) -> f64, set: fn(&mut Draft, f64)| {
        let value = move || bench.draft.with(|draft| Some(get(draft)));
        let change = move |value: Option<f64>| {
            bench.draft.update(|draft| set(draft, value.unwrap_or(limit.usual)));
        };
        view! { <NumberRow label unit limit value=Signal::derive(value) set=Callback::new(change) said /> }
    };
    view! {
        {row(words::WHITE_SHOWS, Unit::Number, WHITE_LOOKS, |draft| draft.bases.white, |draft, to| draft.bases.white = to)}
        {row(words::SPOON_HOLDS, Unit::Spoon, PACKING, |draft| draft.powder.packing, |draft, to| draft.powder.packing = to)}
        {row(words::DENSITY, Unit::Number, DENSITY, |draft| draft.powder.density, |draft, to| draft.powder.density = to)}
        {row(
            words::OPAL_SCATTERS,
            Unit::Number,
            MILKINESS_OF_OPAL,
            |draft| draft.powder.milkiness,
            |draft, to| draft.powder.milkiness = to,
        )}
    }
    .into_any()
}

/// What keeps the tiles from being a glass, or speaks against them.
fn doubts(bench: TileBench) -> impl IntoView {
    let notices = move || match &*bench.fitted.read() {
        None => Vec::new(),
        Some(Err(fault)) => vec![fault.clone()],
        Some(Ok(fitted)) => fitted.doubts.iter().map(|doubt| doubt.notice()).collect::<Vec<Notice>>(),
    };
    move || {
        let notices = notices().into_iter().map(|notice| {
            view! {
                <div class="notice risk">
                    <p>
                        <b>{notice.what}</b>
                        " "
                        {notice.why}
                        " "
                        {notice.remedy}
                    </p>
                </div>
            }
        });
        notices.collect_view()
    }
}

/// Its name, and the button that puts it on the shelf.
fn shelve(bench: TileBench, said: RwSignal<Option<String>>) -> AnyView {
    let (own, nav) = (expect_context::<OwnGlasses>(), expect_context::<Nav>());
    let announcer = expect_context::<Announcer>();
    let name = move || bench.draft.with(|draft| draft.name.clone());
    let ready = move || {
        bench.draft.with(|draft| !draft.name.trim().is_empty())
            && matches!(&*bench.fitted.read(), Some(Ok(_)))
    };
    let put = move |_| {
        let (tiles, Some(Ok(fitted))) = bench.at_once() else { return };
        let draft = bench.draft.get_untracked();
        match own.put_new(&draft.name, |id| draft.glass(&id, &tiles, &fitted)) {
            Ok(()) => {
                announcer.say(words::glass_on_shelf(draft.name.trim()));
                bench.draft.set(Draft::default());
                nav.open_area(AreaId::SHELF);
            }
            Err(fault) => said.set(Some(fault)),
        }
    };
    view! {
        <div class="tile-name">
            <label>
                <span class="second">{words::NAME_OF_GLASS}</span>
                " "
                <input
                    class="typed glass-name"
                    placeholder=words::NAME_FOR_INSTANCE
                    prop:value=name
                    on:input=move |event| bench.draft.update(|draft| draft.name = event_target_value(&event))
                />
            </label>
            <div class="buttons">
                <button class="button main" disabled=move || !ready() on:click=put>{words::PUT_ON_SHELF}</button>
            </div>
            <p class="aside">{words::TILE_CAUTION}</p>
        </div>
    }
    .into_any()
}
