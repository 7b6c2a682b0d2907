//! What each pixel of a domed picture sees: glass, where and at what slant, or the table near it. It depends on the
//! dome's shape and the eye only, so a change of color or light, or a turn of the piece, uses it again.

use super::inward::inward;
use super::shade::{REACH, Shade};
use super::shell::{Foot, Ray, Shell};
use super::vec3::Vec3;
use crate::base::scalar::{Bounds, sin_cos, tan};

/// The eye: far enough away that the piece looks as it does in the hand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Camera {
    size: u32,
    eye: Vec3,
    forward: Vec3,
    up: Vec3,
    half_width: f32,
}

/// Distance of the eye, in radii of the piece (by eye, as are the next two).
pub const DISTANCE: f32 = 7.55;
/// Horizontal field of view, degrees.
pub const FIELD: f64 = 18.5;
/// How high the eye aims, as a share of the piece's height.
pub const AIM: f32 = 0.34;

impl Camera {
    /// An eye `tilt` degrees above the horizon that sees the whole of a shell at `zoom` 1.
    pub fn new(shell: &Shell, size: u32, tilt: f32, zoom: f32) -> Self {
        let (sin, cos) = sin_cos(f64::from(tilt).to_radians());
        let (sin, cos) = (sin as f32, cos as f32);
        let forward = Vec3::new(0.0, cos, -sin);
        let aim = Vec3::new(0.0, 0.0, AIM * shell.highest());
        // A steep eye sees the dome's whole round: a little farther keeps it in the frame.
        let eye = aim - forward * (DISTANCE * shell.widest());
        let half_width = tan((FIELD / 2.0).to_radians()) as f32 / zoom;
        Self { size, eye, forward, up: Vec3::new(0.0, sin, cos), half_width }
    }

    /// The line of sight through a place in the picture, pixels from its top left corner.
    #[inline]
    pub fn ray(&self, x: f32, y: f32) -> Ray {
        let half = 0.5 * self.size as f32;
        let (a, b) = ((x / half - 1.0) * self.half_width, (1.0 - y / half) * self.half_width);
        let toward = (self.forward + Vec3::new(a, 0.0, 0.0) + self.up * b).unit();
        Ray { from: self.eye, toward }
    }

    /// Where a place in the studio is seen, pixels from the top left corner, and how far away it is along the view.
    pub fn project(&self, p: Vec3) -> (f32, f32, f32) {
        let v = p - self.eye;
        let depth = v.dot(self.forward).at_least(1.0);
        let half = 0.5 * self.size as f32;
        let scale = half / (depth * self.half_width);
        (half + v.x * scale, half - v.dot(self.up) * scale, depth)
    }

    /// Width of a pixel at unit distance.
    pub fn pixel(&self) -> f32 {
        2.0 * self.half_width / self.size as f32
    }

    /// Width and height of the picture.
    pub fn size(&self) -> u32 {
        self.size
    }
}

/// A pixel that sees glass.
#[derive(Clone, Copy, Debug)]
pub struct Glass {
    /// Column and row.
    pub at: (u16, u16),
    /// Share of the pixel that is glass.
    pub covered: f32,
    /// Distance from the eye, mm.
    pub t: f32,
    /// The place, mm.
    pub place: Vec3,
    /// Unit normal.
    pub normal: Vec3,
    /// The place on the flat disc: radius, mm.
    pub s: f32,
    /// How far around the rounded rim (see [`super::shell::Surface`]).
    pub around_rim: f32,
}

/// What a look through clear glass meets.
#[derive(Clone, Copy, Debug, Default)]
pub struct Behind {
    /// The line of sight inside the dome, if it gets there.
    pub ray: Option<Ray>,
    /// The inside of the far wall, if it comes first: its place and its radius on the flat disc, mm.
    pub wall: Option<(Vec3, f32)>,
    /// The table, if the look goes down: its place, and the share of the soft light and of the room's light there.
    pub table: Option<(Vec3, (f32, f32))>,
}

/// A pixel that sees the table near the piece.
#[derive(Clone, Copy, Debug)]
pub struct TablePixel {
    /// Column and row.
    pub at: (u16, u16),
    /// Place on the table, mm.
    pub x: f32,
    /// Place on the table, mm.
    pub y: f32,
    /// Share of the soft light and of the room's light that reaches it.
    pub lit: (f32, f32),
}

/// Everything a domed picture sees but its colors.
#[derive(Debug)]
pub struct Cast {
    /// The eye.
    pub camera: Camera,
    /// Pixels that see glass.
    pub glass: Vec<Glass>,
    /// What a look through each of them meets; empty unless it was asked for.
    pub behind: Vec<Behind>,
    /// Pixels that see the table near the piece, those at the glass's edge included.
    pub table: Vec<TablePixel>,
}

/// Side of the blocks of pixels that start their march together.
const BLOCK: u32 = 8;
impl Cast {
    /// Casts a ray for every pixel. `through` also looks through the glass at what lies behind.
    pub fn new(shell: &Shell, shade: &Shade, camera: Camera, through: bool) -> Self {
        let mut cast = Self { camera, glass: Vec::new(), behind: Vec::new(), table: Vec::new() };
        for top in (0..camera.size).step_by(BLOCK as usize) {
            for left in (0..camera.size).step_by(BLOCK as usize) {
                cast.block(shell, shade, left, top, through);
            }
        }
        cast
    }

    fn block(&mut self, shell: &Shell, shade: &Shade, left: u32, top: u32, through: bool) {
        let camera = self.camera;
        let (right, bottom) = ((left + BLOCK).min(camera.size), (top + BLOCK).min(camera.size));
        let middle = camera.ray((left + right) as f32 / 2.0, (top + bottom) as f32 / 2.0);
        let start = (middle.from.length() - 1.5 * shell.widest().at_least(shell.highest())).at_least(0.0);
        // A cone about the block: while it is clear of the glass, so is every pixel in it.
        let slope = camera.pixel() * BLOCK as f32 * 0.75;
        let met = shell.march(&middle, start, 0.01, slope).hit;
        let reach = REACH * shell.widest();
        for y in top..bottom {
            let mut beside = None;
            for x in left..right {
                let ray = camera.ray(x as f32 + 0.5, y as f32 + 0.5);
                let at = (x as u16, y as u16);
                let glass = met.and_then(|t| self.pixel(shell, &ray, t - 4.0, beside, at));
                beside = glass.map(|glass| glass.t);
                if let (Some(glass), true) = (glass, through) {
                    self.behind.push(behind(shell, shade, &glass, ray.toward));
                }
                let whole = glass.is_some_and(|glass| glass.covered >= 1.0);
                self.glass.extend(glass);
                if !whole && ray.toward.z < -1e-4 {
                    let p = ray.at(-ray.from.z / ray.toward.z);
                    if p.x * p.x + p.y * p.y < reach * reach {
                        self.table.push(TablePixel { at, x: p.x, y: p.y, lit: shade.at(p.x, p.y) });
                    }
                }
            }
        }
    }

    /// What a pixel sees: `start` is a safe place to march from, `beside` where the pixel before it met the glass.
    fn pixel(
        &self,
        shell: &Shell,
        ray: &Ray,
        start: f32,
        beside: Option<f32>,
        at: (u16, u16),
    ) -> Option<Glass> {
        // On the face the next pixel is a step away; near an outline that would miss what stands before it.
        let near = beside.map(|t| land(shell, ray, t)).filter(|met| met.distance == 0.0 && met.facing > 0.3);
        let met = near.unwrap_or_else(|| {
            let march = shell.march(ray, start, NEAR, 0.0);
            match march.hit {
                Some(t) => land(shell, ray, t),
                None => passes(shell, ray, march.closest),
            }
        });
        let covered = 1.0 - met.distance.at_least(0.0) / (self.camera.pixel() * met.t);
        if covered <= 0.0 {
            return None;
        }
        let place = ray.at(met.t);
        let radius = (place.x * place.x + place.y * place.y).sqrt();
        let surface = shell.describe(met.foot, radius, place.z);
        let normal = turned(place, surface.out, surface.up);
        Some(Glass { at, covered, t: met.t, place, normal, s: surface.s, around_rim: surface.around_rim })
    }
}

/// Distance from the solid, mm, at which the march ends and [`land`] takes over.
const NEAR: f32 = 0.3;

/// Where a line of sight comes down, its distance from the solid there (0 if it hit) and how squarely it meets it.
struct Met {
    t: f32,
    distance: f32,
    facing: f32,
    foot: Foot,
}

/// A ray that meets nothing, at its nearest approach.
fn passes(shell: &Shell, ray: &Ray, (distance, t): (f32, f32)) -> Met {
    let p = ray.at(t);
    let foot = shell.exact_distance((p.x * p.x + p.y * p.y).sqrt(), p.z).2;
    Met { t, distance, facing: 0.0, foot }
}

/// Brings a ray close to the solid exactly onto it, or to its nearest approach if it only passes by.
fn land(shell: &Shell, ray: &Ray, mut t: f32) -> Met {
    let mut nearest = Met { t, distance: f32::MAX, facing: 0.0, foot: (0, 0.0) };
    for _ in 0..6 {
        let p = ray.at(t);
        let (distance, (out, up), foot) = shell.exact_distance((p.x * p.x + p.y * p.y).sqrt(), p.z);
        let facing = -ray.toward.dot(turned(p, out, up));
        if distance.abs() < nearest.distance.abs() {
            nearest = Met { t, distance, facing, foot };
        }
        if distance.abs() < 0.004 || facing < 0.01 {
            break;
        }
        t += (distance / facing).clamp(-2.0, 2.0);
    }
    if nearest.distance.abs() < 0.02 {
        nearest.distance = 0.0;
    }
    nearest
}

/// A direction of the meridian plane at a place about the axis.
fn turned(place: Vec3, out: f32, up: f32) -> Vec3 {
    let r = (place.x * place.x + place.y * place.y).sqrt().at_least(1e-6);
    Vec3::new(place.x / r * out, place.y / r * out, up)
}

/// Looks on through the near wall: at the inside of the far wall, and at the table.
fn behind(shell: &Shell, shade: &Shade, glass: &Glass, sight: Vec3) -> Behind {
    let Some(ray) = inward(shell.thickness(), (glass.place, glass.normal), sight) else {
        return Behind::default();
    };
    let table = (ray.toward.z < -1e-3).then(|| {
        let place = ray.at(-ray.from.z / ray.toward.z);
        (place, shade.at(place.x, place.y))
    });
    Behind { ray: Some(ray), wall: far_wall(shell, &ray), table }
}

fn far_wall(shell: &Shell, ray: &Ray) -> Option<(Vec3, f32)> {
    let radius = |p: Vec3| (p.x * p.x + p.y * p.y).sqrt();
    let mut t = 0.3;
    let mut inside = true;
    for _ in 0..150 {
        let p = ray.at(t);
        if p.z <= 0.0 {
            break;
        }
        let distance = shell.distance(radius(p), p.z);
        if inside {
            inside = distance < 0.0;
        } else if distance < 0.05 {
            return Some((p, shell.surface(radius(p), p.z).s));
        }
        t += distance.abs().at_least(0.3);
    }
    None
}
