//! The head: the order's name, who has ordered it, when it is due, and its lines.

use super::state::OrderState;
use super::today;
use super::undo::steps;
use crate::controls::cautions::CautionsWord;
use crate::controls::papers_kept::papers_kept;
use crate::model::ids::PieceId;
use crate::words;
use dappledome::base::notice::Notice;
use dappledome::orders::checks;
use dappledome::orders::limits::MOST_NAME;
use dappledome::orders::model::{Date, Line, Order};
use leptos::prelude::*;

/// The head.
#[component]
pub fn Head(
    /// The order.
    state: OrderState,
) -> impl IntoView {
    view! {
        <div class="order-head">
            <h2>{field(state, "order-title", words::ORDER_NAME, |order| &mut order.title)}</h2>
            <span class="gap"></span>
            {move || steps(state)}
            <Show when=move || today::is_day(state)>
                <button class="table-word" on:click=move |_| state.today.set(Some(true))>
                    {words::TODAY}
                </button>
            </Show>
            <CautionsWord class="table-word" />
            <button class="table-word" on:click=move |_| state.nav.close_area()>
                {words::CLOSE_ORDER}
            </button>
        </div>
        <div class="order-line">
            <label>
                {words::ORDERED_BY}" "
                {field(state, "order-customer", words::ORDERED_BY, |order| &mut order.customer)}
            </label>
            <label>{words::DUE}" "{due(state)}</label>
            {move || lines(state)}
            {move || changed(state)}
        </div>
        {papers_kept()}
        {move || faults(state)}
    }
}

/// A text of the order, edited where it stands.
fn field(
    state: OrderState,
    class: &'static str,
    label: &'static str,
    of: fn(&mut Order) -> &mut String,
) -> AnyView {
    let text = move || state.orders.with(|order| of(&mut order.clone()).clone()).unwrap_or_default();
    let change = move |event| {
        let typed: String = event_target_value(&event).trim().chars().take(MOST_NAME).collect();
        if typed != untrack(text) {
            state.edit(words::DID_ORDER, |order| *of(order) = typed);
        }
    };
    view! {
        <input
            class=class
            type="text"
            aria-label=label
            maxlength=MOST_NAME.to_string()
            autocomplete="off"
            spellcheck="false"
            prop:value=text
            on:change=change
        />
    }
    .into_any()
}

fn due(state: OrderState) -> AnyView {
    let text =
        move || state.orders.with(|order| order.due.map(|due| due.to_string())).flatten().unwrap_or_default();
    let change = move |event| {
        let due = event_target_value(&event).parse::<Date>().ok();
        state.edit(words::DID_ORDER, |order| order.due = due);
    };
    view! { <input class="order-due-field" type="date" aria-label=words::DUE prop:value=text on:change=change /> }.into_any()
}

/// The lines by their names, where there are several: the pressed one is shown.
fn lines(state: OrderState) -> Option<AnyView> {
    let names = state.orders.with(|order| order.lines.iter().map(checks::name).collect::<Vec<_>>())?;
    let shown = state.line();
    (names.len() > 1).then(|| {
        let words = names.into_iter().enumerate().map(|(at, name)| {
            view! {
                <button
                    class="option"
                    aria-pressed=(at == shown).to_string()
                    on:click=move |_| state.line.set(at)
                >
                    {words::plain(&name)}
                </button>
            }
        });
        view! { <span class="order-lines">{words.collect_view()}</span> }.into_any()
    })
}

/// Whether a line was copied from the piece of this number and title. Old files know no number, and then its name tells.
fn is_of(line: &Line, number: Option<PieceId>, title: &str) -> bool {
    line.piece.map_or(line.recipe.title == title, |piece| Some(PieceId(piece)) == number)
}

/// That the recipe on the table has changed since it was ordered.
fn changed(state: OrderState) -> Option<AnyView> {
    let now = state.piece.made().0.without_hand_work();
    let by_hand = state.of_line(|line| line.recipe.without_hand_work() != line.recipe)?;
    let number = state.piece.id.get();
    let changed = state.of_line(|line| {
        is_of(line, number, &now.title) && !line.recipe.without_hand_work().makes_the_same(&now)
    })?;
    if !changed || by_hand || state.as_ordered.get() {
        return None;
    }
    let (at, title) = (state.line(), now.title.clone());
    let take = move |_| {
        let now = now.clone();
        state.edit(words::DID_RECIPE, |order| {
            if let Some(line) = order.lines.get_mut(at) {
                line.recipe = now;
            }
        });
    };
    Some(
        view! {
            <span class="order-changed">
                {words::has_changed(&title)} " "
                <button class="word" on:click=take>
                    {words::TAKE_THE_CHANGE}
                </button> " "
                <button class="word" on:click=move |_| state.as_ordered.set(true)>
                    {words::KEEP_AS_ORDERED}
                </button>
            </span>
        }
        .into_any(),
    )
}

/// What is wrong with it; what it came to before stays to be looked at.
fn faults(state: OrderState) -> Option<AnyView> {
    let faults = state.orders.faults.get();
    (!faults.is_empty()).then(|| {
        view! { <div class="order-faults" role="alert">{faults.iter().take(3).map(notice).collect_view()}</div> }.into_any()
    })
}

/// A notice, without its mend.
pub fn notice(notice: &Notice) -> AnyView {
    use dappledome::base::notice::Severity;
    let class = match notice.severity {
        Severity::Fault => "notice fault",
        Severity::Risk => "notice risk",
        Severity::Note => "notice note",
    };
    view! {
        <div class=class>
            <p>
                <b>{notice.what.clone()}</b>
                " "
                {notice.why.clone()}
                " "
                {notice.remedy.clone()}
            </p>
        </div>
    }
    .into_any()
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::recipe::demo;

    #[test]
    fn a_line_knows_its_piece_by_number_and_an_old_one_by_name() {
        let mut line = Order::of(demo::ember_walk(), 12).lines.remove(0);
        let known = |line: &Line| {
            [(Some(7), "Ember Walk"), (Some(7), "Renamed"), (Some(8), "Ember Walk"), (None, "Ember Walk")]
                .map(|(number, title)| is_of(line, number.map(PieceId), title))
        };
        assert_eq!(known(&line), [true, false, true, true]);
        line.piece = Some(7);
        assert_eq!(known(&line), [true, true, false, false]);
    }
}
