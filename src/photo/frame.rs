//! A place marked on a photo, in whole pixels of the photo.

/// The shape of a frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// All of its box.
    Rectangle,
    /// The ellipse that fills its box.
    Round,
}

/// A marked place: its box, from its upper left pixel on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Frame {
    /// What of the box it is.
    pub shape: Shape,
    /// Pixels to the left of it.
    pub left: i32,
    /// Pixels above it.
    pub top: i32,
    /// Its width, pixels.
    pub wide: i32,
    /// Its height, pixels.
    pub high: i32,
}

/// Width and height of a photo, pixels.
pub type Size = (i32, i32);

/// A corner of a frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Corner {
    /// Whether it is one of the right two.
    pub right: bool,
    /// Whether it is one of the lower two.
    pub low: bool,
}

impl Corner {
    /// Upper left, upper right, lower left, lower right.
    pub const ALL: [Self; 4] = [
        Self { right: false, low: false },
        Self { right: true, low: false },
        Self { right: false, low: true },
        Self { right: true, low: true },
    ];
}

/// The shortest side that a frame is drawn to, pixels, unless the photo is smaller.
const LEAST: i32 = 8;

impl Frame {
    /// A frame whose middle, width and height are these shares of the photo.
    pub fn at(shape: Shape, (x, y): (f64, f64), (wide, high): (f64, f64), photo: Size) -> Self {
        let across = |share: f64, side: i32| (share * f64::from(side)).round() as i32;
        let (wide, high) = (across(wide, photo.0), across(high, photo.1));
        let (left, top) = (across(x, photo.0) - wide / 2, across(y, photo.1) - high / 2);
        Self { shape, left, top, wide, high }.kept_on(photo)
    }

    /// The same moved by so many pixels, as far as the photo goes.
    pub fn moved(self, (right, down): (i32, i32), photo: Size) -> Self {
        let (left, top) = (self.left.saturating_add(right), self.top.saturating_add(down));
        Self { left, top, ..self }.kept_on(photo)
    }

    /// The same with a corner dragged by so many pixels; the opposite corner stays.
    pub fn stretched(self, corner: Corner, (right, down): (i32, i32), photo: Size) -> Self {
        let (left, wide) = dragged((self.left, self.wide), corner.right, right, photo.0);
        let (top, high) = dragged((self.top, self.high), corner.low, down, photo.1);
        Self { left, top, wide, high, ..self }
    }

    /// The same on a photo of this size: no larger than it, and not beside it.
    pub fn kept_on(self, photo: Size) -> Self {
        let side = |length: i32, most: i32| length.max(LEAST).min(most.max(1));
        let (wide, high) = (side(self.wide, photo.0), side(self.high, photo.1));
        let place = |start: i32, length: i32, most: i32| start.min(most - length).max(0);
        Self {
            left: place(self.left, wide, photo.0),
            top: place(self.top, high, photo.1),
            wide,
            high,
            ..self
        }
    }

    /// Its middle, pixels from the photo's upper left corner.
    pub fn middle(&self) -> (f64, f64) {
        (f64::from(self.left) + 0.5 * f64::from(self.wide), f64::from(self.top) + 0.5 * f64::from(self.high))
    }

    /// Its four corners, pixels from the photo's upper left corner.
    pub fn corners(&self) -> [(f64, f64); 4] {
        Corner::ALL.map(|corner| {
            let end =
                |start: i32, length: i32, far: bool| f64::from(if far { start + length } else { start });
            (end(self.left, self.wide, corner.right), end(self.top, self.high, corner.low))
        })
    }

    /// Whether the pixel in this column and row lies in it.
    pub fn holds(&self, (column, row): (i32, i32)) -> bool {
        let off = |at: i32, start: i32, length: i32| {
            let half = 0.5 * f64::from(length);
            (f64::from(at - start) + 0.5 - half) / half
        };
        let (x, y) = (off(column, self.left, self.wide), off(row, self.top, self.high));
        match self.shape {
            Shape::Rectangle => x.abs() < 1.0 && y.abs() < 1.0,
            Shape::Round => x * x + y * y < 1.0,
        }
    }
}

/// Start and length of a side of which one end is dragged.
fn dragged((start, length): (i32, i32), end: bool, by: i32, most: i32) -> (i32, i32) {
    let (least, stop) = (LEAST.min(most), start + length);
    if end {
        let stop = stop.saturating_add(by).min(most).max(start + least);
        (start, stop - start)
    } else {
        let start = start.saturating_add(by).max(0).min(stop - least);
        (start, stop - start)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const PHOTO: Size = (100, 60);

    fn frame(left: i32, top: i32, wide: i32, high: i32) -> Frame {
        Frame { shape: Shape::Rectangle, left, top, wide, high }
    }

    #[test]
    fn a_frame_stays_on_its_photo() {
        let one = frame(70, 10, 20, 10);
        assert_eq!(one.moved((5, -3), PHOTO), frame(75, 7, 20, 10));
        assert_eq!(one.moved((500, i32::MAX), PHOTO), frame(80, 50, 20, 10));
        assert_eq!(one.moved((-500, i32::MIN), PHOTO), frame(0, 0, 20, 10));
        assert_eq!(frame(-4, 9, 400, 2).kept_on(PHOTO), frame(0, 9, 100, 8), "nor is it wider, or a line");
        assert_eq!(frame(3, 3, 20, 20).kept_on((1, 1)), frame(0, 0, 1, 1));
        assert_eq!(Frame::at(Shape::Rectangle, (0.5, 0.25), (0.2, 0.5), PHOTO), frame(40, 0, 20, 30));
    }

    #[test]
    fn a_corner_is_dragged_and_the_opposite_one_stays() {
        let one = frame(40, 20, 20, 10);
        let [upper_left, upper_right, _, lower_right] = Corner::ALL;
        assert_eq!(one.stretched(lower_right, (5, 7), PHOTO), frame(40, 20, 25, 17));
        assert_eq!(one.stretched(upper_left, (5, -7), PHOTO), frame(45, 13, 15, 17));
        assert_eq!(
            one.stretched(upper_right, (i32::MAX, 900), PHOTO),
            frame(40, 22, 60, 8),
            "no smaller than 8"
        );
        assert_eq!(frame(0, 0, 1, 1).stretched(lower_right, (9, 9), (1, 1)), frame(0, 0, 1, 1));
    }

    /// By hand: of a box of 20 by 20 a circle is pi/4.
    #[test]
    fn a_round_frame_is_the_ellipse_in_its_box() {
        let count = |one: Frame| {
            let all = (0..60).flat_map(|row| (0..100).map(move |column| (column, row)));
            all.filter(|pixel| one.holds(*pixel)).count()
        };
        let one = frame(40, 20, 20, 20);
        assert_eq!(count(one), 400);
        let round = count(Frame { shape: Shape::Round, ..one }) as f64;
        assert!((round / 400.0 - std::f64::consts::FRAC_PI_4).abs() < 0.01, "{round}");
    }
}
