//! The tray's edge beside the piece: the next sisters peeping in, each to be pulled in by a press.

use super::{AT_THE_EDGE, Tray};
use crate::choice::table_word;
use crate::dom::{El, el, memo};
use crate::hand::Frame;
use crate::words;
use leptos::prelude::*;

/// The edge.
pub fn edge(tray: Tray) -> El {
    let bench = tray.bench;
    let next = memo(move || {
        let own = bench.seed.get();
        let sisters = tray.seeds.get().into_iter().filter(|seed| *seed != own);
        sisters.take(AT_THE_EDGE).collect::<Vec<_>>()
    });
    let discs = move || {
        let discs = next.get().into_iter().map(|seed| {
            let canvas = tray.canvas(Frame::Sister(seed));
            el("button", "edge-disc")
                .is("aria-label", &words::pull_in(seed))
                .class_when("coming", move || tray.features.with(|known| !known.contains_key(&seed)))
                .press(move || bench.sow(seed))
                .with(el("span", "round").with(canvas))
        });
        discs.collect()
    };
    el("div", "edge")
        .with(table_word(words::TRAY, move || tray.open()))
        .with(el("div", "edge-discs").holds(discs))
}
