//! How a frame is dragged: as a whole, or by a corner. Plain data, without events.

use dappledome::photo::frame::{Corner, Frame, Size};

/// How near a corner a pointer takes hold of it, px; a finger needs more.
const REACH: f64 = 10.0;
const REACH_OF_FINGER: f64 = 18.0;

/// A frame that is held.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hold {
    /// The corner that is held; none if all of it is.
    corner: Option<Corner>,
    /// As it was.
    from: Frame,
    /// Where the pointer came down on the screen, px.
    start: (f64, f64),
    /// Pixels of the photo to one of the screen.
    scale: f64,
}

impl Hold {
    /// A pointer comes down on a frame, at a place on the screen that is these shares of its box from its upper left corner; `scale` is
    /// how many pixels of the photo go to one of the screen.
    pub fn new(from: Frame, (start, share): ((f64, f64), (f64, f64)), scale: f64, finger: bool) -> Self {
        let reach = if finger { REACH_OF_FINGER } else { REACH };
        let right = end(share.0, f64::from(from.wide) / scale, reach);
        let low = end(share.1, f64::from(from.high) / scale, reach);
        let corner = right.zip(low).map(|(right, low)| Corner { right, low });
        Self { corner, from, start, scale }
    }

    /// The frame once the pointer is here.
    pub fn to(&self, (x, y): (f64, f64), photo: Size) -> Frame {
        let by = |now: f64, start: f64| ((now - start) * self.scale).round() as i32;
        let by = (by(x, self.start.0), by(y, self.start.1));
        match self.corner {
            None => self.from.moved(by, photo),
            Some(corner) => self.from.stretched(corner, by, photo),
        }
    }
}

/// Whether a place along a side is near its far end, or its near one; none between. A third of the side always moves all of it.
fn end(share: f64, side: f64, reach: f64) -> Option<bool> {
    let reach = (reach / side.max(1.0)).min(1.0 / 3.0);
    (share < reach).then_some(false).or((share > 1.0 - reach).then_some(true))
}

/// What a key does to a frame: arrows move it by a pixel, with Shift by ten, with Control they size it; none for other keys.
pub fn after_key(key: &str, (shift, control): (bool, bool), frame: Frame, photo: Size) -> Option<Frame> {
    let step = if shift { 10 } else { 1 };
    let by = match key {
        "ArrowLeft" => (-step, 0),
        "ArrowRight" => (step, 0),
        "ArrowUp" => (0, -step),
        "ArrowDown" => (0, step),
        _ => return None,
    };
    let [.., lower_right] = Corner::ALL;
    Some(if control { frame.stretched(lower_right, by, photo) } else { frame.moved(by, photo) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::photo::frame::Shape;

    const PHOTO: Size = (400, 300);
    const FRAME: Frame = Frame { shape: Shape::Rectangle, left: 100, top: 100, wide: 80, high: 60 };

    /// The photo is shown at half its size, so the frame is 40 px by 30.
    fn hold(share: (f64, f64), finger: bool) -> Hold {
        Hold::new(FRAME, ((0.0, 0.0), share), 2.0, finger)
    }

    #[test]
    fn in_the_middle_it_is_moved_and_at_a_corner_sized() {
        assert_eq!(hold((0.5, 0.5), false).to((10.0, -5.0), PHOTO), Frame { left: 120, top: 90, ..FRAME });
        assert_eq!(hold((0.9, 0.9), false).to((10.0, 5.0), PHOTO), Frame { wide: 100, high: 70, ..FRAME });
        let upper_left = hold((0.1, 0.1), false).to((10.0, 5.0), PHOTO);
        assert_eq!(upper_left, Frame { left: 120, top: 110, wide: 60, high: 50, ..FRAME });
        assert_eq!(hold((0.5, 0.0), false).corner, None, "an edge moves it");
        assert_eq!((hold((0.3, 0.3), false).corner, hold((0.3, 0.3), true).corner.is_some()), (None, true));
        assert_eq!(hold((0.4, 0.4), true).corner, None, "its middle third is never a corner");
    }

    #[test]
    fn arrows_move_it_and_with_control_size_it() {
        let after = |key, held| after_key(key, held, FRAME, PHOTO);
        assert_eq!(after("ArrowRight", (false, false)), Some(Frame { left: 101, ..FRAME }));
        assert_eq!(after("ArrowUp", (true, false)), Some(Frame { top: 90, ..FRAME }));
        assert_eq!(after("ArrowLeft", (false, true)), Some(Frame { wide: 79, ..FRAME }));
        assert_eq!(after("ArrowDown", (true, true)), Some(Frame { high: 70, ..FRAME }));
        assert_eq!(after("Enter", (false, false)), None);
    }
}
