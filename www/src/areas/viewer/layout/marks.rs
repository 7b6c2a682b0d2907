//! The marks on the flat glass, like wax pencil: outlines of what can be moved, and ticks around the rim.

use super::drag::{Drag, Grip};
use super::state::HandLayout;
use super::things::{Laying, Which};
use dappledome::base::scalar::sin_cos;
use dappledome::base::units::fixed;
use leptos::prelude::*;

/// One tick in so many degrees.
const TICK: i32 = 15;
/// One tick in so many is longer.
const QUARTER: i32 = 90 / TICK;

/// All marks.
#[component]
pub fn Marks() -> impl IntoView {
    let layout = expect_context::<HandLayout>();
    let map = Memo::new(move |_| layout.map());
    let all = Memo::new(move |_| layout.things.read().iter().map(|thing| thing.which).collect::<Vec<_>>());
    let ticks = move || match layout.laying.get() {
        Some(Laying::Patches(_)) => ticks(map.get().radius),
        _ => String::new(),
    };
    view! {
        <svg class="hand-marks" viewBox="0 0 1000 1000" aria-hidden="true">
            <g transform=move || map.get().matrix()>
                <path class="ticks" d=ticks />
                <g class="outlines" transform=move || turning(layout)>
                    <For each=move || all.get() key=Which::key let:which>
                        <OutlineMark which />
                    </For>
                </g>
            </g>
        </svg>
    }
}

/// The outline of a thing.
#[component]
fn OutlineMark(
    /// The thing.
    which: Which,
) -> impl IntoView {
    let layout = expect_context::<HandLayout>();
    let path = Memo::new(move |_| layout.of_thing(which, |thing| thing.path.clone()).unwrap_or_default());
    let moved =
        move || layout.drag.with(|drag| drag.as_ref().map_or_else(String::new, |drag| moved(drag, which)));
    view! {
        <g class:focused=move || layout.focused.get() == Some(which) transform=moved>
            <path class="halo" d=move || path.get() />
            <path class="mark" d=move || path.get() />
        </g>
    }
}

/// How a thing is drawn while the hand has it.
fn moved(drag: &Drag, which: Which) -> String {
    match drag.grip {
        Grip::Move(held, _) if held == which => {
            format!("translate({} {})", fixed(drag.by[0], 2), fixed(drag.by[1], 2))
        }
        _ => String::new(),
    }
}

/// How the whole coat is drawn while its knob is held.
fn turning(layout: HandLayout) -> String {
    let turn = layout.drag.with(|drag| {
        let drag = drag.as_ref()?;
        if let Grip::Turn(was) = drag.grip { Some(drag.turned() - was) } else { None }
    });
    let Some(turn) = turn else { return String::new() };
    let (right, up) = untrack(|| middle_of_coat(layout));
    format!("rotate({turn} {right} {up})")
}

/// Where the middle of the open coat's layout lies, mm.
fn middle_of_coat(layout: HandLayout) -> (f64, f64) {
    let Some(id) = layout.coat() else { return (0.0, 0.0) };
    layout.piece.recipe.with(|recipe| {
        let layout = recipe.coat(id).map(|coat| &coat.layout);
        layout.map_or((0.0, 0.0), |layout| (layout.moved_right.0, layout.moved_up.0))
    })
}

/// Short lines around the rim of a disc, longer ones at the quarters.
fn ticks(radius: f32) -> String {
    (0..360 / TICK).map(|at| tick(radius, at)).collect()
}

fn tick(radius: f32, at: i32) -> String {
    let (sin, cos) = sin_cos(f64::from(at * TICK).to_radians());
    let (from, to) = (1.03 * radius, if at % QUARTER == 0 { 1.06 } else { 1.045 } * radius);
    let point = |out: f32| format!("{} {}", fixed(out * cos as f32, 2), fixed(out * sin as f32, 2));
    format!("M{}L{}", point(from), point(to))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_quarters_have_longer_ticks() {
        assert_eq!(tick(100.0, 0), "M103.00 0.00L106.00 0.00");
        assert_eq!(tick(100.0, 6), "M0.00 103.00L0.00 106.00");
        assert_eq!(tick(100.0, 4), "M51.50 89.20L52.25 90.50");
        assert_eq!(ticks(100.0).matches('M').count(), 24);
    }
}
