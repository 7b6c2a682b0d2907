//! The pixels of a photo, looked at through a frame.

use super::frame::{Frame, Size};
use crate::base::scalar::Bounds;
use crate::color::srgb::{Linear, decode_channel};
use std::sync::OnceLock;

/// Most pixels that are looked at in a frame: noise of six codes leaves a tenth of a code of doubt about their mean.
const MOST: i64 = 4096;
/// A code from which on a channel may have been brighter than the camera could tell.
const CLIPPED: u8 = 254;

/// A photo as the browser decodes it, upright and in sRGB: rows of red, green, blue and alpha.
#[derive(Clone, Copy, Debug)]
pub struct Pixels<'a> {
    size: Size,
    rgba: &'a [u8],
}

/// A pixel that was looked at.
#[derive(Clone, Copy, Debug)]
pub struct Sample {
    /// Where its middle lies, pixels from the photo's upper left corner.
    pub at: (f64, f64),
    /// Its light.
    pub light: Linear,
    /// Whether a channel is as bright as it goes.
    pub clipped: bool,
}

impl<'a> Pixels<'a> {
    /// A photo so many pixels wide and high; none if it has not one pixel, or not as many bytes as that takes.
    pub fn new((wide, high): Size, rgba: &'a [u8]) -> Option<Self> {
        let bytes = 4 * i128::from(wide) * i128::from(high);
        (wide > 0 && high > 0 && rgba.len() as i128 == bytes).then_some(Self { size: (wide, high), rgba })
    }

    /// Width and height.
    pub fn size(&self) -> Size {
        self.size
    }

    /// What lies in a frame: all of it if it is small, else evenly spread rows and columns.
    pub fn samples(&self, frame: &Frame) -> Vec<Sample> {
        let frame = frame.kept_on(self.size);
        let area = i64::from(frame.wide) * i64::from(frame.high);
        let step = (1..).find(|step: &i64| area / (step * step) <= MOST).unwrap_or(1) as usize;
        let along = |start: i32, length: i32| (start + step as i32 / 2..start + length).step_by(step);
        let all = along(frame.top, frame.high)
            .flat_map(|row| along(frame.left, frame.wide).map(move |column| (column, row)));
        all.filter(|pixel| frame.holds(*pixel)).map(|pixel| self.sample(pixel)).collect()
    }

    /// The pixel in a column and row of the photo.
    fn sample(&self, (column, row): (i32, i32)) -> Sample {
        let at = 4 * (row as usize * self.size.0 as usize + column as usize);
        let codes = [0, 1, 2].map(|channel| self.rgba[at + channel]);
        Sample {
            at: (f64::from(column) + 0.5, f64::from(row) + 0.5),
            light: codes.map(|code| table()[usize::from(code)]),
            clipped: codes.iter().any(|code| *code >= CLIPPED),
        }
    }
}

/// Linear light of every code.
fn table() -> &'static [f32; 256] {
    static TABLE: OnceLock<[f32; 256]> = OnceLock::new();
    TABLE.get_or_init(|| std::array::from_fn(|code| decode_channel(code as f64 / 255.0) as f32))
}

/// The share of samples that are clipped.
pub fn clipped(samples: &[Sample]) -> f32 {
    let count = samples.iter().filter(|sample| sample.clipped).count();
    count as f32 / (samples.len() as f32).at_least(1.0)
}

#[cfg(test)]
mod tests {
    use super::super::frame::Shape;
    use super::*;

    #[test]
    fn a_photo_has_as_many_bytes_as_it_says() {
        assert!(Pixels::new((2, 1), &[0; 8]).is_some());
        for (size, bytes) in [((2, 1), 7), ((0, 4), 0), ((-2, -1), 8), ((i32::MAX, i32::MAX), 4)] {
            assert!(Pixels::new(size, &vec![0; bytes]).is_none(), "{size:?}");
        }
    }

    /// By hand: 300 by 200 at every fourth pixel is 75 by 50.
    #[test]
    fn a_large_frame_is_looked_at_evenly_and_a_small_one_wholly() {
        let rgba: Vec<u8> = (0..300 * 200).flat_map(|at| [(at % 300 / 2) as u8, 255, 0, 255]).collect();
        let photo = Pixels::new((300, 200), &rgba).expect("it has its bytes");
        let frame = |left, wide, high| Frame { shape: Shape::Rectangle, left, top: 0, wide, high };
        let all = photo.samples(&frame(0, 300, 200));
        assert_eq!((all.len(), all[0].at, all[1].at), (75 * 50, (2.5, 2.5), (6.5, 2.5)));
        let small = photo.samples(&frame(100, 10, 9));
        assert_eq!(small.len(), 90);
        assert!((f64::from(small[0].light[0]) - decode_channel(50.0 / 255.0)).abs() < 1e-7);
        assert_eq!(clipped(&small), 1.0, "green is as bright as it goes");
    }
}
