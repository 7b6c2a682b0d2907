//! On the sheet while the tray is open, and below the tray where there is little room.

use super::picking::Picking;
use super::pointed::PointedAt;
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
