//! What the native program says when it cannot go on: what, why, and what to do about it.

use crate::base::notice::Notice;
use std::fmt;

/// A reason to stop, in the user's words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Trouble {
    /// What cannot be done.
    pub what: String,
    /// Why it cannot.
    pub why: String,
    /// What to do about it.
    pub remedy: String,
}

impl Trouble {
    /// A trouble of these three parts, each a sentence.
    pub fn new(what: impl Into<String>, why: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self { what: what.into(), why: why.into(), remedy: remedy.into() }
    }
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}\n  Why: {}\n  What to do: {}", self.what, self.why, self.remedy)
    }
}

impl std::error::Error for Trouble {}

impl From<Notice> for Trouble {
    fn from(notice: Notice) -> Self {
        Self::new(notice.what, notice.why, notice.remedy)
    }
}

/// A faulty recipe gives many troubles, everything else gives one: `?` turns the one into the many.
impl From<Trouble> for Vec<Trouble> {
    fn from(trouble: Trouble) -> Self {
        vec![trouble]
    }
}
