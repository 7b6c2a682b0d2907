//! The ways in which a coat may fall.

use crate::controls::choice::{Choice, ChoiceOption};
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::units::Mm;
use dappledome::recipe::limits::{EVEN_DEPTH, PATCH_UNEVENNESS, UNEVENNESS};
use dappledome::recipe::{Coat, Fall, Patches, ThickAndThin};
use leptos::prelude::*;
use std::mem::discriminant;

/// The ways to choose from, in order, each as it usually is.
pub fn falls() -> [Fall; 3] {
    [
        Fall::Even { depth: Mm(EVEN_DEPTH.usual) },
        Fall::Patches(Patches::usual()),
        Fall::ThickAndThin(ThickAndThin::usual()),
    ]
}

/// The choice of how a coat falls.
#[component]
pub fn FallChoice(
    /// The coat's id.
    id: u32,
) -> impl IntoView {
    view! {
        <Choice label=words::HOW_IT_FALLS>
            {falls().into_iter().map(|fall| view! { <FallOption id fall /> }).collect_view()}
        </Choice>
    }
}

/// One of them.
#[component]
fn FallOption(
    /// The coat's id.
    id: u32,
    /// The way.
    fall: Fall,
) -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let word = words::fall(&fall);
    let way = discriminant(&fall);
    let is = move || piece.recipe.read().coat(id).is_some_and(|coat| discriminant(&coat.fall) == way);
    let fall = StoredValue::new(fall);
    let choose = move |()| {
        if !untrack(is) {
            piece.edit(words::did::FALL, |recipe| {
                if let Some(coat) = recipe.coat_mut(id) {
                    fall_otherwise(coat, fall.get_value());
                }
            });
        }
    };
    view! { <ChoiceOption word chosen=is choose /> }
}

/// Lets a coat fall in another way. What was usual for the old way becomes usual for the new one.
fn fall_otherwise(coat: &mut Coat, fall: Fall) {
    if coat.unevenness == usual_unevenness(&coat.fall) {
        coat.unevenness = usual_unevenness(&fall);
    }
    coat.fall = fall;
}

fn usual_unevenness(fall: &Fall) -> f64 {
    match fall {
        Fall::Patches(_) => PATCH_UNEVENNESS.usual,
        Fall::Even { .. } | Fall::ThickAndThin(_) => UNEVENNESS.usual,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_usual_stays_usual_and_what_was_chosen_stays() {
        let [even, patches, range] = falls();
        let mut coat = Coat::new(1, "straw", even.clone());
        coat.unevenness = UNEVENNESS.usual;
        fall_otherwise(&mut coat, patches.clone());
        assert_eq!((coat.unevenness, &coat.fall), (PATCH_UNEVENNESS.usual, &patches));
        fall_otherwise(&mut coat, range);
        assert_eq!(coat.unevenness, UNEVENNESS.usual);
        coat.unevenness = 0.4;
        fall_otherwise(&mut coat, patches);
        fall_otherwise(&mut coat, even);
        assert_eq!(coat.unevenness, 0.4);
    }
}
