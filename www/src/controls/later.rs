//! What can come a moment later, so that the page stands at once.

use leptos::prelude::*;
use std::time::Duration;

/// Draws what is in it in a task of its own, behind those that wait already: no task holds the page up for long while it
/// opens.
#[component]
pub fn Later(children: ChildrenFn) -> impl IntoView {
    let has_come = RwSignal::new(false);
    let come = move || {
        // The place may have gone meanwhile.
        let _ = has_come.try_set(true);
    };
    set_timeout(come, Duration::ZERO);
    view! { <Show when=move || has_come.get()>{children()}</Show> }
}
