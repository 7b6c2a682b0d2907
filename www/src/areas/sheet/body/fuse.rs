//! The open full fuse.

use crate::areas::sheet::details::Fields;
use crate::fields::others::FUSE;
use crate::fields::types::Target;
use leptos::prelude::*;

/// How hot, and how long.
#[component]
pub fn FuseBody() -> impl IntoView {
    view! {
        <div class="body">
            <Fields fields=FUSE target=Target::Whole />
        </div>
    }
}
