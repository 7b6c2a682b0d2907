//! *Finer*: one line that says what differs from usual, and opens on the rest of a step's rules.

use super::dom::{El, el};
use super::rule::rule;
use super::rules::{Place, Rule};
use super::state::Bench;
use super::words;
use leptos::prelude::*;

/// The rules of a list, in order.
pub fn rules(bench: Bench, list: &'static [Rule], place: Place) -> El {
    el("div", "rules").with_all(list.iter().map(|one| rule(bench, one, place)))
}

/// The line and, when it is open, `more` and then the rules of `lists`.
pub fn finer(
    bench: Bench,
    lists: &'static [&'static [Rule]],
    place: Place,
    more: Option<fn(Bench, Place) -> El>,
) -> El {
    let open = bench.finer;
    let differing = move || {
        let units = bench.units.get();
        bench.recipe.with(|recipe| {
            let said: Vec<String> = lists
                .iter()
                .flat_map(|list| list.iter())
                .filter(|rule| rule.differs(recipe, place))
                .map(|rule| format!("{} {}", words::lower(rule.label), rule.say_all(recipe, place, units)))
                .collect();
            if said.is_empty() { words::AS_USUAL.into() } else { said.join(", ") }
        })
    };
    let line = el("button", "finer")
        .live_flag("aria-expanded", move || open.get())
        .press(move || open.update(|open| *open = !*open))
        .with(el("b", "").says(words::FINER))
        .with(el("span", "differing").class_when("hidden", move || open.get()).reads(differing));
    let rest = move || {
        el("div", "finer-rules")
            .with_all(more.map(|more| more(bench, place)))
            .with_all(lists.iter().map(|list| rules(bench, list, place)))
    };
    el("div", "").with(line).when(move || open.get(), rest)
}
