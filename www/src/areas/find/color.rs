//! The color that is wanted, in sRGB and in Lab: either is typed, and both say the same.

use super::state::FindState;
use crate::controls::color_pair::ColorPair;
use crate::words;
use dappledome::color::difference::{Lab, from_lab};
use dappledome::color::srgb::{encode, pull_in};
use dappledome::color::typed;
use dappledome::optics::test_tile::Color;
use leptos::html;
use leptos::prelude::*;

/// A color as the screen can show it.
pub fn on_screen(lab: Lab) -> Color {
    encode(pull_in(from_lab(lab)))
}

/// The color, its fields, and what is wrong with what was typed.
pub fn wanted_color(state: FindState) -> AnyView {
    let wrong = RwSignal::new(None::<String>);
    let wanted = state.finding.wanted;
    let both = move || wanted.get().map(|lab| (on_screen(lab), on_screen(lab)));
    let first = NodeRef::<html::Input>::new();
    first.on_load(|field| {
        // A field that cannot be focused can still be typed into.
        let _ = field.focus();
    });
    let take = move |event: web_sys::Event| {
        let text = event_target_value(&event);
        match typed::read(&text) {
            Ok(color) => {
                wrong.set(None);
                state.want(Some(color.lab()));
            }
            Err(_) if text.trim().is_empty() => {
                wrong.set(None);
                state.want(None);
            }
            Err(why) => wrong.set(Some(why.to_string())),
        }
    };
    let said = move |say: fn(Lab) -> String| move || wanted.get().map(say).unwrap_or_default();
    let is_wrong = move || wrong.read().is_some().to_string();
    view! {
        <div class="find-wanted">
            <ColorPair colors=Signal::derive(both) />
            <p>
                <b>{words::THIS_COLOR}</b>
                " "
                <input
                    node_ref=first
                    class="typed"
                    aria-label=words::WANTED_SRGB
                    aria-invalid=is_wrong
                    placeholder="#9A5F4C"
                    prop:value=said(|lab| words::in_srgb(on_screen(lab)))
                    on:change=take
                />
                " "
                {words::OR}
                " "
                <input
                    class="typed"
                    aria-label=words::WANTED_LAB
                    aria-invalid=is_wrong
                    placeholder=words::LAB_FOR_INSTANCE
                    prop:value=said(words::in_lab)
                    on:change=take
                />
            </p>
            <p class="refused" role="alert">{move || wrong.get()}</p>
        </div>
    }
    .into_any()
}
