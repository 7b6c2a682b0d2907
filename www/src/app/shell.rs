//! The page's frame.

use super::contexts;
use crate::services::render::program::Program;
use leptos::prelude::*;

/// The page; its workers run the program.
#[component]
pub fn App(
    /// The compiled program.
    program: Program,
) -> impl IntoView {
    contexts::provide(program);
    view! { <main class="page"></main> }
}
