//! What will go wrong, why, and what to do about it: the one form in which the program says so.

use super::firing::{Firing, SegmentName};
use super::units::{Celsius, Minutes, Mm};
use serde::{Deserialize, Serialize};
use std::fmt;

/// How much a notice matters, most first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// It cannot work: nothing is computed until it is mended.
    Fault,
    /// It may fail in the kiln or at the bench.
    Risk,
    /// Worth knowing.
    Note,
}

/// The step of the recipe that a notice belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Step {
    /// The recipe as a whole.
    Recipe,
    /// The discs of sheet glass.
    Blank,
    /// The coat with this id.
    Coat(u32),
    /// The sponge.
    Sponge,
    /// The full fuse.
    Fuse,
    /// The accents.
    Accents,
    /// The slump.
    Slump,
    /// What carries the piece.
    Stem,
    /// Pieces, packing and losses.
    Ticket,
}

impl From<Firing> for Step {
    fn from(firing: Firing) -> Self {
        match firing {
            Firing::FullFuse => Self::Fuse,
            Firing::TackFuse => Self::Accents,
            Firing::Slump => Self::Slump,
        }
    }
}

/// Something the maker should know, with its reason and its remedy.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Notice {
    /// How much it matters.
    pub severity: Severity,
    /// Where it belongs.
    pub step: Step,
    /// What happens, in two to five words: *Too wide for its mold.*
    pub what: String,
    /// Why it happens.
    pub why: String,
    /// What to do about it.
    pub remedy: String,
    /// The same as a change of the recipe, where it is one. Always written: the bytes between page and worker name no fields.
    #[serde(default)]
    pub mend: Option<Mend>,
}

/// A change of the recipe that answers a notice.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Mend {
    /// Lay a clear sheet of this thickness on the stack.
    AddSheet(Mm),
    /// Cut the disc to this diameter.
    Cut(Mm),
    /// Sift the notice's coat this deep.
    Sift(Mm),
    /// Take a mold of this depth.
    Depth(Mm),
    /// Set the accents this far from the rim.
    FromRim(Mm),
    /// Keep the accents this far apart.
    Gap(Mm),
    /// Stand a dam this wide around the disc.
    Dam(Mm),
    /// Fire to this top.
    Top(Firing, Celsius),
    /// Run this segment at so many K/h.
    Rate(Firing, SegmentName, f64),
    /// Hold this segment so long.
    Hold(Firing, SegmentName, Minutes),
    /// Let this segment be as the program has it.
    Usual(Firing, SegmentName),
    /// Take the stopper of this number.
    Stopper(u32),
    /// Set the stem so deep into the ground.
    InGround(Mm),
}

impl Notice {
    /// A notice of this severity.
    pub fn new(
        severity: Severity,
        step: Step,
        what: impl Into<String>,
        why: impl Into<String>,
        remedy: impl Into<String>,
    ) -> Self {
        Self { severity, step, what: what.into(), why: why.into(), remedy: remedy.into(), mend: None }
    }
}

impl fmt::Display for Notice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {} {}", self.what, self.why, self.remedy)
    }
}
