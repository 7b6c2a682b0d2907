//! The finished dome: body color by how light enters and leaves, gloss of the studio on its skin, the rim, what
//! shows through clear glass, its shadow; or its own glow when it is lit from within.

use super::cast::{Behind, Cast, Glass, TablePixel};
use super::lump::Lump;
use super::pixmap::Pixmap;
use super::shell::Shell;
use super::studio::{self, R0, Studio, WHITE, fresnel, refracted, roll_off};
use super::surface::ripple;
use super::vec3::Vec3;
use super::view::Light;
use crate::base::scalar::{Bounds, fast_pow, lerp, sin_cos, smoothstep};
use crate::color::srgb::{Linear, decode, encode, pull_in};
use crate::optics::colors::ColorField;

/// The colors of a piece.
#[derive(Clone, Copy, Debug)]
pub struct Paint<'a> {
    /// By the light it sends back.
    pub shown: &'a ColorField,
    /// By the light that comes through; only a clear piece, or one lit from within, has it.
    pub through: Option<&'a ColorField>,
    /// The bare blank by the light it sends back.
    pub bare: Linear,
    /// The bare blank by the light that comes through.
    pub bare_through: Linear,
    /// The mean of the light that comes through.
    pub passed: Linear,
    /// What light that has gone along the sheets looks like.
    pub edge: Linear,
    /// Whether one sees through the blank.
    pub clear: bool,
    /// The accents.
    pub lumps: &'a [Lump],
}

/// A dome, ready to be painted.
#[derive(Debug)]
pub struct Scene<'a> {
    /// Its solid.
    pub shell: &'a Shell,
    /// What each pixel sees.
    pub cast: &'a Cast,
    /// Turn of the piece about its axis, degrees.
    pub turn: f32,
    /// The light.
    pub light: Light,
}

/// Paints a dome.
pub fn paint(scene: &Scene, paint: &Paint) -> Pixmap {
    let size = scene.cast.camera.size();
    let ground = if scene.light == Light::Within { studio::TABLE_DUSK } else { studio::TABLE_DAY };
    let mut picture = Pixmap::filled(size, size, ground);
    let painter = Painter::new(scene, paint, ground);
    if scene.light != Light::Gray {
        for pixel in &scene.cast.table {
            put(&mut picture, pixel.at, encode(painter.table(pixel)));
        }
    }
    let nothing = Behind::default();
    for (i, glass) in scene.cast.glass.iter().enumerate() {
        let color = painter.glass(glass, scene.cast.behind.get(i).unwrap_or(&nothing));
        blend(&mut picture, glass.at, color, glass.covered);
    }
    painter.lumps(&mut picture);
    picture
}

fn put(picture: &mut Pixmap, at: (u16, u16), color: [u8; 3]) {
    let i = (usize::from(at.1) * picture.width as usize + usize::from(at.0)) * 4;
    picture.rgba[i..i + 3].copy_from_slice(&color);
}

/// Lays a color over a pixel, in linear light.
fn blend(picture: &mut Pixmap, at: (u16, u16), color: Linear, covered: f32) {
    let mut color = color;
    if covered < 1.0 {
        let under = decode(picture.pixel(at.0.into(), at.1.into()));
        for k in 0..3 {
            color[k] = lerp(under[k], color[k], covered);
        }
    }
    put(picture, at, encode(color));
}

/// A warm lamp's light, linear: about what a garden lamp of 2700 K looks like beside daylight, toned down.
const LAMP: Linear = [1.0, 0.86, 0.68];
/// The light on a dome is set so that its sunny side shows a white as bright as a flat piece does.
const EXPOSURE: f32 = WHITE * 1.22;
/// What daylight is left in the dusk, as a share of full light.
const DUSK: f32 = 0.055;

struct Painter<'a> {
    scene: &'a Scene<'a>,
    paint: &'a Paint<'a>,
    studio: &'static Studio,
    ground: Linear,
    /// Mean color that comes through the piece, for its shadow and its glow on the table.
    cast_color: Linear,
    cos: f32,
    sin: f32,
    /// Brings the lamp's light through the bare blank to a good brightness.
    exposure: f32,
    lamp: Vec3,
}

impl<'a> Painter<'a> {
    fn new(scene: &'a Scene<'a>, paint: &'a Paint<'a>, ground: [u8; 3]) -> Self {
        let (sin, cos) = sin_cos(f64::from(scene.turn).to_radians());
        let mut painter = Self {
            scene,
            paint,
            studio: Studio::get(),
            ground: decode(ground),
            cast_color: paint.passed,
            cos: cos as f32,
            sin: sin as f32,
            exposure: 1.0,
            lamp: Vec3::new(0.0, 0.0, 0.30 * scene.shell.highest()),
        };
        let crown = Vec3::new(0.0, 0.0, scene.shell.highest());
        let glow = painter.lamp_on(crown, Vec3::new(0.0, 0.0, 1.0));
        let bare = crate::color::srgb::luminance(paint.bare_through).at_least(0.02);
        painter.exposure = if paint.clear { 0.95 } else { 0.98 } / (glow * bare);
        painter
    }

    /// The place on the flat disc of a place on the dome, the piece's turn undone: mm.
    fn on_disc(&self, place: Vec3, s: f32) -> (f32, f32) {
        let scale = s / (place.x * place.x + place.y * place.y).sqrt().at_least(1e-6);
        let (x, y) = (place.x * scale, place.y * scale);
        (self.cos * x + self.sin * y, self.cos * y - self.sin * x)
    }

    fn glass(&self, glass: &Glass, behind: &Behind) -> Linear {
        let (x, y) = self.on_disc(glass.place, glass.s);
        match self.scene.light {
            Light::Gray => pull_in(self.paint.shown.sample(x, y)).map(|c| c * WHITE),
            Light::Within => roll_off(pull_in(self.within(glass, x, y))),
            Light::Day => roll_off(pull_in(self.day(glass, behind, x, y))),
        }
    }

    /// What the skin mirrors: the studio, or the table, which is dark close under the rim.
    fn mirrored(&self, toward: Vec3, standing: f32) -> f32 {
        let seen = self.studio.mirrored(toward);
        if toward.z < 0.0 { seen * lerp(0.15, 1.0, standing) } else { seen }
    }

    fn sight(&self, glass: &Glass) -> Vec3 {
        self.scene.cast.camera.ray(f32::from(glass.at.0) + 0.5, f32::from(glass.at.1) + 0.5).toward
    }

    /// A normal tipped by the ripples of the skin.
    fn rippled(&self, normal: Vec3, x: f32, y: f32) -> Vec3 {
        let [dx, dy] = ripple(x, y);
        let (wx, wy) = (self.cos * dx - self.sin * dy, self.sin * dx + self.cos * dy);
        (normal - Vec3::new(wx, wy, 0.0)).unit()
    }

    /// A field at a place, its colors run together along the rounded rim.
    fn color(&self, field: &ColorField, glass: &Glass, x: f32, y: f32) -> Linear {
        if glass.around_rim < 0.05 {
            return field.sample(x, y);
        }
        let r = (x * x + y * y).sqrt().at_least(1e-6);
        let (ox, oy) = (x / r, y / r);
        let mut sum = [0.0; 3];
        for (inward, along) in [(0.8, 0.0), (2.2, -2.0), (2.2, 2.0), (4.0, -1.0), (4.0, 1.0)] {
            let color = field.sample(x - ox * inward - oy * along, y - oy * inward + ox * along);
            for k in 0..3 {
                sum[k] += 0.2 * color[k];
            }
        }
        sum
    }

    /// How much of the rim's own tint shows at a place.
    fn edge_share(&self, glass: &Glass) -> f32 {
        let most = if self.paint.clear { 0.35 } else { 0.55 };
        most * smoothstep(0.05, 0.9, glass.around_rim)
    }

    fn day(&self, glass: &Glass, behind: &Behind, x: f32, y: f32) -> Linear {
        let sight = self.sight(glass);
        let gloss_normal = self.rippled(glass.normal, x, y);
        let cosine = (-sight.dot(gloss_normal)).at_least(0.02);
        let f = fresnel(cosine);
        let soft = (gloss_normal + glass.normal * 2.0).unit();
        let standing = smoothstep(-0.5, 9.0, glass.place.z);
        let light =
            self.studio.on_matte(soft) * EXPOSURE * lerp(0.55, 1.0, standing) * (1.0 - f) / (1.0 - R0);
        let gloss = f * self.mirrored(sight.reflect(gloss_normal), standing);
        let shown = self.color(self.paint.shown, glass, x, y);
        let slant = 0.5 * (1.0 / refracted(cosine) - 1.0);
        let edge = self.edge_share(glass);
        let mut out = [0.0; 3];
        if let (true, Some(through)) = (self.paint.clear, self.paint.through) {
            let through = self.color(through, glass, x, y);
            let haze = 0.85 * self.paint.through.map_or(0.0, |through| through.haze_at(x, y));
            let behind = self.seen_through(glass, self.behind(behind, sight), cosine, through, haze);
            let second = 0.8 * f * (1.0 - f) * self.studio.mirrored(sight.reflect(glass.normal));
            for k in 0..3 {
                let body = shown[k] * light + behind[k];
                out[k] = lerp(body, self.paint.edge[k] * 0.62 * light, edge)
                    + gloss
                    + second * through[k] * through[k];
            }
        } else {
            for k in 0..3 {
                // A slanting path through the powder deepens its color, not the white below it.
                let over_bare = (shown[k] / self.paint.bare[k].at_least(1e-4)).at_least(1e-4);
                let deeper = shown[k] * fast_pow(over_bare, slant);
                let rim = self.paint.bare[k] * 0.5 + self.paint.edge[k] * 0.36;
                out[k] = lerp(deeper, rim, edge) * light + gloss;
            }
        }
        out
    }

    /// What comes through clear glass from behind, hazed by what scatters in it.
    fn seen_through(&self, glass: &Glass, behind: Linear, cosine: f32, through: Linear, haze: f32) -> Linear {
        let path = 1.0 / refracted(cosine);
        // Near its outline the inner face reflects all light, and the wall looks as thick as it is.
        let sine = (1.0 - cosine * cosine).at_least(0.0).sqrt();
        let limit = 1.0 - self.scene.shell.thickness() / self.scene.shell.widest();
        let total = smoothstep(limit - 0.03, limit + 0.02, sine);
        let inner = 0.30 + 0.25 * glass.normal.z;
        let mut out = [0.0; 3];
        for k in 0..3 {
            let t = fast_pow(through[k].at_least(1e-4), path);
            let clear = lerp(behind[k], inner * WHITE, haze);
            let turned_back = 0.75 * self.paint.edge[k] * inner;
            out[k] = lerp(t * clear, fast_pow(through[k].at_least(1e-4), 2.2) * turned_back * 1.15, total);
        }
        out
    }

    /// What a straight look through the near wall meets.
    fn behind(&self, behind: &Behind, sight: Vec3) -> Linear {
        match behind.wall {
            None if sight.z > -1e-3 => [0.2; 3],
            None => self.table_light(behind.place.x, behind.place.y, behind.lit),
            Some(s) => {
                let (x, y) = self.on_disc(behind.place, s);
                let shown = self.paint.shown.sample(x, y);
                let through = self.paint.through.map_or(shown, |field| field.sample(x, y));
                [0, 1, 2].map(|k| shown[k] * 0.5 * WHITE + through[k] * 0.32)
            }
        }
    }

    fn table(&self, pixel: &TablePixel) -> Linear {
        let light = if self.scene.light == Light::Within {
            let glow = self.glow_on_table(pixel.x, pixel.y) * self.exposure;
            [0, 1, 2].map(|k| self.ground[k] + glow * self.cast_color[k] * LAMP[k])
        } else {
            self.table_light(pixel.x, pixel.y, pixel.lit)
        };
        // The picture ends in the table's own gray, so that it lies on the page without an edge.
        let size = self.scene.cast.camera.size() as f32;
        let from_edge = |at: u16| f32::from(at).at_most(size - 1.0 - f32::from(at));
        let near = from_edge(pixel.at.0).at_most(from_edge(pixel.at.1)) / size;
        let kept = smoothstep(0.0, 0.10, near);
        roll_off([0, 1, 2].map(|k| lerp(self.ground[k], light[k], kept)))
    }

    /// The table's own light, in the shadow that the piece lets its own color into.
    fn table_light(&self, x: f32, y: f32, (key, room): (f32, f32)) -> Linear {
        // Under the dome light has crossed the glass once, outside it twice.
        let under = x * x + y * y < self.scene.shell.rim().0 * self.scene.shell.rim().0;
        [0, 1, 2].map(|k| {
            let once = if self.paint.clear { self.cast_color[k] } else { 0.0 };
            let tint = if under { once } else { once * once };
            let (key, room) = (lerp(tint, 1.0, key), lerp(tint, 1.0, room));
            self.ground[k] * (0.52 * key + 0.48 * room)
        })
    }

    /// Lamplight from the shell on the table around it, falling off from the rim.
    fn glow_on_table(&self, x: f32, y: f32) -> f32 {
        let widest = self.scene.shell.widest();
        let out = ((x * x + y * y).sqrt() - widest).at_least(0.0) / widest;
        let faded = (1.0 - out / (super::shade::REACH - 1.0)).at_least(0.0);
        0.075 * faded * faded * faded / (1.0 + 3.0 * out)
    }

    /// Lamplight on the inside of the shell at a place: direct, and what the shell's white inside throws about.
    fn lamp_on(&self, place: Vec3, normal: Vec3) -> f32 {
        // Lengths are those of a piece 148 mm across.
        let scale = 74.2 / self.scene.shell.widest();
        let way = (place - self.lamp) * scale;
        let d2 = way.dot(way);
        let cosine = (way.dot(normal) / d2.sqrt().at_least(1e-6)).at_least(0.0);
        1150.0 * cosine / (d2 + 650.0) + 0.2
    }

    fn within(&self, glass: &Glass, x: f32, y: f32) -> Linear {
        let sight = self.sight(glass);
        let gloss_normal = self.rippled(glass.normal, x, y);
        let cosine = (-sight.dot(gloss_normal)).at_least(0.02);
        let f = fresnel(cosine);
        let shown = self.color(self.paint.shown, glass, x, y);
        let through = self.paint.through.map_or(shown, |field| self.color(field, glass, x, y));
        let glow = self.lamp_on(glass.place, glass.normal) * self.exposure * (1.0 - f);
        // A clear piece hides its lamp behind a frosted liner; its light is even but for the slant of the glass.
        let slant = 1.0 / refracted(cosine);
        let dusk = DUSK * self.studio.on_matte(glass.normal);
        let gloss = f * 0.10 * self.studio.mirrored(sight.reflect(gloss_normal));
        let edge = 0.8 * self.edge_share(glass);
        [0, 1, 2].map(|k| {
            let passed =
                if self.paint.clear { fast_pow(through[k].at_least(1e-5), slant) } else { through[k] };
            let body = passed * glow * LAMP[k];
            let rim = self.paint.edge[k] * LAMP[k] * 0.30;
            lerp(body, rim, edge) + shown[k] * dusk + gloss
        })
    }

    fn lumps(&self, picture: &mut Pixmap) {
        let mut placed: Vec<Placed> = self.paint.lumps.iter().map(|lump| self.place(lump)).collect();
        // The farthest first; of two equally far, the one that was set first.
        placed.sort_by(|a, b| b.depth.total_cmp(&a.depth));
        for placed in &placed {
            self.lump(picture, placed);
        }
    }

    /// Where a lump sits on the dome.
    fn place(&self, lump: &'a Lump) -> Placed<'a> {
        let accent = &lump.accent;
        let s = (accent.x * accent.x + accent.y * accent.y).sqrt();
        let (r, z, out, up) = self.scene.shell.at_flat(s);
        let (ax, ay) = (accent.x / s.at_least(1e-6), accent.y / s.at_least(1e-6));
        let (wx, wy) = (self.cos * ax - self.sin * ay, self.sin * ax + self.cos * ay);
        let normal = Vec3::new(wx * out, wy * out, up);
        let half = 0.5 * self.scene.shell.thickness();
        let middle = Vec3::new(wx * r, wy * r, z) + normal * half;
        let depth = self.scene.cast.camera.project(middle).2;
        Placed { lump, middle, normal, depth }
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
        Some(self.lump_color(placed, toward, normal, height))
    }

    /// `height` is how much glass of the lump lies under the place, as a share of its most.
    fn lump_color(&self, placed: &Placed, sight: Vec3, normal: Vec3, height: f32) -> Linear {
        let accent = &placed.lump.accent;
        let cosine = (-sight.dot(normal)).at_least(0.02);
        let f = fresnel(cosine);
        let body = smoothstep(0.0, 0.55, height);
        let under = self.paint.shown.sample(accent.x, accent.y);
        let under_through = self.paint.through.map_or(under, |field| field.sample(accent.x, accent.y));
        let shown = [0, 1, 2].map(|k| lerp(under[k], placed.lump.shown[k], body));
        let color = match self.scene.light {
            Light::Gray => return pull_in(shown).map(|c| c * WHITE),
            Light::Day => {
                let light = self.studio.on_matte((normal + placed.normal).unit()) * EXPOSURE;
                let foot = lerp(0.72, 1.0, smoothstep(0.0, 0.4, height));
                let gloss = f * self.studio.mirrored(sight.reflect(normal));
                let glassy = if self.paint.clear { 0.22 } else { 0.0 };
                [0, 1, 2].map(|k| {
                    let through = glassy * placed.lump.through[k] * self.cast_color[k] * self.ground[k];
                    (shown[k] * light + through) * foot + gloss
                })
            }
            Light::Within => {
                // A lump is fed from all around through the sheet, and bends light toward the eye at its middle.
                let glow = self.lamp_on(placed.middle, placed.normal) * self.exposure;
                let lens = lerp(0.78, 1.12, cosine);
                let gloss = f * 0.10 * self.studio.mirrored(sight.reflect(normal));
                let dusk = DUSK * self.studio.on_matte(normal);
                [0, 1, 2].map(|k| {
                    let fed = lerp(placed.lump.through[k], under_through[k], 0.45);
                    fed * glow * lens * LAMP[k] + shown[k] * dusk + gloss
                })
            }
        };
        roll_off(pull_in(color))
    }
}

struct Placed<'a> {
    lump: &'a Lump,
    middle: Vec3,
    normal: Vec3,
    depth: f32,
}
