//! What an open coat shows: its fall and fields, its layout, and what can be done with the coat as a whole.

use super::coat_layout::{CoatWeights, LayoutButtons, Together};
use super::coat_menu::CoatMenu;
use super::falls::FallChoice;
use crate::areas::sheet::blend::{Blend, BlendOwner, PowderChoice};
use crate::areas::sheet::details::{Details, Fields};
use crate::areas::sheet::state::CoatDrawer;
use crate::fields::coat::{
    EVEN, EVEN_DETAILS, LAYOUT, PATCHES, PATCHES_DETAILS, THICK_AND_THIN, THICK_AND_THIN_DETAILS,
};
use crate::fields::types::{Field, Target};
use crate::state::finding::Finding;
use crate::state::nav::Nav;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::recipe::Fall;
use leptos::prelude::*;
use std::mem::discriminant;

/// The body of a coat.
#[component]
pub fn CoatBody(
    /// The coat's id.
    id: u32,
    /// What it has drawn out.
    drawer: RwSignal<Option<CoatDrawer>>,
) -> impl IntoView {
    view! {
        <div class="body">
            <Show when=move || drawer.get() == Some(CoatDrawer::Powders)>
                <PowderChoice owner=BlendOwner::Coat(id) />
                <FindWord id />
            </Show>
            <Show when=move || drawer.get() == Some(CoatDrawer::Menu)>
                <CoatMenu id />
            </Show>
            <FallChoice id />
            <FallFields id />
            <LayoutButtons id />
            <Together id />
            <CoatWeights id />
        </div>
    }
}

/// The word that looks for a color for a coat.
#[component]
fn FindWord(
    /// The coat's id.
    id: u32,
) -> impl IntoView {
    let (piece, nav) = (expect_context::<Workpiece>(), expect_context::<Nav>());
    let finding = expect_context::<Finding>();
    view! {
        <p class="find-word">
            <button class="word" on:click=move |_| finding.open(id, piece, nav)>
                {words::FIND_A_COLOR}
            </button>
        </p>
    }
}

/// The sliders for how a coat falls.
#[component]
fn FallFields(
    /// The coat's id.
    id: u32,
) -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let fall = Memo::new(move |_| piece.recipe.read().coat(id).map(|coat| discriminant(&coat.fall)));
    let shown = move || {
        // A memo is followed only once it has been read.
        fall.get()?;
        piece.recipe.with_untracked(|recipe| recipe.coat(id).map(|coat| fields(&coat.fall)))
    };
    move || shown().map(|(first, details)| view! { <CoatFields id first details /> })
}

/// The fields of a coat that falls in one way.
#[component]
fn CoatFields(
    /// The coat's id.
    id: u32,
    /// Those at first sight.
    first: &'static [Field],
    /// Those under *Details*.
    details: &'static [&'static [Field]],
) -> impl IntoView {
    view! {
        <Fields fields=first target=Target::Coat(id) />
        <Details lists=details target=Target::Coat(id)>
            <Blend owner=BlendOwner::Coat(id) label=words::BLEND add=words::BLEND_IN />
        </Details>
    }
}

/// The fields of a fall: those at first sight, and those under *Details*.
fn fields(fall: &Fall) -> (&'static [Field], &'static [&'static [Field]]) {
    match fall {
        Fall::Even { .. } => (EVEN, &[EVEN_DETAILS, LAYOUT]),
        Fall::Patches(_) => (PATCHES, &[PATCHES_DETAILS, LAYOUT]),
        Fall::ThickAndThin(_) => (THICK_AND_THIN, &[THICK_AND_THIN_DETAILS, LAYOUT]),
    }
}

#[cfg(test)]
mod tests {
    use super::super::falls::falls;
    use super::*;
    use dappledome::recipe::{Coat, Recipe};

    #[test]
    fn every_field_of_a_fall_finds_its_number() {
        for fall in falls() {
            let (first, details) = fields(&fall);
            let recipe = Recipe { coats: vec![Coat::new(2, "straw", fall)], ..Recipe::bare() };
            for field in first.iter().chain(details.iter().copied().flatten()) {
                let found = field.thumbs.iter().all(|thumb| (thumb.get)(&recipe, Target::Coat(2)).is_some());
                assert!(found, "{}", field.label);
            }
        }
    }
}
