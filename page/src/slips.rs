//! Slips of paper under the piece: the welcome, a refused file, a stopped picture.

use super::choice::{button, main_button};
use super::state::{Bench, Slip};
use super::table::Frames;
use super::{files, words};
use dappledome::recipe::Recipe;
use leptos::prelude::*;

/// The slip that lies there now, if any.
pub fn slips(bench: Bench, frames: Frames, draw_again: impl Fn() + Copy + Send + Sync + 'static) -> AnyView {
    let slip = Memo::new(move |_| bench.slip.get());
    view! {
        <div class="slip-place" aria-live="polite">
            {move || match slip.get() {
                Slip::None => ().into_any(),
                Slip::Welcome => welcome(bench, frames),
                Slip::Refused { what, why } => refused(bench, what, why),
                Slip::Stopped => stopped(draw_again),
            }}
        </div>
    }
    .into_any()
}

fn welcome(bench: Bench, frames: Frames) -> AnyView {
    let demos = words::OTHER_DEMOS
        .map(|at| {
            let recipe = bench.demos.with_value(|demos| demos[at].clone());
            let title = recipe.title.clone();
            view! {
                <button class="demo" on:click=move |_| bench.take_up(&words::opening(&recipe.title), &recipe)>
                    <span class="round">
                        <canvas node_ref=frames.demos[at - 1] aria-hidden="true"></canvas>
                    </span>
                    <span>{title}</span>
                </button>
            }
            .into_any()
        })
        .into_iter()
        .collect_view();
    let bare = move || bench.take_up(words::BARE_BLANK, &Recipe::bare());
    view! {
        <div class="slip welcome">
            <p><b>{words::WELCOME}</b>" "{words::WELCOME_MORE}</p>
            <div class="demos">
                {demos}
                {button(words::BARE_BLANK, bare)}
            </div>
        </div>
    }
    .into_any()
}

fn refused(bench: Bench, what: String, why: String) -> AnyView {
    view! {
        <div class="slip" role="alert">
            <p><b class="accent">{what}</b>" "{why}</p>
            <div class="buttons">
                {main_button(words::CHOOSE_ANOTHER, files::choose)}
                {button(words::LEAVE_IT, move || bench.slip.set(Slip::None))}
            </div>
        </div>
    }
    .into_any()
}

fn stopped(draw_again: impl Fn() + 'static) -> AnyView {
    view! {
        <div class="slip" role="alert">
            <p><b>{words::STOPPED}</b>" "{words::STOPPED_MORE}</p>
            <div class="buttons">{main_button(words::DRAW_AGAIN, draw_again)}</div>
        </div>
    }
    .into_any()
}
