//! A part of the page that comes with a file of its own, fetched when it is first opened.

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

/// Draws a part in the place of an area: at once if it has come before. One that does not come is told, and fetched again when that is
/// asked for.
pub fn part(fetch: fn() -> Coming) -> AnyView {
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
    let ask = move || {
        come.set(None);
        wait_for(fetch());
    };
    (move || match come.get() {
        Some(Some(draw)) => draw(),
        came => not_there(came.is_some(), ask),
    })
    .into_any()
}

/// What stands there until the part has come, and when it does not come.
fn not_there(failed: bool, ask: impl Fn() + Copy + 'static) -> AnyView {
    let nav = expect_context::<Nav>();
    let again = failed.then(|| {
        view! { <button class="button main" on:click=move |_| ask()>{words::TRY_AGAIN}</button> }
    });
    view! {
        <section class="area part" aria-label=words::PART tabindex="-1">
            <p role="status">{if failed { words::PART_MISSING } else { words::PART_COMES }}</p>
            <div class="buttons">
                {again} <button class="button" on:click=move |_| nav.close_area()>
                    {words::CLOSE}
                </button>
            </div>
        </section>
    }
    .into_any()
}
