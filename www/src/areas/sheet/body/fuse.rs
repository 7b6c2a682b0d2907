//! The open full fuse.

use super::edge::EdgeDrawing;
use crate::areas::sheet::details::Fields;
use crate::fields::firings::FUSE;
use crate::fields::types::Target;
use crate::state::fired::Fired;
use crate::state::preferences::Preferences;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::units::Mm;
use leptos::prelude::*;

/// How hot, how long, and what becomes of the disc.
#[component]
pub fn FuseBody() -> impl IntoView {
    view! {
        <div class="body">
            <Fields fields=FUSE target=Target::Whole />
            <Size />
            <EdgeDrawing />
        </div>
    }
}

/// Whether the disc keeps its size.
#[component]
fn Size() -> impl IntoView {
    let (piece, fired) = (expect_context::<Workpiece>(), expect_context::<Fired>());
    let preferences = expect_context::<Preferences>();
    let said = move || {
        let cut = Mm(2.0 * f64::from(piece.made().1.disc.radius()));
        let firings = fired.firings()?;
        let Some(spread) = firings.spread.as_ref() else {
            return Some(view! { <p>{words::NO_PROGRAM}</p> }.into_any());
        };
        let size = preferences.text(&words::size_after(cut, spread));
        let rests = firings.at_rest.as_ref().map(|rest| preferences.text(&words::rests(rest)));
        let said = view! {
            <p>
                <b>{words::tendency(spread.tendency)}</b>
                " "
                {size}
            </p>
            <p class="aside">{rests}</p>
        };
        Some(said.into_any())
    };
    view! { <div class="firing-words">{said}</div> }
}
