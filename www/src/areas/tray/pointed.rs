//! What can be done with the sister pointed at.

use crate::state::announcer::Announcer;
use crate::state::results::Results;
use crate::state::tray::Tray;
use crate::state::workpiece::Workpiece;
use crate::words;
use leptos::prelude::*;

/// The sister pointed at.
#[component]
pub fn PointedAt() -> impl IntoView {
    let (tray, results) = (expect_context::<Tray>(), expect_context::<Results>());
    let piece = expect_context::<Workpiece>();
    let said = move || {
        let features = results.features_of(tray.at.get());
        features.map_or_else(String::new, |features| words::features(&piece.recipe.read(), &features))
    };
    view! {
        <section aria-label=words::POINTED_AT>
            <h2>{move || words::seed(tray.at.get())}</h2>
            <p class="aside">{said}</p>
            <Deeds />
        </section>
    }
}

#[component]
fn Deeds() -> impl IntoView {
    let (tray, announcer) = (expect_context::<Tray>(), expect_context::<Announcer>());
    let piece = expect_context::<Workpiece>();
    let at = move || tray.at.get_untracked();
    let kept = move || piece.sisters.read().kept.contains(&tray.at.get());
    let lifted = move || tray.lifted.get().contains(&Some(tray.at.get()));
    view! {
        <div class="buttons">
            <button class="button main" on:click=move |_| tray.work_on(at())>
                {words::WORK_ON_IT}
            </button>
            <button class="button" on:click=move |_| announcer.say(tray.toggle_keep(at()))>
                {move || if kept() { words::TAKE_OFF } else { words::KEEP }}
            </button>
            <button class="button" on:click=move |_| tray.lift_beside(at())>
                {move || if lifted() { words::LAY_BACK } else { words::LIFT_BESIDE }}
            </button>
            <button class="button" on:click=move |_| announcer.say(tray.put_away(at()))>
                {words::PUT_AWAY}
            </button>
        </div>
    }
}
