//! What is under the finger, said beside it.

use super::drag::{Drag, Grip};
use super::state::HandLayout;
use crate::areas::viewer::seen::percent;
use crate::words;
use leptos::prelude::*;

/// The label.
#[component]
pub fn HandLabel() -> impl IntoView {
    let layout = expect_context::<HandLayout>();
    let said = Memo::new(move |_| said(layout, layout.drag.read().as_ref()?));
    let seen = move || layout.drag.with(|drag| drag.as_ref().map_or((0.5, 0.5), |drag| drag.seen));
    view! {
        <span
            class="hand-label"
            aria-hidden="true"
            class:hidden=move || said.read().is_none()
            style:left=move || percent(seen().0)
            style:top=move || percent(seen().1)
        >
            {move || said.get().unwrap_or_default()}
        </span>
    }
}

fn said(layout: HandLayout, drag: &Drag) -> Option<String> {
    match drag.grip {
        _ if !drag.moved => None,
        Grip::Move(_, from) => {
            let map = layout.map();
            Some(words::moved(from, drag.by, layout.units.get(), |way| map.way_seen(way)))
        }
        Grip::Turn(_) => Some(words::turned(&layout.powder(), drag.turned())),
        Grip::Rub(_) => None,
    }
}
