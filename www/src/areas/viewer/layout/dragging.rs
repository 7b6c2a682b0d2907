//! Dragging on the glass. One drag is one step back.

use super::drag::{Contact, Drag, Grip};
use super::state::HandLayout;
use super::things::Thing;
use crate::areas::viewer::seen;
use crate::words;
use dappledome::layup::accents::accent_at;
use dappledome::layup::outlines::patch_at;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Node, PointerEvent};

/// How near an accent a finger must come down to take hold of it, as a share of the picture.
const NEAR_ACCENT: f32 = 0.015;

/// A pointer comes down: takes hold of what lies there, if anything.
pub fn down(layout: HandLayout, event: &PointerEvent) {
    if event.button() != 0 {
        return;
    }
    layout.spent.set_value(None);
    if layout.drag.with_untracked(Option::is_some) {
        // A second finger brings the piece nearer.
        return let_go_if_still(layout);
    }
    layout.focused.set(None);
    let Some(at) = contact(layout, event) else { return };
    let Some(grip) = untrack(|| grip(layout, event, at.place)) else { return };
    begin(layout, grip, &at);
    match grip {
        Grip::Rub(_) => rub_to(layout, at.place),
        Grip::Move(which, _) => layout.focused.set(Some(which)),
        Grip::Turn(_) => {}
    }
}

/// A pointer moves; whether it was about the layout.
pub fn pulled(layout: HandLayout, event: &PointerEvent) -> bool {
    let Some(to) = contact(layout, event) else { return false };
    let sponging = untrack(|| layout.sponging()).is_some();
    if sponging {
        hover(layout, to.place);
    }
    let mut drag = match layout.drag.get_untracked() {
        Some(drag) if drag.pointer == to.pointer => drag,
        _ => return sponging || layout.spent.get_value() == to.pointer,
    };
    drag.pull(&to);
    if let Grip::Rub(_) = drag.grip {
        drag.rub(to.place);
    }
    if drag.moved {
        go_on(layout, drag);
    }
    true
}

/// A pointer is lifted; whether it had dragged something.
pub fn lifted(layout: HandLayout, event: &PointerEvent) -> bool {
    let pointer = Some(event.pointer_id());
    let held = layout
        .drag
        .with_untracked(|drag| drag.as_ref().filter(|drag| drag.pointer == pointer).map(|drag| drag.moved));
    if held.is_some() {
        let_go(layout);
    }
    let spent = layout.spent.get_value() == pointer;
    if spent {
        layout.spent.set_value(None);
    }
    spent || held.unwrap_or(false) || untrack(|| layout.sponging()).is_some()
}

/// Begins a drag.
pub fn begin(layout: HandLayout, grip: Grip, at: &Contact) {
    let before = layout.piece.recipe.get_untracked();
    layout.piece.drag(true);
    layout.drag.set(Some(Drag::new(grip, at, before)));
}

/// Lengthens the stroke of the sponge, if it is pressed down.
pub fn rub_to(layout: HandLayout, place: [f32; 2]) {
    let Some(mut drag) = layout.drag.get_untracked() else { return };
    drag.rub(place);
    go_on(layout, drag);
}

/// Moves the sponge over a place.
pub fn hover(layout: HandLayout, place: [f32; 2]) {
    layout.sponge.update(|sponge| sponge.iter_mut().for_each(|sponge| sponge.at = place));
}

/// Ends a drag.
pub fn let_go(layout: HandLayout) {
    if layout.drag.with_untracked(Option::is_some) {
        layout.drag.set(None);
        layout.piece.drag(false);
    }
}

/// Ends a drag and puts back what it moved; whether there was one.
pub fn put_back(layout: HandLayout) -> bool {
    let Some(drag) = layout.drag.get_untracked() else { return false };
    let_go(layout);
    if drag.pointer.is_some() {
        layout.spent.set_value(drag.pointer);
    }
    if drag.moved {
        layout.piece.step_by(-1);
    }
    true
}

fn let_go_if_still(layout: HandLayout) {
    if layout.drag.with_untracked(|drag| drag.as_ref().is_some_and(|drag| !drag.moved)) {
        let_go(layout);
    }
}

/// Does to the recipe what the drag does so far.
fn go_on(layout: HandLayout, drag: Drag) {
    layout.drag.set(Some(drag.clone()));
    let coat = untrack(|| layout.coat());
    let powder = untrack(|| layout.powder());
    let name = match drag.grip {
        Grip::Move(..) => words::move_step(&powder),
        Grip::Turn(_) => words::turn_step(&powder),
        Grip::Rub(_) => words::SPONGING_OFF.into(),
    };
    layout.piece.edit(&name, |recipe| drag.apply(recipe, coat));
}

fn contact(layout: HandLayout, event: &PointerEvent) -> Option<Contact> {
    let seen = seen::pointer(event)?;
    Some(Contact {
        pointer: Some(event.pointer_id()),
        px: (event.client_x(), event.client_y()),
        seen,
        place: layout.map_now().place(seen),
    })
}

/// What a pointer takes hold of.
fn grip(layout: HandLayout, event: &PointerEvent, [x, y]: [f32; 2]) -> Option<Grip> {
    if let Some(sponge) = layout.sponging() {
        return Some(Grip::Rub(sponge.width));
    }
    if is_on_knob(layout, event) {
        return layout.turn_of_coat().map(Grip::Turn);
    }
    let patch = patch_at(&layout.patches.read(), x, y);
    let near = NEAR_ACCENT * layout.map().side;
    let accent = accent_at(&layout.accents.read(), x, y, near);
    // Patches and accents are never laid at the same time, so the place in one list is that among all.
    layout.things.read().get(patch.or(accent)?).map(held)
}

fn held(thing: &Thing) -> Grip {
    Grip::Move(thing.which, thing.middle)
}

fn is_on_knob(layout: HandLayout, event: &PointerEvent) -> bool {
    let target: Option<Node> = event.target().and_then(|target| target.dyn_into().ok());
    layout.knob.get_untracked().is_some_and(|knob| knob.contains(target.as_ref()))
}
