//! *Set-up*: units, frame, keys, and what this is.

use crate::areas::info::{PanelInfo, PanelWord};
use crate::controls::choice::{Choice, ChoiceOption};
use crate::controls::panel::PanelHead;
use crate::controls::part::{Draws, slip_part};
use crate::model::ids::PanelId;
use crate::model::theme::Theme;
use crate::services::storage::{self, Promise};
use crate::state::preferences::Preferences;
use crate::words;
use dappledome::base::shown::{Heat, Lengths};
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_split::wasm_split;

/// The panel.
pub const PANEL: PanelInfo = PanelInfo {
    id: PanelId("settings"),
    word: PanelWord::AtTheEnd(words::SET_UP),
    view: || slip_part(words::SET_UP, || Box::pin(door())),
};

/// What draws it, which comes when it is first wanted.
#[wasm_split(areas, wasm_split_path = leptos::wasm_split, fallible)]
fn door() -> Draws {
    Ok(|| view! { <Settings /> }.into_any())
}

const LENGTHS: [(Lengths, &str); 2] =
    [(Lengths::Millimeters, words::MILLIMETERS), (Lengths::Inches, words::INCHES)];
const HEATS: [(Heat, &str); 2] = [(Heat::Celsius, words::CELSIUS), (Heat::Fahrenheit, words::FAHRENHEIT)];
const THEMES: [(Theme, &str); 3] = [
    (Theme::Light, words::FRAME_LIGHT),
    (Theme::Dark, words::FRAME_DARK),
    (Theme::System, words::FRAME_SYSTEM),
];

/// What the panel has unfolded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Unfolded {
    /// The keys of each place.
    Keys,
    /// What this is.
    About,
}

/// Units, frame, keys, and what this is.
#[component]
fn Settings() -> impl IntoView {
    let unfolded = RwSignal::new(None);
    view! {
        <div class="slip set-up">
            <PanelHead title=words::SET_UP />
            <Looks />
            <HowLong />
            <p class="set-up-more">
                <Unfold word=words::KEYS what=Unfolded::Keys unfolded />
                <Unfold word=words::ABOUT what=Unfolded::About unfolded />
            </p>
            {move || unfolded.get().map(|unfolded| match unfolded {
                Unfolded::Keys => view! { <Keys /> }.into_any(),
                Unfolded::About => view! { <About /> }.into_any(),
            })}
        </div>
    }
}

/// That the browser may clear what it keeps, if it said so.
#[component]
fn HowLong() -> impl IntoView {
    let promise = RwSignal::new(Promise::NotAsked);
    spawn_local(async move {
        let promised = storage::promised().await;
        // The panel may have been closed meanwhile.
        let _ = promise.try_set(promised);
    });
    move || (promise.get() == Promise::Refused).then(|| view! { <p class="aside">{words::NO_PROMISE}</p> })
}

/// The choices of how the page looks.
#[component]
fn Looks() -> impl IntoView {
    let preferences = expect_context::<Preferences>();
    let lengths = LENGTHS.map(|(one, word)| {
        let chosen = Signal::derive(move || preferences.units.get().lengths == one);
        view! { <ChoiceOption word chosen choose=move || preferences.choose_lengths(one) /> }
    });
    let heats = HEATS.map(|(one, word)| {
        let chosen = Signal::derive(move || preferences.units.get().heat == one);
        view! { <ChoiceOption word chosen choose=move || preferences.choose_heat(one) /> }
    });
    let themes = THEMES.map(|(one, word)| {
        let chosen = Signal::derive(move || preferences.theme.get() == one);
        view! { <ChoiceOption word chosen choose=move || preferences.choose_theme(one) /> }
    });
    view! {
        <Choice label=words::LENGTHS named=true>{lengths}</Choice>
        <Choice label=words::TEMPERATURES named=true>{heats}</Choice>
        <Choice label=words::FRAME named=true>{themes}</Choice>
    }
}

/// A word that unfolds something, or folds it again.
#[component]
fn Unfold(
    /// The word.
    word: &'static str,
    /// What it unfolds.
    what: Unfolded,
    /// What is unfolded.
    unfolded: RwSignal<Option<Unfolded>>,
) -> impl IntoView {
    let turn = move |_| unfolded.update(|now| *now = (*now != Some(what)).then_some(what));
    view! {
        <button
            class="word"
            aria-expanded=move || (unfolded.get() == Some(what)).to_string()
            on:click=turn
        >
            {word}
        </button>
    }
}

/// The keys as a table: where, and what they do there. It can be longer than its place, so that it must be reached to be
/// scrolled by keys.
#[component]
fn Keys() -> impl IntoView {
    let preferences = expect_context::<Preferences>();
    let rows = words::ALL_KEYS.map(|(place, keys)| {
        view! {
            <tr>
                <th scope="row">{place}</th>
                <td>{move || preferences.text(keys)}</td>
            </tr>
        }
    });
    view! {
        <div class="keys-place" role="group" tabindex="0" aria-label=words::KEYS>
            <table class="keys">
                <tbody>{rows}</tbody>
            </table>
        </div>
    }
}

/// What this is.
#[component]
fn About() -> impl IntoView {
    view! {
        <div class="about">
            <p>{words::about(env!("CARGO_PKG_VERSION"))}</p>
            <p>{words::NOTHING_LEAVES}</p>
        </div>
    }
}
