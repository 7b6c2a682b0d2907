//! What has been done of an order at the bench: boxes that were ticked, jars that were weighed, pieces that broke.

use crate::base::data::data;
use crate::base::units::Grams;
use crate::recipe::Recipe;
use serde::{Deserialize, Serialize};

data! {
    /// What has been done of an order.
    #[derive(Default)]
    pub struct Progress {
        /// The pieces of which anything is known, in any order.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        pub pieces: Vec<PieceDone>,
    }
}

data! {
    /// What has been done to one piece.
    #[derive(Default)]
    pub struct PieceDone {
        /// Its line, counted from 0.
        pub line: usize,
        /// Its number among the pieces of its line, counted from 0.
        pub piece: u32,
        /// Its coats.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        pub coats: Vec<CoatDone>,
        /// Whether the sponge has been over it.
        #[serde(default)]
        pub sponged: bool,
        /// Whether it broke: one more is made.
        #[serde(default)]
        pub broken: bool,
    }
}

data! {
    /// What has been done to a coat of one piece.
    #[derive(Copy, Default)]
    pub struct CoatDone {
        /// The coat's id.
        pub coat: u32,
        /// Whether it is sifted.
        #[serde(default)]
        pub sifted: bool,
        /// What its jar weighed before.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub before: Option<Grams>,
        /// What its jar weighed after.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub after: Option<Grams>,
    }
}

impl CoatDone {
    /// What went out of the jar; none before both are known.
    pub fn used(&self) -> Option<Grams> {
        Some(Grams(self.before?.0 - self.after?.0))
    }
}

impl PieceDone {
    /// What has been done to a coat.
    pub fn coat(&self, id: u32) -> CoatDone {
        let known = self.coats.iter().find(|done| done.coat == id);
        known.copied().unwrap_or(CoatDone { coat: id, ..CoatDone::default() })
    }

    /// The same, to change.
    pub fn coat_mut(&mut self, id: u32) -> &mut CoatDone {
        let at = self.coats.iter().position(|done| done.coat == id).unwrap_or_else(|| {
            self.coats.push(CoatDone { coat: id, ..CoatDone::default() });
            self.coats.len() - 1
        });
        &mut self.coats[at]
    }

    /// Whether nothing is left to sift or dab: all of it was done, or it broke.
    pub fn is_done(&self, recipe: &Recipe) -> bool {
        let sifted = recipe.coats.iter().all(|coat| self.coat(coat.id).sifted);
        self.broken || sifted && (self.sponged || recipe.sponge.is_none())
    }
}

impl Progress {
    /// Whether nothing has been done yet.
    pub fn is_empty(&self) -> bool {
        self.pieces.is_empty()
    }

    /// What has been done to a piece.
    pub fn piece(&self, line: usize, piece: u32) -> PieceDone {
        let known = self.pieces.iter().find(|done| (done.line, done.piece) == (line, piece));
        known.cloned().unwrap_or(PieceDone { line, piece, ..PieceDone::default() })
    }

    /// The same, to change.
    pub fn piece_mut(&mut self, line: usize, piece: u32) -> &mut PieceDone {
        let same = |done: &PieceDone| (done.line, done.piece) == (line, piece);
        let at = self.pieces.iter().position(same).unwrap_or_else(|| {
            self.pieces.push(PieceDone { line, piece, ..PieceDone::default() });
            self.pieces.len() - 1
        });
        &mut self.pieces[at]
    }

    /// The pieces of a line that broke, by their numbers, the lowest first.
    pub fn broken(&self, line: usize) -> Vec<u32> {
        let mut broken: Vec<u32> = self
            .pieces
            .iter()
            .filter(|done| done.line == line && done.broken)
            .map(|done| done.piece)
            .collect();
        broken.sort_unstable();
        broken
    }
}
