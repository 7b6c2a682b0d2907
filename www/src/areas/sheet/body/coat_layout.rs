//! How an open coat lies, and what it weighs.

use crate::state::results::Results;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::recipe::Coat;
use leptos::prelude::*;

/// Locks a coat's layout, sifts it again, mirrors it.
#[component]
pub fn LayoutButtons(
    /// The coat's id.
    id: u32,
) -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let is = move |of: fn(&Coat) -> bool| piece.recipe.read().coat(id).is_some_and(of).to_string();
    let change = move |name, change: &dyn Fn(&mut Coat)| {
        piece.edit(name, |recipe| recipe.coat_mut(id).into_iter().for_each(change));
    };
    let lock = move |_| {
        let seed = piece.seed.get_untracked();
        change(words::did::LOCK, &|coat| if is_locked(coat) { coat.unlock(seed) } else { coat.lock(seed) });
    };
    let mirror = move |_| {
        change(words::did::MIRROR, &|coat| coat.layout.mirrored = !coat.layout.mirrored);
    };
    view! {
        <div class="buttons">
            <button class="button" aria-pressed=move || is(is_locked) on:click=lock>
                {words::LOCK}
            </button>
            <button class="button" on:click=move |_| change(words::did::REROLL, &Coat::sift_again)>
                {move || words::reroll(&words::powder_of(&piece.recipe.read(), id))}
            </button>
            <button
                class="button"
                aria-pressed=move || is(|coat| coat.layout.mirrored)
                on:click=mirror
            >
                {words::MIRROR}
            </button>
        </div>
    }
}

fn is_locked(coat: &Coat) -> bool {
    coat.layout.locked_to.is_some()
}

/// That a coat lies together with another one, and the word that lets it go.
#[component]
pub fn Together(
    /// The coat's id.
    id: u32,
) -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let with = Memo::new(move |_| {
        let recipe = piece.recipe.read();
        recipe.beside(id).map(|other| words::powder_of(&recipe, other.id))
    });
    let let_go = move |_| piece.edit(words::did::LET_GO, |recipe| recipe.let_go(id));
    move || {
        with.get().map(|name| {
            view! {
                <p class="aside">
                    {words::lies_with(&name)} " "
                    <button class="word" on:click=let_go>{words::LET_GO}</button>
                </p>
            }
        })
    }
}

/// What a coat weighs on the glass, and after the sponge.
#[component]
pub fn CoatWeights(
    /// The coat's id.
    id: u32,
) -> impl IntoView {
    let results = expect_context::<Results>();
    let said = move || {
        results.ticket.with(|ticket| {
            let coat = ticket.as_ref()?.coats.iter().find(|coat| coat.id == id)?;
            Some(words::coat_weights(coat.sifted.0, coat.left.0))
        })
    };
    view! { <p class="aside">{move || said().unwrap_or_default()}</p> }
}
