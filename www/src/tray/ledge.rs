//! The ledge: the shortlist with its letters, and the ways to show it.

use super::Tray;
use crate::choice::table_word;
use crate::dom::{El, el, memo};
use crate::hand::Frame;
use crate::state::Area;
use crate::words;
use dappledome::recipe::piece::letter;
use leptos::prelude::*;

/// The ledge.
pub fn ledge(tray: Tray) -> El {
    let bench = tray.bench;
    let kept = memo(move || bench.sisters.with(|sisters| sisters.kept.clone()));
    let discs = move || {
        let options = kept.get().into_iter().enumerate().map(|(at, seed)| {
            el("li", "").with(
                el("button", "option-disc")
                    .live("aria-label", move || {
                        let chosen = bench.sisters.with(|sisters| sisters.chosen == Some(seed));
                        words::option_disc(&letter(at), seed, chosen)
                    })
                    .press(move || tray.at.set(seed))
                    .class_when("chosen", move || bench.sisters.with(|sisters| sisters.chosen == Some(seed)))
                    .with(el("b", "").says(&letter(at)))
                    .with(el("span", "round").with(tray.copy(Frame::Sister(seed)))),
            )
        });
        options.collect()
    };
    let some = move || kept.with(|kept| !kept.is_empty());
    el("section", "ledge")
        .is("aria-label", words::SHORTLIST)
        .with(
            el("div", "ledge-head")
                .with(el("b", "").says(words::SHORTLIST))
                .with(el("span", "note").reads(move || kept.with(|kept| words::kept_count(kept.len())))),
        )
        .with(el("ul", "options").holds(discs))
        .when(some, move || {
            el("div", "ledge-ways")
                .with(table_word(words::SHOW_CUSTOMER, move || bench.area.set(Area::Customer)))
                .with(table_word(words::OPTION_SHEET, move || bench.area.set(Area::Paper)))
        })
}
