//! *Finer*: one line that says what differs from usual, and opens on the rest of a step's rules.

use super::rule::rule;
use super::rules::{Place, Rule};
use super::state::Bench;
use super::words;
use leptos::prelude::*;

/// The rules of a list, in order.
pub fn rules(bench: Bench, list: &'static [Rule], place: Place) -> AnyView {
    let list = list.iter().map(|one| rule(bench, one, place)).collect_view();
    view! { <div class="rules">{list}</div> }.into_any()
}

/// The line and, when it is open, the rules of `lists` and then `more`.
pub fn finer(
    bench: Bench,
    lists: &'static [&'static [Rule]],
    place: Place,
    more: Option<fn(Bench, Place) -> AnyView>,
) -> AnyView {
    let open = bench.finer;
    let differing = Memo::new(move |_| {
        bench.recipe.with(|recipe| {
            let all = lists.iter().flat_map(|list| list.iter());
            let said: Vec<String> = all
                .filter(|rule| rule.differs(recipe, place))
                .map(|rule| format!("{} {}", words::lower(rule.label), rule.say_all(recipe, place)))
                .collect();
            if said.is_empty() { words::AS_USUAL.into() } else { said.join(", ") }
        })
    });
    view! {
        <button
            class="finer"
            aria-expanded=move || open.get().to_string()
            on:click=move |_| open.update(|open| *open = !*open)
        >
            <b>{words::FINER}</b>
            <span class="differing" class:hidden=open>{differing}</span>
        </button>
        <Show when=move || open.get()>
            <div class="finer-rules">
                {more.map(|more| more(bench, place))}
                {lists.iter().map(|list| rules(bench, list, place)).collect_view()}
            </div>
        </Show>
    }
    .into_any()
}
