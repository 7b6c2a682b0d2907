//! The fields of the stem.

use super::shorthand::{field, thumb};
use super::types::{Field, Target, Thumb, Unit};
use dappledome::base::units::Mm;
use dappledome::recipe::limits;
use dappledome::recipe::{Joint, Recipe, Stem};

fn stem(recipe: &Recipe, _: Target) -> Option<&Stem> {
    recipe.stem.as_ref()
}

fn stem_mut(recipe: &mut Recipe, _: Target) -> Option<&mut Stem> {
    recipe.stem.as_mut()
}

fn fillet(recipe: &Recipe, _: Target) -> Option<f64> {
    match recipe.stem?.joint {
        Joint::Holed { fillet } => Some(fillet.0),
        Joint::Dabs { .. } => None,
    }
}

fn dabs(recipe: &Recipe) -> Option<(u32, Mm)> {
    match recipe.stem?.joint {
        Joint::Dabs { count, across } => Some((count, across)),
        Joint::Holed { .. } => None,
    }
}

fn join(recipe: &mut Recipe, joint: Joint) {
    if let Some(stem) = &mut recipe.stem {
        stem.joint = joint;
    }
}

/// The stem, at first sight.
pub const STEM: &[Field] = &[
    field!("Above the ground", Mm, limits::STEM_LENGTH, stem, stem_mut, s => s.length.0),
    field!("In the ground", Mm, limits::STEM_IN_GROUND, stem, stem_mut, s => s.in_ground.0),
];

/// Silicone under a holed stopper.
pub const FILLET: &[Field] = &[Field {
    label: "Fillet around it",
    unit: Unit::Mm,
    thumbs: &[Thumb {
        name: "",
        limit: limits::FILLET,
        get: fillet,
        set: |recipe, _, value| join(recipe, Joint::Holed { fillet: Mm(value) }),
    }],
    words: &[],
    tile: false,
}];

/// Silicone in dabs.
pub const DABS: &[Field] = &[
    Field {
        label: "Dabs",
        unit: Unit::Count,
        thumbs: &[Thumb {
            name: "",
            limit: limits::DABS,
            get: |recipe, _| dabs(recipe).map(|(count, _)| f64::from(count)),
            set: |recipe, _, value| {
                if let Some((_, across)) = dabs(recipe) {
                    join(recipe, Joint::Dabs { count: value as u32, across });
                }
            },
        }],
        words: &[],
        tile: false,
    },
    Field {
        label: "Width of a dab",
        unit: Unit::Mm,
        thumbs: &[Thumb {
            name: "",
            limit: limits::DAB_ACROSS,
            get: |recipe, _| dabs(recipe).map(|(_, across)| across.0),
            set: |recipe, _, value| {
                if let Some((count, _)) = dabs(recipe) {
                    join(recipe, Joint::Dabs { count, across: Mm(value) });
                }
            },
        }],
        words: &[],
        tile: false,
    },
];
