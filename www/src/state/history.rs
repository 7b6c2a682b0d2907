//! What was done, so that it can be taken back: a list of versions with the name of what changed each. Plain data; the
//! workpiece and the open order hold theirs in a signal.

/// Changes of one name that follow each other within this time are one, ms.
const RUN: f64 = 800.0;

#[derive(Debug)]
struct Past<V> {
    name: String,
    version: V,
}

/// The steps back and forward.
#[derive(Debug)]
pub struct History<V> {
    back: Vec<Past<V>>,
    forward: Vec<Past<V>>,
    /// Time of the last change, if a change of the same name may still join it.
    last: Option<f64>,
    /// Whether a drag is under way: however long it rests, it is one step.
    dragging: bool,
}

/// What lies next in either direction.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct NextSteps {
    /// What would be taken back.
    pub back: Option<String>,
    /// What would be brought again.
    pub forward: Option<String>,
    /// Steps in all.
    pub count: usize,
}

impl<V> Default for History<V> {
    fn default() -> Self {
        Self { back: Vec::new(), forward: Vec::new(), last: None, dragging: false }
    }
}

impl<V> History<V> {
    /// Remembers how something stands that is about to be changed at this time, ms.
    pub fn note(&mut self, name: &str, now: f64, version: impl FnOnce() -> V) {
        let joins = self.back.last().is_some_and(|past| past.name == name)
            && self.last.is_some_and(|last| self.dragging || now - last < RUN);
        self.last = Some(now);
        if !joins {
            self.back.push(Past { name: name.into(), version: version() });
            self.forward.clear();
        }
    }

    /// Begins or ends a drag: its changes are one step, and nothing joins it later.
    pub fn drag(&mut self, begins: bool) {
        self.dragging = begins;
        self.last = None;
    }

    /// So many steps back (negative), or forward, from `now`: how it stands then; none if there are no steps that way.
    pub fn step(&mut self, mut now: V, by: isize) -> Option<V> {
        self.last = None;
        let Self { back, forward, .. } = self;
        let (from, to) = if by > 0 { (forward, back) } else { (back, forward) };
        let mut moved = false;
        for _ in 0..by.unsigned_abs() {
            let Some(past) = from.pop() else { break };
            to.push(Past { name: past.name, version: std::mem::replace(&mut now, past.version) });
            moved = true;
        }
        moved.then_some(now)
    }

    /// What *Undo* and *Redo* would take back and bring again.
    pub fn next_steps(&self) -> NextSteps {
        let name = |list: &[Past<V>]| list.last().map(|past| past.name.clone());
        NextSteps {
            back: name(&self.back),
            forward: name(&self.forward),
            count: self.back.len() + self.forward.len(),
        }
    }

    /// The names of all steps that can be taken back, the last one first, and of those that can be brought again, the
    /// next one first.
    pub fn names(&self) -> (Vec<String>, Vec<String>) {
        let names = |list: &[Past<V>]| list.iter().rev().map(|past| past.name.clone()).collect();
        (names(&self.back), names(&self.forward))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::records::Version;
    use dappledome::base::seed::Seed;
    use dappledome::recipe::Recipe;
    use dappledome::recipe::piece::Piece;

    fn version(seed: u32) -> Version {
        Version { id: None, piece: Piece::new(Recipe::bare(), Seed(seed)) }
    }

    fn seed(version: Option<Version>) -> Option<u32> {
        version.map(|version| version.piece.seed.0)
    }

    #[test]
    fn what_was_done_is_taken_back_and_brought_again() {
        let mut history = History::default();
        history.note("one", 0.0, || version(1));
        history.note("two", 1.0, || version(2));
        assert_eq!(history.next_steps(), NextSteps { back: Some("two".into()), forward: None, count: 2 });
        assert_eq!(seed(history.step(version(3), -1)), Some(2));
        assert_eq!(history.names(), (vec!["one".into()], vec!["two".into()]));
        assert_eq!(seed(history.step(version(2), -5)), Some(1), "as far as there are steps");
        assert_eq!(seed(history.step(version(1), -1)), None);
        assert_eq!(seed(history.step(version(1), 2)), Some(3));
        assert_eq!(seed(history.step(version(3), 1)), None);
    }

    #[test]
    fn a_quick_run_of_one_name_is_one_step() {
        let mut history = History::default();
        for now in [0.0, 700.0, 1400.0] {
            history.note("depth", now, || version(now as u32));
        }
        assert_eq!(history.next_steps().count, 1);
        history.note("depth", 1400.0 + RUN, || version(9));
        history.note("size", 1401.0 + RUN, || version(10));
        history.note("depth", 1402.0 + RUN, || version(11));
        assert_eq!(history.next_steps().count, 4, "a pause or another name ends the run");
    }

    #[test]
    fn a_drag_is_one_step_however_long_it_rests() {
        let mut history = History::default();
        history.note("depth", 0.0, || version(0));
        history.drag(true);
        for now in [1.0, 1e4, 1e5] {
            history.note("depth", now, || version(1));
        }
        assert_eq!(history.next_steps().count, 2, "it does not join what was before");
        history.drag(false);
        history.note("depth", 1e5 + 1.0, || version(2));
        assert_eq!(history.next_steps().count, 3, "nothing joins it later");
    }

    #[test]
    fn a_change_after_a_step_back_ends_what_could_be_brought_again() {
        let mut history = History::default();
        history.note("one", 0.0, || version(1));
        history.step(version(2), -1);
        history.note("one", 1.0, || version(1));
        let next = history.next_steps();
        assert_eq!((next.back.as_deref(), next.forward, next.count), (Some("one"), None, 1));
    }
}
