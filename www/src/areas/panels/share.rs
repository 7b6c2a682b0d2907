//! Ways out and in: a link, the recipe file, the picture with the recipe inside, and files to open.

use crate::areas::info::{PanelInfo, PanelWord};
use crate::controls::panel::PanelHead;
use crate::controls::part::{Draws, slip_part};
use crate::dom::canvas;
use crate::model::ids::PanelId;
use crate::model::slots::PictureSlot;
use crate::services::backup::Backups;
use crate::services::download::{self, PieceTexts};
use crate::services::import::Importer;
use crate::state::pictures::Pictures;
use crate::state::viewing::Viewing;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::recipe::{file, link};
use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_split::wasm_split;
use wasm_bindgen_futures::JsFuture;

/// The panel.
pub const PANEL: PanelInfo = PanelInfo {
    id: PanelId("share"),
    word: PanelWord::AtTheEnd(words::SHARE),
    view: || slip_part(words::SHARE, || Box::pin(door())),
};

/// What draws it, which comes when it is first wanted.
#[wasm_split(areas, wasm_split_path = leptos::wasm_split, fallible)]
fn door() -> Draws {
    Ok(|| view! { <Share /> }.into_any())
}

/// What came of the last thing done on the panel.
#[derive(Clone, Debug, PartialEq)]
enum Outcome {
    /// Nothing was done yet.
    Nothing,
    /// It is said in words.
    Said(String),
    /// The link, to be copied by hand: the browser did not let us.
    Link(String),
}

/// Ways out and in.
#[component]
fn Share() -> impl IntoView {
    let (piece, pictures) = (expect_context::<Workpiece>(), expect_context::<Pictures>());
    let viewing = expect_context::<Viewing>();
    let (backups, importer) = (expect_context::<Backups>(), expect_context::<Importer>());
    let outcome = RwSignal::new(Outcome::Nothing);
    let stays_here = link_stays_here();
    // The panel may have been closed meanwhile.
    let say = move |words| drop(outcome.try_set(Outcome::Said(words)));
    view! {
        <div class="slip">
            <PanelHead title=words::SHARE />
            <div class="buttons">
                <button class="button" class:main=!stays_here on:click=move |_| copy_link(piece, outcome)>
                    {words::COPY_LINK}
                </button>
                <button class="button" on:click=move |_| say(save_recipe(piece))>{words::SAVE_RECIPE}</button>
                <button
                    class="button"
                    class:main=stays_here
                    on:click=move |_| save_picture(piece, (pictures, viewing), say)
                >
                    {words::SAVE_PICTURE}
                </button>
                <button class="button" on:click=move |_| importer.choose()>{words::OPEN_FILE}</button>
                <button class="button" on:click=move |_| backups.back_up(say)>{words::BACK_UP_ALL}</button>
                <button class="button" on:click=move |_| importer.choose()>{words::BRING_BACK_UP}</button>
            </div>
            {stays_here.then(|| view! { <p class="aside stays-here">{words::LINK_STAYS_HERE}</p> })}
            <div class="outcome">{move || view! { <WhatCame outcome=outcome.get() /> }}</div>
        </div>
    }
}

/// What came of the last thing done.
#[component]
fn WhatCame(
    /// What it was.
    outcome: Outcome,
) -> impl IntoView {
    match outcome {
        Outcome::Nothing => view! { <p class="aside">{words::SHARE_HELP}</p> }.into_any(),
        Outcome::Said(words) => view! { <p class="aside" role="status">{words}</p> }.into_any(),
        Outcome::Link(link) => view! { <LinkField link /> }.into_any(),
    }
}

/// A link, to be copied by hand: all of it is selected.
#[component]
fn LinkField(
    /// The link.
    link: String,
) -> impl IntoView {
    let field = NodeRef::<html::Input>::new();
    field.on_load(|field| {
        // A field that cannot be focused can still be clicked.
        let _ = field.focus();
        field.select();
    });
    view! {
        <div>
            <p class="aside">{words::COPY_BY_HAND}</p>
            <input
                class="link-field"
                type="text"
                readonly
                value=link
                aria-label=words::COPY_LINK
                node_ref=field
            />
        </div>
    }
}

/// Whether a link to this page opens on this machine alone.
fn link_stays_here() -> bool {
    let location = window().location();
    let [protocol, host] = [location.protocol(), location.hostname()].map(Result::unwrap_or_default);
    is_this_machine(&protocol, &host)
}

/// Whether an address names the machine itself: a file, or a loopback address (RFC 6761 and RFC 1122).
fn is_this_machine(protocol: &str, host: &str) -> bool {
    protocol == "file:"
        || host == "localhost"
        || host.ends_with(".localhost")
        || host.starts_with("127.")
        || host == "[::1]"
}

fn copy_link(piece: Workpiece, outcome: RwSignal<Outcome>) {
    let location = window().location();
    let [origin, path] = [location.origin(), location.pathname()].map(Result::unwrap_or_default);
    let link = format!("{origin}{path}#{}", link::write(&piece.version().piece));
    let copied = window().navigator().clipboard().write_text(&link);
    spawn_local(async move {
        let done = JsFuture::from(copied).await.is_ok();
        let now = if done { Outcome::Said(words::link_copied(link.len())) } else { Outcome::Link(link) };
        // The panel may have been closed meanwhile.
        let _ = outcome.try_set(now);
    });
}

fn save_recipe(piece: Workpiece) -> String {
    let recipe = piece.recipe.get_untracked();
    let name = words::file_name(&recipe.title, "json");
    let saved = download::text(&name, "application/json", &file::write(&recipe));
    words::saved_as(&name, saved)
}

/// Saves the large picture as it is seen, with the piece inside.
fn save_picture(
    piece: Workpiece,
    (pictures, viewing): (Pictures, Viewing),
    say: impl FnOnce(String) + 'static,
) {
    let picture = pictures.picture(PictureSlot::Glass);
    let canvas = picture.and_then(|picture| canvas::with_picture(picture.side, &picture.pixels));
    let Some(canvas) = canvas else { return };
    let piece = piece.version().piece;
    // A file by a lamp's light says so in its name.
    let otherwise = untrack(|| viewing.otherwise()).unwrap_or_default();
    let name = words::file_name(&format!("{} {otherwise}", piece.recipe.title), "png");
    let texts = PieceTexts { recipe: file::write(&piece.recipe), seed: piece.seed.to_string() };
    download::save_picture(&canvas, name, texts, say);
}

#[cfg(test)]
mod tests {
    use super::is_this_machine;

    #[test]
    fn a_local_program_is_told_from_a_place_on_the_net() {
        for (protocol, host) in [
            ("http:", "localhost"),
            ("http:", "piece.localhost"),
            ("http:", "127.0.0.1"),
            ("http:", "127.1.2.3"),
            ("http:", "[::1]"),
            ("file:", ""),
        ] {
            assert!(is_this_machine(protocol, host), "{protocol} {host}");
        }
        for host in ["dappledome.example", "localhost.example", "192.168.1.7", "12.7.0.1", "[2001:db8::1]"] {
            assert!(!is_this_machine("https:", host), "{host}");
        }
    }
}
