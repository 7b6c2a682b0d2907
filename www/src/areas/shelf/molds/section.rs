//! The molds as a list, and what can be done with it as a whole.

use super::item::MoldItem;
use crate::state::molds::Molds;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::recipe::molds::OwnMold;
use leptos::prelude::*;

/// The section.
#[component]
pub fn MoldSection() -> impl IntoView {
    let molds = expect_context::<Molds>();
    // Which one is being changed, and what there is to say of it.
    let (open, said) = (RwSignal::new(None), RwSignal::new(None));
    let what_they_are =
        move || if molds.are_invented() { words::INVENTED_MOLDS } else { words::OWN_MOLDS_ARE };
    view! {
        <section class="kiln molds" id="shelf-molds" tabindex="-1" aria-label=words::YOUR_MOLDS>
            <h3>{words::YOUR_MOLDS}</h3>
            <div class="kiln-paper">
                <p class="aside">{what_they_are}</p>
                <ul role="list">
                    <For each=move || 0..molds.count() key=|place| *place let:place>
                        <MoldItem place open said />
                    </For>
                </ul>
                <Add open said />
                <p class="refused" role="alert">{move || said.get()}</p>
                <Gone said />
            </div>
        </section>
    }
}

/// Writes the mold of the recipe down.
#[component]
fn Add(
    /// Which one is being changed.
    open: RwSignal<Option<usize>>,
    /// What there is to say.
    said: RwSignal<Option<String>>,
) -> impl IntoView {
    let (molds, piece) = (expect_context::<Molds>(), expect_context::<Workpiece>());
    let add = move |_| {
        let mold = piece.recipe.with_untracked(|recipe| recipe.mold.clone());
        let refused = molds.add(OwnMold { name: words::MY_MOLD.into(), mold, count: 1 }).err();
        if refused.is_none() {
            open.set(untrack(|| molds.count()).checked_sub(1));
        }
        said.set(refused);
    };
    view! {
        <button class="button" on:click=add>
            {words::ADD_MOLD}
        </button>
    }
}

/// What was deleted last, and the word that puts it back.
#[component]
fn Gone(
    /// What there is to say.
    said: RwSignal<Option<String>>,
) -> impl IntoView {
    let molds = expect_context::<Molds>();
    move || {
        let name = molds.gone()?;
        Some(view! {
            <p role="status">
                {words::mold_deleted(&name)} " "
                <button class="word" on:click=move |_| said.set(molds.put_back().err())>
                    {words::PUT_BACK}
                </button>
            </p>
        })
    }
}
