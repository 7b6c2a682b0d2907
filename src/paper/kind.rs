//! The kinds of sheets.

use super::content::Content;
use super::sheet::Sheet;
use super::{labels, make_sheet, quote, sift_map};
use serde::{Deserialize, Serialize};

/// A kind of sheets.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Kind {
    /// One page for each recipe, to work from at the bench.
    MakeSheet,
    /// The options with their prices, to sign.
    Quote,
    /// Where the patches of each coat lie, at full size; none for coats that fall without outlines.
    SiftMap,
    /// A label and a care card for each piece.
    Labels,
}

impl Kind {
    /// The sheets of this kind.
    pub fn sheets(self, content: &Content) -> Vec<Sheet> {
        match self {
            Self::MakeSheet => make_sheet::sheets(content),
            Self::Quote => quote::sheets(content),
            Self::SiftMap => sift_map::sheets(content),
            Self::Labels => labels::sheets(content),
        }
    }

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::MakeSheet => "Make sheet",
            Self::Quote => "Quote",
            Self::SiftMap => "Sift map",
            Self::Labels => "Labels and care cards",
        }
    }
}
