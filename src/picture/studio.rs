//! The studio: a large soft light at the left, a window at the right, a pale room and a gray table. All of it is
//! neutral, so that every color in a picture is the glass's own.

use super::vec3::Vec3;
use crate::base::scalar::{Bounds, smoothstep};
use crate::color::srgb::Linear;
pub use crate::optics::colors::{TABLE, WHITE};
use std::sync::OnceLock;

/// The table by day, sRGB: the page's own gray, so that the picture runs on under everything.
pub const TABLE_DAY: [u8; 3] = [0x96; 3];
/// The table in the dusk, when a piece is lit from within.
pub const TABLE_DUSK: [u8; 3] = [0x2b; 3];
/// The soft light and the window, as frames of directions.
#[derive(Debug)]
pub struct Studio {
    key: Frame,
    window: Frame,
    fill: Vec3,
}

#[derive(Debug)]
struct Frame {
    toward: Vec3,
    right: Vec3,
    up: Vec3,
    half_width: f32,
    half_height: f32,
    soft: f32,
    strength: f32,
}

impl Frame {
    fn new(toward: Vec3, half_width: f32, half_height: f32, soft: f32, strength: f32) -> Self {
        let toward = toward.unit();
        let right = Vec3::new(0.0, 0.0, 1.0).cross(toward).unit();
        Self { toward, right, up: toward.cross(right), half_width, half_height, soft, strength }
    }

    /// How brightly the frame is seen in a direction.
    #[inline]
    fn seen(&self, d: Vec3) -> f32 {
        let depth = d.dot(self.toward);
        if depth <= 0.05 {
            return 0.0;
        }
        let (a, b) = (d.dot(self.right).abs() / depth, d.dot(self.up).abs() / depth);
        if a >= self.half_width + self.soft || b >= self.half_height + self.soft {
            return 0.0;
        }
        let inside = |x: f32, half: f32| smoothstep(half + self.soft, half - self.soft, x);
        self.strength * inside(a, self.half_width) * inside(b, self.half_height)
    }
}

impl Studio {
    /// The one studio.
    pub fn get() -> &'static Self {
        static STUDIO: OnceLock<Studio> = OnceLock::new();
        STUDIO.get_or_init(|| Self {
            key: Frame::new(Vec3::new(-0.52, 0.14, 0.84), 0.30, 0.21, 0.05, 7.0),
            window: Frame::new(Vec3::new(0.85, 0.15, 0.45), 0.10, 0.55, 0.04, 1.8),
            fill: Vec3::new(0.85, 0.15, 0.45).unit(),
        })
    }

    /// Direction of the soft light.
    pub fn key(&self) -> Vec3 {
        self.key.toward
    }

    /// Directions that sample the soft light evenly, `n` by `n`.
    pub fn key_samples(&self, n: usize) -> Vec<Vec3> {
        let place = |i: usize| (i as f32 + 0.5) / n as f32 * 2.0 - 1.0;
        let mut samples = Vec::with_capacity(n * n);
        for j in 0..n {
            for i in 0..n {
                let (a, b) = (place(i) * self.key.half_width, place(j) * self.key.half_height);
                samples.push((self.key.toward + self.key.right * a + self.key.up * b).unit());
            }
        }
        samples
    }

    /// What a mirror would show in a direction.
    #[inline]
    pub fn mirrored(&self, d: Vec3) -> f32 {
        if d.z < 0.0 {
            return TABLE;
        }
        0.16 + 0.42 * d.z + self.key.seen(d) + self.window.seen(d)
    }

    /// Light on a matte surface with unit normal `n`, at most about 1.
    #[inline]
    pub fn on_matte(&self, n: Vec3) -> f32 {
        let key = ((n.dot(self.key.toward) + 0.18) / 1.18).at_least(0.0);
        let hemisphere = 0.5 + 0.5 * n.z;
        // About key^1.15, without the power.
        0.30 * hemisphere + 0.56 * key * (0.8 + 0.2 * key) + 0.14 * n.dot(self.fill).at_least(0.0)
    }
}

/// Fresnel reflectance of glass at a cosine of incidence (Schlick's form, within 0.01 below 80°).
#[inline]
pub fn fresnel(cosine: f32) -> f32 {
    let m = (1.0 - cosine).clamp(0.0, 1.0);
    let m2 = m * m;
    R0 + (1.0 - R0) * m2 * m2 * m
}

/// Reflectance of glass at normal incidence.
pub const R0: f32 = crate::optics::surface::NORMAL as f32;

/// Cosine of the refracted ray inside the glass.
#[inline]
pub fn refracted(cosine: f32) -> f32 {
    const N: f32 = crate::optics::surface::INDEX as f32;
    (1.0 - (1.0 - cosine * cosine) / (N * N)).at_least(0.0).sqrt()
}

/// Rolls highlights off so that they end at white instead of clipping.
#[inline]
pub fn roll_off(color: Linear) -> Linear {
    const FROM: f32 = 0.80;
    color.map(|c| {
        if c <= FROM {
            c
        } else {
            let over = (c - FROM) / (1.0 - FROM);
            FROM + (1.0 - FROM) * over / (1.0 + over)
        }
    })
}
