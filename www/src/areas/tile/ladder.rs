//! What the fitted glass does from a dusting to a heap, and how sure that is.

use crate::state::tile_draft::TileBench;
use crate::words;
use dappledome::glass::kind::Glass;
use dappledome::optics::ladder::{Base, depths, ladder};
use dappledome::recipe::limits::PACKING;
use dappledome::tiles::fit::Fitted;
use dappledome::tiles::sureness::{By, Sureness};
use leptos::prelude::*;

/// From and to, mm of loose powder.
const ENDS: (f32, f32) = (0.03, 3.0);
/// Places that the line of sureness goes through, and rungs of the ladder.
const RUNGS: usize = 33;
/// What the top of the chart stands for, CIEDE2000.
const TOP: f32 = 8.0;

/// The ladder, the tiles on it, and the line of how sure it is; nothing while there is no glass.
pub fn ladder_of(bench: TileBench) -> impl IntoView {
    move || {
        let fitted = bench.fitted.get()?.ok()?;
        let marks = bench.draft.with(|draft| {
            let tiles = draft.read();
            tiles.iter().map(|(at, tile)| (*at, tile.sifted.loose(&draft.powder) as f32)).collect::<Vec<_>>()
        });
        Some(drawn(&fitted, &marks))
    }
}

fn drawn(fitted: &Fitted, marks: &[(usize, f32)]) -> AnyView {
    let glass = Glass { powder: true, ..Glass::new("", "", fitted.material.clone()) };
    let rungs = depths(ENDS.0, ENDS.1, RUNGS);
    let stops = ladder(&glass, PACKING.usual as f32, Base::White, &rungs);
    let stops: Vec<String> = stops.iter().map(|[r, g, b]| format!("rgb({r} {g} {b})")).collect();
    let bands = format!("linear-gradient(to right, {})", stops.join(", "));
    let marks = marks.iter().map(|(at, depth)| {
        let place = format!("{}%", along(*depth) * 100.0);
        view! { <span class="mark" style=("--at", place)>{words::tile(*at)}</span> }
    });
    view! {
        <div class="tile-ladder">
            <p>
                <b>{words::WHAT_IT_WILL_DO}</b>
                " "
                {words::how_sure(&fitted.sureness)}
            </p>
            <div class="ladder" role="img" aria-label=words::ladder_said(Base::White) style=("--bands", bands)></div>
            <div class="axis" aria-hidden="true">
                {marks.collect_view()}
            </div>
            {sure_line(&fitted.sureness, &rungs)}
        </div>
    }
    .into_any()
}

/// Where a depth lies between the ends, 0 to 1.
fn along(depth: f32) -> f32 {
    ((depth / ENDS.0).log2() / (ENDS.1 / ENDS.0).log2()).clamp(0.0, 1.0)
}

/// How far a color may be off at each depth, as a line over the ladder's own axis.
fn sure_line(sureness: &Sureness, rungs: &[f32]) -> AnyView {
    let points: Vec<String> = rungs
        .iter()
        .filter_map(|depth| {
            let off = sureness.at(*depth, By::Day)?.min(TOP);
            Some(format!("{:.1},{:.1}", along(*depth) * 400.0, (1.0 - off / TOP) * 60.0))
        })
        .collect();
    view! {
        <svg class="sure-line" viewBox="0 0 400 60" preserveAspectRatio="none" role="img" aria-label=words::HOW_SURE_LINE>
            <line class="grid" x1="0" x2="400" y1="15" y2="15" />
            <line class="grid" x1="0" x2="400" y1="30" y2="30" />
            <line class="grid" x1="0" x2="400" y1="45" y2="45" />
            <polyline points=points.join(" ") />
        </svg>
        <p class="aside">{words::SURE_AXIS}</p>
    }
    .into_any()
}
