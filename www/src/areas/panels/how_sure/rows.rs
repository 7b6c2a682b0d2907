//! What it comes from, the least sure first: each glass with the tile that would make it surest, then glasses over each other.

use crate::model::ids::AreaId;
use crate::state::announcer::Announcer;
use crate::state::nav::Nav;
use crate::state::tile_draft::{Draft, TileDesk};
use crate::state::viewing::Viewing;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::glass::kind::Glass;
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
    let bench = Bench { nav: expect_context(), desk: expect_context(), announcer: expect_context() };
    let made = untrack(|| piece.made());
    let (recipe, _) = &*made;
    let by = viewing.light.get_untracked().judged_by();
    let mut glasses: Vec<Row> =
        how.used.iter().filter_map(|used| row(recipe, &used.glass, used.depths, by)).collect();
    glasses.sort_by(|one, other| unsure(other.off).total_cmp(&unsure(one.off)));
    let glasses = glasses.into_iter().map(|row| glass_row(row, bench));
    let stacked = how.places.iter().filter(|place| place.off.is_some() && many_glasses(recipe, &place.coats));
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
    let (off, next) =
        (at_worst(&sureness, used, by), next_tile(&sureness, glass.material.mean_scatter(), used, by));
    Some(Row { glass, sureness, used, off, next })
}

fn glass_row(row: Row, bench: Bench) -> impl IntoView {
    let Row { glass, sureness, used, off, next } = row;
    let name = glass.name.clone();
    let fire = next.map(|next| {
        view! {
            <button
                class="button"
                aria-label=words::fire_tile_of(&glass.name, next)
                on:click=move |_| bench.fire(&glass, next)
            >
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

/// Whether more than one glass lies where these coats do.
fn many_glasses(recipe: &Recipe, coats: &[u32]) -> bool {
    let parts = coats.iter().filter_map(|id| recipe.coat(*id)).flat_map(|coat| &coat.powder);
    let mut glasses = parts.map(|part| &part.glass);
    let first = glasses.next();
    glasses.any(|glass| Some(glass) != first)
}

/// The bench for tiles.
#[derive(Clone, Copy)]
struct Bench {
    nav: Nav,
    desk: TileDesk,
    announcer: Announcer,
}

impl Bench {
    /// Opens it with this tile on it, and those that the glass was fitted from; what the maker has begun there stays.
    fn fire(&self, glass: &Glass, next: NextTile) {
        let laid = self.desk.lay(Draft::one_more(glass, next));
        self.nav.open_area(AreaId::TILE);
        if !laid {
            self.announcer.say(words::ANOTHER_LIES_THERE);
            self.desk.remark.set(Some(words::ANOTHER_LIES_THERE.into()));
        }
    }
}
