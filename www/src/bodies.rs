//! What the steps other than coats show when they are open.

use super::choice::{button, choice, named_choice, option, word};
use super::dom::{El, el, memo};
use super::finer::{finer, rules};
use super::parts::{self, Jar};
use super::rule::rule;
use super::rules::Place;
use super::rules::others as tables;
use super::state::Bench;
use super::words;
use dappledome::base::units::Mm;
use dappledome::glass::catalogue;
use dappledome::recipe::Recipe;
use dappledome::recipe::limits::MOST_SHEETS;
use dappledome::recipe::{Form, Mold, Sheet, Side};
use leptos::prelude::*;
use std::mem::discriminant;

/// Where a number stands that its step has only one of.
const HERE: Place = Place { coat: 0, at: 0 };

/// Disc and sheets.
pub fn blank(bench: Bench) -> El {
    let sheets = memo(move || bench.recipe.with(|recipe| recipe.blank.sheets.len()));
    let lines = move || {
        let of = sheets.get();
        (0..of).map(|at| sheet(bench, at, of)).collect()
    };
    let add = move || el("div", "buttons").with(button(words::ADD_SHEET, move || add_sheet(bench)));
    el("div", "body")
        .with(rules(bench, tables::BLANK, HERE))
        .holds(lines)
        .when(move || sheets.get() < MOST_SHEETS, add)
}

/// Lays a clear sheet on top of the stack.
pub fn add_sheet(bench: Bench) {
    bench.edit(words::did::ADDED_SHEET, &|recipe| {
        if recipe.blank.sheets.len() < MOST_SHEETS {
            recipe.blank.sheets.push(Sheet { glass: "clear".into(), thickness: Mm(3.0) });
        }
    });
}

fn sheet(bench: Bench, at: usize, of: usize) -> El {
    let options = catalogue::all().iter().filter(|glass| glass.sheet).map(|glass| {
        let id = glass.id;
        let chosen = move || {
            let is = |sheet: &Sheet| sheet.glass == id;
            bench.recipe.with(|recipe| recipe.blank.sheets.get(at).is_some_and(is))
        };
        let choose = move || {
            bench.edit(words::did::SHEET, &|recipe| {
                if let Some(sheet) = recipe.blank.sheets.get_mut(at) {
                    sheet.glass = id.into();
                }
            });
        };
        option(glass.name, chosen, choose)
    });
    let take_out = (of > 1).then(|| {
        word(words::TAKE_OUT, move || {
            bench.edit(words::did::SHEET_OUT, &|recipe| {
                let sheets = &mut recipe.blank.sheets;
                if sheets.len() > 1 && at < sheets.len() {
                    sheets.remove(at);
                }
            });
        })
    });
    let place = words::sheet_place(at, of);
    el("div", "part")
        .with(el("p", "part-head").with(el("b", "").says(place)).with_all(take_out))
        .with(choice(place, options))
        .with(rule(bench, &tables::SHEET, Place { coat: 0, at }))
}

/// The sponge.
pub fn sponge(bench: Bench) -> El {
    let none = move || {
        bench.open.set(None);
        bench.edit(words::did::SPONGE, &|recipe| recipe.sponge = None);
    };
    let options = [option(words::NONE, || false, none), option(words::DAB, || true, || ())];
    el("div", "body")
        .with(choice(words::SPONGE, options))
        .with(rules(bench, tables::SPONGE, HERE))
        .with(finer(bench, &[tables::SPONGE_FINER], HERE, None))
}

/// The full fuse.
pub fn fuse(bench: Bench) -> El {
    el("div", "body").with(rules(bench, tables::FUSE, HERE))
}

/// The accents.
pub fn accents(bench: Bench) -> El {
    let take_out = move || {
        bench.open.set(None);
        bench.edit(words::did::ACCENTS_OUT, &|recipe| recipe.accents = None);
    };
    el("div", "body")
        .with(parts::blend(bench, Jar::Accents, words::GLASSES, words::ADD_GLASS))
        .with(rules(bench, tables::ACCENTS, HERE))
        .with(finer(bench, &[tables::ACCENTS_FINER], HERE, None))
        .with(el("div", "buttons").with(button(words::TAKE_OUT, take_out)))
}

/// The slump.
pub fn slump(bench: Bench) -> El {
    let has_bottom =
        |recipe: &Recipe| matches!(recipe.mold.form, Form::FlatBottom { .. } | Form::Flare { .. });
    el("div", "body")
        .with(choice(words::MOLD, forms(bench)))
        .with(rules(bench, tables::SLUMP, HERE))
        .when(move || bench.recipe.with(has_bottom), move || rules(bench, tables::MOLD_BOTTOM, HERE))
        .with(named_choice(words::POWDER_SIDE, [Side::Out, Side::In].map(|one| side(bench, one))))
}

fn forms(bench: Bench) -> Vec<El> {
    let none = Mm(0.0);
    let kinds = [
        Form::Bowl,
        Form::FlatBottom { bottom: none, corner: none },
        Form::Flare { bottom: none, corner: none },
        Form::Hump,
    ];
    kinds
        .into_iter()
        .map(|form| {
            let kind = discriminant(&form);
            let is = move |recipe: &Recipe| discriminant(&recipe.mold.form) == kind;
            let word = words::form(&form);
            let choose = move || {
                if !bench.recipe.with_untracked(is) {
                    bench.edit(words::did::MOLD, &|recipe| recipe.mold.form = sized(&form, &recipe.mold));
                }
            };
            option(word, move || bench.recipe.with(is), choose)
        })
        .collect()
}

/// The form with a bottom and a corner that fit the mold's opening and depth.
fn sized(form: &Form, mold: &Mold) -> Form {
    let bottom = |share: f64| Mm((mold.opening.0 * share).round());
    let corner = Mm((mold.depth.0 / 2.0).min(mold.opening.0 / 8.0).round());
    match form {
        Form::FlatBottom { .. } => Form::FlatBottom { bottom: bottom(0.55), corner },
        Form::Flare { .. } => Form::Flare { bottom: bottom(0.35), corner },
        Form::Bowl => Form::Bowl,
        Form::Hump => Form::Hump,
    }
}

fn side(bench: Bench, side: Side) -> El {
    option(
        words::side(side),
        move || bench.recipe.with(|recipe| recipe.powder_side == side),
        move || bench.edit(words::did::SIDE, &|recipe| recipe.powder_side = side),
    )
}

/// Pieces, spare ones, and what powder weighs and loses.
pub fn batch(bench: Bench) -> El {
    el("div", "body").with(rules(bench, tables::BATCH, HERE)).with(finer(
        bench,
        &[tables::BATCH_FINER],
        HERE,
        None,
    ))
}
