//! Showing that long work goes on: a line that renews itself in a terminal, plain lines anywhere else.

use super::say::say;
use indicatif::{ProgressBar, ProgressStyle};
use std::io::{self, IsTerminal};
use std::time::Duration;

/// Work of unknown length, shown until it is dropped.
#[derive(Debug)]
pub struct Progress {
    /// None where there is no terminal to draw on.
    bar: Option<ProgressBar>,
}

impl Progress {
    /// Starts to show a piece of work.
    pub fn start(work: &str) -> Self {
        if !io::stderr().is_terminal() {
            say(&format!("{work} …"));
            return Self { bar: None };
        }
        let style = ProgressStyle::with_template("{spinner} {prefix}  {elapsed}  {wide_msg}");
        let bar = ProgressBar::new_spinner().with_prefix(work.to_owned());
        bar.set_style(style.expect("the template is a constant"));
        bar.enable_steady_tick(Duration::from_millis(120));
        Self { bar: Some(bar) }
    }

    /// Says what is being done right now.
    pub fn say(&self, step: &str) {
        match &self.bar {
            Some(bar) => bar.set_message(step.trim().to_owned()),
            None => say(step),
        }
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if let Some(bar) = &self.bar {
            bar.finish_and_clear();
        }
    }
}

/// A bar for so many pieces of work; draws nothing where there is no terminal.
pub fn bar(work: &str, pieces: u64) -> ProgressBar {
    if !io::stderr().is_terminal() {
        say(&format!("{work} …"));
        return ProgressBar::hidden();
    }
    let style = ProgressStyle::with_template("{prefix}  {wide_bar} {pos} of {len}  {eta} left");
    let bar = ProgressBar::new(pieces).with_prefix(work.to_owned());
    bar.set_style(style.expect("the template is a constant"));
    bar
}
