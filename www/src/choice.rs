//! Buttons: a choice of a few words with the chosen one in weight and tone, a button, a word to press.

use super::dom::{El, el};

/// One word of a choice.
pub fn option(word: &str, chosen: impl Fn() -> bool + 'static, choose: impl Fn() + 'static) -> El {
    plain("option", word, choose).live_flag("aria-pressed", chosen)
}

/// A button that stays pressed.
pub fn toggle(word: &str, on: impl Fn() -> bool + 'static, press: impl Fn() + 'static) -> El {
    plain("button", word, press).live_flag("aria-pressed", on)
}

/// A row of options; what they choose is only heard.
pub fn choice(label: &str, options: impl IntoIterator<Item = El>) -> El {
    el("div", "choice").is("role", "group").is("aria-label", label).with_all(options)
}

/// A row of options with what they choose before them.
pub fn named_choice(label: &str, options: impl IntoIterator<Item = El>) -> El {
    let name = el("span", "label").is("aria-hidden", "true").says(label);
    choice(label, [name].into_iter().chain(options))
}

/// A button with a word on it.
pub fn button(word: &str, press: impl Fn() + 'static) -> El {
    plain("button", word, press)
}

/// The one button of a slip that is meant to be pressed.
pub fn main_button(word: &str, press: impl Fn() + 'static) -> El {
    plain("button main", word, press)
}

/// A word to press, in running text.
pub fn word(word: &str, press: impl Fn() + 'static) -> El {
    plain("word", word, press)
}

/// A word to press on the table.
pub fn table_word(word: &str, press: impl Fn() + 'static) -> El {
    plain("table-word", word, press)
}

fn plain(class: &str, word: &str, press: impl Fn() + 'static) -> El {
    el("button", class).says(word).press(press)
}
