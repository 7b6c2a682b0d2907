//! A part of the page that comes with a file of its own, fetched when it is first opened.

use super::panel::PanelHead;
use crate::state::nav::Nav;
use crate::words;
use futures::FutureExt;
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_split::SplitLoaderError;
use std::pin::Pin;

/// What the door of a part gives: who draws it.
pub type Draws = Result<fn() -> AnyView, SplitLoaderError>;
/// The same, as soon as the part is there.
pub type Coming = Pin<Box<dyn Future<Output = Draws>>>;

/// Draws a part in the place of an area.
pub fn part(fetch: fn() -> Coming) -> AnyView {
    once_there(fetch, area_not_there)
}

/// Draws a part in the place of a panel of this title.
pub fn slip_part(title: &'static str, fetch: fn() -> Coming) -> AnyView {
    once_there(fetch, move |failed, ask| slip_not_there(title, failed, ask))
}

/// Draws a part inside something else: nothing stands there while it comes.
pub fn inner_part(fetch: fn() -> Coming) -> AnyView {
    once_there(fetch, |failed, ask| {
        failed
            .then(|| view! { <p role="status">{words::PART_MISSING} " " {again(failed, ask)}</p> })
            .into_any()
    })
}

/// Fetches a part that is not wanted yet.
pub fn fetch_ahead(coming: Coming) {
    spawn_local(async move {
        // Whoever wants it will be told if it does not come.
        let _ = coming.await;
    });
}

/// What is pressed to have a part fetched again.
type Ask = Callback<()>;

/// Draws a part: at once if it has come before. One that does not come is told, and fetched again when that is asked for.
fn once_there(fetch: fn() -> Coming, not_there: impl Fn(bool, Ask) -> AnyView + Send + 'static) -> AnyView {
    let come = RwSignal::new(None);
    let wait_for = move |coming: Coming| {
        spawn_local(async move {
            let draw = coming.await.ok();
            // The area may have been closed meanwhile.
            let _ = come.try_set(Some(draw));
        });
    };
    let mut coming = fetch();
    match (&mut coming).now_or_never() {
        Some(Ok(draw)) => return draw(),
        Some(Err(_)) => come.set(Some(None)),
        None => wait_for(coming),
    }
    let ask = Callback::new(move |()| {
        come.set(None);
        wait_for(fetch());
    });
    (move || match come.get() {
        Some(Some(draw)) => draw(),
        came => not_there(came.is_some(), ask),
    })
    .into_any()
}

/// What stands there until the part has come, and when it does not come.
fn area_not_there(failed: bool, ask: Ask) -> AnyView {
    let nav = expect_context::<Nav>();
    view! {
        <section class="area part" aria-label=words::PART tabindex="-1">
            <p role="status">{said(failed)}</p>
            <div class="buttons">
                {again(failed, ask)}
                <button class="button" on:click=move |_| nav.close_area()>
                    {words::CLOSE}
                </button>
            </div>
        </section>
    }
    .into_any()
}

/// The same for a panel.
fn slip_not_there(title: &'static str, failed: bool, ask: Ask) -> AnyView {
    view! {
        <div class="slip">
            <PanelHead title />
            <p role="status">{said(failed)}</p>
            <div class="buttons">{again(failed, ask)}</div>
        </div>
    }
    .into_any()
}

fn said(failed: bool) -> &'static str {
    if failed { words::PART_MISSING } else { words::PART_COMES }
}

fn again(failed: bool, ask: Ask) -> Option<impl IntoView> {
    failed.then(
        || view! { <button class="button main" on:click=move |_| ask.run(())>{words::TRY_AGAIN}</button> },
    )
}
