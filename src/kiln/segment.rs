//! The segments of a program: every number with what it usually is, its reason and its source.

use crate::base::firing::SegmentName;
use crate::base::units::{Celsius, Minutes};
use crate::recipe::Pace;
use serde::{Deserialize, Serialize};

/// Where a number comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Source {
    /// Worked out from the glass.
    Physics,
    /// Common practice, no source. What the kiln's or the glass's maker says wins.
    Practice,
    /// It stands in the recipe.
    Recipe,
    /// What this kiln does.
    Kiln,
}

/// A number of a program.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Choice<T> {
    /// What it is.
    pub value: T,
    /// What it is if the maker sets nothing.
    pub usual: T,
    /// Whether the maker has set it.
    pub yours: bool,
    /// Why it is usually so.
    pub why: String,
    /// Where the usual number comes from.
    pub source: Source,
}

impl<T: Copy> Choice<T> {
    /// The usual number.
    pub fn usual(usual: T, source: Source, why: impl Into<String>) -> Self {
        Self { value: usual, usual, yours: false, why: why.into(), source }
    }

    /// The same, or what the maker has set.
    #[must_use]
    pub fn set(self, to: Option<T>) -> Self {
        Self { value: to.unwrap_or(self.value), yours: to.is_some(), ..self }
    }
}

/// A segment before it is run.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Segment {
    /// Which.
    pub name: SegmentName,
    /// How fast.
    pub pace: Choice<Pace>,
    /// Where to.
    pub to: Choice<Celsius>,
    /// Then held so long.
    pub hold: Choice<Minutes>,
}
