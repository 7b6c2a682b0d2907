//! What was done, so that it can be taken back: a list of pieces with the name of what changed each.

use super::state::PieceId;
use dappledome::recipe::piece::Piece;
use leptos::prelude::*;

/// Changes of one name that follow each other within this time are one, ms.
const RUN: f64 = 800.0;

/// A piece as it stands, and which of the maker's pieces it is; none before its first change.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    /// Which one.
    pub id: Option<PieceId>,
    /// How it stands.
    pub piece: Piece,
}

struct Past {
    name: String,
    standing: Standing,
}

#[derive(Default)]
struct Steps {
    back: Vec<Past>,
    forward: Vec<Past>,
    /// Time of the last change, if a change of the same name may still join it.
    last: Option<f64>,
    /// Whether a drag is under way: however long it rests, it is one step.
    dragging: bool,
}

/// What lies next in either direction.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Names {
    /// What would be taken back.
    pub back: Option<String>,
    /// What would be brought again.
    pub forward: Option<String>,
    /// Steps in all.
    pub count: usize,
}

/// The steps back and forward.
#[derive(Clone, Copy)]
pub struct History {
    steps: StoredValue<Steps>,
    /// What *Undo* and *Redo* would take back and bring again.
    pub names: RwSignal<Names>,
}

impl History {
    /// Nothing done yet.
    pub fn new() -> Self {
        Self { steps: StoredValue::new(Steps::default()), names: RwSignal::default() }
    }

    /// Remembers how a piece stands that is about to be changed.
    pub fn note(&self, name: &str, standing: impl FnOnce() -> Standing) {
        let now = js_sys::Date::now();
        self.steps.update_value(|steps| {
            let joins = steps.back.last().is_some_and(|past| past.name == name)
                && steps.last.is_some_and(|last| steps.dragging || now - last < RUN);
            steps.last = Some(now);
            if !joins {
                steps.back.push(Past { name: name.into(), standing: standing() });
                steps.forward.clear();
            }
        });
        self.tell();
    }

    /// Begins or ends a drag: its changes are one step, and nothing joins it later.
    pub fn drag(&self, begins: bool) {
        self.steps.update_value(|steps| {
            steps.dragging = begins;
            steps.last = None;
        });
    }

    /// So many steps back, or forward, from `now`: how the piece stands then; none if there are no steps that way.
    pub fn step(&self, mut now: Standing, by: isize) -> Option<Standing> {
        let mut moved = false;
        self.steps.update_value(|steps| {
            steps.last = None;
            let Steps { back, forward, .. } = steps;
            let (from, to) = if by > 0 { (forward, back) } else { (back, forward) };
            for _ in 0..by.unsigned_abs() {
                let Some(past) = from.pop() else { break };
                to.push(Past { name: past.name, standing: std::mem::replace(&mut now, past.standing) });
                moved = true;
            }
        });
        self.tell();
        moved.then_some(now)
    }

    /// The names of all steps that can be taken back, the last one first, and of those that can be brought again, the
    /// next one first.
    pub fn all_names(&self) -> (Vec<String>, Vec<String>) {
        self.names.track();
        self.steps.with_value(|steps| {
            let names = |list: &[Past]| list.iter().rev().map(|past| past.name.clone()).collect();
            (names(&steps.back), names(&steps.forward))
        })
    }

    fn tell(&self) {
        let now = self.steps.with_value(|steps| {
            let name = |list: &[Past]| list.last().map(|past| past.name.clone());
            Names {
                back: name(&steps.back),
                forward: name(&steps.forward),
                count: steps.back.len() + steps.forward.len(),
            }
        });
        if self.names.with_untracked(|old| *old != now) {
            self.names.set(now);
        }
    }
}
