//! A dome by day.

use super::painter::{Body, Look, Painter};
use crate::base::lanes::{Four, Number};
use crate::base::scalar::{Bounds, eased, fast_pow, lerp, smoothstep};
use crate::color::srgb::Linear;
use crate::optics::colors::WHITE;
use crate::picture::cast::{Behind, Glass};
use crate::picture::studio::R0;
use crate::picture::surroundings::Surroundings;
use crate::picture::vec3::Vec3;

impl Painter<'_> {
    /// What four pixels of glass show.
    #[inline]
    pub(super) fn day(&self, glass: &Glass<Four>, behind: &Behind<Four>) -> Linear<Four> {
        let look = self.look(glass);
        // Close to the table little light comes from below (how close is by eye).
        let standing = if self.in_the_air() { Four::of(1.0) } else { smoothstep(-6.0, 6.0, glass.place.z) };
        let soft = (look.skin + glass.normal * Four::of(2.0)).unit();
        let face = look.face();
        let light = self.daylight(soft, standing).map(|light| light * face);
        let gloss = self.mirrored(look.sight.reflect(look.skin), standing).map(|seen| look.mirrored * seen);
        let body = self.body(glass, look.at);
        let mut out = if self.paint.clear {
            let passed = self.seen_through(glass, &look, &body, self.behind(behind, look.sight));
            [0, 1, 2].map(|k| body.shown[k] * light[k] + passed[k])
        } else {
            let deepened = self.deepened(body.shown, &look);
            [0, 1, 2].map(|k| deepened[k] * light[k])
        };
        if let Some((share, edge, _)) = self.edge(glass) {
            out = [0, 1, 2].map(|k| lerp(out[k], edge[k] * light[k], share));
        }
        [0, 1, 2].map(|k| out[k] + gloss[k])
    }

    /// What the skin mirrors: the studio, or what lies below, which is dark close under the rim (by eye).
    #[inline]
    pub(super) fn mirrored(&self, toward: Vec3<Four>, standing: Four) -> Linear<Four> {
        let seen = self.studio.mirrored(toward);
        let near = Four::of(0.0).above(toward.z, standing * 0.5 + 0.5, Four::of(1.0));
        let below = Four::of(0.0).above(toward.z, near, Four::of(0.0));
        self.tinted(seen * near, below)
    }

    /// Whether there is no table near.
    pub(super) fn in_the_air(&self) -> bool {
        self.scene.around == Surroundings::Sky
    }

    /// A slanting path through the powder deepens its color, not the white below it.
    #[inline]
    fn deepened(&self, shown: Linear<Four>, look: &Look) -> Linear<Four> {
        let (slant, least) = ((look.path - 1.0) * 0.5, Four::of(1e-4));
        [0, 1, 2].map(|k| {
            let over_bare = shown[k] / self.paint.bare[k].at_least(1e-4);
            shown[k] * fast_pow(over_bare.at_least(least), slant)
        })
    }

    /// What comes through clear glass from behind, what scatters in it lit from inside, and the gloss of its inner face.
    fn seen_through(
        &self,
        glass: &Glass<Four>,
        look: &Look,
        body: &Body,
        behind: Linear<Four>,
    ) -> Linear<Four> {
        let (face, hazy) = (look.face(), look.hazy(body.haze));
        let faces = face * face;
        // Near its outline the inner face reflects all light (how soon all of it is by eye), and the wall looks as thick as it is.
        let sine = (-(look.cosine * look.cosine) + 1.0).at_least(Four::of(0.0)).root();
        let out = glass.normal.from_axis() / glass.place.from_axis().at_least(Four::of(1e-3));
        let limit = out * -self.scene.shell.thickness() + 1.0;
        let total = eased((sine - limit + 0.03) / 0.05);
        let inner = self.inner_light(glass.normal.z);
        let second = look.mirrored * (-look.mirrored + 1.0) * (-look.mirrored + 1.0) * (-total + 1.0);
        let mirrored = self.mirrored(look.sight.reflect(glass.normal), Four::of(1.0));
        [0, 1, 2].map(|k| {
            let glass = fast_pow((body.through[k] / FACES).at_least(Four::of(1e-4)), look.path);
            let lit = inner * self.paint.passed.through[k];
            let straight = lerp(behind[k], lit, hazy);
            let turned = lerp(faces * glass * glass * TURNED_BACK, lit, hazy);
            lerp(faces * glass * straight * FACES, turned, total) + second * mirrored[k] * glass * glass
        })
    }

    /// Light on the inside of a clear wall: the table below and the room beyond the far wall (by eye).
    fn inner_light(&self, up: Four) -> Four {
        (up * 0.22 + 0.30) * WHITE
    }

    /// What looks through the near wall meet: the table, with the far wall before it or not.
    fn behind(&self, behind: &Behind<Four>, sight: Vec3<Four>) -> Linear<Four> {
        let none = Four::of(0.0);
        let beyond = if self.in_the_air() {
            self.ground.map(Four::of)
        } else {
            let (place, lit, meets) = behind.table;
            let ray = Vec3::where_above(behind.ray.1, none, behind.ray.0.toward, sight);
            let (room, table) = (self.studio.mirrored(ray), self.table_light(place, lit));
            table.map(|table| meets.above(none, table, room))
        };
        let (place, s, meets) = behind.wall;
        if !meets.any_above(0.0) {
            return beyond;
        }
        let (x, y) = self.on_disc(place, s);
        let shown = self.paint.shown.sample(x, y);
        let through = self.paint.through.map_or(shown, |field| field.sample(x, y));
        let inner = self.inner_light(none);
        [0, 1, 2].map(|k| {
            let wall = through[k] * beyond[k] + (shown[k] + R0) * inner;
            meets.above(none, wall, beyond[k])
        })
    }

    /// The table's own light, in the shadow that the piece lets its own color into.
    #[inline]
    pub(super) fn table_light(&self, (x, y): (Four, Four), (key, room): (Four, Four)) -> Linear<Four> {
        if self.in_the_air() {
            return self.ground.map(Four::of);
        }
        // Under the dome light has crossed the glass once, outside it twice.
        let rim = self.scene.shell.rim().0;
        let under = -(x * x + y * y) + rim * rim;
        let open = lerp(room, key, Four::of(self.studio.key_share()));
        [0, 1, 2].map(|k| {
            let once = self.paint.passed.through[k];
            let tint = under.above(Four::of(0.0), Four::of(once), Four::of(once * once));
            lerp(tint, Four::of(1.0), open) * self.ground[k]
        })
    }
}

/// Light that the inner face turns back near the outline: mostly the table's (as path-traced).
const TURNED_BACK: f32 = 0.33;
/// What the two faces of a clear sheet let through.
const FACES: f32 = (1.0 - R0) * (1.0 - R0);
