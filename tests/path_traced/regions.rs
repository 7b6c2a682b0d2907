//! Which part of the piece each pixel sees, from geometry alone.

use super::lights::Studio;
use super::scenes::{SIZE, Scene};
use super::space::{Solid, V3};
use super::view::{camera, sight};

/// A part of the picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Region {
    /// The face, up to 0.35 of the disc's radius.
    Crown,
    /// The face from there to the rounded end.
    Flank,
    /// The rounded end.
    Rim,
    /// The face where it turns away from the eye.
    Outline,
    /// Clear glass through which a straight look meets the far wall.
    FarWall,
    /// Glass that mirrors a lamp.
    Gloss,
    /// The table near the piece.
    Shadow,
    /// Anything else, or several at once.
    Other,
}

impl Region {
    /// What tables call it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Crown => "crown",
            Self::Flank => "flank",
            Self::Rim => "rim",
            Self::Outline => "outline",
            Self::FarWall => "far wall",
            Self::Gloss => "gloss",
            Self::Shadow => "shadow",
            Self::Other => "other",
        }
    }

    /// All that are compared.
    pub const ALL: [Self; 7] =
        [Self::Crown, Self::Flank, Self::Rim, Self::Outline, Self::FarWall, Self::Gloss, Self::Shadow];
}

/// Places in a pixel, along a side.
const SIDE: u32 = 4;
/// What is mirrored more brightly than this is a lamp: the room is below 0.6.
const LAMP: f64 = 0.75;
/// Cosine to the eye below which the face is its outline.
const TURNED: f64 = 0.4;
/// Share of the picture at its edges where the renderer fades to the table's plain gray.
const FADES: f64 = 0.11;

/// The region of every pixel, from top left.
pub fn regions(scene: &Scene, clear: bool) -> Vec<Region> {
    let camera = camera(scene);
    let look = Look { dome: scene.dome(), solid: Solid::Dome(scene.dome()), studio: Studio::new(), clear };
    let mut found = Vec::new();
    for y in 0..SIZE {
        for x in 0..SIZE {
            let mut seen = Vec::new();
            for (i, j) in (0..SIDE).flat_map(|j| (0..SIDE).map(move |i| (i, j))) {
                let place = |at: u32, i: u32| f64::from(at) + (f64::from(i) + 0.5) / f64::from(SIDE);
                let (u, v) = (place(x, i), place(y, j));
                seen.push(look.region(sight(&camera, u, v), (u, v)));
            }
            found.push(most_of(&seen));
        }
    }
    around_gloss(&found)
}

/// The region of most of a pixel's places; a pixel that touches gloss is gloss.
fn most_of(seen: &[Region]) -> Region {
    if seen.contains(&Region::Gloss) {
        return Region::Gloss;
    }
    let many = |region: &Region| seen.iter().filter(|other| *other == region).count();
    let most = Region::ALL.into_iter().max_by_key(many).unwrap_or(Region::Other);
    // The table counts only where there is nothing else.
    let enough = if most == Region::Shadow { seen.len() } else { seen.len() * 5 / 8 };
    if many(&most) >= enough { most } else { Region::Other }
}

/// The renderer's skin has ripples: gloss may lie a pixel beside its place.
fn around_gloss(found: &[Region]) -> Vec<Region> {
    let side = SIZE as i32;
    let at = |x: i32, y: i32| found[(y.clamp(0, side - 1) * side + x.clamp(0, side - 1)) as usize];
    let is_near = |x: i32, y: i32| (-1..=1).any(|j| (-1..=1).any(|i| at(x + i, y + j) == Region::Gloss));
    (0..side * side)
        .map(|i| {
            let (x, y) = (i % side, i / side);
            let here = at(x, y);
            if here != Region::Shadow && here != Region::Gloss && is_near(x, y) {
                Region::Other
            } else {
                here
            }
        })
        .collect()
}

struct Look {
    dome: super::space::Dome,
    solid: Solid,
    studio: Studio,
    clear: bool,
}

impl Look {
    fn region(&self, (from, toward): (V3, V3), (u, v): (f64, f64)) -> Region {
        let Some(place) = self.solid.met(from, toward, -from.z / toward.z) else {
            let table = from + toward * (-from.z / toward.z);
            let from_edge = [u, v].map(|c| c.min(f64::from(SIZE) - c)).into_iter().fold(f64::MAX, f64::min);
            let near = table.radius() < 1.4 * (self.dome.radius * self.dome.end.1 + self.dome.half);
            let whole = from_edge > FADES * f64::from(SIZE);
            return if near && whole { Region::Shadow } else { Region::Other };
        };
        let normal = self.solid.outward(place);
        let mirror = toward - normal * (2.0 * toward.dot(normal));
        let s = self.solid.flat_radius(place);
        if mirror.z > 0.0 && self.studio.seen(mirror) > LAMP {
            Region::Gloss
        } else if s > self.dome.flat {
            Region::Rim
        } else if -toward.dot(normal) < TURNED {
            Region::Outline
        } else if self.clear && self.meets_far_wall(place, toward) {
            Region::FarWall
        } else if s < 0.35 * self.dome.flat {
            Region::Crown
        } else {
            Region::Flank
        }
    }

    /// Whether a straight look on meets glass again before the table.
    fn meets_far_wall(&self, place: V3, toward: V3) -> bool {
        let mut p = place + toward * 0.01;
        while p.z > 0.0 && self.solid.distance(p) < 0.0 {
            p = p + toward * 0.05;
        }
        p.z > 0.0 && self.solid.met(p + toward * 0.1, toward, -p.z / toward.z).is_some()
    }
}
