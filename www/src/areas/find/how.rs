//! What the color is looked at on, and among which jars it is looked for.

use super::state::FindState;
use crate::controls::choice::{Choice, ChoiceOption};
use crate::words;
use dappledome::optics::test_tile;
use dappledome::recipe::plan::Plan;
use dappledome::worker::asked::SeenOn;
use leptos::prelude::*;

/// The three choices.
pub fn how(state: FindState) -> AnyView {
    let (seen, own_only, two) = (state.finding.seen, state.finding.own_only, state.finding.two);
    let on = move |what: SeenOn| {
        (Signal::derive(move || seen.get() == what), Callback::new(move |()| seen.set(what)))
    };
    let among = move |own: bool| {
        (Signal::derive(move || own_only.get() == own), Callback::new(move |()| state.look_among(own)))
    };
    let at_most =
        move |both: bool| (Signal::derive(move || two.get() == both), Callback::new(move |()| two.set(both)));
    let option = |word: &'static str, (chosen, choose): (Signal<bool>, Callback<()>)| {
        view! { <ChoiceOption word chosen choose /> }.into_any()
    };
    let over = move || {
        let (chosen, choose) = on(SeenOn::Coat);
        let word = words::seen_over(&below(state));
        view! { <ChoiceOption word chosen choose /> }
    };
    view! {
        <div class="find-how">
            <Choice label=words::SEEN named=true>
                {over}
                {option(words::SEEN_ON_WHITE, on(SeenOn::White))}
                {option(words::SEEN_ON_CLEAR, on(SeenOn::Clear))}
            </Choice>
            <Choice label=words::FROM_JARS named=true>
                {option(words::ALL_JARS, among(false))}
                {option(words::OWN_JARS, among(true))}
            </Choice>
            <Choice label=words::AT_MOST named=true>
                {option(words::ONE_JAR, at_most(false))}
                {option(words::TWO_JARS, at_most(true))}
            </Choice>
        </div>
    }
    .into_any()
}

/// The names of the coats that the coat really lies on.
fn below(state: FindState) -> Vec<String> {
    let recipe = state.piece.kept.read();
    let Ok(planned) = Plan::new(&recipe) else { return Vec::new() };
    let below = test_tile::lies_on(&planned.plan, state.finding.coat.get());
    below.into_iter().map(|coat| words::powder_of(&recipe, coat)).collect()
}
