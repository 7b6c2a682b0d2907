//! The slip.

use super::rows::rows;
use crate::controls::panel::PanelHead;
use crate::dom::focus::focus;
use crate::state::results::Results;
use crate::words;
use dappledome::tiles::places::{Class, HowSure};
use leptos::html;
use leptos::prelude::*;

/// Draws it.
pub fn how_sure() -> AnyView {
    let results = expect_context::<Results>();
    let told = move || Some(results.how_sure.with(|how| how.as_ref().map(told))?.into_any());
    let sentence = move || results.how_sure.with(|how| how.as_ref().map(words::sure_over_piece));
    // It covers the line that it was opened by, with the focus.
    let slip = NodeRef::<html::Div>::new();
    slip.on_load(|slip| focus(Some(&slip)));
    view! {
        <div class="slip how-sure" tabindex="-1" node_ref=slip>
            <PanelHead title=words::HOW_SURE>
                <span class="second">{sentence}</span>
            </PanelHead>
            {told}
        </div>
    }
    .into_any()
}

fn told(how: &HowSure) -> impl IntoView + use<> {
    view! {
        {legend(how)}
        {rows(how)}
        <p class="aside">{words::WHAT_SURE_MEANS}</p>
    }
}

/// The grays, those that are on the piece, and how much of it has them.
fn legend(how: &HowSure) -> impl IntoView + use<> {
    let there = Class::ALL.into_iter().zip(how.shares).filter(|(_, share)| *share >= words::SOME);
    let entries = there.map(|(class, share)| {
        let gray = class.gray();
        view! {
            <li>
                <span
                    class="shade"
                    class:striped=class == Class::MadeUp
                    style=("--shade", format!("rgb({gray} {gray} {gray})"))
                ></span>
                {words::sure_class(class)}
                " "
                <span class="second">{words::percent(share.into())}</span>
            </li>
        }
    });
    view! {
        <div class="shades">
            <span class="second">{words::SHADES}</span>
            <ul role="list">{entries.collect_view()}</ul>
        </div>
    }
}
