//! Weighing out: grams of each powder for one disc, for each day and for all, against the jars, and the list of what to buy.

use super::bench::number;
use super::state::OrderState;
use crate::dom::focus;
use crate::fields::types::Unit;
use crate::services::download;
use crate::words;
use dappledome::base::units::{Grams, fixed};
use dappledome::glass::glasses::Glasses;
use dappledome::orders::dates;
use dappledome::orders::limits;
use dappledome::orders::model::Jar;
use dappledome::orders::suffice::cut_down;
use dappledome::orders::weigh::PowderNeed;
use dappledome::orders::worked::Worked;
use leptos::prelude::*;

/// The pane.
pub fn pane(state: OrderState) -> AnyView {
    let table = move || {
        let line = state.line();
        let glasses = state.glasses();
        state.worked(|worked| one_disc(&glasses, worked, line))
    };
    let save = move |_| {
        let text = untrack(|| {
            let glasses = state.glasses();
            state.worked(|worked| as_table(&glasses, worked))
        });
        let title = untrack(|| state.orders.with(|order| order.title.clone()));
        if let Some((text, title)) = text.zip(title) {
            let name = words::table_file(&title);
            let saved = download::text(&name, "text/csv", &text);
            state.announcer.say(words::saved_as(&name, saved));
        }
    };
    view! {
        <section class="order-pane" aria-label=words::WEIGH>
            <h3>{words::WEIGH}</h3>
            <div class="order-tables">{table} {all_jars(state)}</div>
            <div class="order-words">
                <button class="word" on:click=save>
                    {words::AS_A_TABLE_FILE}
                </button>
                <details>
                    <summary>{words::LIST_TO_BUY}</summary>
                    {move || to_buy(state)}
                </details>
            </div>
        </section>
    }
    .into_any()
}

fn cell(text: String) -> AnyView {
    view! { <td>{text}</td> }.into_any()
}

/// The coats of the shown line: for one disc, for each day, for all.
fn one_disc(glasses: &Glasses, worked: &Worked, line: usize) -> AnyView {
    let days = worked.weighed.days.iter().map(|day| view! { <th scope="col">{dates::short(*day)}</th> });
    let coats = worked.weighed.coats.iter().filter(|coat| coat.line == line);
    let rows = coats.flat_map(|coat| {
        coat.one.iter().enumerate().map(|(part, one)| {
            let of = |parts: &Vec<dappledome::orders::weigh::PartGrams>| {
                parts.get(part).map_or_else(String::new, |part| fixed(part.grams.0, 1))
            };
            view! {
                <tr>
                    <th scope="row">{glasses.name(&one.glass)}</th>
                    {cell(fixed(one.grams.0, 1))}
                    {coat.by_day.iter().map(|day| cell(of(day))).collect_view()}
                    {cell(of(&coat.all))}
                </tr>
            }
        })
    });
    view! {
        <table class="order-grams">
            <thead>
                <tr>
                    <td>"g"</td>
                    <th scope="col">"one disc"</th>
                    {days.collect_view()}
                    <th scope="col">"all"</th>
                </tr>
            </thead>
            <tbody>{rows.collect_view()}</tbody>
        </table>
    }
    .into_any()
}

/// The powders of the whole order against their jars. A row stays while its numbers change: somebody may be typing in it.
fn all_jars(state: OrderState) -> AnyView {
    let glasses = move || {
        state
            .worked(|worked| worked.weighed.powders.iter().map(|need| need.glass.clone()).collect::<Vec<_>>())
    };
    let glasses = Memo::new(move |_| glasses().unwrap_or_default());
    view! {
        <div>
            <table class="order-grams">
                <thead>
                    <tr>
                        <td></td>
                        <th scope="col">"all, g"</th>
                        <th scope="col">{words::ON_HAND}</th>
                        <th scope="col">{words::TO_BUY}</th>
                        <th scope="col">"100 g cost"</th>
                    </tr>
                </thead>
                <tbody>{move || glasses.get().into_iter().map(|glass| jar(state, glass)).collect_view()}</tbody>
            </table>
            {move || short_ones(state)}
        </div>
    }
    .into_any()
}

/// Powders that their jars do not last for.
fn short_ones(state: OrderState) -> Option<AnyView> {
    let glasses = state.glasses();
    state.worked(|worked| short_of(state, &glasses, worked))
}

fn short_of(state: OrderState, glasses: &Glasses, worked: &Worked) -> AnyView {
    let short = worked.weighed.powders.iter().filter(|need| need.short().0 > 0.0);
    let short = short.map(|need| {
        let day = need.runs_out.and_then(|at| worked.weighed.days.get(at).copied());
        let there = need.on_hand.map_or(0.0, |grams| grams.0);
        view! {
            <div class="notice risk">
                <p>
                    <b>{words::runs_out(&glasses.name(&need.glass), day)}</b>
                    " "
                    {words::mix_both(there, need.all.0)}
                    " "
                    {words::on_the_list(need)}
                </p>
                <div class="buttons">{sift_fewer(state, worked, &need.glass)} {has_more(&need.glass)}</div>
            </div>
        }
    });
    short.collect_view().into_any()
}

/// As many pieces as the jars suffice for.
fn sift_fewer(state: OrderState, worked: &Worked, glass: &str) -> Option<AnyView> {
    let (fewer, sifted) = state.orders.with(|order| cut_down(order, worked, glass))??;
    let press = move |_| state.edit(words::DID_COUNT, |order| *order = fewer.clone());
    Some(view! { <button class="button" on:click=press>{words::sift_discs(sifted)}</button> }.into_any())
}

/// Opens the number of its jar.
fn has_more(glass: &str) -> AnyView {
    let id = on_hand_id(glass);
    view! { <button class="button" on:click=move |_| focus::press_in(&id)>{words::I_HAVE_MORE}</button> }
        .into_any()
}

fn on_hand_id(glass: &str) -> String {
    format!("on-hand-{glass}")
}

fn jar(state: OrderState, glass: String) -> AnyView {
    let name = untrack(|| state.glasses().name(&glass));
    let field = |label: &str, unit, limit, get: fn(&Jar) -> Option<f64>, set: fn(&mut Jar, Option<f64>)| {
        let (of, to) = (glass.clone(), glass.clone());
        let value = move || state.orders.bench.with(|bench| bench.stock.jar(&of).and_then(get));
        let change =
            move |value| state.edit_bench(words::DID_STOCK, |bench| set(bench.stock.jar_mut(&to), value));
        number(state, format!("{label}, {}", words::lower(&name)), (unit, limit), value, change)
    };
    let need = |say: fn(&PowderNeed) -> String| {
        let of = glass.clone();
        move || {
            state
                .worked(|worked| worked.weighed.powders.iter().find(|need| need.glass == of).map(say))
                .flatten()
        }
    };
    let all = need(|need| fixed(need.all.0, 1));
    let buy =
        need(|need| if need.to_buy.0 > 0.0 { words::grams(need.to_buy.0) } else { words::ENOUGH.into() });
    view! {
        <tr>
            <th scope="row">{name.clone()}</th>
            <td>{all}</td>
            <td id=on_hand_id(&glass)>
                {field(
                    "On hand",
                    Unit::Grams,
                    limits::JAR,
                    |jar| Some(jar.grams?.0),
                    |jar, to| jar.grams = to.map(Grams),
                )}
            </td>
            <td>{buy}</td>
            <td>
                {field("100 g cost", Unit::Money, limits::MONEY, |jar| jar.price, |jar, to| jar.price = to)}
            </td>
        </tr>
    }
    .into_any()
}

/// What is to be bought.
fn to_buy(state: OrderState) -> Option<AnyView> {
    let glasses = state.glasses();
    state.worked(|worked| {
        let list = list_to_buy(&glasses, worked);
        if list.is_empty() {
            return view! { <p>{words::NOTHING_TO_BUY}</p> }.into_any();
        }
        let items = list.into_iter().map(|(what, how_much)| view! { <li>{what} ", " {how_much}</li> });
        view! { <ul>{items.collect_view()}</ul> }.into_any()
    })
}

fn list_to_buy(glasses: &Glasses, worked: &Worked) -> Vec<(String, String)> {
    let sheets = worked.cuts.iter().filter(|list| list.to_buy > 0);
    let sheets = sheets.map(|list| {
        let size = list.sheets.iter().find(|sheet| sheet.bought);
        let size = size.map_or_else(String::new, |sheet| {
            words::sheet(sheet.wide.0, sheet.deep.0, list.to_buy as usize, false)
        });
        (format!("{}, {}", glasses.name(&list.glass), list.thickness), size)
    });
    let powders = worked.weighed.powders.iter().filter(|need| need.to_buy.0 > 0.0);
    let powders = powders.map(|need| (glasses.name(&need.glass), words::powder_to_buy(need)));
    sheets.chain(powders).collect()
}

/// Everything as a table of its own: what, in all, on hand, to buy.
fn as_table(glasses: &Glasses, worked: &Worked) -> String {
    let mut lines = vec!["powder,grams in all,grams on hand,grams to buy".to_owned()];
    lines.extend(worked.weighed.powders.iter().map(|need| {
        let there = need.on_hand.map_or_else(|| words::NOT_WRITTEN.into(), |grams| fixed(grams.0, 1));
        format!("{},{},{there},{}", glasses.name(&need.glass), fixed(need.all.0, 1), fixed(need.to_buy.0, 1))
    }));
    lines.push("sheet,discs,sheets,sheets to buy".into());
    lines.extend(worked.cuts.iter().map(|list| {
        let discs: usize = list.sheets.iter().map(|sheet| sheet.discs.len()).sum();
        format!(
            "{} {},{discs},{},{}",
            glasses.name(&list.glass),
            list.thickness,
            list.sheets.len(),
            list.to_buy
        )
    }));
    lines.join("\r\n") + "\r\n"
}
