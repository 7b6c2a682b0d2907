//! A glass as a test tile seen from above: six bands from a dusting to a heap.

use super::ladders::with_glass;
use super::opened::OPENED;
use crate::controls::ladder::banded;
use crate::dom::focus;
use crate::state::glasses::OwnGlasses;
use crate::state::orders::Orders;
use crate::words;
use dappledome::tiles::ladder::Base;
use leptos::prelude::*;

/// Depths of loose powder of the bands, mm.
const DEPTHS: [f32; 6] = [0.05, 0.1, 0.2, 0.45, 1.0, 2.0];

/// The disc, which opens the glass.
pub fn disc(id: String, open: RwSignal<Option<String>>) -> AnyView {
    let (own, orders) = (expect_context::<OwnGlasses>(), expect_context::<Orders>());
    let of = id.clone();
    let look = Memo::new(move |_| {
        with_glass(own, &of, |glass| {
            let on_hand = orders.bench.with(|bench| Some(bench.stock.jar(&glass.id)?.grams?.0));
            (glass.name.clone(), words::glass_in_short(glass, on_hand), banded(glass, Base::White, &DEPTHS))
        })
        .unwrap_or_default()
    });
    let is = id.clone();
    let is_open = move || open.read().as_ref() == Some(&is);
    let toggle = move |_| {
        let id = id.clone();
        open.update(|now| *now = (now.as_ref() != Some(&id)).then_some(id));
        if open.with_untracked(Option::is_some) {
            request_animation_frame(|| focus::bring(OPENED));
        }
    };
    view! {
        <li>
            <button class="glass-disc" aria-expanded=move || is_open().to_string() on:click=toggle>
                <span class="tile" style=("--bands", move || look.read().2.clone())></span>
                <b>{move || look.read().0.clone()}</b>
                <small>{move || look.read().1.clone()}</small>
            </button>
        </li>
    }
    .into_any()
}
