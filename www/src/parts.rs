//! A blend by parts: the powders of a coat, the glasses of the accents.

use super::choice::{choice, option, word};
use super::dom::{El, el, memo};
use super::rule::rule;
use super::rules::coat::{ACCENT_PARTS, COAT_PARTS};
use super::rules::{Place, Rule};
use super::state::Bench;
use super::words;
use dappledome::glass::catalogue::{self, Glass};
use dappledome::recipe::Part;
use dappledome::recipe::Recipe;
use dappledome::recipe::limits::MOST_PARTS;
use leptos::prelude::*;

/// Whose parts they are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Jar {
    /// The powder of the coat with this id.
    Coat(u32),
    /// The accents.
    Accents,
}

impl Jar {
    /// The parts, to read.
    pub fn parts(self, recipe: &Recipe) -> Option<&Vec<Part>> {
        match self {
            Self::Coat(id) => recipe.coat(id).map(|coat| &coat.powder),
            Self::Accents => recipe.accents.as_ref().map(|accents| &accents.glasses),
        }
    }

    /// The parts, to change.
    pub fn parts_mut(self, recipe: &mut Recipe) -> Option<&mut Vec<Part>> {
        match self {
            Self::Coat(id) => recipe.coat_mut(id).map(|coat| &mut coat.powder),
            Self::Accents => recipe.accents.as_mut().map(|accents| &mut accents.glasses),
        }
    }

    fn rule(self) -> &'static Rule {
        match self {
            Self::Coat(_) => &COAT_PARTS,
            Self::Accents => &ACCENT_PARTS,
        }
    }
}

/// The choice of one glass instead of all there are: the jar on the bench.
pub fn jars(bench: Bench, jar: Jar) -> El {
    let powders = catalogue::all().iter().filter(|glass| glass.powder);
    choice(words::POWDER, powders.map(|glass| one_jar(bench, jar, glass)))
}

fn one_jar(bench: Bench, jar: Jar, glass: &'static Glass) -> El {
    let id = glass.id;
    let chosen = move || {
        bench.recipe.with(|recipe| {
            jar.parts(recipe).is_some_and(|parts| matches!(&parts[..], [one] if one.glass == id))
        })
    };
    let choose = move || {
        bench.edit(words::did::POWDER, &|recipe| {
            if let Some(parts) = jar.parts_mut(recipe) {
                *parts = vec![Part { glass: id.into(), parts: 1.0 }];
            }
        });
    };
    option(glass.name, chosen, choose)
}

/// Every part with its rule, and what may be added.
pub fn blend(bench: Bench, jar: Jar, label: &str, add: &'static str) -> El {
    let glasses = memo(move || {
        let id = |part: &Part| part.glass.clone();
        bench.recipe.with(|recipe| {
            jar.parts(recipe).map(|parts| parts.iter().map(id).collect::<Vec<_>>()).unwrap_or_default()
        })
    });
    let adding = RwSignal::new(false);
    let lines = move || {
        let glasses = glasses.get();
        let single = glasses.len() == 1;
        glasses.iter().enumerate().map(|(at, id)| part(bench, jar, at, id, single)).collect()
    };
    let more = move || {
        let open = el("button", "word")
            .live_flag("aria-expanded", move || adding.get())
            .press(move || adding.update(|adding| *adding = !*adding))
            .says(add);
        el("div", "").with(open).when(move || adding.get(), move || addable(bench, jar, glasses, adding))
    };
    el("div", "blend")
        .with(el("p", "label").says(label))
        .holds(lines)
        .when(move || glasses.with(|glasses| glasses.len() < MOST_PARTS), more)
}

fn part(bench: Bench, jar: Jar, at: usize, id: &str, single: bool) -> El {
    let coat = if let Jar::Coat(id) = jar { id } else { 0 };
    let take_out = (!single).then(|| {
        word(words::TAKE_OUT, move || {
            bench.edit(words::did::BLEND, &|recipe| {
                if let Some(parts) = jar.parts_mut(recipe)
                    && parts.len() > 1
                    && at < parts.len()
                {
                    parts.remove(at);
                }
            });
        })
    });
    let head = el("p", "part-head").with(el("b", "").says(&words::glass(id))).with_all(take_out);
    let parts = (!single).then(|| rule(bench, jar.rule(), Place { coat, at }));
    el("div", "part").with(head).with_all(parts)
}

fn addable(bench: Bench, jar: Jar, glasses: Memo<Vec<String>>, adding: RwSignal<bool>) -> El {
    let there = glasses.get_untracked();
    let others =
        catalogue::all().iter().filter(|glass| glass.powder && !there.iter().any(|id| id == glass.id));
    let options = others.map(|glass| {
        let id = glass.id;
        let add = move || {
            adding.set(false);
            bench.edit(words::did::BLEND, &|recipe| {
                if let Some(parts) = jar.parts_mut(recipe) {
                    parts.push(Part { glass: id.into(), parts: 1.0 });
                }
            });
        };
        option(glass.name, || false, add)
    });
    choice(words::GLASS, options)
}
