//! The layers of a core sample as a small section, the outermost first.

use crate::state::preferences::Preferences;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::units::{Mm, fixed};
use dappledome::optics::sample::SampleLayer;
use dappledome::optics::test_tile::Color;
use leptos::prelude::*;

/// Powder is drawn so many times as thick as sheets are.
const POWDER_SCALE: f64 = 40.0;
/// Height of a mm of powder in the section, rem: at forty times its thickness, a quarter of a millimeter is 2 rem.
const REM_PER_MM: f64 = 0.2 * POWDER_SCALE;
/// Height of a sheet in the section, rem: cut short.
const SHEET: f64 = 1.75;
/// The columns behind the layer's name.
const COLUMNS: [&str; 4] = [words::FUSED, words::AS_SIFTED, words::ALONE, words::IN_PLACE];

/// The section.
#[component]
pub fn Section(
    /// The layers, the outermost first.
    layers: Vec<SampleLayer>,
) -> impl IntoView {
    let columns = COLUMNS.into_iter().map(|column| view! { <th scope="col">{column}</th> });
    view! {
        <div class="section-place">
            <table class="section">
                <thead>
                    <tr>
                        <td></td>
                        <td></td>
                        {columns.collect_view()}
                    </tr>
                </thead>
                <tbody>{layers.into_iter().map(|layer| view! { <LayerRow layer /> }).collect_view()}</tbody>
            </table>
            <p class="aside">{words::SECTION_SCALE}</p>
        </div>
    }
}

/// A layer: its band, its name, its numbers and its colors.
#[component]
fn LayerRow(
    /// The layer.
    layer: SampleLayer,
) -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let what = layer.what;
    let sheet = layer.sifted.is_none();
    view! {
        <tr>
            <td class="band-cell" aria-hidden="true">
                <span
                    class="band"
                    class:sheet-band=sheet
                    style:height=format!("{}rem", fixed(height(layer.fused, sheet), 3))
                    style:background-color=color(layer.in_place)
                ></span>
            </td>
            <th scope="row">{move || words::layer(&piece.made().0, what)}</th>
            <Thickness mm=Some(layer.fused) />
            <Thickness mm=layer.sifted />
            <Dot of=layer.alone />
            <Dot of=layer.in_place />
        </tr>
    }
}

/// A thickness, where there is one.
#[component]
fn Thickness(
    /// The thickness.
    mm: Option<Mm>,
) -> impl IntoView {
    let preferences = expect_context::<Preferences>();
    let said =
        move || mm.map_or_else(|| words::UNKNOWN.into(), |mm| words::thin(mm, preferences.units.get()));
    view! { <td class="sample-number">{said}</td> }
}

/// A color.
#[component]
fn Dot(
    /// The color.
    of: Color,
) -> impl IntoView {
    view! {
        <td>
            <span class="sample-dot" aria-hidden="true" style:background-color=color(of)></span>
        </td>
    }
}

/// Height of a layer's band, rem.
fn height(fused: Mm, sheet: bool) -> f64 {
    if sheet { SHEET } else { (fused.0 * REM_PER_MM).clamp(0.125, 4.0) }
}

fn color([r, g, b]: Color) -> String {
    format!("rgb({r} {g} {b})")
}
