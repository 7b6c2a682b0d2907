//! On the sheet while the tray is open, and below the tray where there is little room.

use super::picking::Picking;
use super::pointed::PointedAt;
use leptos::html;
use leptos::prelude::*;

/// What can be done with the sister pointed at, and sets picked for the maker.
#[component]
pub fn TrayPanel() -> impl IntoView {
    view! {
        <div class="tray-panel">
            <PointedAt />
            <Picking />
        </div>
    }
}

/// The same on the sheet, brought in sight: what is open of the recipe may push it below the fold.
#[component]
pub fn PanelInSight() -> impl IntoView {
    let place = NodeRef::<html::Div>::new();
    place.on_load(|place| place.scroll_into_view_with_bool(false));
    view! {
        <div node_ref=place>
            <TrayPanel />
        </div>
    }
}
