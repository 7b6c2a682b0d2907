//! What can be wrong with each step of a recipe, and what of it only may go wrong.

use super::check::Check;
use super::glass_checks;
use super::hand_checks;
use super::limits;
use super::model::{Accents, Coat, Fall, Form, Mold, Number, Part, Recipe, Sponge};
use super::planned::{Blend, PlannedAccents, PlannedCoat, PlannedSheet, SiftPlan};
use crate::base::disc::Disc;
use crate::base::notice::{Mend, Step};
use crate::base::scalar::PI;
use crate::base::units::{Mm, fixed, plain};
use crate::glass::cover;
use crate::glass::kind::{DENSITY, Glass};
use crate::glass::material::Material;
use crate::glass::melt::{CONTACT_ANGLE, resting_thickness};

/// The recipe as a whole.
pub(super) fn recipe(check: &mut Check, recipe: &Recipe) {
    if recipe.version != super::model::VERSION {
        check.fault(
            Step::Recipe,
            "A recipe of another version.",
            format!(
                "It says version {}; this program reads version {}.",
                recipe.version,
                super::model::VERSION
            ),
            "Open it with the program that saved it, or use a newer Dappledome.",
        );
    }
    if recipe.title.chars().count() > limits::MOST_TITLE {
        check.fault(
            Step::Recipe,
            "A very long name.",
            format!("It has {} letters.", recipe.title.chars().count()),
            format!("Use at most {} letters.", limits::MOST_TITLE),
        );
    }
    glass_checks::glasses(check, &recipe.glasses);
    check.share(
        Step::Ticket,
        "The glass in a heap of powder (a level 5 mL spoon holds 12.5 g if it is solid)",
        recipe.packing,
        limits::PACKING,
    );
    check.share(Step::Ticket, "The powder that falls past", recipe.past_the_disc, limits::PAST_THE_DISC);
    check.range(Step::Ticket, "The number of pieces", recipe.batch.pieces.into(), limits::PIECES, "");
    check.range(Step::Ticket, "Spare pieces per ten", recipe.batch.spare_per_ten.into(), limits::SPARE, "");
}

/// The thickest stack, as a share of the disc's diameter, that bends as a sheet does. No source: chosen so that the round edges
/// leave two thirds of the disc between them.
const MOST_THICK: f64 = 1.0 / 3.0;

pub(super) fn blank(check: &mut Check, recipe: &Recipe) -> Vec<PlannedSheet> {
    let step = Step::Blank;
    let blank = &recipe.blank;
    let sized = check.length(step, "The disc", blank.diameter, limits::DISC);
    if blank.sheets.is_empty() || blank.sheets.len() > limits::MOST_SHEETS {
        check.fault(
            step,
            if blank.sheets.is_empty() { "No sheet." } else { "Too many sheets." },
            format!("The blank has {} sheets.", blank.sheets.len()),
            format!("Stack one to {}.", limits::MOST_SHEETS),
        );
        return Vec::new();
    }
    let mut sheets = Vec::new();
    let mut whole = sized;
    for sheet in &blank.sheets {
        whole &= check.length(step, "A sheet", sheet.thickness, limits::SHEET);
        match recipe.glasses.find(&sheet.glass) {
            Some(glass) if glass.sheet => {
                sheets.push(PlannedSheet { glass: glass.clone(), thickness: sheet.thickness.f32() });
            }
            _ => check.unknown_glass(step, &sheet.glass, "sheet"),
        }
    }
    let stack: f64 = blank.sheets.iter().map(|sheet| sheet.thickness.0).sum();
    if whole && stack > blank.diameter.0 * MOST_THICK {
        let most = Mm(blank.diameter.0 * MOST_THICK);
        check.fault(
            step,
            "A block, not a sheet.",
            format!(
                "{} mm of glass on a disc of {} slumps over its own edge before it takes a mold's shape.",
                plain(stack),
                blank.diameter
            ),
            format!("Stack at most {} mm, or cut a wider disc.", fixed(most.0, 0)),
        );
    } else if whole {
        size_is_kept(check, recipe, stack);
    }
    sheets
}

/// A risk where a stack draws in or, without a dam, spreads.
fn size_is_kept(check: &mut Check, recipe: &Recipe, stack: f64) {
    let blank = &recipe.blank;
    let (least, most) = limits::KEEPS_ITS_SIZE;
    let thin = stack < least;
    if !thin && (stack <= most || recipe.fuse.dam.is_some()) {
        return;
    }
    let across = blank.diameter;
    let settles = (stack / resting_thickness(CONTACT_ANGLE)).sqrt();
    let settled = fixed(across.0 * settles, 0);
    let smaller = Mm((across.0 / settles).floor());
    let why = format!(
        "{} mm of glass {} about {settled} mm: melted glass wants to stand 6 to 7 mm high.",
        plain(stack),
        if thin { "draws in to" } else { "spreads to" },
    );
    let remedy = if thin {
        "Add a sheet.".into()
    } else {
        format!("Dam it at {across}, cut {smaller}, or take out a sheet.")
    };
    let more = blank.sheets.len() < limits::MOST_SHEETS;
    check.risk(Step::Blank, "Won't hold its size.", why, remedy).mend =
        if thin { more.then_some(Mend::AddSheet(Mm(3.0))) } else { Some(Mend::Dam(across)) };
}

pub(super) fn coats(check: &mut Check, recipe: &Recipe) -> Vec<PlannedCoat> {
    if recipe.coats.len() > limits::MOST_COATS {
        check.fault(
            Step::Recipe,
            "Too many coats.",
            format!("The recipe has {} coats.", recipe.coats.len()),
            format!("Use at most {}.", limits::MOST_COATS),
        );
        return Vec::new();
    }
    for (at, coat) in recipe.coats.iter().enumerate() {
        if recipe.coats[..at].iter().any(|other| other.id == coat.id) {
            check.fault(
                Step::Coat(coat.id),
                "Two coats with one number.",
                format!("Two coats are numbered {}, so their falls cannot be told apart.", coat.id),
                "Give one of them another number.",
            );
        }
    }
    let coats: Vec<PlannedCoat> =
        recipe.coats.iter().filter_map(|coat| one_coat(check, recipe, coat)).collect();
    let deepest: f64 = coats.iter().map(|coat| f64::from(coat.sift.depth())).sum();
    if deepest > 4.0 {
        check.risk(
            Step::Recipe,
            "Powder piled deep.",
            format!(
                "The coats lie up to {} mm deep where they meet; a deep bed slides and traps air.",
                plain(deepest)
            ),
            "Sift less, or fire in between.",
        );
    }
    coats
}

fn one_coat(check: &mut Check, recipe: &Recipe, coat: &Coat) -> Option<PlannedCoat> {
    let step = Step::Coat(coat.id);
    let blend = blend(check, step, recipe, &coat.powder);
    fall(check, step, coat, blend.as_ref());
    check.length(step, "The bare rim", coat.bare_rim, limits::BARE_RIM);
    check.length(
        step,
        "The raggedness of the bare rim",
        coat.bare_rim_raggedness,
        limits::BARE_RIM_RAGGEDNESS,
    );
    check.share(step, "The unevenness", coat.unevenness, limits::UNEVENNESS);
    check.range(step, "The turn of the layout", coat.layout.turned.0, limits::TURNED, "°");
    check.length(step, "The move to the right", coat.layout.moved_right, limits::MOVED);
    check.length(step, "The move up", coat.layout.moved_up, limits::MOVED);
    hand_checks::patches(check, step, &coat.layout.by_hand);
    if let Fall::Patches(patches) = &coat.fall {
        let clean = recipe.blank.diameter.0 / 2.0 - coat.bare_rim.0;
        let inside = clean / (recipe.blank.diameter.0 / 2.0);
        let most = inside * inside;
        if patches.coverage > most && limits::COVERAGE.holds(patches.coverage) {
            check.fault(
                step,
                "More patches than room.",
                format!(
                    "Inside its bare rim of {} the disc has room for {} %, and {} % is asked.",
                    coat.bare_rim,
                    fixed(most * 100.0, 0),
                    fixed(patches.coverage * 100.0, 0)
                ),
                "Cover less of the disc, or make the bare rim narrower.",
            );
        }
    }
    let sift = SiftPlan {
        id: coat.id,
        disc: Disc::new(recipe.blank.diameter),
        fall: coat.fall.clone(),
        bare_rim: coat.bare_rim.f32(),
        bare_rim_raggedness: coat.bare_rim_raggedness.f32(),
        unevenness: coat.unevenness as f32,
        layout: coat.layout.clone(),
    };
    blend.map(|blend| PlannedCoat { sift, blend })
}

fn fall(check: &mut Check, step: Step, coat: &Coat, blend: Option<&Blend>) {
    let thinnest = match &coat.fall {
        Fall::Even { depth } => {
            check.length(step, "The depth", *depth, limits::EVEN_DEPTH);
            *depth
        }
        Fall::Patches(patches) => {
            check.length(step, "The depth", patches.depth, limits::PATCH_DEPTH);
            check.share(step, "The part of the disc covered", patches.coverage, limits::COVERAGE);
            check.length(step, "The patch size", patches.size, limits::PATCH_SIZE);
            check.length(step, "The raggedness", patches.raggedness, limits::PATCH_RAGGEDNESS);
            check.length(step, "The soft edge", patches.soft_edge, limits::SOFT_EDGE);
            check.length(step, "The thin margin", patches.thin_margin, limits::THIN_MARGIN);
            check.share(step, "The depth left at the edge", patches.margin_left, limits::MARGIN_LEFT);
            check.share(step, "The stray dust", patches.stray_dust, limits::STRAY_DUST);
            check.length(step, "The reach of the stray dust", patches.stray_reach, limits::STRAY_REACH);
            check.share(step, "The pull toward the rim", patches.toward_rim, limits::TOWARD_RIM);
            patches.depth
        }
        Fall::ThickAndThin(range) => {
            let sound = check.length(step, "The thinnest film", range.thinnest, limits::THINNEST)
                & check.length(step, "The thickest heap", range.thickest, limits::THICKEST);
            check.length(step, "The blotch size", range.blotch_size, limits::BLOTCH_SIZE);
            check.range(step, "Mostly thin or thick", range.mostly_thin, limits::MOSTLY_THIN, "");
            check.length(step, "The raggedness", range.raggedness, limits::BLOTCH_RAGGEDNESS);
            if sound {
                check.order(step, "Thinnest", range.thinnest, "thickest", range.thickest);
            }
            range.thickest
        }
    };
    if let Some(blend) = blend {
        covers(check, step, thinnest, blend);
    }
}

/// What is advised instead leaves this share bare (a judgment).
const BARE_AS_ADVISED: f64 = 0.15;

/// A note, or a risk where more than half is bare, where a coat is too thin to cover.
fn covers(check: &mut Check, step: Step, depth: Mm, blend: &Blend) {
    let (grain, packing) = (f64::from(blend.sieve), f64::from(blend.packing));
    let bare = cover::bare(depth.0 * packing, grain);
    if depth.0 <= 0.0 || !(cover::MOST_BARE..1.0).contains(&bare) {
        return;
    }
    let what = format!("Too thin to cover: {} % bare.", fixed(bare * 100.0, 0));
    let why = format!("At {depth} grains of {} mm lie as scattered specks.", plain(grain));
    let enough = Mm((cover::glass_for(BARE_AS_ADVISED, grain) / packing * 100.0).ceil() / 100.0);
    let tell = if bare > 0.5 { Check::risk } else { Check::note };
    tell(check, step, &what, why, format!("Sift {enough}.")).mend = Some(Mend::Sift(enough));
}

fn blend(check: &mut Check, step: Step, recipe: &Recipe, powder: &[Part]) -> Option<Blend> {
    let shares = parts(check, step, recipe, powder)?;
    let mean = |of: &dyn Fn(&Glass) -> f32| shares.iter().map(|(glass, share)| share * of(glass)).sum();
    // Off the usual by so much: a blend of usual glasses is usual to the last bit.
    let off = |of: &dyn Fn(&Glass) -> f64| -> f64 {
        shares.iter().map(|(g, share)| f64::from(*share) * of(g)).sum()
    };
    let fired: Vec<Material> = shares.iter().map(|(glass, _)| glass.fired_powder()).collect();
    Some(Blend {
        material: Material::blend(fired.iter().zip(&shares).map(|(material, (_, share))| (material, *share))),
        grain: mean(&Glass::optical_grain),
        sieve: mean(&|glass| glass.grain.f32()),
        packing: (recipe.packing / (1.0 + off(&|glass| recipe.packing / packing(recipe, glass) - 1.0)))
            as f32,
        density: DENSITY + off(&|glass| glass.density - DENSITY),
        shares,
    })
}

/// Share of a glass's sifted bed that is glass.
fn packing(recipe: &Recipe, glass: &Glass) -> f64 {
    glass.packing.unwrap_or(recipe.packing)
}

/// Looks up the glasses of a blend and turns spoons into shares of the fired glass.
fn parts(check: &mut Check, step: Step, recipe: &Recipe, parts: &[Part]) -> Option<Vec<(Glass, f32)>> {
    if parts.len() > limits::MOST_PARTS {
        check.fault(
            step,
            "Too many glasses in one blend.",
            format!("It has {}.", parts.len()),
            format!("Use at most {}.", limits::MOST_PARTS),
        );
        return None;
    }
    let mut sound = true;
    let mut found = Vec::new();
    for part in parts {
        sound &= check.range(step, "The parts of a glass", part.parts, limits::PARTS, "");
        match recipe.glasses.find(&part.glass) {
            // A spoon of what packs closer holds more glass.
            Some(glass) if glass.powder => {
                found.push((glass, part.parts * (packing(recipe, glass) / recipe.packing)))
            }
            _ => {
                check.unknown_glass(step, &part.glass, "powder");
                sound = false;
            }
        }
    }
    let sum: f64 = found.iter().map(|(_, parts)| parts).sum();
    if sound && sum <= 0.0 {
        check.fault(step, "No powder.", "All its parts are zero.".into(), "Give at least one glass a part.");
        return None;
    }
    let some = found.into_iter().filter(|(_, parts)| *parts > 0.0);
    sound.then(|| some.map(|(glass, parts)| (glass.clone(), (parts / sum) as f32)).collect())
}

pub(super) fn sponge(check: &mut Check, sponge: &Sponge) {
    let step = Step::Sponge;
    check.length(step, "What one touch lifts", sponge.lift, limits::LIFT);
    check.range(step, "Passes over the disc", sponge.passes, limits::PASSES, "");
    check.share(step, "How far the press closes the pores", sponge.press, limits::PRESS);
    check.length(step, "The widest pores", sponge.pores, limits::PORES);
    let sound = check.length(step, "The narrowest roll", sponge.roll_from, limits::ROLL)
        & check.length(step, "The widest roll", sponge.roll_to, limits::ROLL);
    if sound {
        check.order(step, "Narrowest roll", sponge.roll_from, "widest", sponge.roll_to);
    }
    check.range(step, "Touches in a roll", sponge.presses.into(), limits::PRESSES, "");
    check.share(step, "What it puts back", sponge.puts_back, limits::PUTS_BACK);
    check.share(step, "What stays on after brushing", sponge.stays_on, limits::STAYS_ON);
    if let Some(rolls) = sponge.rewet_every {
        check.range(step, "Rolls between dips", rolls.into(), limits::REWET, "");
    }
    check.range(step, "The twist between rolls", sponge.twist.0, limits::TWIST, "°");
}

pub(super) fn accents(check: &mut Check, recipe: &Recipe, accents: &Accents) -> Option<PlannedAccents> {
    let step = Step::Accents;
    let glasses = parts(check, step, recipe, &accents.glasses);
    let sound = check.length(step, "The finer sieve", accents.grade_from, limits::GRADE)
        & check.length(step, "The coarser sieve", accents.grade_to, limits::GRADE)
        & check.length(step, "The distance from the rim", accents.from_rim, limits::FROM_RIM)
        & check.length(step, "The width of the band", accents.band, limits::BAND)
        & check.length(step, "The least gap", accents.least_gap, limits::LEAST_GAP)
        & check.share(step, "The looseness", accents.looseness, limits::LOOSENESS)
        & match accents.number {
            Number::Count(count) => {
                check.range(step, "The number of accents", count.into(), limits::ACCENTS, "")
            }
            Number::Spacing(spacing) => check.length(step, "The spacing", spacing, limits::SPACING),
        };
    if !sound {
        return None;
    }
    if !hand_checks::accents(check, recipe, accents) {
        return None;
    }
    check.order(step, "Finer sieve", accents.grade_from, "coarser", accents.grade_to);
    let radius = recipe.blank.diameter.f32() / 2.0;
    let (half_band, half_size) = (accents.band.f32() / 2.0, accents.grade_to.f32() / 2.0);
    let ring = radius - accents.from_rim.f32();
    if ring + half_band + half_size > radius || ring - half_band < half_size {
        let fitting = Mm(f64::from(half_band + half_size + 1.0).min(f64::from(radius)));
        check
            .fault(
                step,
                "Accents off the disc.",
                format!(
                    "A band of {} set {} from the rim, with pieces of {}, does not lie on a disc of {}.",
                    accents.band, accents.from_rim, accents.grade_to, recipe.blank.diameter
                ),
                format!("Set the band {fitting} from the rim."),
            )
            .mend = Some(Mend::FromRim(fitting));
        return None;
    }
    let round = 2.0 * PI * ring;
    let count = match accents.number {
        Number::Count(count) => count,
        Number::Spacing(spacing) => (round / spacing.f32()) as u32,
    };
    let room = if accents.least_gap.0 > 0.0 { (round / accents.least_gap.f32()) as u32 } else { u32::MAX };
    if count > room {
        check.fault(
            step,
            "More accents than the ring holds.",
            format!(
                "With a gap of {} the ring of {} mm holds {room}, and {count} are asked.",
                accents.least_gap,
                fixed(f64::from(round), 0)
            ),
            "Set fewer, or let them lie closer.",
        );
        return None;
    }
    if count > 1 && accents.least_gap < accents.grade_to {
        check
            .note(
                step,
                "Accents may touch.",
                format!("Pieces of {} may lie {} apart.", accents.grade_to, accents.least_gap),
                format!("Make the least gap {} if they should not.", accents.grade_to),
            )
            .mend = limits::LEAST_GAP.holds(accents.grade_to.0).then_some(Mend::Gap(accents.grade_to));
    }
    glasses.map(|glasses| PlannedAccents {
        glasses,
        sizes: (accents.grade_from.f32(), accents.grade_to.f32()),
        count,
        ring,
        band: accents.band.f32(),
        least_gap: accents.least_gap.f32(),
        looseness: accents.looseness as f32,
        layout: accents.layout.clone(),
    })
}

/// How much wider than its hump a disc may be: a judgment, no source. Beyond it more glass hangs free than is carried.
const MOST_DRAPED: f64 = 1.5;
/// How much wider than its mold's opening a disc may be: a judgment, no source. A few percent of overhang slide in.
const MOST_OVERHANG: f64 = 1.05;

pub(super) fn slump(check: &mut Check, recipe: &Recipe) {
    let step = Step::Slump;
    let mold = &recipe.mold;
    let sound = check.length(step, "The opening of the mold", mold.opening, limits::OPENING)
        & check.length(step, "The depth of the mold", mold.depth, limits::DEPTH);
    if !sound {
        return;
    }
    if mold.depth.0 > mold.opening.0 / 2.0 {
        check
            .fault(
                step,
                "Deeper than half its width.",
                format!(
                    "A mold {} across and {} deep has walls that glass cannot sink down.",
                    mold.opening, mold.depth
                ),
                format!("Use a depth of at most {}.", Mm(mold.opening.0 / 2.0)),
            )
            .mend = Some(Mend::Depth(Mm(mold.opening.0 / 2.0)));
    }
    if let Form::FlatBottom { bottom, corner } | Form::Flare { bottom, corner } = &mold.form
        && corner_fits(check, mold, *bottom, *corner)
    {
        corner_is_followed(check, recipe, *corner);
    }
    let (disc, opening) = (recipe.blank.diameter, mold.opening);
    if !limits::DISC.holds(disc.0) {
        return;
    }
    if mold.form == Form::Hump && disc.0 > opening.0 * MOST_DRAPED {
        check
            .fault(
                step,
                "Too wide for its hump.",
                format!("A disc of {disc} over a hump of {opening} tips, or hangs down beside it in folds."),
                format!("Cut {opening}, or use a wider hump."),
            )
            .mend = Some(Mend::Cut(opening));
    } else if disc.0 > opening.0 * MOST_OVERHANG && mold.form != Form::Hump {
        check
            .fault(
                step,
                "Too wide for its mold.",
                format!("A disc of {disc} hangs over a rim of {opening} and folds."),
                format!("Cut {opening}, or use a wider mold."),
            )
            .mend = Some(Mend::Cut(opening));
    } else if disc.0 > opening.0 {
        check
            .risk(
                step,
                "Wider than its mold.",
                format!("A disc of {disc} overhangs a rim of {opening}; it may wrinkle or catch."),
                format!("Cut {opening}."),
            )
            .mend = Some(Mend::Cut(opening));
    } else if disc.0 < opening.0 * 0.8 {
        check
            .note(
                step,
                "Small for its mold.",
                format!(
                    "A disc of {disc} lies down inside a mold of {opening} and takes only its bottom's curve."
                ),
                format!("Cut up to {opening} for the whole depth."),
            )
            .mend = Some(Mend::Cut(opening));
    }
}

/// Whether a corner can be that of a mold at all; a fault if not.
fn corner_fits(check: &mut Check, mold: &Mold, bottom: Mm, corner: Mm) -> bool {
    let step = Step::Slump;
    let sound = check.length(step, "The bottom of the mold", bottom, limits::BOTTOM)
        & check.length(step, "The corner of the mold", corner, limits::CORNER);
    let wall = (mold.opening.0 - bottom.0) / 2.0;
    let slope = crate::base::scalar::atan2(mold.depth.0, wall);
    let tangent = corner.0 * crate::base::scalar::tan(slope / 2.0);
    let fits = wall > 0.0 && tangent <= bottom.0 / 2.0 && tangent <= wall;
    if sound && !fits {
        check.fault(
            step,
            "An impossible mold.",
            format!(
                "A bottom of {bottom} with a corner of {corner} does not fit a mold {} across and {} deep.",
                mold.opening, mold.depth
            ),
            "Make the bottom narrower than the opening, or the corner smaller.",
        );
    }
    sound && fits
}

/// A risk where the glass is too thick to follow a corner: its inner face would bend around less than nothing.
fn corner_is_followed(check: &mut Check, recipe: &Recipe, corner: Mm) {
    let stack: f64 = recipe.blank.sheets.iter().map(|sheet| sheet.thickness.0).sum();
    if corner.0 < stack {
        check.risk(
            Step::Slump,
            "Bridges its corner.",
            format!(
                "Glass {} mm thick does not bend into a corner of {corner}: it hangs across it.",
                plain(stack)
            ),
            format!("Use a corner of at least {} mm, or thinner glass.", plain(stack)),
        );
    }
}
