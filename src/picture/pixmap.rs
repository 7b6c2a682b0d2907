//! A finished picture: rows of 8-bit sRGB pixels.

use crate::base::lanes::{Four, LANES, counted};
use crate::base::rows::each_row;
use crate::color::srgb::{Linear, encode_four};

/// A picture, rows from the top, four bytes a pixel: red, green, blue (sRGB) and 255.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pixmap {
    /// Width, pixels.
    pub width: u32,
    /// Height, pixels.
    pub height: u32,
    /// `width * height * 4` bytes.
    pub rgba: Vec<u8>,
}

impl Pixmap {
    /// A picture of one color.
    pub fn filled(width: u32, height: u32, color: [u8; 3]) -> Self {
        let [r, g, b] = color;
        Self { width, height, rgba: [r, g, b, 255].repeat(width as usize * height as usize) }
    }

    /// The color of a pixel.
    pub fn pixel(&self, x: u32, y: u32) -> [u8; 3] {
        let at = (y as usize * self.width as usize + x as usize) * 4;
        [self.rgba[at], self.rgba[at + 1], self.rgba[at + 2]]
    }

    /// Paints four pixels of a row at a time: `f(x, y)`, columns and row, or none where what is there stays.
    pub fn paint(&mut self, f: impl Fn(Four, Four) -> Option<Linear<Four>> + Sync) {
        each_row(&mut self.rgba, 4 * self.width as usize, |y, row| {
            let y = Four::splat(y as f32);
            for (x, pixels) in (0..).step_by(LANES).zip(row.chunks_mut(4 * LANES)) {
                if let Some(color) = f(counted(x as f32), y) {
                    let codes = encode_four(color);
                    pixels.copy_from_slice(&codes.as_flattened()[..pixels.len()]);
                }
            }
        });
    }

    /// Gives a pixel its four bytes.
    #[inline]
    pub fn put(&mut self, at: (u16, u16), rgba: [u8; 4]) {
        let i = (usize::from(at.1) * self.width as usize + usize::from(at.0)) * 4;
        self.rgba[i..i + 4].copy_from_slice(&rgba);
    }

    /// Copies a smaller picture in, its top left corner at (x, y); what does not fit is left out.
    pub fn place(&mut self, other: &Self, x: u32, y: u32) {
        let columns = other.width.min(self.width.saturating_sub(x)) as usize * 4;
        for row in 0..other.height.min(self.height.saturating_sub(y)) {
            let from = row as usize * other.width as usize * 4;
            let to = ((y + row) as usize * self.width as usize + x as usize) * 4;
            self.rgba[to..to + columns].copy_from_slice(&other.rgba[from..from + columns]);
        }
    }

    /// A 64-bit FNV-1a hash of size and pixels: two pictures with the same hash are the same picture for the
    /// purposes of the golden tests.
    pub fn hash(&self) -> u64 {
        let sizes = self.width.to_le_bytes().into_iter().chain(self.height.to_le_bytes());
        sizes.chain(self.rgba.iter().copied()).fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
            (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
        })
    }
}
