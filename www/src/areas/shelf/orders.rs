//! The orders on the shelf, each a line: what it is, for whom, when it is due; and what of orders, bench and log cannot be read.

use super::state::ShelfState;
use crate::controls::papers_kept::papers_kept;
use crate::dom::clock;
use crate::model::ids::{AreaId, OrderId};
use crate::model::records::Damaged;
use crate::services::download;
use crate::services::keeper::Keeper;
use crate::state::orders::Orders;
use crate::words;
use dappledome::keep::content::Kind;
use dappledome::orders::file;
use dappledome::orders::model::Order;
use leptos::prelude::*;

/// The section.
pub fn order_section() -> AnyView {
    let orders = expect_context::<Orders>();
    let ids = move || orders.list.read().iter().map(|record| record.id).collect::<Vec<_>>();
    let none = move || orders.list.read().is_empty().then_some(words::NO_ORDERS_YET);
    view! {
        <section class="kiln orders" id="shelf-orders" tabindex="-1" aria-label=words::SHELF_ORDERS>
            <h3>{words::SHELF_ORDERS}</h3>
            <div class="kiln-paper">
                {papers_kept()}
                <p class="aside">{none}</p>
                <ul role="list">
                    <For each=ids key=|id| *id let:id>
                        {item(orders, id)}
                    </For>
                </ul>
                {gone(orders)}
                {damaged()}
            </div>
        </section>
    }
    .into_any()
}

fn item(orders: Orders, id: OrderId) -> AnyView {
    let shelf = expect_context::<ShelfState>();
    let of = move |look: fn(&Order) -> String| {
        orders.list.read().iter().find(|record| record.id == id).map(|record| look(&record.order))
    };
    let open = move |_| {
        orders.open(id);
        shelf.nav.open_area(AreaId::ORDER);
    };
    let save = move |_| {
        let Some(name) = untrack(|| of(words::order_name)) else { return };
        let text = untrack(|| of(file::write)).unwrap_or_default();
        let name = words::file_name(&name, "json");
        let saved = download::text(&name, "application/json", &text);
        shelf.saving.note.set(words::saved_as(&name, saved));
    };
    let label = move |word: &str| of(words::order_name).map(|name| words::done_to(word, &name));
    view! {
        <li class="mold-item">
            <p>
                <button class="word" on:click=open>
                    <b>{move || of(words::order_name)}</b>
                </button>
                " "
                <span class="second">{move || of(in_short)}</span>
            </p>
            <div class="buttons">
                <button class="button" aria-label=move || label(words::SAVE_ORDER) on:click=save>
                    {words::SAVE_ORDER}
                </button>
                <button
                    class="button"
                    aria-label=move || label(words::TAKE_AWAY)
                    on:click=move |_| orders.remove(id)
                >
                    {words::TAKE_AWAY}
                </button>
            </div>
        </li>
    }
    .into_any()
}

fn in_short(order: &Order) -> String {
    let today = clock::today();
    let due = order.due.map(|due| words::due_in(due, (due - today).get_days(), today));
    words::order_line(order, due)
}

/// What was taken away last, and the word that puts it back.
fn gone(orders: Orders) -> AnyView {
    (move || {
        let name = orders.gone()?;
        Some(view! {
            <p role="status">
                {words::taken_away(&name)}
                " "
                <button class="word" on:click=move |_| orders.put_back()>{words::PUT_BACK}</button>
            </p>
        })
    })
    .into_any()
}

/// What cannot be read: it stays, can be saved as it is, and taken away.
fn damaged() -> AnyView {
    let shelf = expect_context::<ShelfState>();
    (move || {
        let all = shelf.saving.damaged.get();
        all.into_iter().map(|one| damaged_item(shelf, one)).collect::<Vec<_>>()
    })
    .into_any()
}

fn damaged_item(shelf: ShelfState, one: Damaged) -> AnyView {
    let keeper = expect_context::<Keeper>();
    let said = match one.kind {
        Kind::Order => words::damaged_order(),
        Kind::Bench => words::damaged_bench(),
        Kind::Entry | Kind::Piece => words::damaged_entry(),
    };
    let text = one.text.clone();
    let save = move |_| {
        let saved = download::text(words::DAMAGED_FILE, "application/json", &text);
        shelf.saving.note.set(words::saved_as(words::DAMAGED_FILE, saved));
    };
    view! {
        <div class="mold-item" role="status">
            <p>{said}</p>
            <div class="buttons">
                <button class="button" on:click=save>{words::SAVE_WHAT_IS_THERE}</button>
                <button class="button" on:click=move |_| keeper.drop_damaged(one.clone())>
                    {words::TAKE_AWAY}
                </button>
            </div>
        </div>
    }
    .into_any()
}
