//! A picture that registers itself: it is drawn because it is looked at.

use crate::model::slots::PictureSlot;
use crate::state::pictures::Pictures;
use leptos::html;
use leptos::prelude::*;

/// A canvas that shows the picture of a slot. (The view macro keeps the name `slot` to itself.)
#[component]
pub fn Picture(
    /// Which picture.
    of: PictureSlot,
) -> impl IntoView {
    let pictures = expect_context::<Pictures>();
    pictures.look(of);
    let canvas = NodeRef::<html::Canvas>::new();
    let shown = StoredValue::new_local(None);
    canvas.on_load(move |canvas| {
        pictures.show_on(of, &canvas);
        shown.set_value(Some(canvas));
    });
    on_cleanup(move || {
        if let Some(canvas) = shown.try_get_value().flatten() {
            pictures.show_no_more(of, &canvas);
        }
    });
    view! { <canvas node_ref=canvas aria-hidden="true" /> }
}
