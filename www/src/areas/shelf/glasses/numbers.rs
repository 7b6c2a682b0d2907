//! What is known of a glass beside its color, each number typed over where it stands; those of the catalogue are read only.

use crate::controls::choice::{Choice, ChoiceOption};
use crate::controls::number::{NumberOf, NumberRow};
use crate::fields::types::Unit;
use crate::state::glasses::OwnGlasses;
use crate::state::orders::Orders;
use crate::state::preferences::Preferences;
use crate::words;
use dappledome::base::units::{Celsius, Grams, Mm};
use dappledome::glass::kind::{Family, Glass};
use dappledome::orders::limits as order_limits;
use dappledome::orders::model::Jar;
use dappledome::recipe::limits;
use leptos::prelude::*;

/// One number of a glass.
type GlassNumber = NumberOf<Glass>;

const NUMBERS: [GlassNumber; 7] = [
    GlassNumber {
        label: words::GRAIN,
        unit: Unit::Mm,
        limit: limits::GRAIN,
        get: |glass| Some(glass.grain.0),
        set: |glass, value| glass.grain = Mm(value.unwrap_or(limits::GRAIN.usual)),
    },
    GlassNumber {
        label: words::SPOON_HOLDS,
        unit: Unit::Spoon,
        limit: limits::PACKING,
        get: |glass| glass.packing,
        set: |glass, value| glass.packing = value,
    },
    GlassNumber {
        label: words::DENSITY,
        unit: Unit::Number,
        limit: limits::DENSITY,
        get: |glass| Some(glass.density),
        set: |glass, value| glass.density = value.unwrap_or(limits::DENSITY.usual),
    },
    GlassNumber {
        label: words::EXPANSION,
        unit: Unit::Number,
        limit: limits::EXPANSION,
        get: |glass| Some(glass.expansion),
        set: |glass, value| glass.expansion = value.unwrap_or(limits::EXPANSION.usual),
    },
    GlassNumber {
        label: words::SOFTENING_POINT,
        unit: Unit::Celsius,
        limit: limits::SOFTENING,
        get: |glass| Some(glass.softening.0),
        set: |glass, value| glass.softening = Celsius(value.unwrap_or(limits::SOFTENING.usual)),
    },
    GlassNumber {
        label: words::ANNEALING_POINT,
        unit: Unit::Celsius,
        limit: limits::ANNEALING,
        get: |glass| Some(glass.annealing.0),
        set: |glass, value| glass.annealing = Celsius(value.unwrap_or(limits::ANNEALING.usual)),
    },
    GlassNumber {
        label: words::MILKINESS,
        unit: Unit::Number,
        limit: limits::MILKINESS,
        get: |glass| Some(glass.milkiness),
        set: |glass, value| glass.milkiness = value.unwrap_or(limits::MILKINESS.usual),
    },
];

/// Jar, numbers, families and whether it strikes, of a glass as it is when it is opened.
pub fn numbers(glass: &Glass, is_own: bool, said: RwSignal<Option<String>>) -> AnyView {
    let own = expect_context::<OwnGlasses>();
    let rows = NUMBERS.iter().filter(|number| is_own || (number.get)(glass).is_some()).map(|number| {
        if !is_own {
            let value = (number.get)(glass).map_or_else(String::new, |value| plain_number(number, value));
            return view! { <div><dt>{number.label}</dt><dd>{value}</dd></div> }.into_any();
        }
        let (of, to) = (glass.id.clone(), glass.id.clone());
        let value = move || own.with(|shelf| shelf.find(&of).and_then(|own| (number.get)(&own.glass)));
        let set = move |value| said.set(own.change(&to, |own| (number.set)(&mut own.glass, value)).err());
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
        .into_any()
    });
    view! {
        <div>
            <dl class="kiln-numbers">{glass.powder.then(|| jar(&glass.id, said))} {rows.collect_view()}</dl>
            {is_own.then(|| traits(&glass.id, said))}
        </div>
    }
    .into_any()
}

/// A number of the catalogue, which is the same for everybody.
fn plain_number(number: &GlassNumber, value: f64) -> String {
    let units = expect_context::<Preferences>().units.get_untracked();
    number.unit.say(value, &number.limit, units)
}

/// What is on hand of it, and what 100 g cost.
fn jar(glass: &str, said: RwSignal<Option<String>>) -> AnyView {
    let orders = expect_context::<Orders>();
    let number = |label, unit, limit, get: fn(&Jar) -> Option<f64>, set: fn(&mut Jar, Option<f64>)| {
        let (of, to) = (glass.to_owned(), glass.to_owned());
        let value = move || orders.bench.with(|bench| bench.stock.jar(&of).and_then(get));
        let change = move |value| {
            let set = orders.edit_bench(words::did::STOCK, |bench| {
                set(bench.stock.jar_mut(&to), value);
            });
            said.set(set.err());
        };
        view! { <NumberRow label unit limit value=Signal::derive(value) set=Callback::new(change) said /> }
    };
    view! {
        {number(
            words::ON_HAND_GRAMS,
            Unit::Grams,
            order_limits::JAR,
            |jar| jar.grams.map(|grams| grams.0),
            |jar, to| jar.grams = to.map(Grams),
        )}
        {number(words::HUNDRED_GRAMS_COST, Unit::Money, order_limits::MONEY, |jar| jar.price, |jar, to| jar.price = to)}
    }
    .into_any()
}

/// Something that a glass is or is not, as a word to press.
#[derive(Clone, Copy)]
enum Trait {
    ColoredBy(Family),
    Strikes,
}

impl Trait {
    fn is_of(self, glass: &Glass) -> bool {
        match self {
            Self::ColoredBy(family) => glass.families.contains(&family),
            Self::Strikes => glass.strikes,
        }
    }

    fn turn(self, glass: &mut Glass) {
        match self {
            Self::ColoredBy(family) if self.is_of(glass) => glass.families.retain(|one| *one != family),
            Self::ColoredBy(family) => glass.families.push(family),
            Self::Strikes => glass.strikes = !glass.strikes,
        }
    }

    fn option(
        self,
        word: &'static str,
        glass: &str,
        own: OwnGlasses,
        said: RwSignal<Option<String>>,
    ) -> AnyView {
        let (of, to) = (glass.to_owned(), glass.to_owned());
        let chosen = move || own.with(|shelf| shelf.find(&of).is_some_and(|own| self.is_of(&own.glass)));
        let choose = move |()| said.set(own.change(&to, |own| self.turn(&mut own.glass)).err());
        view! { <ChoiceOption word chosen=Signal::derive(chosen) choose=Callback::new(choose) /> }.into_any()
    }
}

/// What colors it, and whether it strikes.
fn traits(glass: &str, said: RwSignal<Option<String>>) -> AnyView {
    let own = expect_context::<OwnGlasses>();
    let each = words::FAMILIES.map(|(family, word)| Trait::ColoredBy(family).option(word, glass, own, said));
    let strikes = Trait::Strikes.option(words::STRIKES_WHEN_HOT, glass, own, said);
    view! {
        <Choice label=words::COLORED_BY named=true>{each.into_iter().collect_view()}</Choice>
        <Choice label=words::STRIKES named=true>{strikes}</Choice>
    }
    .into_any()
}

#[cfg(test)]
mod tests {
    use super::*;
    use dappledome::glass::catalogue;
    use dappledome::glass::glasses::Glasses;
    use dappledome::recipe::Recipe;
    use dappledome::recipe::plan::Plan;

    #[test]
    fn each_number_is_set_where_it_is_read_and_its_ends_make_a_glass() {
        let rust = catalogue::find("rust").expect("it is in the catalogue");
        for number in &NUMBERS {
            for value in [number.limit.least, number.limit.most] {
                let mut glass = Glass { id: "own".into(), ..rust.clone() };
                if number.label == words::SOFTENING_POINT {
                    glass.annealing = Celsius(value - 100.0);
                } else if number.label == words::ANNEALING_POINT {
                    glass.softening = Celsius(value + 170.0);
                }
                (number.set)(&mut glass, Some(value));
                assert_eq!((number.get)(&glass), Some(value), "{}", number.label);
                if number.label == words::GRAIN
                    || number.label == words::DENSITY
                    || number.label == words::MILKINESS
                {
                    let recipe = Recipe { glasses: Glasses(vec![glass]), ..Recipe::bare() };
                    assert!(Plan::new(&recipe).is_ok(), "{} {value}", number.label);
                }
            }
        }
    }
}
