//! What it comes from, the least sure first: each glass with the tile that would make it surest, then glasses over each other.

use crate::model::ids::AreaId;
use crate::state::nav::Nav;
use crate::state::tile_draft::{Draft, TileDesk};
use crate::state::viewing::Viewing;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::glass::kind::Glass;
use dappledome::picture::view::Light;
use dappledome::recipe::Recipe;
use dappledome::tiles::next_tile::{NextTile, at_worst, next_tile};
use dappledome::tiles::places::{HowSure, Place};
use dappledome::tiles::sureness::{By, Sureness};
use leptos::prelude::*;

/// Glasses over each other that are told at most: the rest is surer.
const STACKED: usize = 2;

/// A glass of the piece.
struct Row {
    glass: Glass,
    sureness: Sureness,
    used: [f32; 2],
    off: Option<f32>,
    next: Option<NextTile>,
}

/// Draws them.
pub fn rows(how: &HowSure) -> AnyView {
    let (piece, viewing) = (expect_context::<Workpiece>(), expect_context::<Viewing>());
    let made = untrack(|| piece.made());
    let (recipe, _) = &*made;
    let by = if viewing.light.get_untracked() == Light::Within { By::Lit } else { By::Day };
    let mut glasses: Vec<Row> =
        how.used.iter().filter_map(|used| row(recipe, &used.glass, used.depths, by)).collect();
    glasses.sort_by(|one, other| unsure(other.off).total_cmp(&unsure(one.off)));
    let glasses = glasses.into_iter().map(glass_row);
    let stacked = how.places.iter().filter(|place| place.coats.len() > 1 && place.off.is_some());
    let stacked = stacked.take(STACKED).map(|place| stacked_row(recipe, place));
    view! {
        <ul class="sure-rows" role="list">
            {glasses.collect_view()} {stacked.collect_view()}
        </ul>
    }
    .into_any()
}

fn unsure(off: Option<f32>) -> f32 {
    off.unwrap_or(f32::INFINITY)
}

fn row(recipe: &Recipe, id: &str, used: [f32; 2], by: By) -> Option<Row> {
    let glass = recipe.glasses.find(id)?.clone();
    let sureness = Sureness::of(&glass);
    let (off, next) = (at_worst(&sureness, used, by), next_tile(&sureness, used, by));
    Some(Row { glass, sureness, used, off, next })
}

fn glass_row(row: Row) -> impl IntoView {
    let Row { glass, sureness, used, off, next } = row;
    let name = glass.name.clone();
    let fire = next.map(|next| {
        view! {
            <button class="button" on:click=move |_| fire(&glass, next)>
                {words::fire_tile(next)}
            </button>
        }
    });
    view! {
        <li>
            <b>{name}</b>
            <span class="aside">{words::rests_on(&sureness, used)}</span>
            <span class="off">{words::off_by(off)}</span>
            {fire}
        </li>
    }
}

fn stacked_row(recipe: &Recipe, place: &Place) -> impl IntoView + use<> {
    view! {
        <li class="stacked">
            <span>
                <b>{words::over_each_other(recipe, &place.coats)}</b>
                " "
                <span class="aside">{words::share_of_disc(place.share)}</span>
            </span>
            <span class="off">{words::off_by(place.off)}</span>
        </li>
    }
}

/// Opens the bench for tiles with this one on it, and those that the glass was fitted from; what was begun there stays as it is.
fn fire(glass: &Glass, next: NextTile) {
    let (nav, TileDesk(draft)) = (expect_context::<Nav>(), expect_context::<TileDesk>());
    if draft.with_untracked(Draft::is_empty) {
        draft.set(Draft::one_more(glass, next.depth.into()));
    }
    nav.open_area(AreaId::TILE);
}
