//! The rules of a coat: its fall, its edges, its layout, its blend.

use super::{Needle, Place, Rule, Unit};
use dappledome::recipe::Recipe;
use dappledome::recipe::limits::{self, Limit};
use dappledome::recipe::{Accents, Coat, Fall, Part, Patches, ThickAndThin};

/// A needle whose number lies in a part of the recipe that two functions find, to read and to change.
macro_rules! needle {
    ($name:expr, $limit:expr, $of:path, $of_mut:path, $x:ident => $($place:tt)+) => {
        Needle {
            name: $name,
            limit: $limit,
            get: |recipe, place| $of(recipe, place).map(|$x| $($place)+),
            set: |recipe, place, value| {
                if let Some($x) = $of_mut(recipe, place) {
                    $($place)+ = value;
                }
            },
        }
    };
}

/// A rule with one needle and a scale divided by numbers.
macro_rules! rule {
    ($label:expr, $unit:ident, $limit:expr, $of:path, $of_mut:path, $x:ident => $($place:tt)+) => {
        Rule {
            label: $label,
            unit: Unit::$unit,
            needles: &[needle!("", $limit, $of, $of_mut, $x => $($place)+)],
            words: &[],
            tile: false,
        }
    };
}

pub(super) use {needle, rule};

fn coat(recipe: &Recipe, place: Place) -> Option<&Coat> {
    recipe.coat(place.coat)
}

fn coat_mut(recipe: &mut Recipe, place: Place) -> Option<&mut Coat> {
    recipe.coat_mut(place.coat)
}

fn even(recipe: &Recipe, place: Place) -> Option<&f64> {
    match &coat(recipe, place)?.fall {
        Fall::Even { depth } => Some(&depth.0),
        _ => None,
    }
}

fn even_mut(recipe: &mut Recipe, place: Place) -> Option<&mut f64> {
    match &mut coat_mut(recipe, place)?.fall {
        Fall::Even { depth } => Some(&mut depth.0),
        _ => None,
    }
}

fn patches(recipe: &Recipe, place: Place) -> Option<&Patches> {
    match &coat(recipe, place)?.fall {
        Fall::Patches(patches) => Some(patches),
        _ => None,
    }
}

fn patches_mut(recipe: &mut Recipe, place: Place) -> Option<&mut Patches> {
    match &mut coat_mut(recipe, place)?.fall {
        Fall::Patches(patches) => Some(patches),
        _ => None,
    }
}

fn range(recipe: &Recipe, place: Place) -> Option<&ThickAndThin> {
    match &coat(recipe, place)?.fall {
        Fall::ThickAndThin(range) => Some(range),
        _ => None,
    }
}

fn range_mut(recipe: &mut Recipe, place: Place) -> Option<&mut ThickAndThin> {
    match &mut coat_mut(recipe, place)?.fall {
        Fall::ThickAndThin(range) => Some(range),
        _ => None,
    }
}

fn part(recipe: &Recipe, place: Place) -> Option<&Part> {
    coat(recipe, place)?.powder.get(place.at)
}

fn part_mut(recipe: &mut Recipe, place: Place) -> Option<&mut Part> {
    coat_mut(recipe, place)?.powder.get_mut(place.at)
}

fn accent(recipe: &Recipe, place: Place) -> Option<&Part> {
    recipe.accents.as_ref().and_then(|Accents { glasses, .. }| glasses.get(place.at))
}

fn accent_mut(recipe: &mut Recipe, place: Place) -> Option<&mut Part> {
    recipe.accents.as_mut().and_then(|Accents { glasses, .. }| glasses.get_mut(place.at))
}

/// What loose depths are called at the bench.
const DEPTH_WORDS: &[(f64, &str)] =
    &[(0.05, "dusting"), (0.15, "veil"), (0.4, "solid"), (1.0, "heavy"), (3.0, "3 mm")];

/// Both needles of thick and thin on the one scale that holds them.
const fn on_the_tile(limit: Limit) -> Limit {
    Limit { by_ratio: true, ..limit }
}

/// An even coat.
pub const EVEN: &[Rule] = &[Rule {
    label: "How deep",
    unit: Unit::Mm,
    needles: &[Needle {
        name: "",
        limit: limits::EVEN_DEPTH,
        get: |recipe, place| even(recipe, place).copied(),
        set: |recipe, place, value| {
            if let Some(depth) = even_mut(recipe, place) {
                *depth = value;
            }
        },
    }],
    words: DEPTH_WORDS,
    tile: true,
}];

/// Patches, at first sight.
pub const PATCHES: &[Rule] = &[
    Rule {
        label: "How deep",
        unit: Unit::Mm,
        needles: &[needle!("", limits::PATCH_DEPTH, patches, patches_mut, p => p.depth.0)],
        words: DEPTH_WORDS,
        tile: true,
    },
    rule!("How much of the disc", Share, limits::COVERAGE, patches, patches_mut, p => p.coverage),
    rule!("Patch size", Across, limits::PATCH_SIZE, patches, patches_mut, p => p.size.0),
];

/// Thick and thin, at first sight.
pub const THICK_AND_THIN: &[Rule] = &[
    Rule {
        label: "Thinnest and thickest",
        unit: Unit::Mm,
        needles: &[
            needle!("Thinnest", on_the_tile(limits::THINNEST), range, range_mut, t => t.thinnest.0),
            needle!("Thickest", on_the_tile(limits::THICKEST), range, range_mut, t => t.thickest.0),
        ],
        words: DEPTH_WORDS,
        tile: true,
    },
    rule!("Blotch size", Across, limits::BLOTCH_SIZE, range, range_mut, t => t.blotch_size.0),
];

/// What an even coat has under *Finer*.
pub const EVEN_FINER: &[Rule] = &[
    rule!("Unevenness", Share, limits::UNEVENNESS, coat, coat_mut, c => c.unevenness),
    rule!("Bare rim", Mm, limits::BARE_RIM, coat, coat_mut, c => c.bare_rim.0),
    rule!("Its raggedness", Mm, limits::BARE_RIM_RAGGEDNESS, coat, coat_mut, c => c.bare_rim_raggedness.0),
];

/// What patches have under *Finer*.
pub const PATCHES_FINER: &[Rule] = &[
    rule!("Ragged", Mm, limits::PATCH_RAGGEDNESS, patches, patches_mut, p => p.raggedness.0),
    rule!("Soft edge", Mm, limits::SOFT_EDGE, patches, patches_mut, p => p.soft_edge.0),
    rule!("Thin margin", Mm, limits::THIN_MARGIN, patches, patches_mut, p => p.thin_margin.0),
    rule!("Left at its edge", Share, limits::MARGIN_LEFT, patches, patches_mut, p => p.margin_left),
    rule!("Stray dust", Share, limits::STRAY_DUST, patches, patches_mut, p => p.stray_dust),
    rule!("It drifts", Mm, limits::STRAY_REACH, patches, patches_mut, p => p.stray_reach.0),
    Rule {
        label: "Toward",
        unit: Unit::Pull,
        needles: &[needle!("", limits::TOWARD_RIM, patches, patches_mut, p => p.toward_rim)],
        words: &[(-1.0, "crown"), (0.0, "anywhere"), (1.0, "rim")],
        tile: false,
    },
    rule!("Unevenness", Share, limits::PATCH_UNEVENNESS, coat, coat_mut, c => c.unevenness),
    rule!("Bare rim", Mm, limits::BARE_RIM, coat, coat_mut, c => c.bare_rim.0),
    rule!("Its raggedness", Mm, limits::BARE_RIM_RAGGEDNESS, coat, coat_mut, c => c.bare_rim_raggedness.0),
];

/// What thick and thin has under *Finer*.
pub const THICK_AND_THIN_FINER: &[Rule] = &[
    Rule {
        label: "Mostly",
        unit: Unit::Number,
        needles: &[needle!("", limits::MOSTLY_THIN, range, range_mut, t => t.mostly_thin)],
        words: &[(0.5, "thick"), (1.0, "as much of each"), (2.0, "thin")],
        tile: false,
    },
    rule!("Ragged", Mm, limits::BLOTCH_RAGGEDNESS, range, range_mut, t => t.raggedness.0),
    rule!("Unevenness", Share, limits::UNEVENNESS, coat, coat_mut, c => c.unevenness),
    rule!("Bare rim", Mm, limits::BARE_RIM, coat, coat_mut, c => c.bare_rim.0),
    rule!("Its raggedness", Mm, limits::BARE_RIM_RAGGEDNESS, coat, coat_mut, c => c.bare_rim_raggedness.0),
];

/// How a coat's layout lies: the last under its *Finer*.
pub const LAYOUT: &[Rule] = &[
    rule!("Turned", Turn, limits::TURNED, coat, coat_mut, c => c.layout.turned.0),
    rule!("Nudged right", Mm, limits::MOVED, coat, coat_mut, c => c.layout.moved_right.0),
    rule!("Nudged away from you", Mm, limits::MOVED, coat, coat_mut, c => c.layout.moved_up.0),
];

/// Parts of one glass in a coat's blend.
pub static COAT_PARTS: Rule = rule!("Parts", Number, limits::PARTS, part, part_mut, p => p.parts);

/// Parts of one glass among the accents.
pub static ACCENT_PARTS: Rule = rule!("Parts", Number, limits::PARTS, accent, accent_mut, p => p.parts);
