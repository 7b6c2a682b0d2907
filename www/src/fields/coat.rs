//! The fields of a coat: its fall, its edges, its layout, its blend.

use super::shorthand::{field, thumb};
use super::types::{Field, Target, Thumb, Unit};
use dappledome::recipe::Recipe;
use dappledome::recipe::limits::{self, Limit};
use dappledome::recipe::{Coat, Fall, Part, Patches, ThickAndThin};

fn coat(recipe: &Recipe, target: Target) -> Option<&Coat> {
    recipe.coat(target.coat_id()?)
}

fn coat_mut(recipe: &mut Recipe, target: Target) -> Option<&mut Coat> {
    recipe.coat_mut(target.coat_id()?)
}

fn even(recipe: &Recipe, target: Target) -> Option<&f64> {
    match &coat(recipe, target)?.fall {
        Fall::Even { depth } => Some(&depth.0),
        _ => None,
    }
}

fn even_mut(recipe: &mut Recipe, target: Target) -> Option<&mut f64> {
    match &mut coat_mut(recipe, target)?.fall {
        Fall::Even { depth } => Some(&mut depth.0),
        _ => None,
    }
}

fn patches(recipe: &Recipe, target: Target) -> Option<&Patches> {
    match &coat(recipe, target)?.fall {
        Fall::Patches(patches) => Some(patches),
        _ => None,
    }
}

fn patches_mut(recipe: &mut Recipe, target: Target) -> Option<&mut Patches> {
    match &mut coat_mut(recipe, target)?.fall {
        Fall::Patches(patches) => Some(patches),
        _ => None,
    }
}

fn range(recipe: &Recipe, target: Target) -> Option<&ThickAndThin> {
    match &coat(recipe, target)?.fall {
        Fall::ThickAndThin(range) => Some(range),
        _ => None,
    }
}

fn range_mut(recipe: &mut Recipe, target: Target) -> Option<&mut ThickAndThin> {
    match &mut coat_mut(recipe, target)?.fall {
        Fall::ThickAndThin(range) => Some(range),
        _ => None,
    }
}

fn part(recipe: &Recipe, target: Target) -> Option<&Part> {
    match target {
        Target::CoatPart(id, at) => recipe.coat(id)?.powder.get(at),
        _ => None,
    }
}

fn part_mut(recipe: &mut Recipe, target: Target) -> Option<&mut Part> {
    match target {
        Target::CoatPart(id, at) => recipe.coat_mut(id)?.powder.get_mut(at),
        _ => None,
    }
}

fn accent(recipe: &Recipe, target: Target) -> Option<&Part> {
    match target {
        Target::AccentPart(at) => recipe.accents.as_ref()?.glasses.get(at),
        _ => None,
    }
}

fn accent_mut(recipe: &mut Recipe, target: Target) -> Option<&mut Part> {
    match target {
        Target::AccentPart(at) => recipe.accents.as_mut()?.glasses.get_mut(at),
        _ => None,
    }
}

/// What loose depths are called at the bench.
const DEPTH_WORDS: &[(f64, &str)] =
    &[(0.05, "dusting"), (0.15, "veil"), (0.4, "solid"), (1.0, "heavy"), (3.0, "3 mm")];

/// Both thumbs of thick and thin on the one scale that holds them.
const fn on_the_tile(limit: Limit) -> Limit {
    Limit { by_ratio: true, ..limit }
}

/// An even coat.
pub const EVEN: &[Field] = &[Field {
    label: "How deep",
    unit: Unit::Mm,
    thumbs: &[Thumb {
        name: "",
        limit: limits::EVEN_DEPTH,
        get: |recipe, target| even(recipe, target).copied(),
        set: |recipe, target, value| {
            if let Some(depth) = even_mut(recipe, target) {
                *depth = value;
            }
        },
    }],
    words: DEPTH_WORDS,
    tile: true,
}];

/// Patches, at first sight.
pub const PATCHES: &[Field] = &[
    Field {
        label: "How deep",
        unit: Unit::Mm,
        thumbs: &[thumb!("", limits::PATCH_DEPTH, patches, patches_mut, p => p.depth.0)],
        words: DEPTH_WORDS,
        tile: true,
    },
    field!("How much of the disc", Share, limits::COVERAGE, patches, patches_mut, p => p.coverage),
    field!("Patch size", Across, limits::PATCH_SIZE, patches, patches_mut, p => p.size.0),
];

/// Thick and thin, at first sight.
pub const THICK_AND_THIN: &[Field] = &[
    Field {
        label: "Thinnest and thickest",
        unit: Unit::Mm,
        thumbs: &[
            thumb!("Thinnest", on_the_tile(limits::THINNEST), range, range_mut, t => t.thinnest.0),
            thumb!("Thickest", on_the_tile(limits::THICKEST), range, range_mut, t => t.thickest.0),
        ],
        words: DEPTH_WORDS,
        tile: true,
    },
    field!("Blotch size", Across, limits::BLOTCH_SIZE, range, range_mut, t => t.blotch_size.0),
];

/// What an even coat has under *Details*.
pub const EVEN_DETAILS: &[Field] = &[
    field!("Unevenness", Share, limits::UNEVENNESS, coat, coat_mut, c => c.unevenness),
    field!("Bare rim", Mm, limits::BARE_RIM, coat, coat_mut, c => c.bare_rim.0),
    field!("Its raggedness", Mm, limits::BARE_RIM_RAGGEDNESS, coat, coat_mut, c => c.bare_rim_raggedness.0),
];

/// What patches have under *Details*.
pub const PATCHES_DETAILS: &[Field] = &[
    field!("Ragged", Mm, limits::PATCH_RAGGEDNESS, patches, patches_mut, p => p.raggedness.0),
    field!("Soft edge", Mm, limits::SOFT_EDGE, patches, patches_mut, p => p.soft_edge.0),
    field!("Thin margin", Mm, limits::THIN_MARGIN, patches, patches_mut, p => p.thin_margin.0),
    field!("Left at its edge", Share, limits::MARGIN_LEFT, patches, patches_mut, p => p.margin_left),
    field!("Stray dust", Share, limits::STRAY_DUST, patches, patches_mut, p => p.stray_dust),
    field!("It drifts", Mm, limits::STRAY_REACH, patches, patches_mut, p => p.stray_reach.0),
    Field {
        label: "Toward",
        unit: Unit::Pull,
        thumbs: &[thumb!("", limits::TOWARD_RIM, patches, patches_mut, p => p.toward_rim)],
        words: &[(-1.0, "crown"), (0.0, "anywhere"), (1.0, "rim")],
        tile: false,
    },
    field!("Unevenness", Share, limits::PATCH_UNEVENNESS, coat, coat_mut, c => c.unevenness),
    field!("Bare rim", Mm, limits::BARE_RIM, coat, coat_mut, c => c.bare_rim.0),
    field!("Its raggedness", Mm, limits::BARE_RIM_RAGGEDNESS, coat, coat_mut, c => c.bare_rim_raggedness.0),
];

/// What thick and thin has under *Details*.
pub const THICK_AND_THIN_DETAILS: &[Field] = &[
    Field {
        label: "Mostly",
        unit: Unit::Number,
        thumbs: &[thumb!("", limits::MOSTLY_THIN, range, range_mut, t => t.mostly_thin)],
        words: &[(0.5, "thick"), (1.0, "as much of each"), (2.0, "thin")],
        tile: false,
    },
    field!("Ragged", Mm, limits::BLOTCH_RAGGEDNESS, range, range_mut, t => t.raggedness.0),
    field!("Unevenness", Share, limits::UNEVENNESS, coat, coat_mut, c => c.unevenness),
    field!("Bare rim", Mm, limits::BARE_RIM, coat, coat_mut, c => c.bare_rim.0),
    field!("Its raggedness", Mm, limits::BARE_RIM_RAGGEDNESS, coat, coat_mut, c => c.bare_rim_raggedness.0),
];

/// How a coat's layout lies: the last under its *Details*.
pub const LAYOUT: &[Field] = &[
    field!("Turned", Turn, limits::TURNED, coat, coat_mut, c => c.layout.turned.0),
    field!("Nudged right", Mm, limits::MOVED, coat, coat_mut, c => c.layout.moved_right.0),
    field!("Nudged away from you", Mm, limits::MOVED, coat, coat_mut, c => c.layout.moved_up.0),
];

/// Parts of one glass in a coat's blend.
pub static COAT_PARTS: Field = field!("Parts", Number, limits::PARTS, part, part_mut, p => p.parts);

/// Parts of one glass among the accents.
pub static ACCENT_PARTS: Field = field!("Parts", Number, limits::PARTS, accent, accent_mut, p => p.parts);
