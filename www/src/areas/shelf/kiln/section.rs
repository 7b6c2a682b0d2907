//! Which kiln the programs are reckoned for, and what it is.

use super::cooling::Cooling;
use super::own::OwnKiln;
use crate::controls::choice::{Choice, ChoiceOption};
use crate::state::kilns::{KilnChoice, Kilns};
use crate::state::preferences::Preferences;
use crate::words;
use leptos::prelude::*;

/// The choice, and the chosen one.
#[component]
pub fn KilnSection() -> impl IntoView {
    let kilns = expect_context::<Kilns>();
    let own = Memo::new(move |_| kilns.chosen.get() == KilnChoice::Own);
    let options = KilnChoice::ALL.map(|choice| {
        let word = match choice {
            KilnChoice::Guess(guess) => words::guess(guess),
            KilnChoice::Own => words::AN_OWN_KILN,
        };
        view! {
            <ChoiceOption
                word
                chosen=Signal::derive(move || kilns.chosen.get() == choice)
                choose=Callback::new(move |()| kilns.choose(choice))
            />
        }
    });
    view! {
        <section class="kiln" id="shelf-kilns" tabindex="-1" aria-label=words::YOUR_KILN>
            <h3>{words::YOUR_KILN}</h3>
            <div class="kiln-paper">
                <Choice label=words::WHICH_KILN named=true>
                    {options.into_iter().collect_view()}
                </Choice>
                <Show when=move || own.get() fallback=|| view! { <Guessed /> }>
                    <OwnKiln />
                    <Cooling />
                </Show>
                <p class="aside">{words::WIRING}</p>
            </div>
        </section>
    }
}

/// A guess in words.
#[component]
fn Guessed() -> impl IntoView {
    let (kilns, preferences) = (expect_context::<Kilns>(), expect_context::<Preferences>());
    let said = move || preferences.text(&words::kiln_in_words(&kilns.kiln.read()));
    view! {
        <p>{said}</p>
        <p class="aside">{words::A_GUESS}</p>
    }
}
