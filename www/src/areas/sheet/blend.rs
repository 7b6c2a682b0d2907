//! A blend by parts: the powders of a coat, the glasses of the accents.

use super::offered::{GlassOption, Offered, OfferedFor};
use crate::controls::choice::Choice;
use crate::controls::color_pair::ColorPair;
use crate::controls::slider::Slider;
use crate::fields::coat::{ACCENT_PARTS, COAT_PARTS};
use crate::fields::types::{Field, Target};
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::recipe::limits::MOST_PARTS;
use dappledome::recipe::{Part, Recipe};
use leptos::prelude::*;

/// Whose parts they are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BlendOwner {
    /// The coat with this id.
    Coat(u32),
    /// The accents.
    Accents,
}

impl BlendOwner {
    /// The parts, to read.
    fn parts(self, recipe: &Recipe) -> Option<&Vec<Part>> {
        match self {
            Self::Coat(id) => recipe.coat(id).map(|coat| &coat.powder),
            Self::Accents => recipe.accents.as_ref().map(|accents| &accents.glasses),
        }
    }

    /// The parts, to change.
    fn parts_mut(self, recipe: &mut Recipe) -> Option<&mut Vec<Part>> {
        match self {
            Self::Coat(id) => recipe.coat_mut(id).map(|coat| &mut coat.powder),
            Self::Accents => recipe.accents.as_mut().map(|accents| &mut accents.glasses),
        }
    }

    /// The ids of its glasses, in order.
    fn glasses(self, recipe: &Recipe) -> Vec<String> {
        let parts = self.parts(recipe).into_iter().flatten();
        parts.map(|part| part.glass.clone()).collect()
    }

    /// Whether it is of this glass alone.
    fn is_only(self, recipe: &Recipe, glass: &str) -> bool {
        self.parts(recipe).is_some_and(|parts| matches!(&parts[..], [one] if one.glass == glass))
    }

    /// Takes one glass instead of all there are.
    fn take_only(self, recipe: &mut Recipe, glass: &str) {
        if let Some(parts) = self.parts_mut(recipe) {
            *parts = vec![one_part(glass)];
        }
    }

    /// Blends another glass in.
    fn blend_in(self, recipe: &mut Recipe, glass: &str) {
        if let Some(parts) = self.parts_mut(recipe) {
            parts.push(one_part(glass));
        }
    }

    /// Takes a part out, unless it is the last one.
    fn take_out(self, recipe: &mut Recipe, at: usize) {
        if let Some(parts) = self.parts_mut(recipe)
            && parts.len() > 1
            && at < parts.len()
        {
            parts.remove(at);
        }
    }

    fn field(self) -> &'static Field {
        match self {
            Self::Coat(_) => &COAT_PARTS,
            Self::Accents => &ACCENT_PARTS,
        }
    }

    /// Where its glasses are offered.
    fn place(self) -> OfferedFor {
        match self {
            Self::Coat(id) => OfferedFor::Coat(id),
            Self::Accents => OfferedFor::Accents,
        }
    }

    fn target(self, at: usize) -> Target {
        match self {
            Self::Coat(id) => Target::CoatPart(id, at),
            Self::Accents => Target::AccentPart(at),
        }
    }
}

fn one_part(glass: &str) -> Part {
    Part { glass: glass.into(), parts: 1.0 }
}

/// The choice of one glass instead of all there are.
#[component]
pub fn PowderChoice(
    /// Whose.
    owner: BlendOwner,
) -> impl IntoView {
    let offered = Offered::new(owner.place());
    view! {
        <Choice label=words::POWDER>
            <For each=move || offered.names() key=Clone::clone let:glass>
                <PowderOption owner glass offered />
            </For>
        </Choice>
        <p class="aside halves">{owner.place().halves()}</p>
    }
}

/// One of them.
#[component]
fn PowderOption(
    /// Whose.
    owner: BlendOwner,
    /// Which glass: its id and its name.
    glass: (String, String),
    /// All of them.
    offered: Offered,
) -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let (is, id) = (glass.0.clone(), glass.0.clone());
    let choose = move |()| {
        piece.edit(words::did::POWDER, |recipe| {
            offered.bring_to(recipe, &id);
            owner.take_only(recipe, &id);
        });
    };
    view! {
        <GlassOption glass offered chosen=move || owner.is_only(&piece.recipe.read(), &is) choose />
    }
}

/// Every part with its slider, and what may be blended in.
#[component]
pub fn Blend(
    /// Whose.
    owner: BlendOwner,
    /// What the parts are.
    label: &'static str,
    /// The word that opens the list of more.
    add: &'static str,
) -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let glasses = Memo::new(move |_| owner.glasses(&piece.recipe.read()));
    let offered = Offered::new(owner.place());
    let parts = move || {
        let glasses = glasses.get();
        let single = glasses.len() == 1;
        glasses.into_iter().enumerate().map(|(at, glass)| (at, glass, single)).collect::<Vec<_>>()
    };
    view! {
        <div class="blend">
            <p class="label">{label}</p>
            <For each=parts key=Clone::clone let((at, glass, single))>
                <BlendPart owner at glass single offered />
            </For>
            <Show when=move || glasses.read().len() < MOST_PARTS>
                <More owner glasses offered add />
            </Show>
        </div>
    }
}

/// One glass of a blend.
#[component]
fn BlendPart(
    /// Whose.
    owner: BlendOwner,
    /// Which part, counted from 0.
    at: usize,
    /// The glass's id.
    glass: String,
    /// Whether there is no other.
    single: bool,
    /// All glasses that are offered.
    offered: Offered,
) -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let take_out = move |_| piece.edit(words::did::BLEND, |recipe| owner.take_out(recipe, at));
    let word = (!single).then(|| {
        view! {
            <button class="word" on:click=take_out>
                {words::TAKE_OUT}
            </button>
        }
    });
    let name = piece.recipe.with_untracked(|recipe| recipe.glasses.name(&glass));
    view! {
        <div class="part">
            <p class="part-head">
                <b>
                    <ColorPair colors=Signal::derive(move || offered.of(&glass)) />
                    {name}
                </b>
                {word}
            </p>
            {(!single).then(|| view! { <Slider field=owner.field() target=owner.target(at) /> })}
        </div>
    }
}

/// The word that opens the list of glasses to blend in.
#[component]
fn More(
    /// Whose.
    owner: BlendOwner,
    /// The glasses that are in it.
    glasses: Memo<Vec<String>>,
    /// All glasses that are offered.
    offered: Offered,
    /// The word.
    add: &'static str,
) -> impl IntoView {
    let open = RwSignal::new(false);
    view! {
        <div>
            <button
                class="word"
                aria-expanded=move || open.get().to_string()
                on:click=move |_| open.update(|open| *open = !*open)
            >
                {add}
            </button>
            <Show when=move || open.get()>
                <MoreGlasses owner glasses offered open />
            </Show>
        </div>
    }
}

/// The glasses that may be blended in.
#[component]
fn MoreGlasses(
    /// Whose.
    owner: BlendOwner,
    /// The glasses that are in it.
    glasses: Memo<Vec<String>>,
    /// All glasses that are offered.
    offered: Offered,
    /// Whether the list is open.
    open: RwSignal<bool>,
) -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let others = move || {
        let mut names = offered.names();
        names.retain(|(id, _)| !glasses.read_untracked().contains(id));
        names
    };
    let blend_in = move |glass: &str| {
        open.set(false);
        piece.edit(words::did::BLEND, |recipe| {
            offered.bring_to(recipe, glass);
            owner.blend_in(recipe, glass);
        });
    };
    let option = move |glass: (String, String)| {
        let id = glass.0.clone();
        view! { <GlassOption glass offered chosen=false choose=move |()| blend_in(&id) /> }
    };
    view! {
        <Choice label=words::GLASS>
            <For each=others key=Clone::clone children=option />
        </Choice>
        <p class="aside halves">{owner.place().halves()}</p>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::recipe::{Accents, Coat, Fall, Patches};

    fn recipe() -> Recipe {
        let coat = Coat::new(4, "straw", Fall::Patches(Patches::usual()));
        Recipe { coats: vec![coat], accents: Some(Accents::default()), ..Recipe::bare() }
    }

    #[test]
    fn a_blend_grows_and_shrinks_but_is_never_empty() {
        for owner in [BlendOwner::Coat(4), BlendOwner::Accents] {
            let mut recipe = recipe();
            owner.take_only(&mut recipe, "rust");
            assert!(owner.is_only(&recipe, "rust") && !owner.is_only(&recipe, "moss"));
            owner.blend_in(&mut recipe, "moss");
            assert_eq!(owner.glasses(&recipe), ["rust", "moss"]);
            assert!(!owner.is_only(&recipe, "rust"));
            owner.take_out(&mut recipe, 5);
            owner.take_out(&mut recipe, 0);
            owner.take_out(&mut recipe, 0);
            assert_eq!(owner.glasses(&recipe), ["moss"]);
        }
    }

    #[test]
    fn its_slider_finds_its_parts() {
        for owner in [BlendOwner::Coat(4), BlendOwner::Accents] {
            let mut recipe = recipe();
            owner.blend_in(&mut recipe, "moss");
            let last = owner.glasses(&recipe).len() - 1;
            owner.field().set(&mut recipe, owner.target(last), 0, 2.5);
            assert_eq!(owner.parts(&recipe).unwrap()[last].parts, 2.5);
        }
    }

    #[test]
    fn what_is_not_in_the_recipe_stays_out() {
        let mut bare = Recipe::bare();
        for owner in [BlendOwner::Coat(4), BlendOwner::Accents] {
            owner.take_only(&mut bare, "rust");
            owner.blend_in(&mut bare, "moss");
            owner.take_out(&mut bare, 0);
            assert!(owner.glasses(&bare).is_empty());
        }
        assert_eq!(bare, Recipe::bare());
    }
}
