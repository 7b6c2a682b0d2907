//! Shadow on the table: how much of the soft light and of the room's light the piece keeps from each place.

use super::cast::SHADE_REACH;
use super::shell::{Ray, Shell};
use super::studio::Studio;
use super::vec3::Vec3;
use crate::base::scalar::{lerp, sin_cos, smoothstep};

/// Places along a side of the table's shadow map.
const PLACES: usize = 72;
/// Rays toward the soft light, along a side.
const KEY_RAYS: usize = 4;
/// Rays into the room.
const ROOM_RAYS: usize = 40;

/// Light that reaches the table, by place: 1 is all of it.
#[derive(Clone, Debug)]
pub struct Shade {
    reach: f32,
    /// Of the soft light.
    key: Vec<f32>,
    /// Of the room's light, by distance from the axis.
    room: Vec<f32>,
}

impl Shade {
    /// The shadow of a shell.
    pub fn new(shell: &Shell) -> Self {
        let reach = SHADE_REACH * shell.widest();
        let step = 2.0 * reach / (PLACES - 1) as f32;
        let rays = Studio::get().key_samples(KEY_RAYS);
        let mut key = Vec::with_capacity(PLACES * PLACES);
        for j in 0..PLACES {
            for i in 0..PLACES {
                let from = Vec3::new(i as f32 * step - reach, j as f32 * step - reach, 0.0);
                key.push(share_free(shell, from, &rays));
            }
        }
        let rays = room_rays();
        let room = (0..PLACES)
            .map(|i| share_free(shell, Vec3::new(reach * i as f32 / (PLACES - 1) as f32, 0.0, 0.0), &rays))
            .collect();
        Self { reach, key, room }
    }

    /// Share of the (soft light, room light) that reaches a place on the table.
    #[inline]
    pub fn at(&self, x: f32, y: f32) -> (f32, f32) {
        let last = (PLACES - 1) as f32;
        let to_index = |x: f32| ((x + self.reach) / (2.0 * self.reach) * last).clamp(0.0, last - 0.001);
        let (u, v) = (to_index(x), to_index(y));
        let (i, j) = (u as usize, v as usize);
        let (tx, ty) = (u - i as f32, v - j as f32);
        let row = |j: usize| {
            let (a, b) = (self.key[j * PLACES + i], self.key[j * PLACES + i + 1]);
            a + (b - a) * tx
        };
        let key = row(j) + (row(j + 1) - row(j)) * ty;
        let out = (x * x + y * y).sqrt() / self.reach;
        let r = (out * last).clamp(0.0, last - 0.001);
        let k = r as usize;
        let room = self.room[k] + (self.room[k + 1] - self.room[k]) * (r - k as f32);
        // What little shadow is left far out fades, so that the table ends as its own grey.
        let faded = smoothstep(0.45, 0.95, out);
        (lerp(key, 1.0, faded), lerp(room, 1.0, faded))
    }
}

/// Share of rays from a place that the shell does not stop. It counts as standing a little into the table, so that
/// no light creeps under its rim.
fn share_free(shell: &Shell, from: Vec3, rays: &[Vec3]) -> f32 {
    let lift = Vec3::new(0.0, 0.0, 0.6);
    let free = rays
        .iter()
        .filter(|toward| shell.march(&Ray { from: from + lift, toward: **toward }, 0.0, 0.0).hit.is_none())
        .count();
    free as f32 / rays.len() as f32
}

/// Directions spread over the upper half space as a matte table gathers light, by a golden spiral.
fn room_rays() -> Vec<Vec3> {
    (0..ROOM_RAYS)
        .map(|i| {
            let r2 = (i as f32 + 0.5) / ROOM_RAYS as f32;
            let (sin, cos) = sin_cos(f64::from(i as u32) * 2.399_963_229_728_653);
            let r = r2.sqrt();
            Vec3::new(r * cos as f32, r * sin as f32, (1.0 - r2).sqrt())
        })
        .collect()
}
