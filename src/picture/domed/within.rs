//! A dome lit from within, in the dusk.

use super::painter::Painter;
use crate::base::scalar::{Bounds, fast_pow, lerp};
use crate::color::srgb::Linear;
use crate::picture::cast::{Behind, Glass, TablePixel};
use crate::picture::lantern::PLATE;
use crate::picture::studio::{DUSK, TABLE};

/// What the two faces of the far wall mirror of what is inside, at the slant that it is mostly seen at (as path-traced).
const FAR_MIRROR: f32 = 0.06;
/// Where the light falls on the inside that comes out of the edge, as a share of the disc's radius (by eye).
const EDGE_FROM: f32 = 0.85;
/// How much of the light that leaves the piece comes back to its foot from the table, and over what height, mm, half of that is
/// lost (own fit to path-traced domes).
const GLOW: f32 = 0.2;
const GLOW_HEIGHT: f32 = 12.0;

impl Painter<'_> {
    /// What a pixel of glass shows.
    pub(super) fn within(&self, glass: &Glass, behind: &Behind) -> Linear {
        let look = self.look(glass);
        let (shown, through) = self.body(glass, look.at);
        let outside = self.outside(glass);
        let gloss = DUSK * look.mirrored * self.studio.mirrored(look.sight.reflect(look.skin));
        let (face, arrives) = (look.face(), self.on_wall(glass.s));
        let passed = if self.paint.clear {
            let (path, hazy) = (look.path(), look.hazy());
            let beyond = self.inside(behind);
            [0, 1, 2]
                .map(|k| face * fast_pow(through[k].at_least(1e-5), path) * lerp(beyond[k], arrives[k], hazy))
        } else {
            [0, 1, 2].map(|k| face * through[k] * arrives[k])
        };
        let mut out = [0, 1, 2].map(|k| passed[k] + shown[k] * outside[k]);
        let (share, shown, through) = self.edge(glass);
        if share > 0.0 {
            let gathered = self.on_wall(EDGE_FROM * self.scene.shell.flat_radius());
            out = [0, 1, 2].map(|k| lerp(out[k], through[k] * gathered[k] + shown[k] * outside[k], share));
        }
        out.map(|c| c + gloss)
    }

    /// Light on the outside of the glass: the dusk, and what the table close by throws back of the light that the piece lets
    /// onto it.
    fn outside(&self, glass: &Glass) -> Linear {
        let dusk = DUSK * self.studio.matte(glass.normal, 1.0);
        if self.in_the_air() {
            return [dusk; 3];
        }
        let near = 0.5 * (1.0 - glass.normal.z) / (1.0 + glass.place.z.at_least(0.0) / GLOW_HEIGHT);
        let sends_back = self.scene.around.below();
        [0, 1, 2].map(|k| dusk + GLOW * near * (self.leaves[k] * (sends_back[k] / TABLE)))
    }

    /// Lamplight on the inside of the glass: direct, and what glass and table throw about.
    pub(super) fn on_wall(&self, s: f32) -> Linear {
        let light = self.scene.lantern.on_wall_in_all(s, self.gain);
        [0, 1, 2].map(|k| self.lamp[k] * light[k])
    }

    /// What a look through the clear near wall meets inside: the lantern, the far wall or the table in its light.
    fn inside(&self, behind: &Behind) -> Linear {
        let lantern = self.scene.lantern;
        let cap = behind.ray.and_then(|ray| lantern.seen(&ray));
        let seen = cap.map_or([0.0; 3], |cap| {
            let thrown_back = lantern.thrown_back(&cap);
            [0, 1, 2].map(|k| self.lamp[k] * (cap.bright + self.gain[k] * thrown_back))
        });
        let cover = cap.map_or(0.0, |cap| cap.cover);
        if cover >= 1.0 {
            return seen;
        }
        let around = match (behind.wall, behind.table) {
            (Some((place, s)), _) => {
                let (x, y) = self.on_disc(place, s);
                let (shown, arrives) = (self.paint.shown.sample(x, y), self.on_wall(s));
                let mirrored = FAR_MIRROR * (1.0 - self.paint.passed.haze);
                [0, 1, 2].map(|k| {
                    (shown[k] + mirrored) * arrives[k] + self.paint.passed.through[k] * self.ground[k]
                })
            }
            (None, Some((place, _))) => {
                let direct = lantern.on_plate((place.x * place.x + place.y * place.y).sqrt());
                [0, 1, 2].map(|k| self.lamp[k] * PLATE * direct * self.gain[k])
            }
            (None, None) => self.ground,
        };
        [0, 1, 2].map(|k| lerp(around[k], seen[k], cover))
    }

    /// The table beside the piece, in the light that leaves its shell: what share of the sky the shell takes up there.
    pub(super) fn table_in_the_dusk(&self, pixel: &TablePixel) -> Linear {
        if self.in_the_air() {
            return self.ground;
        }
        let (shell, sends_back) = (1.0 - pixel.lit.1, self.scene.around.below());
        [0, 1, 2].map(|k| self.ground[k] + sends_back[k] * shell * self.leaves[k])
    }
}
