//! What was done, so that it can be taken back: a list of recipes with the name of what changed each.

use dappledome::base::seed::Seed;
use dappledome::recipe::Recipe;
use leptos::prelude::*;

/// Changes of one name that follow each other within this time are one, ms.
const RUN: f64 = 800.0;

/// Most steps kept: a recipe is a few kB, so this is about a megabyte.
const MOST: usize = 300;

#[derive(Clone)]
struct Past {
    name: String,
    recipe: Recipe,
    seed: Seed,
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

/// The steps back and forward.
#[derive(Clone, Copy)]
pub struct History {
    steps: StoredValue<Steps>,
    /// What *Undo* and *Redo* would take back and bring again.
    pub names: RwSignal<(Option<String>, Option<String>)>,
}

impl History {
    /// Nothing done yet.
    pub fn new() -> Self {
        Self { steps: StoredValue::new(Steps::default()), names: RwSignal::default() }
    }

    /// Remembers a recipe about to be changed.
    pub fn note(&self, name: &str, recipe: &Recipe, seed: Seed) {
        let now = js_sys::Date::now();
        self.steps.update_value(|steps| {
            let joins = steps.back.last().is_some_and(|past| past.name == name)
                && steps.last.is_some_and(|last| steps.dragging || now - last < RUN);
            steps.last = Some(now);
            if !joins {
                if steps.back.len() == MOST {
                    steps.back.remove(0);
                }
                steps.back.push(Past { name: name.into(), recipe: recipe.clone(), seed });
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

    /// One step back or forward from `now`: what the recipe and seed are then.
    pub fn step(&self, (recipe, seed): (Recipe, Seed), forward: bool) -> Option<(Recipe, Seed)> {
        let mut found = None;
        self.steps.update_value(|steps| {
            steps.last = None;
            let Steps { back, forward: ahead, .. } = steps;
            let (from, to) = if forward { (ahead, back) } else { (back, ahead) };
            if let Some(past) = from.pop() {
                to.push(Past { name: past.name, recipe, seed });
                found = Some((past.recipe, past.seed));
            }
        });
        self.tell();
        found
    }

    fn tell(&self) {
        let names = self.steps.with_value(|steps| {
            let name = |list: &[Past]| list.last().map(|past| past.name.clone());
            (name(&steps.back), name(&steps.forward))
        });
        if self.names.with_untracked(|old| *old != names) {
            self.names.set(names);
        }
    }
}
