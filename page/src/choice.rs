//! Buttons: a choice of a few words with the chosen one in weight and tone, a button, a word to press.

use leptos::prelude::*;

/// One word of a choice.
pub fn option(
    word: impl Into<String>,
    chosen: impl Fn() -> bool + Send + Sync + 'static,
    choose: impl Fn() + 'static,
) -> AnyView {
    pressed("option", word.into(), Memo::new(move |_| chosen()), Box::new(choose))
}

/// A button that stays pressed.
pub fn toggle(
    word: impl Into<String>,
    on: impl Fn() -> bool + Send + Sync + 'static,
    press: impl Fn() + 'static,
) -> AnyView {
    pressed("button", word.into(), Memo::new(move |_| on()), Box::new(press))
}

fn pressed(class: &'static str, word: String, chosen: Memo<bool>, choose: Box<dyn Fn()>) -> AnyView {
    view! {
        <button
            class=class
            aria-pressed=move || chosen.get().to_string()
            on:click=move |_| choose()
        >
            {word}
        </button>
    }
    .into_any()
}

/// A row of options under one label, which is only heard unless it is `shown`.
pub fn choice(label: &'static str, shown: bool, options: Vec<AnyView>) -> AnyView {
    view! {
        <div class="choice" role="group" aria-label=label>
            {shown.then(|| view! { <span class="label" aria-hidden="true">{label}</span> })}
            {options}
        </div>
    }
    .into_any()
}

/// A button with a word on it.
pub fn button(word: impl Into<String>, press: impl Fn() + 'static) -> AnyView {
    plain("button", word.into(), Box::new(press))
}

/// The one button of a slip that is meant to be pressed.
pub fn main_button(word: impl Into<String>, press: impl Fn() + 'static) -> AnyView {
    plain("button main", word.into(), Box::new(press))
}

/// A word to press, in running text.
pub fn word(word: impl Into<String>, press: impl Fn() + 'static) -> AnyView {
    plain("word", word.into(), Box::new(press))
}

/// A word to press on the table.
pub fn table_word(word: impl Into<String>, press: impl Fn() + 'static) -> AnyView {
    plain("table-word", word.into(), Box::new(press))
}

fn plain(class: &'static str, word: String, press: Box<dyn Fn()>) -> AnyView {
    view! { <button class=class on:click=move |_| press()>{word}</button> }.into_any()
}
