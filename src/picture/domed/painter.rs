//! What painting a dome needs by any light.

use crate::base::lanes::{Four, Number};
use crate::base::scalar::{Bounds, fast_pow, lerp, sin_cos, smoothstep};
use crate::color::srgb::{Linear, decode, luminance};
use crate::fuse::relief::Relief;
use crate::layup::field::Lattice;
use crate::optics::colors::{ColorField, WHITE};
use crate::optics::edge::Edge;
use crate::optics::palette::Passed;
use crate::picture::cast::{Camera, Glass};
use crate::picture::lantern::Lantern;
use crate::picture::lump::Lump;
use crate::picture::rim::share_around;
use crate::picture::shell::Shell;
use crate::picture::studio::{DUSK, R0, Studio, TABLE_DAY, TABLE_DUSK, fresnel, refracted};
use crate::picture::surface::ripples;
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
    /// The eye.
    pub camera: Camera,
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
    ripples: &'static Lattice<2>,
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

/// Looks at four places of the glass.
pub(super) struct Look {
    /// The lines of sight.
    pub(super) sight: Vec3<Four>,
    /// The places on the layout's disc, mm.
    pub(super) at: (Four, Four),
    /// The skin's normals.
    pub(super) skin: Vec3<Four>,
    /// Cosines between the two.
    pub(super) cosine: Four,
    /// Shares of light that the skin mirrors.
    pub(super) mirrored: Four,
    /// How much longer the way through the glass is than its thickness.
    pub(super) path: Four,
}

impl Look {
    /// Share of what comes through on that way that was scattered, of which straight on it is the haze.
    pub(super) fn hazy(&self, haze: Four) -> Four {
        -fast_pow((-haze + 1.0).at_least(Four::of(1e-4)), self.path) + 1.0
    }

    /// What the outer face lets through, next to what it does straight on.
    pub(super) fn face(&self) -> Four {
        (-self.mirrored + 1.0) * (1.0 / (1.0 - R0))
    }
}

/// What the glass sends back and passes at four places, and how much of that was scattered.
pub(super) struct Body {
    pub(super) shown: Linear<Four>,
    pub(super) through: Linear<Four>,
    pub(super) haze: Four,
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
            ripples: ripples(),
            ground: scene.ground(),
            tint: scene.around.tint(),
            page: decode(scene.page()),
            field: (scene.around != Surroundings::Studio).then(|| Field::about(scene.shell, &scene.camera)),
            lamp,
            gain,
            leaves,
            cos: cos as f32,
            sin: sin as f32,
            mirror: if paint.side == Side::In { -1.0 } else { 1.0 },
        }
    }

    /// The place on the layout's disc of a place on the dome, the piece's turn undone: mm.
    #[inline]
    pub(super) fn on_disc<N: Number>(&self, place: Vec3<N>, s: N) -> (N, N) {
        let scale = s / place.from_axis().at_least(N::of(1e-6));
        let (x, y) = (place.x * scale, place.y * scale);
        ((x * self.cos + y * self.sin) * self.mirror, y * self.cos - x * self.sin)
    }

    /// The direction in the studio of a direction on the layout's disc.
    #[inline]
    pub(super) fn in_studio<N: Number>(&self, (x, y): (N, N)) -> (N, N) {
        let x = x * self.mirror;
        (x * self.cos - y * self.sin, x * self.sin + y * self.cos)
    }

    /// How four pixels of glass are looked at.
    #[inline]
    pub(super) fn look(&self, glass: &Glass<Four>) -> Look {
        let sight = (glass.place - Vec3::of(self.scene.camera.eye())).unit();
        let at = self.on_disc(glass.place, glass.s);
        let skin = self.rippled(glass.normal, at);
        let cosine = (-sight.dot(skin)).at_least(Four::of(0.02));
        let path = Four::of(1.0) / refracted(cosine);
        Look { sight, at, skin, cosine, mirrored: fresnel(cosine), path }
    }

    /// A normal tipped by the ripples of the skin, and by the hills of glass under it if they lie outside.
    #[inline]
    fn rippled(&self, normal: Vec3<Four>, (x, y): (Four, Four)) -> Vec3<Four> {
        let [mut dx, mut dy] = self.ripples.all(x, y);
        if self.paint.side == Side::Out {
            let [_, right, up] = self.paint.relief.at(x, y);
            (dx, dy) = (dx + right, dy + up);
        }
        let (wx, wy) = self.in_studio((dx, dy));
        Vec3::new(normal.x - wx, normal.y - wy, normal.z).unit()
    }

    /// A field at four places, its colors run together along the rounded rim, and its haze.
    #[inline]
    fn color(&self, field: &ColorField, glass: &Glass<Four>, (x, y): (Four, Four)) -> (Linear<Four>, Four) {
        let (color, haze) = field.sample_with_haze(x, y);
        if !glass.around_rim.any_above(0.05) {
            return (color, haze);
        }
        let r = (x * x + y * y).root().at_least(Four::of(1e-6));
        let (ox, oy) = (x / r, y / r);
        let mut sum = [Four::of(0.0); 3];
        for (inward, along) in RIM_SAMPLES {
            let color = field.sample(x - ox * inward - oy * along, y - oy * inward + ox * along);
            for k in 0..3 {
                sum[k] += color[k] / RIM_SAMPLES.len() as f32;
            }
        }
        ([0, 1, 2].map(|k| glass.around_rim.above(Four::of(0.05), sum[k], color[k])), haze)
    }

    /// What the piece sends back and passes at four places; accents under the glass included.
    #[inline]
    pub(super) fn body(&self, glass: &Glass<Four>, at: (Four, Four)) -> Body {
        let (mut shown, _) = self.color(self.paint.shown, glass, at);
        let none = ([Four::of(0.0); 3], Four::of(0.0));
        let (mut through, haze) = self.paint.through.map_or(none, |field| self.color(field, glass, at));
        if self.paint.side == Side::In {
            for lump in self.paint.lumps {
                if let Some((_, height)) = lump.over(at.0, at.1) {
                    let share = smoothstep(0.0, 0.55, height);
                    for k in 0..3 {
                        shown[k] = lerp(shown[k], Four::of(lump.shown[k]), share);
                        through[k] *= lump.keeps(through[k], k, height);
                    }
                }
            }
        }
        Body { shown, through, haze }
    }

    /// How much of the sheets' edges shows at four places (by path-traced domes), and what they look like by the light that they send back
    /// and that comes out of them; none if nothing shows of them.
    pub(super) fn edge(&self, glass: &Glass<Four>) -> Option<(Four, Linear<Four>, Linear<Four>)> {
        let from = 0.20;
        if !glass.around_rim.any_above(from) {
            return None;
        }
        let share = smoothstep(from, 0.55, glass.around_rim);
        let (shown, through) = self.paint.edge.at(share_around(glass.around_rim));
        Some((share, shown, through))
    }

    /// The flat color on plain gray.
    pub(super) fn gray(&self, glass: &Glass<Four>) -> Linear<Four> {
        let mut shown = self.body(glass, self.on_disc(glass.place, glass.s)).shown;
        if let Some((share, edge, _)) = self.edge(glass) {
            shown = [0, 1, 2].map(|k| lerp(shown[k], edge[k], share));
        }
        shown.map(|c| c * WHITE)
    }

    /// Colors of what lies around, at pixels (column, row): the picture ends in the page's own gray, so that it lies on the page without an
    /// edge.
    #[inline]
    pub(super) fn faded(&self, at: (Four, Four), light: Linear<Four>) -> Linear<Four> {
        let size = self.scene.camera.size() as f32;
        let kept = match &self.field {
            None => {
                let from_edge = |at: Four| at.at_most(-at + (size - 1.0));
                smoothstep(0.0, 0.10, from_edge(at.0).at_most(from_edge(at.1)) / size)
            }
            Some(Field { middle, half }) => {
                let (x, y) = ((at.0 - middle.0) / half.0, (at.1 - middle.1) / half.1);
                // With round corners.
                smoothstep(1.0, ROUND, (x * x * x * x + y * y * y * y).root().root())
            }
        };
        tone::shown([0, 1, 2].map(|k| lerp(Four::of(self.page[k]), light[k], kept)))
    }

    /// Light on the glass by day, where its face lies so.
    #[inline]
    pub(super) fn daylight(&self, n: Vec3<Four>, standing: Four) -> Linear<Four> {
        self.tinted(self.studio.matte(n, standing), self.studio.from_below(n, standing))
    }

    /// Gray light, and the tint of what of it comes from below.
    #[inline]
    pub(super) fn tinted(&self, light: Four, below: Four) -> Linear<Four> {
        // In the studio, where everything below is gray too, it is one channel's work.
        if self.scene.around == Surroundings::Studio {
            return [light; 3];
        }
        self.tint.map(|tint| light + below * tint)
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
    fn about(shell: &Shell, camera: &Camera) -> Self {
        let size = camera.size() as f32;
        let none = (f32::INFINITY, f32::NEG_INFINITY);
        let wider = |(least, most): (f32, f32), at: f32| (least.at_most(at), most.at_least(at));
        let (x, y) = outline(shell).fold((none, none), |(x, y), place| {
            let (across, down, _) = camera.project(place);
            (wider(x, across.clamp(0.0, size)), wider(y, down.clamp(0.0, size)))
        });
        let half = |(least, most): (f32, f32)| 0.5 * (most - least) + AROUND * size;
        Self { middle: (0.5 * (x.0 + x.1), 0.5 * (y.0 + y.1)), half: (half(x), half(y)) }
    }
}

/// Places all over both faces of the glass, mm.
fn outline(shell: &Shell) -> impl Iterator<Item = Vec3> {
    const RINGS: u16 = 40;
    const AROUND: u16 = 64;
    let half = 0.5 * shell.thickness();
    (0..=RINGS).flat_map(move |ring| {
        let (r, z, out, up) = shell.at_flat(shell.flat_radius() * f32::from(ring) / f32::from(RINGS));
        (0..AROUND).flat_map(move |turn| {
            let (sin, cos) = sin_cos(f64::from(turn) * std::f64::consts::TAU / f64::from(AROUND));
            [half, -half].map(|half| {
                let r = r + half * out;
                Vec3::new(r * cos as f32, r * sin as f32, z + half * up)
            })
        })
    })
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
