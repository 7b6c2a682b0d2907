//! Dragging by pointer: a patch or an accent, the knob of the coat, the sponge. One drag is one step back.

use super::map::{Map, pointer};
use super::{ByHand, Which};
use crate::words;
use dappledome::base::scalar::atan2;
use dappledome::base::units::Degrees;
use dappledome::layup::accents::accent_at;
use dappledome::layup::outlines::patch_at;
use dappledome::recipe::{Place, Recipe};
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, PointerEvent};

/// A pointer that moved less than this, px, has tapped.
const TAP: i32 = 5;
/// The number of the pointer that keys move.
pub(super) const BY_KEYS: i32 = -1;
/// How near an accent a finger must come down to take hold of it, as a share of the picture.
const NEAR_ACCENT: f32 = 0.015;

/// What the hand has hold of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Grip {
    /// A patch or an accent, from where its middle lay.
    Move(Which, [f32; 2]),
    /// The knob, from this turn of the coat, degrees.
    Turn(f64),
    /// The sponge, so wide, mm.
    Rub(f64),
}

/// A drag under way.
#[derive(Clone, Debug)]
pub struct Drag {
    /// What is held.
    pub grip: Grip,
    pointer: i32,
    start: (i32, i32),
    from: [f32; 2],
    /// Where the pointer is in the picture.
    pub seen: (f32, f32),
    /// How far it went, mm on the disc.
    pub by: [f32; 2],
    /// Whether it went farther than a tap.
    pub moved: bool,
    path: Vec<Place>,
    before: Recipe,
}

impl Drag {
    /// How far the coat is turned now, whole degrees.
    pub fn turned(&self) -> f64 {
        let Grip::Turn(was) = self.grip else { return 0.0 };
        let angle = |[x, y]: [f32; 2]| atan2(f64::from(y), f64::from(x)).to_degrees();
        let to = [self.from[0] + self.by[0], self.from[1] + self.by[1]];
        (was + angle(to) - angle(self.from)).round().rem_euclid(360.0)
    }
}

impl ByHand {
    /// A pointer comes down: takes hold of what lies there, if anything.
    pub fn down(&self, event: &PointerEvent) {
        if event.button() != 0 {
            return;
        }
        self.spent.set_value(None);
        if self.drag.with_untracked(Option::is_some) {
            // A second finger brings the piece nearer.
            return self.let_go_if_still();
        }
        self.focused.set(None);
        let Some(seen) = pointer(event) else { return };
        let from = Map::now(self.bench).place(seen);
        if let Some(grip) = untrack(|| self.grip(event, from)) {
            self.begin(grip, event.pointer_id(), seen, from);
            let start = (event.client_x(), event.client_y());
            self.drag.update(|drag| drag.iter_mut().for_each(|drag| drag.start = start));
            match grip {
                Grip::Rub(_) => self.rub_to(from),
                Grip::Move(which, _) => self.focused.set(Some(which)),
                Grip::Turn(_) => {}
            }
        }
    }

    fn grip(&self, event: &PointerEvent, [x, y]: [f32; 2]) -> Option<Grip> {
        if let Some(sponge) = self.sponging() {
            return Some(Grip::Rub(sponge.width));
        }
        let target: Option<Element> = event.target().and_then(|target| target.dyn_into().ok());
        if target.is_some_and(|target| target.class_list().contains("hand-knob")) {
            return self.turn_of_coat().map(Grip::Turn);
        }
        let patch = self.patches.with(|patches| patch_at(patches, x, y));
        let near = NEAR_ACCENT * Map::new(self.bench).side;
        let accent = self.accents.with(|accents| accent_at(accents, x, y, near));
        // Patches and accents are never laid at the same time, so the place in one list is that among all.
        let thing = self.things.with(|things| things.get(patch.or(accent)?).cloned())?;
        Some(Grip::Move(thing.which, thing.middle))
    }

    /// Begins a drag.
    pub(super) fn begin(&self, grip: Grip, pointer: i32, seen: (f32, f32), from: [f32; 2]) {
        let before = self.bench.recipe.get_untracked();
        self.bench.history.drag(true);
        let (by, start, moved) = ([0.0; 2], (0, 0), pointer == BY_KEYS);
        self.drag.set(Some(Drag { grip, pointer, start, from, seen, by, moved, path: Vec::new(), before }));
    }

    /// A pointer moves; whether it was about the layout.
    pub fn pulled(&self, event: &PointerEvent) -> bool {
        let Some(seen) = pointer(event) else { return false };
        let to = Map::now(self.bench).place(seen);
        let sponging = untrack(|| self.sponging()).is_some();
        if sponging {
            self.hover(to);
        }
        let mut drag = match self.drag.get_untracked() {
            Some(drag) if drag.pointer == event.pointer_id() => drag,
            _ => return sponging || self.spent.get_value() == Some(event.pointer_id()),
        };
        let far = (event.client_x() - drag.start.0).abs().max((event.client_y() - drag.start.1).abs());
        drag.moved |= far >= TAP;
        (drag.seen, drag.by) = (seen, [to[0] - drag.from[0], to[1] - drag.from[1]]);
        if let Grip::Rub(_) = drag.grip {
            self.rub_to(to);
        } else if drag.moved {
            self.drag.set(Some(drag.clone()));
            self.apply(&drag);
        }
        true
    }

    /// Lengthens the stroke of the sponge.
    pub(super) fn rub_to(&self, [x, y]: [f32; 2]) {
        let Some(mut drag) = self.drag.get_untracked() else { return };
        drag.path.push([x.into(), y.into()]);
        drag.moved = true;
        self.drag.set(Some(drag.clone()));
        self.apply(&drag);
    }

    /// The recipe as it was when the drag began, with what the drag does.
    fn apply(&self, drag: &Drag) {
        let (seed, id) = (self.bench.seed.get_untracked(), untrack(|| self.coat()));
        let name = match drag.grip {
            Grip::Move(..) => untrack(|| self.move_name()),
            Grip::Turn(_) => words::turn_step(&untrack(|| super::coat_name(self.bench, self.laying.get()))),
            Grip::Rub(_) => words::SPONGING_OFF.into(),
        };
        self.bench.edit(&name, &|recipe| {
            recipe.clone_from(&drag.before);
            match drag.grip {
                Grip::Move(which, from) => self.moved(recipe, seed, which, from, drag.by.map(f64::from)),
                Grip::Turn(_) => {
                    if let Some(coat) = id.and_then(|id| recipe.coat_mut(id)) {
                        coat.layout.turned = Degrees(drag.turned());
                    }
                }
                Grip::Rub(width) => {
                    // A bed that was rubbed more than enough takes no more.
                    let _ = recipe.rub_off(dappledome::base::units::Mm(width), &drag.path);
                }
            }
        });
    }

    /// A pointer is lifted; whether it had dragged something.
    pub fn lifted(&self, event: &PointerEvent) -> bool {
        let held = self.drag.with_untracked(|drag| {
            drag.as_ref().filter(|drag| drag.pointer == event.pointer_id()).map(|drag| drag.moved)
        });
        if held.is_some() {
            self.let_go();
        }
        let spent = self.spent.get_value() == Some(event.pointer_id());
        if spent {
            self.spent.set_value(None);
        }
        spent || held.unwrap_or(false) || untrack(|| self.sponging()).is_some()
    }

    /// Ends a drag.
    pub fn let_go(&self) {
        if self.drag.with_untracked(Option::is_some) {
            self.drag.set(None);
            self.bench.history.drag(false);
        }
    }

    fn let_go_if_still(&self) {
        if self.drag.with_untracked(|drag| drag.as_ref().is_some_and(|drag| !drag.moved)) {
            self.let_go();
        }
    }

    /// Ends a drag and puts back what it moved; whether there was one.
    pub(super) fn put_back(&self) -> bool {
        let Some(drag) = self.drag.get_untracked() else { return false };
        self.let_go();
        if drag.pointer != BY_KEYS {
            self.spent.set_value(Some(drag.pointer));
        }
        if drag.moved {
            self.bench.step_by(-1);
        }
        true
    }
}
