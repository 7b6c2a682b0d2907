//! Shadow on the table: how much of the soft light and of the room's light the piece keeps from each place.

use super::shell::{Ray, Shell};
use super::studio::Studio;
use super::vec3::{Vec3, gathered};
use crate::base::lanes::Number;
use crate::base::scalar::{diamond_turn, lerp, smoothstep};

/// How far from the axis the table is not simply its own gray, in radii of the piece (by eye).
pub const REACH: f32 = 2.0;
/// Rings of the shadow map inside the rim, and outside it; they crowd toward the rim, where shadow is sharpest.
const RINGS: usize = 18;
/// Spokes of the shadow map.
const SPOKES: usize = 30;
/// Rays toward the soft light, along a side.
const KEY_RAYS: usize = 4;
/// Rays into the room.
const ROOM_RAYS: usize = 40;

/// Light that reaches the table, by place: 1 is all of it.
#[derive(Clone, Debug)]
pub struct Shade {
    reach: f32,
    rim: f32,
    /// Of the soft light: spoke by spoke, the first once more at the end, from the axis outward.
    key: Vec<[f32; 1]>,
    /// Of the room's light, from the axis outward.
    room: Vec<f32>,
}

impl Shade {
    /// The shadow of a shell.
    pub fn new(shell: &Shell) -> Self {
        let mut shade =
            Self { reach: REACH * shell.widest(), rim: shell.rim().0, key: Vec::new(), room: Vec::new() };
        let rays = Studio::get().key_samples(KEY_RAYS);
        for spoke in 0..=SPOKES {
            let (x, y) = direction((spoke % SPOKES) as f32 / SPOKES as f32);
            for ring in 0..=2 * RINGS {
                let r = shade.radius(ring as f32);
                shade.key.push([share_free(shell, Vec3::new(x * r, y * r, 0.0), &rays)]);
            }
        }
        let rays = gathered(ROOM_RAYS);
        let room = |ring| share_free(shell, Vec3::new(shade.radius(ring as f32), 0.0, 0.0), &rays);
        shade.room = (0..=2 * RINGS).map(room).collect();
        shade
    }

    /// Radius of a ring, mm: square steps away from the rim, both ways.
    fn radius(&self, ring: f32) -> f32 {
        let out = ring / RINGS as f32 - 1.0;
        let span = if out > 0.0 { self.reach - self.rim } else { self.rim };
        self.rim + span * out * out.abs()
    }

    /// The ring at a radius, with a fraction.
    #[inline]
    fn ring<N: Number>(&self, radius: N) -> N {
        let past = radius - self.rim;
        let outside = (past / (self.reach - self.rim)).at_least(N::of(0.0));
        let inside = (-past / self.rim).at_least(N::of(0.0));
        let out = outside.at_most(N::of(1.0)).root() - inside.at_most(N::of(1.0)).root();
        (out + 1.0) * RINGS as f32
    }

    /// Share of the (soft light, room light) that reaches a place on the table.
    #[inline(never)]
    pub fn at<N: Number>(&self, x: N, y: N) -> (N, N) {
        let radius = (x * x + y * y).root();
        let u = self.ring(radius).point_among(2 * RINGS + 1);
        let v = diamond_turn(x, y).at_most(N::of(0.999_99)) * SPOKES as f32;
        let [key] = N::between(&self.key, 2 * RINGS + 1, u, v.point());
        let room = N::along(&self.room, u);
        // What little shadow is left far out fades, so that the table ends as its own gray.
        let faded = smoothstep(0.45, 0.95, radius / self.reach);
        (lerp(key, N::of(1.0), faded), lerp(room, N::of(1.0), faded))
    }
}

/// The direction at a share of a turn, counted as [`diamond_turn`] counts.
fn direction(turn: f32) -> (f32, f32) {
    let q = 4.0 * turn;
    let (x, y) = match q as u32 {
        0 => (1.0 - q, q),
        1 => (1.0 - q, 2.0 - q),
        2 => (q - 3.0, 2.0 - q),
        _ => (q - 3.0, q - 4.0),
    };
    let l = (x * x + y * y).sqrt();
    (x / l, y / l)
}

/// Share of rays from a place that the shell does not stop. They start a little above the table, or light would
/// creep under the rim.
fn share_free(shell: &Shell, from: Vec3, rays: &[Vec3]) -> f32 {
    let lift = Vec3::new(0.0, 0.0, 0.6);
    let free =
        rays.iter().filter(|toward| !shell.stops(&Ray { from: from + lift, toward: **toward })).count();
    free as f32 / rays.len() as f32
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn directions_and_turns_undo_each_other() {
        for i in 0..40 {
            let turn = i as f32 / 40.0;
            let (x, y) = direction(turn);
            assert!((diamond_turn(3.0 * x, 3.0 * y) - turn).abs() < 1e-5, "{turn}");
        }
    }
}
