//! From a finished size back to the mold and the disc that give it.
//!
//! Two lengths are asked for and three are free, so the disc is cut to the mold's opening, as it usually is. A bottom and
//! a corner keep their share of the opening.

use super::dome::{Dome, DomeInputs};
use super::inputs::SLIDES;
use super::trajectory::Trajectory;
use crate::base::scalar::{atan2, tan};
use crate::base::units::Mm;
use crate::recipe::limits::{BOTTOM, CORNER, DEPTH, MOST_SHEETS, OPENING, SHEET};
use crate::recipe::{Form, Mold};

/// The size of a finished piece, outside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FinishedSize {
    /// Width across, rounded rim included.
    pub across: Mm,
    /// Height.
    pub high: Mm,
}

/// What gives a finished size.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// The mold.
    pub mold: Mold,
    /// Diameter of the disc to cut.
    pub disc: Mm,
}

/// Why no mold and disc give a size, with the nearest length that can be reached.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OutOfReach {
    /// No mold is narrow enough: a piece is at least this wide.
    TooNarrow(Mm),
    /// No mold is wide enough: a piece is at most this wide.
    TooWide(Mm),
    /// The glass itself and the shallowest mold are higher: a piece so wide is at least this high.
    TooLow(Mm),
    /// No mold of this form is deep enough for its width: a piece so wide is at most this high.
    TooHigh(Mm),
}

/// How closely a length is solved for, mm.
const CLOSE: f64 = 0.002;
/// A size this near is taken, mm.
const NEAR: f64 = 0.04;
/// A size at the end of what can be reached that is missed by this much is out of reach, mm.
const MISSED: f64 = 0.1;
/// Most discs that sink for one size.
const DISCS: usize = 12;
/// The widest bottom, as a share of the opening: the rest is the wall.
const WIDEST_BOTTOM: f64 = 0.95;
/// Parts of a millimeter that a length of the answer is rounded to: finer than glass is cut.
const PARTS: f64 = 10.0;

/// The mold, of the form of another one, and the disc for a finished size. `fused` says how wide and thick a disc cut so wide is behind its
/// full fuse. The lengths found are rounded to 0.1 mm.
///
/// What lies on its mold is found first, for it is quickly reckoned; a few discs that sink correct it.
///
/// # Errors
/// Why the size cannot be reached.
pub fn fit(like: &Mold, wanted: FinishedSize, fused: impl Fn(Mm) -> (Mm, Mm)) -> Result<Fit, OutOfReach> {
    let search = Search { like, fused: &fused };
    let (mut aim, mut best, mut limit) = (wanted, (f64::INFINITY, None), None::<(f64, OutOfReach)>);
    for _ in 0..DISCS {
        let (fit, beside, above) = search.lying(aim);
        let got = search.sunk(&fit);
        let end = beside.filter(|_| (wanted.across.0 - got.across.0).abs() >= MISSED).or(above);
        let (off, free) = (wanted.off(got), end.map(|end| (end.free(wanted, got), end.why(got))));
        // At an end of what can be reached, the other length says how good it is.
        limit = free
            .filter(|free| limit.is_none_or(|least| free.0 < least.0))
            .or(limit.filter(|_| end.is_some()));
        if off < best.0 {
            best = (off, Some(fit));
        }
        if off < NEAR {
            break;
        }
        aim = FinishedSize {
            across: Mm(aim.across.0 + wanted.across.0 - got.across.0),
            high: Mm(aim.high.0 + wanted.high.0 - got.high.0),
        };
    }
    match (best, limit) {
        ((off, Some(fit)), None) if off.is_finite() => Ok(fit),
        ((off, Some(fit)), _) if off < MISSED => Ok(fit),
        (_, Some((_, why))) => Err(why),
        _ => Err(OutOfReach::TooNarrow(Mm(OPENING.least))),
    }
}

/// An end of what can be reached.
#[derive(Clone, Copy, Debug)]
enum End {
    Narrow,
    Wide,
    Low,
    High,
}

impl End {
    /// What is said there of the size got there.
    fn why(self, got: FinishedSize) -> OutOfReach {
        match self {
            Self::Narrow => OutOfReach::TooNarrow(up(got.across.0)),
            Self::Wide => OutOfReach::TooWide(down(got.across.0)),
            Self::Low => OutOfReach::TooLow(up(got.high.0)),
            Self::High => OutOfReach::TooHigh(down(got.high.0)),
        }
    }

    /// How far the length that is free there is from the one that is wanted, mm.
    fn free(self, wanted: FinishedSize, got: FinishedSize) -> f64 {
        match self {
            Self::Narrow | Self::Wide => 0.0,
            Self::Low | Self::High => (wanted.across.0 - got.across.0).abs(),
        }
    }
}

impl FinishedSize {
    /// How far another size is from it: the larger of the two lengths, mm; endless where one is no number.
    fn off(self, other: Self) -> f64 {
        let off = (self.across.0 - other.across.0).abs().max((self.high.0 - other.high.0).abs());
        if self.across.0.is_nan() || self.high.0.is_nan() { f64::INFINITY } else { off }
    }
}

/// The sizes that molds of one form give with glass of one stack.
struct Search<'a> {
    like: &'a Mold,
    fused: &'a dyn Fn(Mm) -> (Mm, Mm),
}

impl Search<'_> {
    /// The mold and disc whose size is nearest to another one as the glass lies on its mold, and at which ends of what can be reached its
    /// width and its height are, if they are.
    fn lying(&self, aim: FinishedSize) -> (Fit, Option<End>, Option<End>) {
        let (shallow, widest, narrowest) = (DEPTH.least, OPENING.most, OPENING.least);
        let (least, most) = (self.across(narrowest, shallow), self.across(widest, shallow));
        let (across, beside) = within(aim.across.0, (least, End::Narrow), (most, End::Wide));
        let deepest = self.deepest(across);
        let high = |depth: f64| self.size(self.opening(across, depth), depth).high.0;
        let (wanted, above) = within(aim.high.0, (high(shallow), End::Low), (high(deepest), End::High));
        let depth = root(|depth| high(depth) - wanted, shallow, deepest);
        let opening = rounded(self.opening(across, depth)).max(OPENING.least);
        let depth = rounded(depth).clamp(DEPTH.least, DEPTH.most.min(opening / 2.0));
        (Fit { mold: tidy(self.mold(opening, depth)), disc: Mm(opening) }, beside, above)
    }

    /// The disc behind its full fuse. A recipe that cannot be made may ask for anything, and a dome takes as long as it is large.
    fn disc(&self, cut: f64, mold: Mold) -> DomeInputs {
        let (across, thick) = (self.fused)(Mm(cut));
        let thick = thick.0.max(SHEET.least).min(SHEET.most * MOST_SHEETS as f64);
        let across = across.0.max(0.5 * cut).min(2.0 * cut);
        DomeInputs { mold, radius: (across / 2.0) as f32, thickness: thick as f32 }
    }

    /// The size as the glass lies on its mold.
    fn size(&self, opening: f64, depth: f64) -> FinishedSize {
        sized(&Dome::new(&self.disc(opening, self.mold(opening, depth))))
    }

    /// The size of a disc that has sunk until it has settled; where its way is not known, as it lies on its mold.
    fn sunk(&self, fit: &Fit) -> FinishedSize {
        let disc = self.disc(fit.disc.0, fit.mold.clone());
        let way = Trajectory::new(&disc.sheet(SLIDES)).ok().filter(|way| way.trouble().is_none());
        sized(&way.map_or_else(|| Dome::new(&disc), |way| Dome::sunk(&way, way.settled_at())))
    }

    fn across(&self, opening: f64, depth: f64) -> f64 {
        self.size(opening, depth).across.0
    }

    /// A mold of this form, its bottom and its corner in proportion; a corner that does not fit is made smaller.
    fn mold(&self, opening: f64, depth: f64) -> Mold {
        let scale = opening / self.like.opening.0.max(OPENING.least);
        let shaped = |bottom: Mm, corner: Mm| {
            let bottom = (bottom.0 * scale).max(BOTTOM.least).min(WIDEST_BOTTOM * opening).min(BOTTOM.most);
            let wall = (opening - bottom) / 2.0;
            let fits = wall.min(bottom / 2.0) / tan(atan2(depth, wall) / 2.0);
            let corner = (corner.0 * scale).min(0.99 * fits).clamp(CORNER.least, CORNER.most);
            (Mm(bottom), Mm(corner))
        };
        let form = match &self.like.form {
            Form::Bowl => Form::Bowl,
            Form::Hump => Form::Hump,
            Form::FlatBottom { bottom, corner } => {
                let (bottom, corner) = shaped(*bottom, *corner);
                Form::FlatBottom { bottom, corner }
            }
            Form::Flare { bottom, corner } => {
                let (bottom, corner) = shaped(*bottom, *corner);
                Form::Flare { bottom, corner }
            }
        };
        Mold { form, opening: Mm(opening), depth: Mm(depth) }
    }

    /// The narrowest opening of a mold so deep: no mold is deeper than half its width.
    fn narrowest(depth: f64) -> f64 {
        OPENING.least.max(2.0 * depth)
    }

    /// The deepest mold that gives a width: a deeper one is too wide even where it is narrowest, or too narrow even where
    /// it is widest.
    fn deepest(&self, across: f64) -> f64 {
        let (shallow, deepest) = (DEPTH.least, DEPTH.most.min(OPENING.most / 2.0));
        let too_wide = |depth: f64| self.across(Self::narrowest(depth), depth) - across;
        let too_narrow = |depth: f64| across - self.across(OPENING.most, depth);
        let up_to = |too_much: &dyn Fn(f64) -> f64| {
            if too_much(deepest) > 0.0 { root(too_much, shallow, deepest) } else { deepest }
        };
        up_to(&too_wide).min(up_to(&too_narrow))
    }

    /// The opening of the mold so deep that gives a width.
    fn opening(&self, across: f64, depth: f64) -> f64 {
        root(|opening| self.across(opening, depth) - across, Self::narrowest(depth), OPENING.most)
    }
}

/// A value, or the end that it lies beyond; what is no number lies below.
fn within(value: f64, least: (f64, End), most: (f64, End)) -> (f64, Option<End>) {
    match () {
        () if value > most.0 => (most.0, Some(most.1)),
        () if value >= least.0 => (value, None),
        () => (least.0, Some(least.1)),
    }
}

fn sized(dome: &Dome) -> FinishedSize {
    FinishedSize { across: dome.across(), high: dome.high() }
}

/// Where a rising function is zero, between two places; the nearer end if it is not zero between them. False position
/// with the far end's value halved when it stays (Dowell and Jarratt 1971, BIT 11, 168): a sixth of bisection's steps.
fn root(of: impl Fn(f64) -> f64, low: f64, high: f64) -> f64 {
    let (mut a, mut b, mut fa, mut fb) = (low, high, of(low), of(high));
    if fa >= 0.0 {
        return a;
    }
    if fb <= 0.0 {
        return b;
    }
    for _ in 0..60 {
        let x = (a * fb - b * fa) / (fb - fa);
        let f = of(x);
        if f.abs() < CLOSE || b - a < CLOSE {
            return x;
        }
        if f < 0.0 {
            (a, fa, fb) = (x, f, fb / 2.0);
        } else {
            (b, fb, fa) = (x, f, fa / 2.0);
        }
    }
    f64::midpoint(a, b)
}

fn rounded(mm: f64) -> f64 {
    (mm * PARTS).round() / PARTS
}

fn up(mm: f64) -> Mm {
    Mm((mm * PARTS).ceil() / PARTS)
}

fn down(mm: f64) -> Mm {
    Mm((mm * PARTS).floor() / PARTS)
}

/// The mold with its bottom and corner rounded: the corner down, so that it goes on fitting.
fn tidy(mut mold: Mold) -> Mold {
    if let Form::FlatBottom { bottom, corner } | Form::Flare { bottom, corner } = &mut mold.form {
        (*bottom, *corner) = (Mm(rounded(bottom.0)), down(corner.0));
    }
    mold
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::recipe::Recipe;
    use crate::recipe::plan::Plan;

    fn forms() -> [Mold; 4] {
        let of = |form| Mold { form, opening: Mm(160.0), depth: Mm(48.0) };
        [
            of(Form::Bowl),
            of(Form::Hump),
            of(Form::FlatBottom { bottom: Mm(88.0), corner: Mm(20.0) }),
            of(Form::Flare { bottom: Mm(56.0), corner: Mm(20.0) }),
        ]
    }

    /// A disc that a full fuse draws in by a hundredth.
    fn fused(thickness: f64) -> impl Fn(Mm) -> (Mm, Mm) {
        move |cut| (Mm(0.99 * cut.0), Mm(thickness / 0.99 / 0.99))
    }

    fn given(fit: &Fit, thickness: f64) -> FinishedSize {
        let (across, thick) = fused(thickness)(fit.disc);
        let inputs =
            DomeInputs { mold: fit.mold.clone(), radius: (across.0 / 2.0) as f32, thickness: thick.f32() };
        let way = Trajectory::new(&inputs.sheet(0.0)).expect("it is a mold");
        let dome = match way.trouble() {
            None => Dome::sunk(&way, way.settled_at()),
            Some(_) => Dome::new(&inputs),
        };
        FinishedSize { across: dome.across(), high: dome.high() }
    }

    fn off(fit: &Fit, thickness: f64, wanted: FinishedSize) -> f64 {
        let given = given(fit, thickness);
        f64::max((given.across.0 - wanted.across.0).abs(), (given.high.0 - wanted.high.0).abs())
    }

    #[test]
    fn a_size_asked_for_is_the_size_of_the_dome() {
        let (mut found, mut worst, mut refused) = (0, 0.0, 0);
        for form in forms() {
            for across in (60..=380).step_by(53).map(f64::from) {
                for high in (8..=150).step_by(23).map(f64::from) {
                    for thickness in [3.0, 6.0, 9.0] {
                        let wanted = FinishedSize { across: Mm(across), high: Mm(high) };
                        match fit(&form, wanted, fused(thickness)) {
                            Ok(fit) => {
                                worst = f64::max(worst, off(&fit, thickness, wanted));
                                assert!(
                                    off(&fit, thickness, wanted) < 0.1,
                                    "{form:?} {thickness} {wanted:?}: {fit:?}"
                                );
                                found += 1;
                            }
                            Err(_) => refused += 1,
                        }
                    }
                }
            }
        }
        println!("{found} sizes found, at worst {worst:.3} mm off; {refused} out of reach");
        assert!(found > 150 && refused > 50, "{found} found, {refused} refused");
    }

    #[test]
    fn what_was_found_can_be_made() {
        for form in forms() {
            let wanted = FinishedSize { across: Mm(150.0), high: Mm(40.0) };
            let fit = fit(&form, wanted, fused(6.0)).unwrap();
            let mut recipe = Recipe { mold: fit.mold.clone(), ..Recipe::bare() };
            recipe.blank.diameter = fit.disc;
            let planned = Plan::new(&recipe).unwrap();
            assert!(planned.notices.is_empty(), "{:?}: {:?}", form.form, planned.notices);
            assert_eq!(fit.disc, fit.mold.opening, "the disc is cut to the opening");
        }
    }

    #[test]
    fn a_size_out_of_reach_is_refused_with_the_nearest_one() {
        let ask = |form: &Mold, across: f64, high: f64| {
            fit(form, FinishedSize { across: Mm(across), high: Mm(high) }, fused(6.0))
        };
        for form in forms() {
            let Err(OutOfReach::TooNarrow(least)) = ask(&form, 40.0, 20.0) else { panic!("{form:?}") };
            let Err(OutOfReach::TooWide(most)) = ask(&form, 500.0, 60.0) else { panic!("{form:?}") };
            let Err(OutOfReach::TooLow(lowest)) = ask(&form, 150.0, 6.0) else { panic!("{form:?}") };
            let Err(OutOfReach::TooHigh(highest)) = ask(&form, 150.0, 140.0) else { panic!("{form:?}") };
            assert!(least.0 > 45.0 && most.0 > 390.0 && lowest.0 < 12.0 && highest.0 > 40.0);
            for (across, high) in [(150.0, lowest.0), (150.0, highest.0)] {
                let wanted = FinishedSize { across: Mm(across), high: Mm(high) };
                let fit = ask(&form, across, high).unwrap();
                assert!(off(&fit, 6.0, wanted) < 0.1, "{form:?} {wanted:?}");
            }
            for width in [least.0, most.0] {
                assert!(!matches!(
                    ask(&form, width, 11.0),
                    Err(OutOfReach::TooNarrow(_) | OutOfReach::TooWide(_))
                ));
            }
        }
    }

    #[test]
    fn what_is_no_number_is_refused() {
        for (across, high) in
            [(f64::NAN, 40.0), (150.0, f64::NAN), (f64::INFINITY, 40.0), (150.0, f64::INFINITY)]
        {
            let wanted = FinishedSize { across: Mm(across), high: Mm(high) };
            assert!(fit(&forms()[0], wanted, fused(6.0)).is_err(), "{wanted:?}");
        }
    }

    #[test]
    fn a_mold_that_cannot_be_costs_neither_time_nor_a_panic() {
        let hostile = [f64::NAN, f64::INFINITY, -1e300, -1.0, 0.0, 1e-300, 1e300];
        for wild in hostile {
            for form in [
                Form::Hump,
                Form::FlatBottom { bottom: Mm(wild), corner: Mm(wild) },
                Form::Flare { bottom: Mm(80.0), corner: Mm(wild) },
            ] {
                for (opening, thickness) in [(wild, 6.0), (160.0, wild), (wild, wild)] {
                    let like = Mold { form: form.clone(), opening: Mm(opening), depth: Mm(wild) };
                    let wanted = FinishedSize { across: Mm(150.0), high: Mm(40.0) };
                    drop(fit(&like, wanted, fused(thickness)));
                }
            }
        }
    }

    #[test]
    fn few_domes_are_tried() {
        let tried = std::cell::Cell::new(0);
        let found = root(
            |x| {
                tried.set(tried.get() + 1);
                x * x * x - 30.0
            },
            0.0,
            10.0,
        );
        assert!(
            (found * found * found - 30.0).abs() < 0.1 && tried.get() < 25,
            "{found} after {}",
            tried.get()
        );
    }
}
