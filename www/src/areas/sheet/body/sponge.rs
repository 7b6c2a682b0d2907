//! The open sponge.

use crate::areas::sheet::details::{Details, Fields};
use crate::controls::choice::{Choice, ChoiceOption};
use crate::fields::others::{SPONGE, SPONGE_DETAILS};
use crate::fields::types::Target;
use crate::state::nav::Nav;
use crate::state::workpiece::Workpiece;
use crate::words;
use leptos::prelude::*;

/// Whether it is used, and how.
#[component]
pub fn SpongeBody() -> impl IntoView {
    let (piece, nav) = (expect_context::<Workpiece>(), expect_context::<Nav>());
    let none = move |()| {
        nav.step.set(None);
        piece.edit(words::did::SPONGE, |recipe| recipe.sponge = None);
    };
    view! {
        <div class="body">
            <Choice label=words::SPONGE>
                <ChoiceOption word=words::NONE chosen=false choose=none />
                <ChoiceOption word=words::DAB chosen=true choose=|()| () />
            </Choice>
            <Fields fields=SPONGE target=Target::Whole />
            <Details lists=&[SPONGE_DETAILS] target=Target::Whole />
        </div>
    }
}
