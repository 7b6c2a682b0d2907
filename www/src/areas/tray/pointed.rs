//! What can be done with the sister pointed at.

use crate::model::slots::PictureSlot;
use crate::state::announcer::Announcer;
use crate::state::pictures::Pictures;
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
    measure_pointed(tray, expect_context());
    let said = move || {
        let features = results.features_of(tray.at.get());
        features.map_or_else(String::new, |features| words::features(&piece.recipe.read(), &features))
    };
    view! {
        <section aria-label=words::POINTED_AT>
            <h2>{move || words::seed(tray.at.get())}</h2>
            <p class="aside">{said}</p>
            <AsKept />
            <Deeds />
        </section>
    }
}

/// Has the sister pointed at measured even if she does not lie on the tray: the shortlist has others too.
fn measure_pointed(tray: Tray, pictures: Pictures) {
    Effect::new(move || pictures.look(PictureSlot::Measured(tray.at.get())));
}

/// That she is on the shortlist as she was before the recipe changed, and what can be done about it.
#[component]
fn AsKept() -> impl IntoView {
    let (tray, announcer) = (expect_context::<Tray>(), expect_context::<Announcer>());
    let piece = expect_context::<Workpiece>();
    let moved_on = Memo::new(move |_| piece.has_moved_on(tray.at.get()));
    let at = move || tray.at.get_untracked();
    let said = move || words::moved_on(&Vec::from_iter(piece.sisters.read().letter(tray.at.get())));
    view! {
        <Show when=move || moved_on.get()>
            <p class="aside">{said}</p>
            <div class="buttons">
                <button class="button" on:click=move |_| announcer.say(tray.take_change(&[at()]))>
                    {words::TAKE_THE_CHANGE}
                </button>
                <button class="button" on:click=move |_| tray.go_back_to(at())>
                    {words::BACK_TO_IT}
                </button>
            </div>
        </Show>
    }
}

#[component]
fn Deeds() -> impl IntoView {
    let (tray, announcer) = (expect_context::<Tray>(), expect_context::<Announcer>());
    let piece = expect_context::<Workpiece>();
    let at = move || tray.at.get_untracked();
    let kept = move || piece.sisters.read().is_kept(tray.at.get());
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
