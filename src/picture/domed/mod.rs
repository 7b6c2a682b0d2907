//! The finished dome: body color by how light enters and leaves, gloss of the studio on its skin, the rim, what
//! shows through clear glass, its shadow; or its own glow when it is lit from within.

mod day;
mod lumps;
mod painter;
mod within;

pub use painter::{Paint, Scene};

use super::cast::Behind;
use super::pixmap::Pixmap;
use super::surroundings::Surroundings;
use super::tone;
use super::view::Light;
use crate::base::scalar::lerp;
use crate::color::srgb::{Linear, decode, encode};
use painter::Painter;

/// Paints a dome on its table.
pub fn paint(scene: &Scene, paint: &Paint, table: &Pixmap) -> Pixmap {
    let mut picture = table.clone();
    let painter = Painter::new(scene, paint);
    let nothing = Behind::default();
    for (i, glass) in scene.cast.glass.iter().enumerate() {
        let behind = scene.cast.behind.get(i).unwrap_or(&nothing);
        let color = match scene.light {
            Light::Gray => painter.gray(glass),
            Light::Day => painter.day(glass, behind),
            Light::Within => painter.within(glass, behind),
        };
        blend(&mut picture, glass.at, tone::shown(color), glass.covered);
    }
    painter.lumps(&mut picture);
    picture
}

/// Paints the table alone, in the piece's shadow or its light: it does not turn with the piece.
pub fn table(scene: &Scene, paint: &Paint) -> Pixmap {
    let size = scene.cast.camera.size();
    let mut picture = Pixmap::filled(size, size, scene.page());
    let painter = Painter::new(scene, paint);
    if scene.around != Surroundings::Studio {
        let pixels = (0..size as u16).flat_map(|y| (0..size as u16).map(move |x| (x, y)));
        pixels.for_each(|at| put(&mut picture, at, encode(painter.faded(at, painter.ground))));
    }
    for pixel in &scene.cast.table {
        let light = match scene.light {
            Light::Gray => break,
            Light::Day => painter.table_by_day(pixel),
            Light::Within => painter.table_in_the_dusk(pixel),
        };
        put(&mut picture, pixel.at, encode(painter.faded(pixel.at, light)));
    }
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
