//! The firings of a recipe as they are edited and saved: tops, holds, and what of their programs the maker has set otherwise.

use crate::base::data::data;
use crate::base::firing::{Firing, SegmentName};
use crate::base::units::{Celsius, Minutes};
use serde::{Deserialize, Serialize};

data! {
    /// The firing that tacks the accents on.
    #[derive(Copy)]
    pub struct TackFuse {
        /// Top temperature.
        pub top: Celsius,
        /// Time held there.
        pub hold: Minutes,
    }
}

impl Default for TackFuse {
    fn default() -> Self {
        Self { top: Celsius(735.0), hold: Minutes(8.0) }
    }
}

impl TackFuse {
    /// Whether it is as usual.
    pub(super) fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}

data! {
    /// The firing that lets the disc sink.
    #[derive(Copy)]
    pub struct SlumpFiring {
        /// Top temperature.
        pub top: Celsius,
        /// Time held there; until the disc has settled if left out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub hold: Option<Minutes>,
    }
}

impl Default for SlumpFiring {
    fn default() -> Self {
        Self { top: Celsius(640.0), hold: None }
    }
}

impl SlumpFiring {
    /// Whether it is as usual.
    pub(super) fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}

data! {
    /// What of the three programs is set by the maker; the rest is as the program works it out.
    #[derive(Default)]
    pub struct Programs {
        /// In the full fuse.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        pub full_fuse: Vec<SetSegment>,
        /// In the tack fuse.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        pub tack_fuse: Vec<SetSegment>,
        /// In the slump.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        pub slump: Vec<SetSegment>,
    }
}

data! {
    /// One segment with what is set in it. Top and hold of the process have their own places in the recipe.
    #[derive(Copy)]
    pub struct SetSegment {
        /// Which.
        pub segment: SegmentName,
        /// How fast.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub pace: Option<Pace>,
        /// To where; for *off*, below which it may be opened.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub to: Option<Celsius>,
        /// How long it is held there.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub hold: Option<Minutes>,
    }
}

data! {
    /// How fast a segment runs.
    #[derive(Copy)]
    pub enum Pace {
        /// So many K/h, up or down.
        PerHour(f64),
        /// As fast as the kiln goes: full power upward, lid shut and no power downward.
        AsItGoes,
    }
}

impl Programs {
    /// Whether nothing is set.
    pub fn is_empty(&self) -> bool {
        self.full_fuse.is_empty() && self.tack_fuse.is_empty() && self.slump.is_empty()
    }

    /// What is set in one firing.
    pub fn of(&self, firing: Firing) -> &[SetSegment] {
        match firing {
            Firing::FullFuse => &self.full_fuse,
            Firing::TackFuse => &self.tack_fuse,
            Firing::Slump => &self.slump,
        }
    }

    /// What is set in one firing, to change.
    pub fn of_mut(&mut self, firing: Firing) -> &mut Vec<SetSegment> {
        match firing {
            Firing::FullFuse => &mut self.full_fuse,
            Firing::TackFuse => &mut self.tack_fuse,
            Firing::Slump => &mut self.slump,
        }
    }

    /// One segment to set something in; as the program has it until then.
    pub fn segment_mut(&mut self, firing: Firing, segment: SegmentName) -> &mut SetSegment {
        let all = self.of_mut(firing);
        let at = all.iter().position(|set| set.segment == segment).unwrap_or_else(|| {
            all.push(SetSegment { segment, pace: None, to: None, hold: None });
            all.len() - 1
        });
        &mut all[at]
    }

    /// Lets a segment be as the program has it.
    pub fn let_be(&mut self, firing: Firing, segment: SegmentName) {
        self.of_mut(firing).retain(|set| set.segment != segment);
    }
}
