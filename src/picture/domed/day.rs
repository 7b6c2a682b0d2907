//! A dome by day.

use super::painter::{Look, Painter};
use crate::base::scalar::{Bounds, fast_pow, lerp, smoothstep};
use crate::color::srgb::Linear;
use crate::optics::colors::WHITE;
use crate::picture::cast::{Behind, Glass, TablePixel};
use crate::picture::studio::R0;
use crate::picture::surroundings::Surroundings;
use crate::picture::vec3::Vec3;

impl Painter<'_> {
    /// What a pixel of glass shows.
    pub(super) fn day(&self, glass: &Glass, behind: &Behind) -> Linear {
        let look = self.look(glass);
        // Close to the table little light comes from below (how close is by eye).
        let standing = if self.in_the_air() { 1.0 } else { smoothstep(-6.0, 6.0, glass.place.z) };
        let soft = (look.skin + glass.normal * 2.0).unit();
        let light = self.daylight(soft, standing).map(|light| light * look.face());
        let gloss = self.mirrored(look.sight.reflect(look.skin), standing).map(|seen| look.mirrored * seen);
        let (shown, through) = self.body(glass, look.at);
        let mut out = if self.paint.clear {
            let passed = self.seen_through(glass, &look, through, self.behind(behind, look.sight));
            [0, 1, 2].map(|k| shown[k] * light[k] + passed[k])
        } else {
            let deepened = self.deepened(shown, &look);
            [0, 1, 2].map(|k| deepened[k] * light[k])
        };
        let (share, edge, _) = self.edge(glass);
        if share > 0.0 {
            out = [0, 1, 2].map(|k| lerp(out[k], edge[k] * light[k], share));
        }
        [0, 1, 2].map(|k| out[k] + gloss[k])
    }

    /// What the skin mirrors: the studio, or what lies below, which is dark close under the rim (by eye).
    pub(super) fn mirrored(&self, toward: Vec3, standing: f32) -> Linear {
        let seen = self.studio.mirrored(toward);
        if toward.z >= 0.0 {
            return [seen; 3];
        }
        self.tint.map(|tint| (seen + tint) * lerp(0.5, 1.0, standing))
    }

    /// Whether there is no table near.
    pub(super) fn in_the_air(&self) -> bool {
        self.scene.around == Surroundings::Sky
    }

    /// A slanting path through the powder deepens its color, not the white below it.
    fn deepened(&self, shown: Linear, look: &Look) -> Linear {
        let slant = 0.5 * (look.path() - 1.0);
        [0, 1, 2].map(|k| {
            let over_bare = (shown[k] / self.paint.bare[k].at_least(1e-4)).at_least(1e-4);
            shown[k] * fast_pow(over_bare, slant)
        })
    }

    /// What comes through clear glass from behind, what scatters in it lit from inside, and the gloss of its inner face.
    fn seen_through(&self, glass: &Glass, look: &Look, through: Linear, behind: Linear) -> Linear {
        let (path, hazy, faces) = (look.path(), look.hazy(), look.face() * look.face());
        // Near its outline the inner face reflects all light (how soon all of it is by eye), and the wall looks as thick as it is.
        let sine = (1.0 - look.cosine * look.cosine).at_least(0.0).sqrt();
        let out = (glass.normal.x * glass.normal.x + glass.normal.y * glass.normal.y).sqrt();
        let radius = (glass.place.x * glass.place.x + glass.place.y * glass.place.y).sqrt();
        let limit = 1.0 - self.scene.shell.thickness() * out / radius.at_least(1e-3);
        let total = smoothstep(limit - 0.03, limit + 0.02, sine);
        let inner = self.inner_light(glass.normal.z);
        let second = look.mirrored * (1.0 - look.mirrored) * (1.0 - look.mirrored) * (1.0 - total);
        let mirrored = self.mirrored(look.sight.reflect(glass.normal), 1.0).map(|seen| second * seen);
        [0, 1, 2].map(|k| {
            let glass = fast_pow((through[k] / FACES).at_least(1e-4), path);
            let straight = lerp(behind[k], inner * self.paint.passed.through[k], hazy);
            let turned =
                lerp(faces * glass * glass * TURNED_BACK, inner * self.paint.passed.through[k], hazy);
            lerp(FACES * faces * glass * straight, turned, total) + mirrored[k] * glass * glass
        })
    }

    /// Light on the inside of a clear wall: the table below and the room beyond the far wall (by eye).
    fn inner_light(&self, up: f32) -> f32 {
        (0.30 + 0.22 * up) * WHITE
    }

    /// What a look through the near wall meets: the table, with the far wall before it or not.
    fn behind(&self, behind: &Behind, sight: Vec3) -> Linear {
        let beyond = match behind.table {
            _ if self.in_the_air() => self.ground,
            Some((place, lit)) => self.table_light(place.x, place.y, lit),
            None => [self.studio.mirrored(behind.ray.map_or(sight, |ray| ray.toward)); 3],
        };
        let Some((place, s)) = behind.wall else { return beyond };
        let (x, y) = self.on_disc(place, s);
        let shown = self.paint.shown.sample(x, y);
        let through = self.paint.through.map_or(shown, |field| field.sample(x, y));
        let inner = self.inner_light(0.0);
        [0, 1, 2].map(|k| through[k] * beyond[k] + (shown[k] + R0) * inner)
    }

    /// The table beside the piece.
    pub(super) fn table_by_day(&self, pixel: &TablePixel) -> Linear {
        self.table_light(pixel.x, pixel.y, pixel.lit)
    }

    /// The table's own light, in the shadow that the piece lets its own color into.
    fn table_light(&self, x: f32, y: f32, (key, room): (f32, f32)) -> Linear {
        if self.in_the_air() {
            return self.ground;
        }
        let share = self.studio.key_share();
        // Under the dome light has crossed the glass once, outside it twice.
        let under = x * x + y * y < self.scene.shell.rim().0 * self.scene.shell.rim().0;
        [0, 1, 2].map(|k| {
            let once = self.paint.passed.through[k];
            let tint = if under { once } else { once * once };
            let (key, room) = (lerp(tint, 1.0, key), lerp(tint, 1.0, room));
            self.ground[k] * lerp(room, key, share)
        })
    }
}

/// Light that the inner face turns back near the outline: mostly the table's (as path-traced).
const TURNED_BACK: f32 = 0.33;
/// What the two faces of a clear sheet let through.
const FACES: f32 = (1.0 - R0) * (1.0 - R0);
