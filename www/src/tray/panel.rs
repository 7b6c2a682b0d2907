//! On the sheet while the tray is open: what can be done with the sister pointed at, and sets picked for the maker.

use super::Tray;
use crate::choice::{button, main_button};
use crate::dom::{El, el};
use crate::words;
use dappledome::base::seed::Seed;
use dappledome::shop::sisters::{Features, as_different_as_can_be, spread, that_belong_together};
use leptos::prelude::*;
use web_sys::{Event, HtmlInputElement};

/// Fewest and most sisters of a picked set.
const SET: (usize, usize) = (2, 24);

/// The panel.
pub fn panel(tray: Tray) -> El {
    el("div", "tray-panel").with(pointed(tray)).with(picking(tray))
}

fn pointed(tray: Tray) -> El {
    let bench = tray.bench;
    let seed = move || tray.at.get_untracked();
    let kept = move || bench.sisters.with(|sisters| sisters.kept.contains(&tray.at.get()));
    let lifted = move || tray.lifted.get().contains(&Some(tray.at.get()));
    let keep = button("", move || tray.turn_keep(seed()))
        .reads(move || if kept() { words::TAKE_OFF } else { words::KEEP }.into());
    let lift = button("", move || tray.lift_beside(seed()))
        .reads(move || if lifted() { words::LAY_BACK } else { words::LIFT_BESIDE }.into());
    let said = move || {
        let features = tray.features.with(|known| known.get(&tray.at.get()).cloned());
        features.map_or_else(String::new, |features| words::features(bench, &features))
    };
    el("section", "")
        .is("aria-label", words::POINTED_AT)
        .with(el("h2", "").reads(move || words::seed(tray.at.get())))
        .with(el("p", "aside").reads(said))
        .with(
            el("div", "buttons")
                .with(main_button(words::WORK_ON_IT, move || tray.work_on(seed())))
                .with(keep)
                .with(lift)
                .with(button(words::PUT_AWAY, move || tray.put_away(seed()))),
        )
}

fn picking(tray: Tray) -> El {
    let pick = |word: &'static str, of: fn(&[Features], usize) -> Vec<usize>, together: bool| {
        el("button", "button pick")
            .press(move || answer(tray, of, together))
            .with(el("b", "").reads(move || tray.set_size.get().to_string()))
            .says(word)
    };
    el("section", "")
        .is("aria-label", words::PICK_A_SET)
        .with(el("h2", "").says(words::PICK_A_SET))
        .with(set_size(tray))
        .with(
            el("div", "buttons")
                .with(pick(words::THAT_BELONG_TOGETHER, that_belong_together, true))
                .with(pick(words::AS_DIFFERENT, as_different_as_can_be, false)),
        )
        .with(el("p", "aside answer").is("role", "status").reads(move || tray.answer.get()))
}

fn set_size(tray: Tray) -> El {
    let field = el("input", "set-size")
        .is("type", "text")
        .is("inputmode", "numeric")
        .is("autocomplete", "off")
        .is("maxlength", "2")
        .live("value", move || tray.set_size.get().to_string());
    let typed: HtmlInputElement = field.cast();
    let field = field.on("change", move |_: &Event| {
        if let Ok(number) = typed.value().trim().parse::<usize>() {
            tray.set_size.set(number.clamp(SET.0, SET.1));
        }
        typed.set_value(&tray.set_size.get_untracked().to_string());
    });
    el("label", "set-size-line").with(el("span", "second").says(words::SET_OF)).with(field)
}

/// Picks a set from what lies on the tray, and keeps it as the shortlist: one step back brings the old one again.
fn answer(tray: Tray, pick: fn(&[Features], usize) -> Vec<usize>, together: bool) {
    let known: Vec<(Seed, Features)> = tray.features.with_untracked(|known| {
        let seeds = tray.seeds.get_untracked();
        seeds.into_iter().filter_map(|seed| Some((seed, known.get(&seed)?.clone()))).collect()
    });
    let size = tray.set_size.get_untracked();
    if known.len() <= size {
        return tray.answer.set(words::too_few_to_pick(known.len(), size));
    }
    let features: Vec<Features> = known.iter().map(|(_, features)| features.clone()).collect();
    let set = pick(&features, size);
    let seeds: Vec<Seed> = set.iter().map(|at| known[*at].0).collect();
    let members: Vec<&Features> = set.iter().map(|at| &features[*at]).collect();
    if let Some(spread) = spread(&members) {
        tray.answer.set(words::picked(tray.bench, &seeds, &spread, together));
    }
    tray.bench.decide(words::A_SET, &|sisters| {
        sisters.kept.clone_from(&seeds);
        sisters.chosen = None;
    });
}
