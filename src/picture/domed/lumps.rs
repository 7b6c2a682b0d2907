//! Accents on the outside of a dome.

use super::blend;
use super::painter::Painter;
use crate::base::order::ranked;
use crate::base::scalar::{Bounds, lerp, smoothstep};
use crate::color::srgb::Linear;
use crate::optics::colors::WHITE;
use crate::picture::lump::Lump;
use crate::picture::pixmap::Pixmap;
use crate::picture::studio::{DUSK, fresnel};
use crate::picture::tone;
use crate::picture::vec3::Vec3;
use crate::picture::view::Light;
use crate::recipe::Side;

/// Where a lump sits on the dome.
struct Placed<'a> {
    lump: &'a Lump,
    /// Its radius on the flat disc, mm.
    s: f32,
    middle: Vec3,
    normal: Vec3,
    depth: f32,
}

impl<'a> Painter<'a> {
    /// Paints the accents, if they lie outside: those inside are part of the body's color.
    pub(super) fn lumps(&self, picture: &mut Pixmap) {
        if self.paint.side == Side::In {
            return;
        }
        let placed: Vec<Placed> = self.paint.lumps.iter().map(|lump| self.place(lump)).collect();
        // The farthest first; of two equally far, the one that was set first.
        for at in ranked(placed.len(), &|a, b| placed[b].depth.total_cmp(&placed[a].depth)) {
            self.lump(picture, &placed[at]);
        }
    }

    fn place(&self, lump: &'a Lump) -> Placed<'a> {
        let accent = &lump.accent;
        let s = (accent.x * accent.x + accent.y * accent.y).sqrt();
        let (r, z, out, up) = self.scene.shell.at_flat(s);
        let (wx, wy) = self.in_studio((accent.x / s.at_least(1e-6), accent.y / s.at_least(1e-6)));
        let normal = Vec3::new(wx * out, wy * out, up);
        let half = 0.5 * self.scene.shell.thickness();
        let middle = Vec3::new(wx * r, wy * r, z) + normal * half;
        let depth = self.scene.cast.camera.project(middle).2;
        Placed { lump, s, middle, normal, depth }
    }

    fn lump(&self, picture: &mut Pixmap, placed: &Placed) {
        let camera = &self.scene.cast.camera;
        let (cx, cy, depth) = camera.project(placed.middle);
        let reach = placed.lump.radius() * 1.5 / (depth * camera.pixel());
        let size = camera.size() as f32;
        let range = |c: f32| (c - reach).clamp(0.0, size) as u32..(c + reach + 1.0).clamp(0.0, size) as u32;
        for y in range(cy) {
            for x in range(cx) {
                let (mut sum, mut covered) = ([0.0; 3], 0.0);
                // Lumps are a few pixels wide: four samples a pixel keep their outline round.
                for (dx, dy) in [(0.25, 0.25), (0.75, 0.25), (0.25, 0.75), (0.75, 0.75)] {
                    let ray = camera.ray(x as f32 + dx, y as f32 + dy);
                    if let Some(color) = self.lump_sample(placed, ray.from, ray.toward) {
                        covered += 0.25;
                        for k in 0..3 {
                            sum[k] += 0.25 * color[k];
                        }
                    }
                }
                if covered > 0.0 {
                    blend(picture, (x as u16, y as u16), sum.map(|c| c / covered), covered);
                }
            }
        }
    }

    /// The color of a lump along a line of sight, if it is met from outside the dome.
    fn lump_sample(&self, placed: &Placed, from: Vec3, toward: Vec3) -> Option<Linear> {
        let (a, c) = (placed.lump.radius(), placed.lump.height());
        // Stretched along its axis the lump is a unit ball.
        let squash = |v: Vec3| {
            let along = v.dot(placed.normal);
            (v - placed.normal * along) * (1.0 / a) + placed.normal * (along / c)
        };
        let (o, d) = (squash(from - placed.middle), squash(toward));
        let (dd, od) = (d.dot(d), o.dot(d));
        let root = od * od - dd * (o.dot(o) - 1.0);
        if root <= 0.0 {
            return None;
        }
        let hit = o + d * ((-od - root.sqrt()) / dd);
        let height = hit.dot(placed.normal);
        if height < 0.0 || toward.dot(placed.normal) > 0.25 {
            return None;
        }
        let across = hit - placed.normal * height;
        let normal = (across * (1.0 / a) + placed.normal * (height / c)).unit();
        Some(tone::shown(self.lump_color(placed, toward, normal, height)))
    }

    /// `height` is how much glass of the lump lies under the place, as a share of its most.
    fn lump_color(&self, placed: &Placed, sight: Vec3, normal: Vec3, height: f32) -> Linear {
        let lump = placed.lump;
        let accent = &lump.accent;
        let cosine = (-sight.dot(normal)).at_least(0.02);
        let f = fresnel(cosine);
        let body = smoothstep(0.0, 0.55, height);
        let under = self.paint.shown.sample(accent.x, accent.y);
        let shown = [0, 1, 2].map(|k| lerp(under[k], lump.shown[k], body));
        match self.scene.light {
            Light::Gray => shown.map(|c| c * WHITE),
            Light::Day => {
                let light = self.daylight((normal + placed.normal).unit(), 1.0);
                // Less light gets to its foot (by eye).
                let foot = lerp(0.72, 1.0, smoothstep(0.0, 0.4, height));
                let gloss = self.mirrored(sight.reflect(normal), 1.0).map(|seen| f * seen);
                [0, 1, 2].map(|k| {
                    // Through clear glass the table shows, in the light that the dome lets onto it.
                    let below =
                        if self.paint.clear { self.ground[k] * self.paint.passed.through[k] } else { 0.0 };
                    (shown[k] * light[k] + lump.through[k] * below) * foot + gloss[k]
                })
            }
            Light::Within => self.lump_within(placed, (sight, normal), shown, height),
        }
    }

    /// A lump gathers the light that comes up through the sheet: a clear one into a bright spot toward the eye, an opal one
    /// over all of its round (how much is by eye). Thin at its foot, it takes the less from it there.
    fn lump_within(
        &self,
        placed: &Placed,
        (sight, normal): (Vec3, Vec3),
        shown: Linear,
        height: f32,
    ) -> Linear {
        let lump = placed.lump;
        let cosine = (-sight.dot(normal)).at_least(0.02);
        let accent = &lump.accent;
        let under = self.paint.through.map_or(lump.through, |field| field.sample(accent.x, accent.y));
        let arrives = self.on_wall(placed.s);
        let focus = smoothstep(0.80, 1.0, cosine);
        let gathered = lerp(1.0, lerp(1.35, lerp(0.85, 1.9, focus), lump.straight), height);
        let dusk = DUSK * self.studio.matte(normal, 1.0);
        let gloss = DUSK * fresnel(cosine) * self.studio.mirrored(sight.reflect(normal));
        [0, 1, 2].map(|k| {
            under[k] * lump.keeps(under, k, height) * gathered * arrives[k] + shown[k] * dusk + gloss
        })
    }
}
