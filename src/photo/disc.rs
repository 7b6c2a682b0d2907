//! A round piece on a photo, cell by cell.

use super::frame::{Frame, Shape};
use super::light::Light;
use super::pixels::{Pixels, Sample};
use super::reading::corrected;
use crate::color::srgb::Linear;

/// What lies in a frame, in `n` rows of `n` cells from its upper left on, each as it would look beside a perfect white in even daylight; none
/// outside the ellipse in the frame. The white that told the light sends back this share of it.
pub fn cells(photo: &Pixels, frame: &Frame, (light, white): (&Light, f64), n: usize) -> Vec<Option<Linear>> {
    let frame = Frame { shape: Shape::Round, ..*frame };
    let cell = |at: usize| {
        let place = cell_of(&frame, (at % n, at / n), n);
        let samples = photo.samples(&place);
        let mean = mean(&samples)?;
        frame.holds(middle(&place)).then(|| corrected(&mean, light, white))
    };
    (0..n * n).map(cell).collect()
}

/// The cell in a column and row, one pixel wide and high at least.
fn cell_of(frame: &Frame, (column, row): (usize, usize), n: usize) -> Frame {
    let part = |start: i32, length: i32, at: usize| {
        let edge = |at: usize| start + (i64::from(length) * at as i64 / n as i64) as i32;
        (edge(at), (edge(at + 1) - edge(at)).max(1))
    };
    let ((left, wide), (top, high)) =
        (part(frame.left, frame.wide, column), part(frame.top, frame.high, row));
    Frame { shape: Shape::Rectangle, left, top, wide, high }
}

fn middle(place: &Frame) -> (i32, i32) {
    (place.left + place.wide / 2, place.top + place.high / 2)
}

fn mean(samples: &[Sample]) -> Option<Sample> {
    let (first, count) = (*samples.first()?, samples.len() as f32);
    let light = [0, 1, 2].map(|k| samples.iter().map(|sample| sample.light[k]).sum::<f32>() / count);
    Some(Sample { light, ..first })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::color::srgb::decode;

    /// By hand: of four by four cells over a disc the corners lie outside it; left of its middle it is red, right of it green.
    #[test]
    fn a_disc_is_read_cell_by_cell() {
        let (red, green) = ([200, 40, 30], [30, 160, 40]);
        let pixel = |at: usize| if at % 100 < 50 { red } else { green };
        let rgba: Vec<u8> = (0..100 * 100).flat_map(|at| [&pixel(at)[..], &[255]].concat()).collect();
        let photo = Pixels::new((100, 100), &rgba).expect("it has its bytes");
        let frame = Frame { shape: Shape::Round, left: 10, top: 10, wide: 80, high: 80 };
        let found = cells(&photo, &frame, (&Light::as_written(), 0.5), 4);
        for (at, cell) in found.iter().enumerate() {
            let (column, row) = (at % 4, at / 4);
            let corner = [0, 3].contains(&column) && [0, 3].contains(&row);
            let shows = decode(if column < 2 { red } else { green }).map(|light| 0.5 * light);
            let near = |cell: Linear| (0..3).all(|k| (cell[k] - shows[k]).abs() < 1e-4);
            assert!(if corner { cell.is_none() } else { cell.is_some_and(near) }, "{at}: {cell:?}");
        }
    }
}
