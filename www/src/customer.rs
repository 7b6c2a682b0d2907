//! The screen turned to the customer: one option large, the others small, and a button to choose.

use super::choice::main_button;
use super::dom::{El, el, memo};
use super::hand::Frame;
use super::state::{Area, Bench};
use super::tray::Tray;
use super::words;
use dappledome::base::seed::Seed;
use dappledome::picture::view::Light;
use dappledome::recipe::piece::letter;
use leptos::prelude::*;
use web_sys::{HtmlElement, KeyboardEvent};

/// What the customer looks at.
#[derive(Clone, Copy)]
struct Showing {
    bench: Bench,
    tray: Tray,
    kept: Memo<Vec<Seed>>,
    /// Which option is large.
    at: RwSignal<usize>,
    lit: RwSignal<bool>,
}

impl Showing {
    fn seed(&self) -> Option<Seed> {
        self.kept.with(|kept| kept.get(self.at.get()).copied())
    }

    fn go(&self, by: isize) {
        let last = self.kept.with_untracked(Vec::len).saturating_sub(1);
        self.at.update(|at| *at = at.saturating_add_signed(by).min(last));
    }

    fn choose(&self) {
        if let Some(seed) = untrack(|| self.seed()) {
            let chosen = letter(self.at.get_untracked());
            self.bench.decide(&words::choice(&chosen), &|sisters| sisters.chosen = Some(seed));
            self.bench.said.set(words::you_chose(&chosen));
        }
    }

    fn chosen(&self) -> bool {
        let seed = self.seed();
        self.bench.sisters.with(|sisters| seed.is_some() && sisters.chosen == seed)
    }
}

/// The screen.
pub fn customer(bench: Bench, tray: Tray) -> El {
    let kept = memo(move || bench.sisters.with(|sisters| sisters.kept.clone()));
    let chosen = bench.sisters.with_untracked(|sisters| sisters.chosen);
    let at = kept.with_untracked(|kept| kept.iter().position(|seed| Some(*seed) == chosen).unwrap_or(0));
    let showing = Showing { bench, tray, kept, at: RwSignal::new(at), lit: RwSignal::new(false) };
    let place = el("section", "customer")
        .is("aria-label", words::FOR_THE_CUSTOMER)
        .is("tabindex", "-1")
        .class_when("lit", move || showing.lit.get())
        .on("keydown", move |event: &KeyboardEvent| key(showing, event))
        .with(el("p", "big-letter").is("aria-hidden", "true").reads(move || letter(showing.at.get())))
        .with(title(showing))
        .with(glass(showing))
        .with(choose(showing))
        .with(others(showing))
        .with(el("p", "touch-it").says(words::TOUCH_THE_GLASS))
        .with(el("p", "each-by-hand").says(words::EACH_BY_HAND));
    let itself: HtmlElement = place.cast();
    queue_microtask(move || {
        // Without the focus the keys reach it after the first press.
        let _ = itself.focus();
    });
    place
}

fn title(showing: Showing) -> El {
    let bench = showing.bench;
    el("div", "customer-title")
        .with(el("b", "").reads(move || bench.recipe.with(|recipe| recipe.title.clone())))
        .with(el("span", "").reads(move || bench.size()))
}

fn glass(showing: Showing) -> El {
    let name = move || {
        let (letter, lit) = (letter(showing.at.get()), showing.lit.get());
        words::option_picture(&letter, lit)
    };
    let picture = move || {
        let light = if showing.lit.get() { Light::Within } else { Light::Day };
        let seed = showing.seed();
        seed.map(|seed| showing.tray.option(seed, light)).into_iter().collect()
    };
    el("button", "customer-glass")
        .live("aria-label", name)
        .live_flag("aria-pressed", move || showing.lit.get())
        .press(move || showing.lit.update(|lit| *lit = !*lit))
        .holds(picture)
}

fn choose(showing: Showing) -> El {
    let said = move || {
        if showing.chosen() { words::you_chose(&letter(showing.at.get())) } else { words::THIS_ONE.into() }
    };
    el("div", "customer-choose").with(
        main_button("", move || showing.choose())
            .reads(said)
            .live_flag("aria-pressed", move || showing.chosen()),
    )
}

fn others(showing: Showing) -> El {
    let one = move |at: usize, seed: Seed| {
        let button = el("button", "customer-option")
            .is("aria-label", &words::option(&letter(at)))
            .live("aria-current", move || (showing.at.get() == at).to_string())
            .press(move || showing.at.set(at))
            .with(el("b", "").says(&letter(at)))
            .with(showing.tray.copy(Frame::Option(seed, Light::Day)));
        el("li", "").with(button)
    };
    let all = move || showing.kept.get().into_iter().enumerate().map(|(at, seed)| one(at, seed)).collect();
    el("ul", "customer-options").holds(all)
}

fn key(showing: Showing, event: &KeyboardEvent) {
    match event.key().as_str() {
        "ArrowLeft" => showing.go(-1),
        "ArrowRight" => showing.go(1),
        "Home" => showing.at.set(0),
        " " => showing.lit.update(|lit| *lit = !*lit),
        "Enter" => showing.choose(),
        "Escape" => showing.bench.area.set(Area::Tray),
        _ => return,
    }
    event.prevent_default();
    event.stop_propagation();
}
