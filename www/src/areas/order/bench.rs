//! Numbers of the maker's own bench and of the order, to be typed over where they stand.

use super::state::OrderState;
use crate::controls::number::{Number, NumberOf, NumberRow};
use crate::fields::types::Unit;
use dappledome::orders::bench::Bench;
use dappledome::recipe::limits::Limit;
use leptos::prelude::*;

/// A number of the bench.
pub type Field = NumberOf<Bench>;

/// Numbers of the bench, behind their labels; `name` is what *Undo* calls a change.
pub fn numbers(state: OrderState, name: &'static str, fields: &'static [Field]) -> AnyView {
    let rows = fields.iter().map(|field| {
        let value = move || state.orders.bench.with(field.get);
        let set = move |value| state.edit_bench(name, |bench| (field.set)(bench, value));
        row(state, field.label, (field.unit, field.limit), Signal::derive(value), Callback::new(set))
    });
    rows.collect_view().into_any()
}

/// A number behind its label.
pub fn row(
    state: OrderState,
    label: &'static str,
    (unit, limit): (Unit, Limit),
    value: Signal<Option<f64>>,
    set: Callback<Option<f64>>,
) -> AnyView {
    view! { <NumberRow label unit limit value set said=state.said /> }.into_any()
}

/// A number in a line of words. Nothing lets it be as if nobody had said.
pub fn number(
    state: OrderState,
    name: String,
    (unit, limit): (Unit, Limit),
    value: impl Fn() -> Option<f64> + Send + Sync + 'static,
    set: impl Fn(Option<f64>) + Send + Sync + 'static,
) -> AnyView {
    let set = Callback::new(set);
    view! {
        <Number
            name=Signal::stored(name)
            unit
            limit
            value=Signal::derive(value)
            yours=Signal::stored(false)
            set=Callback::new(move |value| set.run(Some(value)))
            usual=Callback::new(move |()| set.run(None))
            said=state.said
        />
    }
    .into_any()
}
