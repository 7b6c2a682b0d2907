//! The finished dome: body color by how light enters and leaves, gloss of the studio on its skin, the rim, what
//! shows through clear glass, its shadow; or its own glow when it is lit from within.

mod day;
mod lumps;
mod painter;
mod within;

pub use painter::{Paint, Scene};

use super::cast::At;
use super::pixmap::Pixmap;
use super::surroundings::Surroundings;
use super::tone;
use super::view::Light;
use crate::base::lanes::{Four, LANES, Number, counted};
use crate::base::rows::each_row;
use crate::base::scalar::lerp;
use crate::color::srgb::{Linear, decode, encode_four};
use painter::Painter;

/// Pixels that are painted in one go.
const TOGETHER: usize = 1024;

/// Paints a dome on its table.
pub fn paint(scene: &Scene, paint: &Paint, table: &Pixmap) -> Pixmap {
    let mut picture = table.clone();
    let painter = Painter::new(scene, paint);
    put(&mut picture, &scene.cast.glass, |from| {
        let (at, glass) = scene.cast.glass_from(from);
        let color = match scene.light {
            Light::Gray => painter.gray(&glass),
            Light::Day => painter.day(&glass, &scene.cast.behind_from(from)),
            Light::Within => painter.within(&glass, &scene.cast.behind_from(from)),
        };
        over(table, at, tone::shown(color), glass.covered)
    });
    painter.lumps(&mut picture);
    picture
}

/// Paints the table alone, in the piece's shadow or its light: it does not turn with the piece.
pub fn table(scene: &Scene, paint: &Paint) -> Pixmap {
    let size = scene.cast.camera.size();
    let mut picture = Pixmap::filled(size, size, scene.page());
    let painter = Painter::new(scene, paint);
    if scene.around != Surroundings::Studio {
        let ground = painter.ground.map(Four::of);
        each_row(&mut picture.rgba, 4 * size as usize, |y, row| {
            let y = Four::splat(y as f32);
            for (x, pixels) in (0..).step_by(LANES).zip(row.chunks_mut(4 * LANES)) {
                let codes = encode_four(painter.faded((counted(x as f32), y), ground));
                pixels.copy_from_slice(&codes.as_flattened()[..pixels.len()]);
            }
        });
    }
    if scene.light != Light::Gray {
        put(&mut picture, &scene.cast.table, |from| {
            let (at, table) = scene.cast.table_from(from);
            let light = match scene.light {
                Light::Within => painter.table_in_the_dusk(&table),
                _ => painter.table_light((table.x, table.y), table.lit),
            };
            let at = (Four::new(at.map(|at| at.0.into())), Four::new(at.map(|at| at.1.into())));
            encode_four(painter.faded(at, light))
        });
    }
    picture
}

/// Puts pixels where they belong, of which `codes` gives four from one on.
fn put<T: Sync>(
    picture: &mut Pixmap,
    pixels: &[(At, T)],
    codes: impl Fn(usize) -> [[u8; 4]; LANES] + Sync,
) {
    let mut all = vec![[0u8; 4]; pixels.len()];
    each_row(&mut all, TOGETHER, |row, some| {
        for (from, four) in (row * TOGETHER..).step_by(LANES).zip(some.chunks_mut(LANES)) {
            four.copy_from_slice(&codes(from)[..four.len()]);
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
