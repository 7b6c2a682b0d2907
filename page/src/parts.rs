//! A blend by parts: the powders of a coat, the glasses of the accents.

use super::choice::{option, word};
use super::rule::rule;
use super::rules::coat::{ACCENT_PARTS, COAT_PARTS};
use super::rules::{Place, Rule};
use super::state::Bench;
use super::words;
use dappledome::glass::catalogue;
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
pub fn jars(bench: Bench, jar: Jar) -> AnyView {
    let powders = catalogue::all().iter().filter(|glass| glass.powder);
    let options = powders
        .map(|glass| {
            let id = glass.id;
            let chosen = move || {
                bench.recipe.with(|recipe| {
                    jar.parts(recipe).is_some_and(|parts| matches!(&parts[..], [one] if one.glass == id))
                })
            };
            let choose = move || {
                bench.edit("powder", &|recipe| {
                    if let Some(parts) = jar.parts_mut(recipe) {
                        *parts = vec![Part { glass: id.into(), parts: 1.0 }];
                    }
                });
            };
            option(glass.name, chosen, choose)
        })
        .collect();
    super::choice::choice(words::POWDER, false, options)
}

/// Every part with its rule, and what may be added.
pub fn blend(bench: Bench, jar: Jar, label: &'static str, add: &'static str) -> AnyView {
    let glasses = Memo::new(move |_| {
        let id = |part: &Part| part.glass.clone();
        bench.recipe.with(|recipe| {
            jar.parts(recipe).map(|parts| parts.iter().map(id).collect::<Vec<_>>()).unwrap_or_default()
        })
    });
    let adding = RwSignal::new(false);
    let lines = move || {
        let glasses = glasses.get();
        let single = glasses.len() == 1;
        glasses.into_iter().enumerate().map(|(at, id)| part(bench, jar, at, &id, single)).collect_view()
    };
    let full = move || glasses.with(|glasses| glasses.len() >= MOST_PARTS);
    view! {
        <div class="blend">
            <p class="label">{label}</p>
            {lines}
            <Show when=move || !full()>
                <button
                    class="word"
                    aria-expanded=move || adding.get().to_string()
                    on:click=move |_| adding.update(|adding| *adding = !*adding)
                >
                    {add}
                </button>
                <Show when=move || adding.get()>{addable(bench, jar, glasses, adding)}</Show>
            </Show>
        </div>
    }
    .into_any()
}

fn part(bench: Bench, jar: Jar, at: usize, id: &str, single: bool) -> AnyView {
    let coat = if let Jar::Coat(id) = jar { id } else { 0 };
    let take_out = (!single).then(|| {
        word(words::TAKE_OUT, move || {
            bench.edit("blend", &|recipe| {
                if let Some(parts) = jar.parts_mut(recipe)
                    && parts.len() > 1
                    && at < parts.len()
                {
                    parts.remove(at);
                }
            });
        })
    });
    let parts = (!single).then(|| rule(bench, jar.rule(), Place { coat, at }));
    view! {
        <div class="part">
            <p class="part-head"><b>{words::glass(id)}</b>{take_out}</p>
            {parts}
        </div>
    }
    .into_any()
}

fn addable(bench: Bench, jar: Jar, glasses: Memo<Vec<String>>, adding: RwSignal<bool>) -> AnyView {
    let there = glasses.get_untracked();
    let options = catalogue::all()
        .iter()
        .filter(|glass| glass.powder && !there.iter().any(|id| id == glass.id))
        .map(|glass| {
            let id = glass.id;
            option(
                glass.name,
                || false,
                move || {
                    adding.set(false);
                    bench.edit("blend", &|recipe| {
                        if let Some(parts) = jar.parts_mut(recipe) {
                            parts.push(Part { glass: id.into(), parts: 1.0 });
                        }
                    });
                },
            )
        })
        .collect();
    super::choice::choice(words::GLASS, false, options)
}
