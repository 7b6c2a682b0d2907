//! Domes of one color: the place of the layout that every pixel shows, and its light by day, lit from within and on gray, worked
//! out from the ball, the studio and the lantern.

use super::ball::*;
use super::pieces::*;
use super::studio_light::{gloss, mirrored_share};
use dappledome::base::scalar::{pow, sin_cos};
use dappledome::color::srgb::{Linear, decode};
use dappledome::fuse::relief::Relief;
use dappledome::optics::colors::{ColorField, LAMP, TABLE, WHITE, lamp_for};
use dappledome::optics::edge::{Band, Edge};
use dappledome::optics::palette::Passed;
use dappledome::picture::cast::{Camera, Cast, Glass};
use dappledome::picture::domed::{Paint, Painting, Scene};
use dappledome::picture::lantern::{Lantern, PLATE};
use dappledome::picture::lump::Lump;
use dappledome::picture::shade::Shade;
use dappledome::picture::shell::{Ray, Shell};
use dappledome::picture::studio::{R0, Studio, TABLE_DUSK};
use dappledome::picture::surface::ripples;
use dappledome::picture::surroundings::Surroundings;
use dappledome::picture::{Light, Pixmap};
use dappledome::recipe::Side;

const SIZE: u32 = 128;

struct Bench {
    shell: Shell,
    shade: Shade,
    lantern: Lantern,
    camera: Camera,
    cast: Cast,
    turn: f32,
}

impl Bench {
    fn new(tilt: f32, turn: f32) -> Self {
        let shell = shell();
        let shade = Shade::new(&shell);
        let camera = Camera::new(&shell, SIZE, tilt, 1.0);
        let cast = Cast::new(&shell, &shade, &camera, true, 0);
        Self { lantern: Lantern::new(&shell), camera, cast, shade, shell, turn }
    }

    fn paint(&self, paint: &Paint, light: Light) -> Pixmap {
        self.paint_in(Surroundings::Studio, paint, light)
    }

    fn paint_in(&self, around: Surroundings, paint: &Paint, light: Light) -> Pixmap {
        let (shell, lantern, camera) = (&self.shell, &self.lantern, self.camera);
        let scene = Scene { shell, lantern, camera, turn: self.turn, light, around };
        Painting::begun(&scene, paint).with_table(&self.cast).with_glass(&self.cast).done()
    }

    /// Pixels that are glass all over, with the look to each and the place that it meets; the face, not the rounded end.
    fn faces(&self) -> Vec<Look> {
        self.looks(|glass| glass.around_rim == 0.0)
    }

    fn looks(&self, which: impl Fn(&Glass) -> bool) -> Vec<Look> {
        let whole = self
            .cast
            .glass
            .iter()
            .zip(&self.cast.behind)
            .filter(|((_, glass), _)| glass.covered >= 1.0 && which(glass));
        whole
            .filter_map(|((pixel, _), behind)| {
                let ray = self.camera.ray(f32::from(pixel.0) + 0.5, f32::from(pixel.1) + 0.5);
                let (from, sight) = (wide(ray.from), wide(ray.toward));
                let place = sum(from, sight, meets(from, sight, 300.0).ok()?);
                let near = near_place(place);
                let r = (place[0] * place[0] + place[1] * place[1]).sqrt();
                let normal = [place[0] / r * near.out, place[1] / r * near.out, near.up];
                let at = self.on_disc([place[0] * near.s / r, place[1] * near.s / r]);
                let (wall, s, meets_wall) = behind.wall;
                let wall = (meets_wall > 0.0).then(|| {
                    let r = f64::from(wall.x * wall.x + wall.y * wall.y).sqrt();
                    self.on_disc([f64::from(wall.x * s) / r, f64::from(wall.y * s) / r])
                });
                let ((x, y), lit, meets_table) = behind.table;
                let table = (meets_table > 0.0).then(|| ([f64::from(x), f64::from(y)], lit));
                Some(Look { pixel: *pixel, sight, place, normal, s: near.s, at, wall, table })
            })
            .collect()
    }

    /// A place about the axis, the turn of the piece undone.
    fn on_disc(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        let (sin, cos) = sin_cos(f64::from(self.turn).to_radians());
        [cos * x + sin * y, cos * y - sin * x]
    }

    /// Light on the inside of the glass, by a lamp of 1: the direct, and `gain - 1` times it thrown about, six tenths of that where the
    /// direct light is and the rest evenly.
    fn arrives(&self, s: f64, gain: f64) -> f64 {
        let direct = f64::from(self.lantern.on_wall(s as f32));
        direct + (gain - 1.0) * (0.6 * direct + 0.4 * f64::from(self.lantern.mean_on_wall()))
    }

    /// Light on its outside at dusk: a little daylight, and a fifth of what leaves the piece from the table, to the glass that faces it and is
    /// close to it: half as much 12 mm up.
    fn outside(&self, look: &Look, leaves: f64) -> f64 {
        let dusk = 0.0792 * f64::from(Studio::get().matte(narrow(look.normal), 1.0));
        dusk + 0.2 * leaves * (1.0 - look.normal[2]) / 2.0 * 12.0 / (12.0 + look.place[2])
    }

    /// The normal of the rippled skin. The ripples lie on the layout.
    fn skin(&self, look: &Look) -> V {
        self.skin_on(look, 0.0)
    }

    /// The same on a face that rises to the right of the layout.
    fn skin_on(&self, look: &Look, rise: f32) -> V {
        let (sin, cos) = sin_cos(f64::from(self.turn).to_radians());
        let [dx, dy] = ripples().all(look.at[0] as f32, look.at[1] as f32).map(f64::from);
        let dx = dx + f64::from(rise);
        unit(sum(look.normal, [cos * dx - sin * dy, sin * dx + cos * dy, 0.0], -1.0))
    }
}

/// A look that meets the face of the glass.
struct Look {
    pixel: (u16, u16),
    sight: V,
    place: V,
    normal: V,
    s: f64,
    at: [f64; 2],
    wall: Option<[f64; 2]>,
    table: Option<([f64; 2], (f32, f32))>,
}

/// What a dome is painted with.
struct Colors {
    shown: ColorField,
    through: Option<ColorField>,
    bare: Linear,
    bare_through: Linear,
    passed: Passed,
    relief: Relief,
    edge: Edge,
    clear: bool,
    side: Side,
    lumps: Vec<Lump>,
}

impl Colors {
    fn of(shown: ColorField) -> Self {
        let edge = Edge(vec![Band { upto: 1.0, shown: [0.05, 0.1, 0.5], through: [0.02, 0.05, 0.2] }]);
        Self {
            shown,
            through: None,
            bare: [0.7, 0.6, 0.5],
            bare_through: [0.3, 0.25, 0.2],
            passed: Passed { through: [0.0; 3], inside: [0.7, 0.6, 0.5], haze: 1.0 },
            relief: level(),
            edge,
            clear: false,
            side: Side::Out,
            lumps: Vec::new(),
        }
    }

    fn paint(&self) -> Paint<'_> {
        Paint {
            shown: &self.shown,
            through: self.through.as_ref(),
            bare: self.bare,
            lamp: lamp_for(LAMP, self.bare_through),
            passed: &self.passed,
            relief: &self.relief,
            edge: &self.edge,
            clear: self.clear,
            side: self.side,
            lumps: &self.lumps,
        }
    }
}

fn ramp(low: f64, high: f64, x: f64) -> f64 {
    let t = ((x - low) / (high - low)).clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}

fn mix(a: f64, b: f64, share: f64) -> f64 {
    a + (b - a) * share
}

/// What a skin lets in and out, relative to straight on.
fn lets_through(mirrored: f64) -> f64 {
    (1.0 - mirrored) / (1.0 - mirrored_share(1.0))
}

/// Cosine inside the glass (Snell).
fn inside(cosine: f64) -> f64 {
    (1.0 - (1.0 - cosine * cosine) / (1.52 * 1.52)).sqrt()
}

const QUARTERS: [Linear; 4] = [[0.5, 0.1, 0.1], [0.1, 0.5, 0.1], [0.1, 0.1, 0.5], [0.4, 0.4, 0.1]];

fn quarter(x: f64, y: f64) -> Linear {
    QUARTERS[match (x > 0.0, y > 0.0) {
        (true, true) => 0,
        (false, true) => 1,
        (false, false) => 2,
        (true, false) => 3,
    }]
}

/// On gray every place shows the color that lies there: turned with the piece, and the mirror image with the powder inside.
#[test]
fn a_dome_shows_the_place_that_lies_there() {
    for (turn, side) in [(0.0, Side::Out), (130.0, Side::Out), (40.0, Side::In)] {
        let bench = Bench::new(60.0, turn);
        let mut colors = Colors::of(field(|x, y| quarter(x.into(), y.into())));
        colors.side = side;
        let picture = bench.paint(&colors.paint(), Light::Gray);
        let mirror = if side == Side::In { -1.0 } else { 1.0 };
        let mut counted = [0; 4];
        for look in bench.faces() {
            let [x, y] = [mirror * look.at[0], look.at[1]];
            if x.abs() > 1.5 && y.abs() > 1.5 && look.s < 77.0 {
                let want = quarter(x, y);
                counted[QUARTERS.iter().position(|color| *color == want).unwrap_or(0)] += 1;
                let got = light(&picture, look.pixel.0.into(), look.pixel.1.into());
                same(
                    &format!("{side:?}, turned {turn}, {:?}", look.at),
                    got,
                    want.map(|c| f64::from(c * WHITE)),
                );
            }
        }
        assert!(counted.iter().all(|count| *count > 300), "{counted:?}");
    }
}

/// The rounded end has the sheets' edges, past a soft beginning.
#[test]
fn the_rounded_end_shows_the_edges() {
    let bench = Bench::new(15.0, 0.0);
    let picture = bench.paint(&Colors::of(plain([0.5, 0.3, 0.2])).paint(), Light::Gray);
    let want = [0.05, 0.1, 0.5].map(|c: f64| c * f64::from(WHITE));
    let ends = bench.looks(|glass| glass.around_rim > 0.8);
    assert!(ends.len() > 40);
    for look in ends {
        same("the end", light(&picture, look.pixel.0.into(), look.pixel.1.into()), want);
    }
}

/// By day an opaque dome is its color in the studio's light on its skin, less what the skin mirrors, deepened by the slant of the way
/// through the powder, and what the skin mirrors.
#[test]
fn an_opaque_dome_by_day() {
    let studio = Studio::get();
    let color = [0.4f32, 0.25, 0.1];
    for (around, tilt, turn, rise) in [
        (Surroundings::Studio, 33.0, 0.0, 0.0),
        (Surroundings::Studio, 70.0, 75.0, 0.0),
        (Surroundings::Studio, 33.0, 75.0, 0.08),
        (Surroundings::Lawn, 33.0, 0.0, 0.0),
        (Surroundings::Sky, 12.0, 0.0, 0.0),
    ] {
        let bench = Bench::new(tilt, turn);
        let mut colors = Colors::of(plain(color));
        colors.relief = wedge(rise);
        let picture = bench.paint_in(around, &colors.paint(), Light::Day);
        // What lies below is the table, or a lawn in the same light; in the air nothing stands close to it.
        let greener = match around {
            Surroundings::Studio => [0.0; 3],
            _ => decode([87, 108, 67]).map(|c| (f64::from(c) - 0.3631) * f64::from(WHITE)),
        };
        let (mut count, mut off) = (0, 0);
        for look in bench.faces() {
            let skin = bench.skin_on(&look, rise);
            let cosine = -dot(look.sight, skin);
            let standing = if around == Surroundings::Sky { 1.0 } else { ramp(-6.0, 6.0, look.place[2]) };
            let thrown_down = sum(look.sight, skin, -2.0 * dot(look.sight, skin))[2] < 0.0;
            let (mirrored, share) = gloss(look.sight, skin, |d| f64::from(studio.mirrored(d)));
            let soft = unit(sum(skin, look.normal, 2.0));
            let lit = f64::from(studio.matte(narrow(soft), standing as f32));
            // Of the hemisphere, what is below; diffuse light enters a face by 1 - 0.0947, that along its normal by 1 - 0.0426.
            let from_below = 0.5 * (1.0 - soft[2]) * standing * (1.0 - 0.094_707) / (1.0 - 0.042_580);
            let want: [f64; 3] = std::array::from_fn(|k| {
                let (c, bare) = (f64::from(color[k]), f64::from(colors.bare[k]));
                let lit = (lit + from_below * greener[k]) * lets_through(share);
                let mirrored = if thrown_down {
                    (mirrored + share * greener[k]) * mix(0.5, 1.0, standing)
                } else {
                    mirrored
                };
                c * pow(c / bare, 0.5 * (1.0 / inside(cosine) - 1.0)) * lit + mirrored
            });
            // Within a few mm of the rim the relief is a mean over the disc alone.
            let whole = rise == 0.0 || look.s < 70.0;
            if whole && cosine > 0.2 && want.iter().all(|c| *c < 0.76) {
                let got = light(&picture, look.pixel.0.into(), look.pixel.1.into());
                // A light's edge or the horizon in the skin moves by a hundredth of a degree.
                off += usize::from(!alike(got, want, 0.02));
                count += 1;
            }
        }
        println!("opaque by day, {around:?}: {off} of {count} pixels off");
        assert!(count > 1500 && off < count / 100, "{off} of {count} pixels are not what they must be");
    }
}

fn alike(got: [f64; 3], want: [f64; 3], share: f64) -> bool {
    (0..3).all(|k| (got[k] - want[k]).abs() < 0.002 + share * want[k])
}

#[track_caller]
fn same_to(what: &str, got: [f64; 3], want: [f64; 3], share: f64) {
    assert!(alike(got, want, share), "{what}: {got:?}, not {want:?}");
}

/// The table by day: the soft light and the room, each as far as the ball leaves it free, tinted by what the glass passes, once under
/// it and twice beside it.
#[test]
fn the_table_by_day() {
    let bench = Bench::new(33.0, 0.0);
    let mut colors = Colors::of(plain([0.4; 3]));
    colors.passed.through = [0.5, 0.2, 0.0];
    let picture = bench.paint(&colors.paint(), Light::Day);
    let (mut count, mut shaded) = (0, 0);
    for (at, pixel) in bench.cast.table.iter().filter(|(at, _)| beside_the_glass(&bench, *at)) {
        let want = table_light(&bench, colors.passed.through, [pixel.x.into(), pixel.y.into()], pixel.lit);
        let got = light(&picture, at.0.into(), at.1.into());
        same_to(&format!("{at:?}"), got, want, 0.01);
        (count, shaded) = (count + 1, shaded + usize::from(want[2] < 0.25));
    }
    assert!(count > 2000 && shaded > 100, "{count}, {shaded} in shadow");
}

/// On a lawn the same in green; against the sky there is no table to be shaded, and the piece stands in the sky's blue. Toward the
/// picture's edge both end in the page's gray.
#[test]
fn lawn_and_sky_lie_around_the_piece() {
    let bench = Bench::new(20.0, 0.0);
    let mut colors = Colors::of(plain([0.4; 3]));
    colors.passed.through = [0.5, 0.2, 0.0];
    let whole = |at: (u16, u16)| {
        let out = |at: u16| 2.0 * (f64::from(at) + 0.5) / f64::from(SIZE) - 1.0;
        out(at.0).abs() < 0.70 && out(at.1).abs() < 0.45
    };
    for (around, codes) in [(Surroundings::Lawn, [87, 108, 67]), (Surroundings::Sky, [98, 122, 157])] {
        let picture = bench.paint_in(around, &colors.paint(), Light::Day);
        let flat = decode(codes).map(|c| f64::from(c) * f64::from(WHITE));
        let (mut count, mut shaded) = (0, 0);
        for (at, pixel) in
            bench.cast.table.iter().filter(|(at, _)| beside_the_glass(&bench, *at) && whole(*at))
        {
            let on_gray =
                table_light(&bench, colors.passed.through, [pixel.x.into(), pixel.y.into()], pixel.lit);
            let share = |k: usize| if around == Surroundings::Lawn { on_gray[k] / 0.304_987 } else { 1.0 };
            let want = std::array::from_fn(|k| flat[k] * share(k));
            let got = light(&picture, at.0.into(), at.1.into());
            same_to(&format!("{around:?} {at:?}"), got, want, 0.02);
            (count, shaded) = (count + 1, shaded + usize::from(share(2) < 0.8));
        }
        assert!(
            count > 500 && (shaded > 50) == (around == Surroundings::Lawn),
            "{around:?}: {count}, {shaded}"
        );
        let corner = light(&picture, 0, 0);
        same_to("corner", corner, [0.304_987; 3], 0.01);
    }
}

/// Through clear glass one sees the sky where nothing else is in the way.
#[test]
fn a_clear_dome_shows_the_sky_behind_it() {
    let bench = Bench::new(20.0, 0.0);
    let mut colors = Colors::of(plain([0.0; 3]));
    (colors.through, colors.clear) = (Some(plain([0.9; 3])), true);
    let [sky, table] = [Surroundings::Sky, Surroundings::Studio]
        .map(|around| bench.paint_in(around, &colors.paint(), Light::Day));
    let (mut bluer, mut count) = (0, 0);
    for look in bench.faces().iter().filter(|look| -dot(look.sight, look.normal) > 0.6) {
        let at = |picture| light(picture, look.pixel.0.into(), look.pixel.1.into());
        let (blue, gray) = (at(&sky), at(&table));
        bluer += usize::from(blue[2] / blue[0] > 1.2 && (gray[2] / gray[0] - 1.0).abs() < 0.1);
        count += 1;
    }
    assert!(count > 500 && bluer > count * 9 / 10, "{bluer} of {count}");
}

/// Not at the picture's edge, where the table ends in its own gray, nor where the glass covers some of the pixel.
fn beside_the_glass(bench: &Bench, at: (u16, u16)) -> bool {
    let edge = |at: u16| u32::from(at).min(SIZE - 1 - u32::from(at));
    edge(at.0).min(edge(at.1)) > SIZE / 10 && !bench.cast.glass.iter().any(|glass| glass.0 == at)
}

fn table_light(bench: &Bench, passed: Linear, [x, y]: [f64; 2], (key, room): (f32, f32)) -> [f64; 3] {
    let share = f64::from(Studio::get().key_share());
    let under = (x * x + y * y).sqrt() < rim().0;
    let (got_key, got_room) = bench.shade.at(x as f32, y as f32);
    assert!((got_key - key).abs() < 1e-3 && (got_room - room).abs() < 1e-3, "the light of that place");
    passed.map(|passed| {
        let tint = if under { f64::from(passed) } else { f64::from(passed * passed) };
        let light = |free: f32| f64::from(free) + (1.0 - f64::from(free)) * tint;
        // 0x96 in full light.
        0.304_987 * mix(light(room), light(key), share)
    })
}

/// Through a clear dome one sees the table, or the far wall before it, by Beer and Lambert along the way through the glass and twice
/// less what its two faces mirror; the inner face mirrors the studio too.
#[test]
fn a_clear_dome_by_day() {
    let studio = Studio::get();
    let through = [0.8f32, 0.6, 0.3];
    let mut colors = Colors::of(plain([0.02; 3]));
    (colors.through, colors.clear, colors.passed.through) = (Some(plain(through)), true, [0.7, 0.6, 0.4]);
    let faces = (1.0 - f64::from(R0)) * (1.0 - f64::from(R0));
    let (mut count, mut walls, mut off) = (0, 0, 0);
    let benches = [Bench::new(40.0, 20.0), Bench::new(14.0, 20.0)];
    let pictures = benches.each_ref().map(|bench| bench.paint(&colors.paint(), Light::Day));
    for (bench, picture, look) in benches
        .iter()
        .zip(&pictures)
        .flat_map(|(bench, picture)| bench.faces().into_iter().map(move |look| (bench, picture, look)))
    {
        let skin = bench.skin(&look);
        let cosine = -dot(look.sight, skin);
        let standing = ramp(-6.0, 6.0, look.place[2]);
        let (mirrored, share) = gloss(look.sight, skin, |d| f64::from(studio.mirrored(d)));
        let thrown_down = sum(look.sight, skin, -2.0 * dot(look.sight, skin))[2] < 0.0;
        // Beyond this sine the inner face mirrors all.
        let out = (look.normal[0] * look.normal[0] + look.normal[1] * look.normal[1]).sqrt();
        let radius = (look.place[0] * look.place[0] + look.place[1] * look.place[1]).sqrt();
        let limit = 1.0 - 6.0 * out / radius;
        if thrown_down || cosine < 0.25 || (1.0 - cosine * cosine).sqrt() > limit - 0.04 {
            continue;
        }
        let soft = unit(sum(skin, look.normal, 2.0));
        let lit = f64::from(studio.matte(narrow(soft), standing as f32)) * lets_through(share);
        let second = share * (1.0 - share) * (1.0 - share);
        let smooth = sum(look.sight, look.normal, -2.0 * dot(look.sight, look.normal));
        let second = second * f64::from(studio.mirrored(narrow(smooth)));
        let beyond = match look.table {
            Some((place, lit)) => table_light(bench, colors.passed.through, place, lit),
            None => [f64::from(studio.mirrored(narrow(look.sight))); 3],
        };
        let inner = 0.30 * f64::from(WHITE);
        let want: [f64; 3] = std::array::from_fn(|k| {
            let one = f64::from(through[k]);
            let behind = if look.wall.is_some() {
                one * beyond[k] + (0.02 + f64::from(R0)) * inner
            } else {
                beyond[k]
            };
            let glass = pow(one / faces, 1.0 / inside(cosine));
            0.02 * lit
                + faces * lets_through(share) * lets_through(share) * glass * behind
                + second * glass * glass
                + mirrored
        });
        if want.iter().all(|c| *c < 0.76) {
            let got = light(picture, look.pixel.0.into(), look.pixel.1.into());
            off += usize::from(!alike(got, want, 0.02));
            (count, walls) = (count + 1, walls + usize::from(look.wall.is_some()));
        }
    }
    println!("clear by day: {off} of {count} pixels off, {walls} with a far wall");
    assert!(count > 1000 && walls > 100 && count > walls, "{count}, {walls} with a far wall");
    assert!(off < count / 100, "{off} of {count} pixels are not what they must be");
}

/// Lit from within an opaque dome passes the lamp's light on its inside: direct, and what glass and plate throw about. The lamp is so bright
/// that the bare blank shows well.
#[test]
fn an_opaque_dome_lit_from_within() {
    let studio = Studio::get();
    let bench = Bench::new(33.0, 0.0);
    let mut colors = Colors::of(plain([0.4, 0.3, 0.2]));
    let through = [0.06f32, 0.04, 0.02];
    (colors.through, colors.passed.through) = (Some(plain(through)), [0.15, 0.1, 0.05]);
    let picture = bench.paint(&colors.paint(), Light::Within);
    let gain = Lantern::gain(colors.passed.inside).map(f64::from);
    let luminance = 0.212_639 * gain[0] + 0.715_169 * gain[1] + 0.072_192 * gain[2];
    let bright = f64::from(bench.lantern.mean_on_wall()) * luminance;
    let lamp = lamp_for(LAMP, colors.bare_through).map(|c| f64::from(c) / bright);
    let leaves = |k: usize| {
        lamp[k] * f64::from(bench.lantern.mean_on_wall()) * gain[k] * f64::from(colors.passed.through[k])
    };
    let mut count = 0;
    for look in bench.faces() {
        let skin = bench.skin(&look);
        let (mirrored, share) = gloss(look.sight, skin, |d| f64::from(studio.mirrored(d)));
        let want: [f64; 3] = std::array::from_fn(|k| {
            let arrives = lamp[k] * bench.arrives(look.s, gain[k]);
            let outside = bench.outside(&look, leaves(k));
            lets_through(share) * f64::from(through[k]) * arrives
                + [0.4, 0.3, 0.2][k] * outside
                + 0.0792 * mirrored
        });
        if -dot(look.sight, skin) > 0.2 && want.iter().all(|c| *c < 0.76) {
            same_to(
                &format!("{:?}", look.pixel),
                light(&picture, look.pixel.0.into(), look.pixel.1.into()),
                want,
                0.02,
            );
            count += 1;
        }
    }
    assert!(count > 2000, "{count}");
    // The table beside it has what leaves the shell, by the share of its sky that the shell takes up.
    let dusk = light(&Pixmap::filled(1, 1, TABLE_DUSK), 0, 0)[0];
    for (at, pixel) in bench.cast.table.iter().filter(|(at, _)| beside_the_glass(&bench, *at)) {
        let want: [f64; 3] =
            std::array::from_fn(|k| dusk + f64::from(TABLE) * (1.0 - f64::from(pixel.lit.1)) * leaves(k));
        same_to("the table", light(&picture, at.0.into(), at.1.into()), want, 0.02);
    }
}

/// Through clear glass one sees the lantern itself, the far wall and the plate in its light.
#[test]
fn a_clear_dome_lit_from_within() {
    let studio = Studio::get();
    let bench = Bench::new(40.0, 0.0);
    let mut colors = Colors::of(plain([0.02; 3]));
    let through = [0.8f32, 0.6, 0.3];
    (colors.through, colors.clear, colors.bare_through) = (Some(plain(through)), true, [2.5; 3]);
    const HAZE: f64 = 0.25;
    colors.passed = Passed { through: [0.5, 0.4, 0.2], haze: HAZE as f32, ..colors.passed };
    let picture = bench.paint(&colors.paint(), Light::Within);
    let gain = Lantern::gain(colors.passed.inside).map(f64::from);
    let lamp = lamp_for(LAMP, colors.bare_through).map(|c| f64::from(c / Lantern::USUAL));
    let dusk_table = light(&Pixmap::filled(1, 1, TABLE_DUSK), 0, 0)[0];
    let mut counted = [0; 3];
    for look in bench.faces() {
        let skin = bench.skin(&look);
        let cosine = -dot(look.sight, skin);
        let (mirrored, share) = gloss(look.sight, skin, |d| f64::from(studio.mirrored(d)));
        let Some((from, toward)) = super::ball::inside(look.place, look.sight) else { continue };
        let seen = bench.lantern.seen(&Ray { from: narrow(from), toward: narrow(toward) });
        let upright = -dot(toward, look.normal);
        if seen.is_some_and(|cap| cap.cover < 1.0) || cosine < 0.2 || upright < 0.2 {
            continue;
        }
        let beyond: [f64; 3] = std::array::from_fn(|k| match (seen, look.wall, look.table) {
            (Some(cap), ..) => {
                lamp[k] * (f64::from(cap.bright) + gain[k] * f64::from(bench.lantern.thrown_back(&cap)))
            }
            (None, Some(at), _) => {
                let s = (at[0] * at[0] + at[1] * at[1]).sqrt();
                (0.02 + 0.06 * (1.0 - HAZE)) * lamp[k] * bench.arrives(s, gain[k])
                    + f64::from(colors.passed.through[k]) * dusk_table
            }
            (None, None, Some(([x, y], _))) => {
                let direct = f64::from(bench.lantern.on_plate((x * x + y * y).sqrt() as f32));
                lamp[k] * f64::from(PLATE) * direct * gain[k]
            }
            (None, None, None) => dusk_table,
        });
        let want: [f64; 3] = std::array::from_fn(|k| {
            let glass = pow(f64::from(through[k]), 1.0 / inside(cosine));
            // A hundredth of the light, and the share that scatters, is let onto the table outside.
            let spread = 0.01 + 0.99 * HAZE;
            let mean = f64::from(bench.lantern.mean_on_wall());
            let leaves = spread * lamp[k] * mean * gain[k] * f64::from(colors.passed.through[k]);
            lets_through(share) * glass * beyond[k] + 0.02 * bench.outside(&look, leaves) + 0.0792 * mirrored
        });
        if want.iter().all(|c| *c < 0.76) {
            same_to(
                &format!("{:?}", look.pixel),
                light(&picture, look.pixel.0.into(), look.pixel.1.into()),
                want,
                0.025,
            );
            let what = if seen.is_some() {
                0
            } else if look.wall.is_some() {
                1
            } else {
                2
            };
            counted[what] += 1;
        }
    }
    // The table has what of the lamp scatters on its way out, and a hundredth of the rest.
    let mean = f64::from(bench.lantern.mean_on_wall());
    for (at, pixel) in bench.cast.table.iter().filter(|(at, _)| beside_the_glass(&bench, *at)) {
        let want: [f64; 3] = std::array::from_fn(|k| {
            let leaves =
                (0.01 + 0.99 * HAZE) * lamp[k] * mean * gain[k] * f64::from(colors.passed.through[k]);
            dusk_table + f64::from(TABLE) * (1.0 - f64::from(pixel.lit.1)) * leaves
        });
        same_to("the table", light(&picture, at.0.into(), at.1.into()), want, 0.02);
    }
    assert!(counted.iter().all(|count| *count > 60), "lantern, wall and plate: {counted:?}");
}

/// Accents: on the outside half ellipsoids that stand out of the glass, under the glass with the powder inside; turned and mirrored as
/// the layout is.
#[test]
fn accents_lie_where_they_were_set() {
    let mut colors = Colors::of(plain([0.5, 0.3, 0.2]));
    let green = [0.1, 0.5, 0.1];
    for (turn, side) in [(0.0f32, Side::Out), (100.0, Side::Out), (100.0, Side::In)] {
        let bench = Bench::new(75.0, turn);
        (colors.side, colors.lumps) = (side, vec![lump(25.0, 15.0, green, [0.3; 3], 1.0)]);
        let picture = bench.paint(&colors.paint(), Light::Gray);
        let mirror = if side == Side::In { -1.0 } else { 1.0 };
        let (mut on, mut beside) = (0, 0);
        for look in bench.faces() {
            let (dx, dy) = (mirror * look.at[0] - 25.0, look.at[1] - 15.0);
            let off = (dx * dx + dy * dy).sqrt();
            let got = light(&picture, look.pixel.0.into(), look.pixel.1.into());
            if off < 2.0 {
                same(&format!("on it, {side:?}"), got, green.map(|c| f64::from(c * WHITE)));
                on += 1;
            } else if off > 7.0 {
                same(&format!("beside it, {side:?}"), got, [0.5, 0.3, 0.2].map(|c| c * f64::from(WHITE)));
                beside += 1;
            }
        }
        assert!(on >= 2 && beside > 2000, "{on} {beside}");
    }
}

/// By day an accent outside is lit on its own round, and mirrors the studio in it; lit from within it passes the light on the glass below it.
#[test]
fn accents_outside_have_a_round_of_their_own() {
    let studio = Studio::get();
    let bench = Bench::new(60.0, 0.0);
    let (x, y) = (-20.0, 10.0);
    let mut colors = Colors::of(plain([0.4, 0.3, 0.2]));
    let (shown, through) = ([0.1f32, 0.3, 0.1], [0.05f32, 0.08, 0.02]);
    colors.through = Some(plain([0.1; 3]));
    colors.lumps = vec![lump(x, y, shown, through, 1.0)];
    let (day, within) =
        (bench.paint(&colors.paint(), Light::Day), bench.paint(&colors.paint(), Light::Within));
    let s = f64::from(x * x + y * y).sqrt();
    let (cosine, sine) = (cosine(s), (1.0 - cosine(s) * cosine(s)).sqrt());
    let axis = [f64::from(x) / s * sine, f64::from(y) / s * sine, cosine];
    let middle = sum([0.0, 0.0, middle()], axis, RADIUS + HALF);
    let (px, py, _) = bench.camera.project(narrow(sum(middle, axis, 0.64 * 4.0)));
    let (px, py) = (px as u32, py as u32);
    let gain = Lantern::gain(colors.passed.inside).map(f64::from);
    let luminance = 0.212_639 * gain[0] + 0.715_169 * gain[1] + 0.072_192 * gain[2];
    let lamp = lamp_for(LAMP, colors.bare_through)
        .map(|c| f64::from(c) / (f64::from(bench.lantern.mean_on_wall()) * luminance));
    // The four looks of the pixel, each to where it meets the half ellipsoid.
    let (mut by_day, mut lit) = ([0.0; 3], [0.0; 3]);
    for (dx, dy) in [(0.25, 0.25), (0.75, 0.25), (0.25, 0.75), (0.75, 0.75)] {
        let ray = bench.camera.ray(px as f32 + dx, py as f32 + dy);
        let sight = wide(ray.toward);
        let squash = |v: V| {
            let along = dot(v, axis);
            sum(sum(v, axis, -along).map(|x| x / (4.0 * 1.06)), axis, along / (4.0 * 0.64))
        };
        let (o, d) = (squash(sum(wide(ray.from), middle, -1.0)), squash(sight));
        let root = (dot(o, d) * dot(o, d) - dot(d, d) * (dot(o, o) - 1.0)).sqrt();
        let hit = sum(o, d, (-dot(o, d) - root) / dot(d, d));
        let height = dot(hit, axis);
        assert!(height > 0.6, "near the top of it: {height}");
        let normal = unit(squash(hit));
        let (mirrored, share) = gloss(sight, normal, |d| f64::from(studio.mirrored(d)));
        let light = f64::from(studio.matte(narrow(unit(sum(normal, axis, 1.0))), 1.0));
        let dusk = 0.0792 * f64::from(studio.matte(narrow(normal), 1.0));
        let focus = ramp(0.80, 1.0, -dot(sight, normal));
        let gathered = mix(1.0, mix(0.85, 1.9, focus), height);
        for k in 0..3 {
            let (shown, through) = (f64::from(shown[k]), f64::from(through[k]));
            by_day[k] += (shown * light + mirrored) / 4.0;
            let passed = 0.1 * pow(through / 0.1, height) * gathered * lamp[k] * bench.arrives(s, gain[k]);
            lit[k] += (passed + shown * dusk + 0.0792 * mirrored) / 4.0;
        }
        assert!(share < 0.1);
    }
    same_to("by day", light(&day, px, py), by_day, 0.02);
    same_to("lit from within", light(&within, px, py), lit, 0.02);
}
