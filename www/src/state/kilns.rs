//! The kiln that programs are reckoned for, and when it is switched on. Kept in this browser; no part of any piece.

use crate::dom::local;
use dappledome::kiln::checks;
use dappledome::kiln::data::{Guess, Kiln};
use leptos::prelude::*;

const CHOSEN: &str = "dappledome.kiln";
const OWN: &str = "dappledome.own-kiln";
const START: &str = "dappledome.start";

/// Minutes past midnight at which a kiln is usually switched on.
pub const USUAL_START: f64 = 18.0 * 60.0;

/// Which kiln.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KilnChoice {
    /// One that is guessed.
    Guess(Guess),
    /// The maker's own.
    Own,
}

impl KilnChoice {
    /// All there are, in order.
    pub const ALL: [Self; 4] = [
        Self::Guess(Guess::SmallBrick),
        Self::Guess(Guess::LargeBrick),
        Self::Guess(Guess::Fiber),
        Self::Own,
    ];

    fn key(self) -> &'static str {
        match self {
            Self::Guess(Guess::SmallBrick) => "small-brick",
            Self::Guess(Guess::LargeBrick) => "large-brick",
            Self::Guess(Guess::Fiber) => "fiber",
            Self::Own => "own",
        }
    }
}

/// The kilns there are, and which is taken.
#[derive(Clone, Copy, Debug)]
pub struct Kilns {
    /// Which is taken.
    pub chosen: RwSignal<KilnChoice>,
    /// The maker's own, as described last.
    pub own: RwSignal<Kiln>,
    /// When it is switched on, minutes past midnight.
    pub start: RwSignal<f64>,
    /// The one that is taken.
    pub kiln: Memo<Kiln>,
}

impl Kilns {
    /// As they were kept in this browser. An own kiln that makes no sense any more is as if it had never been described.
    pub fn kept() -> Self {
        let own = Kiln::read(&local::kept(OWN)).ok().filter(|kiln| checks::check(kiln).is_empty());
        let key = local::kept(CHOSEN);
        let chosen = KilnChoice::ALL.into_iter().find(|choice| choice.key() == key);
        let start = local::kept(START).parse().ok().filter(|start| (0.0..1440.0).contains(start));
        Self::new(chosen.unwrap_or(KilnChoice::ALL[0]), own.unwrap_or_else(first_own), start)
    }

    /// With one of them taken, and when it is switched on.
    pub fn new(chosen: KilnChoice, own: Kiln, start: Option<f64>) -> Self {
        let (chosen, own) = (RwSignal::new(chosen), RwSignal::new(own));
        let kiln = Memo::new(move |_| match chosen.get() {
            KilnChoice::Guess(guess) => Kiln::guess(guess),
            KilnChoice::Own => own.get(),
        });
        Self { chosen, own, start: RwSignal::new(start.unwrap_or(USUAL_START)), kiln }
    }

    /// Takes another one.
    pub fn choose(&self, choice: KilnChoice) {
        local::keep(CHOSEN, choice.key());
        self.chosen.set(choice);
    }

    /// Changes the own kiln, if it still is one then.
    ///
    /// # Errors
    /// What is wrong with it, and what to do.
    pub fn describe(&self, change: impl FnOnce(&mut Kiln)) -> Result<(), String> {
        let mut kiln = self.own.get_untracked();
        change(&mut kiln);
        match checks::check(&kiln).first() {
            Some(fault) => Err(format!("{} {} {}", fault.what, fault.why, fault.remedy)),
            None => {
                local::keep(OWN, &kiln.write());
                self.own.set(kiln);
                Ok(())
            }
        }
    }

    /// Switches it on at another time, minutes past midnight.
    pub fn start_at(&self, minutes: f64) {
        local::keep(START, &minutes.to_string());
        self.start.set(minutes);
    }
}

/// An own kiln before anything was said of it: like the usual guess.
fn first_own() -> Kiln {
    Kiln { name: "My kiln".into(), guess: false, ..Kiln::guess(Guess::SmallBrick) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_own_kiln_can_be_read_as_it_was_written() {
        let kiln = first_own();
        assert_eq!(Kiln::read(&kiln.write()), Ok(kiln.clone()));
        assert!(checks::check(&kiln).is_empty() && !kiln.guess);
    }

    #[test]
    fn each_kiln_has_a_key_of_its_own() {
        let mut keys: Vec<&str> = KilnChoice::ALL.map(KilnChoice::key).to_vec();
        keys.sort_unstable();
        keys.dedup();
        assert_eq!(keys.len(), KilnChoice::ALL.len());
    }

    #[test]
    fn programs_follow_the_kiln_that_is_taken() {
        Owner::new().with(|| {
            let kilns = Kilns::new(KilnChoice::Own, first_own(), None);
            assert!(!untrack(|| kilns.kiln.read().guess));
            kilns.chosen.set(KilnChoice::Guess(Guess::Fiber));
            assert_eq!(kilns.kiln.get_untracked(), Kiln::guess(Guess::Fiber));
        });
    }
}
