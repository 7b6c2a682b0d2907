//! A glass that is opened: how its color is known, what it does from thin to thick, what else is known, and what can be done with it.

use super::ladders::{ladders, with_glass};
use super::numbers::numbers;
use crate::controls::sure_line::sure_line;
use crate::state::announcer::Announcer;
use crate::state::glasses::OwnGlasses;
use crate::state::nav::Nav;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::notice::Step;
use dappledome::glass::kind::Glass;
use dappledome::recipe::limits::MOST_COATS;
use dappledome::recipe::shelf::OwnGlass;
use dappledome::recipe::{Part, Recipe};
use dappledome::tiles::sureness::Sureness;
use leptos::prelude::*;

/// The id of its paper.
pub const OPENED: &str = "glass-opened";

/// The glass of this id.
pub fn opened(id: String, open: RwSignal<Option<String>>, said: RwSignal<Option<String>>) -> Option<AnyView> {
    let own = expect_context::<OwnGlasses>();
    let glass = untrack(|| with_glass(own, &id, Clone::clone))?;
    let is_own = untrack(|| own.with(|shelf| shelf.find(&id).is_some()));
    let of = id.clone();
    let kind = move || with_glass(own, &of, words::kind_of_glass);
    let close = move |_| open.set(None);
    let called = glass.name.clone();
    let name = if is_own {
        name_field(own, &glass, said)
    } else {
        view! { <b class="glass-name">{glass.name.clone()}</b> }.into_any()
    };
    Some(
        view! {
            <div class="kiln-paper glass-paper" id=OPENED tabindex="-1" role="group" aria-label=called>
                <div class="slip-head">
                    {name}
                    <span class="second">{kind}</span>
                    <button class="word" on:click=close>{words::CLOSE}</button>
                </div>
                <p>{words::known_from(&glass)}</p>
                <div class="glass-known">
                    <div>{ladders(id.clone())} {sure_line(&Sureness::of(&glass))}</div>
                    {numbers(&glass, is_own, said)}
                </div>
                <p class="aside">{words::KEEPS_ITS_GLASS}</p>
                {deeds(own, glass, is_own, open, said)}
            </div>
        }
        .into_any(),
    )
}

/// What it is called, to be typed over.
fn name_field(own: OwnGlasses, glass: &Glass, said: RwSignal<Option<String>>) -> AnyView {
    let (id, now) = (glass.id.clone(), glass.name.clone());
    let take = move |event: web_sys::Event| {
        let name = event_target_value(&event);
        said.set(own.change(&id, |own| own.glass.name = name.trim().into()).err());
    };
    view! { <input class="typed glass-name" aria-label=words::NAME_OF_GLASS value=now on:change=take /> }
        .into_any()
}

/// Into the piece, a copy, off the shelf.
fn deeds(
    own: OwnGlasses,
    glass: Glass,
    is_own: bool,
    open: RwSignal<Option<String>>,
    said: RwSignal<Option<String>>,
) -> AnyView {
    let (nav, piece) = (expect_context::<Nav>(), expect_context::<Workpiece>());
    let announcer = expect_context::<Announcer>();
    let id = glass.id.clone();
    let into = move || piece.recipe.with(|recipe| Into::open(nav.step.get(), recipe));
    let put = {
        let id = id.clone();
        move |_| {
            let Some(into) = untrack(into) else { return };
            let Some(glass) = untrack(|| with_glass(own, &id, Clone::clone)) else { return };
            let mut step = None;
            piece.edit(words::did::POWDER, |recipe| step = Some(into.put(recipe, &glass)));
            nav.step.set(step);
            announcer.say(words::glass_put_in(&glass.name));
        }
    };
    let copied = {
        let id = id.clone();
        move |_| {
            let Some(glass) = untrack(|| with_glass(own, &id, Clone::clone)) else { return };
            match own.copy(&glass) {
                Ok(id) => open.set(Some(id)),
                Err(fault) => said.set(Some(fault)),
            }
        }
    };
    let put_word = move || into().map(|into| into.word());
    view! {
        <div class="buttons">
            {glass.powder.then(|| {
                view! {
                    <button class="button main" disabled=move || into().is_none() on:click=put>
                        {put_word}
                    </button>
                }
            })}
            <button class="button" on:click=copied>{words::COPY_GLASS}</button>
            {is_own.then(|| off_the_shelf(own, id, open, said))}
        </div>
    }
    .into_any()
}

/// Retires it or offers it again; takes it off for good once it is retired.
fn off_the_shelf(
    own: OwnGlasses,
    id: String,
    open: RwSignal<Option<String>>,
    said: RwSignal<Option<String>>,
) -> AnyView {
    let (of, to, off) = (id.clone(), id.clone(), id);
    let retired = move || own.with(|shelf| shelf.find(&of).is_some_and(|own| own.retired));
    let retired = Memo::new(move |_| retired());
    let turn = move |_| said.set(own.change(&to, |own: &mut OwnGlass| own.retired = !own.retired).err());
    let take_off = move |_| {
        open.set(None);
        said.set(own.take_off(&off).err());
    };
    view! {
        <button class="button" on:click=turn>
            {move || if retired.get() { words::OFFER_AGAIN } else { words::RETIRE }}
        </button>
        <Show when=move || retired.get()>
            <button class="button" on:click=take_off.clone()>{words::TAKE_OFF_SHELF}</button>
        </Show>
    }
    .into_any()
}

/// Where a powder can be put.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Into {
    /// In the place of the powder of the open coat.
    Coat(u32),
    /// In a coat of its own, on all there is.
    NewCoat,
}

impl Into {
    /// Into the open coat, or a new one; nowhere if there is no room for one.
    fn open(step: Option<Step>, recipe: &Recipe) -> Option<Self> {
        match step {
            Some(Step::Coat(id)) if recipe.coat(id).is_some() => Some(Self::Coat(id)),
            _ => (recipe.coats.len() < MOST_COATS).then_some(Self::NewCoat),
        }
    }

    fn word(self) -> &'static str {
        match self {
            Self::Coat(_) => words::PUT_IN_OPEN_COAT,
            Self::NewCoat => words::PUT_IN_NEW_COAT,
        }
    }

    /// Puts it there, and says in which step it is then.
    fn put(self, recipe: &mut Recipe, glass: &Glass) -> Step {
        recipe.bring(glass);
        match self {
            Self::Coat(id) => {
                if let Some(coat) = recipe.coat_mut(id) {
                    coat.powder = vec![Part { glass: glass.id.clone(), parts: 1.0 }];
                }
                Step::Coat(id)
            }
            Self::NewCoat => {
                let coat = recipe.next_coat(&glass.id);
                let id = coat.id;
                recipe.coats.push(coat);
                Step::Coat(id)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::glass::catalogue;
    use dappledome::recipe::demo;

    #[test]
    fn a_glass_goes_into_the_open_coat_or_a_new_one_and_comes_along() {
        let rust = catalogue::find("rust").expect("it is in the catalogue");
        let own = Glass { id: "own".into(), ..rust.clone() };
        let mut recipe = demo::ember_walk();
        let coats = recipe.coats.len();
        let first = recipe.coats[0].id;
        let into = Into::open(Some(Step::Coat(first)), &recipe).expect("it is there");
        assert_eq!(into.put(&mut recipe, &own), Step::Coat(first));
        assert_eq!((recipe.coats.len(), recipe.coats[0].powder[0].glass.as_str()), (coats, "own"));
        let into = Into::open(Some(Step::Sponge), &recipe).expect("there is room");
        let step = into.put(&mut recipe, rust);
        assert_eq!((recipe.coats.len(), step), (coats + 1, Step::Coat(recipe.coats[coats].id)));
        assert_eq!(recipe.glasses.0, [own], "what is in the catalogue need not come along");
        while recipe.coats.len() < MOST_COATS {
            Into::NewCoat.put(&mut recipe, rust);
        }
        assert_eq!(Into::open(None, &recipe), None);
    }
}
