//! The slip.

use crate::controls::choice::{Choice, ChoiceOption};
use crate::controls::panel::PanelHead;
use crate::state::viewing::Viewing;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::color::dichromacy::Sight;
use dappledome::color::illuminant::Illuminant;
use dappledome::optics::told_apart::confused;
use dappledome::picture::surroundings::Surroundings;
use dappledome::picture::view::Light;
use leptos::prelude::*;

/// Pairs of colors that are told at most: the rest is farther apart.
const TOLD: usize = 3;

/// Draws it.
pub fn seen_in() -> AnyView {
    view! {
        <div class="slip seen-in">
            <PanelHead title=words::SEEN_IN />
            {lights()}
            <p class="aside">{words::USED_TO_IT}</p>
            {stands()} {eyes()}
            {told_apart()}
        </div>
    }
    .into_any()
}

/// The lights: those of the day, or the lamps within.
fn lights() -> impl IntoView {
    let viewing = expect_context::<Viewing>();
    let there = |light: Light, one: Illuminant| {
        light != Light::Within || one == Illuminant::Daylight || one.lamp().is_some()
    };
    let option = move |light: Light, one: Illuminant| {
        let chosen = Signal::derive(move || viewing.illuminant() == one);
        view! {
            <ChoiceOption word=words::illuminant(light, one) chosen choose=move || viewing.seen_in.set(one) />
        }
    };
    move || {
        let light = viewing.light.get();
        let options = Illuminant::ALL.into_iter().filter(|one| there(light, *one));
        let options = options.map(|one| option(light, one)).collect_view();
        view! { <Choice label=words::LIGHT_OF named=true>{options}</Choice> }
    }
}

/// What a dome stands in; nothing where that is not seen.
fn stands() -> impl IntoView {
    let viewing = expect_context::<Viewing>();
    let option = move |one: Surroundings| {
        let chosen = Signal::derive(move || viewing.around.get() == one);
        view! { <ChoiceOption word=words::surroundings(one) chosen choose=move || viewing.around.set(one) /> }
    };
    view! {
        <Show when=move || viewing.shows_around()>
            <Choice label=words::STANDS named=true>
                {Surroundings::ALL.map(option)}
            </Choice>
        </Show>
    }
}

fn eyes() -> impl IntoView {
    let viewing = expect_context::<Viewing>();
    let options = Sight::ALL.map(|one| {
        let chosen = Signal::derive(move || viewing.sight.get() == one);
        view! { <ChoiceOption word=words::sight(one) chosen choose=move || viewing.sight.set(one) /> }
    });
    view! { <Choice label=words::EYES named=true>{options}</Choice> }
}

/// Which colors are hard to tell apart, and for whom.
fn told_apart() -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let said = Memo::new(move |_| {
        let made = piece.made();
        let (recipe, plan) = &*made;
        let pairs = confused(plan);
        let said: Vec<String> = pairs.iter().take(TOLD).map(|pair| words::confused(recipe, pair)).collect();
        if said.is_empty() { vec![words::ALL_TOLD_APART.to_owned()] } else { said }
    });
    view! {
        <ul class="told-apart" role="list">
            {move || said.get().into_iter().map(|line| view! { <li>{line}</li> }).collect_view()}
        </ul>
    }
}
