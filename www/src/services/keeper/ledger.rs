//! What is known to be stored, and what is to be done for what is not. Plain data: it neither saves nor waits.

use dappledome::keep::content::Kind;
use std::sync::Arc;

/// An order, the bench or an entry of the log as text.
#[derive(Clone, Debug, PartialEq)]
pub struct Paper {
    /// What it is.
    pub kind: Kind,
    /// Its number.
    pub id: u64,
    /// Its text.
    pub text: Arc<str>,
}

/// What is to be done.
#[derive(Clone, Debug, PartialEq)]
pub enum Deed {
    /// It is to be saved over this revision, or as something new.
    Save(Paper, Option<u32>),
    /// It is to be taken away, if it is still of this revision.
    TakeAway(Paper, u32),
}

/// What is known to be stored.
#[derive(Debug, Default)]
pub struct Ledger(Vec<(Paper, u32)>);

impl Ledger {
    /// What is to be done so that this and nothing else is stored.
    pub fn due(&self, now: &[Paper]) -> Vec<Deed> {
        let save = |paper: &Paper| {
            let known = self.known(paper.kind, paper.id);
            let changed = known.is_none_or(|(stored, _)| stored.text != paper.text);
            changed.then(|| Deed::Save(paper.clone(), known.map(|(_, revision)| *revision)))
        };
        let gone = |(stored, revision): &(Paper, u32)| {
            let there = now.iter().any(|paper| (paper.kind, paper.id) == (stored.kind, stored.id));
            (!there).then(|| Deed::TakeAway(stored.clone(), *revision))
        };
        now.iter().filter_map(save).chain(self.0.iter().filter_map(gone)).collect()
    }

    /// This text is stored under this revision.
    pub fn learn(&mut self, paper: Paper, revision: u32) {
        self.forget(paper.kind, paper.id);
        self.0.push((paper, revision));
    }

    /// Nothing is stored there any more.
    pub fn forget(&mut self, kind: Kind, id: u64) {
        self.0.retain(|(stored, _)| (stored.kind, stored.id) != (kind, id));
    }

    /// What is known to be stored there.
    pub fn known(&self, kind: Kind, id: u64) -> Option<&(Paper, u32)> {
        self.0.iter().find(|(stored, _)| (stored.kind, stored.id) == (kind, id))
    }

    /// The numbers of all that is known of a kind.
    pub fn ids(&self, kind: Kind) -> Vec<u64> {
        self.0.iter().filter(|(stored, _)| stored.kind == kind).map(|(stored, _)| stored.id).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn paper(id: u64, text: &str) -> Paper {
        Paper { kind: Kind::Order, id, text: text.into() }
    }

    #[test]
    fn what_changed_is_saved_over_what_is_known_and_what_went_is_taken_away() {
        let mut ledger = Ledger::default();
        let [one, two] = [paper(1, "one"), paper(2, "two")];
        assert_eq!(ledger.due(std::slice::from_ref(&one)), [Deed::Save(one.clone(), None)]);
        ledger.learn(one.clone(), 1);
        ledger.learn(two.clone(), 7);
        assert_eq!(ledger.due(&[one.clone(), two.clone()]), []);
        let changed = paper(1, "one, changed");
        assert_eq!(
            ledger.due(std::slice::from_ref(&changed)),
            [Deed::Save(changed, Some(1)), Deed::TakeAway(two.clone(), 7)]
        );
        ledger.forget(Kind::Order, 2);
        assert_eq!(ledger.due(&[one, two.clone()]), [Deed::Save(two, None)], "put back");
    }

    #[test]
    fn one_number_of_two_kinds_is_two_things() {
        let mut ledger = Ledger::default();
        ledger.learn(paper(1, "one"), 1);
        assert!(ledger.known(Kind::Entry, 1).is_none());
        assert_eq!((ledger.ids(Kind::Order), ledger.ids(Kind::Entry)), (vec![1], vec![]));
    }
}
