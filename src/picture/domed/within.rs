//! A dome lit from within, in the dusk.

use super::painter::{Body, Painter};
use crate::base::lanes::{Four, Number};
use crate::base::scalar::{Bounds, fast_pow, lerp};
use crate::color::srgb::Linear;
use crate::picture::cast::{Behind, Glass, Table};
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
    /// What four pixels of glass show.
    #[inline]
    pub(super) fn within(&self, glass: &Glass<Four>, behind: &Behind<Four>) -> Linear<Four> {
        let look = self.look(glass);
        let Body { shown, through, haze } = self.body(glass, look.at);
        let outside = self.outside(glass);
        let gloss = look.mirrored * self.studio.mirrored(look.sight.reflect(look.skin)) * DUSK;
        let (face, arrives) = (look.face(), self.on_wall(glass.s));
        let passed = if self.paint.clear {
            let (hazy, beyond) = (look.hazy(haze), self.inside(behind));
            [0, 1, 2].map(|k| {
                let kept = fast_pow(through[k].at_least(Four::of(1e-5)), look.path);
                face * kept * lerp(beyond[k], arrives[k], hazy)
            })
        } else {
            [0, 1, 2].map(|k| face * through[k] * arrives[k])
        };
        let mut out = [0, 1, 2].map(|k| passed[k] + shown[k] * outside[k]);
        if let Some((share, shown, through)) = self.edge(glass) {
            let gathered = self.on_wall(EDGE_FROM * self.scene.shell.flat_radius());
            out = [0, 1, 2].map(|k| lerp(out[k], through[k] * gathered[k] + shown[k] * outside[k], share));
        }
        out.map(|c| c + gloss)
    }

    /// Light on the outside of the glass: the dusk, and what the table close by throws back of the light that the piece lets
    /// onto it.
    fn outside(&self, glass: &Glass<Four>) -> Linear<Four> {
        let dusk = self.studio.matte(glass.normal, Four::of(1.0)) * DUSK;
        if self.in_the_air() {
            return [dusk; 3];
        }
        let high = glass.place.z.at_least(Four::of(0.0)) / GLOW_HEIGHT;
        let near = (-glass.normal.z + 1.0) * (0.5 * GLOW) / (high + 1.0);
        let sends_back = self.scene.around.below();
        [0, 1, 2].map(|k| dusk + near * (self.leaves[k] * (sends_back[k] / TABLE)))
    }

    /// Lamplight on the inside of the glass: direct, and what glass and table throw about.
    #[inline]
    pub(super) fn on_wall<N: Number>(&self, s: N) -> Linear<N> {
        let light = self.scene.lantern.on_wall_in_all(s, self.gain);
        [0, 1, 2].map(|k| light[k] * self.lamp[k])
    }

    /// What looks through the clear near wall meet inside: the lantern, the far wall or the table in its light.
    fn inside(&self, behind: &Behind<Four>) -> Linear<Four> {
        let (lantern, none) = (self.scene.lantern, Four::of(0.0));
        let (place, _, meets_table) = behind.table;
        let direct = lantern.on_plate((place.0 * place.0 + place.1 * place.1).root()) * PLATE;
        let mut seen = [0, 1, 2].map(|k| {
            let plate = direct * (self.lamp[k] * self.gain[k]);
            meets_table.above(none, plate, Four::of(self.ground[k]))
        });
        let (place, s, meets_wall) = behind.wall;
        if meets_wall.any_above(0.0) {
            let (x, y) = self.on_disc(place, s);
            let (shown, arrives) = (self.paint.shown.sample(x, y), self.on_wall(s));
            let mirrored = FAR_MIRROR * (1.0 - self.paint.passed.haze);
            seen = [0, 1, 2].map(|k| {
                let behind = self.paint.passed.through[k] * self.ground[k];
                meets_wall.above(none, (shown[k] + mirrored) * arrives[k] + behind, seen[k])
            });
        }
        if let Some(cap) = lantern.seen(&behind.ray.0) {
            let (thrown_back, cover) = (lantern.thrown_back(&cap), behind.ray.1 * cap.cover);
            seen = [0, 1, 2]
                .map(|k| lerp(seen[k], (thrown_back * self.gain[k] + cap.bright) * self.lamp[k], cover));
        }
        seen
    }

    /// The table beside the piece, in the light that leaves its shell: what share of the sky the shell takes up there.
    pub(super) fn table_in_the_dusk(&self, table: &Table<Four>) -> Linear<Four> {
        if self.in_the_air() {
            return self.ground.map(Four::of);
        }
        let (shell, sends_back) = (-table.lit.1 + 1.0, self.scene.around.below());
        [0, 1, 2].map(|k| shell * (sends_back[k] * self.leaves[k]) + self.ground[k])
    }
}
