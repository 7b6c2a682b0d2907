//! How a layout lies on the disc: mirrored, turned and moved. All lengths in mm.

use super::model::Layout;
use crate::base::lanes::Number;
use crate::base::scalar::sin_cos;

/// The way from a place on the disc to the place in the layout that lies there, and back.
#[derive(Clone, Copy, Debug)]
pub struct Lie {
    cos: f32,
    sin: f32,
    mirror: f32,
    right: f32,
    up: f32,
}

impl Lie {
    /// How this layout lies.
    pub fn new(layout: &Layout) -> Self {
        let (sin, cos) = sin_cos(layout.turned.0.to_radians());
        Self {
            cos: cos as f32,
            sin: sin as f32,
            mirror: if layout.mirrored { -1.0 } else { 1.0 },
            right: layout.moved_right.f32(),
            up: layout.moved_up.f32(),
        }
    }

    /// From a place on the disc to the place in the layout that lies there.
    #[inline]
    pub fn to_layout<T: Number>(&self, x: T, y: T) -> (T, T) {
        self.way_to_layout(x - self.right, y - self.up)
    }

    /// From a way on the disc (how far a finger went) to the same way in the layout.
    #[inline]
    pub fn way_to_layout<T: Number>(&self, x: T, y: T) -> (T, T) {
        ((x * self.cos + y * self.sin) * self.mirror, y * self.cos - x * self.sin)
    }

    /// From a place in the layout to where it lies on the disc.
    pub fn to_disc(&self, u: f32, v: f32) -> (f32, f32) {
        let (x, y) = self.way_to_disc(u, v);
        (x + self.right, y + self.up)
    }

    /// From a way in the layout to the same way on the disc.
    pub fn way_to_disc(&self, u: f32, v: f32) -> (f32, f32) {
        let u = self.mirror * u;
        (self.cos * u - self.sin * v, self.sin * u + self.cos * v)
    }

    /// How far the layout's middle lies from the disc's.
    pub fn moved(&self) -> f32 {
        (self.right * self.right + self.up * self.up).sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::units::{Degrees, Mm};

    #[test]
    fn there_and_back_is_the_same_place() {
        for mirrored in [false, true] {
            let layout = Layout {
                mirrored,
                turned: Degrees(37.0),
                moved_right: Mm(12.0),
                moved_up: Mm(-7.0),
                ..Layout::default()
            };
            let lie = Lie::new(&layout);
            let (u, v) = lie.to_layout(31.0, -44.0);
            let (x, y) = lie.to_disc(u, v);
            assert!((x - 31.0).abs() < 1e-4 && (y + 44.0).abs() < 1e-4, "{x}, {y}");
            let (a, b) = lie.way_to_layout(3.0, 4.0);
            let (u2, v2) = lie.to_layout(34.0, -40.0);
            assert!((u2 - u - a).abs() < 1e-4 && (v2 - v - b).abs() < 1e-4);
        }
    }

    /// By hand: (3, 1) mirrored is (-3, 1); a quarter of a turn counterclockwise takes (x, y) to (-y, x), so (-1, -3); moved 10 to the
    /// right and 5 up it lies at (9, 2).
    #[test]
    fn a_layout_is_mirrored_then_turned_then_moved() {
        let layout = Layout {
            mirrored: true,
            turned: Degrees(90.0),
            moved_right: Mm(10.0),
            moved_up: Mm(5.0),
            ..Layout::default()
        };
        let near = |got: (f32, f32), want: (f32, f32)| {
            assert!((got.0 - want.0).abs() < 1e-5 && (got.1 - want.1).abs() < 1e-5, "{got:?}, not {want:?}");
        };
        let lie = Lie::new(&layout);
        near(lie.to_disc(3.0, 1.0), (9.0, 2.0));
        near(lie.way_to_disc(3.0, 1.0), (-1.0, -3.0));
        near(lie.to_layout(9.0, 2.0), (3.0, 1.0));
        near(lie.way_to_layout(-1.0, -3.0), (3.0, 1.0));
        assert!((lie.moved() - 125f32.sqrt()).abs() < 1e-5);
        near(
            Lie::new(&Layout { turned: Degrees(-30.0), ..Layout::default() }).to_disc(2.0, 0.0),
            (3f32.sqrt(), -1.0),
        );
    }
}
