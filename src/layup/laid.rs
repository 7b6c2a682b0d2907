//! The patches of a coat as the hand left them: some moved or taken off, some added. Where two lie on each other the
//! deeper one counts, as powder that is sifted through a hole is leveled with what lies there.

use super::field::{Lattice, hash};
use super::patch_fall::PatchFall;
use super::patchwork::{NONE, Patchwork};
use crate::base::lanes::{Four, LANES, Number, flagged};
use crate::base::scalar::{Bounds, PI};
use crate::recipe::{AddedPatch, ByHand, Goes, Place};

/// How far the field is tabulated beyond what the disc needs, mm, when patches of this width may be pulled in from
/// over the rim.
pub(super) fn beyond(size: f32) -> f32 {
    size.clamp(20.0, 60.0)
}

/// What the hand did.
#[derive(Debug)]
pub(super) struct Laid {
    pub(super) work: Patchwork,
    /// Whether each patch is no longer where it fell.
    pub(super) gone: Vec<bool>,
    pub(super) moved: Vec<Moved>,
    pub(super) added: Vec<Added>,
}

/// A patch that lies elsewhere.
#[derive(Debug)]
pub(super) struct Moved {
    pub(super) patch: u32,
    /// The place it is called by in the recipe.
    pub(super) at: Place,
    /// How far it was moved, mm.
    pub(super) by: (f32, f32),
}

impl Laid {
    pub(super) fn new(fall: &PatchFall, broad: &Lattice, hand: &ByHand) -> Self {
        let work = Patchwork::new(fall);
        let mut gone = vec![false; work.covers.len()];
        let mut moved: Vec<Moved> = Vec::new();
        for change in &hand.moved {
            let (u, v) = (change.at[0] as f32, change.at[1] as f32);
            let patch = if fall.inside_reach(u, v) > 0.0 { work.nearest_to(u, v) } else { NONE };
            if patch == NONE {
                continue;
            }
            gone[patch as usize] = true;
            moved.retain(|other| other.patch != patch);
            if let Goes::By(way) = change.goes {
                moved.push(Moved { patch, at: change.at, by: (way[0] as f32, way[1] as f32) });
            }
        }
        let added = hand.added.iter().map(|added| Added::new(added, fall, broad)).collect();
        Self { work, gone, moved, added }
    }

    /// The largest `depth(inside, place)` of all that lies at each of four places: how far within its outline a patch lies there,
    /// mm, and the place it came from.
    pub(super) fn deepest(
        &self,
        fall: &PatchFall,
        broad: &Lattice,
        (u, v): (Four, Four),
        depth: impl Fn(Four, (Four, Four)) -> Four,
    ) -> Four {
        let nothing = Four::of(0.0);
        // Where a patch does not lie, its depth is left out.
        let only = |lies: [bool; LANES], depth: Four| flagged(lies).above(nothing, depth, nothing);
        let lies = at_each((u, v), |u, v| !self.gone[self.work.nearest_to(u, v) as usize]);
        let mut deepest = only(lies, depth(fall.inside_reach(u, v), (u, v)));
        for moved in &self.moved {
            let (a, b) = (u - moved.by.0, v - moved.by.1);
            let holds = &self.work.holds[moved.patch as usize];
            let lies = at_each((a, b), |a, b| holds.hold(a, b) && self.work.nearest_to(a, b) == moved.patch);
            if lies != [false; LANES] {
                deepest = only(lies, depth(fall.inside_reach(a, b), (a, b))).at_least(deepest);
            }
        }
        for added in &self.added {
            if added.near(fall, u, v) {
                let from = added.from(u, v);
                deepest = depth(added.inside(fall, broad, from), from).at_least(deepest);
            }
        }
        deepest
    }
}

/// Whether something holds at each of four places.
fn at_each((u, v): (Four, Four), holds: impl Fn(f32, f32) -> bool) -> [bool; LANES] {
    let (u, v) = (u.to_array(), v.to_array());
    std::array::from_fn(|lane| holds(u[lane], v[lane]))
}

/// A patch that was added: a round one seen through the coat's own warped pane. It looks through the same piece of
/// the pane wherever it lies, so that moving it keeps its outline.
#[derive(Debug)]
pub(super) struct Added {
    pub(super) middle: (f32, f32),
    /// Where on the pane its middle is, mm.
    pane: (f32, f32),
    /// How far the pane shifts its middle, mm: taken off again, or the patch would not lie where it was put.
    shift: (f32, f32),
    /// How strongly the pane tears it, of what it does to the coat's others: small patches would fall to shreds.
    torn: f32,
    radius: f32,
    /// How far its outline swells and shrinks, mm.
    lobes: f32,
}

/// How far an outline swells and shrinks, in radii, and at most, mm. No source: by eye beside patches that fell.
const LOBES: (f32, f32) = (0.12, 2.0);
/// The most that the pane shifts an added patch's outline (standard deviation), in widths of the patch. By eye.
const TORN: f32 = 0.12;

impl Added {
    fn new(added: &AddedPatch, fall: &PatchFall, broad: &Lattice) -> Self {
        let asked = 0.5 * added.across.f32();
        let luck = |key: u32| (hash(added.outline as i32, 0, key) & 0xffff) as f32 / 65536.0 - 0.5;
        let pane = (0.8 * fall.radius * luck(21), 0.8 * fall.radius * luck(22));
        let mut patch = Self {
            middle: (added.at[0] as f32, added.at[1] as f32),
            pane,
            shift: fall.warped.shift(pane.0, pane.1),
            torn: (TORN * added.across.f32() / fall.warped.by.at_least(1e-3)).at_most(1.0),
            radius: asked,
            lobes: (LOBES.0 * asked).at_most(LOBES.1),
        };
        // The pane widens some patches and narrows others: a few corrections bring the area to what was asked.
        for _ in 0..4 {
            let area = patch.area(fall, broad);
            if area > 0.0 {
                let ratio = (PI * asked * asked / area).sqrt();
                patch.radius = (patch.radius * ratio).clamp(0.4 * asked, 2.0 * asked);
            }
        }
        patch
    }

    /// Its area by points on a lattice of its own, mm².
    fn area(&self, fall: &PatchFall, broad: &Lattice) -> f32 {
        const POINTS: i32 = 24;
        let pitch = self.span(fall) / POINTS as f32;
        let mut inside = 0u32;
        for j in -POINTS..=POINTS {
            for i in -POINTS..=POINTS {
                let from = (self.pane.0 + i as f32 * pitch, self.pane.1 + j as f32 * pitch);
                inside += u32::from(self.inside(fall, broad, from) > 0.0);
            }
        }
        inside as f32 * pitch * pitch
    }

    /// Half the width of a square that holds its outline, mm.
    pub(super) fn span(&self, fall: &PatchFall) -> f32 {
        self.radius + 3.0 * self.lobes + 4.0 * self.torn * fall.warped.by
    }

    /// Whether any of its powder may lie at one of four places.
    fn near(&self, fall: &PatchFall, u: Four, v: Four) -> bool {
        let (x, y) = (u - self.middle.0, v - self.middle.1);
        let far = self.span(fall) + self.lobes + 2.0 * self.torn * fall.warped.by + fall.edge.end;
        (-(x * x + y * y)).any_above(-far * far)
    }

    /// The place on the pane that a place of the layout is seen through.
    pub(super) fn from<T: Number>(&self, u: T, v: T) -> (T, T) {
        (u - self.middle.0 + self.pane.0, v - self.middle.1 + self.pane.1)
    }

    /// About how far within its outline a place of the pane lies, mm; negative outside.
    pub(super) fn inside<T: Number>(&self, fall: &PatchFall, broad: &Lattice, from: (T, T)) -> T {
        let (right, up) = fall.warped.shift(from.0, from.1);
        let x = from.0 - self.pane.0 + (right - self.shift.0) * self.torn;
        let y = from.1 - self.pane.1 + (up - self.shift.1) * self.torn;
        broad.sample(from.0, from.1) * self.lobes + self.radius - (x * x + y * y).root()
    }
}
