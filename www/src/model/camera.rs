//! Where the camera stands.

use dappledome::picture::View;

/// Where the camera stands, seen from the piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Camera {
    /// Turn of the piece, degrees.
    pub turn: f32,
    /// Height of the camera, degrees.
    pub tilt: f32,
    /// How near.
    pub zoom: f32,
}

/// The nearest and the farthest that the camera comes.
const ZOOM: (f32, f32) = (0.5, 6.0);

impl Camera {
    /// The piece as it stands when nobody has turned it.
    pub const STRAIGHT: Self = Self { turn: 0.0, tilt: View::USUAL_TILT, zoom: 1.0 };

    /// The camera after a turn and a tilt by so many degrees.
    pub fn turned(self, turn: f32, tilt: f32) -> Self {
        let tilt = (self.tilt + tilt).clamp(View::LEAST_TILT, View::MOST_TILT);
        Self { turn: (self.turn + turn).rem_euclid(360.0), tilt, ..self }
    }

    /// The camera after coming nearer by a factor.
    pub fn nearer(self, factor: f32) -> Self {
        Self { zoom: (self.zoom * factor).clamp(ZOOM.0, ZOOM.1), ..self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_camera_goes_round_but_neither_under_the_table_nor_through_the_glass() {
        let camera = Camera::STRAIGHT.turned(-10.0, 1e3).nearer(100.0);
        assert_eq!((camera.turn, camera.tilt, camera.zoom), (350.0, View::MOST_TILT, ZOOM.1));
        let camera = camera.turned(370.0, -1e3).nearer(1e-6);
        assert_eq!((camera.turn, camera.tilt, camera.zoom), (0.0, View::LEAST_TILT, ZOOM.0));
    }
}
