//! The studio: a large soft light at the left, a window at the right, a pale room and a gray table.
//! All of it is neutral, so that every color in a picture is the glass's own. Where the lights stand and how strong they are was
//! chosen by eye; what they do to glass is computed.
//!
//! Everything is in the picture's own linear light: full light on a level perfect white shows as [`WHITE`], in what a skin
//! mirrors as in what a body sends back.

use super::vec3::Vec3;
use crate::base::lanes::Number;
use crate::base::scalar::{sin_cos, smoothstep};
use crate::color::srgb::decode;
pub use crate::optics::colors::{TABLE, WHITE};
use crate::optics::surface;
use std::sync::OnceLock;

/// The table by day, sRGB: the page's own gray, so that the picture runs on under everything. It is [`TABLE`] in full light.
pub const TABLE_DAY: [u8; 3] = [0x96; 3];
/// The table in the dusk, when a piece is lit from within (by eye).
pub const TABLE_DUSK: [u8; 3] = [0x2b; 3];
/// What daylight is left in the dusk, as a share of full light: as much as shows the table as the dusk has it (0x2b, where full
/// light shows 0x96).
pub const DUSK: f32 = 0.0792;
/// Radiance of the room at the horizon, and how much more of it there is at the zenith (by eye).
const ROOM: (f32, f32) = (0.16, 0.42);

/// The lights as frames of directions, and the light of all of them on glass.
#[derive(Debug)]
pub struct Studio {
    key: Frame,
    card: Frame,
    window: Frame,
    /// What each frame gives to a perfect white glass, by the cosine between its normal and the frame's middle.
    key_light: Lights,
    window_light: Lights,
    /// From the lights' own radiance to the picture's linear light.
    exposure: f32,
    table: f32,
    key_share: f32,
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
    fn seen<N: Number>(&self, d: Vec3<N>) -> N {
        let (depth, nearest) = (d.dot(self.toward), 0.05);
        if !depth.any_above(nearest) {
            return N::of(0.0);
        }
        let (a, b) = (d.dot(self.right).size() / depth, d.dot(self.up).size() / depth);
        let inside = |x: N, half: f32| smoothstep(half + self.soft, half - self.soft, x);
        let seen = inside(a, self.half_width) * inside(b, self.half_height) * self.strength;
        depth.above(N::of(nearest), seen, N::of(0.0))
    }

    /// Directions over the frame, soft edge included, with the light each stands for: radiance times solid angle over pi.
    fn samples(&self, n: usize) -> Vec<(Vec3, f32)> {
        let place = |i: usize, half: f32| ((i as f32 + 0.5) / n as f32 * 2.0 - 1.0) * (half + self.soft);
        let area = 4.0 * (self.half_width + self.soft) * (self.half_height + self.soft) / (n * n) as f32;
        let mut samples = Vec::with_capacity(n * n);
        for j in 0..n {
            for i in 0..n {
                let (a, b) = (place(i, self.half_width), place(j, self.half_height));
                let d = self.toward + self.right * a + self.up * b;
                let l2 = d.dot(d);
                let solid_angle = area / (l2 * l2.sqrt());
                samples.push((d.unit(), self.seen(d) * solid_angle / std::f32::consts::PI));
            }
        }
        samples
    }
}

/// Entries of a table of light by the cosine, from -1 to 1.
const COSINES: usize = 64;

/// Light of one frame on glass, by the cosine between the glass's normal and the middle of the frame.
#[derive(Debug)]
struct Lights([f32; COSINES + 1]);

impl Lights {
    /// Sums a frame's light over its directions, on normals all around its middle. Light that comes in at a slant loses
    /// what the face mirrors.
    fn new(frame: &Frame) -> Self {
        const AROUND: u32 = 8;
        let samples = frame.samples(12);
        let at = |cosine: f64| {
            let sine = (1.0 - cosine * cosine).max(0.0).sqrt();
            let mut sum = 0.0;
            for turn in 0..AROUND {
                let (s, c) = sin_cos(f64::from(turn) * std::f64::consts::TAU / f64::from(AROUND));
                let normal = frame.toward * cosine as f32
                    + frame.right * (sine * c) as f32
                    + frame.up * (sine * s) as f32;
                sum += samples.iter().map(|(d, light)| light * entering(d.dot(normal))).sum::<f32>();
            }
            sum / AROUND as f32
        };
        Self(std::array::from_fn(|i| at(2.0 * i as f64 / COSINES as f64 - 1.0)))
    }

    #[inline]
    fn at<N: Number>(&self, cosine: N) -> N {
        N::along(&self.0, ((cosine + 1.0) * (0.5 * COSINES as f32)).point_among(COSINES + 1))
    }
}

/// The cosine law with what a face of glass lets in, 1 for light along the normal.
fn entering(cosine: f32) -> f32 {
    if cosine <= 0.0 { 0.0 } else { cosine * (1.0 - fresnel(cosine)) / (1.0 - R0) }
}

impl Studio {
    /// The one studio.
    pub fn get() -> &'static Self {
        static STUDIO: OnceLock<Studio> = OnceLock::new();
        STUDIO.get_or_init(|| {
            let key = Frame::new(Vec3::new(-0.52, 0.14, 0.84), 0.30, 0.21, 0.05, 7.0);
            let card = Frame::new(Vec3::new(-0.10, 0.10, 1.0), 0.075, 0.06, 0.02, 0.7);
            let window = Frame::new(Vec3::new(0.85, 0.15, 0.45), 0.10, 0.55, 0.04, 1.8);
            let [key_light, window_light] = [&key, &window].map(Lights::new);
            let mut studio = Self {
                key,
                card,
                window,
                key_light,
                window_light,
                exposure: 1.0,
                table: decode(TABLE_DAY)[0],
                key_share: 0.0,
            };
            let up = Vec3::new(0.0, 0.0, 1.0);
            studio.exposure = WHITE / studio.matte(up, 1.0);
            studio.key_share = studio.exposure * studio.key_light.at(studio.key.toward.z) / WHITE;
            studio
        })
    }

    /// Directions that sample the soft light evenly, `n` by `n`.
    pub fn key_samples(&self, n: usize) -> Vec<Vec3> {
        self.key.samples(n).into_iter().map(|(d, _)| d).collect()
    }

    /// Share of the soft light in the light on the table.
    #[inline]
    pub fn key_share(&self) -> f32 {
        self.key_share
    }

    /// What a mirror would show in a direction: the table in full light below the horizon.
    #[inline]
    pub fn mirrored<N: Number>(&self, d: Vec3<N>) -> N {
        let room = d.z * ROOM.1 + ROOM.0;
        let above = (room + self.key.seen(d) + self.window.seen(d)) * self.exposure;
        N::of(0.0).above(d.z, N::of(self.table), above)
    }

    /// [`Self::mirrored`] for a disc lying flat: overhead is the dark of the eye that looks down on it, and beside that a pale card
    /// that lets one see its skin (both by eye).
    #[inline]
    pub fn overhead<N: Number>(&self, d: Vec3<N>) -> N {
        let dark = smoothstep(0.86, 0.97, d.z) * -0.6 + 1.0;
        self.mirrored(d) * dark + self.card.seen(d) * self.exposure
    }

    /// What a perfect white glass with unit normal `n` shows: [`WHITE`] if it lies level. `standing` is the share of its
    /// light that the table near it has.
    #[inline]
    pub fn matte<N: Number>(&self, n: Vec3<N>, standing: N) -> N {
        let lights =
            self.key_light.at(n.dot(self.key.toward)) + self.window_light.at(n.dot(self.window.toward));
        // The hemisphere of the room, and its part that grows with height: (2/3)(sin a + (pi - a) cos a)/pi, where a is the
        // angle of the normal to the zenith, by a parabola within 0.008. What a face mirrors of it is 5.5 %.
        let even = n.z * 0.5 + 0.5;
        let rising = n.z * (n.z * 0.122 + 0.333) + 0.212;
        let room = even * ROOM.0 + rising * ROOM.1;
        (lights + room * DIFFUSE_IN) * self.exposure + self.from_below(n, standing) * self.table
    }

    /// What of it comes from below, next to what lies there: the same for every color.
    #[inline]
    pub fn from_below<N: Number>(&self, n: Vec3<N>, standing: N) -> N {
        standing * (n.z * -0.5 + 0.5) * DIFFUSE_IN
    }
}

/// What a face of glass lets in of light from all around, relative to light along its normal.
const DIFFUSE_IN: f32 = ((1.0 - surface::DIFFUSE_OUTSIDE) / (1.0 - surface::NORMAL)) as f32;

/// Fresnel reflectance of glass for unpolarized light at a cosine of incidence (0 to 1).
#[inline]
pub fn fresnel<T: Number>(cosine: T) -> T {
    let inside = refracted(cosine);
    let across = (cosine - inside * N) / (cosine + inside * N);
    let along = (cosine * N - inside) / (cosine * N + inside);
    (across * across + along * along) * 0.5
}

pub(super) const N: f32 = surface::INDEX as f32;

/// Reflectance of glass at normal incidence.
pub const R0: f32 = surface::NORMAL as f32;

/// Cosine of the refracted ray inside the glass.
#[inline]
pub fn refracted<T: Number>(cosine: T) -> T {
    ((cosine * cosine - 1.0) * (1.0 / (N * N)) + 1.0).at_least(T::of(0.0)).root()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_dusk_is_one_light_with_the_tables_own_gray() {
        let share = decode(TABLE_DUSK)[0] / decode(TABLE_DAY)[0];
        assert!((DUSK - share).abs() < 1e-4, "{DUSK}, not {share}");
    }
}
