//! A glass from a dusting to a heap, on white, in clear glass and on black, over one axis of depth.

use crate::controls::ladder::{along, painted};
use crate::state::glasses::OwnGlasses;
use crate::words;
use dappledome::glass::catalogue;
use dappledome::glass::kind::Glass;
use dappledome::tiles::ladder::Base;
use leptos::prelude::*;

/// The depths that the axis names, mm of loose powder.
const NAMED: [(f32, &str); 5] = [(0.03, "0.03"), (0.1, "0.1"), (0.3, "0.3"), (1.0, "1"), (3.0, "3 mm")];

/// Looks at a glass of the maker's or of the catalogue, followed.
pub fn with_glass<T>(own: OwnGlasses, id: &str, look: impl FnOnce(&Glass) -> T) -> Option<T> {
    own.with(|shelf| shelf.find(id).map(|own| &own.glass).or_else(|| catalogue::find(id)).map(look))
}

/// The three ladders with their axis.
pub fn ladders(id: String) -> AnyView {
    let own = expect_context::<OwnGlasses>();
    let rows = Base::ALL.map(|base| {
        let id = id.clone();
        let colors = Memo::new(move |_| {
            with_glass(own, &id, |glass| painted(glass, base)).unwrap_or_default()
        });
        view! {
            <span>{words::ladder_base(base)}</span>
            <span class="ladder" role="img" aria-label=words::ladder_said(base) style=("--bands", colors)></span>
        }
    });
    let ticks = NAMED.map(|(depth, name)| {
        let at = along(depth) * 100.0;
        view! { <span class="tick" style=("--at", format!("{at}%"))>{name}</span> }
    });
    view! {
        <div class="ladders">
            {rows.into_iter().collect_view()}
            <span></span>
            <span class="axis" aria-hidden="true">{ticks.into_iter().collect_view()}</span>
        </div>
    }
    .into_any()
}
