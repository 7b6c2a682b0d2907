//! The open slump.

use super::finished::FinishedLine;
use crate::areas::sheet::details::Fields;
use crate::controls::choice::{Choice, ChoiceOption};
use crate::fields::firings::SINK;
use crate::fields::others::{MOLD_BOTTOM, SLUMP};
use crate::fields::types::Target;
use crate::model::mold_forms::{FORMS, has_bottom, same_form, sized};
use crate::state::fired::Fired;
use crate::state::preferences::Preferences;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::firing::Firing;
use dappledome::recipe::{Form, Side};
use leptos::prelude::*;

/// The mold, and which side the powder is on.
#[component]
pub fn SlumpBody() -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let bottomed = Memo::new(move |_| has_bottom(&piece.recipe.read().mold.form));
    view! {
        <div class="body">
            <Choice label=words::MOLD>
                {FORMS.into_iter().map(|form| view! { <FormOption form /> }).collect_view()}
            </Choice>
            <Fields fields=SLUMP target=Target::Whole />
            <Show when=move || bottomed.get()>
                <Fields fields=MOLD_BOTTOM target=Target::Whole />
            </Show>
            <FinishedLine />
            <Fields fields=SINK target=Target::Whole />
            <Sinks />
            <Choice label=words::POWDER_SIDE named=true>
                <SideOption side=Side::Out />
                <SideOption side=Side::In />
            </Choice>
        </div>
    }
}

/// How long it takes to sink.
#[component]
fn Sinks() -> impl IntoView {
    let (piece, fired) = (expect_context::<Workpiece>(), expect_context::<Fired>());
    let preferences = expect_context::<Preferences>();
    let said = move || {
        let full = piece.made().1.slump.hold.is_none();
        let program = fired.program(Firing::Slump);
        program.map_or_else(
            || words::NO_PROGRAM.to_owned(),
            |program| preferences.text(&words::settles(&program, full)),
        )
    };
    view! {
        <div class="firing-words">
            <p>{said}</p>
            <p class="aside">{words::NOT_YET_A_KILN}</p>
        </div>
    }
}

/// One form that the mold may have.
#[component]
fn FormOption(
    /// Which form.
    form: Form,
) -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let word = words::form(&form);
    let form = StoredValue::new(form);
    let is = move || piece.recipe.with(|recipe| form.with_value(|form| same_form(form, &recipe.mold.form)));
    let choose = move |()| {
        if !untrack(is) {
            piece.edit(words::did::MOLD, |recipe| {
                recipe.mold.form = form.with_value(|form| sized(form, &recipe.mold));
            });
        }
    };
    view! { <ChoiceOption word chosen=is choose /> }
}

/// One side that the powder may be on.
#[component]
fn SideOption(
    /// Which side.
    side: Side,
) -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    view! {
        <ChoiceOption
            word=words::side(side)
            chosen=move || piece.recipe.read().powder_side == side
            choose=move |()| piece.edit(words::did::SIDE, |recipe| recipe.powder_side = side)
        />
    }
}
