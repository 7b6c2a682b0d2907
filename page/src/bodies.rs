//! What the steps other than coats show when they are open.

use super::choice::{button, choice, option, word};
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
pub fn blank(bench: Bench) -> AnyView {
    let sheets = Memo::new(move |_| bench.recipe.with(|recipe| recipe.blank.sheets.len()));
    let lines = move || {
        let of = sheets.get();
        (0..of).map(|at| sheet(bench, at, of)).collect_view()
    };
    view! {
        <div class="body">
            {rules(bench, tables::BLANK, HERE)}
            {lines}
            <Show when=move || sheets.get() < MOST_SHEETS>
                <div class="buttons">{button(words::ADD_SHEET, move || add_sheet(bench))}</div>
            </Show>
        </div>
    }
    .into_any()
}

/// Lays a clear sheet on top of the stack.
pub fn add_sheet(bench: Bench) {
    bench.edit("added sheet", &|recipe| {
        if recipe.blank.sheets.len() < MOST_SHEETS {
            recipe.blank.sheets.push(Sheet { glass: "clear".into(), thickness: Mm(3.0) });
        }
    });
}

fn sheet(bench: Bench, at: usize, of: usize) -> AnyView {
    let options = catalogue::all()
        .iter()
        .filter(|glass| glass.sheet)
        .map(|glass| {
            let id = glass.id;
            let chosen = move || {
                let is = |sheet: &Sheet| sheet.glass == id;
                bench.recipe.with(|recipe| recipe.blank.sheets.get(at).is_some_and(is))
            };
            let choose = move || {
                bench.edit("sheet", &|recipe| {
                    if let Some(sheet) = recipe.blank.sheets.get_mut(at) {
                        sheet.glass = id.into();
                    }
                });
            };
            option(glass.name, chosen, choose)
        })
        .collect();
    let take_out = (of > 1).then(|| {
        word(words::TAKE_OUT, move || {
            bench.edit("sheet taken out", &|recipe| {
                let sheets = &mut recipe.blank.sheets;
                if sheets.len() > 1 && at < sheets.len() {
                    sheets.remove(at);
                }
            });
        })
    });
    let place = words::sheet_place(at, of);
    view! {
        <div class="part">
            <p class="part-head"><b>{place}</b>{take_out}</p>
            {choice(place, false, options)}
            {rule(bench, &tables::SHEET, Place { coat: 0, at })}
        </div>
    }
    .into_any()
}

/// The sponge.
pub fn sponge(bench: Bench) -> AnyView {
    let none = move || {
        bench.open.set(None);
        bench.edit("sponge", &|recipe| recipe.sponge = None);
    };
    let options = vec![option(words::NONE, || false, none), option(words::DAB, || true, || ())];
    view! {
        <div class="body">
            {choice(words::SPONGE, false, options)}
            {rules(bench, tables::SPONGE, HERE)}
            {finer(bench, &[tables::SPONGE_FINER], HERE, None)}
        </div>
    }
    .into_any()
}

/// The full fuse.
pub fn fuse(bench: Bench) -> AnyView {
    view! { <div class="body">{rules(bench, tables::FUSE, HERE)}</div> }.into_any()
}

/// The accents.
pub fn accents(bench: Bench) -> AnyView {
    let take_out = move || {
        bench.open.set(None);
        bench.edit("accents taken out", &|recipe| recipe.accents = None);
    };
    view! {
        <div class="body">
            {parts::blend(bench, Jar::Accents, words::GLASSES, words::ADD_GLASS)}
            {rules(bench, tables::ACCENTS, HERE)}
            {finer(bench, &[tables::ACCENTS_FINER], HERE, None)}
            <div class="buttons">{button(words::TAKE_OUT, take_out)}</div>
        </div>
    }
    .into_any()
}

/// The slump.
pub fn slump(bench: Bench) -> AnyView {
    let has_bottom = Memo::new(move |_| {
        let form = |recipe: &Recipe| matches!(recipe.mold.form, Form::FlatBottom { .. } | Form::Flare { .. });
        bench.recipe.with(form)
    });
    view! {
        <div class="body">
            {choice(words::MOLD, false, forms(bench))}
            {rules(bench, tables::SLUMP, HERE)}
            <Show when=move || has_bottom.get()>{rules(bench, tables::MOLD_BOTTOM, HERE)}</Show>
            {choice(words::POWDER_SIDE, true, sides(bench))}
        </div>
    }
    .into_any()
}

fn forms(bench: Bench) -> Vec<AnyView> {
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
                    bench.edit("mold", &|recipe| recipe.mold.form = sized(&form, &recipe.mold));
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

fn sides(bench: Bench) -> Vec<AnyView> {
    let side = |side: Side| {
        option(
            words::side(side),
            move || bench.recipe.with(|recipe| recipe.powder_side == side),
            move || bench.edit("powder side", &|recipe| recipe.powder_side = side),
        )
    };
    vec![side(Side::Out), side(Side::In)]
}

/// Pieces, spare ones, and what powder weighs and loses.
pub fn batch(bench: Bench) -> AnyView {
    view! {
        <div class="body">
            {rules(bench, tables::BATCH, HERE)}
            {finer(bench, &[tables::BATCH_FINER], HERE, None)}
        </div>
    }
    .into_any()
}
