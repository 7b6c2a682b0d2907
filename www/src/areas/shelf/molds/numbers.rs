//! Name, form and numbers of one of the maker's own molds, each typed over where it stands.

use crate::controls::choice::{Choice, ChoiceOption};
use crate::controls::number::NumberRow;
use crate::fields::types::Unit;
use crate::model::mold_forms::{FORMS, has_bottom, same_form, sized};
use crate::state::molds::Molds;
use crate::words;
use dappledome::base::units::Mm;
use dappledome::recipe::Form;
use dappledome::recipe::limits::{self, Limit};
use dappledome::recipe::molds::OwnMold;
use leptos::prelude::*;

/// One number of a mold.
struct MoldNumber {
    label: &'static str,
    unit: Unit,
    limit: Limit,
    /// None where its form has no such thing.
    get: fn(&OwnMold) -> Option<f64>,
    set: fn(&mut OwnMold, f64),
}

const NUMBERS: [MoldNumber; 5] = [
    MoldNumber {
        label: words::OPENING,
        unit: Unit::Mm,
        limit: limits::OPENING,
        get: |own| Some(own.mold.opening.0),
        set: |own, value| own.mold.opening = Mm(value),
    },
    MoldNumber {
        label: words::DEPTH,
        unit: Unit::Mm,
        limit: limits::DEPTH,
        get: |own| Some(own.mold.depth.0),
        set: |own, value| own.mold.depth = Mm(value),
    },
    MoldNumber {
        label: words::BOTTOM,
        unit: Unit::Mm,
        limit: limits::BOTTOM,
        get: |own| bottom(&own.mold.form).map(|(bottom, _)| bottom.0),
        set: |own, value| set_bottom(own, Some(Mm(value)), None),
    },
    MoldNumber {
        label: words::CORNER,
        unit: Unit::Mm,
        limit: limits::CORNER,
        get: |own| bottom(&own.mold.form).map(|(_, corner)| corner.0),
        set: |own, value| set_bottom(own, None, Some(Mm(value))),
    },
    MoldNumber {
        label: words::HOW_MANY,
        unit: Unit::Count,
        limit: limits::MOLDS,
        get: |own| Some(own.count.into()),
        set: |own, value| own.count = value as u32,
    },
];

/// Width and corner of a bottom; none for a form without one.
fn bottom(form: &Form) -> Option<(Mm, Mm)> {
    match form {
        Form::FlatBottom { bottom, corner } | Form::Flare { bottom, corner } => Some((*bottom, *corner)),
        Form::Bowl | Form::Hump => None,
    }
}

fn set_bottom(own: &mut OwnMold, across: Option<Mm>, radius: Option<Mm>) {
    if let Form::FlatBottom { bottom, corner } | Form::Flare { bottom, corner } = &mut own.mold.form {
        *bottom = across.unwrap_or(*bottom);
        *corner = radius.unwrap_or(*corner);
    }
}

/// All of them.
#[component]
pub fn MoldNumbers(
    /// Which mold, by its place.
    place: usize,
    /// What there is to say of what was typed.
    said: RwSignal<Option<String>>,
) -> impl IntoView {
    let molds = expect_context::<Molds>();
    let bottomed = Memo::new(move |_| molds.at(place).is_some_and(|own| has_bottom(&own.mold.form)));
    let shown =
        move |number: &MoldNumber| bottomed.get() || ![words::BOTTOM, words::CORNER].contains(&number.label);
    let rows = move || {
        let rows = NUMBERS.iter().filter(|number| shown(number));
        rows.map(|number| view! { <Row number place said /> }).collect_view()
    };
    view! {
        <div class="mold-numbers">
            <Name place said />
            <Choice label=words::MOLD>
                {FORMS.into_iter().map(|form| view! { <FormOption form place said /> }).collect_view()}
            </Choice>
            <dl class="kiln-numbers">{rows}</dl>
        </div>
    }
}

/// Its name, to be typed over.
#[component]
fn Name(
    /// Which mold, by its place.
    place: usize,
    /// What there is to say of what was typed.
    said: RwSignal<Option<String>>,
) -> impl IntoView {
    let molds = expect_context::<Molds>();
    let name = move || molds.at(place).map(|own| own.name).unwrap_or_default();
    let take = move |event| {
        let typed = event_target_value(&event).trim().to_owned();
        said.set(molds.change(place, |own| own.name = typed).err());
    };
    view! {
        <label class="mold-name">
            <span class="label">{words::MOLD_NAME}</span>
            <input class="typed" type="text" autocomplete="off" prop:value=name on:change=take />
        </label>
    }
}

/// A number with its label.
#[component]
fn Row(
    /// Which.
    number: &'static MoldNumber,
    /// Of which mold, by its place.
    place: usize,
    /// What there is to say of what was typed.
    said: RwSignal<Option<String>>,
) -> impl IntoView {
    let molds = expect_context::<Molds>();
    let value = move || molds.at(place).and_then(|own| (number.get)(&own));
    let set = move |value: Option<f64>| {
        let value = value.unwrap_or(number.limit.usual);
        said.set(molds.change(place, |own| (number.set)(own, value)).err());
    };
    view! {
        <NumberRow
            label=number.label
            unit=number.unit
            limit=number.limit
            value=Signal::derive(value)
            set=Callback::new(set)
            said
        />
    }
}

/// A form that it may have.
#[component]
fn FormOption(
    /// Which form.
    form: Form,
    /// Which mold, by its place.
    place: usize,
    /// What there is to say of it.
    said: RwSignal<Option<String>>,
) -> impl IntoView {
    let molds = expect_context::<Molds>();
    let word = words::form(&form);
    let form = StoredValue::new(form);
    let is =
        move || molds.at(place).is_some_and(|own| form.with_value(|form| same_form(form, &own.mold.form)));
    let choose = move |()| {
        if !untrack(is) {
            let form = form.get_value();
            said.set(molds.change(place, |own| own.mold.form = sized(&form, &own.mold)).err());
        }
    };
    view! { <ChoiceOption word chosen=is choose /> }
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::recipe::molds::invented;

    #[test]
    fn every_number_is_read_where_it_is_set() {
        for number in &NUMBERS {
            let mut own = invented().remove(1);
            let other = (number.get)(&own).expect(number.label) + 1.0;
            (number.set)(&mut own, other);
            assert_eq!((number.get)(&own), Some(other), "{}", number.label);
        }
        let bowl = invented().remove(0);
        let none: Vec<_> = NUMBERS.iter().filter(|number| (number.get)(&bowl).is_none()).collect();
        assert_eq!(none.len(), 2, "a bowl has no bottom");
    }
}
