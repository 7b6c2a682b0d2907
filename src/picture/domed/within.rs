//! A dome lit from within, in the dusk.

use super::painter::Painter;
use crate::base::scalar::{Bounds, fast_pow, lerp};
use crate::color::srgb::Linear;
use crate::optics::colors::TABLE;
use crate::picture::cast::{Behind, Glass, TablePixel};
use crate::picture::lantern::PLATE;
use crate::picture::shell::Ray;

/// What the two faces of the far wall mirror of what is inside, at the slant that it is mostly seen at (as path-traced).
const FAR_MIRROR: f32 = 0.04;
/// Where the light falls on the inside that comes out of the edge, as a share of the disc's radius (by eye).
const EDGE_FROM: f32 = 0.85;
/// How much of its light clear glass lets onto the table outside, next to glass that scatters all of it (as path-traced).
const GRAZING: f32 = 0.05;
/// What daylight is left in the dusk, as a share of full light (by eye).
pub(super) const DUSK: f32 = 0.055;

impl Painter<'_> {
    /// What a pixel of glass shows.
    pub(super) fn within(&self, glass: &Glass, behind: &Behind) -> Linear {
        let look = self.look(glass);
        let (shown, through) = self.body(glass, look.at);
        let dusk = DUSK * self.studio.matte(glass.normal, 1.0);
        let gloss = DUSK * look.mirrored * self.studio.mirrored(look.sight.reflect(look.skin));
        let (face, arrives) = (look.face(), self.on_wall(glass.s));
        let passed = if self.paint.clear {
            let (path, hazy) = (look.path(), look.hazy());
            let beyond = self.inside(behind, &Ray { from: glass.place, toward: look.sight });
            [0, 1, 2]
                .map(|k| face * fast_pow(through[k].at_least(1e-5), path) * lerp(beyond[k], arrives[k], hazy))
        } else {
            [0, 1, 2].map(|k| face * through[k] * arrives[k])
        };
        let mut out = [0, 1, 2].map(|k| passed[k] + shown[k] * dusk);
        let (share, shown, through) = self.edge(glass);
        if share > 0.0 {
            let gathered = self.on_wall(EDGE_FROM * self.scene.shell.flat_radius());
            out = [0, 1, 2].map(|k| lerp(out[k], through[k] * gathered[k] + shown[k] * dusk, share));
        }
        out.map(|c| c + gloss)
    }

    /// Lamplight on the inside of the glass: direct, and what glass and table throw about.
    pub(super) fn on_wall(&self, s: f32) -> Linear {
        let direct = self.scene.lantern.on_wall(s);
        [0, 1, 2].map(|k| self.lamp[k] * direct * self.gain[k])
    }

    /// What a look through the clear near wall meets inside: the lantern, the far wall or the table in its light.
    fn inside(&self, behind: &Behind, ray: &Ray) -> Linear {
        let lantern = self.scene.lantern;
        let (seen, cover) = lantern.seen(ray).unwrap_or((0.0, 0.0));
        if cover >= 1.0 {
            return self.lamp.map(|c| c * seen);
        }
        let around = match (behind.wall, behind.table) {
            (Some((place, s)), _) => {
                let (x, y) = self.on_disc(place, s);
                let (shown, arrives) = (self.paint.shown.sample(x, y), self.on_wall(s));
                [0, 1, 2].map(|k| (shown[k] + FAR_MIRROR) * arrives[k] + DUSK * self.ground[k])
            }
            (None, Some((place, _))) => {
                let direct = lantern.on_plate((place.x * place.x + place.y * place.y).sqrt());
                [0, 1, 2].map(|k| self.lamp[k] * PLATE * direct * self.gain[k])
            }
            (None, None) => self.ground,
        };
        [0, 1, 2].map(|k| lerp(around[k], self.lamp[k] * seen, cover))
    }

    /// The table beside the piece, in the light that leaves its shell: what share of the sky the shell takes up there.
    pub(super) fn table_in_the_dusk(&self, pixel: &TablePixel) -> Linear {
        let shell = 1.0 - pixel.lit.1;
        let on_wall = self.scene.lantern.mean_on_wall();
        // Through clear glass the lantern lights the table only where it is seen from there: at a grazing look.
        let spread = lerp(GRAZING, 1.0, self.paint.passed.haze);
        [0, 1, 2].map(|k| {
            let leaves = self.lamp[k] * on_wall * self.gain[k] * self.paint.passed.through[k];
            self.ground[k] + TABLE * shell * spread * leaves
        })
    }
}
