//! What glasses that touch do to each other: pull, or darken. What touches what is known from the stack alone: the sheets, each coat on the
//! sheets and on the coats below it, the accents on all.

use super::check::Check;
use super::planned::{PlannedAccents, PlannedCoat, PlannedSheet};
use crate::base::notice::Step;
use crate::base::units::{fixed, short};
use crate::glass::kind::{Family, Glass};
use crate::glass::misfit::{Layer, Stress, together};

/// Expansions apart by no more than this, 1e-6/K, go together: common practice, no source. (A hair more, for sums of shares.)
const FITS: f64 = 0.1 + 1e-6;
/// Apart by more than this they do not: common practice, no source.
const NEVER_FITS: f64 = 0.3 + 1e-6;
/// Pulls that are called by a name, MPa, from the weakest: long tension in annealed glass is often held to 7 (common practice, no source);
/// seals of beads were "in some cases" safe above 9.8 (Redston and Stanworth 1945, second hand).
const PULLS: [(f64, &str); 3] =
    [(3.5, "a light pull"), (7.0, "a pull that annealed glass bears"), (9.8, "more than it is trusted with")];
const BREAKS: &str = "enough to crack it";

/// Everything that touches.
pub(super) struct Touching<'a> {
    /// Bottom to top.
    pub sheets: &'a [PlannedSheet],
    /// In the order they are sifted.
    pub coats: &'a [PlannedCoat],
    /// The accents.
    pub accents: Option<&'a PlannedAccents>,
}

/// A layer that is held against what it lies on.
struct Laid<'a> {
    step: Step,
    name: &'a str,
    layer: Layer,
}

/// Checks what touches.
pub(super) fn neighbors(check: &mut Check, touching: &Touching) {
    if touching.sheets.is_empty() {
        return;
    }
    sheets_fit(check, touching.sheets);
    let under = together(touching.sheets.iter().map(layer));
    let laid = touching.coats.iter().map(coat).chain(accents(touching));
    laid.for_each(|laid| fits(check, &laid, under, "the sheets"));
    darken(check, touching);
}

fn layer(sheet: &PlannedSheet) -> Layer {
    Layer { thickness: sheet.thickness.into(), expansion: sheet.glass.expansion }
}

fn coat(coat: &PlannedCoat) -> Laid<'_> {
    let thickness = f64::from(coat.sift.depth() * coat.blend.packing);
    let layer = Layer { thickness, expansion: coat.blend.expansion() };
    Laid { step: Step::Coat(coat.sift.id), name: coat.blend.name(), layer }
}

/// The accents, each glass for itself: tacked, a piece lies about half as high as it is wide (a judgment).
fn accents<'a>(touching: &'a Touching) -> impl Iterator<Item = Laid<'a>> {
    touching.accents.into_iter().flat_map(|accents| {
        let thickness = f64::from(accents.sizes.1) / 2.0;
        accents.glasses.iter().map(move |(glass, _)| Laid {
            step: Step::Accents,
            name: &glass.name,
            layer: Layer { thickness, expansion: glass.expansion },
        })
    })
}

/// The sheet that is furthest from the others.
fn sheets_fit(check: &mut Check, sheets: &[PlannedSheet]) {
    let others = |at: usize| {
        together(sheets.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, sheet)| layer(sheet)))
    };
    let each = (0..sheets.len()).filter(|_| sheets.len() > 1).map(|at| (at, others(at)));
    let apart = |(at, others): &(usize, Layer)| (sheets[*at].glass.expansion - others.expansion).abs();
    if let Some((at, others)) = each.max_by(|one, other| apart(one).total_cmp(&apart(other))) {
        let laid = Laid { step: Step::Blank, name: &sheets[at].glass.name, layer: layer(&sheets[at]) };
        fits(check, &laid, others, "the other sheets");
    }
}

/// Says so where a layer does not fit what it lies on.
fn fits(check: &mut Check, laid: &Laid, under: Layer, unders: &str) {
    let more = laid.layer.expansion - under.expansion;
    if more.abs() <= FITS {
        return;
    }
    let name = laid.name;
    let [own, below] = Stress::of(laid.layer, under).pulls();
    let (pulled, pull) = if more > 0.0 {
        (format!("{} stays", name.to_lowercase()), own)
    } else {
        (format!("{unders} stay"), below)
    };
    let why = format!(
        "{name} shrinks {} ppm/K {} than {unders}: cold, {pulled} pulled by {} MPa, {}.",
        short(more.abs(), 2),
        if more > 0.0 { "more" } else { "less" },
        short(pull, 1),
        in_words(pull),
    );
    let remedy = format!(
        "Take one with about {} ppm/K, or fuse a chip of each on clear and look between crossed polarizers.",
        fixed(under.expansion, 1)
    );
    if more.abs() > NEVER_FITS {
        check.risk(laid.step, "Won't fit.", why, remedy);
    } else {
        check.note(laid.step, "May not fit.", why, remedy);
    }
}

fn in_words(pull: f64) -> &'static str {
    PULLS.iter().find(|(most, _)| pull <= *most).map_or(BREAKS, |(_, words)| words)
}

/// A note for each that may darken where it meets something below it: the first such neighbor.
fn darken(check: &mut Check, touching: &Touching) {
    let mut below: Vec<&Glass> = Vec::new();
    for sheet in touching.sheets {
        meets(check, Step::Blank, [&sheet.glass], &mut below);
    }
    // Of the sheets, coats touch the uppermost.
    below = touching.sheets.last().map(|sheet| &sheet.glass).into_iter().collect();
    for coat in touching.coats {
        meets(check, Step::Coat(coat.sift.id), glasses(&coat.blend.shares), &mut below);
    }
    if let Some(accents) = touching.accents {
        meets(check, Step::Accents, glasses(&accents.glasses), &mut below);
    }
}

fn glasses(shares: &[(Glass, f32)]) -> impl Iterator<Item = &Glass> {
    shares.iter().map(|(glass, _)| glass)
}

/// Lays glasses on those below.
fn meets<'a>(
    check: &mut Check,
    step: Step,
    laid: impl IntoIterator<Item = &'a Glass>,
    below: &mut Vec<&'a Glass>,
) {
    let mut said = false;
    for glass in laid {
        let other = below.iter().find_map(|other| Some((other, reacts(glass, other)?)));
        if let (Some((other, metal)), false) = (other, said) {
            said = true;
            let why = format!(
                "{} touches {}: where sulfur or selenium meets {metal}, a dark line may come.",
                glass.name,
                other.name.to_lowercase()
            );
            check.note(step, "May darken.", why, "Fire a test strip of the two, wanted or not.");
        }
        below.push(glass);
    }
}

/// The metal by which two glasses may darken: the sulfide or selenide of copper, lead or silver is dark (Weyl 1951, Coloured
/// Glasses, from memory; common practice).
fn reacts(one: &Glass, other: &Glass) -> Option<&'static str> {
    let metal = |one: &Glass, other: &Glass| {
        let sulfur = one.families.contains(&Family::Sulfur);
        let metals = [(Family::Copper, "copper"), (Family::Lead, "lead"), (Family::Silver, "silver")];
        metals
            .into_iter()
            .find(|(family, _)| sulfur && other.families.contains(family))
            .map(|(_, metal)| metal)
    };
    metal(one, other).or_else(|| metal(other, one))
}
