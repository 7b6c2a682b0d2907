//! What the maker lays by hand: patches and accents moved, taken off or added, and powder rubbed off. Plain data;
//! everything is in millimeters, so that it lies the same at every size of picture.

use crate::base::data::data;
use crate::base::seed::Seed;
use crate::base::units::Mm;
use serde::{Deserialize, Serialize};

/// A place or a way, x to the right and y up, mm.
pub type Place = [f64; 2];

data! {
    /// What was done by hand to the patches of a coat. Places are those of the layout as it fell, before it is
    /// mirrored, turned and moved as a whole, so that all of it goes along.
    #[derive(Default)]
    pub struct ByHand {
        /// Patches that were moved or taken off. Of two moves of one patch the later one counts.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        pub moved: Vec<MovedPatch>,
        /// Patches that were added.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        pub added: Vec<AddedPatch>,
    }
}

impl ByHand {
    /// Whether everything lies as it fell.
    pub fn is_empty(&self) -> bool {
        self.moved.is_empty() && self.added.is_empty()
    }
}

data! {
    /// A patch that was moved or taken off.
    pub struct MovedPatch {
        /// The patch that fell on this place, mm; where none fell, nothing is moved.
        pub at: Place,
        /// What becomes of it.
        pub goes: Goes,
    }
}

data! {
    /// What becomes of a patch.
    #[derive(Copy)]
    pub enum Goes {
        /// It is taken off.
        Off,
        /// It is moved by this much, mm.
        By(Place),
    }
}

data! {
    /// A patch that was added.
    pub struct AddedPatch {
        /// Its middle, mm.
        pub at: Place,
        /// Width across: that of a round patch of the same area.
        pub across: Mm,
        /// Which of the torn outlines it has: any number.
        #[serde(default)]
        pub outline: u32,
    }
}

/// A patch of a coat, as the page knows it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WhichPatch {
    /// The one that fell on this place of the layout, mm.
    Fallen(Place),
    /// The added one at this position of the list.
    Added(usize),
}

data! {
    /// Where the accents' places come from, and what was done to them by hand.
    #[derive(Default)]
    pub struct AccentLayout {
        /// Keep the places of this seed, whatever seed the piece has.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub locked_to: Option<Seed>,
        /// Accents that were moved.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        pub moved: Vec<MovedAccent>,
        /// Numbers of the accents that were taken off, counted from 1 around the ring.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        pub taken_off: Vec<u32>,
        /// Accents that were added.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        pub added: Vec<AddedAccent>,
    }
}

impl AccentLayout {
    /// Whether nothing of it was locked or done by hand.
    pub fn is_empty(&self) -> bool {
        self.locked_to.is_none() && !self.by_hand()
    }

    /// Whether anything was done by hand.
    pub fn by_hand(&self) -> bool {
        !(self.moved.is_empty() && self.taken_off.is_empty() && self.added.is_empty())
    }
}

data! {
    /// An accent that was moved.
    #[derive(Copy)]
    pub struct MovedAccent {
        /// Its number, counted from 1 around the ring.
        pub number: u32,
        /// Its middle on the disc, mm to the right.
        pub x: f64,
        /// Its middle on the disc, mm up.
        pub y: f64,
    }
}

data! {
    /// An accent that was added.
    pub struct AddedAccent {
        /// Its middle on the disc, mm to the right.
        pub x: f64,
        /// Its middle on the disc, mm up.
        pub y: f64,
        /// The sieve size it passed.
        pub size: Mm,
        /// Id of its glass, one of the accents'; their first if it is left out or not among them.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub glass: Option<String>,
    }
}

/// An accent, as the page knows it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WhichAccent {
    /// The one with this number, counted from 1 around the ring.
    Set(u32),
    /// The added one at this position of the list.
    Added(usize),
}

data! {
    /// Powder rubbed off with the corner of a sponge, after the dabbing.
    pub struct Rub {
        /// Width of the bared line.
        pub width: Mm,
        /// The places it goes through on the disc, mm. One place alone is a dot.
        pub path: Vec<Place>,
    }
}
