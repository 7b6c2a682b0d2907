//! The pictures that have been drawn and the canvases that show them. Each canvas registers itself for the slot it shows;
//! whoever draws asks which slots are looked at.

use crate::dom::canvas;
use crate::model::slots::PictureSlot;
use dappledome::base::order::ranked;
use js_sys::ArrayBuffer;
use leptos::prelude::*;
use std::collections::HashMap;
use std::rc::Rc;
use web_sys::HtmlCanvasElement;

/// A square picture. Its bytes stay outside our memory.
#[derive(Clone, Debug)]
pub struct Picture {
    /// Its side, pixels.
    pub side: u32,
    /// Its pixels, RGBA.
    pub pixels: ArrayBuffer,
}

#[derive(Default)]
struct Slot {
    /// When it was first looked at: those that were before are drawn before.
    since: u64,
    /// How many look at it.
    lookers: usize,
    canvases: Vec<HtmlCanvasElement>,
    picture: Option<Picture>,
}

#[derive(Default)]
struct Inner {
    slots: HashMap<PictureSlot, Slot>,
    looks: u64,
    /// Who wants to know when other slots are looked at.
    watchers: Vec<Rc<dyn Fn()>>,
}

/// All pictures on the page.
#[derive(Clone, Copy)]
pub struct Pictures(StoredValue<Inner, LocalStorage>);

impl Pictures {
    /// No picture yet.
    pub fn new() -> Self {
        Self(StoredValue::new_local(Inner::default()))
    }

    /// Looks at a slot until the present owner is cleaned up: its picture is wanted as long.
    pub fn look(&self, slot: PictureSlot) {
        self.0.update_value(|inner| {
            inner.looks += 1;
            let since = inner.looks;
            let slot = inner.slots.entry(slot).or_insert_with(|| Slot { since, ..Slot::default() });
            slot.lookers += 1;
        });
        self.tell();
        let pictures = *self;
        on_cleanup(move || {
            // The page may be going with all of them.
            let _ = pictures.0.try_update_value(|inner| {
                if let Some(slot) = inner.slots.get_mut(&slot) {
                    slot.lookers -= 1;
                }
            });
            pictures.tell();
        });
    }

    /// Shows a slot's picture on a canvas from now on, until the present owner is cleaned up.
    pub fn show_on(&self, slot: PictureSlot, canvas: &HtmlCanvasElement) {
        self.0.update_value(|inner| {
            let Some(slot) = inner.slots.get_mut(&slot) else { return };
            match &slot.picture {
                Some(picture) => canvas::show(canvas, picture.side, &picture.pixels),
                // It may have shown another slot's.
                None => canvas::clear(canvas),
            }
            slot.canvases.push(canvas.clone());
        });
    }

    /// Shows it there no longer.
    pub fn show_no_more(&self, slot: PictureSlot, canvas: &HtmlCanvasElement) {
        // The page may be going with all of them.
        let _ = self.0.try_update_value(|inner| {
            if let Some(slot) = inner.slots.get_mut(&slot) {
                slot.canvases.retain(|other| other != canvas);
            }
        });
    }

    /// A picture has been drawn.
    pub fn bring(&self, slot: PictureSlot, picture: Picture) {
        self.0.update_value(|inner| {
            // Nobody may look at it any more; then the next one who does will ask again.
            let Some(slot) = inner.slots.get_mut(&slot) else { return };
            for canvas in &slot.canvases {
                canvas::show(canvas, picture.side, &picture.pixels);
            }
            slot.picture = Some(picture);
        });
    }

    /// The picture in a slot, if it has been drawn.
    pub fn picture(&self, slot: PictureSlot) -> Option<Picture> {
        self.0.with_value(|inner| inner.slots.get(&slot)?.picture.clone())
    }

    /// The slots that are looked at, in the order in which they came to be.
    pub fn looked_at(&self) -> Vec<PictureSlot> {
        self.0.with_value(|inner| {
            let looked_at = inner.slots.iter().filter(|(_, slot)| slot.lookers > 0);
            let slots: Vec<_> = looked_at.map(|(name, slot)| (slot.since, *name)).collect();
            let oldest_first = ranked(slots.len(), &|a, b| slots[a].0.cmp(&slots[b].0));
            oldest_first.into_iter().map(|at| slots[at].1).collect()
        })
    }

    /// Forgets the pictures that nobody looks at but for some.
    pub fn forget_all_but(&self, keep: impl Fn(PictureSlot) -> bool) {
        self.0.update_value(|inner| inner.slots.retain(|name, slot| slot.lookers > 0 || keep(*name)));
    }

    /// Calls whenever other slots are looked at, as long as the page stands.
    pub fn on_look(&self, watcher: impl Fn() + 'static) {
        self.0.update_value(|inner| inner.watchers.push(Rc::new(watcher)));
    }

    fn tell(&self) {
        let watchers = self.0.try_with_value(|inner| inner.watchers.clone());
        watchers.into_iter().flatten().for_each(|watcher| watcher());
    }
}
