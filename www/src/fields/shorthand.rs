//! Short ways to write fields down.

/// A thumb whose number lies in a part of the recipe that two functions find, to read and to change.
macro_rules! thumb {
    ($name:expr, $limit:expr, $of:path, $of_mut:path, $x:ident => $($number:tt)+) => {
        Thumb {
            name: $name,
            limit: $limit,
            get: |recipe, target| $of(recipe, target).map(|$x| $($number)+),
            set: |recipe, target, value| {
                if let Some($x) = $of_mut(recipe, target) {
                    $($number)+ = value;
                }
            },
        }
    };
}

/// A field with one thumb and a scale divided by numbers.
macro_rules! field {
    ($label:expr, $unit:ident, $limit:expr, $of:path, $of_mut:path, $x:ident => $($number:tt)+) => {
        Field {
            label: $label,
            unit: Unit::$unit,
            thumbs: &[thumb!("", $limit, $of, $of_mut, $x => $($number)+)],
            words: &[],
            tile: false,
        }
    };
}

pub(super) use {field, thumb};
