//! Where places of the disc are on the flat picture, and back.

use crate::state::Bench;
use dappledome::base::scalar::sin_cos;
use dappledome::base::units::fixed;
use dappledome::picture::flat::DISC_SHARE;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, PointerEvent};

/// The flat picture's map: shares of the picture's side from its top left corner, and mm on the disc.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Map {
    /// Radius of the disc, mm.
    pub radius: f32,
    /// A whole side of the picture, mm.
    pub side: f32,
    cos: f32,
    sin: f32,
}

impl Map {
    /// The map of the picture as the eye sees it.
    pub fn new(bench: Bench) -> Self {
        let eye = bench.eye.get();
        let radius = bench.board.with(|board| board.made.1.disc.radius());
        let (sin, cos) = sin_cos(f64::from(eye.turn).to_radians());
        Self { radius, side: 2.0 * radius / (DISC_SHARE * eye.zoom), cos: cos as f32, sin: sin as f32 }
    }

    /// The same, outside of what follows it.
    pub fn now(bench: Bench) -> Self {
        untrack(|| Self::new(bench))
    }

    /// Where a place is seen.
    pub fn seen(&self, [x, y]: [f32; 2]) -> (f32, f32) {
        let [x, y] = self.way_seen([x, y]);
        (0.5 + x / self.side, 0.5 - y / self.side)
    }

    /// The place, on the disc or beside it, that is seen there.
    pub fn place(&self, (across, down): (f32, f32)) -> [f32; 2] {
        self.way([(across - 0.5) * self.side, (0.5 - down) * self.side])
    }

    /// A way on the disc as it is seen, up being up.
    pub fn way_seen(&self, [x, y]: [f32; 2]) -> [f32; 2] {
        [self.cos * x - self.sin * y, self.sin * x + self.cos * y]
    }

    /// The way on the disc that is seen so.
    pub fn way(&self, [x, y]: [f32; 2]) -> [f32; 2] {
        [self.cos * x + self.sin * y, self.cos * y - self.sin * x]
    }

    /// From mm on the disc to thousandths of the picture, as a drawing wants it.
    pub fn matrix(&self) -> String {
        let (c, s) = (self.cos * 1000.0 / self.side, self.sin * 1000.0 / self.side);
        format!("matrix({} {} {} {} 500 500)", fixed(c, 4), fixed(-s, 4), fixed(-s, 4), fixed(-c, 4))
    }
}

/// A share of the picture as a length of the style.
pub fn percent(share: f32) -> String {
    format!("{}%", fixed(share * 100.0, 3))
}

/// Where in the picture a pointer is.
pub fn pointer(event: &PointerEvent) -> Option<(f32, f32)> {
    let bounds = event.current_target()?.dyn_into::<Element>().ok()?.get_bounding_client_rect();
    let share = |px: i32, from: f64, size: f64| ((f64::from(px) - from) / size.max(1.0)) as f32;
    Some((
        share(event.client_x(), bounds.left(), bounds.width()),
        share(event.client_y(), bounds.top(), bounds.height()),
    ))
}
