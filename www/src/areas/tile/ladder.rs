//! What the fitted glass does from a dusting to a heap, and how sure that is.

use super::state::TileBench;
use crate::controls::sure_line::{ENDS, along, sure_line};
use crate::words;
use dappledome::glass::kind::Glass;
use dappledome::optics::ladder::{Base, depths, ladder};
use dappledome::recipe::limits::PACKING;
use dappledome::tiles::fit::Fitted;
use leptos::prelude::*;

/// Rungs of the ladder.
const RUNGS: usize = 33;

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
            {sure_line(&fitted.sureness)}
        </div>
    }
    .into_any()
}
