//! Everything that was done, as a list: a press goes back to where it was just done, or forward to it.

use super::dom::{El, el};
use super::share::slip_head;
use super::state::Bench;
use super::words;

/// The slip.
pub fn steps(bench: Bench) -> El {
    let lines = move || {
        let (back, forward) = bench.history.all_names();
        let ahead = forward.iter().enumerate().rev().map(|(at, name)| (at as isize + 1, name));
        // The last step done is where the piece stands.
        let done = back.iter().enumerate().map(|(at, name)| (-(at as isize), name));
        let lines = ahead.chain(done).map(|(by, name)| line(bench, by, name));
        let first = line(bench, -(back.len() as isize), words::AT_FIRST);
        lines.chain([first]).collect()
    };
    el("div", "slip").with(slip_head(bench, words::STEPS)).with(el("ol", "step-list").holds(lines))
}

fn line(bench: Bench, by: isize, name: &str) -> El {
    let class = if by > 0 { "button step-line ahead" } else { "button step-line" };
    let button = el("button", class).says(&words::capital(name)).press(move || bench.step_by(by));
    el("li", "").with(if by == 0 { button.is("aria-current", "step") } else { button })
}
