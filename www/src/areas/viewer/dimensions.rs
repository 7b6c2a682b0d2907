//! The size under the rim, and the caution under it.

use super::layout::{HandLayout, has_line};
use crate::controls::how_sure_word::HowSureWord;
use crate::state::preferences::Preferences;
use crate::state::results::Results;
use crate::state::sinking::Sinking;
use crate::state::viewing::Viewing;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::scalar::{sin_cos, tan};
use dappledome::base::units::{Mm, fixed};
use dappledome::picture::cast::{AIM, DISTANCE, FIELD};
use dappledome::picture::flat::DISC_SHARE;
use dappledome::picture::view::Stage;
use dappledome::shop::ticket::Ticket;
use leptos::prelude::*;

/// Height of a dome in radii before the real one is known.
const USUAL_HEIGHT: f32 = 0.57;

/// The size and the caution.
#[component]
pub fn Dimensions() -> impl IntoView {
    let (viewing, layout) = (expect_context::<Viewing>(), expect_context::<HandLayout>());
    let (results, sinking) = (expect_context::<Results>(), expect_context::<Sinking>());
    let high = move || match sinking.dome() {
        Some(dome) => height(dome.across(), dome.high()),
        None => results.ticket.with(|ticket| {
            ticket.as_ref().map_or(USUAL_HEIGHT, |ticket| height(ticket.dome_across, ticket.dome_high))
        }),
    };
    let near = move || (viewing.camera.get().zoom - 1.0).abs() > 0.01;
    let under = move || {
        let share =
            if viewing.flat() { DISC_SHARE / 2.0 } else { rim_below(viewing.camera.get().tilt, high()) };
        fixed(share, 3)
    };
    view! {
        <div
            class="dimensions"
            class:under-hand-line=move || has_line(layout)
            class:flat-size=move || viewing.flat()
            class:near=near
            style=("--under", under)
        >
            <DimensionLine />
            <Caution />
        </div>
    }
}

/// The size, as a line from rim to rim.
#[component]
fn DimensionLine() -> impl IntoView {
    let (viewing, results) = (expect_context::<Viewing>(), expect_context::<Results>());
    let (preferences, sinking) = (expect_context::<Preferences>(), expect_context::<Sinking>());
    let size = Memo::new(move |_| {
        let stage = viewing.stage.get();
        let watched = if stage == Stage::Domed { sinking.dome() } else { None };
        if let Some(dome) = watched {
            return Some(words::dome_size(dome.across(), dome.high(), preferences.units.get()));
        }
        let size = |ticket: &Ticket| words::dimensions(stage, ticket, preferences.units.get());
        results.ticket.read().as_ref().map(size)
    });
    view! {
        <p class="dimension-line" class:hidden=move || size.read().is_none()>
            <span class="end"></span>
            <span>{move || size.get().unwrap_or_default()}</span>
            <span class="end"></span>
        </p>
    }
}

/// That it is a forecast, or what else it is.
#[component]
fn Caution() -> impl IntoView {
    let (piece, viewing) = (expect_context::<Workpiece>(), expect_context::<Viewing>());
    let caution = move || {
        let works = piece.plan.read().works;
        if works { words::FORECAST } else { words::AS_IT_LAST_WORKED }
    };
    let otherwise = move || Some(view! { <b class="otherwise">{viewing.otherwise()?} " "</b> });
    view! {
        <p class="forecast">
            <span>{otherwise} {caution} " " <HowSureWord /></span>
        </p>
    }
}

/// Height of a dome in radii.
fn height(across: Mm, high: Mm) -> f32 {
    (2.0 * high.0 / across.0.max(1.0)) as f32
}

/// How far below the middle of the picture the near rim of a dome is seen, as a share of the picture's side: what
/// the renderer's camera gives for the lowest point of the rim of a dome `high` radii high.
fn rim_below(tilt: f32, high: f32) -> f32 {
    let (sin, cos) = sin_cos(f64::from(tilt).to_radians());
    let (sin, cos) = (sin as f32, cos as f32);
    let aim = AIM * high;
    let depth = DISTANCE - cos + aim * sin;
    0.5 * (sin + aim * cos) / (depth * tan((FIELD / 2.0).to_radians()) as f32)
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::picture::View;

    #[test]
    fn the_rim_is_below_the_middle_and_within_the_picture() {
        let usual = rim_below(View::USUAL_TILT, USUAL_HEIGHT);
        assert!(usual > 0.0 && usual < 0.5, "{usual}");
        assert!(rim_below(View::USUAL_TILT, 2.0 * USUAL_HEIGHT) > usual, "a higher dome reaches lower");
        assert!(rim_below(View::USUAL_TILT + 10.0, USUAL_HEIGHT) > usual, "from higher up its rim opens");
    }
}
