//! The numbers of the maker's own kiln, each typed over where it stands.

use crate::controls::choice::{Choice, ChoiceOption};
use crate::controls::number::{NumberOf, NumberRow};
use crate::fields::types::Unit;
use crate::state::kilns::Kilns;
use crate::words;
use dappledome::base::firing::Firing;
use dappledome::base::units::Mm;
use dappledome::kiln::data::{Kiln, Lining, Metered, Shelf, Volts};
use dappledome::recipe::limits::Limit;
use leptos::prelude::*;

/// One number of a kiln.
type KilnNumber = NumberOf<Kiln>;

const fn range(least: f64, most: f64, step: f64, usual: f64) -> Limit {
    Limit { least, most, step, usual, by_ratio: false }
}

const SIDE: Limit = range(100.0, 2000.0, 5.0, 300.0);
const VOLTS: Limit = range(90.0, 500.0, 1.0, 230.0);

const NUMBERS: [KilnNumber; 13] = [
    KilnNumber {
        label: words::INSIDE_WIDE,
        unit: Unit::Mm,
        limit: SIDE,
        get: |kiln| Some(kiln.inside.wide.0),
        set: |kiln, value| kiln.inside.wide = Mm(value.unwrap_or(SIDE.usual)),
    },
    KilnNumber {
        label: words::INSIDE_DEEP,
        unit: Unit::Mm,
        limit: SIDE,
        get: |kiln| Some(kiln.inside.deep.0),
        set: |kiln, value| kiln.inside.deep = Mm(value.unwrap_or(SIDE.usual)),
    },
    KilnNumber {
        label: words::INSIDE_HIGH,
        unit: Unit::Mm,
        limit: range(50.0, 2000.0, 5.0, 150.0),
        get: |kiln| Some(kiln.inside.high.0),
        set: |kiln, value| kiln.inside.high = Mm(value.unwrap_or(150.0)),
    },
    KilnNumber {
        label: words::SHELF_WIDE,
        unit: Unit::Mm,
        limit: range(50.0, 2000.0, 5.0, 260.0),
        get: |kiln| Some(shelf_sides(kiln).0),
        set: |kiln, value| set_shelf(kiln, value, None),
    },
    KilnNumber {
        label: words::SHELF_DEEP,
        unit: Unit::Mm,
        limit: range(50.0, 2000.0, 5.0, 260.0),
        get: |kiln| matches!(kiln.shelf, Shelf::Square { .. }).then(|| shelf_sides(kiln).1),
        set: |kiln, value| set_shelf(kiln, None, value),
    },
    KilnNumber {
        label: words::KEEP_FROM_EDGE,
        unit: Unit::Mm,
        limit: range(0.0, 60.0, 1.0, 20.0),
        get: |kiln| Some(kiln.edge.0),
        set: |kiln, value| kiln.edge = Mm(value.unwrap_or(20.0)),
    },
    KilnNumber {
        label: words::BETWEEN_PIECES,
        unit: Unit::Mm,
        limit: range(2.0, 40.0, 1.0, 8.0),
        get: |kiln| Some(kiln.gap.0),
        set: |kiln, value| kiln.gap = Mm(value.unwrap_or(8.0)),
    },
    KilnNumber {
        label: words::WALL,
        unit: Unit::Mm,
        limit: range(15.0, 300.0, 5.0, 50.0),
        get: |kiln| Some(kiln.wall.0),
        set: |kiln, value| kiln.wall = Mm(value.unwrap_or(50.0)),
    },
    KilnNumber {
        label: words::POWER,
        unit: Unit::Power,
        limit: range(0.5, 30.0, 0.1, 2.4),
        get: |kiln| Some(kiln.power),
        set: |kiln, value| kiln.power = value.unwrap_or(2.4),
    },
    KilnNumber {
        label: words::MADE_FOR,
        unit: Unit::Volts,
        limit: VOLTS,
        get: |kiln| kiln.volts.map(|volts| volts.made_for),
        set: |kiln, value| {
            kiln.volts =
                value.map(|value| Volts { made_for: value, gets: kiln.volts.map_or(value, |v| v.gets) });
        },
    },
    KilnNumber {
        label: words::GETS,
        unit: Unit::Volts,
        limit: VOLTS,
        get: |kiln| kiln.volts.map(|volts| volts.gets),
        set: |kiln, value| {
            kiln.volts =
                value.map(|value| Volts { gets: value, made_for: kiln.volts.map_or(value, |v| v.made_for) });
        },
    },
    KilnNumber {
        label: words::A_KWH_COSTS,
        unit: Unit::Money,
        limit: range(0.0, 1000.0, 0.01, 0.0),
        get: |kiln| kiln.price,
        set: |kiln, value| kiln.price = value,
    },
    KilnNumber {
        label: words::METERED,
        unit: Unit::Energy,
        limit: range(0.1, 500.0, 0.1, 6.0),
        get: |kiln| kiln.metered.map(|metered| metered.kwh),
        set: |kiln, value| kiln.metered = value.map(|kwh| Metered { firing: Firing::FullFuse, kwh }),
    },
];

fn shelf_sides(kiln: &Kiln) -> (f64, f64) {
    match kiln.shelf {
        Shelf::Round { across } => (across.0, across.0),
        Shelf::Square { wide, deep } => (wide.0, deep.0),
    }
}

/// Sets one side of a shelf, or its diameter.
fn set_shelf(kiln: &mut Kiln, first: Option<f64>, second: Option<f64>) {
    let (wide, deep) = shelf_sides(kiln);
    let (wide, deep) = (first.unwrap_or(wide), second.unwrap_or(deep));
    kiln.shelf = match kiln.shelf {
        Shelf::Round { .. } => Shelf::Round { across: Mm(wide) },
        Shelf::Square { .. } => Shelf::Square { wide: Mm(wide), deep: Mm(deep) },
    };
}

/// All of them, what the walls are of and what form the shelf has.
#[component]
pub fn OwnKiln() -> impl IntoView {
    let said = RwSignal::new(None);
    let rows = NUMBERS.iter().map(|number| view! { <Row number said /> });
    view! {
        <dl class="kiln-numbers">{rows.collect_view()}</dl>
        <p class="refused" role="alert">{move || said.get()}</p>
        <Choice label=words::LINING named=true>
            <LiningOption lining=Lining::Brick />
            <LiningOption lining=Lining::Fiber />
        </Choice>
        <Choice label=words::SHELF_FORM named=true>
            <FormOption round=false />
            <FormOption round=true />
        </Choice>
        <p class="aside">{words::OWN_KILN_IS}</p>
    }
}

/// A number with its label.
#[component]
fn Row(
    /// Which.
    number: &'static KilnNumber,
    /// What there is to say of what was typed.
    said: RwSignal<Option<String>>,
) -> impl IntoView {
    let kilns = expect_context::<Kilns>();
    let value = move || (number.get)(&kilns.own.read());
    let set = move |value| said.set(kilns.describe(|kiln| (number.set)(kiln, value)).err());
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

/// What the walls may be of.
#[component]
fn LiningOption(
    /// What.
    lining: Lining,
) -> impl IntoView {
    let kilns = expect_context::<Kilns>();
    // Walls of either are within the limits: nothing can be wrong with it.
    let choose = move |()| drop(kilns.describe(|kiln| kiln.lining = lining));
    view! {
        <ChoiceOption
            word=words::lining(lining)
            chosen=Signal::derive(move || kilns.own.read().lining == lining)
            choose=Callback::new(choose)
        />
    }
}

/// The form that the shelf may have.
#[component]
fn FormOption(
    /// Whether it is round.
    round: bool,
) -> impl IntoView {
    let kilns = expect_context::<Kilns>();
    let is_round = move || matches!(kilns.own.read().shelf, Shelf::Round { .. });
    // The narrower side goes in wherever both sides did: nothing can be wrong with it.
    let choose = move |()| {
        drop(kilns.describe(|kiln| {
            let side = kiln.shelf.narrowest();
            kiln.shelf =
                if round { Shelf::Round { across: side } } else { Shelf::Square { wide: side, deep: side } };
        }));
    };
    view! {
        <ChoiceOption
            word=if round { words::ROUND } else { words::SQUARE }
            chosen=Signal::derive(move || is_round() == round)
            choose=Callback::new(choose)
        />
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::kiln::checks::check;
    use dappledome::kiln::data::Guess;

    #[test]
    fn each_number_is_set_where_it_is_read_and_its_usual_value_makes_a_kiln() {
        for number in &NUMBERS {
            let mut kiln = Kiln::guess(Guess::LargeBrick);
            let other = number.limit.usual + number.limit.step;
            assert_ne!((number.get)(&kiln), Some(other), "{}", number.label);
            (number.set)(&mut kiln, Some(other));
            assert_eq!((number.get)(&kiln), Some(other), "{}", number.label);
            let mut small = Kiln::guess(Guess::SmallBrick);
            (number.set)(&mut small, Some(number.limit.usual));
            assert_eq!(check(&small), [], "{}", number.label);
        }
    }

    #[test]
    fn every_end_of_a_range_is_what_the_checks_take() {
        let shelf_goes_in = |kiln: &mut Kiln| kiln.shelf = Shelf::Square { wide: Mm(50.0), deep: Mm(50.0) };
        for number in NUMBERS.iter().filter(|number| !number.label.starts_with("Shelf")) {
            for value in [number.limit.least, number.limit.most] {
                let mut kiln = Kiln::guess(Guess::SmallBrick);
                shelf_goes_in(&mut kiln);
                (number.set)(&mut kiln, Some(value));
                assert_eq!(check(&kiln), [], "{} {value}", number.label);
            }
        }
    }
}
