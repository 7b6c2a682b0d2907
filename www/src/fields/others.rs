//! The fields of every step but the coats.

use super::shorthand::{field, thumb};
use super::types::{Field, Target, Thumb, Unit};
use dappledome::base::units::Mm;
use dappledome::recipe::Recipe;
use dappledome::recipe::limits::{self, Limit};
use dappledome::recipe::{Accents, Form, Number, Sheet, Sponge};
use std::f64::consts::TAU;

fn whole(recipe: &Recipe, _: Target) -> Option<&Recipe> {
    Some(recipe)
}

fn whole_mut(recipe: &mut Recipe, _: Target) -> Option<&mut Recipe> {
    Some(recipe)
}

fn sheet(recipe: &Recipe, target: Target) -> Option<&Sheet> {
    match target {
        Target::Sheet(at) => recipe.blank.sheets.get(at),
        _ => None,
    }
}

fn sheet_mut(recipe: &mut Recipe, target: Target) -> Option<&mut Sheet> {
    match target {
        Target::Sheet(at) => recipe.blank.sheets.get_mut(at),
        _ => None,
    }
}

fn sponge(recipe: &Recipe, _: Target) -> Option<&Sponge> {
    recipe.sponge.as_ref()
}

fn sponge_mut(recipe: &mut Recipe, _: Target) -> Option<&mut Sponge> {
    recipe.sponge.as_mut()
}

fn accents(recipe: &Recipe, _: Target) -> Option<&Accents> {
    recipe.accents.as_ref()
}

fn accents_mut(recipe: &mut Recipe, _: Target) -> Option<&mut Accents> {
    recipe.accents.as_mut()
}

/// Bottom and corner of a mold that has them.
fn bottom(recipe: &Recipe, _: Target) -> Option<(&Mm, &Mm)> {
    match &recipe.mold.form {
        Form::FlatBottom { bottom, corner } | Form::Flare { bottom, corner } => Some((bottom, corner)),
        Form::Bowl | Form::Hump => None,
    }
}

fn bottom_mut(recipe: &mut Recipe, _: Target) -> Option<(&mut Mm, &mut Mm)> {
    match &mut recipe.mold.form {
        Form::FlatBottom { bottom, corner } | Form::Flare { bottom, corner } => Some((bottom, corner)),
        Form::Bowl | Form::Hump => None,
    }
}

/// Length of the ring that the accents lie on, mm.
fn ring(recipe: &Recipe) -> f64 {
    let from_rim = recipe.accents.as_ref().map_or(0.0, |accents| accents.from_rim.0);
    TAU * (recipe.blank.diameter.0 / 2.0 - from_rim).max(0.0)
}

fn accent_count(recipe: &Recipe, _: Target) -> Option<f64> {
    Some(match recipe.accents.as_ref()?.number {
        Number::Count(count) => f64::from(count),
        Number::Spacing(spacing) => (ring(recipe) / spacing.0).floor(),
    })
}

fn accent_spacing(recipe: &Recipe, _: Target) -> Option<f64> {
    Some(match recipe.accents.as_ref()?.number {
        Number::Count(count) => {
            let spacing = (ring(recipe) / f64::from(count.max(1)) * 10.0).round() / 10.0;
            spacing.clamp(limits::SPACING.least, limits::SPACING.most)
        }
        Number::Spacing(spacing) => spacing.0,
    })
}

/// A range of the same kind with another usual value: the coarser of two sieves, the wider of two rolls.
const fn usually(limit: Limit, usual: f64) -> Limit {
    Limit { usual, ..limit }
}

/// The blank, at first sight.
pub const BLANK: &[Field] =
    &[field!("Disc", Across, limits::DISC, whole, whole_mut, r => r.blank.diameter.0)];

/// One sheet of the blank.
pub static SHEET: Field = field!("Thickness", Mm, limits::SHEET, sheet, sheet_mut, s => s.thickness.0);

/// The sponge, at first sight.
pub const SPONGE: &[Field] = &[
    Field {
        label: "How damp",
        unit: Unit::Mm,
        thumbs: &[thumb!("", limits::LIFT, sponge, sponge_mut, s => s.lift.0)],
        words: &[(0.02, "dry"), (0.16, "damp"), (0.30, "wet")],
        tile: false,
    },
    field!("Passes over the disc", Number, limits::PASSES, sponge, sponge_mut, s => s.passes),
    Field {
        label: "Press",
        unit: Unit::Share,
        thumbs: &[thumb!("", limits::PRESS, sponge, sponge_mut, s => s.press)],
        words: &[(0.0, "kiss"), (0.22, "light"), (0.45, "firm"), (0.6, "hard")],
        tile: false,
    },
];

/// A range that reaches one step further, where *never* stands.
const REWET_OR_NEVER: Limit =
    Limit { most: limits::REWET.most + 1.0, usual: limits::REWET.most + 1.0, ..limits::REWET };

/// What the sponge has under *Details*.
pub const SPONGE_DETAILS: &[Field] = &[
    Field {
        label: "Pores",
        unit: Unit::Mm,
        thumbs: &[thumb!("", usually(limits::PORES, 5.2), sponge, sponge_mut, s => s.pores.0)],
        words: &[(1.0, "fine"), (3.0, "medium"), (5.2, "wool"), (10.0, "wide")],
        tile: false,
    },
    Field {
        label: "Roll width",
        unit: Unit::Mm,
        thumbs: &[
            thumb!("Narrowest roll", limits::ROLL, sponge, sponge_mut, s => s.roll_from.0),
            thumb!("Widest roll", usually(limits::ROLL, 40.0), sponge, sponge_mut, s => s.roll_to.0),
        ],
        words: &[],
        tile: false,
    },
    Field {
        label: "Presses in a roll",
        unit: Unit::Count,
        thumbs: &[Thumb {
            name: "",
            limit: limits::PRESSES,
            get: |recipe, target| sponge(recipe, target).map(|s| f64::from(s.presses)),
            set: |recipe, target, value| {
                if let Some(s) = sponge_mut(recipe, target) {
                    s.presses = value as u32;
                }
            },
        }],
        words: &[],
        tile: false,
    },
    field!("Puts back", Share, limits::PUTS_BACK, sponge, sponge_mut, s => s.puts_back),
    field!("Stays on after brushing", Share, limits::STAYS_ON, sponge, sponge_mut, s => s.stays_on),
    Field {
        label: "Re-wet every",
        unit: Unit::Rolls,
        thumbs: &[Thumb {
            name: "",
            limit: REWET_OR_NEVER,
            get: |recipe, target| {
                sponge(recipe, target).map(|s| s.rewet_every.map_or(REWET_OR_NEVER.most, f64::from))
            },
            set: |recipe, target, value| {
                if let Some(s) = sponge_mut(recipe, target) {
                    s.rewet_every = (value < REWET_OR_NEVER.most).then_some(value as u32);
                }
            },
        }],
        words: &[],
        tile: false,
    },
    field!("Twist between rolls", Turn, limits::TWIST, sponge, sponge_mut, s => s.twist.0),
];

/// The accents, at first sight.
pub const ACCENTS: &[Field] = &[
    Field {
        label: "Grade",
        unit: Unit::Mm,
        thumbs: &[
            thumb!("Finer sieve", limits::GRADE, accents, accents_mut, a => a.grade_from.0),
            thumb!("Coarser sieve", usually(limits::GRADE, 5.5), accents, accents_mut, a => a.grade_to.0),
        ],
        words: &[],
        tile: false,
    },
    Field {
        label: "How many",
        unit: Unit::Count,
        thumbs: &[Thumb {
            name: "",
            limit: limits::ACCENTS,
            get: accent_count,
            set: |recipe, target, value| {
                if let Some(a) = accents_mut(recipe, target) {
                    a.number = Number::Count(value as u32);
                }
            },
        }],
        words: &[],
        tile: false,
    },
    Field {
        label: "Spacing",
        unit: Unit::Mm,
        thumbs: &[Thumb {
            name: "",
            limit: limits::SPACING,
            get: accent_spacing,
            set: |recipe, target, value| {
                if let Some(a) = accents_mut(recipe, target) {
                    a.number = Number::Spacing(Mm(value));
                }
            },
        }],
        words: &[],
        tile: false,
    },
    field!("From the rim", Mm, limits::FROM_RIM, accents, accents_mut, a => a.from_rim.0),
];

/// What the accents have under *Details*.
pub const ACCENTS_DETAILS: &[Field] = &[
    field!("Width of their band", Mm, limits::BAND, accents, accents_mut, a => a.band.0),
    field!("Least gap", Mm, limits::LEAST_GAP, accents, accents_mut, a => a.least_gap.0),
    Field {
        label: "Looseness",
        unit: Unit::Share,
        thumbs: &[thumb!("", limits::LOOSENESS, accents, accents_mut, a => a.looseness)],
        words: &[(0.0, "evenly spaced"), (1.0, "as it falls")],
        tile: false,
    },
];

/// The slump, at first sight.
pub const SLUMP: &[Field] = &[
    field!("Opening", Across, limits::OPENING, whole, whole_mut, r => r.mold.opening.0),
    field!("Depth", Mm, limits::DEPTH, whole, whole_mut, r => r.mold.depth.0),
];

/// What a mold with a flat bottom or a flare has besides.
pub const MOLD_BOTTOM: &[Field] = &[
    Field {
        label: "Bottom",
        unit: Unit::Across,
        thumbs: &[Thumb {
            name: "",
            limit: limits::BOTTOM,
            get: |recipe, target| bottom(recipe, target).map(|(bottom, _)| bottom.0),
            set: |recipe, target, value| {
                if let Some((bottom, _)) = bottom_mut(recipe, target) {
                    bottom.0 = value;
                }
            },
        }],
        words: &[],
        tile: false,
    },
    Field {
        label: "Corner radius",
        unit: Unit::Mm,
        thumbs: &[Thumb {
            name: "",
            limit: limits::CORNER,
            get: |recipe, target| bottom(recipe, target).map(|(_, corner)| corner.0),
            set: |recipe, target, value| {
                if let Some((_, corner)) = bottom_mut(recipe, target) {
                    corner.0 = value;
                }
            },
        }],
        words: &[],
        tile: false,
    },
];

/// What the ticket is for, at first sight.
pub const BATCH: &[Field] = &[
    Field {
        label: "Pieces",
        unit: Unit::Count,
        thumbs: &[Thumb {
            name: "",
            limit: limits::PIECES,
            get: |recipe, _| Some(f64::from(recipe.batch.pieces)),
            set: |recipe, _, value| recipe.batch.pieces = value as u32,
        }],
        words: &[],
        tile: false,
    },
    Field {
        label: "Spare ones for every ten",
        unit: Unit::Count,
        thumbs: &[Thumb {
            name: "",
            limit: limits::SPARE,
            get: |recipe, _| Some(f64::from(recipe.batch.spare_per_ten)),
            set: |recipe, _, value| recipe.batch.spare_per_ten = value as u32,
        }],
        words: &[],
        tile: false,
    },
];

/// What the ticket has under *Details*.
pub const BATCH_DETAILS: &[Field] = &[
    field!("A level 5 mL spoon weighs", Spoon, limits::PACKING, whole, whole_mut, r => r.packing),
    field!("Falls past the disc", Share, limits::PAST_THE_DISC, whole, whole_mut, r => r.past_the_disc),
];
