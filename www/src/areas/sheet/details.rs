//! *Details*: one line that says what differs from usual, and opens on the rest of a step's fields.

use crate::controls::slider::Slider;
use crate::fields::types::{Field, Target};
use crate::state::nav::Nav;
use crate::state::preferences::Preferences;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::shown::Units;
use dappledome::recipe::Recipe;
use leptos::prelude::*;

/// The sliders of some fields, in order.
#[component]
pub fn Fields(
    /// Which fields.
    fields: &'static [Field],
    /// Where in the recipe their numbers are.
    target: Target,
) -> impl IntoView {
    view! {
        <div class="rules">
            {fields.iter().map(|field| view! { <Slider field target /> }).collect_view()}
        </div>
    }
}

/// The line and, when it is open, what is given to it and then the sliders.
#[component]
pub fn Details(
    /// Which fields.
    lists: &'static [&'static [Field]],
    /// Where in the recipe their numbers are.
    target: Target,
    /// What comes before the sliders.
    #[prop(optional)]
    children: Option<ChildrenFn>,
) -> impl IntoView {
    let (piece, nav) = (expect_context::<Workpiece>(), expect_context::<Nav>());
    let preferences = expect_context::<Preferences>();
    let open = nav.details;
    let differing = move || {
        let units = preferences.units.get();
        differing(lists, &piece.recipe.read(), target, units)
    };
    let children = StoredValue::new(children);
    view! {
        <div>
            <button
                class="details"
                aria-expanded=move || open.get().to_string()
                on:click=move |_| open.update(|open| *open = !*open)
            >
                <b>{words::DETAILS}</b>
                <span class="differing" class:hidden=move || open.get()>
                    {differing}
                </span>
            </button>
            <Show when=move || open.get()>
                <div class="details-rules">
                    {children.with_value(|children| children.as_ref().map(|children| children()))}
                    {lists.iter().map(|fields| view! { <Fields fields target /> }).collect_view()}
                </div>
            </Show>
        </div>
    }
}

/// What differs from usual, in words.
fn differing(lists: &[&[Field]], recipe: &Recipe, target: Target, units: Units) -> String {
    let fields = lists.iter().flat_map(|fields| fields.iter());
    let said: Vec<String> = fields
        .filter(|field| field.differs(recipe, target))
        .map(|field| format!("{} {}", words::lower(field.label), field.say_all(recipe, target, units)))
        .collect();
    if said.is_empty() { words::AS_USUAL.into() } else { said.join(", ") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fields::coat::{LAYOUT, PATCHES_DETAILS};
    use dappledome::base::units::{Degrees, Mm};
    use dappledome::recipe::{Coat, Fall, Patches};

    #[test]
    fn only_what_differs_from_usual_is_said() {
        let said = |recipe: &Recipe| {
            differing(&[PATCHES_DETAILS, LAYOUT], recipe, Target::Coat(1), Units::default())
        };
        let mut coat = Coat::new(1, "straw", Fall::Patches(Patches::usual()));
        coat.unevenness = dappledome::recipe::limits::PATCH_UNEVENNESS.usual;
        let mut recipe = Recipe { coats: vec![coat], ..Recipe::bare() };
        assert_eq!(said(&recipe), words::AS_USUAL);
        recipe.coats[0].bare_rim = Mm(3.0);
        recipe.coats[0].layout.turned = Degrees(30.0);
        assert_eq!(said(&recipe), "bare rim 3 mm, turned 30°");
    }
}
