//! What was done to the order, taken back and brought again.

use super::state::OrderState;
use crate::words;
use leptos::prelude::*;

/// *Undo* and *Redo* of the order.
pub fn steps(state: OrderState) -> AnyView {
    let steps = state.orders.next_steps.get();
    let word = |there: bool, word: &'static str, by: isize| {
        there.then(|| {
            view! {
                <button
                    class="table-word"
                    on:click=move |_| {
                        // What was said of a step does not hold once it is taken back.
                        state.said.set(None);
                        state.orders.step_by(by);
                    }
                >
                    {word}
                </button>
            }
        })
    };
    view! {
        {word(steps.back.is_some(), words::UNDO, -1)}
        {word(steps.forward.is_some(), words::REDO, 1)}
    }
    .into_any()
}
