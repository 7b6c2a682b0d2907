//! The disc seen from above: loose powder in raking light, or fused glass with a rounded rim.

use super::lump::Lump;
use super::pixmap::Pixmap;
use super::rim::share_around;
use super::studio::{self, R0, Studio, WHITE, fresnel};
use super::surface::ripple;
use super::tone;
use super::vec3::Vec3;
use super::view::{Light, View};
use crate::base::scalar::{Bounds, lerp, sin_cos, smoothstep};
use crate::color::srgb::{Linear, decode, encode};
use crate::fuse::relief::Relief;
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
    for y in 0..view.size {
        let row = &mut picture.rgba[(y * view.size * 4) as usize..((y + 1) * view.size * 4) as usize];
        for (x, pixel) in row.chunks_exact_mut(4).enumerate() {
            if let Some(color) = painter.pixel(x as f32 + 0.5, y as f32 + 0.5) {
                pixel[..3].copy_from_slice(&encode(color));
            }
        }
    }
    picture
}

struct Painter<'a> {
    lying: &'a Lying<'a>,
    light: Light,
    studio: &'static Studio,
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

impl<'a> Painter<'a> {
    fn new(lying: &'a Lying<'a>, view: &View, ground: [u8; 3]) -> Self {
        let radius = lying.colors().grid.disc().radius();
        let (sin, cos) = sin_cos(f64::from(view.turn).to_radians());
        Self {
            lying,
            light: view.light,
            studio: Studio::get(),
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

    /// The lumps that may lie at this distance from the middle.
    fn lumps_at(&self, r: f32) -> &'a [Lump] {
        if r < self.ring.0 || r > self.ring.1 { &[] } else { self.lying.lumps() }
    }

    /// The color of a pixel, or none where the table is bare.
    fn pixel(&self, px: f32, py: f32) -> Option<Linear> {
        let (x, y) = ((px - self.half) * self.scale, (self.half - py) * self.scale);
        let r = (x * x + y * y).sqrt();
        let covered = ((self.radius - r) / self.scale + 0.5).clamp(0.0, 1.0);
        if covered >= 1.0 {
            return Some(self.disc(x, y, r));
        }
        let table = self.table(x, y, r);
        if covered <= 0.0 {
            return table;
        }
        let (on, table) = (self.disc(x, y, r), table.unwrap_or(self.ground));
        Some([0, 1, 2].map(|k| lerp(table[k], on[k], covered)))
    }

    /// The table beside the disc: a short shadow away from the soft light, as deep as the glass is opaque, and a line where the
    /// edge stands on it (both by eye); none where it is its own gray.
    fn table(&self, x: f32, y: f32, r: f32) -> Option<Linear> {
        if self.light != Light::Day {
            return None;
        }
        let (dx, dy) = (x - 2.2, y + 1.6);
        let outside = (dx * dx + dy * dy).sqrt() - self.radius;
        if outside > 5.0 {
            return None;
        }
        let passed = match self.lying {
            Lying::Glass { passed, .. } => *passed,
            _ => [0.0; 3],
        };
        let contact = 1.0 - 0.30 * smoothstep(1.4, 0.0, r - self.radius);
        let shadow = 0.42 * smoothstep(5.0, -3.0, outside);
        Some([0, 1, 2].map(|k| self.ground[k] * contact * (1.0 - shadow * (1.0 - passed[k]).at_least(0.0))))
    }

    fn disc(&self, x: f32, y: f32, r: f32) -> Linear {
        // Where the place is on the piece, its turn undone.
        let (u, v) = (self.cos * x + self.sin * y, self.cos * y - self.sin * x);
        let color = match self.lying {
            Lying::Powder { colors, height } => self.powder(colors, height, u, v),
            Lying::Glass { colors, edge, relief, .. } => {
                self.glass((colors, edge, relief), (x, y), (u, v), r)
            }
            Lying::Lit { colors, .. } => self.lit(colors, (u, v), r),
        };
        tone::shown(color)
    }

    /// On the light table, which is the lamp that the finished piece has inside.
    fn lit(&self, colors: &ColorField, (u, v): (f32, f32), r: f32) -> Linear {
        let mut color = colors.sample(u, v);
        for lump in self.lumps_at(r) {
            if let Some((_, height)) = lump.over(u, v) {
                // A clear lump gathers light in its middle, at the cost of its edge; an opal one over all of its round (by eye).
                let focus = lerp(0.75, 1.35, smoothstep(0.35, 0.95, height));
                let gathered = lerp(1.0, lerp(1.25, focus, lump.straight), height);
                color = [0, 1, 2].map(|k| color[k] * lump.keeps(color, k, height) * gathered);
            }
        }
        // At the rounded rim light leaves sideways.
        let rim = 1.0 - 0.35 * smoothstep(-RIM, 0.0, r - self.radius);
        [0, 1, 2].map(|k| color[k] * self.lamp[k] * rim)
    }

    /// A direction of the piece in the picture.
    fn turned(&self, (x, y): (f32, f32)) -> (f32, f32) {
        (self.cos * x - self.sin * y, self.sin * x + self.cos * y)
    }

    fn powder(&self, colors: &ColorField, height: &[f32], u: f32, v: f32) -> Linear {
        let color = colors.sample(u, v);
        if self.light == Light::Gray {
            return color.map(|c| c * WHITE);
        }
        let (dx, dy, depth) = slope(colors, height, u, v);
        // Raking light from the upper left of the picture, over the powder's own relief.
        let (sx, sy) = self.turned((dx, dy));
        let n = Vec3::new(-sx, -sy, 1.0).unit();
        let raking = Vec3::new(-0.62, 0.50, 0.60).unit();
        let light = 0.52 + 0.48 * (n.dot(raking) / raking.z).clamp(0.0, 1.7);
        let bare = smoothstep(0.03, 0.0, depth);
        let gloss = 0.05 * bare * 0.5;
        color.map(|c| c * WHITE * light + gloss)
    }

    fn glass(
        &self,
        (colors, edge, relief): (&ColorField, &Edge, &Relief),
        (x, y): (f32, f32),
        (u, v): (f32, f32),
        r: f32,
    ) -> Linear {
        let mut color = colors.sample(u, v);
        let into = ((r - (self.radius - RIM)) / RIM).clamp(0.0, 0.97);
        let end = smoothstep(0.55, 0.95, into);
        if end > 0.0 {
            mix(&mut color, edge.at(share_around(into)).0, end);
        }
        if self.light == Light::Gray {
            for lump in self.lumps_at(r) {
                if let Some((_, height)) = lump.over(u, v) {
                    mix(&mut color, lump.shown, smoothstep(0.0, 0.55, height));
                }
            }
            return color.map(|c| c * WHITE);
        }
        let mut n = self.skin(relief, (x, y), (u, v), r);
        let mut dimmed = 1.0;
        for lump in self.lumps_at(r) {
            if let Some((slope, height)) = lump.over(u, v) {
                mix(&mut color, lump.shown, smoothstep(0.0, 0.55, height));
                let (sx, sy) = self.turned(slope);
                n = Vec3::new(sx, sy, 1.0).unit();
                dimmed = lerp(0.78, 1.0, smoothstep(0.0, 0.4, height));
            }
        }
        // The layout is seen straight from above; the gloss as an eye over its middle sees it, so that it is not the same all over.
        let sight = Vec3::new(x, y, -EYE * self.radius).unit();
        let f = fresnel((-sight.dot(n)).at_least(0.02));
        let soft = (n + Vec3::new(0.0, 0.0, 1.0)).unit();
        let light = self.studio.matte(soft, 1.0) * dimmed * (1.0 - f) / (1.0 - R0);
        let mirror = sight.reflect(n);
        let gloss = f * self.studio.overhead(mirror);
        color.map(|c| c * light + gloss)
    }

    /// Normal of the fused face: ripples, what glass stands on it, and the rounded rim.
    fn skin(&self, relief: &Relief, (x, y): (f32, f32), (u, v): (f32, f32), r: f32) -> Vec3 {
        let ([dx, dy], [_, right, up]) = (ripple(u, v), relief.at(u, v));
        let (sx, sy) = self.turned((dx + right, dy + up));
        let into = ((r - (self.radius - RIM)) / RIM).clamp(0.0, 0.97);
        let tip = into / (1.0 - into * into).sqrt() / r.at_least(1e-6);
        Vec3::new(x * tip - sx, y * tip - sy, 1.0).unit()
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

fn mix(color: &mut Linear, with: Linear, share: f32) {
    for k in 0..3 {
        color[k] = lerp(color[k], with[k], share);
    }
}

/// Slope (mm per mm) and height of a bed at (x, y) mm.
fn slope(colors: &ColorField, height: &[f32], x: f32, y: f32) -> (f32, f32, f32) {
    let grid = &colors.grid;
    let (n, cell, radius) = (grid.n(), grid.cell(), grid.disc().radius());
    let column = (((x + radius) / cell) as usize).clamp(1, n - 2);
    let row = (((radius - y) / cell) as usize).clamp(1, n - 2);
    let at = row * n + column;
    let dx = (height[at + 1] - height[at - 1]) / (2.0 * cell);
    let dy = (height[at - n] - height[at + n]) / (2.0 * cell);
    (dx, dy, height[at])
}
