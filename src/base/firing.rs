//! The names of the firings and of the parts of their programs, as recipes, notices and the kiln use them.

use serde::{Deserialize, Serialize};

/// A firing, in the order of making.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Firing {
    /// The sheets and their powder become one disc.
    FullFuse,
    /// The accents are tacked on.
    TackFuse,
    /// The disc sinks into its mold.
    Slump,
}

impl Firing {
    /// What the maker calls it.
    pub fn name(self) -> &'static str {
        match self {
            Self::FullFuse => "full fuse",
            Self::TackFuse => "tack fuse",
            Self::Slump => "slump",
        }
    }
}

/// A part of a firing's program.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum SegmentName {
    /// Up to where glass no longer breaks.
    Heat,
    /// Up to where a soft sheet lies down on what is under it, and a hold that lets air out. Full fuse only.
    Squeeze,
    /// Up to the top, and its hold.
    Process,
    /// Down to the anneal, the lid shut.
    Fall,
    /// The soak that takes stress away.
    Anneal,
    /// The slow fall through the strain point.
    Cool,
    /// The faster fall behind it.
    SecondCool,
    /// Off, until it may be opened.
    Off,
}

impl SegmentName {
    /// What the maker calls it in this firing.
    pub fn name(self, firing: Firing) -> &'static str {
        match (self, firing) {
            (Self::Heat, _) => "heat",
            (Self::Squeeze, _) => "squeeze",
            (Self::Process, Firing::FullFuse) => "fuse",
            (Self::Process, Firing::TackFuse) => "tack",
            (Self::Process, Firing::Slump) => "slump",
            (Self::Fall, _) => "fall",
            (Self::Anneal, _) => "anneal",
            (Self::Cool, _) => "cool",
            (Self::SecondCool, _) => "second cool",
            (Self::Off, _) => "off",
        }
    }
}
