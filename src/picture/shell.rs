//! The dome as a solid: a sheet with a rounded rim, turned about its axis, as a table of distances that rays march
//! through.

use super::vec3::Vec3;
use crate::base::lanes::Number;
use crate::base::scalar::{Bounds, floor};
use crate::slump::dome::{Dome, Ring};

/// Spacing of the table of distances, mm.
const PITCH: f32 = 1.0;
/// Room around the solid in the table, mm.
const MARGIN: f32 = 6.0;

/// A dome standing on the table, its lowest point at height 0.
#[derive(Clone, Debug)]
pub struct Shell {
    rings: Vec<Ring>,
    /// Unit tangent of the meridian at each ring, outward.
    tangents: Vec<(f32, f32)>,
    /// Half the mean thickness, mm.
    half: f32,
    columns: usize,
    rows: usize,
    /// Distance to the solid (negative inside) and the nearest ring, at (r, z) = (column, row) * pitch.
    table: Vec<(f32, f32)>,
}

/// A place on the meridian: a segment, and how far along it.
pub type Foot = (usize, f32);

/// A point of the surface, told by the middle of the glass nearest to it.
#[derive(Clone, Copy, Debug, Default)]
pub struct Surface {
    /// Radius on the flat disc, mm.
    pub s: f32,
    /// Normal, outward from the middle of the glass: away from the axis.
    pub out: f32,
    /// Normal, upward.
    pub up: f32,
    /// How far around the rounded rim: 0 on the face, 1 at the end of the sheet, more underneath.
    pub around_rim: f32,
    /// Distance from the surface, mm, negative inside.
    pub distance: f32,
}

impl Shell {
    /// The solid of a dome.
    pub fn new(dome: &Dome) -> Self {
        let half = mean_thickness(dome.rings()) / 2.0;
        let lowest =
            dome.rings().iter().fold(f32::MAX, |low, ring| low.at_most(ring.z - 0.5 * ring.thickness));
        let rings: Vec<Ring> = dome.rings().iter().map(|ring| Ring { z: ring.z - lowest, ..*ring }).collect();
        let (widest, highest) = reach(&rings);
        let columns = ((widest + MARGIN) / PITCH) as usize + 2;
        let rows = ((highest + MARGIN) / PITCH) as usize + 2;
        let tangents = (0..rings.len()).map(|i| tangent_at(&rings, i)).collect();
        let mut shell =
            Self { rings, tangents, half, columns, rows, table: Vec::with_capacity(columns * rows) };
        for row in 0..rows {
            for column in 0..columns {
                let (at, distance) = shell.nearest(column as f32 * PITCH, row as f32 * PITCH);
                shell.table.push((distance - shell.half_along(at), at));
            }
        }
        shell
    }

    /// Mean thickness of the glass, mm: for what looks at no place of its own.
    pub fn thickness(&self) -> f32 {
        2.0 * self.half
    }

    /// Greatest radius, mm.
    pub fn widest(&self) -> f32 {
        reach(&self.rings).0
    }

    /// Greatest height, mm.
    pub fn highest(&self) -> f32 {
        reach(&self.rings).1
    }

    /// Half the glass's own thickness at a place on its meridian, mm. Glass that has sunk is thicker where it was pushed together; it
    /// changes so slowly along the meridian that its faces count as parallel to the middle.
    #[inline]
    fn half_at(&self, (at, t): Foot) -> f32 {
        let (a, b) = (self.rings[at].thickness, self.rings[at + 1].thickness);
        0.5 * (a + t * (b - a))
    }

    /// The same by a ring with a fraction.
    fn half_along(&self, along: f32) -> f32 {
        let at = (along as usize).min(self.rings.len() - 2);
        self.half_at((at, along - at as f32))
    }

    /// Radius and height of the rim's middle, mm.
    pub fn rim(&self) -> (f32, f32) {
        let rim = self.rings[self.rings.len() - 1];
        (rim.r, rim.z)
    }

    /// Radius of the flat disc, mm.
    pub fn flat_radius(&self) -> f32 {
        self.rings[self.rings.len() - 1].s
    }

    /// The place on the middle of the glass nearest to (r, z), as a ring with a fraction, and its distance.
    fn nearest(&self, r: f32, z: f32) -> (f32, f32) {
        let mut best = (0.0, f32::MAX);
        for i in 0..self.rings.len() - 1 {
            let (t, d2) = self.to_segment(i, r, z);
            if d2 < best.1 {
                best = (i as f32 + t, d2);
            }
        }
        (best.0, best.1.sqrt())
    }

    /// The nearest place on segment `i` as a fraction of it, and its squared distance.
    #[inline]
    fn to_segment(&self, i: usize, r: f32, z: f32) -> (f32, f32) {
        let (a, b) = (&self.rings[i], &self.rings[i + 1]);
        let (dr, dz) = (b.r - a.r, b.z - a.z);
        let t = (((r - a.r) * dr + (z - a.z) * dz) / (dr * dr + dz * dz).at_least(1e-12)).clamp(0.0, 1.0);
        let (er, ez) = (r - a.r - t * dr, z - a.z - t * dz);
        (t, er * er + ez * ez)
    }

    /// Distance to the solid at (r, z), mm, from the table; a lower bound outside it.
    #[inline]
    pub fn distance(&self, r: f32, z: f32) -> f32 {
        let (u, v) = (r / PITCH, z / PITCH);
        let (most_u, most_v) = ((self.columns - 2) as f32, (self.rows - 2) as f32);
        let (inside_u, inside_v) = (u.clamp(0.0, most_u), v.clamp(0.0, most_v));
        let beyond = (u - inside_u).abs() + (v - inside_v).abs();
        let (i, j) = (inside_u as usize, inside_v as usize);
        let (tu, tv) = (inside_u - i as f32, inside_v - j as f32);
        let at = j * self.columns + i;
        let lower = self.table[at].0 + (self.table[at + 1].0 - self.table[at].0) * tu;
        let at = at + self.columns;
        let upper = self.table[at].0 + (self.table[at + 1].0 - self.table[at].0) * tu;
        lower + (upper - lower) * tv + 0.7 * beyond * PITCH
    }

    /// The surface nearest to (r, z), exactly.
    pub fn surface(&self, r: f32, z: f32) -> Surface {
        self.describe(self.nearest_ring(r, z), r, z)
    }

    /// Distance to the solid (negative inside), the direction away from the middle of the glass, and the place on its
    /// meridian, exactly.
    pub fn exact_distance(&self, r: f32, z: f32) -> (f32, (f32, f32), Foot) {
        let foot = self.nearest_ring(r, z);
        let (a, b) = (&self.rings[foot.0], &self.rings[foot.0 + 1]);
        let (er, ez) = (r - a.r - foot.1 * (b.r - a.r), z - a.z - foot.1 * (b.z - a.z));
        let distance = (er * er + ez * ez).sqrt().at_least(1e-6);
        (distance - self.half_at(foot), (er / distance, ez / distance), foot)
    }

    /// The segment of the meridian nearest to (r, z), and how far along it.
    fn nearest_ring(&self, r: f32, z: f32) -> Foot {
        let i = floor(r / PITCH).clamp(0, self.columns as i32 - 1) as usize;
        let j = floor(z / PITCH).clamp(0, self.rows as i32 - 1) as usize;
        let last = self.rings.len() - 2;
        let mut at = (self.table[j * self.columns + i].1 as usize).min(last);
        // Walk downhill from the table's ring: the nearest one is a step or two away.
        let (mut t, mut d2) = self.to_segment(at, r, z);
        loop {
            // Only toward the end of the segment that the foot lies at can there be a nearer one.
            let next = if t >= 1.0 && at < last {
                at + 1
            } else if t <= 0.0 && at > 0 {
                at - 1
            } else {
                return (at, t);
            };
            let (nt, nd2) = self.to_segment(next, r, z);
            if nd2 >= d2 {
                return (at, t);
            }
            (at, t, d2) = (next, nt, nd2);
        }
    }

    /// The surface at (r, z), of which the foot on the meridian is known.
    pub fn describe(&self, (at, t): Foot, r: f32, z: f32) -> Surface {
        let (a, b) = (&self.rings[at], &self.rings[at + 1]);
        let (mr, mz) = (a.r + t * (b.r - a.r), a.z + t * (b.z - a.z));
        let (er, ez) = (r - mr, z - mz);
        let distance = (er * er + ez * ez).sqrt();
        let tangent = self.tangent(at, t);
        let side = if er * -tangent.1 + ez * tangent.0 >= 0.0 { 1.0 } else { -1.0 };
        let face = (-tangent.1 * side, tangent.0 * side);
        let beyond = at + 2 == self.rings.len() && t >= 1.0;
        let (out, up, around_rim) = if beyond && distance > 1e-6 {
            let (out, up) = (er / distance, ez / distance);
            // From the face (0) over the end of the sheet (1) to the other face (2).
            let turned = out * tangent.0 + up * tangent.1;
            (out, up, if side > 0.0 { turned } else { 2.0 - turned })
        } else {
            (face.0, face.1, if side > 0.0 { 0.0 } else { 2.0 })
        };
        // The outer face goes on around the rim to the very end of the disc.
        let half = self.half_at((at, t));
        let beyond = if beyond { half * around_rim.at_most(1.0) } else { 0.0 };
        Surface { s: a.s + t * (b.s - a.s) + beyond, out, up, around_rim, distance: distance - half }
    }

    /// Unit tangent of the meridian, outward, a fraction `t` beyond ring `at`.
    #[inline]
    fn tangent(&self, at: usize, t: f32) -> (f32, f32) {
        let (a, b) = (self.tangents[at], self.tangents[at + 1]);
        let (r, z) = (a.0 + t * (b.0 - a.0), a.1 + t * (b.1 - a.1));
        let l = (r * r + z * z).sqrt().at_least(1e-9);
        (r / l, z / l)
    }

    /// The middle of the glass at flat radius `s`, and the unit normal of its upper face: (r, z, out, up).
    pub fn at_flat(&self, s: f32) -> (f32, f32, f32, f32) {
        let last = self.rings.len() - 1;
        let at = (s / self.flat_radius() * last as f32).clamp(0.0, last as f32 - 0.001);
        let (i, t) = (at as usize, at - at as usize as f32);
        let (a, b) = (&self.rings[i], &self.rings[i + 1]);
        let tangent = self.tangent(i, t);
        (a.r + t * (b.r - a.r), a.z + t * (b.z - a.z), -tangent.1, tangent.0)
    }

    /// Marches a ray from `t` on until it is within `near` mm plus `slope` times the way gone of the solid. Tells
    /// where, or that it left or met the table first; and the least distance on the way.
    pub fn march(&self, ray: &Ray, mut t: f32, near: f32, slope: f32) -> March {
        let mut closest = (f32::MAX, t);
        for _ in 0..80 {
            let p = ray.at(t);
            if (p.z < 0.0 && ray.toward.z < 0.0) || (p.z > self.highest_in_table() && ray.toward.z > 0.0) {
                break;
            }
            let distance = self.distance((p.x * p.x + p.y * p.y).sqrt(), p.z);
            let near = near + slope * t;
            if distance < closest.0 {
                closest = (distance, t);
            }
            if distance < near {
                return March { hit: Some(t), closest };
            }
            t += (distance - near * 0.5).at_least(0.05);
        }
        March { hit: None, closest }
    }

    /// Whether the solid stops a ray of light that starts outside it.
    pub fn stops(&self, ray: &Ray) -> bool {
        self.march(ray, 0.0, 0.05, 0.0).hit.is_some()
    }

    fn highest_in_table(&self) -> f32 {
        (self.rows - 2) as f32 * PITCH
    }
}

/// Greatest radius and height of the glass, mm: at its rim it is as round as it is thick.
fn reach(rings: &[Ring]) -> (f32, f32) {
    rings.iter().fold((0.0f32, 0.0f32), |(wide, high), ring| {
        let half = 0.5 * ring.thickness;
        (wide.at_least(ring.r + half), high.at_least(ring.z + half))
    })
}

/// The thickness that all the glass would have if it were even, by the area that each ring stands for on the flat disc, mm.
fn mean_thickness(rings: &[Ring]) -> f32 {
    let (sum, all) =
        rings.iter().fold((0.0f32, 0.0f32), |(sum, all), ring| (sum + ring.s * ring.thickness, all + ring.s));
    sum / all.at_least(1e-6)
}

/// Unit tangent of a meridian at a ring, from its neighbors; level at the crown.
fn tangent_at(rings: &[Ring], i: usize) -> (f32, f32) {
    let (a, b) = (&rings[i.saturating_sub(1)], &rings[(i + 1).min(rings.len() - 1)]);
    let (dr, dz) = (b.r - a.r, if i == 0 { 0.0 } else { b.z - a.z });
    let l = (dr * dr + dz * dz).sqrt().at_least(1e-9);
    (dr / l, dz / l)
}

/// What a march met.
#[derive(Clone, Copy, Debug)]
pub struct March {
    /// Where it came within reach.
    pub hit: Option<f32>,
    /// The least distance on the way, mm, and where.
    pub closest: (f32, f32),
}

/// A straight line of sight or light, or four of them.
#[derive(Clone, Copy, Debug, Default)]
pub struct Ray<N = f32> {
    /// Where it starts.
    pub from: Vec3<N>,
    /// Its unit direction.
    pub toward: Vec3<N>,
}

impl<N: Number> Ray<N> {
    /// The place `t` mm along it.
    #[inline]
    pub fn at(&self, t: N) -> Vec3<N> {
        self.from + self.toward * t
    }
}
