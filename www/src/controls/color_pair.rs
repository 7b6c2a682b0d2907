//! A glass as it is loose and as it is fired, side by side in a circle.

use dappledome::optics::test_tile::Color;
use leptos::prelude::*;

/// The two colors; an empty place while they are not known.
#[component]
pub fn ColorPair(
    /// Loose, and fired.
    #[prop(into)]
    colors: Signal<Option<(Color, Color)>>,
) -> impl IntoView {
    let color =
        move |of: fn((Color, Color)) -> Color| colors.get().map_or_else(String::new, |both| rgb(of(both)));
    view! {
        <span
            class="swatch"
            style=("--loose", move || color(|(loose, _)| loose))
            style=("--fired", move || color(|(_, fired)| fired))
        ></span>
    }
}

fn rgb([r, g, b]: Color) -> String {
    format!("rgb({r} {g} {b})")
}
