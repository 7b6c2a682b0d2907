//! Where places of the disc are on the flat picture, and back.

use crate::model::camera::Camera;
use dappledome::base::scalar::sin_cos;
use dappledome::base::units::fixed;
use dappledome::picture::flat::DISC_SHARE;

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
    /// The map of a disc, its radius in mm, as the camera sees it.
    pub fn new(camera: Camera, radius: f32) -> Self {
        let (sin, cos) = sin_cos(f64::from(camera.turn).to_radians());
        Self { radius, side: 2.0 * radius / (DISC_SHARE * camera.zoom), cos: cos as f32, sin: sin as f32 }
    }

    /// Where a place is seen.
    pub fn seen(&self, place: [f32; 2]) -> (f32, f32) {
        let [x, y] = self.way_seen(place);
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

#[cfg(test)]
mod tests {
    use super::*;

    const RADIUS: f32 = 80.0;

    fn map(turn: f32, zoom: f32) -> Map {
        Map::new(Camera { turn, zoom, ..Camera::STRAIGHT }, RADIUS)
    }

    fn near(a: [f32; 2], b: [f32; 2]) {
        assert!((a[0] - b[0]).abs() < 1e-3 && (a[1] - b[1]).abs() < 1e-3, "{a:?} is not {b:?}");
    }

    #[test]
    fn a_place_that_is_seen_is_found_again() {
        for (turn, zoom) in [(0.0, 1.0), (90.0, 1.0), (33.0, 0.5), (271.0, 6.0)] {
            let map = map(turn, zoom);
            for place in [[0.0, 0.0], [10.0, -25.0], [-79.0, 3.0]] {
                near(map.place(map.seen(place)), place);
                near(map.way(map.way_seen(place)), place);
            }
        }
    }

    #[test]
    fn straight_the_disc_fills_its_share_of_the_picture_with_up_at_the_top() {
        let (across, down) = map(0.0, 1.0).seen([0.0, RADIUS]);
        assert!((across - 0.5).abs() < 1e-6 && (down - (0.5 - DISC_SHARE / 2.0)).abs() < 1e-6);
    }

    #[test]
    fn a_turn_goes_counterclockwise_and_nearer_makes_ways_longer() {
        near(map(90.0, 1.0).way_seen([1.0, 0.0]), [0.0, 1.0]);
        let far = |zoom| map(0.0, zoom).seen([10.0, 0.0]).0 - 0.5;
        assert!((far(2.0) / far(1.0) - 2.0).abs() < 1e-3);
    }

    #[test]
    fn the_drawing_lies_where_places_are_seen() {
        let map = map(33.0, 2.0);
        let matrix = map.matrix();
        let numbers: Vec<f32> = matrix["matrix(".len()..matrix.len() - 1]
            .split(' ')
            .map(|number| number.parse().expect("a number"))
            .collect();
        let [x, y] = [20.0, -7.0];
        let drawn =
            [numbers[0] * x + numbers[2] * y + numbers[4], numbers[1] * x + numbers[3] * y + numbers[5]];
        let (across, down) = map.seen([x, y]);
        assert!((drawn[0] - 1000.0 * across).abs() < 0.01 && (drawn[1] - 1000.0 * down).abs() < 0.01);
    }
}
