//! The test tile: the fired color at every depth of the scale, on what lies under it, by the present light.

use super::state::SliderState;
use crate::dom::canvas::show_strip;
use crate::fields::scale::value_at;
use crate::state::viewing::Viewing;
use crate::state::workpiece::Workpiece;
use dappledome::optics::test_tile;
use dappledome::picture::view::Light;
use dappledome::recipe::limits::Limit;
use leptos::html;
use leptos::prelude::*;

/// Colors along a test tile.
const COLORS: usize = 64;

/// The test tile of a coat's depth.
#[component]
pub fn TestTile(
    /// Its slider.
    slider: SliderState,
) -> impl IntoView {
    let (piece, viewing) = (expect_context::<Workpiece>(), expect_context::<Viewing>());
    let depths = depths(&slider.field.scale());
    let colors = Memo::new(move |_| {
        let within = viewing.light.get() == Light::Within;
        let coat = slider.target.coat_id();
        coat.map_or_else(Vec::new, |coat| test_tile::strip(&piece.made().1, coat, &depths, within))
    });
    let canvas = NodeRef::<html::Canvas>::new();
    Effect::new(move || {
        if let Some(canvas) = canvas.get() {
            show_strip(&canvas, &colors.read());
        }
    });
    view! { <canvas class="test-tile" aria-hidden="true" node_ref=canvas /> }
}

/// The middle of each stretch of the scale that has a color.
fn depths(scale: &Limit) -> Vec<f32> {
    (0..COLORS).map(|at| value_at(scale, (at as f64 + 0.5) / COLORS as f64) as f32).collect()
}
