//! The lamp inside a piece that is lit from within: a frosted cap over a bulb, standing on a white plate, and its light on the inside of the
//! glass and on the plate. How large the lantern is was chosen by eye; its light is computed.

use super::shell::{Ray, Shell};
use super::vec3::{Vec3, gathered};
use crate::base::lanes::Number;
use crate::base::scalar::{Bounds, lerp, smoothstep};
use crate::color::srgb::Linear;

/// Half the lantern's width and its height, as shares of the room inside the dome (by eye, as is what follows).
const SIZE: (f32, f32) = (0.90, 0.66);
/// Radiance of the frosted glass seen at its edge, and how much more there is seen straight on.
const FROSTED: (f32, f32) = (0.3, 0.7);
/// Reflectance of the white plate that it stands on, as wide as the piece.
pub const PLATE: f32 = 0.80;
/// The bulb through the frost: how bright the cap is at its edge and how much more in its middle.
const BULB: (f32, f32) = (0.72, 0.40);
/// Share of what the glass sends back that comes to the glass again, mostly off the lantern and the plate (own fit to path-traced
/// domes of white and of clear glass).
const RETURNED: f32 = 0.70;
/// What the inner face sends back besides.
const FACE: f32 = crate::optics::surface::DIFFUSE_OUTSIDE as f32;
/// Share of the light thrown about that arrives where the direct light does; the rest is even (own fit to a path-traced white dome).
const AS_DIRECT: f32 = 0.6;
/// Reflectance of the lantern's frosted glass (by eye).
const FROST: f32 = 0.8;
/// How far in from its outline, as a share of its squared size, the lantern is seen through by dust (by eye).
const BLUR: f32 = 0.004;
/// Places along the glass, and along the plate, that light is computed for.
const PLACES: usize = 24;
/// Directions that light is gathered from at each.
const RAYS: usize = 128;

/// A lantern and its direct light, in units of its own radiance seen straight on.
#[derive(Clone, Debug)]
pub struct Lantern {
    half_width: f32,
    height: f32,
    /// On the inside of the glass, from the crown to the rim, in even steps along the flat disc.
    wall: Vec<f32>,
    /// On the plate, from the lantern's foot to the rim.
    plate: Vec<f32>,
    flat_radius: f32,
    rim: f32,
    /// Mean over the glass.
    mean_on_wall: f32,
}

/// A place on the lantern, as a line of sight meets it.
#[derive(Clone, Copy, Debug)]
pub struct Cap<N = f32> {
    /// Its own radiance; none where it is not met.
    pub bright: N,
    /// How much of what lies behind it it covers: all but at its outline, which frost and dust blur.
    pub cover: N,
    /// Share of its surroundings that are the plate.
    plate: N,
}

impl Lantern {
    /// The lantern for a shell.
    pub fn new(shell: &Shell) -> Self {
        let (rim, flat_radius) = (shell.rim().0, shell.flat_radius());
        let half = 0.5 * shell.thickness();
        let inside: Vec<(f32, Vec3, Vec3)> = (0..=PLACES)
            .map(|i| {
                let s = flat_radius * i as f32 / PLACES as f32;
                let (r, z, out, up) = shell.at_flat(s);
                (s, Vec3::new(r - half * out, 0.0, z - half * up), Vec3::new(-out, 0.0, -up))
            })
            .collect();
        let (half_width, height) = fitting(&inside);
        let mut lantern = Self {
            half_width,
            height,
            wall: Vec::new(),
            plate: Vec::new(),
            flat_radius,
            rim,
            mean_on_wall: 0.0,
        };
        let rays = gathered(RAYS);
        lantern.wall = inside.iter().map(|(_, place, toward)| lantern.on(*place, *toward, &rays)).collect();
        let up = Vec3::new(0.0, 0.0, 1.0);
        lantern.plate = (0..=PLACES)
            .map(|i| {
                let r = lerp(half_width, rim, i as f32 / PLACES as f32);
                lantern.on(Vec3::new(r, 0.0, 0.01), up, &rays)
            })
            .collect();
        lantern.mean_on_wall = lantern.mean_light();
        lantern
    }

    /// Mean over the glass by area: each ring stands for the band about it, the last for half a one.
    fn mean_light(&self) -> f32 {
        let (mut sum, mut area) = (0.0, 0.0);
        for (i, light) in self.wall.iter().enumerate() {
            let weight = if i == PLACES { 0.5 * i as f32 } else { i as f32 };
            (sum, area) = (sum + light * weight, area + weight);
        }
        sum / area
    }

    /// Light that arrives at a place with this normal.
    fn on(&self, place: Vec3, normal: Vec3, rays: &[Vec3]) -> f32 {
        let across = if normal.x.abs() < 0.9 { Vec3::new(1.0, 0.0, 0.0) } else { Vec3::new(0.0, 0.0, 1.0) };
        let right = normal.cross(across).unit();
        let up = right.cross(normal);
        let seen = |d: &Vec3| self.seen(&Ray { from: place, toward: right * d.x + up * d.y + normal * d.z });
        rays.iter().filter_map(seen).map(|cap| cap.bright).sum::<f32>() / rays.len() as f32
    }

    /// The lantern along lines of sight; none if none of them meets it.
    #[inline]
    pub fn seen<N: Number>(&self, ray: &Ray<N>) -> Option<Cap<N>> {
        let (none, one) = (N::of(0.0), N::of(1.0));
        // Squashed, the lantern is the upper half of a unit ball.
        let squash = |v: Vec3<N>| Vec3::new(v.x / self.half_width, v.y / self.half_width, v.z / self.height);
        let (o, d) = (squash(ray.from), squash(ray.toward));
        let (dd, od) = (d.dot(d), o.dot(d));
        let root = od * od - dd * (o.dot(o) - 1.0);
        let hit = o + d * ((-od - root.at_least(none).root()) / dd);
        let upper = hit.z.above(N::of(-f32::MIN_POSITIVE), one, none);
        let met = none.above(od, root.above(none, upper, none), none);
        if !met.any_above(0.0) {
            return None;
        }
        let normal = squash(hit).unit();
        let frosted = (-ray.toward.dot(normal)).at_least(none) * FROSTED.1 + FROSTED.0;
        let near = -(hit.x * hit.x + hit.y * hit.y) + 1.0;
        let bright = frosted * (near * near * BULB.1 + BULB.0);
        let cover = smoothstep(0.0, BLUR, root / (od * od));
        let only = |x: N| met.above(none, x, none);
        Some(Cap { bright: only(bright), cover: only(cover), plate: only(normal.z * -0.5 + 0.5) })
    }

    /// What a place on the cap throws back of the light of the plate about its foot, before that is thrown about.
    #[inline]
    pub fn thrown_back<N: Number>(&self, cap: &Cap<N>) -> N {
        cap.plate * (FROST * PLATE * self.plate[0])
    }

    /// How bright the cap is where one mostly looks at it: halfway out, at a slant of about 45 degrees.
    pub const USUAL: f32 = (FROSTED.0 + 0.7 * FROSTED.1) * (BULB.0 + 0.5 * BULB.1);

    /// Direct light on the inside of the glass at a radius on the flat disc, mm.
    #[inline]
    pub fn on_wall<N: Number>(&self, s: N) -> N {
        between(&self.wall, s / self.flat_radius)
    }

    /// All light there, if the glass's own makes it `gain` times the direct one in the mean.
    #[inline]
    pub fn on_wall_in_all<N: Number>(&self, s: N, gain: Linear) -> Linear<N> {
        let direct = self.on_wall(s);
        let thrown = lerp(N::of(self.mean_on_wall), direct, N::of(AS_DIRECT));
        gain.map(|gain| direct + thrown * (gain - 1.0))
    }

    /// Direct light on the plate at a distance from the axis, mm.
    #[inline]
    pub fn on_plate<N: Number>(&self, r: N) -> N {
        between(&self.plate, (r - self.half_width) / (self.rim - self.half_width).at_least(1e-3))
    }

    /// How much more light than the direct one there is on glass that sends back these shares: a share of it comes back, again
    /// and again (a geometric series).
    pub fn gain(glass: Linear) -> Linear {
        glass.map(|glass| 1.0 / (1.0 - RETURNED * (glass + FACE).clamp(0.0, 1.0)))
    }

    /// Mean direct light on the glass.
    pub fn mean_on_wall(&self) -> f32 {
        self.mean_on_wall
    }
}

/// The entry of an even table at a share of its length.
#[inline]
fn between<N: Number>(table: &[f32], share: N) -> N {
    N::along(table, (share * PLACES as f32).point_among(PLACES + 1))
}

/// Half width and height of the lantern: made smaller until it stays clear of the glass.
fn fitting(inside: &[(f32, Vec3, Vec3)]) -> (f32, f32) {
    let rim = inside[inside.len() - 1].1.x.at_least(1.0);
    let (mut a, mut c) = (SIZE.0 * rim, SIZE.1 * inside[0].1.z.at_least(1.0));
    for _ in 0..30 {
        let clear = |place: &Vec3| {
            let (x, z) = (place.x / a, place.z / c);
            x * x + z * z > 1.15
        };
        if inside.iter().all(|(_, place, _)| clear(place)) {
            break;
        }
        (a, c) = (0.9 * a, 0.9 * c);
    }
    (a, c)
}
