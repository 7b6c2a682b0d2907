//! What the customer chooses: this one, these six, and how many pieces.

use super::state::Showing;
use crate::services::ordering::Ordering;
use crate::words;
use dappledome::recipe::sisters::MOST_PIECES;
use leptos::ev::Event;
use leptos::prelude::*;
use web_sys::HtmlInputElement;

/// The buttons, and what was chosen.
#[component]
pub fn Choosing(
    /// What the customer looks at.
    showing: Showing,
) -> impl IntoView {
    let several = move || showing.kept.read().len() > 1;
    let all = move || showing.count() == showing.kept.read().len();
    view! {
        <div class="customer-choose">
            <p class="customer-said" role="status">
                {move || showing.said_or_refused()}
            </p>
            <div class="customer-buttons">
                <ThisOne showing />
                <Show when=several>
                    <button
                        class="button"
                        aria-pressed=move || all().to_string()
                        on:click=move |_| showing.choose_all()
                    >
                        {move || words::these(showing.kept.read().len())}
                    </button>
                </Show>
                <Show when=move || { showing.count() > 0 }>
                    <HowMany showing />
                    <OrderThem showing />
                </Show>
            </div>
        </div>
    }
}

/// The buttons about the large option.
#[component]
fn ThisOne(
    /// What the customer looks at.
    showing: Showing,
) -> impl IntoView {
    let main = Memo::new(move |_| match (showing.chosen(), showing.count()) {
        (true, _) => words::NOT_THIS_ONE,
        (false, 0) => words::THIS_ONE,
        (false, _) => words::THIS_ONE_TOO,
    });
    let instead = Memo::new(move |_| !showing.chosen() && showing.count() > 0);
    let press = move |_| match (untrack(|| showing.chosen()), untrack(|| showing.count())) {
        (true, _) => showing.unchoose(),
        (false, 0) => showing.choose(),
        (false, _) => showing.choose_too(),
    };
    view! {
        <button class="button" class:main=move || main.get() != words::NOT_THIS_ONE on:click=press>
            {main}
        </button>
        <Show when=move || instead.get()>
            <button class="button" on:click=move |_| showing.choose()>
                {words::THIS_ONE_INSTEAD}
            </button>
        </Show>
    }
}

/// Orders what was chosen.
#[component]
fn OrderThem(
    /// What the customer looks at.
    showing: Showing,
) -> impl IntoView {
    let ordering = Ordering::of_contexts();
    view! {
        <button class="button main" on:click=move |_| ordering.chosen()>
            {move || words::order_like(showing.pieces(), &showing.letters())}
        </button>
    }
}

/// How many pieces of what was chosen, in all.
#[component]
fn HowMany(
    /// What the customer looks at.
    showing: Showing,
) -> impl IntoView {
    let step = move |by: i32| showing.want(untrack(|| showing.pieces()).saturating_add_signed(by));
    let typed = move |event: Event| {
        let field: HtmlInputElement = event_target(&event);
        match field.value().trim().parse() {
            Ok(pieces) if (1..=MOST_PIECES).contains(&pieces) => showing.want(pieces),
            _ => showing.refuse_number(),
        }
        // What was typed may have been no number, or none that is allowed.
        field.set_value(&untrack(|| showing.pieces()).to_string());
    };
    view! {
        <div class="how-many" role="group" aria-label=words::HOW_MANY_PIECES>
            <button class="button" aria-label=words::ONE_LESS on:click=move |_| step(-1)>
                "−"
            </button>
            <label>
                <input
                    type="text"
                    inputmode="numeric"
                    autocomplete="off"
                    aria-label=words::HOW_MANY_PIECES
                    prop:value=move || showing.pieces().to_string()
                    on:change=typed
                />
                <span>{words::HOW_MANY_PIECES}</span>
            </label>
            <button class="button" aria-label=words::ONE_MORE on:click=move |_| step(1)>
                "+"
            </button>
        </div>
    }
}
