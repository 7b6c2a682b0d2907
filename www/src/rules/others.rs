//! The rules of every step but the coats.

use super::coat::{needle, rule};
use super::{Needle, Place, Rule, Unit};
use dappledome::base::scalar::Bounds;
use dappledome::base::units::Mm;
use dappledome::recipe::Recipe;
use dappledome::recipe::limits::{self, Limit};
use dappledome::recipe::{Accents, Form, Number, Sheet, Sponge};
use std::f64::consts::TAU;

fn whole(recipe: &Recipe, _: Place) -> Option<&Recipe> {
    Some(recipe)
}

fn whole_mut(recipe: &mut Recipe, _: Place) -> Option<&mut Recipe> {
    Some(recipe)
}

fn sheet(recipe: &Recipe, place: Place) -> Option<&Sheet> {
    recipe.blank.sheets.get(place.at)
}

fn sheet_mut(recipe: &mut Recipe, place: Place) -> Option<&mut Sheet> {
    recipe.blank.sheets.get_mut(place.at)
}

fn sponge(recipe: &Recipe, _: Place) -> Option<&Sponge> {
    recipe.sponge.as_ref()
}

fn sponge_mut(recipe: &mut Recipe, _: Place) -> Option<&mut Sponge> {
    recipe.sponge.as_mut()
}

fn accents(recipe: &Recipe, _: Place) -> Option<&Accents> {
    recipe.accents.as_ref()
}

fn accents_mut(recipe: &mut Recipe, _: Place) -> Option<&mut Accents> {
    recipe.accents.as_mut()
}

/// Bottom and corner of a mold that has them.
fn bottom(recipe: &Recipe, _: Place) -> Option<(&Mm, &Mm)> {
    match &recipe.mold.form {
        Form::FlatBottom { bottom, corner } | Form::Flare { bottom, corner } => Some((bottom, corner)),
        Form::Bowl | Form::Hump => None,
    }
}

fn bottom_mut(recipe: &mut Recipe, _: Place) -> Option<(&mut Mm, &mut Mm)> {
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

fn accent_count(recipe: &Recipe, _: Place) -> Option<f64> {
    Some(match recipe.accents.as_ref()?.number {
        Number::Count(count) => f64::from(count),
        Number::Spacing(spacing) => (ring(recipe) / spacing.0).floor(),
    })
}

fn accent_spacing(recipe: &Recipe, _: Place) -> Option<f64> {
    Some(match recipe.accents.as_ref()?.number {
        Number::Count(count) => {
            let spacing = (ring(recipe) / f64::from(count.max(1)) * 10.0).round() / 10.0;
            spacing.between(limits::SPACING.least, limits::SPACING.most)
        }
        Number::Spacing(spacing) => spacing.0,
    })
}

/// A range of the same kind with another usual value: the coarser of two sieves, the wider of two rolls.
const fn usually(limit: Limit, usual: f64) -> Limit {
    Limit { usual, ..limit }
}

/// The blank, at first sight.
pub const BLANK: &[Rule] = &[rule!("Disc", Across, limits::DISC, whole, whole_mut, r => r.blank.diameter.0)];

/// One sheet of the blank.
pub static SHEET: Rule = rule!("Thickness", Mm, limits::SHEET, sheet, sheet_mut, s => s.thickness.0);

/// The sponge, at first sight.
pub const SPONGE: &[Rule] = &[
    Rule {
        label: "How damp",
        unit: Unit::Mm,
        needles: &[needle!("", limits::LIFT, sponge, sponge_mut, s => s.lift.0)],
        words: &[(0.02, "dry"), (0.16, "damp"), (0.30, "wet")],
        tile: false,
    },
    rule!("Passes over the disc", Number, limits::PASSES, sponge, sponge_mut, s => s.passes),
    Rule {
        label: "Press",
        unit: Unit::Share,
        needles: &[needle!("", limits::PRESS, sponge, sponge_mut, s => s.press)],
        words: &[(0.0, "kiss"), (0.22, "light"), (0.45, "firm"), (0.6, "hard")],
        tile: false,
    },
];

/// A range that reaches one step further, where *never* stands.
const REWET_OR_NEVER: Limit =
    Limit { most: limits::REWET.most + 1.0, usual: limits::REWET.most + 1.0, ..limits::REWET };

/// What the sponge has under *Finer*.
pub const SPONGE_FINER: &[Rule] = &[
    Rule {
        label: "Pores",
        unit: Unit::Mm,
        needles: &[needle!("", usually(limits::PORES, 5.2), sponge, sponge_mut, s => s.pores.0)],
        words: &[(1.0, "fine"), (3.0, "medium"), (5.2, "wool"), (10.0, "wide")],
        tile: false,
    },
    Rule {
        label: "Roll width",
        unit: Unit::Mm,
        needles: &[
            needle!("Narrowest roll", limits::ROLL, sponge, sponge_mut, s => s.roll_from.0),
            needle!("Widest roll", usually(limits::ROLL, 40.0), sponge, sponge_mut, s => s.roll_to.0),
        ],
        words: &[],
        tile: false,
    },
    Rule {
        label: "Presses in a roll",
        unit: Unit::Count,
        needles: &[Needle {
            name: "",
            limit: limits::PRESSES,
            get: |recipe, place| sponge(recipe, place).map(|s| f64::from(s.presses)),
            set: |recipe, place, value| {
                if let Some(s) = sponge_mut(recipe, place) {
                    s.presses = value as u32;
                }
            },
        }],
        words: &[],
        tile: false,
    },
    rule!("Puts back", Share, limits::PUTS_BACK, sponge, sponge_mut, s => s.puts_back),
    rule!("Stays on after brushing", Share, limits::STAYS_ON, sponge, sponge_mut, s => s.stays_on),
    Rule {
        label: "Re-wet every",
        unit: Unit::Rolls,
        needles: &[Needle {
            name: "",
            limit: REWET_OR_NEVER,
            get: |recipe, place| {
                sponge(recipe, place).map(|s| s.rewet_every.map_or(REWET_OR_NEVER.most, f64::from))
            },
            set: |recipe, place, value| {
                if let Some(s) = sponge_mut(recipe, place) {
                    s.rewet_every = (value < REWET_OR_NEVER.most).then_some(value as u32);
                }
            },
        }],
        words: &[],
        tile: false,
    },
    rule!("Twist between rolls", Turn, limits::TWIST, sponge, sponge_mut, s => s.twist.0),
];

/// The full fuse.
pub const FUSE: &[Rule] = &[
    rule!("Top", Celsius, limits::FUSE_TOP, whole, whole_mut, r => r.fuse.top.0),
    rule!("Hold", Minutes, limits::FUSE_HOLD, whole, whole_mut, r => r.fuse.hold.0),
];

/// The accents, at first sight.
pub const ACCENTS: &[Rule] = &[
    Rule {
        label: "Grade",
        unit: Unit::Mm,
        needles: &[
            needle!("Finer sieve", limits::GRADE, accents, accents_mut, a => a.grade_from.0),
            needle!("Coarser sieve", usually(limits::GRADE, 5.5), accents, accents_mut, a => a.grade_to.0),
        ],
        words: &[],
        tile: false,
    },
    Rule {
        label: "How many",
        unit: Unit::Count,
        needles: &[Needle {
            name: "",
            limit: limits::ACCENTS,
            get: accent_count,
            set: |recipe, place, value| {
                if let Some(a) = accents_mut(recipe, place) {
                    a.number = Number::Count(value as u32);
                }
            },
        }],
        words: &[],
        tile: false,
    },
    Rule {
        label: "Spacing",
        unit: Unit::Mm,
        needles: &[Needle {
            name: "",
            limit: limits::SPACING,
            get: accent_spacing,
            set: |recipe, place, value| {
                if let Some(a) = accents_mut(recipe, place) {
                    a.number = Number::Spacing(Mm(value));
                }
            },
        }],
        words: &[],
        tile: false,
    },
    rule!("From the rim", Mm, limits::FROM_RIM, accents, accents_mut, a => a.from_rim.0),
];

/// What the accents have under *Finer*.
pub const ACCENTS_FINER: &[Rule] = &[
    rule!("Width of their band", Mm, limits::BAND, accents, accents_mut, a => a.band.0),
    rule!("Least gap", Mm, limits::LEAST_GAP, accents, accents_mut, a => a.least_gap.0),
    Rule {
        label: "Looseness",
        unit: Unit::Share,
        needles: &[needle!("", limits::LOOSENESS, accents, accents_mut, a => a.looseness)],
        words: &[(0.0, "evenly spaced"), (1.0, "as it falls")],
        tile: false,
    },
];

/// The slump, at first sight.
pub const SLUMP: &[Rule] = &[
    rule!("Opening", Across, limits::OPENING, whole, whole_mut, r => r.mold.opening.0),
    rule!("Depth", Mm, limits::DEPTH, whole, whole_mut, r => r.mold.depth.0),
];

/// What a mold with a flat bottom or a flare has besides.
pub const MOLD_BOTTOM: &[Rule] = &[
    Rule {
        label: "Bottom",
        unit: Unit::Across,
        needles: &[Needle {
            name: "",
            limit: limits::BOTTOM,
            get: |recipe, place| bottom(recipe, place).map(|(bottom, _)| bottom.0),
            set: |recipe, place, value| {
                if let Some((bottom, _)) = bottom_mut(recipe, place) {
                    bottom.0 = value;
                }
            },
        }],
        words: &[],
        tile: false,
    },
    Rule {
        label: "Corner radius",
        unit: Unit::Mm,
        needles: &[Needle {
            name: "",
            limit: limits::CORNER,
            get: |recipe, place| bottom(recipe, place).map(|(_, corner)| corner.0),
            set: |recipe, place, value| {
                if let Some((_, corner)) = bottom_mut(recipe, place) {
                    corner.0 = value;
                }
            },
        }],
        words: &[],
        tile: false,
    },
];

/// What the ticket is for, at first sight.
pub const BATCH: &[Rule] = &[
    Rule {
        label: "Pieces",
        unit: Unit::Count,
        needles: &[Needle {
            name: "",
            limit: limits::PIECES,
            get: |recipe, _| Some(f64::from(recipe.batch.pieces)),
            set: |recipe, _, value| recipe.batch.pieces = value as u32,
        }],
        words: &[],
        tile: false,
    },
    Rule {
        label: "Spare ones for every ten",
        unit: Unit::Count,
        needles: &[Needle {
            name: "",
            limit: limits::SPARE,
            get: |recipe, _| Some(f64::from(recipe.batch.spare_per_ten)),
            set: |recipe, _, value| recipe.batch.spare_per_ten = value as u32,
        }],
        words: &[],
        tile: false,
    },
];

/// What the ticket has under *Finer*.
pub const BATCH_FINER: &[Rule] = &[
    rule!("A level 5 mL spoon weighs", Spoon, limits::PACKING, whole, whole_mut, r => r.packing),
    rule!("Falls past the disc", Share, limits::PAST_THE_DISC, whole, whole_mut, r => r.past_the_disc),
];
