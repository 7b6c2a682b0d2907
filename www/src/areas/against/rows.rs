//! One sentence, and a row for each color of the piece.

use super::state::AgainstState;
use crate::controls::color_pair::ColorPair;
use crate::state::preferences::Preferences;
use crate::words;
use dappledome::base::shown::Units;
use dappledome::base::units::fixed;
use dappledome::color::difference::from_lab;
use dappledome::color::srgb::{encode, pull_in};
use dappledome::compare::row::Row;
use dappledome::compare::rows::worst;
use dappledome::recipe::Recipe;
use dappledome::worker::asked::Compared;
use leptos::prelude::*;

/// The rows, or what there is to say instead.
pub fn rows(state: AgainstState) -> AnyView {
    let units = expect_context::<Preferences>().units;
    (move || {
        let there = state.shown.with(|shown| shown.as_ref().is_some_and(|shown| shown.light.is_ok()));
        match state.comparison() {
            Some(compared) => state.piece.recipe.with(|recipe| table(&compared, recipe, units.get())),
            None if there => view! { <p role="status">{words::COMPARING}</p> }.into_any(),
            None => ().into_any(),
        }
    })
    .into_any()
}

fn table(compared: &Compared, recipe: &Recipe, units: Units) -> AnyView {
    let said = words::came_out(recipe, worst(&compared.rows));
    let rows = compared.rows.iter().map(|row| table_row(row, recipe, units)).collect_view();
    let heads =
        words::AGAINST_HEADS.into_iter().map(|head| view! { <th scope="col">{head}</th> }).collect_view();
    view! {
        <div class="against-rows">
            <p class="against-said" role="status">
                <b>{said.0}</b>
                " "
                {said.1}
            </p>
            <table>
                <thead>
                    <tr>{heads}</tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
            <p class="aside">{words::COLORS_NOT_PLACES}</p>
        </div>
    }
    .into_any()
}

fn table_row(row: &Row, recipe: &Recipe, units: Units) -> AnyView {
    let on_screen = |color| encode(pull_in(from_lab(color)));
    let fired = row.fired.map_or(row.foretold, |fired| fired.color);
    let pair = Signal::stored(Some((on_screen(row.foretold), on_screen(fired))));
    let apart = row.fired.map(|fired| fixed(fired.apart, 1));
    view! {
        <tr class:off=row.is_off()>
            <th scope="row">{words::stack_of(recipe, &row.coats)}</th>
            <td>
                <ColorPair colors=pair />
            </td>
            <td>{apart}</td>
            <td>{units.text(&words::says(recipe, row))}</td>
        </tr>
    }
    .into_any()
}
