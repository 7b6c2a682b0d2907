//! The maker's own glasses. Kept in this browser; a piece has its own copy of those it is made of.

use dappledome::glass::glasses::Glasses;
use leptos::prelude::*;

/// The glasses on the shelf that are not the catalogue's.
#[derive(Clone, Copy, Debug)]
pub struct OwnGlasses {
    own: RwSignal<Glasses>,
}

impl OwnGlasses {
    /// None yet.
    pub fn new() -> Self {
        Self { own: RwSignal::new(Glasses::default()) }
    }

    /// These, and what somebody else brings along where ids are the same, followed.
    pub fn under(&self, brought: &Glasses) -> Glasses {
        let mut all = self.own.get();
        brought.0.iter().cloned().for_each(|glass| all.take_in(glass));
        all
    }
}
