//! Accents on the outside of a dome.

use super::painter::Painter;
use crate::base::lanes::{Four, Number, sum};
use crate::base::order::ranked;
use crate::base::scalar::{Bounds, lerp, smoothstep};
use crate::color::srgb::{Linear, decode, encode};
use crate::optics::colors::WHITE;
use crate::picture::lump::Lump;
use crate::picture::pixmap::Pixmap;
use crate::picture::shell::Ray;
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
        let depth = self.scene.camera.project(middle).2;
        Placed { lump, s, middle, normal, depth }
    }

    fn lump(&self, picture: &mut Pixmap, placed: &Placed) {
        let camera = &self.scene.camera;
        let (cx, cy, depth) = camera.project(placed.middle);
        let reach = placed.lump.radius() * 1.5 / (depth * camera.pixel());
        let size = camera.size() as f32;
        let range = |c: f32| (c - reach).clamp(0.0, size) as u32..(c + reach + 1.0).clamp(0.0, size) as u32;
        // Lumps are a few pixels wide: four samples a pixel keep their outline round.
        let (right, down) = (Four::new([0.25, 0.75, 0.25, 0.75]), Four::new([0.25, 0.25, 0.75, 0.75]));
        for y in range(cy) {
            for x in range(cx) {
                let Some((color, met)) = self.samples(placed, &camera.ray(right + x as f32, down + y as f32))
                else {
                    continue;
                };
                let hits = sum(met);
                let mean = color.map(|c| sum(c * met) / hits);
                let at = (x as u16, y as u16);
                let under = decode(picture.pixel(x, y));
                let [r, g, b] = encode([0, 1, 2].map(|k| lerp(under[k], mean[k], 0.25 * hits)));
                picture.put(at, [r, g, b, 255]);
            }
        }
    }

    /// The colors of a lump along four lines of sight, and 1 where it is met from outside the dome; none if it is met by none.
    fn samples(&self, placed: &Placed, ray: &Ray<Four>) -> Option<(Linear<Four>, Four)> {
        let (a, c) = (placed.lump.radius(), placed.lump.height());
        let (none, one, normal) = (Four::of(0.0), Four::of(1.0), Vec3::of(placed.normal));
        // Stretched along its axis the lump is a unit ball.
        let squash = |v: Vec3<Four>| {
            let along = v.dot(normal);
            (v - normal * along) * Four::of(1.0 / a) + normal * (along / c)
        };
        let (o, d) = (squash(ray.from - Vec3::of(placed.middle)), squash(ray.toward));
        let (dd, od) = (d.dot(d), o.dot(d));
        let root = od * od - dd * (o.dot(o) - 1.0);
        if !root.any_above(0.0) {
            return None;
        }
        let hit = o + d * ((-od - root.at_least(none).root()) / dd);
        let height = hit.dot(normal);
        let outside = ray.toward.dot(normal).above(Four::of(0.25), none, one);
        let met = root.above(none, none.above(height, none, outside), none);
        if !met.any_above(0.0) {
            return None;
        }
        let across = hit - normal * height;
        let round = (across * Four::of(1.0 / a) + normal * (height / c)).unit();
        let height = height.at_least(none);
        Some((tone::shown(self.lump_color(placed, (ray.toward, round), height)), met))
    }

    /// `height` is how much glass of the lump lies under the places, as a share of its most.
    fn lump_color(
        &self,
        placed: &Placed,
        (sight, normal): (Vec3<Four>, Vec3<Four>),
        height: Four,
    ) -> Linear<Four> {
        let lump = placed.lump;
        let body = smoothstep(0.0, 0.55, height);
        let under = self.paint.shown.sample(lump.accent.x, lump.accent.y);
        let shown = [0, 1, 2].map(|k| body * (lump.shown[k] - under[k]) + under[k]);
        match self.scene.light {
            Light::Gray => shown.map(|c| c * WHITE),
            Light::Day => {
                let f = fresnel((-sight.dot(normal)).at_least(Four::of(0.02)));
                let light = self.daylight((normal + Vec3::of(placed.normal)).unit(), Four::of(1.0));
                // Less light gets to its foot (by eye).
                let foot = smoothstep(0.0, 0.4, height) * 0.28 + 0.72;
                let gloss = self.mirrored(sight.reflect(normal), Four::of(1.0)).map(|seen| f * seen);
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
        (sight, normal): (Vec3<Four>, Vec3<Four>),
        shown: Linear<Four>,
        height: Four,
    ) -> Linear<Four> {
        let lump = placed.lump;
        let cosine = (-sight.dot(normal)).at_least(Four::of(0.02));
        let accent = &lump.accent;
        let under = self.paint.through.map_or(lump.through, |field| field.sample(accent.x, accent.y));
        let arrives = self.on_wall(placed.s);
        let focus = smoothstep(0.80, 1.0, cosine) * 1.05 + 0.85;
        let most = (focus - 1.35) * lump.straight + 1.35;
        let gathered = lerp(Four::of(1.0), most, height);
        let dusk = self.studio.matte(normal, Four::of(1.0)) * DUSK;
        let gloss = fresnel(cosine) * self.studio.mirrored(sight.reflect(normal)) * DUSK;
        [0, 1, 2].map(|k| {
            let kept = lump.keeps(Four::of(under[k]), k, height) * under[k];
            kept * gathered * arrives[k] + shown[k] * dusk + gloss
        })
    }
}
