//! A choice of a few words, the chosen one in weight and tone.

use leptos::prelude::*;

/// A row of options; what they choose is heard, and seen too if it is `named`.
#[component]
pub fn Choice(
    /// What they choose.
    label: &'static str,
    /// Whether the label stands before them.
    #[prop(optional)]
    named: bool,
    children: Children,
) -> impl IntoView {
    view! {
        <div class="choice" role="group" aria-label=label>
            {named.then(|| view! { <span class="label" aria-hidden="true">{label}</span> })}
            {children()}
        </div>
    }
}

/// One word of a choice.
#[component]
pub fn ChoiceOption(
    /// The word.
    #[prop(into)]
    word: Oco<'static, str>,
    /// Whether it is the chosen one.
    #[prop(into)]
    chosen: Signal<bool>,
    /// Chooses it.
    #[prop(into)]
    choose: Callback<()>,
    /// What stands before the word.
    #[prop(optional)]
    children: Option<Children>,
) -> impl IntoView {
    view! {
        <button class="option" aria-pressed=move || chosen.get().to_string() on:click=move |_| choose.run(())>
            {children.map(|children| children())}
            {word}
        </button>
    }
}
