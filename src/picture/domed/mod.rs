//! The finished dome: body color by how light enters and leaves, gloss of the studio on its skin, the rim, what
//! shows through clear glass, its shadow; or its own glow when it is lit from within.

mod day;
mod lumps;
mod painter;
mod within;

pub use painter::{Paint, Scene};

use super::cast::{At, Cast};
use super::pixmap::Pixmap;
use super::surroundings::Surroundings;
use super::tone;
use super::view::Light;
use crate::base::lanes::{Four, LANES, Number};
use crate::base::rows::each_row;
use crate::base::scalar::lerp;
use crate::color::srgb::{Linear, decode, encode_four};
use painter::Painter;

/// Pixels that are painted in one go.
const TOGETHER: usize = 1024;

/// A dome being painted: the table, over it the glass, band by band, and then its accents.
pub struct Painting<'a> {
    painter: Painter<'a>,
    picture: Pixmap,
}

impl<'a> Painting<'a> {
    /// The page, or the lawn and the sky that lie around the piece.
    pub fn begun(scene: &'a Scene<'a>, paint: &'a Paint<'a>) -> Self {
        let painter = Painter::new(scene, paint);
        Self { picture: around(&painter), painter }
    }

    /// Over a table that was painted before: it does not turn with the piece.
    pub fn over(scene: &'a Scene<'a>, paint: &'a Paint<'a>, table: &Pixmap) -> Self {
        Self { painter: Painter::new(scene, paint), picture: table.clone() }
    }

    /// Paints what a band sees of the table, in the piece's shadow or its light.
    #[must_use]
    pub fn with_table(mut self, cast: &Cast) -> Self {
        if self.painter.scene.light != Light::Gray {
            put(&mut self.picture, &cast.table, |_, from| table(&self.painter, cast, from));
        }
        self
    }

    /// Paints what a band sees of the glass.
    #[must_use]
    pub fn with_glass(mut self, cast: &Cast) -> Self {
        let (painter, light) = (&self.painter, self.painter.scene.light);
        put(&mut self.picture, &cast.glass, |picture, from| {
            let (at, glass) = cast.glass_from(from);
            let color = match light {
                Light::Gray => painter.gray(&glass),
                Light::Day => painter.day(&glass, &cast.behind_from(from)),
                Light::Within => painter.within(&glass, &cast.behind_from(from)),
            };
            over(picture, at, tone::shown(color), glass.covered)
        });
        self
    }

    /// The picture so far.
    pub fn so_far(self) -> Pixmap {
        self.picture
    }

    /// The picture with the accents over all bands.
    pub fn done(mut self) -> Pixmap {
        self.painter.lumps(&mut self.picture);
        self.picture
    }
}

/// Four pixels of the table.
fn table(painter: &Painter, cast: &Cast, from: usize) -> [[u8; 4]; LANES] {
    let (at, table) = cast.table_from(from);
    let light = match painter.scene.light {
        Light::Within => painter.table_in_the_dusk(&table),
        _ => painter.table_light((table.x, table.y), table.lit),
    };
    let at = (Four::new(at.map(|at| at.0.into())), Four::new(at.map(|at| at.1.into())));
    encode_four(painter.faded(at, light))
}

/// A picture of what lies around the piece.
fn around(painter: &Painter) -> Pixmap {
    let scene = painter.scene;
    let size = scene.camera.size();
    let mut picture = Pixmap::filled(size, size, scene.page());
    if scene.around != Surroundings::Studio {
        let ground = painter.ground.map(Four::of);
        picture.paint(|x, y| Some(painter.faded((x, y), ground)));
    }
    picture
}

/// Puts pixels where they belong, of which `codes` gives four from one on, by the picture as it was.
fn put<T: Sync>(
    picture: &mut Pixmap,
    pixels: &[(At, T)],
    codes: impl Fn(&Pixmap, usize) -> [[u8; 4]; LANES] + Sync,
) {
    let (mut all, seen) = (vec![[0u8; 4]; pixels.len()], &*picture);
    each_row(&mut all, TOGETHER, |row, some| {
        for (from, four) in (row * TOGETHER..).step_by(LANES).zip(some.chunks_mut(LANES)) {
            four.copy_from_slice(&codes(seen, from)[..four.len()]);
        }
    });
    for ((at, _), code) in pixels.iter().zip(all) {
        picture.put(*at, code);
    }
}

/// Colors over pixels of a picture, laid on in linear light.
#[inline]
fn over(picture: &Pixmap, at: [At; LANES], color: Linear<Four>, covered: Four) -> [[u8; 4]; LANES] {
    if !(-covered).any_above(-1.0) {
        return encode_four(color);
    }
    let under = at.map(|at| decode(picture.pixel(at.0.into(), at.1.into())));
    let under = [0, 1, 2].map(|k| Four::new(under.map(|color| color[k])));
    encode_four([0, 1, 2].map(|k| lerp(under[k], color[k], covered)))
}
