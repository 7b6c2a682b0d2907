//! Slips of paper under the piece: the welcome, a refused file, a stopped picture, a newer version.

use super::choice::{button, main_button};
use super::dom::{El, el, memo, on_window};
use super::state::{Bench, Slip};
use super::{core_sample, files, keeping, set_up, share, steps, words};
use dappledome::recipe::Recipe;
use leptos::prelude::*;
use web_sys::Event;

/// The slip that lies there now, if any.
pub fn slips(bench: Bench, demos: &[El], draw_again: impl Fn() + Clone + 'static) -> El {
    on_window("new-version", move |_: &Event| bench.offer_newer());
    let slip = memo(move || bench.slip.get());
    let demos = demos.to_vec();
    el("div", "slip-place").is("aria-live", "polite").holds(move || {
        let slip = match slip.get() {
            Slip::None => return Vec::new(),
            Slip::Welcome => welcome(bench, &demos),
            Slip::Refused { what, why } => refused(bench, &what, &why),
            Slip::Stopped => stopped(draw_again.clone()),
            Slip::NewVersion => new_version(bench),
            Slip::Conflict(time) => conflict(bench, time),
            Slip::Share => share::share(bench),
            Slip::SetUp => set_up::set_up(bench),
            Slip::Steps => steps::steps(bench),
            Slip::Sample => core_sample::slip(bench),
        };
        vec![slip]
    })
}

fn welcome(bench: Bench, demos: &[El]) -> El {
    let demos = words::OTHER_DEMOS.into_iter().zip(demos).map(|(at, canvas)| {
        let recipe = bench.demos.with_value(|demos| demos[at].clone());
        let title = el("span", "").says(&recipe.title);
        el("button", "demo")
            .press(move || bench.take_up_demo(&words::opening(&recipe.title), &recipe))
            .with(el("span", "round").with(canvas.clone()))
            .with(title)
    });
    let bare = button(words::BARE_BLANK, move || bench.take_up_demo(words::BARE_BLANK, &Recipe::bare()));
    let said = el("p", "").with(el("b", "").says(words::WELCOME)).says(" ").says(words::WELCOME_MORE);
    el("div", "slip welcome").with(said).with(el("div", "demos").with_all(demos).with(bare))
}

fn refused(bench: Bench, what: &str, why: &str) -> El {
    let buttons = el("div", "buttons")
        .with(main_button(words::CHOOSE_ANOTHER, files::choose))
        .with(button(words::LEAVE_IT, move || bench.lay_slip_aside()));
    let said = el("p", "").with(el("b", "accent").says(what)).says(" ").says(&bench.shown(why));
    el("div", "slip").is("role", "alert").with(said).with(buttons)
}

fn stopped(draw_again: impl Fn() + 'static) -> El {
    let said = el("p", "").with(el("b", "").says(words::STOPPED)).says(" ").says(words::STOPPED_MORE);
    let buttons = el("div", "buttons").with(main_button(words::DRAW_AGAIN, draw_again));
    el("div", "slip").is("role", "alert").with(said).with(buttons)
}

fn new_version(bench: Bench) -> El {
    let use_it = || {
        // An event of a plain name can always be made and sent.
        let _ = Event::new("use-new-version").and_then(|event| window().dispatch_event(&event));
    };
    let said = el("p", "").with(el("b", "").says(words::NEW_VERSION)).says(" ").says(words::NEW_VERSION_MORE);
    let buttons = el("div", "buttons")
        .with(main_button(words::USE_IT_NOW, use_it))
        .with(button(words::NEXT_TIME, move || bench.leave_newer()));
    el("div", "slip").with(said).with(buttons)
}

fn conflict(bench: Bench, time: f64) -> El {
    let said = el("p", "")
        .with(el("b", "").says(&words::changed_elsewhere(time)))
        .says(" ")
        .says(words::CONFLICT_HELP);
    let buttons = el("div", "buttons")
        .with(main_button(words::TAKE_THAT_ONE, move || keeping::take_that_one(bench)))
        .with(button(words::KEEP_BOTH, move || keeping::keep_both(bench)));
    el("div", "slip").is("role", "alert").with(said).with(buttons)
}
