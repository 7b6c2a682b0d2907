//! What the fitted glass does from a dusting to a heap, and how sure that is.

use super::state::TileBench;
use crate::controls::ladder::{along, painted};
use crate::controls::sure_line::sure_line;
use crate::words;
use dappledome::glass::kind::Glass;
use dappledome::glass::tile::Tile;
use dappledome::tiles::fit::Fitted;
use dappledome::tiles::ladder::Base;
use dappledome::tiles::next_tile::{at_worst, next_tile};
use dappledome::tiles::sureness::By;
use leptos::prelude::*;

/// How deep most powder lies in pieces, mm.
const USED: [f32; 2] = [0.1, 1.0];

/// The ladder, the tiles on it, and the line of how sure it is; nothing while there is no glass.
pub fn ladder_of(bench: TileBench) -> impl IntoView {
    move || {
        let fitted = bench.fitted.get()?.ok()?;
        let (glass, marks) = bench.draft.with(|draft| {
            let tiles = bench.tiles.get();
            let depth = |(at, tile): &(usize, Tile)| (*at, tile.sifted.loose(&draft.powder) as f32);
            (draft.glass("", &tiles, &fitted), tiles.iter().map(depth).collect::<Vec<_>>())
        });
        Some(drawn(&glass, &fitted, &marks))
    }
}

/// What one more tile would bring to pieces that use the glass from thin to deep.
fn one_more(fitted: &Fitted) -> Option<String> {
    let now = at_worst(&fitted.sureness, USED, By::Day)?;
    next_tile(&fitted.sureness, fitted.material.mean_scatter(), USED, By::Day)
        .map(|next| words::one_more_tile(now, next))
}

fn drawn(glass: &Glass, fitted: &Fitted, marks: &[(usize, f32)]) -> AnyView {
    let bands = painted(glass, Base::White);
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
                {one_more(fitted).map(|said| format!(" {said}"))}
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
