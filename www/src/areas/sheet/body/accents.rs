//! The open accents.

use super::tack::TackFuse;
use crate::areas::sheet::blend::{Blend, BlendOwner};
use crate::areas::sheet::details::{Details, Fields};
use crate::fields::others::{ACCENTS, ACCENTS_DETAILS};
use crate::fields::types::Target;
use crate::state::nav::Nav;
use crate::state::workpiece::Workpiece;
use crate::words;
use leptos::prelude::*;

/// Their glasses, their number, and the word that takes them out.
#[component]
pub fn AccentsBody() -> impl IntoView {
    let (piece, nav) = (expect_context::<Workpiece>(), expect_context::<Nav>());
    let take_out = move |_| {
        nav.step.set(None);
        piece.edit(words::did::ACCENTS_OUT, |recipe| recipe.accents = None);
    };
    view! {
        <div class="body">
            <Blend owner=BlendOwner::Accents label=words::GLASSES add=words::ADD_GLASS />
            <Fields fields=ACCENTS target=Target::Whole />
            <Details lists=&[ACCENTS_DETAILS] target=Target::Whole />
            <TackFuse />
            <div class="buttons">
                <button class="button" on:click=take_out>
                    {words::TAKE_OUT}
                </button>
            </div>
        </div>
    }
}
