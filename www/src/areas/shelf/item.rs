//! One piece on the shelf: its dome, its name and its day. Its picture and its words come when it comes into sight.

use super::contents::{Condition, Contents};
use super::deeds::Doing;
use super::dome::Dome;
use super::roving::DomeKey;
use super::state::ShelfState;
use crate::dom::clock::{day_before, local, now};
use crate::dom::object_url::ObjectUrl;
use crate::model::ids::PieceId;
use crate::model::records::Card;
use crate::words;
use leptos::prelude::*;
use leptos_use_intersection_observer::use_intersection_observer;
use web_sys::{IntersectionObserverEntry, KeyboardEvent};

/// One piece on the shelf.
#[component]
pub fn ShelfItem(
    /// What the shelf knows of it.
    card: Card,
) -> impl IntoView {
    let shelf = expect_context::<ShelfState>();
    let (key, roving) = (DomeKey::of_card(&card), shelf.pieces);
    let spot = roving.join(key);
    let Card { id, title, changed, .. } = card;
    let contents = Contents::of(id);
    use_intersection_observer(spot.item, move |entries, sight| {
        if entries.iter().any(IntersectionObserverEntry::is_intersecting) {
            sight.disconnect();
            contents.read();
        }
    });
    let name = words::named(&title);
    let named = name.clone();
    let day = day(changed);
    let damaged = move || contents.condition.get() == Condition::Damaged;
    view! {
        <li
            class="kept-piece"
            class:damaged=damaged
            data-id=id.0.to_string()
            node_ref=spot.item
            on:focusin=move |_| roving.stop_at(key)
            on:keydown=move |event| press(shelf, contents, key, &event)
        >
            <Dome
                roving
                key
                spot
                title
                on_table=Signal::derive(move || shelf.is_on_table(id))
                take_up=move || shelf.take_up(id)
            >
                <span class="round">
                    <SmallPicture picture=contents.picture />
                </span>
                <b>{named}</b>
                <span class="day">{move || if damaged() { words::DAMAGED.into() } else { day.clone() }}</span>
            </Dome>
            <Words id name condition=contents.condition />
        </li>
    }
}

/// The small picture of a piece, once it is read.
#[component]
fn SmallPicture(
    /// Where it can be read.
    picture: RwSignal<Option<ObjectUrl>>,
) -> impl IntoView {
    let shown = move || {
        // Once it is shown the browser needs its bytes no more. The item may have gone meanwhile.
        let _ = picture.try_with_untracked(|picture| picture.as_ref().map(ObjectUrl::revoke));
    };
    move || {
        let address = picture.read().as_ref().map(ObjectUrl::address)?;
        Some(view! { <img alt="" src=address on:load=move |_| shown() /> })
    }
}

/// What can be done with a piece, once it is read.
#[component]
fn Words(
    /// Which piece.
    id: PieceId,
    /// What it is called.
    name: String,
    /// In which condition it is.
    condition: RwSignal<Condition>,
) -> impl IntoView {
    let shelf = expect_context::<ShelfState>();
    let word = move |doing: Doing, name: &str| {
        let (word, label) = (doing.word(), words::done_to(doing.word(), name));
        view! { <button class="word" aria-label=label on:click=move |_| shelf.act(doing, id)>{word}</button> }
    };
    move || {
        let deeds = condition.get().deeds();
        let words = deeds.iter().map(|doing| word(*doing, &name)).collect_view();
        (!deeds.is_empty()).then(|| view! { <div class="piece-words">{words}</div> })
    }
}

fn press(shelf: ShelfState, contents: Contents, key: DomeKey, event: &KeyboardEvent) {
    match event.key().as_str() {
        "Delete" if contents.condition.get_untracked() != Condition::Damaged => {
            shelf.act(Doing::TakeAway, contents.id);
        }
        "End" => {
            // The end of all there are: those that are not on the page yet come first.
            shelf.show_all();
            shelf.pieces.walk(key, event);
            request_animation_frame(move || shelf.pieces.focus_end());
        }
        _ => shelf.pieces.walk(key, event),
    }
}

fn day(changed: f64) -> String {
    let now = now();
    words::day(&local(changed), &local(now), &local(day_before(now)))
}
