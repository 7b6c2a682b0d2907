//! The cut list: a drawing of each sheet, its centers as a table, and the sheets that the maker has.

use super::bench::{Field, number, numbers};
use super::drawing::{Disc, drawing};
use super::state::OrderState;
use crate::fields::types::Unit;
use crate::words;
use dappledome::base::units::{Mm, plain};
use dappledome::glass::glasses::Glasses;
use dappledome::kiln::data::Shelf;
use dappledome::orders::bench::Bench;
use dappledome::orders::cuts::{CutList, CutSheet};
use dappledome::orders::limits;
use dappledome::orders::model::Sheets;
use dappledome::recipe::limits::Limit;
use leptos::prelude::*;

/// Side of a sheet before anybody has said, mm.
const USUAL_SIDE: Mm = Mm(500.0);
/// How many sheets that are not alike are drawn.
const DRAWN: usize = 12;

const CUTTING: [Field; 2] = [
    Field {
        label: "Kept from the edge",
        unit: Unit::Mm,
        limit: limits::EDGE,
        get: |bench| Some(bench.cutting.edge.0),
        set: |bench, to| bench.cutting.edge = Mm(to.unwrap_or(limits::EDGE.usual)),
    },
    Field {
        label: "Between two discs",
        unit: Unit::Mm,
        limit: limits::BETWEEN,
        get: |bench| Some(bench.cutting.between.0),
        set: |bench, to| bench.cutting.between = Mm(to.unwrap_or(limits::BETWEEN.usual)),
    },
];

/// The pane.
pub fn pane(state: OrderState) -> AnyView {
    let kinds = move || {
        let kind = |cut: &CutList| (cut.glass.clone(), cut.thickness);
        state.worked(|worked| worked.cuts.iter().map(kind).collect::<Vec<_>>()).unwrap_or_default()
    };
    let kinds = Memo::new(move |_| kinds());
    let lists = move || kinds.get().into_iter().map(|kind| list(state, kind)).collect_view();
    view! {
        <section class="order-pane" aria-label=words::CUT>
            <h3>{words::CUT}</h3>
            <dl class="order-numbers">{numbers(state, words::DID_STOCK, &CUTTING)}</dl>
            {lists}
        </section>
    }
    .into_any()
}

/// One glass: its sheets stay while the list changes, for somebody may be typing in their numbers.
fn list(state: OrderState, (glass, thick): (String, Mm)) -> AnyView {
    let of = glass.clone();
    let cut = move || {
        let found = |list: &&CutList| list.glass == of && list.thickness == thick;
        let glasses = state.glasses();
        state.worked(|worked| worked.cuts.iter().find(found).map(|list| drawn(&glasses, list))).flatten()
    };
    view! { <div class="order-cut">{own_sheets(state, &glass, thick)} {cut}</div> }.into_any()
}

fn drawn(glasses: &Glasses, list: &CutList) -> AnyView {
    let discs = list.sheets.iter().map(|sheet| sheet.discs.len()).sum();
    let said = words::cut_of(&glasses.name(&list.glass), &list.thickness.to_string(), discs, list.waste);
    let kinds = alike(&list.sheets);
    let drawn = kinds.iter().take(DRAWN).map(|(sheet, count)| one(sheet, *count)).collect_view();
    view! {
        <p>
            <b>{said}</b>
        </p>
        <div class="order-drawings">{drawn}</div>
    }
    .into_any()
}

/// Sheets that are cut alike, each with how many they are.
fn alike(sheets: &[CutSheet]) -> Vec<(&CutSheet, usize)> {
    let mut kinds: Vec<(&CutSheet, usize)> = Vec::new();
    for sheet in sheets {
        match kinds.iter_mut().find(|(other, _)| *other == sheet) {
            Some((_, count)) => *count += 1,
            None => kinds.push((sheet, 1)),
        }
    }
    kinds
}

fn one(sheet: &CutSheet, count: usize) -> AnyView {
    let discs: Vec<Disc> = sheet.discs.iter().map(|disc| (disc.x.0, disc.y.0, disc.diameter.0)).collect();
    let rows = discs.iter().enumerate().map(|(at, (x, y, across))| {
        view! {
            <tr>
                <td>{(at + 1).to_string()}</td>
                <td>{plain((x * 10.0).round() / 10.0)}</td>
                <td>{plain((y * 10.0).round() / 10.0)}</td>
                <td>{plain(*across)}</td>
            </tr>
        }
    });
    view! {
        <figure>
            {drawing(Shelf::Square { wide: sheet.wide, deep: sheet.deep }, &discs, None)}
            <figcaption>{words::sheet(sheet.wide.0, sheet.deep.0, count, sheet.bought)}</figcaption>
            <details>
                <summary>{words::CENTERS}", mm"</summary>
                <table>{rows.collect_view()}</table>
            </details>
        </figure>
    }
    .into_any()
}

/// Size, number and price of the sheets that it is cut from, to be typed over.
fn own_sheets(state: OrderState, glass: &str, thick: Mm) -> AnyView {
    let name = untrack(|| words::lower(&state.glasses().name(glass)));
    let field = |label: &str,
                 unit: Unit,
                 limit: Limit,
                 get: fn(&Sheets) -> Option<f64>,
                 set: fn(&mut Sheets, Option<f64>)| {
        let (of, to) = (glass.to_owned(), glass.to_owned());
        let value = move || state.orders.bench.with(|bench| get(&found(bench, &of, thick)));
        let change =
            move |value| state.edit_bench(words::DID_STOCK, |bench| set(entry(bench, &to, thick), value));
        number(state, format!("{label}, {}", name.clone()), (unit, limit), value, change)
    };
    view! {
        <p>
            "A sheet of "
            {name.clone()}
            " is "
            {field("Wide", Unit::Mm, limits::SHEET_SIDE, |sheets| Some(sheets.wide.0), |sheets, to| sheets.wide = Mm(to.unwrap_or(USUAL_SIDE.0)))}
            " × "
            {field("Deep", Unit::Mm, limits::SHEET_SIDE, |sheets| Some(sheets.deep.0), |sheets, to| sheets.deep = Mm(to.unwrap_or(USUAL_SIDE.0)))}
            ", "
            {field("Sheets on hand", Unit::Count, limits::SHEETS, |sheets| Some(sheets.count.into()), |sheets, to| sheets.count = to.unwrap_or(0.0) as u32)}
            " on hand, one costs "
            {field("Price of a sheet", Unit::Money, limits::MONEY, |sheets| sheets.price, |sheets, to| sheets.price = to)}
        </p>
    }
    .into_any()
}

fn found(bench: &Bench, glass: &str, thickness: Mm) -> Sheets {
    bench
        .clone()
        .stock
        .sheets
        .into_iter()
        .find(|sheets| is(sheets, glass, thickness))
        .unwrap_or_else(|| usual(glass, thickness))
}

fn entry<'a>(bench: &'a mut Bench, glass: &str, thickness: Mm) -> &'a mut Sheets {
    let sheets = &mut bench.stock.sheets;
    let at = sheets.iter().position(|sheets| is(sheets, glass, thickness)).unwrap_or_else(|| {
        sheets.push(usual(glass, thickness));
        sheets.len() - 1
    });
    &mut sheets[at]
}

fn is(sheets: &Sheets, glass: &str, thickness: Mm) -> bool {
    sheets.glass == glass && sheets.thickness == thickness
}

fn usual(glass: &str, thickness: Mm) -> Sheets {
    Sheets { glass: glass.into(), thickness, wide: USUAL_SIDE, deep: USUAL_SIDE, count: 0, price: None }
}
