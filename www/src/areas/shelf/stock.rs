//! Sheets and jars on hand, each typed over where it stands; nothing is written down at first.

use crate::controls::number::Number;
use crate::fields::types::Unit;
use crate::services::keeper::Keeper;
use crate::state::glasses::OwnGlasses;
use crate::state::orders::Orders;
use crate::state::preferences::Preferences;
use crate::state::saving::Saving;
use crate::words;
use dappledome::base::units::{Grams, Mm};
use dappledome::glass::glasses::Glasses;
use dappledome::glass::kind::Glass;
use dappledome::orders::limits;
use dappledome::orders::model::{Jar, Sheets, Stock};
use dappledome::recipe::limits::Limit;
use leptos::prelude::*;
use web_sys::HtmlSelectElement;

/// What can be typed of sheets or of a jar.
#[derive(Clone, Copy)]
struct Entry {
    unit: Unit,
    limit: Limit,
    get: fn(&Stock, usize) -> Option<f64>,
    set: fn(&mut Stock, usize, f64),
}

/// How many sheets.
const SHEETS: Entry = Entry {
    unit: Unit::Count,
    limit: limits::SHEETS,
    get: |stock, at| stock.sheets.get(at).map(|sheets| sheets.count.into()),
    set: |stock, at, value| stock.sheets.iter_mut().skip(at).take(1).for_each(|one| one.count = value as u32),
};
/// How much powder.
const JAR: Entry = Entry {
    unit: Unit::Grams,
    limit: limits::JAR,
    get: |stock, at| Some(stock.jars.get(at)?.grams?.0),
    set: |stock, at, value| {
        stock.jars.iter_mut().skip(at).take(1).for_each(|one| one.grams = Some(Grams(value)))
    },
};

/// The section.
pub fn stock_section() -> AnyView {
    let orders = expect_context::<Orders>();
    let said = RwSignal::new(None::<String>);
    let count = move || {
        let bench = orders.bench.read();
        (bench.stock.sheets.len(), bench.stock.jars.len())
    };
    let none = move || (count() == (0, 0)).then_some(words::NOTHING_ON_HAND);
    let sheets = move || (0..count().0).collect::<Vec<_>>();
    let jars = move || (0..count().1).collect::<Vec<_>>();
    view! {
        <section class="kiln" id="shelf-stock" tabindex="-1" aria-label=words::SHEETS_AND_JARS>
            <h3>{words::SHEETS_AND_JARS}</h3>
            <div class="kiln-paper">
                <p class="aside">{none}</p>
                {other_bench()}
                <ul role="list">
                    <For each=sheets key=|at| *at let:at>
                        {line(orders, at, SHEETS, words::sheets_line_of, without_sheets, said)}
                    </For>
                    <For each=jars key=|at| *at let:at>
                        {line(orders, at, JAR, words::jar_line_of, without_jar, said)}
                    </For>
                </ul>
                {adding(orders, said)}
                <p class="refused" role="alert">{move || said.get()}</p>
            </div>
        </section>
    }
    .into_any()
}

fn without_sheets(stock: &mut Stock, at: usize) {
    if at < stock.sheets.len() {
        stock.sheets.remove(at);
    }
}

fn without_jar(stock: &mut Stock, at: usize) {
    if at < stock.jars.len() {
        stock.jars.remove(at);
    }
}

fn line(
    orders: Orders,
    at: usize,
    entry: Entry,
    what: fn(&Glasses, &Stock, usize) -> String,
    remove: fn(&mut Stock, usize),
    said: RwSignal<Option<String>>,
) -> AnyView {
    let preferences = expect_context::<Preferences>();
    let own = expect_context::<OwnGlasses>();
    let name =
        move || preferences.text(&what(&own.named_with(&Glasses::default()), &orders.bench.read().stock, at));
    let value = move || (entry.get)(&orders.bench.read().stock, at);
    let edit = move |value: f64| {
        let set = orders.edit_bench(words::did::STOCK, |bench| (entry.set)(&mut bench.stock, at, value));
        said.set(set.err());
    };
    let take_away = move |_| {
        said.set(orders.edit_bench(words::did::STOCK, |bench| remove(&mut bench.stock, at)).err());
    };
    view! {
        <li class="mold-item">
            <p>{name}</p>
            <div class="buttons">
                <Number
                    name=Signal::derive(name)
                    unit=entry.unit
                    limit=entry.limit
                    value=Signal::derive(value)
                    yours=Signal::stored(true)
                    set=Callback::new(edit)
                    usual=Callback::new(move |()| edit(entry.limit.usual))
                    said
                />
                <button
                    class="button"
                    aria-label=move || words::done_to(words::TAKE_AWAY, &name())
                    on:click=take_away
                >
                    {words::TAKE_AWAY}
                </button>
            </div>
        </li>
    }
    .into_any()
}

/// Writes a jar or sheets down: the glass is chosen, and its grams or its count typed then. Other sizes of sheets are written in an order.
fn adding(orders: Orders, said: RwSignal<Option<String>>) -> AnyView {
    let own = expect_context::<OwnGlasses>();
    let add = move |id: String, powder: bool| {
        let added = orders.edit_bench(words::did::STOCK, |bench| {
            if powder {
                bench.stock.jars.push(Jar { glass: id, grams: Some(Grams(limits::JAR.usual)), price: None });
            } else {
                let side = Mm(limits::SHEET_SIDE.usual);
                bench.stock.sheets.push(Sheets {
                    glass: id,
                    thickness: Mm(dappledome::recipe::limits::SHEET.usual),
                    wide: side,
                    deep: side,
                    count: 1,
                    price: None,
                });
            }
        });
        said.set(added.err());
    };
    let choice = move |word: &'static str, powder: bool| {
        let options = move || {
            let all = own.offered_with(&Glasses::default());
            let glasses = all.all().filter(|glass| if powder { glass.powder } else { glass.sheet });
            let option =
                |glass: &Glass| view! { <option value=glass.id.clone()>{glass.name.clone()}</option> };
            glasses.map(|glass| option(glass).into_any()).collect::<Vec<AnyView>>()
        };
        let take = move |event: web_sys::Event| {
            let field = event_target::<HtmlSelectElement>(&event);
            let id = field.value();
            field.set_value("");
            if !id.is_empty() {
                add(id, powder);
            }
        };
        view! {
            <select class="add-stock" aria-label=word prop:value="" on:change=take>
                <option value="">{word}</option>
                {options}
            </select>
        }
        .into_any()
    };
    view! { <div class="buttons">{choice(words::ADD_JAR, true)}{choice(words::ADD_SHEETS, false)}</div> }
        .into_any()
}

/// That another bench is at hand, and the word that takes it.
fn other_bench() -> AnyView {
    let (saving, keeper) = (expect_context::<Saving>(), expect_context::<Keeper>());
    (move || {
        saving.other_bench.read().as_ref()?;
        Some(view! {
            <p role="status">
                {words::BENCH_ELSEWHERE}
                " "
                <button class="word" on:click=move |_| keeper.take_other_bench()>{words::TAKE_OTHERS}</button>
            </p>
        })
    })
    .into_any()
}
