//! What is to be saved, what is, and what comes next. Plain data: it neither saves nor waits.

use crate::model::ids::PieceId;
use crate::model::records::{SaveState, Saved, Stored, Version};
use dappledome::recipe::piece::Piece;

/// How long the hand must have rested before a change is saved, ms.
const REST: f64 = 400.0;
/// How long a change waits at the longest while others follow it, ms.
const LONGEST: f64 = 2000.0;

/// What is known to be stored of a piece.
#[derive(Debug)]
struct Known {
    id: PieceId,
    /// None if it was taken away: then the text is what it was.
    revision: Option<u32>,
    /// ms since 1970.
    changed: f64,
    text: String,
}

/// A piece that waits to be saved.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// Which one.
    pub id: PieceId,
    /// How it stands.
    pub piece: Piece,
}

/// What is to be done for a piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Decision {
    /// Nothing but to say how it is kept.
    Say(SaveState),
    /// It is to be saved over this revision, or as a new piece.
    Save {
        /// The revision that this tab last saw.
        known: Option<u32>,
    },
}

/// What comes after a piece was to be saved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Next {
    /// It is kept.
    Kept,
    /// Another tab took it away: here it is made anew under another number, so that there both can be had back.
    AsNew,
    /// Another tab changed it, and it has left the table: it becomes another piece of another name.
    AsSecond,
    /// Another tab changed it at this time, ms since 1970: the maker is asked.
    Ask(f64),
}

/// What is to be saved, and what is.
#[derive(Debug, Default)]
pub struct SaveQueue {
    known: Vec<Known>,
    /// How the piece on the table stood when it was last looked at.
    latest: Option<Version>,
    /// What waits to be saved, one version of each piece.
    waiting: Vec<Job>,
    saving: bool,
    /// Since when a change waits, ms since 1970.
    since: Option<f64>,
}

impl SaveQueue {
    /// The piece on the table has changed at this time, ms since 1970, or is another one: then the one before waits to be
    /// saved. Gives how long saving may wait, ms; none if there is nothing to save.
    pub fn changed(&mut self, now: Version, time: f64) -> Option<f64> {
        let id = now.id;
        let before = self.latest.replace(now);
        if before.as_ref().is_some_and(|before| before.id == id) {
            return id.map(|_| self.rest(time));
        }
        if let Some(before) = before {
            self.wait(before);
        }
        id.map(|_| 0.0)
    }

    /// How long a change of this time may wait for the hand to rest. A clock that was set back makes none wait longer.
    fn rest(&mut self, time: f64) -> f64 {
        let since = self.since.unwrap_or(time).min(time);
        self.since = Some(since);
        REST.min(since + LONGEST - time).max(0.0)
    }

    /// Whether saving is to begin, and not under way already. What lies on the table is saved too.
    pub fn begin(&mut self) -> bool {
        self.since = None;
        if let Some(latest) = self.latest.clone() {
            self.wait(latest);
        }
        !std::mem::replace(&mut self.saving, true)
    }

    /// What waits but for the piece of this number.
    pub fn waiting_but(&self, id: Option<PieceId>) -> Vec<Job> {
        self.waiting.iter().filter(|job| Some(job.id) != id).cloned().collect()
    }

    /// The next piece to save; without one, saving has ended.
    pub fn next(&mut self) -> Option<Job> {
        let next = self.waiting.pop();
        self.saving = next.is_some();
        next
    }

    /// What is to be done for a piece. One that is `untouched` came with the program and needs no keeping.
    pub fn decide(&self, id: PieceId, text: &str, untouched: bool) -> Decision {
        match (self.state_of(id, text), self.revision(id)) {
            (Some(state), _) => Decision::Say(state),
            (None, None) if untouched => Decision::Say(SaveState::Untouched),
            (None, known) => Decision::Save { known },
        }
    }

    /// How a text is kept that this tab knows to be stored, or to have been taken away.
    pub fn state_of(&self, id: PieceId, text: &str) -> Option<SaveState> {
        let known = self.known.iter().find(|known| known.id == id && known.text == text)?;
        Some(if known.revision.is_some() { SaveState::Since(known.changed) } else { SaveState::Away })
    }

    /// What came of saving a piece at this time, ms since 1970, and what comes next.
    pub fn outcome(&mut self, id: PieceId, text: &str, now: f64, saved: Saved, on_table: bool) -> Next {
        match saved {
            Saved::As(revision) => {
                self.learn(id, Some(revision), now, text);
                Next::Kept
            }
            Saved::Gone => Next::AsNew,
            Saved::Changed(time) if on_table => Next::Ask(time),
            Saved::Changed(_) => Next::AsSecond,
        }
    }

    /// A piece could not be saved: it waits again, unless it was changed meanwhile. Saving has ended.
    pub fn failed(&mut self, job: Job) {
        if !self.waiting.iter().any(|waiting| waiting.id == job.id) {
            self.waiting.push(job);
        }
        self.saving = false;
    }

    /// Nothing else is saved until [`Self::go_on`].
    pub fn pause(&mut self) {
        self.saving = true;
    }

    /// Saving may begin again. Whether something came meanwhile that is to be saved.
    pub fn go_on(&mut self) -> bool {
        self.saving = false;
        !self.waiting.is_empty()
    }

    /// Remembers what is stored of a piece.
    pub fn know(&mut self, id: PieceId, stored: &Stored) {
        self.learn(id, Some(stored.revision), stored.changed, &stored.text);
    }

    /// A piece from storage comes on the table: this is how it is written here, should it have been written otherwise there.
    pub fn take_up(&mut self, id: PieceId, stored: &Stored, piece: &Piece) {
        self.learn(id, Some(stored.revision), stored.changed, &piece.write());
    }

    /// A piece was kept anew under the number `fresh`.
    pub fn kept_as(&mut self, id: PieceId, fresh: PieceId, text: &str, now: f64) {
        self.known.retain(|known| known.id != id);
        self.learn(fresh, Some(1), now, text);
    }

    /// The piece on the table has another number from now on, but not by a change.
    pub fn renumber(&mut self, fresh: PieceId) {
        if let Some(latest) = &mut self.latest {
            latest.id = Some(fresh);
        }
    }

    /// A piece was taken away. With a text it lies on the table, and that is not kept again until it is changed.
    pub fn forget(&mut self, id: PieceId, on_table: Option<&str>) {
        self.known.retain(|known| known.id != id);
        self.waiting.retain(|waiting| waiting.id != id);
        if let Some(text) = on_table {
            self.learn(id, None, 0.0, text);
        }
    }

    /// Nothing waits any more.
    pub fn clear(&mut self) {
        self.waiting.clear();
    }

    /// The revision that this tab last saw of a piece.
    fn revision(&self, id: PieceId) -> Option<u32> {
        self.known.iter().find(|known| known.id == id)?.revision
    }

    fn learn(&mut self, id: PieceId, revision: Option<u32>, changed: f64, text: &str) {
        self.known.retain(|known| known.id != id);
        self.known.push(Known { id, revision, changed, text: text.into() });
    }

    /// Puts a version among those that wait, in place of an older one of the same piece. One that is no piece of the maker's
    /// need not wait.
    fn wait(&mut self, version: Version) {
        let Version { id: Some(id), piece } = version else { return };
        self.waiting.retain(|waiting| waiting.id != id);
        self.waiting.push(Job { id, piece });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::base::seed::Seed;
    use dappledome::recipe::Recipe;

    const A: PieceId = PieceId(1);
    const B: PieceId = PieceId(2);
    const NOW: f64 = 1000.0;

    fn piece(seed: u32) -> Piece {
        Piece::new(Recipe::bare(), Seed(seed))
    }

    fn version(id: PieceId, seed: u32) -> Version {
        Version { id: Some(id), piece: piece(seed) }
    }

    fn job(id: PieceId, seed: u32) -> Job {
        Job { id, piece: piece(seed) }
    }

    /// A queue that knows piece A at revision 3, as this text.
    fn knowing(text: &str) -> SaveQueue {
        let mut queue = SaveQueue::default();
        queue.know(A, &Stored { revision: 3, changed: 7.0, text: text.into() });
        queue
    }

    #[test]
    fn a_change_waits_for_rest_and_another_piece_does_not() {
        let newcomer = || Version { id: None, piece: piece(41) };
        let steps = [
            (newcomer(), None),
            (newcomer(), None),
            (version(A, 1), Some(0.0)),
            (version(A, 2), Some(REST)),
            (version(B, 5), Some(0.0)),
            (version(A, 2), Some(0.0)),
            (newcomer(), None),
        ];
        let mut queue = SaveQueue::default();
        for (at, (version, wait)) in steps.into_iter().enumerate() {
            assert_eq!(queue.changed(version, NOW), wait, "step {at}");
        }
    }

    #[test]
    fn a_change_waits_two_seconds_at_the_longest() {
        let mut queue = SaveQueue::default();
        queue.changed(version(A, 0), NOW);
        let mut wait = |seed, time| queue.changed(version(A, seed), NOW + time).unwrap();
        for (at, (time, waits)) in
            [(0.0, 400.0), (250.0, 400.0), (1600.0, 400.0), (1750.0, 250.0), (2000.0, 0.0), (2250.0, 0.0)]
                .into_iter()
                .enumerate()
        {
            assert_eq!(wait(at as u32, time), waits, "at {time} ms");
        }
        queue.begin();
        assert_eq!(queue.changed(version(A, 9), NOW + 2300.0), Some(400.0), "a new count");
        assert_eq!(queue.changed(version(A, 8), NOW - 9e6), Some(400.0), "the clock was set back");
        assert_eq!(queue.changed(version(A, 7), NOW - 9e6 + 1900.0), Some(100.0));
    }

    #[test]
    fn the_piece_on_the_table_is_saved_first_and_one_that_left_it_after() {
        let mut queue = SaveQueue::default();
        queue.changed(Version { id: None, piece: piece(41) }, NOW);
        for version in [version(A, 1), version(A, 2), version(B, 5)] {
            queue.changed(version, NOW);
        }
        assert!(queue.begin());
        assert!(!queue.begin(), "it is under way");
        assert_eq!(queue.next(), Some(job(B, 5)));
        assert_eq!(queue.next(), Some(job(A, 2)), "as it stood last, once");
        assert_eq!(queue.next(), None);
        assert!(queue.begin(), "it has ended");
    }

    #[test]
    fn what_could_not_be_saved_waits_again_unless_it_was_changed_meanwhile() {
        let came_back = [version(A, 2), version(B, 5)];
        for (meanwhile, again) in [(&[][..], job(A, 1)), (&came_back, job(A, 2))] {
            let mut queue = SaveQueue::default();
            queue.changed(version(A, 1), NOW);
            queue.changed(version(B, 5), NOW);
            queue.begin();
            assert_eq!(queue.next(), Some(job(B, 5)));
            let failing = queue.next().unwrap();
            for version in meanwhile {
                queue.changed(version.clone(), NOW);
            }
            queue.failed(failing);
            assert!(queue.begin(), "it is tried again");
            assert_eq!([queue.next(), queue.next(), queue.next()], [Some(job(B, 5)), Some(again), None]);
        }
    }

    #[test]
    fn while_it_pauses_nothing_is_saved_and_what_came_meanwhile_is_after() {
        let mut queue = SaveQueue::default();
        queue.pause();
        assert!(!queue.begin());
        assert!(!queue.go_on(), "nothing came");
        queue.changed(version(A, 1), NOW);
        queue.pause();
        assert!(!queue.begin());
        assert!(queue.go_on());
        assert!(queue.begin());
        assert_eq!(queue.next(), Some(job(A, 1)));
    }

    #[test]
    fn what_is_to_be_done_for_a_piece() {
        let new = SaveQueue::default;
        let away = || {
            let mut queue = knowing("as it was");
            queue.forget(A, Some("as it was"));
            queue
        };
        let save = |known| Decision::Save { known };
        let table = [
            (new(), "any", false, save(None)),
            (new(), "any", true, Decision::Say(SaveState::Untouched)),
            (knowing("as it was"), "as it was", false, Decision::Say(SaveState::Since(7.0))),
            (knowing("as it was"), "changed", false, save(Some(3))),
            // Once kept it is the maker's, even as it came with the program.
            (knowing("as it was"), "changed", true, save(Some(3))),
            (away(), "as it was", false, Decision::Say(SaveState::Away)),
            (away(), "changed", false, save(None)),
            (away(), "changed", true, Decision::Say(SaveState::Untouched)),
        ];
        for (at, (queue, text, untouched, decision)) in table.into_iter().enumerate() {
            assert_eq!(queue.decide(A, text, untouched), decision, "row {at}");
        }
        assert_eq!(knowing("as it was").decide(B, "as it was", false), save(None), "another piece");
    }

    #[test]
    fn what_comes_after_saving() {
        let table = [
            (Saved::As(4), true, Next::Kept, SaveState::Since(NOW)),
            (Saved::As(4), false, Next::Kept, SaveState::Since(NOW)),
            (Saved::Gone, true, Next::AsNew, SaveState::Untouched),
            (Saved::Gone, false, Next::AsNew, SaveState::Untouched),
            (Saved::Changed(9.0), true, Next::Ask(9.0), SaveState::Untouched),
            (Saved::Changed(9.0), false, Next::AsSecond, SaveState::Untouched),
        ];
        for (saved, on_table, next, state) in table {
            let mut queue = knowing("as it was");
            assert_eq!(queue.outcome(A, "changed", NOW, saved, on_table), next, "{saved:?}");
            let kept = queue.state_of(A, "changed");
            assert_eq!(kept.unwrap_or(SaveState::Untouched), state, "{saved:?}");
        }
        let mut queue = knowing("as it was");
        queue.outcome(A, "changed", NOW, Saved::As(4), true);
        assert_eq!(queue.decide(A, "again", false), Decision::Save { known: Some(4) });
    }

    #[test]
    fn a_piece_kept_under_another_number_is_saved_under_that_from_then_on() {
        let mut queue = knowing("as it was");
        queue.changed(version(A, 1), NOW);
        queue.kept_as(A, B, "text", NOW);
        queue.renumber(B);
        assert_eq!(queue.changed(version(B, 1), NOW), Some(REST), "it is no other piece");
        assert_eq!(queue.state_of(B, "text"), Some(SaveState::Since(NOW)));
        assert_eq!(queue.decide(B, "changed", false), Decision::Save { known: Some(1) });
        assert_eq!(
            queue.decide(A, "as it was", false),
            Decision::Save { known: None },
            "nothing is known of it"
        );
        queue.begin();
        assert_eq!((queue.next(), queue.next()), (Some(job(B, 1)), None));
    }

    #[test]
    fn a_piece_taken_away_does_not_wait_to_be_saved() {
        let mut queue = SaveQueue::default();
        queue.changed(version(A, 1), NOW);
        queue.changed(version(B, 2), NOW);
        queue.forget(A, None);
        queue.begin();
        assert_eq!((queue.next(), queue.next()), (Some(job(B, 2)), None));
    }
}
