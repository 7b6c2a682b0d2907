//! A step's swatch: its glass loose, and fired.

use crate::controls::color_pair::ColorPair;
use crate::state::viewing::Viewing;
use crate::state::workpiece::Workpiece;
use dappledome::base::notice::Step;
use dappledome::optics::test_tile::{self, Color};
use dappledome::recipe::plan::Plan;
use leptos::prelude::*;

/// The swatch of a step, or its empty place.
#[component]
pub fn Swatch(
    /// Which step.
    step: Step,
) -> impl IntoView {
    match step {
        Step::Blank | Step::Coat(_) => view! { <StepColors step /> }.into_any(),
        _ => view! { <span class="no-swatch"></span> }.into_any(),
    }
}

/// The color loose and the color fired.
#[component]
fn StepColors(
    /// Which step.
    step: Step,
) -> impl IntoView {
    let (piece, viewing) = (expect_context::<Workpiece>(), expect_context::<Viewing>());
    let colors = Memo::new(move |_| if viewing.drawn.get() { colors(step, &piece.made().1) } else { None });
    view! { <ColorPair colors /> }
}

/// The colors of a step's glass, loose and fired; none if it has none of its own.
pub fn colors(step: Step, plan: &Plan) -> Option<(Color, Color)> {
    match step {
        Step::Coat(id) => test_tile::swatch(plan, id),
        Step::Blank => {
            let color = test_tile::blank_swatch(plan);
            Some((color, color))
        }
        _ => None,
    }
}
