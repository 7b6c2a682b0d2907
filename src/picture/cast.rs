//! What each pixel of a domed picture sees: glass, where and at what slant, or the table near it. It depends on the
//! dome's shape and the eye only, so a change of color or light, or a turn of the piece, uses it again.

use super::inward::inward;
use super::shade::{REACH, Shade};
use super::shell::{Foot, Ray, Shell};
use super::vec3::Vec3;
use crate::base::lanes::{Four, LANES, Number};
use crate::base::rows::in_order;
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
    pub fn ray<N: Number>(&self, x: N, y: N) -> Ray<N> {
        let half = 0.5 * self.size as f32;
        let (a, b) = ((x / half - 1.0) * self.half_width, (y / half - 1.0) * -self.half_width);
        let ahead = Vec3::of(self.forward) + Vec3::of(self.up) * b;
        Ray { from: Vec3::of(self.eye), toward: Vec3::new(ahead.x + a, ahead.y, ahead.z).unit() }
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

    /// Where the eye is.
    pub fn eye(&self) -> Vec3 {
        self.eye
    }

    /// Width and height of the picture.
    pub fn size(&self) -> u32 {
        self.size
    }
}

/// Column and row of a pixel.
pub type At = (u16, u16);

/// A place on the glass that a pixel sees, or those of four.
#[derive(Clone, Copy, Debug)]
pub struct Glass<N = f32> {
    /// Share of the pixel that is glass.
    pub covered: N,
    /// Distance from the eye, mm.
    pub t: N,
    /// The place, mm.
    pub place: Vec3<N>,
    /// Unit normal.
    pub normal: Vec3<N>,
    /// The place on the flat disc: radius, mm.
    pub s: N,
    /// How far around the rounded rim (see [`super::shell::Surface`]).
    pub around_rim: N,
}

/// What a look through clear glass meets. What it does not meet is marked by 0.
#[derive(Clone, Copy, Debug, Default)]
pub struct Behind<N = f32> {
    /// The line of sight inside the dome, and 1 if it gets there.
    pub ray: (Ray<N>, N),
    /// The inside of the far wall, if it comes first: its place and its radius on the flat disc, mm; and 1.
    pub wall: (Vec3<N>, N, N),
    /// The table, if the look goes down: its place, mm, and the share of the soft light and of the room's light there; and 1.
    pub table: ((N, N), (N, N), N),
}

/// A place on the table near the piece that a pixel sees, or those of four.
#[derive(Clone, Copy, Debug)]
pub struct Table<N = f32> {
    /// The place, mm.
    pub x: N,
    /// The place, mm.
    pub y: N,
    /// Share of the soft light and of the room's light that reaches it.
    pub lit: (N, N),
}

fn vec(four: [Vec3; LANES]) -> Vec3<Four> {
    Vec3::new(Four::new(four.map(|v| v.x)), Four::new(four.map(|v| v.y)), Four::new(four.map(|v| v.z)))
}

impl Glass<Four> {
    fn of(four: [&Glass; LANES]) -> Self {
        let lanes = |of: fn(&Glass) -> f32| Four::new(four.map(of));
        Self {
            covered: lanes(|glass| glass.covered),
            t: lanes(|glass| glass.t),
            place: vec(four.map(|glass| glass.place)),
            normal: vec(four.map(|glass| glass.normal)),
            s: lanes(|glass| glass.s),
            around_rim: lanes(|glass| glass.around_rim),
        }
    }
}

impl Behind<Four> {
    fn of(four: [&Behind; LANES]) -> Self {
        let lanes = |of: fn(&Behind) -> f32| Four::new(four.map(of));
        let ray = Ray {
            from: vec(four.map(|behind| behind.ray.0.from)),
            toward: vec(four.map(|behind| behind.ray.0.toward)),
        };
        let place = (lanes(|behind| behind.table.0.0), lanes(|behind| behind.table.0.1));
        let lit = (lanes(|behind| behind.table.1.0), lanes(|behind| behind.table.1.1));
        Self {
            ray: (ray, lanes(|behind| behind.ray.1)),
            wall: (
                vec(four.map(|behind| behind.wall.0)),
                lanes(|behind| behind.wall.1),
                lanes(|behind| behind.wall.2),
            ),
            table: (place, lit, lanes(|behind| behind.table.2)),
        }
    }
}

/// Everything that a band of a domed picture sees but its colors.
#[derive(Debug, Default)]
pub struct Cast {
    /// Pixels that see glass.
    pub glass: Vec<(At, Glass)>,
    /// What a look through each of them meets; empty unless it was asked for.
    pub behind: Vec<Behind>,
    /// Pixels that see the table near the piece, those at the glass's edge included.
    pub table: Vec<(At, Table)>,
}

/// The four of a list from a place on; its last one again where it ends before.
fn four_of<T>(list: &[T], from: usize) -> [&T; LANES] {
    std::array::from_fn(|lane| &list[(from + lane).min(list.len() - 1)])
}

/// Side of the blocks of pixels that start their march together.
const BLOCK: u32 = 8;

impl Cast {
    /// Bands of a picture, which are painted one after the other: of 1,024 pixels a side it is one.
    pub fn bands(camera: &Camera) -> u32 {
        (camera.size * camera.size).div_ceil(BAND)
    }

    /// Casts a ray for every pixel of a band. `through` also looks through the glass at what lies behind.
    pub fn new(shell: &Shell, shade: &Shade, camera: &Camera, through: bool, band: u32) -> Self {
        let rows = camera.size.div_ceil(BLOCK);
        let row = |band: u32| band * rows / Self::bands(camera);
        let (first, last) = (row(band), row(band + 1));
        let blocks = in_order((last - first) as usize, |at| {
            let view = Sight { shell, shade, camera, through };
            view.row_of_blocks(BLOCK * (first + at as u32))
        });
        Self {
            glass: blocks.iter().map(|cast| cast.glass.as_slice()).collect::<Vec<_>>().concat(),
            behind: blocks.iter().map(|cast| cast.behind.as_slice()).collect::<Vec<_>>().concat(),
            table: blocks.iter().map(|cast| cast.table.as_slice()).collect::<Vec<_>>().concat(),
        }
    }

    /// Four pixels that see glass, from one on.
    #[inline]
    pub fn glass_from(&self, from: usize) -> ([At; LANES], Glass<Four>) {
        let four = four_of(&self.glass, from);
        (four.map(|(at, _)| *at), Glass::of(four.map(|(_, glass)| glass)))
    }

    /// What a look through each of them meets; nothing unless it was asked for.
    #[inline]
    pub fn behind_from(&self, from: usize) -> Behind<Four> {
        if self.behind.is_empty() { Behind::default() } else { Behind::of(four_of(&self.behind, from)) }
    }

    /// Four pixels that see the table, from one on.
    #[inline]
    pub fn table_from(&self, from: usize) -> ([At; LANES], Table<Four>) {
        let four = four_of(&self.table, from);
        let lanes = |of: fn(&Table) -> f32| Four::new(four.map(|(_, table)| of(table)));
        let lit = (lanes(|table| table.lit.0), lanes(|table| table.lit.1));
        (four.map(|(at, _)| *at), Table { x: lanes(|table| table.x), y: lanes(|table| table.y), lit })
    }
}

/// Pixels of a band of a large picture: what is seen by them stays within a worker's memory.
const BAND: u32 = 1 << 20;

/// What rays are cast through.
struct Sight<'a> {
    shell: &'a Shell,
    shade: &'a Shade,
    camera: &'a Camera,
    through: bool,
}

impl Sight<'_> {
    /// A row of blocks. The piece is round and the eye in a plane through its axis, so the right half of the picture sees what the left
    /// one does, the other way about.
    fn row_of_blocks(&self, top: u32) -> Cast {
        let mut cast = Cast::default();
        for left in (0..self.camera.size.div_ceil(2)).step_by(BLOCK as usize) {
            let seen = (cast.glass.len(), cast.table.len());
            self.block(&mut cast, left, top);
            self.mirror(&mut cast, seen);
        }
        cast
    }

    /// The pixels of a block that lie in the left half of the picture.
    fn block(&self, cast: &mut Cast, left: u32, top: u32) {
        let Self { shell, shade, camera, through } = *self;
        let (right, bottom) = ((left + BLOCK).min(camera.size), (top + BLOCK).min(camera.size));
        let middle = camera.ray((left + right) as f32 / 2.0, (top + bottom) as f32 / 2.0);
        let start = (middle.from.length() - 1.5 * shell.widest().at_least(shell.highest())).at_least(0.0);
        // A cone about the block: while it is clear of the glass, so is every pixel in it.
        let slope = camera.pixel() * BLOCK as f32 * 0.75;
        let met = shell.march(&middle, start, 0.01, slope).hit;
        let reach = REACH * shell.widest();
        for y in top..bottom {
            let mut beside = None;
            for x in left..right.min(camera.size.div_ceil(2)) {
                let ray = camera.ray(x as f32 + 0.5, y as f32 + 0.5);
                let at = (x as u16, y as u16);
                let glass = met.and_then(|t| self.pixel(&ray, t - 4.0, beside));
                beside = glass.map(|glass| glass.t);
                if let (Some(glass), true) = (glass, through) {
                    cast.behind.push(behind(shell, shade, &glass, ray.toward));
                }
                let whole = glass.is_some_and(|glass| glass.covered >= 1.0);
                cast.glass.extend(glass.map(|glass| (at, glass)));
                if !whole && ray.toward.z < -1e-4 {
                    let p = ray.at(-ray.from.z / ray.toward.z);
                    if p.x * p.x + p.y * p.y < reach * reach {
                        cast.table.push((at, Table { x: p.x, y: p.y, lit: shade.at(p.x, p.y) }));
                    }
                }
            }
        }
    }

    /// Adds the mirror images of what was seen since these counts of pixels. Only the light is not the same on the right.
    fn mirror(&self, cast: &mut Cast, (glass, table): (usize, usize)) {
        let (size, far) = (self.camera.size as u16, |v: Vec3| Vec3::new(-v.x, v.y, v.z));
        let right = |(x, y): At| (size - 1 - x, y);
        for i in glass..cast.glass.len() {
            let (at, glass) = cast.glass[i];
            if right(at) == at {
                continue;
            }
            let mirrored = Glass { place: far(glass.place), normal: far(glass.normal), ..glass };
            cast.glass.push((right(at), mirrored));
            if let Some(Behind { ray, wall, table }) = cast.behind.get(i).copied() {
                let ray = (Ray { from: far(ray.0.from), toward: far(ray.0.toward) }, ray.1);
                let (x, y) = (-table.0.0, table.0.1);
                let table = ((x, y), self.shade.at(x, y), table.2);
                cast.behind.push(Behind { ray, wall: (far(wall.0), wall.1, wall.2), table });
            }
        }
        for i in table..cast.table.len() {
            let (at, Table { x, y, .. }) = cast.table[i];
            if right(at) != at {
                cast.table.push((right(at), Table { x: -x, y, lit: self.shade.at(-x, y) }));
            }
        }
    }

    /// What a pixel sees: `start` is a safe place to march from, `beside` where the pixel before it met the glass.
    fn pixel(&self, ray: &Ray, start: f32, beside: Option<f32>) -> Option<Glass> {
        let shell = self.shell;
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
        let surface = shell.describe(met.foot, place.from_axis(), place.z);
        let normal = turned(place, surface.out, surface.up);
        Some(Glass { covered, t: met.t, place, normal, s: surface.s, around_rim: surface.around_rim })
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
    let mut behind = Behind::default();
    let Some(ray) = inward(shell.thickness(), (glass.place, glass.normal), sight) else { return behind };
    behind.ray = (ray, 1.0);
    if ray.toward.z < -1e-3 {
        let place = ray.at(-ray.from.z / ray.toward.z);
        behind.table = ((place.x, place.y), shade.at(place.x, place.y), 1.0);
    }
    if let Some((place, s)) = far_wall(shell, &ray) {
        behind.wall = (place, s, 1.0);
    }
    behind
}

fn far_wall(shell: &Shell, ray: &Ray) -> Option<(Vec3, f32)> {
    let mut t = 0.3;
    let mut inside = true;
    for _ in 0..150 {
        let p = ray.at(t);
        if p.z <= 0.0 {
            break;
        }
        let distance = shell.distance(p.from_axis(), p.z);
        if inside {
            inside = distance < 0.0;
        } else if distance < 0.05 {
            return Some((p, shell.surface(p.from_axis(), p.z).s));
        }
        t += distance.abs().at_least(0.3);
    }
    None
}
