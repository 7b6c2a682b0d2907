//! Taking core samples, and moving the ring by keys.

use crate::areas::viewer::arrows::arrow;
use crate::areas::viewer::map::Map;
use crate::model::ids::PanelId;
use crate::state::nav::Nav;
use crate::state::results::Results;
use crate::state::viewing::Viewing;
use crate::state::workpiece::Workpiece;
use dappledome::preview::Point;
use leptos::prelude::*;
use web_sys::KeyboardEvent;

/// The ring stays so far within the rim, mm.
const FROM_RIM: f32 = 0.1;

/// What taking a core sample changes.
#[derive(Clone, Copy)]
pub struct Sampling {
    piece: Workpiece,
    viewing: Viewing,
    nav: Nav,
    results: Results,
}

impl Sampling {
    /// Takes the contexts of the page.
    pub fn new() -> Self {
        Self {
            piece: expect_context(),
            viewing: expect_context(),
            nav: expect_context(),
            results: expect_context(),
        }
    }

    /// Takes a core sample at a point of the picture or the disc.
    pub fn at(&self, point: Point) {
        self.results.sample_point.set(point);
        if !self.is_here() {
            self.results.sample.set(None);
            self.nav.open_panel(PanelId::SAMPLE);
        }
    }

    /// Moves the ring to a point.
    pub fn move_to(&self, point: Point) {
        self.results.sample_point.set(point);
    }

    /// Where the ring is seen, as shares of the picture's side; none if there is none.
    pub fn ring_now(&self) -> Option<(f32, f32)> {
        let sample = self.results.sample;
        if self.is_here() {
            sample.with_untracked(|sample| sample.as_ref().map(|sample| sample.seen))
        } else {
            None
        }
    }

    /// Opens and closes the panel by Enter and moves the ring by arrows while it lies there; whether the key was one of those.
    pub fn key(&self, event: &KeyboardEvent) -> bool {
        if event.key() == "Enter" {
            self.toggle();
            return true;
        }
        let Some(way) = arrow(event, 1.0, 0.2) else { return false };
        if self.is_here() {
            self.shift(way);
        }
        self.is_here()
    }

    fn is_here(&self) -> bool {
        self.nav.has_panel_now(PanelId::SAMPLE)
    }

    fn toggle(&self) {
        if self.is_here() { self.nav.close_panel() } else { self.at(Point::Place(0.0, 0.0)) }
    }

    fn shift(&self, way: [f32; 2]) {
        let Point::Place(x, y) = self.results.sample_point.get_untracked() else { return };
        let radius = untrack(|| self.piece.made()).1.disc.radius();
        let [x, y] = shifted(&Map::new(self.viewing.camera.get_untracked(), radius), [x, y], way);
        self.move_to(Point::Place(x, y));
    }
}

/// A place moved by a way as it is seen, not beyond the rim.
fn shifted(map: &Map, [x, y]: [f32; 2], way: [f32; 2]) -> [f32; 2] {
    let [dx, dy] = map.way(way);
    let (x, y) = (x + dx, y + dy);
    let (far, most) = ((x * x + y * y).sqrt(), map.radius - FROM_RIM);
    if far > most { [x, y].map(|mm| mm * (most / far)) } else { [x, y] }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::camera::Camera;

    #[test]
    fn the_ring_goes_where_it_is_seen_to_and_stays_within_the_rim() {
        let map = Map::new(Camera { turn: 90.0, ..Camera::STRAIGHT }, 80.0);
        let [x, y] = shifted(&map, [5.0, 5.0], [0.0, 1.0]);
        assert!((x - 6.0).abs() < 1e-4 && (y - 5.0).abs() < 1e-4, "turned by a quarter, up is to the right");
        let [x, y] = shifted(&map, [79.5, 0.0], [0.0, 1.0]);
        assert!((x - 79.9).abs() < 1e-4 && y.abs() < 1e-4);
    }
}
