//! The disc seen from above: loose powder in raking light, or fused glass with a rounded rim.

use super::lump::Lump;
use super::pixmap::Pixmap;
use super::rim::share_around;
use super::studio::{self, R0, Studio, WHITE, fresnel};
use super::surface::ripples;
use super::tone;
use super::vec3::Vec3;
use super::view::{Light, View};
use crate::base::lanes::{Four, Number, places};
use crate::base::scalar::{Bounds, lerp, sin_cos, smoothstep, within};
use crate::color::srgb::{Linear, decode};
use crate::fuse::relief::Relief;
use crate::layup::field::Lattice;
use crate::optics::colors::ColorField;
use crate::optics::edge::Edge;

/// Share of the picture's width that the disc takes at zoom 1.
pub const DISC_SHARE: f32 = 0.90;
/// Width of the rounded rim of fused glass, mm (by eye).
const RIM: f32 = 2.6;
/// Height of the eye over the disc, in radii, for its gloss.
const EYE: f32 = 7.55;

/// What lies on the table.
#[derive(Clone, Copy, Debug)]
pub enum Lying<'a> {
    /// Loose powder: its colors and its height per cell, mm.
    Powder {
        /// Color per cell.
        colors: &'a ColorField,
        /// Height of the bed per cell, mm.
        height: &'a [f32],
    },
    /// Fused glass by the light it sends back, with its accents.
    Glass {
        /// Color per cell.
        colors: &'a ColorField,
        /// The accents.
        lumps: &'a [Lump],
        /// The edges of the sheets.
        edge: &'a Edge,
        /// What comes through in the mean.
        passed: Linear,
        /// The relief of the face.
        relief: &'a Relief,
    },
    /// Loose powder or fused glass on a light table: by the light that comes through.
    Lit {
        /// Color per cell.
        colors: &'a ColorField,
        /// The accents; none on loose powder.
        lumps: &'a [Lump],
        /// The light table's lamp.
        lamp: Linear,
    },
}

/// Paints a disc.
pub fn paint(lying: &Lying, view: &View) -> Pixmap {
    let ground = if view.light == Light::Within { studio::TABLE_DUSK } else { studio::TABLE_DAY };
    let mut picture = Pixmap::filled(view.size, view.size, ground);
    let painter = Painter::new(lying, view, ground);
    picture.paint(|x, y| painter.pixels(x + 0.5, y + 0.5));
    picture
}

struct Painter<'a> {
    lying: &'a Lying<'a>,
    light: Light,
    studio: &'static Studio,
    ripples: &'static Lattice<2>,
    ground: Linear,
    radius: f32,
    /// mm per pixel.
    scale: f32,
    half: f32,
    cos: f32,
    sin: f32,
    /// Radii between which lumps lie, mm.
    ring: (f32, f32),
    /// The light table's light; dark if the disc does not lie on one.
    lamp: Linear,
}

/// Four places, mm: in the picture, on the piece, its turn undone, and their distance from the middle.
struct Places {
    seen: (Four, Four),
    on_disc: (Four, Four),
    r: Four,
}

impl<'a> Painter<'a> {
    fn new(lying: &'a Lying<'a>, view: &View, ground: [u8; 3]) -> Self {
        let radius = lying.colors().grid.disc().radius();
        let (sin, cos) = sin_cos(f64::from(view.turn).to_radians());
        Self {
            lying,
            light: view.light,
            studio: Studio::get(),
            ripples: ripples(),
            ground: decode(ground),
            radius,
            scale: 2.0 * radius / (view.size as f32 * DISC_SHARE * view.zoom),
            half: 0.5 * view.size as f32,
            cos: cos as f32,
            sin: sin as f32,
            ring: ring(lying.lumps()),
            lamp: if let Lying::Lit { lamp, .. } = lying { *lamp } else { [0.0; 3] },
        }
    }

    /// The lumps that may lie at these distances from the middle.
    fn lumps_at(&self, r: Four) -> &'a [Lump] {
        let near = r.any_above(self.ring.0) && (-r).any_above(-self.ring.1);
        if near { self.lying.lumps() } else { &[] }
    }

    /// The colors of four pixels, or none where the table is bare.
    #[inline]
    fn pixels(&self, px: Four, py: Four) -> Option<Linear<Four>> {
        let (x, y) = ((px - self.half) * self.scale, (py - self.half) * -self.scale);
        let r = (x * x + y * y).root();
        let covered = within((-r + self.radius) / self.scale + 0.5, 0.0, 1.0);
        if !covered.any_above(0.0) {
            return self.table(x, y, r);
        }
        let on_disc = (x * self.cos + y * self.sin, y * self.cos - x * self.sin);
        let on = tone::shown(self.disc(&Places { seen: (x, y), on_disc, r }));
        if !(-covered).any_above(-1.0) {
            return Some(on);
        }
        let table = self.table(x, y, r).unwrap_or(self.ground.map(Four::of));
        Some([0, 1, 2].map(|k| lerp(table[k], on[k], covered)))
    }

    /// The table beside the disc: a short shadow away from the soft light, as deep as the glass is opaque, and a line where the
    /// edge stands on it (both by eye); none where it is its own gray.
    fn table(&self, x: Four, y: Four, r: Four) -> Option<Linear<Four>> {
        if self.light != Light::Day {
            return None;
        }
        let (dx, dy) = (x - 2.2, y + 1.6);
        let outside = (dx * dx + dy * dy).root() - self.radius;
        if !(-outside).any_above(-5.0) {
            return None;
        }
        let passed = match self.lying {
            Lying::Glass { passed, .. } => *passed,
            _ => [0.0; 3],
        };
        let contact = smoothstep(1.4, 0.0, r - self.radius) * -0.30 + 1.0;
        let shadow = smoothstep(5.0, -3.0, outside) * -0.42;
        let light = |k: usize| (shadow * (1.0 - passed[k]).at_least(0.0) + 1.0) * contact * self.ground[k];
        Some([0, 1, 2].map(light))
    }

    #[inline]
    fn disc(&self, places: &Places) -> Linear<Four> {
        match self.lying {
            Lying::Powder { colors, height } => self.powder(colors, height, places),
            Lying::Glass { colors, edge, relief, .. } => self.glass((colors, edge, relief), places),
            Lying::Lit { colors, .. } => self.lit(colors, places),
        }
    }

    /// On the light table, which is the lamp that the finished piece has inside.
    fn lit(&self, colors: &ColorField, places: &Places) -> Linear<Four> {
        let (u, v) = places.on_disc;
        let mut color = colors.sample(u, v);
        for lump in self.lumps_at(places.r) {
            if let Some((_, height)) = lump.over(u, v) {
                // A clear lump gathers light in its middle, at the cost of its edge; an opal one over all of its round (by eye).
                let focus = smoothstep(0.35, 0.95, height) * 0.60 + 0.75;
                let most = (focus - 1.25) * lump.straight + 1.25;
                let gathered = lerp(Four::of(1.0), most, height);
                color = [0, 1, 2].map(|k| color[k] * lump.keeps(color[k], k, height) * gathered);
            }
        }
        // At the rounded rim light leaves sideways.
        let rim = smoothstep(-RIM, 0.0, places.r - self.radius) * -0.35 + 1.0;
        [0, 1, 2].map(|k| color[k] * self.lamp[k] * rim)
    }

    /// A direction of the piece in the picture.
    #[inline]
    fn turned(&self, (x, y): (Four, Four)) -> (Four, Four) {
        (x * self.cos - y * self.sin, x * self.sin + y * self.cos)
    }

    fn powder(&self, colors: &ColorField, height: &[f32], places: &Places) -> Linear<Four> {
        let (u, v) = places.on_disc;
        let color = colors.sample(u, v);
        if self.light == Light::Gray {
            return color.map(|c| c * WHITE);
        }
        let (slope, depth) = slope(colors, height, u, v);
        // Raking light from the upper left of the picture, over the powder's own relief.
        let (sx, sy) = self.turned(slope);
        let n = Vec3::new(-sx, -sy, Four::of(1.0)).unit();
        let raking = Vec3::new(-0.62f32, 0.50, 0.60).unit();
        let light = within(n.dot(raking) / raking.z, 0.0, 1.7) * 0.48 + 0.52;
        let gloss = smoothstep(0.03, 0.0, depth) * 0.025;
        color.map(|c| c * light * WHITE + gloss)
    }

    fn glass(&self, (colors, edge, relief): (&ColorField, &Edge, &Relief), places: &Places) -> Linear<Four> {
        let (u, v) = places.on_disc;
        let mut color = colors.sample(u, v);
        let into = self.in_rim(places.r);
        let end = smoothstep(0.55, 0.95, into);
        if end.any_above(0.0) {
            mix(&mut color, edge.at(share_around(into)).0, end);
        }
        let lumps = self.lumps_at(places.r);
        if self.light == Light::Gray {
            for (lump, (_, height)) in lumps.iter().filter_map(|lump| Some((lump, lump.over(u, v)?))) {
                mix(&mut color, lump.shown.map(Four::of), smoothstep(0.0, 0.55, height));
            }
            return color.map(|c| c * WHITE);
        }
        let (mut n, none) = (self.skin(relief, places, into), Four::of(0.0));
        let mut dimmed = Four::of(1.0);
        for (lump, (slope, height)) in lumps.iter().filter_map(|lump| Some((lump, lump.over(u, v)?))) {
            mix(&mut color, lump.shown.map(Four::of), smoothstep(0.0, 0.55, height));
            let (sx, sy) = self.turned(slope);
            let round = Vec3::new(sx, sy, Four::of(1.0)).unit();
            n = Vec3::where_above(height, none, round, n);
            dimmed = height.above(none, smoothstep(0.0, 0.4, height) * 0.22 + 0.78, dimmed);
        }
        // The layout is seen straight from above; the gloss as an eye over its middle sees it, so that it is not the same all over.
        let (x, y) = places.seen;
        let sight = Vec3::new(x, y, Four::of(-EYE * self.radius)).unit();
        let f = fresnel((-sight.dot(n)).at_least(Four::of(0.02)));
        let soft = Vec3::new(n.x, n.y, n.z + 1.0).unit();
        let light = self.studio.matte(soft, Four::of(1.0)) * dimmed * (-f + 1.0) * (1.0 / (1.0 - R0));
        let gloss = f * self.studio.overhead(sight.reflect(n));
        color.map(|c| c * light + gloss)
    }

    /// How far a place is into the rounded rim, 0 to just short of 1 at its end.
    fn in_rim(&self, r: Four) -> Four {
        within((r - (self.radius - RIM)) * (1.0 / RIM), 0.0, 0.97)
    }

    /// Normal of the fused face: ripples, what glass stands on it, and the rounded rim.
    fn skin(&self, relief: &Relief, places: &Places, into: Four) -> Vec3<Four> {
        let (u, v) = places.on_disc;
        let ([dx, dy], [_, right, up]) = (self.ripples.all(u, v), relief.at(u, v));
        let (sx, sy) = self.turned((dx + right, dy + up));
        let tip = into / (-(into * into) + 1.0).root() / places.r.at_least(Four::of(1e-6));
        let (x, y) = places.seen;
        Vec3::new(x * tip - sx, y * tip - sy, Four::of(1.0)).unit()
    }
}

impl<'a> Lying<'a> {
    fn lumps(&self) -> &'a [Lump] {
        match self {
            Self::Powder { .. } => &[],
            Self::Glass { lumps, .. } | Self::Lit { lumps, .. } => lumps,
        }
    }

    fn colors(&self) -> &ColorField {
        match self {
            Self::Powder { colors, .. } | Self::Glass { colors, .. } | Self::Lit { colors, .. } => colors,
        }
    }
}

/// The radii between which lumps lie, mm.
fn ring(lumps: &[Lump]) -> (f32, f32) {
    lumps.iter().fold((f32::MAX, 0.0), |(near, far), lump| {
        let r = (lump.accent.x * lump.accent.x + lump.accent.y * lump.accent.y).sqrt();
        (near.at_most(r - lump.radius()), far.at_least(r + lump.radius()))
    })
}

fn mix(color: &mut Linear<Four>, with: Linear<Four>, share: Four) {
    for k in 0..3 {
        color[k] = lerp(color[k], with[k], share);
    }
}

/// Slopes (mm per mm) to the right and up, and height, of a bed at four places (x, y) in mm: those of the cells that hold them.
fn slope(colors: &ColorField, height: &[f32], x: Four, y: Four) -> ((Four, Four), Four) {
    let grid = &colors.grid;
    let (n, per_mm, radius) = (grid.n(), 1.0 / grid.cell(), grid.disc().radius());
    let nearest = |mm: Four| within((mm + radius) * per_mm, 1.0, n as f32 - 1.5).whole();
    let at = places(nearest(-y) * n as f32 + nearest(x));
    let cells = |off: usize| Four::new(at.map(|at| height[at + off - n]));
    let per_slope = 0.5 * per_mm;
    let (right, left, above, below) = (cells(n + 1), cells(n - 1), cells(0), cells(2 * n));
    (((right - left) * per_slope, (above - below) * per_slope), cells(n))
}
