//! The open blank: disc and sheets.

use crate::areas::sheet::details::Fields;
use crate::areas::sheet::offered::{GlassOption, Offered, OfferedFor};
use crate::controls::choice::Choice;
use crate::controls::slider::Slider;
use crate::fields::others::{BLANK, SHEET};
use crate::fields::types::Target;
use crate::state::workpiece::Workpiece;
use crate::words;
use dappledome::base::units::Mm;
use dappledome::recipe::limits::MOST_SHEETS;
use dappledome::recipe::{Recipe, Sheet};
use leptos::prelude::*;

/// Disc and sheets.
#[component]
pub fn BlankBody() -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let sheets = Memo::new(move |_| piece.recipe.read().blank.sheets.len());
    let places = move || {
        let of = sheets.get();
        (0..of).map(move |at| (at, of))
    };
    let add = move |_| piece.edit(words::did::ADDED_SHEET, add_sheet);
    view! {
        <div class="body">
            <Fields fields=BLANK target=Target::Whole />
            <For each=places key=|place| *place let((at, of))>
                <SheetPart at of />
            </For>
            <p class="aside halves">{words::SHEET_HALVES}</p>
            <Show when=move || sheets.get() < MOST_SHEETS>
                <div class="buttons">
                    <button class="button" on:click=add>
                        {words::ADD_SHEET}
                    </button>
                </div>
            </Show>
        </div>
    }
}

/// One sheet of the stack.
#[component]
fn SheetPart(
    /// Which one, counted from the bottom.
    at: usize,
    /// Of how many.
    of: usize,
) -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let take_out = move |_| piece.edit(words::did::SHEET_OUT, |recipe| take_sheet_out(recipe, at));
    let word = (of > 1).then(|| {
        view! {
            <button class="word" on:click=take_out>
                {words::TAKE_OUT}
            </button>
        }
    });
    let place = words::sheet_place(at, of);
    let offered = Offered::new(OfferedFor::Sheet(at));
    view! {
        <div class="part">
            <p class="part-head">
                <b>{place}</b>
                {word}
            </p>
            <Choice label=place>
                <For each=move || offered.names() key=Clone::clone let:glass>
                    <SheetOption at glass offered />
                </For>
            </Choice>
            <Slider field=&SHEET target=Target::Sheet(at) />
        </div>
    }
}

/// One glass that the sheet may be of.
#[component]
fn SheetOption(
    /// Which sheet, counted from the bottom.
    at: usize,
    /// Which glass: its id and its name.
    glass: (String, String),
    /// All of them.
    offered: Offered,
) -> impl IntoView {
    let piece = expect_context::<Workpiece>();
    let (is, id) = (glass.0.clone(), glass.0.clone());
    let chosen = move || {
        let sheet_is = |sheet: &Sheet| sheet.glass == is;
        piece.recipe.read().blank.sheets.get(at).is_some_and(sheet_is)
    };
    let choose = move |()| {
        piece.edit(words::did::SHEET, |recipe| {
            offered.bring_to(recipe, &id);
            if let Some(sheet) = recipe.blank.sheets.get_mut(at) {
                sheet.glass.clone_from(&id);
            }
        });
    };
    view! { <GlassOption glass offered chosen choose /> }
}

/// Lays a clear sheet on top of the stack, if there is room for one.
pub fn add_sheet(recipe: &mut Recipe) {
    let sheets = &mut recipe.blank.sheets;
    if sheets.len() < MOST_SHEETS {
        sheets.push(Sheet { glass: "clear".into(), thickness: Mm(3.0) });
    }
}

/// Takes a sheet out of the stack, unless it is the last one.
fn take_sheet_out(recipe: &mut Recipe, at: usize) {
    let sheets = &mut recipe.blank.sheets;
    if sheets.len() > 1 && at < sheets.len() {
        sheets.remove(at);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stack_has_one_sheet_at_least_and_four_at_most() {
        let mut recipe = Recipe::bare();
        (0..9).for_each(|_| add_sheet(&mut recipe));
        assert_eq!(recipe.blank.sheets.len(), MOST_SHEETS);
        recipe.blank.sheets[1].glass = "white".into();
        take_sheet_out(&mut recipe, 9);
        assert_eq!(recipe.blank.sheets.len(), MOST_SHEETS, "there is no such sheet");
        take_sheet_out(&mut recipe, 0);
        assert_eq!(recipe.blank.sheets[0].glass, "white", "the lowest one went");
        (0..9).for_each(|_| take_sheet_out(&mut recipe, 0));
        assert_eq!(recipe.blank.sheets.len(), 1);
    }
}
