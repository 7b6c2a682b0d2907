//! What painting a dome needs by any light.

use crate::base::scalar::{Bounds, fast_pow, lerp, sin_cos, smoothstep};
use crate::color::srgb::{Linear, decode, luminance};
use crate::fuse::relief::Relief;
use crate::optics::colors::{ColorField, WHITE};
use crate::optics::edge::Edge;
use crate::optics::palette::Passed;
use crate::picture::cast::{Cast, Glass};
use crate::picture::lantern::Lantern;
use crate::picture::lump::Lump;
use crate::picture::rim::share_around;
use crate::picture::shell::Shell;
use crate::picture::studio::{DUSK, R0, Studio, TABLE_DAY, TABLE_DUSK, fresnel, refracted};
use crate::picture::surface::ripple;
use crate::picture::surroundings::Surroundings;
use crate::picture::tone;
use crate::picture::vec3::Vec3;
use crate::picture::view::Light;
use crate::recipe::Side;

/// The colors of a piece, seen from outside.
#[derive(Clone, Copy, Debug)]
pub struct Paint<'a> {
    /// By the light it sends back.
    pub shown: &'a ColorField,
    /// By the light that comes through; only a clear piece, or one lit from within, has it.
    pub through: Option<&'a ColorField>,
    /// The bare blank by the light it sends back.
    pub bare: Linear,
    /// The lamp that suits the bare blank, on a light table.
    pub lamp: Linear,
    /// What comes through, and what the inside sends back, in the mean.
    pub passed: &'a Passed,
    /// The relief of the fused face.
    pub relief: &'a Relief,
    /// The edges of the sheets.
    pub edge: &'a Edge,
    /// Whether one sees through the blank.
    pub clear: bool,
    /// The side that powder and accents are on.
    pub side: Side,
    /// The accents.
    pub lumps: &'a [Lump],
}

/// A dome, ready to be painted.
#[derive(Debug)]
pub struct Scene<'a> {
    /// Its solid.
    pub shell: &'a Shell,
    /// The lamp inside it.
    pub lantern: &'a Lantern,
    /// What each pixel sees.
    pub cast: &'a Cast,
    /// Turn of the piece about its axis, degrees.
    pub turn: f32,
    /// The light.
    pub light: Light,
    /// What it stands in; in flat color it is the studio.
    pub around: Surroundings,
}

impl Scene<'_> {
    /// The page's own gray, in which a picture ends.
    pub(super) fn page(&self) -> [u8; 3] {
        if self.light == Light::Within { TABLE_DUSK } else { TABLE_DAY }
    }

    /// What lies behind the piece, in the light that there is.
    fn ground(&self) -> Linear {
        let light = if self.light == Light::Within { DUSK } else { 1.0 };
        match self.around {
            Surroundings::Studio => decode(self.page()),
            _ => self.around.behind().map(|channel| channel * WHITE * light),
        }
    }
}

pub(super) struct Painter<'a> {
    pub(super) scene: &'a Scene<'a>,
    pub(super) paint: &'a Paint<'a>,
    pub(super) studio: &'static Studio,
    /// What lies behind the piece, and in the studio below it.
    pub(super) ground: Linear,
    /// How much more of each color comes from below by day than in the studio.
    pub(super) tint: Linear,
    page: Linear,
    /// Where lawn or sky is seen; none in the studio.
    field: Option<Field>,
    /// The lamp, as bright as suits the piece.
    pub(super) lamp: Linear,
    /// How much more light there is inside than comes straight from the lamp.
    pub(super) gain: Linear,
    /// The lamp's light that leaves the outside of the glass toward the table, in the mean.
    pub(super) leaves: Linear,
    cos: f32,
    sin: f32,
    /// -1 if the layout is seen from behind.
    mirror: f32,
}

/// How much of its light clear glass lets onto the table outside, next to glass that scatters all of it (as path-traced).
const GRAZING: f32 = 0.01;
/// How far the colors at the rounded end run together, mm along and in from the edge (by eye): or they would be drawn
/// out into streaks.
const RIM_SAMPLES: [(f32, f32); 5] = [(0.8, 0.0), (2.2, -2.0), (2.2, 2.0), (4.0, -1.0), (4.0, 1.0)];

/// A look at the glass.
pub(super) struct Look {
    /// The line of sight.
    pub(super) sight: Vec3,
    /// The place on the layout's disc, mm.
    pub(super) at: (f32, f32),
    /// The skin's normal.
    pub(super) skin: Vec3,
    /// Cosine between the two.
    pub(super) cosine: f32,
    /// Share of light that the skin mirrors.
    pub(super) mirrored: f32,
    haze: f32,
}

impl Look {
    /// How much longer the way through the glass is than its thickness.
    pub(super) fn path(&self) -> f32 {
        1.0 / refracted(self.cosine)
    }

    /// Share of what comes through on that way that was scattered.
    pub(super) fn hazy(&self) -> f32 {
        1.0 - fast_pow((1.0 - self.haze).at_least(1e-4), self.path())
    }

    /// What the outer face lets through, next to what it does straight on.
    pub(super) fn face(&self) -> f32 {
        (1.0 - self.mirrored) / (1.0 - R0)
    }
}

impl<'a> Painter<'a> {
    pub(super) fn new(scene: &'a Scene<'a>, paint: &'a Paint<'a>) -> Self {
        let (sin, cos) = sin_cos(f64::from(scene.turn).to_radians());
        let (lamp, gain) = (lamp(scene.lantern, paint), Lantern::gain(paint.passed.inside));
        // Through clear glass the lantern lights the table only where it is seen from there: at a grazing look.
        let spread = lerp(GRAZING, 1.0, paint.passed.haze);
        let leaves = [0, 1, 2]
            .map(|k| spread * lamp[k] * scene.lantern.mean_on_wall() * gain[k] * paint.passed.through[k]);
        Self {
            scene,
            paint,
            studio: Studio::get(),
            ground: scene.ground(),
            tint: scene.around.tint(),
            page: decode(scene.page()),
            field: (scene.around != Surroundings::Studio).then(|| Field::about(scene.cast)),
            lamp,
            gain,
            leaves,
            cos: cos as f32,
            sin: sin as f32,
            mirror: if paint.side == Side::In { -1.0 } else { 1.0 },
        }
    }

    /// The place on the layout's disc of a place on the dome, the piece's turn undone: mm.
    pub(super) fn on_disc(&self, place: Vec3, s: f32) -> (f32, f32) {
        let scale = s / (place.x * place.x + place.y * place.y).sqrt().at_least(1e-6);
        let (x, y) = (place.x * scale, place.y * scale);
        (self.mirror * (self.cos * x + self.sin * y), self.cos * y - self.sin * x)
    }

    /// The direction in the studio of a direction on the layout's disc.
    pub(super) fn in_studio(&self, (x, y): (f32, f32)) -> (f32, f32) {
        let x = self.mirror * x;
        (self.cos * x - self.sin * y, self.sin * x + self.cos * y)
    }

    /// How a pixel of glass is looked at.
    pub(super) fn look(&self, glass: &Glass) -> Look {
        let camera = &self.scene.cast.camera;
        let sight = camera.ray(f32::from(glass.at.0) + 0.5, f32::from(glass.at.1) + 0.5).toward;
        let at = self.on_disc(glass.place, glass.s);
        let skin = self.rippled(glass.normal, at);
        let cosine = (-sight.dot(skin)).at_least(0.02);
        let haze = self.paint.through.map_or(0.0, |field| field.haze_at(at.0, at.1));
        Look { sight, at, skin, cosine, mirrored: fresnel(cosine), haze }
    }

    /// A normal tipped by the ripples of the skin, and by the hills of glass under it if they lie outside.
    pub(super) fn rippled(&self, normal: Vec3, (x, y): (f32, f32)) -> Vec3 {
        let [mut dx, mut dy] = ripple(x, y);
        if self.paint.side == Side::Out {
            let [_, right, up] = self.paint.relief.at(x, y);
            (dx, dy) = (dx + right, dy + up);
        }
        let (wx, wy) = self.in_studio((dx, dy));
        (normal - Vec3::new(wx, wy, 0.0)).unit()
    }

    /// A field at a place, its colors run together along the rounded rim.
    pub(super) fn color(&self, field: &ColorField, glass: &Glass, (x, y): (f32, f32)) -> Linear {
        if glass.around_rim < 0.05 {
            return field.sample(x, y);
        }
        let r = (x * x + y * y).sqrt().at_least(1e-6);
        let (ox, oy) = (x / r, y / r);
        let mut sum = [0.0; 3];
        for (inward, along) in RIM_SAMPLES {
            let color = field.sample(x - ox * inward - oy * along, y - oy * inward + ox * along);
            for k in 0..3 {
                sum[k] += color[k] / RIM_SAMPLES.len() as f32;
            }
        }
        sum
    }

    /// What the piece sends back and passes at a place; accents under the glass included.
    pub(super) fn body(&self, glass: &Glass, at: (f32, f32)) -> (Linear, Linear) {
        let mut shown = self.color(self.paint.shown, glass, at);
        let mut through = self.paint.through.map_or([0.0; 3], |field| self.color(field, glass, at));
        if self.paint.side == Side::In {
            for lump in self.paint.lumps {
                if let Some((_, height)) = lump.over(at.0, at.1) {
                    let share = smoothstep(0.0, 0.55, height);
                    for k in 0..3 {
                        shown[k] = lerp(shown[k], lump.shown[k], share);
                        through[k] *= lump.keeps(through, k, height);
                    }
                }
            }
        }
        (shown, through)
    }

    /// How much of the sheets' edges shows at a place (by path-traced domes), and what they look like by the light that they send back and
    /// that comes out of them.
    pub(super) fn edge(&self, glass: &Glass) -> (f32, Linear, Linear) {
        let share = smoothstep(0.20, 0.55, glass.around_rim);
        if share <= 0.0 {
            return (0.0, [0.0; 3], [0.0; 3]);
        }
        let (shown, through) = self.paint.edge.at(share_around(glass.around_rim));
        (share, shown, through)
    }

    /// The flat color on plain gray.
    pub(super) fn gray(&self, glass: &Glass) -> Linear {
        let at = self.on_disc(glass.place, glass.s);
        let (shown, _) = self.body(glass, at);
        let (share, edge, _) = self.edge(glass);
        [0, 1, 2].map(|k| lerp(shown[k], edge[k], share) * WHITE)
    }

    /// A color of what lies around: the picture ends in the page's own gray, so that it lies on the page without an edge.
    pub(super) fn faded(&self, at: (u16, u16), light: Linear) -> Linear {
        let size = self.scene.cast.camera.size() as f32;
        let kept = match &self.field {
            None => {
                let from_edge = |at: u16| f32::from(at).at_most(size - 1.0 - f32::from(at));
                smoothstep(0.0, 0.10, from_edge(at.0).at_most(from_edge(at.1)) / size)
            }
            Some(Field { middle, half }) => {
                let (x, y) = ((f32::from(at.0) - middle.0) / half.0, (f32::from(at.1) - middle.1) / half.1);
                // With round corners.
                smoothstep(1.0, ROUND, (x * x * x * x + y * y * y * y).sqrt().sqrt())
            }
        };
        tone::shown([0, 1, 2].map(|k| lerp(self.page[k], light[k], kept)))
    }

    /// Light on the glass by day, where its face lies so.
    pub(super) fn daylight(&self, n: Vec3, standing: f32) -> Linear {
        let (light, below) = (self.studio.matte(n, standing), self.studio.from_below(n, standing));
        self.tint.map(|tint| light + tint * below)
    }
}

/// Lawn and sky fade into the page from here on, as a share of their field's half (by eye).
const ROUND: f32 = 0.80;
/// How far that field reaches beyond the piece, as a share of the picture (by eye).
const AROUND: f32 = 0.13;

/// Where lawn or sky is seen, pixels.
struct Field {
    middle: (f32, f32),
    half: (f32, f32),
}

impl Field {
    /// About the glass that is seen.
    fn about(cast: &Cast) -> Self {
        let none = (f32::INFINITY, f32::NEG_INFINITY);
        let wider =
            |(least, most): (f32, f32), at: u16| (least.at_most(f32::from(at)), most.at_least(f32::from(at)));
        let (x, y) = cast
            .glass
            .iter()
            .fold((none, none), |(x, y), glass| (wider(x, glass.at.0), wider(y, glass.at.1)));
        let size = cast.camera.size() as f32;
        let (x, y) = if x.0 > x.1 { ((0.0, size), (0.0, size)) } else { (x, y) };
        let half = |(least, most): (f32, f32)| 0.5 * (most - least) + AROUND * size;
        Self { middle: (0.5 * (x.0 + x.1), 0.5 * (y.0 + y.1)), half: (half(x), half(y)) }
    }
}

/// The lamp's radiance. Behind clear glass it is seen itself, so it is as bright as on a light table; an opaque shell shows what
/// arrives on its inside, so that is under the bare blank.
fn lamp(lantern: &Lantern, paint: &Paint) -> Linear {
    let bright = if paint.clear {
        Lantern::USUAL
    } else {
        lantern.mean_on_wall() * luminance(Lantern::gain(paint.bare))
    };
    paint.lamp.map(|c| c / bright.at_least(0.02))
}
