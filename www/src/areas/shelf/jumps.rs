//! Words that jump to what lies on the shelf, with how much of it there is.

use super::state::ShelfState;
use crate::dom::focus;
use crate::model::ids::AreaId;
use crate::state::glasses::OwnGlasses;
use crate::state::kilns::KilnChoice;
use crate::state::log::Log;
use crate::state::molds::Molds;
use crate::state::orders::Orders;
use crate::words;
use dappledome::glass::catalogue;
use leptos::prelude::*;

/// The words.
pub fn jumps() -> AnyView {
    let (shelf, orders) = (expect_context::<ShelfState>(), expect_context::<Orders>());
    let (molds, log) = (expect_context::<Molds>(), expect_context::<Log>());
    let pieces = move || words::jump(words::PIECES, shelf.all_pieces());
    let ordered = move || words::jump(words::SHELF_ORDERS, orders.list.read().len());
    let kilns = words::jump(words::KILNS, KilnChoice::ALL.len());
    let molds = move || words::jump(words::MOLDS, molds.count());
    let own = expect_context::<OwnGlasses>();
    let glasses = move || {
        words::jump(words::GLASSES_ON_SHELF, own.with(|shelf| shelf.glasses.len()) + catalogue::all().len())
    };
    let stock = || words::SHEETS_AND_JARS.to_owned();
    let logged = move || words::jump(words::LOG, log.list.read().len());
    view! {
        <nav class="shelf-jumps" aria-label=words::JUMP>
            {word("shelf-pieces", pieces)}
            {word("shelf-orders", ordered)}
            {word("shelf-glasses", glasses)}
            {word("shelf-kilns", move || kilns.clone())}
            {word("shelf-molds", molds)}
            {word("shelf-stock", stock)}
            <button class="table-word" on:click=move |_| shelf.nav.open_area(AreaId::LOG)>{logged}</button>
        </nav>
    }
    .into_any()
}

fn word(place: &'static str, word: impl Fn() -> String + Send + 'static) -> AnyView {
    view! { <button class="table-word" on:click=move |_| focus::bring(place)>{word}</button> }.into_any()
}
